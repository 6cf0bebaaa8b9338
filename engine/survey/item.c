/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What one item came to, a house in a place: bytes of a journal, and back. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "dew/spread.h"
#include "survey/survey.h"

/* ---- bytes ---------------------------------------------------------------------- */

void survey__put(struct survey__bytes *b, const void *from, size_t length)
{
    if (b->length + length > b->room && !b->failed) {
        size_t room = 2 * (b->length + length) + 4096;
        char *more = realloc(b->at, room);

        b->failed = more == NULL;
        b->at = more != NULL ? more : b->at;
        b->room = more != NULL ? room : b->room;
    }
    if (b->failed)
        return;
    memcpy(b->at + b->length, from, length);
    b->length += length;
}

/* In front of an item: its length without this, and what it is. */
struct head {
    uint64_t number;
    uint32_t length, rows;
    struct survey__where where;
};

enum { ROW = DEW_DRAWN_FIGURES * sizeof(double) + 1 }; /* bytes, packed */

static void put_row(struct survey__bytes *b, const struct dew_drawn *d)
{
    unsigned char said =
        (unsigned char)((d->keeps != 0) | (d->ventilates != 0) << 1 |
                        (d->best != 0) << 2);

    for (int k = 0; k < DEW_DRAWN_FIGURES; k++) {
        double x = dew_drawn_figure(d, (enum dew_drawn_what)k);

        survey__put(b, &x, sizeof x);
    }
    survey__put(b, &said, 1);
}

void survey__row(const struct survey__item *item, size_t i,
                 struct dew_drawn *out)
{
    const char *at = item->figures + i * ROW;
    unsigned char said;

    *out = (struct dew_drawn){0};
#define X(name, unit, words)                                                   \
    memcpy(&out->name, at, sizeof out->name);                                  \
    at += sizeof out->name;
    DEW_DRAWN_MAP(X)
#undef X
    said = (unsigned char)*at;
    out->keeps = said & 1;
    out->ventilates = said >> 1 & 1;
    out->best = said >> 2 & 1;
}

size_t survey__skip(const char *bytes, size_t length, size_t *number,
                    int *fault)
{
    struct head h;

    if (length < sizeof h)
        return 0;
    memcpy(&h, bytes, sizeof h);
    if (h.length > length - sizeof h)
        return 0;
    *number = (size_t)h.number;
    *fault = h.rows == 0;
    return sizeof h + h.length;
}

size_t survey__unpack(const struct dew_survey_plan *plan, const char *bytes,
                      size_t length, struct survey__item *out)
{
    size_t whole = survey__skip(bytes, length, &out->number, &(int){0});
    size_t known = plan->axis_count * sizeof *out->known;
    struct head h;

    if (whole == 0)
        return 0;
    memcpy(&h, bytes, sizeof h);
    bytes += sizeof h;
    if (h.length < known ||
        (h.rows > 0 && h.length - known != (size_t)h.rows * ROW) ||
        (h.rows == 0 && (h.length == known || bytes[h.length - 1] != '\0')))
        return 0;
    out->where = h.where;
    out->rows = h.rows;
    memcpy(out->known, bytes, known);
    out->figures = out->text = bytes + known;
    return whole;
}

/* ---- what it came to -------------------------------------------------------------- */

static struct survey__where where_of(const struct dew_run *run)
{
    const struct dew_site *site = dew_year_site(dew_run_year(run));
    struct survey__where w;
    struct dew_climate c;

    memset(&w, 0, sizeof w); /* its bytes are written */
    w.latitude = site->latitude;
    w.longitude = site->longitude;
    snprintf(w.id, sizeof w.id, "%s", site->id);
    snprintf(w.name, sizeof w.name, "%s", site->name);
    /* of the table: its name for reading, and its state */
    if (w.id[0] == '\0' || dew_climate_find(w.id, &c, NULL) != DEW_OK)
        return w;
    snprintf(w.name, sizeof w.name, "%s", c.shown);
    snprintf(w.state, sizeof w.state, "%s", c.state);
    return w;
}

/* SI, of a base value; NaN where it is no number. */
static double known(const struct survey__axis *a, const struct dew_run *run)
{
    const struct dew_value *v =
        &dew_scenario_base(dew_run_scenario(run))[a->key];

    return a->number && v->given ? v->amount.si : NAN;
}

void survey__put_rows(const struct dew_survey_plan *p,
                      const struct dew_run *run,
                      const struct dew_spread *spread, size_t item,
                      struct survey__bytes *b)
{
    size_t options = dew_run_count(run), draws = p->draws;
    struct head h;

    memset(&h, 0, sizeof h);
    h.number = item;
    h.rows = (uint32_t)(options * (1 + draws));
    h.length =
        (uint32_t)(p->axis_count * sizeof(double) + (size_t)h.rows * ROW);
    h.where = where_of(run);
    survey__put(b, &h, sizeof h);
    for (size_t a = 0; a < p->axis_count; a++) {
        double x = known(&p->axes[a], run);

        survey__put(b, &x, sizeof x);
    }
    for (size_t i = 0; i < options; i++)
        for (size_t d = 0; d <= draws; d++) /* the likely house comes first */
            put_row(b, dew_spread_house(spread, d > 0 ? d - 1 : draws, i));
}

void survey__put_fault(const struct dew_survey_plan *p,
                       const struct dew_error *err, size_t item,
                       struct survey__bytes *b)
{
    struct head h;
    char text[sizeof err->text + sizeof err->path + 4];
    double none = NAN;

    snprintf(text, sizeof text, "%s%s%s", err->path,
             err->path[0] != '\0' ? ": " : "", err->text);
    memset(&h, 0, sizeof h);
    h.number = item;
    h.length = (uint32_t)(p->axis_count * sizeof none + strlen(text) + 1);
    survey__put(b, &h, sizeof h);
    for (size_t a = 0; a < p->axis_count; a++)
        survey__put(b, &none, sizeof none);
    survey__put(b, text, strlen(text) + 1);
}
