/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules between the keys of the ducts, and inside their rows. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "scenario/agree.h"
#include "scenario/case.h"

/* What is being looked through: one option. */
struct look {
    struct scenario__reading *r;
    const struct dew_value *v;
    int handlers, ventilators;
};

static int many(const struct look *l, enum scenario__key key)
{
    return l->v[key].given ? (int)l->v[key].count : 0;
}

static void at_cell(const struct look *l, const struct dew_value *cell,
                    const char *path, const char *text)
{
    struct scenario__node place = {.line = cell->origin.line,
                                   .column = cell->origin.column};

    l->r->line = 0;
    scenario__blame(l->r, cell->origin.by == DEW_BY_SET ? NULL : &place, path,
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
    const struct dew_value *v = l->v;
    const struct dew_value *which = LINE(v, i, line);
    const struct dew_value *of = LINE(v, i, of);
    int trunk = which->choice >= LINE_IS_supply_trunk;
    const char *text =
        section(LINE(v, i, diameter), LINE(v, i, width), LINE(v, i, height));

    if (text != NULL)
        at_cell(l, which, "ducts.lines.line", text);
    if (of->given && of->amount.si > (trunk ? l->handlers : l->ventilators))
        at_cell(l, of, "ducts.lines.of",
                trunk ? "there are not that many air handlers"
                      : "there are not that many ventilators");
    for (int k = 0; k < i; k++)
        if (LINE(v, k, line)->choice == which->choice &&
            LINE(v, k, of)->amount.si == of->amount.si)
            at_cell(l, which, "ducts.lines.line",
                    "is described twice: keep one of the two");
}

/* ---- ducts.grilles ------------------------------------------------------- */

static int says_something(const struct dew_value *v, int i)
{
    static const enum scenario__grille_column columns[] = {
        GRILLE_supply,       GRILLE_fresh,       GRILLE_stale,
        GRILLE_supply_found, GRILLE_fresh_found, GRILLE_stale_found};
    const struct dew_value *row = GRILLE(v, i, room);
    int any = 0;

    for (size_t k = 0; k < sizeof columns / sizeof columns[0]; k++)
        any |= row[columns[k]].given;
    return any;
}

static void grille(const struct look *l, int i)
{
    const struct dew_value *v = l->v;
    const struct dew_value *room = GRILLE(v, i, room);
    const struct dew_value *handler = GRILLE(v, i, handler);
    const struct dew_value *vent = GRILLE(v, i, ventilator);
    const struct dew_value *supply = GRILLE(v, i, supply);

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

/* ---- shares of grilles --------------------------------------------------- */

/* One kind of share: its columns, and what it is of. */
static const struct kind {
    enum scenario__grille_column share, found;
    const char *path, *name, *of;
} kinds[] = {
    {GRILLE_supply, GRILLE_supply_found, "ducts.grilles.supply", "supply air",
     "air handler"},
    {GRILLE_fresh, GRILLE_fresh_found, "ducts.grilles.fresh", "fresh air",
     "ventilator"},
    {GRILLE_stale, GRILLE_stale_found, "ducts.grilles.stale", "stale air",
     "ventilator"},
};

/* Thirds told as 33 % are let pass. */
static const double SHARES_OFF = 0.015;

static int number_in(const struct dew_value *cell, int other)
{
    return cell->given ? (int)cell->amount.si : other;
}

/* The air handler or ventilator of row i, from 1; as case_ducts.c has it. */
static int share_of(const struct dew_value *v, int i, const struct kind *k,
                    int ventilators)
{
    int handler = number_in(GRILLE(v, i, handler), 1);

    if (k->share == GRILLE_supply)
        return handler;
    return number_in(GRILLE(v, i, ventilator),
                     handler > 0 && handler <= ventilators ? handler : 1);
}

/* What the shares of one sum to, and the last of them; open: 1 where some are
   known by a measured flow alone. */
struct sum {
    double shares;
    int open;
    const struct dew_value *last;
};

static struct sum sum_of(const struct dew_value *v, const struct kind *k,
                         int of, int ventilators)
{
    struct sum s = {0, 0, NULL};

    for (int i = 0; i < (int)v[KEY_ducts_grilles].count; i++) {
        const struct dew_value *row = GRILLE(v, i, room);
        const struct dew_value *cell = &row[k->share];

        if (share_of(v, i, k, ventilators) != of)
            continue;
        s.open |= !cell->given && row[k->found].given;
        if (!cell->given || !(cell->amount.si > 0))
            continue;
        s.shares += cell->amount.si;
        s.last = cell;
    }
    return s;
}

static int is_whole(const struct sum *s)
{
    if (s->last == NULL)
        return 1;
    return s->open ? s->shares < 1 : fabs(s->shares - 1) <= SHARES_OFF;
}

/* Whether an option reads these grilles and finds them whole with them. */
static int whole_elsewhere(const struct dew_scenario *s,
                           const struct dew_value *v, const struct kind *k,
                           int of)
{
    for (size_t o = 0; o < s->count; o++) {
        const struct dew_value *w = s->options[o].values;
        int handlers = scenario__handlers(w);
        int vents =
            WORD(w, ducts_ventilators) == VENTILATORS_one_each && handlers > 1
                ? handlers
                : 1;
        struct sum sum;

        if (w[KEY_ducts_grilles].origin.by != v[KEY_ducts_grilles].origin.by ||
            v[KEY_ducts_grilles].origin.by == DEW_BY_OPTION)
            continue;
        sum = sum_of(w, k, of, vents);
        if (is_whole(&sum))
            return 1;
    }
    return 0;
}

static void tell_shares(const struct look *l, const struct kind *k, int of,
                        const struct sum *s)
{
    double would = s->last->amount.si + 1 - s->shares;
    char text[200], right[60] = "";

    if (s->open)
        snprintf(right, sizeof right, ": nothing is left for the one measured");
    else if (would > 0 && would <= 1)
        snprintf(right, sizeof right, "; %.4g %% here would make it so",
                 100 * would);
    snprintf(text, sizeof text, "shares of the %s of %s %d sum to %.4g %%%s%s",
             k->name, k->of, of, 100 * s->shares,
             s->open ? "" : ", not to 100 %", right);
    at_cell(l, s->last, k->path, text);
}

static void shares(const struct dew_scenario *s, const struct look *l)
{
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        for (int of = 1; of <= DEW_DUCT_HANDLERS; of++) {
            struct sum sum = sum_of(l->v, &kinds[i], of, l->ventilators);
            int supply = kinds[i].share == GRILLE_supply;

            if (of > (supply ? l->handlers : l->ventilators))
                continue;
            if (!is_whole(&sum) && !whole_elsewhere(s, l->v, &kinds[i], of))
                tell_shares(l, &kinds[i], of, &sum);
        }
}

/* ---- ducts.points and ducts.runs ----------------------------------------- */

static void point(const struct look *l, int i)
{
    const struct dew_value *name = POINT(l->v, i, name);

    if (scenario__point_row(l->v, name->text) != (size_t)i)
        at_cell(l, name, "ducts.points.name",
                "stands twice: give each point a name of its own");
}

static int is_point(const struct look *l, const struct dew_value *cell,
                    const char *path)
{
    char text[120];

    if (scenario__point_row(l->v, cell->text) < l->v[KEY_ducts_points].count)
        return 1;
    snprintf(text, sizeof text, "no row of ducts.points is called \"%.60s\"",
             cell->text);
    at_cell(l, cell, path, text);
    return 0;
}

static void ends(const struct look *l, int i)
{
    const struct dew_value *from = RUN(l->v, i, from);
    const struct dew_value *to = RUN(l->v, i, to);

    is_point(l, from, "ducts.runs.from");
    if (is_point(l, to, "ducts.runs.to") && strcmp(from->text, to->text) == 0)
        at_cell(l, to, "ducts.runs.to", "is where the run begins");
}

/* What a run must say for its kind, or NULL. */
static const char *size_text(const struct dew_value *v, int i)
{
    enum dew_duct_kind kind = scenario__run_kind(v, i);
    const struct dew_value *diameter = RUN(v, i, diameter);
    const struct dew_value *width = RUN(v, i, width);
    const struct dew_value *height = RUN(v, i, height);
    int sized = diameter->given || width->given || height->given;
    int rated = RUN(v, i, pressure)->given;

    if (rated != RUN(v, i, flow)->given)
        return "needs pressure and flow together";
    if (kind == DEW_BRANCH_FAN || kind == DEW_BRANCH_DAMPER)
        return sized || rated ? "takes no size: what a fan, a core or a "
                                "damper loses is its machine's"
                              : NULL;
    if (kind == DEW_BRANCH_BACKDRAFT)
        return sized || !rated ? "needs the pressure it loses at a flow" : NULL;
    if (kind == DEW_BRANCH_FIXED && rated)
        return sized ? "has a size, or a pressure at a flow: keep one" : NULL;
    if (kind == DEW_BRANCH_DUCT && rated)
        return "is a duct: give its size and length";
    if (kind == DEW_BRANCH_FIXED && !RUN(v, i, loss)->given)
        return "needs its size and loss, or its pressure at a flow";
    if (kind == DEW_BRANCH_DUCT && !RUN(v, i, length)->given)
        return "needs its length";
    return section(diameter, width, height);
}

static int is_fan(int role)
{
    return role == DEW_ROLE_BLOWER || role == DEW_ROLE_FRESH_FAN ||
           role == DEW_ROLE_STALE_FAN;
}

static int is_damper(int role)
{
    return role == DEW_ROLE_FRESH_UNIT || role == DEW_ROLE_STALE_UNIT ||
           role == DEW_ROLE_SHUT;
}

/* Of an air handler, or of a ventilator; plain, grille and pickup of none. */
static int of_handler(int role)
{
    return role == DEW_ROLE_BLOWER || role >= DEW_ROLE_RETURN;
}

static void kind_and_role(const struct look *l, int i)
{
    const struct dew_value *kind = RUN(l->v, i, kind);
    const struct dew_value *of = RUN(l->v, i, of);
    int role = RUN(l->v, i, role)->choice;
    int number = of->given ? (int)of->amount.si : 1;
    const struct dew_value *place = of->given ? of : RUN(l->v, i, role);

    if ((scenario__run_kind(l->v, i) == DEW_BRANCH_FAN) != is_fan(role))
        at_cell(l, kind, "ducts.runs.kind",
                "a fan has the role blower, fresh_fan or stale_fan, and "
                "nothing else has");
    else if ((scenario__run_kind(l->v, i) == DEW_BRANCH_DAMPER) !=
             is_damper(role))
        at_cell(l, kind, "ducts.runs.kind",
                "a damper has the role fresh_unit, stale_unit or shut, and "
                "nothing else has");
    if (of_handler(role) && number > l->handlers)
        at_cell(l, place, "ducts.runs.of",
                "there are not that many air handlers");
    if ((is_damper(role) || (is_fan(role) && !of_handler(role))) &&
        number > l->ventilators)
        at_cell(l, place, "ducts.runs.of",
                "there are not that many ventilators");
}

/* Does no other run meet that point, and is its pressure to be found? */
static int blind(const struct look *l, int i, const char *name)
{
    const struct dew_value *v = l->v;
    size_t row = scenario__point_row(v, name);

    if (row == v[KEY_ducts_points].count ||
        POINT(v, (int)row, place)->choice != DEW_PLACE_DUCT)
        return 0;
    for (int k = 0; k < many(l, KEY_ducts_runs); k++)
        if (k != i && (strcmp(RUN(v, k, from)->text, name) == 0 ||
                       strcmp(RUN(v, k, to)->text, name) == 0))
            return 0;
    return 1;
}

static void run(const struct look *l, int i)
{
    const struct dew_value *v = l->v;
    const struct dew_value *from = RUN(v, i, from);
    const struct dew_value *to = RUN(v, i, to);
    const char *text = size_text(v, i);

    ends(l, i);
    kind_and_role(l, i);
    if (text != NULL)
        at_cell(l, RUN(v, i, name), "ducts.runs", text);
    if (!is_fan(RUN(v, i, role)->choice))
        return;
    if (blind(l, i, from->text))
        at_cell(l, from, "ducts.runs.from",
                "the fan works on nothing: no other run meets that point");
    if (blind(l, i, to->text))
        at_cell(l, to, "ducts.runs.to",
                "the fan works on nothing: no other run meets that point");
}

/* Spread from rooms and outdoors along the runs until nothing is added. */
static void islands(const struct look *l)
{
    const struct dew_value *v = l->v;
    unsigned char reached[SCENARIO__POINTS + 1] = {0};
    int points = many(l, KEY_ducts_points), more = 1;

    for (int i = 0; i < points; i++)
        reached[i] = POINT(v, i, place)->choice != DEW_PLACE_DUCT;
    while (more) {
        more = 0;
        for (int k = 0; k < many(l, KEY_ducts_runs); k++) {
            size_t a = scenario__point_row(v, RUN(v, k, from)->text);
            size_t b = scenario__point_row(v, RUN(v, k, to)->text);

            if (reached[a] == reached[b])
                continue;
            reached[a] = reached[b] = 1;
            more = 1;
        }
    }
    for (int i = 0; i < points; i++)
        if (!reached[i] &&
            scenario__point_row(v, POINT(v, i, name)->text) == (size_t)i)
            at_cell(l, POINT(v, i, name), "ducts.points.name",
                    "is an island: no run leads from it to the house or "
                    "outdoors");
}

/* Runs with that role of handler or ventilator n. */
static int with_role(const struct look *l, int role, int n)
{
    int count = 0;

    for (int i = 0; i < many(l, KEY_ducts_runs); i++) {
        const struct dew_value *of = RUN(l->v, i, of);

        count += RUN(l->v, i, role)->choice == role &&
                 (of->given ? (int)of->amount.si : 1) == n;
    }
    return count;
}

static void machines(const struct look *l)
{
    static const struct {
        enum dew_duct_role role;
        const char *name;
    } sides[] = {{DEW_ROLE_FRESH_FAN, "fresh_fan"},
                 {DEW_ROLE_STALE_FAN, "stale_fan"},
                 {DEW_ROLE_FRESH_UNIT, "fresh_unit"},
                 {DEW_ROLE_STALE_UNIT, "stale_unit"}};
    const struct dew_value *runs = &l->v[KEY_ducts_runs];
    char text[120];

    for (int j = 1; j <= l->ventilators; j++)
        for (size_t k = 0; k < sizeof sides / sizeof sides[0]; k++) {
            int count = with_role(l, (int)sides[k].role, j);

            snprintf(text, sizeof text,
                     "ventilator %d needs one run with the role %s: there "
                     "are %d",
                     j, sides[k].name, count);
            if (count != 1)
                at_cell(l, runs, "ducts.runs", text);
        }
    for (int k = 1; k <= l->handlers; k++) {
        snprintf(text, sizeof text,
                 "air handler %d has more than one run with the role blower",
                 k);
        if (with_role(l, DEW_ROLE_BLOWER, k) > 1)
            at_cell(l, runs, "ducts.runs", text);
    }
}

/* What is not read once a network is written out. */
static void in_place_of(const struct look *l)
{
    static const enum scenario__key others[] = {KEY_ducts_lines,
                                                KEY_ducts_grilles};

    for (size_t k = 0; k < sizeof others / sizeof others[0]; k++)
        if (l->v[others[k]].given)
            at_cell(l, &l->v[others[k]],
                    others[k] == KEY_ducts_lines ? "ducts.lines"
                                                 : "ducts.grilles",
                    "is not read with ducts.runs: keep one of the two");
}

static void network(const struct look *l)
{
    struct dew_duct_layout rooms = {.grille_count = 0};

    if (!l->v[KEY_ducts_runs].given) {
        if (l->v[KEY_ducts_points].given)
            at_cell(
                l, &l->v[KEY_ducts_points], "ducts.points",
                "needs ducts.runs beside it; where runs is none, it is none too");
        return;
    }
    for (int i = 0; i < many(l, KEY_ducts_points); i++)
        point(l, i);
    for (int i = 0; i < many(l, KEY_ducts_runs); i++)
        run(l, i);
    islands(l);
    machines(l);
    in_place_of(l);
    if (scenario__written_rooms(l->v, &rooms) > DEW_DUCT_GRILLES)
        at_cell(l, &l->v[KEY_ducts_runs], "ducts.runs",
                "has grilles and pickups in more than 16 rooms");
}

/* ---- the rest ------------------------------------------------------------ */

static void found(const struct look *l, int i)
{
    const struct dew_value *blower = FOUND(l->v, i, blower);

    for (int k = 0; k < i; k++)
        if (FOUND(l->v, k, blower)->choice == blower->choice)
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

/* Does an option write any of its network? */
static int of_option(const struct dew_value *v)
{
    return v[KEY_ducts_points].origin.by == DEW_BY_OPTION ||
           v[KEY_ducts_runs].origin.by == DEW_BY_OPTION;
}

void scenario__agree_ducts(const struct dew_scenario *s,
                           struct scenario__reading *r)
{
    char prefix[SCENARIO__NAME + 12];
    int base_seen = 0;

    for (size_t k = 0; k < s->count; k++) {
        const struct dew_value *v = s->options[k].values;
        int handlers = scenario__handlers(v);
        int each =
            WORD(v, ducts_ventilators) == VENTILATORS_one_each && handlers > 1;
        struct look l = {r, v, handlers, each ? handlers : 1};

        snprintf(prefix, sizeof prefix, "options.%s.", s->options[k].name);
#define EACH(key, look)                                                        \
    r->prefix = v[KEY_##key].origin.by == DEW_BY_OPTION ? prefix : NULL;       \
    for (int i = 0; mine(&v[KEY_##key], k) && i < many(&l, KEY_##key); i++)    \
    look(&l, i)
        EACH(ducts_lines, line);
        EACH(ducts_grilles, grille);
        EACH(ducts_found, found);
        r->prefix =
            v[KEY_ducts_grilles].origin.by == DEW_BY_OPTION ? prefix : NULL;
        if (mine(&v[KEY_ducts_grilles], k))
            shares(s, &l);
#undef EACH
        r->prefix =
            v[KEY_ducts_tied_to].origin.by == DEW_BY_OPTION ? prefix : NULL;
        if (mine(&v[KEY_ducts_tied_to], k))
            alone(&l);
        r->prefix = of_option(v) ? prefix : NULL;
        if (of_option(v) || !base_seen)
            network(&l);
        base_seen |= !of_option(v) && v[KEY_ducts_runs].given;
    }
    r->prefix = NULL;
}
