/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules between the keys of the ducts, and inside their rows. */
#include <stdio.h>

#include "scenario/agree.h"
#include "scenario/case.h"

#define CELL(v, key, i, table, column)                                         \
    (&(v)[KEY_##key].items[(i)*DEW__##table##_COLUMNS + table##_##column])

/* What is being looked through: one option. */
struct look {
    struct dew__reading *r;
    const struct dew_value *v;
    int handlers, ventilators;
};

static int many(const struct look *l, enum dew__key key)
{
    return l->v[key].given ? (int)l->v[key].count : 0;
}

static void at_cell(const struct look *l, const struct dew_value *cell,
                    const char *path, const char *text)
{
    struct dew__node place = {.line = cell->origin.line,
                              .column = cell->origin.column};

    l->r->line = 0;
    dew__blame(l->r, cell->origin.by == DEW_BY_SET ? NULL : &place, path,
               DEW_ERANGE, "%s", text);
}

/* ---- ducts.lines --------------------------------------------------------- */

static const char *section(const struct dew_value *diameter,
                           const struct dew_value *width,
                           const struct dew_value *height)
{
    if (diameter->given && (width->given || height->given))
        return "is round or rectangular: keep diameter, or width and height";
    if (!diameter->given && !(width->given && height->given))
        return "needs its diameter, or its width and height";
    return NULL;
}

static void line(const struct look *l, int i)
{
    enum { TRUNKS = 4 };
    const struct dew_value *v = l->v;
    const struct dew_value *which = CELL(v, ducts_lines, i, LINE, line);
    const struct dew_value *of = CELL(v, ducts_lines, i, LINE, of);
    int trunk = which->choice >= TRUNKS;
    const char *text = section(CELL(v, ducts_lines, i, LINE, diameter),
                               CELL(v, ducts_lines, i, LINE, width),
                               CELL(v, ducts_lines, i, LINE, height));

    if (text != NULL)
        at_cell(l, which, "ducts.lines.line", text);
    if (of->given && of->amount.si > (trunk ? l->handlers : l->ventilators))
        at_cell(l, of, "ducts.lines.of",
                trunk ? "there are not that many air handlers"
                      : "there are not that many ventilators");
    for (int k = 0; k < i; k++)
        if (CELL(v, ducts_lines, k, LINE, line)->choice == which->choice &&
            CELL(v, ducts_lines, k, LINE, of)->amount.si == of->amount.si)
            at_cell(l, which, "ducts.lines.line",
                    "is described twice: keep one of the two");
}

/* ---- ducts.grilles ------------------------------------------------------- */

static int says_something(const struct dew_value *v, int i)
{
    static const enum dew__grille_column columns[] = {
        GRILLE_supply,       GRILLE_fresh,       GRILLE_stale,
        GRILLE_supply_found, GRILLE_fresh_found, GRILLE_stale_found};
    const struct dew_value *row = CELL(v, ducts_grilles, i, GRILLE, room);
    int any = 0;

    for (size_t k = 0; k < sizeof columns / sizeof columns[0]; k++)
        any |= row[columns[k]].given;
    return any;
}

static void grille(const struct look *l, int i)
{
    const struct dew_value *v = l->v;
    const struct dew_value *room = CELL(v, ducts_grilles, i, GRILLE, room);
    const struct dew_value *handler =
        CELL(v, ducts_grilles, i, GRILLE, handler);
    const struct dew_value *vent =
        CELL(v, ducts_grilles, i, GRILLE, ventilator);
    const struct dew_value *supply = CELL(v, ducts_grilles, i, GRILLE, supply);

    if (!says_something(v, i))
        at_cell(l, room, "ducts.grilles.room",
                "lets in or takes no air: give supply, fresh or stale, a "
                "share or as found");
    if (handler->given && handler->amount.si > l->handlers)
        at_cell(l, handler, "ducts.grilles.handler",
                "there are not that many air handlers");
    if (vent->given && vent->amount.si > l->ventilators)
        at_cell(l, vent, "ducts.grilles.ventilator",
                "there are not that many ventilators");
    if (supply->given && supply->amount.si > 0 && l->handlers == 0)
        at_cell(l, supply, "ducts.grilles.supply",
                "there is no air handler to blow it");
}

/* ---- the rest ------------------------------------------------------------ */

static void found(const struct look *l, int i)
{
    const struct dew_value *blower = CELL(l->v, ducts_found, i, FOUND, blower);

    for (int k = 0; k < i; k++)
        if (CELL(l->v, ducts_found, k, FOUND, blower)->choice == blower->choice)
            at_cell(l, blower, "ducts.found.blower",
                    "stands twice: keep one row for each");
}

static void alone(const struct look *l)
{
    const struct dew_value *tied = &l->v[KEY_ducts_tied_to];

    if (tied->choice > l->handlers)
        at_cell(l, tied, "ducts.tied_to",
                "there are not that many air handlers");
    else if (tied->choice > 0 && l->ventilators > 1)
        at_cell(l, tied, "ducts.tied_to",
                "is for a shared ventilator: ventilators is one_each");
}

/* Base values are looked through with the first option that has them. */
static int mine(const struct dew_value *v, size_t option)
{
    return option == 0 || v->origin.by == DEW_BY_OPTION;
}

void dew__agree_ducts(const struct dew_scenario *s, struct dew__reading *r)
{
    char prefix[DEW__NAME + 12];

    for (size_t k = 0; k < s->count; k++) {
        const struct dew_value *v = s->options[k].values;
        int handlers = dew__handlers(v);
        int each = WORD(v, ducts_ventilators) > 0 && handlers > 1;
        struct look l = {r, v, handlers, each ? handlers : 1};

        snprintf(prefix, sizeof prefix, "options.%s.", s->options[k].name);
#define EACH(key, look)                                                        \
    r->prefix = v[KEY_##key].origin.by == DEW_BY_OPTION ? prefix : NULL;       \
    for (int i = 0; mine(&v[KEY_##key], k) && i < many(&l, KEY_##key); i++)    \
    look(&l, i)
        EACH(ducts_lines, line);
        EACH(ducts_grilles, grille);
        EACH(ducts_found, found);
#undef EACH
        r->prefix =
            v[KEY_ducts_tied_to].origin.by == DEW_BY_OPTION ? prefix : NULL;
        if (mine(&v[KEY_ducts_tied_to], k))
            alone(&l);
    }
    r->prefix = NULL;
}
