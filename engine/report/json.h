/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Making JSON of a report: what its files share.  Private to the report. */
#ifndef DEW_REPORT_JSON_H
#define DEW_REPORT_JSON_H

#include <jansson.h>
#include <math.h>

#include "report/words.h"

/* What is being made; one refusal is enough to give it up. */
struct maker {
    const struct dew_report *r;
    int failed;
};

/* Put value, which is taken, under key. */
static inline void put(struct maker *m, json_t *object, const char *key,
                       json_t *value)
{
    if (json_object_set_new(object, key, value) != 0)
        m->failed = 1;
}

static inline void append(struct maker *m, json_t *array, json_t *value)
{
    if (json_array_append_new(array, value) != 0)
        m->failed = 1;
}

static inline json_t *number(double x)
{
    return isfinite(x) ? json_real(x) : json_null();
}

/* A user's text, made valid UTF-8. */
static inline json_t *text(const char *words)
{
    char clean[2048];

    return json_string(
        dew__clean(words != NULL ? words : "", clean, sizeof clean));
}

static inline json_t *estimate(struct maker *m, struct dew_estimate e)
{
    json_t *o = json_object();

    put(m, o, "likely", number(e.likely));
    put(m, o, "low", number(e.low));
    put(m, o, "high", number(e.high));
    return o;
}

/* json.c: the summary, with the list of the files beside it, which is taken;
   NULL: there was no memory for it. */
enum dew_status dew__json_report(const struct dew_report *report,
                                 json_t *written, FILE *out,
                                 struct dew_error *err);

/* json_beside.c: what stands beside the verdict. */
json_t *dew__json_surfaces(struct maker *m, const struct dew_outcome *o);
json_t *dew__json_windows(struct maker *m, const struct dew_choice *c);
json_t *dew__json_drying(struct maker *m, const struct dew_choice *c);
json_t *dew__json_thumbs(struct maker *m);
json_t *dew__json_rates(struct maker *m, size_t option);
json_t *dew__json_local(struct maker *m, size_t option);

#endif
