/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws written to a file. */
#include <math.h>
#include <string.h>

#include "cli/spread_csv.h"
#include "core/clean.h"
#include "core/out.h"

enum { NUMBER = 40, DIGITS = 17 }; /* read again, they are the same         */

/* A cell of nothing where there is no number. */
static void number(FILE *out, double x)
{
    char text[NUMBER];

    fputc(',', out);
    if (isfinite(x))
        fputs(dew_number_print(x, DIGITS, text, sizeof text), out);
}

static void quoted(FILE *out, const char *text)
{
    char clean[400];

    fputs(",\"", out);
    for (const char *c = core__clean(text, clean, sizeof clean); *c; c++) {
        if (*c == '"')
            fputc('"', out);
        fputc(*c, out);
    }
    fputc('"', out);
}

/* What the figure of an input is: SI, or what moves a key that is worked out. */
static const char *unit_of(const struct cli__spread *s,
                           const struct dew_spread_input *input)
{
    size_t keys;
    const struct dew_field *f = &dew_scenario_fields(&keys)[input->key];
    const struct dew_value *v = dew_scenario_values(
        dew_run_scenario(s->run), dew_run_option(s->run, input->option));
    const char *si = dew_quantity_si(f->quantity);
    struct dew_measure ends;

    if (f->kind != DEW_KIND_NUMBER && f->kind != DEW_KIND_AT)
        return "which";
    switch (dew_scenario_doubt(v, input->key, &ends)) {
    case DEW_DOUBT_TIMES:
        return "times the usual";
    case DEW_DOUBT_WITHIN:
        return "-1 low to 1 high";
    case DEW_DOUBT_WORDS:
        return "which";
    case DEW_DOUBT_NONE:
    case DEW_DOUBT_RANGE:
    case DEW_DOUBT_STEP:
        break;
    }
    return si[0] != '\0' ? si : "-";
}

/* The share of a column, and what it comes to. */
static void head_of_known(const struct cli__spread *s, size_t column, FILE *out)
{
    const struct dew_spread_column c = dew_spread_column(s->spread, column);
    const char *name = cli__spread_column(s, column);

    fprintf(out, ",share of %s", name);
    if (c.of == DEW_SPREAD_OF_INPUT)
        fprintf(out, ",%s [%s]", name, unit_of(s, c.input));
    else
        fputs(c.of == DEW_SPREAD_OF_YEAR ? ",made year" : ",off by [-]", out);
}

static void heading(const struct cli__spread *s, FILE *out)
{
    fputs("draw,option,name", out);
    for (size_t c = 0; c < dew_spread_columns(s->spread); c++)
        if (dew_spread_column(s->spread, c).of != DEW_SPREAD_OF_NOTHING)
            head_of_known(s, c, out);
#define X(name, unit, words) fputs("," #name "_" #unit, out);
    DEW_DRAWN_MAP(X)
#undef X
    fputs(",keeps_limits,brings_air,best\n", out);
}

static double figure(const struct cli__spread *s, size_t column, size_t draw,
                     size_t option)
{
    const struct dew_spread_column c = dew_spread_column(s->spread, column);

    return c.of == DEW_SPREAD_OF_INPUT
               ? dew_spread_figure(s->spread, c.input, draw, option)
               : dew_spread_known(s->spread, column, draw);
}

static void row(const struct cli__spread *s, size_t draw, size_t option,
                FILE *out)
{
    const struct dew_drawn *h = dew_spread_house(s->spread, draw, option);

    fprintf(out, "%zu,%zu", draw + 1, option + 1);
    quoted(out, cli__spread_name(s, option));
    for (size_t c = 0; c < dew_spread_columns(s->spread); c++) {
        if (dew_spread_column(s->spread, c).of == DEW_SPREAD_OF_NOTHING)
            continue;
        number(out, dew_spread_share(s->spread, c, draw));
        number(out, figure(s, c, draw, option));
    }
    for (int k = 0; k < DEW_DRAWN_FIGURES; k++)
        number(out, dew_drawn_figure(h, (enum dew_drawn_what)k));
    fprintf(out, ",%d,%d,%d\n", h->keeps, h->ventilates, h->best);
}

enum dew_status cli__draws_write(const struct cli__spread *s, const char *path,
                                 struct dew_error *err)
{
    struct core__out out;
    enum dew_status status = core__out_open(&out, path, CORE__OUT_OVER, err);

    if (status != DEW_OK)
        return status;
    heading(s, out.file);
    for (size_t draw = 0; draw < s->draws; draw++)
        for (size_t i = 0; i < s->options; i++)
            row(s, draw, i, out.file);
    return core__out_close(&out, err);
}

/* 1 where a column is of one of the keys. */
static int is_of(const struct cli__spread *s, size_t column, const size_t *keys,
                 size_t count)
{
    const struct dew_spread_column c = dew_spread_column(s->spread, column);

    for (size_t k = 0; k < count && c.input != NULL; k++)
        if (c.input->key == keys[k])
            return 1;
    return 0;
}

static void house(const struct cli__spread *s, const size_t *keys, size_t count,
                  size_t draw, FILE *out)
{
    fprintf(out, "%zu", draw + 1);
    for (size_t c = 0; c < dew_spread_columns(s->spread); c++)
        if (is_of(s, c, keys, count)) {
            number(out, dew_spread_share(s->spread, c, draw));
            number(out, figure(s, c, draw, 0));
        }
    fputc('\n', out);
}

enum dew_status cli__houses_write(const struct cli__spread *s,
                                  const size_t *keys, size_t count,
                                  const char *path, struct dew_error *err)
{
    struct core__out out;
    enum dew_status status = core__out_open(&out, path, CORE__OUT_OVER, err);

    if (status != DEW_OK)
        return status;
    fputs("draw", out.file);
    for (size_t c = 0; c < dew_spread_columns(s->spread); c++)
        if (is_of(s, c, keys, count))
            head_of_known(s, c, out.file);
    fputc('\n', out.file);
    for (size_t draw = 0; draw < s->draws; draw++)
        house(s, keys, count, draw, out.file);
    return core__out_close(&out, err);
}
