/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hours of one option as CSV, and hashes of what was read. */
#include <math.h>
#include <sha2.h>

#include "core/fail.h"
#include "report/words.h"

/* An hour that has no value leaves its cell empty. */
static void cell(FILE *out, double x, double factor, int decimals)
{
    char text[64];

    fputc(',', out);
    if (isfinite(x))
        fputs(dew_number_fixed(x * factor, decimals, text, sizeof text), out);
}

/* "2019-07-14"; a year that mixes years has none: "07-14". */
static void date(FILE *out, const struct dew_date *d)
{
    fputc(',', out);
    if (d->year != 0)
        fprintf(out, "%04d-", d->year);
    fprintf(out, "%02d-%02d", d->month, d->day);
}

static void heading(FILE *out)
{
    fputs("hour,month,day,hour_of_day", out);
#define X(name, heading, factor, decimals) fputs("," heading, out);
    DEW_SERIES_MAP(X)
#undef X
    fputs(",date\n", out);
}

enum dew_status dew_report_hours(const struct dew_report *report, size_t option,
                                 FILE *out, struct dew_error *err)
{
    const struct dew_outcome *o = report->question->choices[option].outcome;

    heading(out);
    for (size_t i = 0; i < o->count; i++) {
        const struct dew_date *d = &report->dates[i];

        fprintf(out, "%zu,%d,%d,%d", i + 1, d->month, d->day, d->hour);
#define X(name, heading, factor, decimals)                                     \
    cell(out, o->series.name[i], factor, decimals);
        DEW_SERIES_MAP(X)
#undef X
        date(out, d);
        fputc('\n', out);
    }
    if (fflush(out) != 0 || ferror(out))
        return core__fail(err, DEW_EIO, "the hours could not be written");
    return DEW_OK;
}

void dew_report_sha256(const void *data, size_t length,
                       char out[DEW_SHA256_TEXT])
{
    SHA256Data(data, length, out);
}
