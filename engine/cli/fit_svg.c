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
                .usual = x[i].usual,
                .before = dew_learn_show(f->learn, &x[i], 0, words[n][0],
                                         sizeof words[n][0]),
                .after = dew_learn_show(f->learn, &x[i], 1, words[n][1],
                                        sizeof words[n][1]),
                .score = {x[i].score.p10, x[i].score.p50, x[i].score.p90}};
            n++;
        }
    return n;
}

/* The figures that moved, and room for their words. */
struct moved {
    char (*words)[2][WORDS];
    struct draw__input *list;
    size_t count;
};

static enum dew_status open_moved(const struct cli__fit *f, struct moved *m)
{
    size_t count;

    dew_learn_inputs(f->learn, &count);
    m->words = calloc(count + 1, sizeof *m->words);
    m->list = calloc(count + 1, sizeof *m->list);
    if (m->words == NULL || m->list == NULL)
        return DEW_EMEM;
    m->count = moved(f, m->list, m->words);
    return DEW_OK;
}

static void close_moved(struct moved *m)
{
    free(m->words);
    free(m->list);
}

static enum dew_status draw_inputs(const struct cli__fit *f, const char *path,
                                   struct dew_error *err)
{
    struct moved m = {.count = 0};
    struct core__out out;
    enum dew_status status = open_moved(f, &m);

    if (status == DEW_OK)
        status = core__out_open(&out, path, CORE__OUT_OVER, err);
    if (status == DEW_OK) {
        status = draw__fit_inputs(out.file, m.list, m.count);
        if (status == DEW_OK)
            status = core__out_close(&out, err);
        else
            core__out_drop(&out);
    }
    close_moved(&m);
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

void cli__fit_inputs_page(const struct cli__fit *f)
{
    struct moved m = {.count = 0};

    if (!f->page)
        return;
    if (open_moved(f, &m) == DEW_OK)
        draw__fit_inputs_page(f->out, m.list, m.count);
    close_moved(&m);
}

enum dew_status cli__fit_charts(const struct cli__fit *f,
                                const struct cli__fit_files *to,
                                struct dew_error *err)
{
    const struct dew_report_fit of = dew_fit_told(f->fit);
    struct draw__fit what = {.of = &of, .system = cli__fit_system(f)};

    if (draw(&what, to->log, draw__fit_log, err) != DEW_OK ||
        draw(&what, to->rest, draw__fit_rest, err) != DEW_OK)
        return err->status;
    return draw(&what, to->curve, draw__fit_curve, err);
}

void cli__fit_figures(const struct cli__fit *f)
{
    const struct dew_report_fit of = dew_fit_told(f->fit);
    const struct draw__fit what = {
        .of = &of, .system = cli__fit_system(f), .out = f->out, .page = 1};

    if (f->page)
        draw__fit_page(&what);
}
