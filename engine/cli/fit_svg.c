/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The charts of a fit as files. */
#include <stdlib.h>

#include "cli/fit.h"
#include "core/fail.h"
#include "core/out.h"
#include "draw/charts_fit.h"

enum { WORDS = 120 };

static enum dew_status draw(struct draw__fit *what, const char *path,
                            enum dew_status chart(const struct draw__fit *f),
                            struct dew_error *err)
{
    struct core__out out;

    if (path == NULL)
        return DEW_OK;
    if (core__out_open(&out, path, CORE__OUT_OVER, err) != DEW_OK)
        return err->status;
    what->out = out.file;
    if (chart(what) == DEW_OK)
        return core__out_close(&out, err);
    core__out_drop(&out);
    return core__fail(err, DEW_EMEM, "no memory for a chart");
}

/* Those that moved, in the order of the table. */
static size_t moved(const struct cli__fit *f, struct draw__input *to,
                    char (*words)[2][WORDS])
{
    size_t count, keys, n = 0;
    const struct dew_learn_input *x = dew_learn_inputs(f->learn, &count);
    const struct dew_field *fields = dew_scenario_fields(&keys);

    for (size_t i = 0; i < count; i++)
        if (x[i].moved) {
            to[n] = (struct draw__input){
                .name = fields[x[i].key].path,
                .before = dew_learn_show(f->learn, &x[i], 0, words[n][0],
                                         sizeof words[n][0]),
                .after = dew_learn_show(f->learn, &x[i], 1, words[n][1],
                                        sizeof words[n][1]),
                .score = {x[i].score.p10, x[i].score.p50, x[i].score.p90}};
            n++;
        }
    return n;
}

static enum dew_status draw_inputs(const struct cli__fit *f, const char *path,
                                   struct dew_error *err)
{
    size_t count;
    char(*words)[2][WORDS];
    struct draw__input *inputs;
    struct core__out out;
    enum dew_status status = DEW_EMEM;

    dew_learn_inputs(f->learn, &count);
    words = calloc(count + 1, sizeof *words);
    inputs = calloc(count + 1, sizeof *inputs);
    if (words != NULL && inputs != NULL)
        status = core__out_open(&out, path, CORE__OUT_OVER, err);
    if (status == DEW_OK) {
        status = draw__fit_inputs(out.file, inputs, moved(f, inputs, words));
        if (status == DEW_OK)
            status = core__out_close(&out, err);
        else
            core__out_drop(&out);
    }
    free(words);
    free(inputs);
    return status == DEW_EMEM
               ? core__fail(err, DEW_EMEM, "no memory for a chart")
               : status;
}

enum dew_status cli__fit_inputs(const struct cli__fit *f, const char *path,
                                struct dew_error *err)
{
    if (path == NULL)
        return DEW_OK;
    if (!dew_learn_learned(f->learn)->told)
        return core__fail(err, DEW_EMISSING,
                          "nothing was learned: nothing to draw");
    return draw_inputs(f, path, err);
}

enum dew_status cli__fit_charts(const struct cli__fit *f,
                                const struct cli__fit_files *to,
                                struct dew_error *err)
{
    const struct dew_evidence *e = dew_fit_evidence(f->fit);
    size_t count;
    struct draw__fit what = {.hours = dew_fit_hours(f->fit, &count),
                             .told = dew_evidence_told(e),
                             .dates = dew_fit_dates(f->fit, &count),
                             .until = dew_fit_until(f->fit),
                             .learned = dew_evidence_learned(e),
                             .system = cli__fit_system(f)};

    what.count = count;
    if (draw(&what, to->log, draw__fit_log, err) != DEW_OK ||
        draw(&what, to->rest, draw__fit_rest, err) != DEW_OK)
        return err->status;
    return draw(&what, to->curve, draw__fit_curve, err);
}
