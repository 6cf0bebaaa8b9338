/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table as CSV. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/clean.h"
#include "core/fail.h"
#include "core/numeric.h"
#include "core/out.h"
#include "survey/survey.h"

struct writer {
    FILE *out;
    int begun; /* 1: this row has a cell                                     */
};

static void comma(struct writer *w)
{
    if (w->begun)
        fputc(',', w->out);
    w->begun = 1;
}

static void put_text(void *of, const char *text)
{
    struct writer *w = of;
    char clean[SURVEY__SET];

    comma(w);
    if (text[0] == '\0')
        return;
    fputc('"', w->out);
    for (const char *c = core__clean(text, clean, sizeof clean); *c; c++) {
        if (*c == '"')
            fputc('"', w->out);
        fputc(*c, w->out);
    }
    fputc('"', w->out);
}

/* The shortest of 15 and 17 digits that is read as the same again. */
static void put_number(void *of, double x)
{
    struct writer *w = of;
    char text[SURVEY__NUMBER];
    double again = 0;

    comma(w);
    if (!isfinite(x))
        return;
    snprintf(text, sizeof text, "%.15g", x);
    dew_number_read(text, strlen(text), &again);
    if (again < x || again > x)
        snprintf(text, sizeof text, "%.17g", x);
    fputs(text, w->out);
}

static void put_whole(void *of, size_t n)
{
    struct writer *w = of;

    comma(w);
    fprintf(w->out, "%zu", n);
}

static enum dew_status end_row(void *of, struct dew_error *err)
{
    struct writer *w = of;

    w->begun = 0;
    if (fputc('\n', w->out) != EOF)
        return DEW_OK;
    return core__fail(err, DEW_EIO, "the disk takes no more");
}

static void head(const struct dew_survey_plan *p, FILE *out)
{
    char name[SURVEY__COLUMN];
    enum survey__type type;

    for (size_t i = 0; survey__column(p, i, name, &type); i++)
        fprintf(out, "%s%s", i > 0 ? "," : "", name);
    fputc('\n', out);
}

typedef enum dew_status rows(const struct dew_survey *s,
                             const struct survey__taker *to,
                             struct dew_error *err);

static enum dew_status write_rows(const struct dew_survey *s, FILE *out,
                                  rows *each, struct dew_error *err)
{
    struct writer w = {out, 0};
    const struct survey__taker to = {&w, put_text, put_number, put_whole,
                                     end_row};
    struct core__numeric numeric;
    enum dew_status status;

    if (!core__numeric_c(&numeric))
        return core__fail(err, DEW_EMEM, "out of memory");
    status = each(s, &to, err);
    core__numeric_back(&numeric);
    return status;
}

static enum dew_status write_file(const struct dew_survey *s, const char *name,
                                  rows *each, struct dew_error *err)
{
    char *path = survey__path(s->folder, name);
    struct core__out out;
    enum dew_status status;

    if (path == NULL)
        return core__fail(err, DEW_EMEM, "out of memory");
    status = core__out_open(&out, path, CORE__OUT_OVER, err);
    if (status == DEW_OK) {
        if (each == survey__rows)
            head(s->plan, out.file);
        else
            fputs("house,station,fault\n", out.file);
        status = write_rows(s, out.file, each, err);
        if (status == DEW_OK)
            status = core__out_close(&out, err);
        else
            core__out_drop(&out);
    }
    free(path);
    return status;
}

enum dew_status survey__write_csv(const struct dew_survey *s,
                                  struct dew_error *err)
{
    return write_file(s, "march.csv", survey__rows, err);
}

enum dew_status survey__write_faults(const struct dew_survey *s,
                                     struct dew_error *err)
{
    if (s->state.faults == 0)
        return DEW_OK;
    return write_file(s, "faults.csv", survey__fault_rows, err);
}
