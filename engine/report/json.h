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

/* Words from outside, made valid UTF-8; NULL: null. */
static inline json_t *text(const char *words)
{
    char clean[2048];

    return words == NULL ? json_null()
                         : json_string(core__clean(words, clean, sizeof clean));
}

/* Several at once, up to a key of NULL: see the macros. */
struct real {
    const char *key;
    double x;
};
struct told {
    const char *key, *words;
};

static inline json_t *put_reals(struct maker *m, json_t *object,
                                const struct real *list)
{
    for (; list->key != NULL; list++)
        put(m, object, list->key, number(list->x));
    return object;
}

static inline json_t *put_texts(struct maker *m, json_t *object,
                                const struct told *list)
{
    for (; list->key != NULL; list++)
        put(m, object, list->key, text(list->words));
    return object;
}

/* REALS(m, o, {"low", x}, {"high", y}), the same of words, and both as a new
   object. */
#define REALS(m, object, ...)                                                  \
    put_reals(m, object, (const struct real[]){__VA_ARGS__, {NULL, 0}})
#define TEXTS(m, object, ...)                                                  \
    put_texts(m, object, (const struct told[]){__VA_ARGS__, {NULL, NULL}})
#define OF_REALS(m, ...) REALS(m, json_object(), __VA_ARGS__)
#define OF_TEXTS(m, ...) TEXTS(m, json_object(), __VA_ARGS__)

/* An array of numbers, each by its factor. */
static inline json_t *numbers(struct maker *m, const double *x, int count,
                              double factor)
{
    json_t *list = json_array();

    for (int k = 0; k < count; k++)
        append(m, list, number(factor * x[k]));
    return list;
}

static inline json_t *estimate(struct maker *m, struct dew_estimate e)
{
    return OF_REALS(m, {"likely", e.likely}, {"low", e.low}, {"high", e.high});
}

/* json.c: write o, which is taken, unless making it failed; what is blamed. */
enum dew_status report__json_write(struct maker *m, json_t *o, size_t flags,
                                   const char *what, FILE *out,
                                   struct dew_error *err);
/* A caution, as every list of them has it. */
json_t *report__json_caution(struct maker *m, const struct dew_caution *c);

/* The summary, with the list of the files beside it, which is taken;
   NULL: there was no memory for it. */
enum dew_status report__json_report(const struct dew_report *report,
                                    json_t *written, FILE *out,
                                    struct dew_error *err);

/* json_beside.c: what stands beside the verdict. */
json_t *report__json_option(const struct maker *m,
                            int option); /* name or null */
json_t *report__json_months(struct maker *m, unsigned mask);
json_t *report__json_surfaces(struct maker *m, const struct dew_outcome *o);
json_t *report__json_windows(struct maker *m, const struct dew_choice *c);
json_t *report__json_drying(struct maker *m, const struct dew_choice *c);
json_t *report__json_thumbs(struct maker *m);
json_t *report__json_rates(struct maker *m, size_t option);
json_t *report__json_local(struct maker *m, size_t option);

/* json_log.c: the log beside the model; null without one. */
json_t *report__json_log(struct maker *m);

/* json_houses.c: null where none was drawn. */
json_t *report__json_houses(struct maker *m);

#endif
