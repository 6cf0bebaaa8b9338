/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The groups of a survey as a chart: a bar of hours too humid for each, a
   stroke of hours too dry beside it. */
#include <math.h>
#include <stdlib.h>

#include "core/fail.h"
#include "draw/figure.h"
#include "report/words.h"
#include "survey/survey.h"

enum { NAME = 90 }; /* bytes of a group's name */

static void name_of(const struct dew_survey_show *show, size_t i,
                    char name[NAME + 24])
{
    char words[NAME];

    dew_survey_group_words(show, i, words, sizeof words);
    snprintf(name, NAME + 24, "%zu %s", i + 1, words);
}

static void bar(const struct draw__plot *p, const struct dew_survey_show *show,
                size_t i)
{
    const struct dew_survey_group *g = &show->groups[i];
    const struct dew_survey_range *h = &g->too_humid, *d = &g->too_dry;
    const double x = (double)i,
                 corner[4] = {x + 0.15, h->p10, x + 0.65, h->p90};
    const double across[2] = {x + 0.15, x + 0.65}, mid[2] = {h->p50, h->p50};
    const double beside[2] = {x + 0.8, x + 0.8}, span[2] = {d->p10, d->p90};
    const double tick[2] = {x + 0.72, x + 0.88}, half[2] = {d->p50, d->p50};
    char name[NAME + 24], words[400];

    name_of(show, i, name);
    snprintf(words, sizeof words,
             "%s: too humid %.20s to %.20s h, half below %.20s; too dry %.20s "
             "to %.20s h, half below %.20s",
             name, report__number(h->p10, 0).text,
             report__number(h->p90, 0).text, report__number(h->p50, 0).text,
             report__number(d->p10, 0).text, report__number(d->p90, 0).text,
             report__number(d->p50, 0).text);
    draw__svg_bar(p, corner, draw__svg_option(i), words);
    draw__svg_line(p, across, mid, 2, "thick");
    draw__svg_line(p, beside, span, 2, "thin");
    draw__svg_line(p, tick, half, 2, "thin");
}

static void words_of(const struct dew_survey_show *show, struct draw__figure *f)
{
    size_t least = 0;
    char name[NAME + 24];

    snprintf(f->heading, sizeof f->heading,
             "Hours of the year too humid and too dry");
    snprintf(
        f->note, sizeof f->note,
        "Of %.20s house-years marched: a bar holds the hours too humid of 8 "
        "of 10, the stroke beside it the hours too dry.",
        report__number((double)show->marches, 0).text);
    for (size_t i = 1; i < show->count; i++)
        if (show->groups[i].too_humid.p50 < show->groups[least].too_humid.p50)
            least = i;
    name_of(show, least, name);
    snprintf(
        f->words, sizeof f->words,
        "Least humid of %zu: %s, half of its house-years below %.20s hours "
        "too humid.",
        show->count, name,
        report__number(show->groups[least].too_humid.p50, 0).text);
    draw__figure_key(f, 0, DRAW__THICK, "half have fewer hours too humid");
    draw__figure_key(f, 0, DRAW__THIN,
                     "hours too dry, the tick: half have fewer");
    for (size_t i = 0; i < show->count; i++) {
        name_of(show, i, name);
        draw__figure_key(f, draw__svg_option(i), DRAW__AREA, name);
    }
}

static void draw(const struct dew_survey_show *show, struct draw__figure *f)
{
    struct draw__plot p = {.out = f->out, .x1 = (double)show->count, .y1 = 24};
    char number[24];

    for (size_t i = 0; i < show->count; i++)
        p.y1 = fmax(p.y1, 1.05 * fmax(show->groups[i].too_humid.p90,
                                      show->groups[i].too_dry.p90));
    words_of(show, f);
    draw__figure_open(f, &p, "hours of the year");
    draw__svg_upright(&p);
    for (size_t i = 0; i < show->count; i++) {
        snprintf(number, sizeof number, "%zu", i + 1);
        draw__svg_below(&p, (double)i + 0.5, 0, "along", number);
    }
    draw__svg_marks_open(&p);
    for (size_t i = 0; i < show->count; i++)
        bar(&p, show, i);
    (void)draw__figure_table(f, &p, "");
    draw__figure_close(f);
}

enum dew_status dew_survey_chart(const struct dew_survey_show *show, FILE *out,
                                 struct dew_error *err)
{
    struct draw__figure *f;

    if (show->count > DEW_SURVEY_BARS)
        return core__fail(err, DEW_ERANGE,
                          "a chart holds %d bars at most, and these would be "
                          "%zu: name fewer with --by",
                          DEW_SURVEY_BARS, show->count);
    f = calloc(1, sizeof *f);
    if (f == NULL)
        return core__fail(err, DEW_EMEM, "out of memory");
    f->out = out;
    f->alone = f->plain = 1;
    draw(show, f);
    free(f);
    return DEW_OK;
}
