/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The charts of a fit as files. */
#include <stdlib.h>

#include "cli/fit.h"
#include "core/fail.h"
#include "core/out.h"
#include "draw/charts_fit.h"

enum { WORDS = 120 };

enum dew_status cli__fit_file(const char *path, cli__fit_fill *fill,
                              const void *of, struct dew_error *err)
{
    struct core__out out;

    if (path == NULL)
        return DEW_OK;
    if (core__out_open(&out, path, CORE__OUT_OVER, err) != DEW_OK)
        return err->status;
    if (fill(of, out.file, err) == DEW_OK)
        return core__out_close(&out, err);
    core__out_drop(&out);
    return err->status;
}

/* A chart draws, or has no memory to. */
static enum dew_status drawn(enum dew_status status, struct dew_error *err)
{
    return status == DEW_OK
               ? DEW_OK
               : core__fail(err, DEW_EMEM, "no memory for a chart");
}

struct chart {
    const struct draw__fit *what;
    enum dew_status (*draw)(const struct draw__fit *f);
};

static enum dew_status fill_chart(const void *of, FILE *out,
                                  struct dew_error *err)
{
    const struct chart *c = of;
    struct draw__fit what = *c->what;

    what.out = out;
    return drawn(c->draw(&what), err);
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

static enum dew_status fill_inputs(const void *of, FILE *out,
                                   struct dew_error *err)
{
    const struct moved *m = of;

    return drawn(draw__fit_inputs(out, m->list, m->count), err);
}

enum dew_status cli__fit_inputs(const struct cli__fit *f, const char *path,
                                struct dew_error *err)
{
    struct moved m = {.count = 0};
    enum dew_status status;

    if (path == NULL)
        return DEW_OK;
    if (!dew_learn_learned(f->learn)->told)
        return core__fail(err, DEW_EMISSING,
                          "nothing was learned: nothing to draw");
    status = drawn(open_moved(f, &m), err);
    if (status == DEW_OK)
        status = cli__fit_file(path, fill_inputs, &m, err);
    close_moved(&m);
    return status;
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
    const struct draw__fit what = {.of = &of, .system = cli__fit_system(f)};
    const struct {
        const char *path;
        struct chart chart;
    } all[] = {{to->log, {&what, draw__fit_log}},
               {to->rest, {&what, draw__fit_rest}},
               {to->curve, {&what, draw__fit_curve}}};
    enum dew_status status = DEW_OK;

    for (size_t i = 0; i < sizeof all / sizeof all[0] && status == DEW_OK; i++)
        status = cli__fit_file(all[i].path, fill_chart, &all[i].chart, err);
    return status;
}

void cli__fit_figures(const struct cli__fit *f)
{
    const struct dew_report_fit of = dew_fit_told(f->fit);
    const struct draw__fit what = {
        .of = &of, .system = cli__fit_system(f), .out = f->out, .page = 1};

    if (f->page)
        draw__fit_page(&what);
}
