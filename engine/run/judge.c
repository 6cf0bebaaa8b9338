/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The verdict on what was marched, and the report that tells it. */
#include <math.h>

#include "run/run.h"

static const struct dew_outcome *other(const struct dew_run *r, size_t option,
                                       enum dew_otherwise how)
{
    for (size_t k = 0; k < r->doubt_count; k++)
        if (r->doubts[k].option == option && r->doubts[k].how == how)
            return r->doubts[k].outcome;
    return NULL;
}

int run__priced(const struct dew_prices *p)
{
    return !isnan(p->electricity.likely) || !isnan(p->gas.likely) ||
           !isnan(p->oil.likely) || !isnan(p->propane.likely) ||
           !isnan(p->wood.likely);
}

static void judge(struct dew_run *r, const struct dew_outcome *o)
{
    for (size_t k = 0; k < r->doubt_count; k++)
        r->doubts[k].outcome = &o[r->count + k];
    for (size_t i = 0; i < r->count; i++) {
        const struct run__option *x = &r->options[i];

        r->choices[i] = (struct dew_choice){&o[i],
                                            &r->cases[i],
                                            &x->facts,
                                            &x->costs,
                                            x->dry > 0 ? &o[x->dry] : NULL,
                                            other(r, i, DEW_COIL_DRY),
                                            other(r, i, DEW_COIL_WET)};
    }
    r->safety = dew_scenario_safety(r->scenario);
    r->prices = dew_scenario_prices(r->scenario);
    r->question = (struct dew_question){
        .choices = r->choices,
        .count = r->count,
        .safety = &r->safety,
        .prices = run__priced(&r->prices) ? &r->prices : NULL,
        .judging = dew_verdict_judging(),
        .draws = r->draws};
    dew_verdict_of(&r->question, &r->verdict);
}

static size_t list_files(struct dew_run *r)
{
    static const char *const roles[3] = {"scenario", "weather", "log"};
    size_t n = 0;

    for (size_t i = 0; i < 3; i++)
        if (r->hashes[i][0] != '\0')
            r->files[n++] = (struct dew_report_file){roles[i], r->hashes[i]};
    return n;
}

static void lay_beside(struct dew_run *r)
{
    struct dew_report *report = &r->report;

    if (r->log == NULL)
        return;
    r->beside =
        dew_study_beside(r->choices[0].outcome, report->dates, &r->measured);
    report->beside = &r->beside;
    r->question.measured = &r->beside;
    report->log = dew_log_provenance(r->log);
    report->laid = &r->laid;
    report->learned = r->learned;
    report->prescribed_t = r->held;
}

static void fill(struct dew_run *r)
{
    size_t dates;

    r->report =
        (struct dew_report){.title = dew_scenario_title(r->scenario),
                            .version = DEW_VERSION,
                            .question = &r->question,
                            .verdict = &r->verdict,
                            .cautions = r->cautions,
                            .weather = dew_year_provenance(r->year),
                            .weather_notes = r->note,
                            .weather_note_count = r->note_count,
                            .site = dew_year_site(r->year),
                            .dates = dew_year_dates(r->year, &dates),
                            .inputs = r->inputs,
                            .files = r->files,
                            .file_count = list_files(r),
                            .doubts = r->doubts,
                            .doubt_count = r->doubt_count,
                            .ducts = r->ducts,
                            .handed = r->handed ? &r->choices[1] : NULL};
    r->years = (struct dew_report_years){0};
    if (dew_scenario_weather(r->scenario).file[0] == '\0')
        r->report.years = &r->years;
    lay_beside(r);
    r->report.caution_count =
        dew_cautions_of(&r->question, r->cautions, DEW_CAUTIONS);
}

static enum dew_system system_of(const struct dew_run *r,
                                 enum dew_system system)
{
    return system ? system : (enum dew_system)dew_scenario_system(r->scenario);
}

const struct dew_report *dew_run_report(struct dew_run *run,
                                        enum dew_system system)
{
    size_t marched = 0;
    const struct dew_outcome *o =
        run->study != NULL ? dew_study_outcomes(run->study, &marched) : NULL;

    if (o == NULL || marched < run->cases_count)
        return NULL;
    if (run->report.version == NULL) {
        judge(run, o);
        fill(run);
    }
    system = system_of(run, system);
    if (run->report.system != system) {
        run->report.system = system;
        run->report.input_count = run__inputs(run);
    }
    return &run->report;
}

void dew_run_judge_by(struct dew_run *run, const struct dew_draws *draws)
{
    run->draws = draws;
    run->report.version = NULL;
}

void dew_run_learned(struct dew_run *run, const struct dew_report_fit *learned)
{
    run->learned = learned;
    run->report.version = NULL;
}

size_t dew_run_draws(const struct dew_run *run)
{
    struct dew_draws_request asked = dew_scenario_draws(run->scenario);
    size_t draws = asked.count;

    while (!asked.given && draws > 16 && draws * run->count > DEW_RUN_DRAWN)
        draws /= 2;
    return draws;
}

const struct dew_report_ducts *dew_run_ducts(const struct dew_run *run)
{
    return run->ducts;
}

struct dew_ducts_frame dew_run_frame(const struct dew_run *run,
                                     enum dew_system system)
{
    struct dew_prices prices = dew_scenario_prices(run->scenario);
    struct dew_ducts_frame f = {.title = dew_scenario_title(run->scenario),
                                .version = DEW_VERSION,
                                .sha256 = run->hashes[0],
                                .system = system_of(run, system)};

    snprintf(f.currency, sizeof f.currency, "%s",
             prices.currency[0] ? prices.currency : "$");
    return f;
}
