/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of a survey: its columns, and its rows from the journals. */
#include <stdlib.h>
#include <string.h>

#include "core/factors.h"
#include "core/fail.h"
#include "survey/survey.h"

/* ---- columns ------------------------------------------------------------------------ */

struct column {
    const char *name;
    enum survey__type type;
};

static const struct column first[] = {
    {"row", SURVEY__WHOLE},    {"house", SURVEY__WHOLE},
    {"place", SURVEY__WORDS},  {"station", SURVEY__WORDS},
    {"state", SURVEY__WORDS},  {"lat_deg", SURVEY__REAL},
    {"lon_deg", SURVEY__REAL}, {"option", SURVEY__WORDS},
    {"draw", SURVEY__WHOLE},
};
/* in the order of put_figures */
static const struct column last[] = {
    {"too_humid_h", SURVEY__REAL},    {"too_dry_h", SURVEY__REAL},
    {"short_of_air_h", SURVEY__REAL}, {"glass_wet_h", SURVEY__REAL},
    {"short_heat_h", SURVEY__REAL},   {"energy_kwh", SURVEY__REAL},
    {"running", SURVEY__REAL},        {"present", SURVEY__REAL},
    {"keeps", SURVEY__WHOLE},         {"ventilates", SURVEY__WHOLE},
    {"best", SURVEY__WHOLE},
};
enum {
    FIRST = sizeof first / sizeof *first,
    LAST = sizeof last / sizeof *last
};

static int is_plain(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (c >= '0' && c <= '9');
}

/* "house.floor_area" in m2: house_floor_area_m2. */
static void axis_name(const struct survey__axis *a, char *name)
{
    const char *si = a->number ? dew_quantity_si(a->quantity) : "";
    size_t n = (size_t)snprintf(name, SURVEY__COLUMN, "%s%s%s", a->field->path,
                                si[0] != '\0' ? "_" : "", si);

    for (size_t i = 0; i < n && name[i] != '\0'; i++)
        if (!is_plain(name[i]))
            name[i] = '_';
}

int survey__column(const struct dew_survey_plan *p, size_t i, char *name,
                   enum survey__type *type)
{
    const struct column *c;

    if (i >= FIRST && i < FIRST + p->axis_count) {
        axis_name(&p->axes[i - FIRST], name);
        *type = p->axes[i - FIRST].number ? SURVEY__REAL : SURVEY__WORDS;
        return 1;
    }
    if (i >= FIRST + p->axis_count + LAST)
        return 0;
    c = i < FIRST ? &first[i] : &last[i - FIRST - p->axis_count];
    snprintf(name, SURVEY__COLUMN, "%s", c->name);
    *type = c->type;
    return 1;
}

/* ---- rows --------------------------------------------------------------------------- */

static double in_kwh(double joule)
{
    return joule / CORE__KWH;
}

static void put_figures(const struct survey__taker *to,
                        const struct dew_drawn *d)
{
    to->number(to->of, d->too_humid);
    to->number(to->of, d->too_dry);
    to->number(to->of, d->short_of_air);
    to->number(to->of, d->glass_wet);
    to->number(to->of, d->short_heat);
    to->number(to->of, in_kwh(d->energy));
    to->number(to->of, d->running);
    to->number(to->of, d->present);
    to->whole(to->of, (size_t)d->keeps);
    to->whole(to->of, (size_t)d->ventilates);
    to->whole(to->of, (size_t)d->best);
}

static void put_varied(const struct dew_survey_plan *p,
                       const struct survey__item *item, size_t house,
                       const struct survey__taker *to)
{
    char room[SURVEY__SET];

    for (size_t a = 0; a < p->axis_count; a++)
        if (p->axes[a].number)
            to->number(to->of, item->known[a]);
        else
            to->text(to->of, survey__cell(p, house, a, room));
}

static enum dew_status put_row(const struct dew_survey *s,
                               const struct survey__item *item, size_t i,
                               const struct survey__taker *to,
                               struct dew_error *err)
{
    size_t draws = 1 + s->size.draws, house = item->number % s->size.houses;
    struct dew_drawn d;

    to->whole(to->of, item->number * s->size.options * draws + i + 1);
    to->whole(to->of, house + 1);
    to->text(to->of, item->where.name);
    to->text(to->of, item->where.id);
    to->text(to->of, item->where.state);
    to->number(to->of, item->where.latitude);
    to->number(to->of, item->where.longitude);
    to->text(to->of, s->plan->names[i / draws]);
    to->whole(to->of, i % draws);
    put_varied(s->plan, item, house, to);
    survey__row(item, i, &d);
    put_figures(to, &d);
    return to->end(to->of, err);
}

static enum dew_status put_item(const struct dew_survey *s,
                                const struct survey__item *item,
                                const struct survey__taker *to,
                                struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    for (size_t i = 0; i < item->rows && status == DEW_OK; i++)
        status = put_row(s, item, i, to, err);
    return status;
}

static enum dew_status put_fault(const struct dew_survey *s,
                                 const struct survey__item *item,
                                 const struct survey__taker *to,
                                 struct dew_error *err)
{
    const struct dew_survey_plan *p = s->plan;

    if (item->rows > 0)
        return DEW_OK;
    to->whole(to->of, item->number % s->size.houses + 1);
    to->text(to->of, p->place_count > 0
                         ? p->places[item->number / s->size.houses]
                         : "");
    to->text(to->of, item->text);
    return to->end(to->of, err);
}

static enum dew_status each(
    const struct dew_survey *s,
    enum dew_status (*put)(const struct dew_survey *s,
                           const struct survey__item *item,
                           const struct survey__taker *to,
                           struct dew_error *err),
    const struct survey__taker *to, struct dew_error *err)
{
    struct survey__bytes room = {NULL, 0, 0, 0};
    struct survey__item *item = calloc(1, sizeof *item);
    enum dew_status status =
        item != NULL ? DEW_OK : core__fail(err, DEW_EMEM, "out of memory");

    for (size_t i = 0; i < s->size.items && status == DEW_OK; i++) {
        status = survey__load(s, i, &room, item, err);
        if (status == DEW_OK)
            status = put(s, item, to, err);
    }
    free(room.at);
    free(item);
    return status;
}

enum dew_status survey__rows(const struct dew_survey *s,
                             const struct survey__taker *to,
                             struct dew_error *err)
{
    return each(s, put_item, to, err);
}

enum dew_status survey__fault_rows(const struct dew_survey *s,
                                   const struct survey__taker *to,
                                   struct dew_error *err)
{
    return each(s, put_fault, to, err);
}
