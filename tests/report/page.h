/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A made-up study ready to be reported, and the report read back as text. */
#ifndef DEW_TESTS_PAGE_H
#define DEW_TESTS_PAGE_H

#include <stdio.h>
#include <stdlib.h>

#include "dew/report.h"
#include "study/scene.h"

static struct scene page_scene;
static struct dew_verdict page_verdict;
static struct dew_caution page_cautions[DEW_CAUTIONS];
static struct dew_date page_dates[SCENE_HOURS];
static double page_series[SCENE_MOST][SCENE_HOURS];
static const struct dew_report_input page_inputs[] = {
    {"", "house.volume", "16200 ft3", "file", ""},
    {"", "house.bedrooms", "3", "default", "common practice, no source"},
    {"heat core", "ventilator.flow", "95 cfm", "option", ""},
};
static const struct dew_report_file page_files[] = {
    {"scenario",
     "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
};

/* A year of hours: dates, and one wavy series for every column. */
static inline void page_hours(size_t option)
{
    struct dew_outcome *o = &page_scene.outcomes[option];
    size_t h = 0;

    for (int m = 0; m < 12; m++)
        for (int d = 1; d <= scene_days[m]; d++)
            for (int hour = 1; hour <= 24; hour++, h++) {
                double part = 6.283185307179586 * (double)h / SCENE_HOURS;

                page_dates[h] = (struct dew_date){0, m + 1, d, hour, 0, 1};
                page_series[option][h] =
                    0.48 - 0.14 * cos(part) + 0.03 * sin(24.13 * (double)h);
            }
    o->count = SCENE_HOURS;
#define X(name, heading, factor, decimals) o->series.name = page_series[option];
    DEW_SERIES_MAP(X)
#undef X
    for (int m = 0; m < DEW_MONTHS; m++)
        for (int k = 0; k < DEW_DAY_HOURS; k++)
            o->rh_map[m][k] = 0.35 + 0.02 * m + 0.003 * k;
    for (int i = 0; i < DEW_DURATION; i++)
        o->duration[i] = 0.7 - 0.004 * i;
    o->rh_5 = 0.31;
    o->rh_50 = 0.47;
    o->rh_95 = 0.66;
}

static inline void page_tally(struct dew_tally *t, double weight)
{
    t->rh_sum = 0.47 * t->hours;
    t->rh_min = 0.22;
    t->rh_max = 0.81;
    t->t_sum = 22.3 * t->hours;
    t->t_min = 18.9;
    t->t_max = 26.4;
    t->co2_sum = 731 * t->hours;
    t->co2_max = 1412;
    t->could_dry = 0.6 * t->hours;
    t->fresh_sum = 0.040 * t->hours;
    t->drawn_sum = 0.006 * t->hours;
    t->leak_sum = 0.012 * t->hours;
    t->water.people = 1834.5 * weight;
    t->water.showers = 702.25 * weight;
    t->water.leakage = -911 * weight;
    t->water.fresh = -2204 * weight;
    t->water.recovered = 618 * weight;
    t->water.coil = -388 * weight;
    t->heat.solar = 21e9 * weight;
    t->energy.ventilator = 412 * KWH * weight;
    t->energy.cooling = 1873 * KWH * weight;
    t->energy.heating_power = 2210 * KWH * weight;
}

/* count options (1 .. 6), the first too humid in summer. */
static inline struct dew_report page_open(size_t count, enum dew_system system)
{
    struct dew_report r = {0};

    scene_open(&page_scene, count);
    for (size_t i = 0; i < count; i++) {
        struct scene *s = &page_scene;

        page_hours(i);
        page_tally(&s->outcomes[i].year, 1);
        for (int m = 0; m < DEW_MONTHS; m++)
            page_tally(&s->outcomes[i].month[m], scene_days[m] / 365);
        for (int m = 5; m < 9; m++)
            scene_humid(s, i, m, 600 / (double)(1 + i));
        s->outcomes[i].year.longest_too_humid = 211;
        s->cases[i].limits = (struct dew_limits){0.60, 0.30};
        s->facts[i].core = i > 0 ? DEW_CORE_heat_plate : DEW_CORE_none;
        s->costs[i].install = (struct dew_estimate)SAME(3100.0 * (double)i);
    }
    dew_verdict_of(&page_scene.question, &page_verdict);
    r.title = "Long low house by a lake, made up";
    r.version = "0.1.0";
    r.question = &page_scene.question;
    r.verdict = &page_verdict;
    r.cautions = page_cautions;
    r.caution_count =
        dew_cautions_of(&page_scene.question, page_cautions, DEW_CAUTIONS);
    r.weather = "made-up year";
    r.dates = page_dates;
    r.inputs = page_inputs;
    r.input_count = 3;
    r.files = page_files;
    r.file_count = 1;
    r.system = system;
    return r;
}

typedef enum dew_status page_writer(const struct dew_report *r, FILE *out,
                                    struct dew_error *err);

/* What write makes of r; the caller frees it. */
static inline char *page_written(page_writer *write, const struct dew_report *r,
                                 size_t *length)
{
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    struct dew_error err = {0};

    if (out == NULL)
        abort();
    if (write(r, out, &err) != DEW_OK) {
        fclose(out);
        free(text);
        return NULL;
    }
    fclose(out);
    if (length != NULL)
        *length = size;
    return text;
}

#endif
