/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The air paths of one state, drawn: outdoors to the left, ventilators and air
 * handlers inside the wall, rooms to the right.  A duct is as wide as the root
 * of its flow; the dark line in a pale trunk is the fresh part of its air.
 */
#include <math.h>
#include <string.h>

#include "report/ducts_plan.h"
#include "report/svg.h"

struct pen {
    FILE *out;
    const struct dew__told *t;
    const struct dew_duct_state *s;
    const struct dew__plan *p;
    enum dew_system system;
    double most; /* m3/s   widest flow                                    */
};

struct spot {
    double x, y;
};

enum kind { FRESH, STALE, TRUNK, ASTRAY, KINDS };
static const char *const classes[KINDS] = {"d-fresh", "d-stale", "d-trunk",
                                           "d-astray"};

/* ---- flows --------------------------------------------------------------- */

static const double nothing = 2e-4; /* m3/s, half a cfm: not drawn as a flow */

/* A run by its name, "return trunk 1"; -1 when there is none. */
static int run_named(const struct pen *p, const char *name, int of)
{
    struct dew_duct_written w = dew_ducts_as_written(p->t->ducts);
    char whole[80];

    snprintf(whole, sizeof whole, "%s %d", name, of + 1);
    for (size_t i = 0; i < w.run_count; i++)
        if (strcmp(w.runs[i].branch.name, whole) == 0)
            return (int)i;
    return -1;
}

static int run_of(const struct pen *p, enum dew_duct_role role, int of)
{
    struct dew_duct_written w = dew_ducts_as_written(p->t->ducts);

    for (size_t i = 0; i < w.run_count; i++)
        if (w.runs[i].role == role && w.runs[i].of == of)
            return (int)i;
    return -1;
}

/* Air and the fresh part of it. */
struct air {
    double q, fresh;
};

static struct air air_in(const struct pen *p, int run)
{
    double q, share;

    if (run < 0)
        return (struct air){0, 0};
    q = dew_ducts_run_flow(p->t->ducts, (size_t)run);
    share = dew_ducts_run_fresh(p->t->ducts, (size_t)run);
    return (struct air){q, fabs(q) * share};
}

/* ---- strokes ------------------------------------------------------------- */

static double wide(const struct pen *p, double q)
{
    const double least = 1.6, root = 13;

    return least + root * sqrt(fabs(q) / p->most);
}

static void path(const struct pen *p, const struct spot *at, int n,
                 const char *class, double width)
{
    fprintf(p->out, "<polyline class=\"%s\" stroke-width=\"%.1f\" points=\"",
            class, width);
    for (int i = 0; i < n; i++)
        fprintf(p->out, "%s%.1f,%.1f", i > 0 ? " " : "", at[i].x, at[i].y);
    fputs("\"/>\n", p->out);
}

static void words(const struct pen *p, struct spot at, const char *class,
                  const char *text)
{
    fprintf(p->out, "<text class=\"%s\" x=\"%.1f\" y=\"%.1f\">", class, at.x,
            at.y);
    dew__escape(p->out, text);
    fputs("</text>\n", p->out);
}

/* A head that points along the flow, at the middle of a to b. */
static void head(const struct pen *p, struct spot a, struct spot b, double q,
                 double width)
{
    double sign = q < 0 ? -1 : 1, length = hypot(b.x - a.x, b.y - a.y);
    double ux = sign * (b.x - a.x) / length, uy = sign * (b.y - a.y) / length;
    double size = 4.5 + 0.62 * width;
    struct spot m = {0.5 * (a.x + b.x), 0.5 * (a.y + b.y)};

    fprintf(p->out,
            "<polygon class=\"d-head\" points=\"%.1f,%.1f %.1f,%.1f "
            "%.1f,%.1f\"/>\n",
            m.x + size * ux, m.y + size * uy, m.x - 0.7 * size * ux - size * uy,
            m.y - 0.7 * size * uy + size * ux,
            m.x - 0.7 * size * ux + size * uy,
            m.y - 0.7 * size * uy - size * ux);
}

/* The longest part of a line of corners. */
static int longest(const struct spot *at, int n)
{
    int best = 0;

    for (int i = 1; i + 1 < n; i++)
        if (hypot(at[i + 1].x - at[i].x, at[i + 1].y - at[i].y) >
            hypot(at[best + 1].x - at[best].x, at[best + 1].y - at[best].y))
            best = i;
    return best;
}

/* A duct through corners, its flow positive along them. */
static void duct(const struct pen *p, const struct spot *at, int n,
                 struct air air, enum kind kind)
{
    double w = wide(p, air.q);
    int i = longest(at, n);

    path(p, at, n, "d-halo", fmax(w, 3) + 4);
    if (fabs(air.q) < nothing) {
        path(p, at, n, "d-idle", 1.6);
        return;
    }
    path(p, at, n, classes[kind], w);
    if (kind == STALE)
        path(p, at, n, "d-rungs", 0.45 * w);
    if (kind == TRUNK && air.fresh > nothing)
        path(p, at, n, "d-part", fmin(wide(p, air.fresh), 0.8 * w));
    head(p, at[i], at[i + 1], air.q, w);
}

/* How much flows, beside a place. */
static void amount(const struct pen *p, struct spot at, double q,
                   const char *class)
{
    if (fabs(q) >= nothing)
        words(p, at, class, dew__air_figure(fabs(q), p->system).text);
}

/* ---- house, rooms, units ------------------------------------------------- */

static void house(const struct pen *p)
{
    const double eaves = 16, ridge = 30;
    double left = DEW__PLAN_WALL, right = DEW__PLAN_RIGHT,
           top = DEW__PLAN_TOP - 4;

    fprintf(p->out,
            "<path class=\"d-house\" d=\"M%.0f,%.0f V%.0f H%.0f V%.0f\"/>\n",
            left, top, p->p->floor, right, top);
    fprintf(p->out,
            "<path class=\"d-roof\" d=\"M%.0f,%.0f L%.0f,%.0f L%.0f,%.0f "
            "Z\"/>\n",
            left - eaves, top, 0.5 * (left + right), top - ridge, right + 6,
            top);
    words(p, (struct spot){8, DEW__PLAN_TOP + 10}, "d-small", "outdoors");
}

static void box(const struct pen *p, struct spot at, struct spot size,
                const char *class)
{
    fprintf(p->out,
            "<rect class=\"%s\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" "
            "height=\"%.1f\" rx=\"3\"/>\n",
            class, at.x, at.y, size.x, size.y);
}

/* "+24 -32": fresh air that comes in, stale air that is drawn. */
static void room_air(const struct pen *p, double fresh, double stale, double y)
{
    char text[80] = "";
    size_t at = 0;

    if (fresh >= nothing)
        at = (size_t)snprintf(text, sizeof text, "+%s",
                              dew__air_figure(fresh, p->system).text);
    if (stale >= nothing)
        snprintf(text + at, sizeof text - at, "%s\xe2\x88\x92%s",
                 at > 0 ? " " : "", dew__air_figure(stale, p->system).text);
    if (text[0] != '\0')
        words(p,
              (struct spot){DEW__PLAN_ROOMS + DEW__PLAN_ROOMS_W - 6, y + 4.5},
              "d-end d-strong", text);
}

static void row(const struct pen *p, const char *name, double y,
                const char *class)
{
    char clean[64];

    box(p, (struct spot){DEW__PLAN_ROOMS, y - 10.5},
        (struct spot){DEW__PLAN_ROOMS_W, 21}, class);
    dew__clean(name, clean, sizeof clean);
    words(p, (struct spot){DEW__PLAN_ROOMS + 6, y + 4.5}, "d-name", clean);
}

static void rooms(const struct pen *p)
{
    const struct dew_duct_layout *l = &p->t->layout;

    for (int g = 0; g < l->grille_count; g++) {
        row(p, l->grilles[g].name, p->p->room[g], "d-room");
        room_air(p, p->s->fresh_at[g], p->s->stale_at[g], p->p->room[g]);
    }
    for (int k = 0; k < l->handler_count; k++) {
        row(p, "return", p->p->grilles[k], "d-grille");
        room_air(p, p->s->fresh_at_return[k], 0, p->p->grilles[k]);
    }
}

static void handler_box(const struct pen *p, int k)
{
    static const char *const does[] = {"blower off", "blower low",
                                       "blower full"};
    double top = p->p->supply[k] - 16, bottom = p->p->back[k] + 16;
    double middle = DEW__PLAN_UNIT + 0.5 * DEW__PLAN_UNIT_W;
    char name[40];

    box(p, (struct spot){DEW__PLAN_UNIT, top},
        (struct spot){DEW__PLAN_UNIT_W, bottom - top}, "d-unit");
    snprintf(name, sizeof name, "air handler%s%.0d",
             p->t->layout.handler_count > 1 ? " " : "",
             p->t->layout.handler_count > 1 ? k + 1 : 0);
    words(p, (struct spot){middle, top + 27}, "d-mid d-strong", name);
    words(p, (struct spot){middle, top + 44}, "d-mid",
          does[dew_ducts_blower_digit(p->s->blower, k)]);
    if (p->s->coil_flow[k] >= nothing)
        words(p, (struct spot){middle, top + 61}, "d-mid",
              dew__air(p->s->coil_flow[k], p->system).text);
}

static void vent_box(const struct pen *p, int j)
{
    double top = p->p->vent[j];
    double middle = DEW__PLAN_UNIT + 0.5 * DEW__PLAN_UNIT_W;
    char name[40];

    box(p, (struct spot){DEW__PLAN_UNIT, top},
        (struct spot){DEW__PLAN_UNIT_W, DEW__VENT_H}, "d-unit");
    fprintf(p->out,
            "<path class=\"d-core\" d=\"M%.0f,%.0f l26,28 l-26,28 l-26,-28 "
            "Z\"/>\n",
            middle, top + 5);
    snprintf(name, sizeof name, "ventilator%s%.0d",
             p->t->layout.vent_count > 1 ? " " : "",
             p->t->layout.vent_count > 1 ? j + 1 : 0);
    words(p, (struct spot){middle, top + 30}, "d-mid d-strong", name);
    words(p, (struct spot){middle, top + 46}, "d-mid",
          dew__told_vent(p->s->vent));
}

/* ---- ducts --------------------------------------------------------------- */

/* A damper across an outdoor duct, drawn where one is fitted. */
static void damper(const struct pen *p, double y)
{
    if (p->t->layout.damper == DEW_DUCT_FITTED)
        fprintf(p->out,
                "<line class=\"d-damper\" x1=\"%d\" y1=\"%.1f\" x2=\"%d\" "
                "y2=\"%.1f\"/>\n",
                DEW__PLAN_WALL + 14, y - 9, DEW__PLAN_WALL + 14, y + 9);
}

static void outdoor_ducts(const struct pen *p, int j)
{
    double up = p->p->vent[j] + DEW__VENT_UP,
           low = p->p->vent[j] + DEW__VENT_LOW;
    int idle = p->s->vent == DEW_VENT_OFF;
    struct air in = air_in(p, run_of(p, DEW_ROLE_FRESH_UNIT, j));
    struct air out = air_in(p, run_of(p, DEW_ROLE_STALE_UNIT, j));
    const struct spot a[] = {{10, low}, {DEW__PLAN_UNIT, low}};
    const struct spot b[] = {{DEW__PLAN_UNIT, up}, {10, up}};

    duct(p, a, 2, in, idle || in.q < 0 ? ASTRAY : FRESH);
    duct(p, b, 2, out, idle || out.q < 0 ? ASTRAY : STALE);
    damper(p, low);
    damper(p, up);
    amount(p, (struct spot){26, low + 20}, in.q, "d-flow");
    amount(p, (struct spot){26, up - 10}, out.q, "d-flow");
}

/* Trunks of air handler k, to its rooms and back. */
static void supply_trunk(const struct pen *p, int k)
{
    const struct dew_duct_layout *l = &p->t->layout;
    double y = p->p->supply[k], high = y, low = y;
    struct air first = air_in(p, run_named(p, "handler to fresh tap", k));
    struct air rest = air_in(p, run_named(p, "supply trunk", k));
    const struct spot a[] = {{DEW__PLAN_UNIT + DEW__PLAN_UNIT_W, y},
                             {DEW__PLAN_FRESH - DEW__PLAN_STEP * k, y}};
    const struct spot b[] = {{DEW__PLAN_FRESH - DEW__PLAN_STEP * k, y},
                             {DEW__PLAN_RISER, y}};

    for (int g = 0; g < l->grille_count; g++)
        if (l->grilles[g].handler == k && l->grilles[g].share > 0) {
            high = fmin(high, p->p->room[g]);
            low = fmax(low, p->p->room[g]);
        }
    {
        const struct spot riser[] = {{DEW__PLAN_RISER, high},
                                     {DEW__PLAN_RISER, low}};

        path(p, riser, 2, fabs(rest.q) < nothing ? "d-idle" : "d-trunk",
             fabs(rest.q) < nothing ? 1.6 : wide(p, 0.5 * rest.q));
    }
    duct(p, a, 2, first, TRUNK);
    duct(p, b, 2, rest, TRUNK);
    for (int g = 0; g < l->grille_count; g++) {
        const struct spot c[] = {{DEW__PLAN_RISER, p->p->room[g]},
                                 {DEW__PLAN_ROOMS, p->p->room[g]}};

        if (l->grilles[g].handler == k && l->grilles[g].share > 0)
            duct(p, c, 2, air_in(p, run_of(p, DEW_ROLE_GRILLE, g)), TRUNK);
    }
}

static void return_trunk(const struct pen *p, int k)
{
    double y = p->p->back[k], stale = DEW__PLAN_STALE + DEW__PLAN_STEP * k,
           fresh = DEW__PLAN_FRESH - DEW__PLAN_STEP * k;
    const struct spot a[] = {{DEW__PLAN_ROOMS, y}, {stale, y}};
    const struct spot b[] = {{stale, y}, {fresh, y}};
    const struct spot c[] = {{fresh, y},
                             {DEW__PLAN_UNIT + DEW__PLAN_UNIT_W, y}};

    duct(p, a, 2, air_in(p, run_named(p, "return trunk", k)), TRUNK);
    duct(p, b, 2, air_in(p, run_named(p, "between the taps of return", k)),
         TRUNK);
    duct(p, c, 2, air_in(p, run_named(p, "return to handler", k)), TRUNK);
}

static void tap(const struct pen *p, struct spot at, double pascal)
{
    char text[40];

    fprintf(p->out,
            "<circle class=\"d-tap\" cx=\"%.1f\" cy=\"%.1f\" r=\"3.4\"/>\n",
            at.x, at.y);
    if (!(fabs(pascal) >= 1))
        return;
    snprintf(text, sizeof text, "%s%.20s Pa", pascal > 0 ? "+" : "\xe2\x88\x92",
             dew__number(fabs(pascal), 0).text);
    words(p, (struct spot){at.x + 6, at.y + 19}, "d-pascal", text);
}

static int fresh_to_supply(const struct dew_duct_layout *l)
{
    return l->kind == DEW_LAYOUT_supply_tie ||
           l->kind == DEW_LAYOUT_return_to_supply;
}

static int stale_from_return(const struct dew_duct_layout *l)
{
    return l->kind == DEW_LAYOUT_return_tie ||
           l->kind == DEW_LAYOUT_return_to_supply;
}

/* Ties of ventilator j to air handler k. */
static void ties(const struct pen *p, int j, int k)
{
    const struct dew_duct_layout *l = &p->t->layout;
    double right = DEW__PLAN_UNIT + DEW__PLAN_UNIT_W;
    double fresh = DEW__PLAN_FRESH - DEW__PLAN_STEP * k,
           stale = DEW__PLAN_STALE + DEW__PLAN_STEP * k;
    double to = fresh_to_supply(l) ? p->p->supply[k] : p->p->back[k];
    double low = p->p->vent[j] + DEW__VENT_LOW,
           up = p->p->vent[j] + DEW__VENT_UP;
    int idle = p->s->vent == DEW_VENT_OFF;
    struct air in = air_in(p, run_of(p, DEW_ROLE_FRESH_TIE, k));
    struct air out = air_in(p, run_of(p, DEW_ROLE_STALE_TIE, k));
    const struct spot a[] = {{right, low}, {fresh, low}, {fresh, to}};
    const struct spot b[] = {{stale, p->p->back[k]}, {stale, up}, {right, up}};

    if (stale_from_return(l)) {
        duct(p, b, 3, out, idle || out.q < 0 ? ASTRAY : STALE);
        amount(p, (struct spot){stale + 8, up + 16}, out.q, "d-flow");
        tap(p, b[0], p->s->tap_stale[k]);
    }
    duct(p, a, 3, in, idle || in.q < 0 ? ASTRAY : FRESH);
    amount(p, (struct spot){fresh - 8, low - 8}, in.q, "d-flow d-end");
    tap(p, a[2], l->gap ? 0 : p->s->tap_fresh[k]);
}

static void own_fresh(const struct pen *p, int j)
{
    const struct dew_duct_layout *l = &p->t->layout;
    double y = p->p->vent[j] + DEW__VENT_LOW, high = y, low = y, sum = 0;

    for (int g = 0; g < l->grille_count; g++)
        if (l->grilles[g].vent == j && l->grilles[g].fresh > 0) {
            high = fmin(high, p->p->room[g]);
            low = fmax(low, p->p->room[g]);
            sum += p->s->fresh_at[g];
        }
    {
        const struct spot a[] = {{DEW__PLAN_UNIT + DEW__PLAN_UNIT_W, y},
                                 {DEW__PLAN_OWN, y}};
        const struct spot b[] = {{DEW__PLAN_OWN, high}, {DEW__PLAN_OWN, low}};

        path(p, b, 2, "d-halo", 8);
        path(p, b, 2, sum < nothing ? "d-idle" : "d-fresh",
             sum < nothing ? 1.6 : wide(p, 0.5 * sum));
        duct(p, a, 2, (struct air){sum, sum}, FRESH);
        amount(p, (struct spot){a[0].x + 12, y - 8}, sum, "d-flow");
    }
    for (int g = 0; g < l->grille_count; g++) {
        const struct spot c[] = {{DEW__PLAN_OWN, p->p->room[g]},
                                 {DEW__PLAN_ROOMS, p->p->room[g]}};
        double q = p->s->fresh_at[g];

        if (l->grilles[g].vent == j && l->grilles[g].fresh > 0)
            duct(p, c, 2, (struct air){q, q}, FRESH);
    }
}

static void own_stale(const struct pen *p, int j)
{
    const struct dew_duct_layout *l = &p->t->layout;
    double up = p->p->vent[j] + DEW__VENT_UP, top = p->p->ceiling[j];
    double right = DEW__PLAN_UNIT + DEW__PLAN_UNIT_W, low = top, sum = 0;
    const double edge = DEW__PLAN_ROOMS + DEW__PLAN_ROOMS_W;

    for (int g = 0; g < l->grille_count; g++)
        if (l->grilles[g].vent == j && l->grilles[g].stale > 0) {
            low = fmax(low, p->p->room[g]);
            sum += p->s->stale_at[g];
        }
    {
        const struct spot a[] = {{DEW__PLAN_BACK, low},
                                 {DEW__PLAN_BACK, top},
                                 {right + 24, top},
                                 {right + 24, up},
                                 {right, up}};

        duct(p, a, 5, (struct air){sum, 0}, STALE);
        amount(p, (struct spot){right + 40, top + 18}, sum, "d-flow");
    }
    for (int g = 0; g < l->grille_count; g++) {
        const struct spot c[] = {{edge, p->p->room[g]},
                                 {DEW__PLAN_BACK, p->p->room[g]}};

        if (l->grilles[g].vent == j && l->grilles[g].stale > 0)
            duct(p, c, 2, (struct air){p->s->stale_at[g], 0}, STALE);
    }
}

/* Fresh air that runs straight back out, as an arrow of its own. */
static void short_circuit(const struct pen *p, int k)
{
    const struct dew_duct_layout *l = &p->t->layout;
    double share = p->s->short_circuit_share, q = share * p->s->fresh_gross;
    double fresh = DEW__PLAN_FRESH - DEW__PLAN_STEP * k,
           stale = DEW__PLAN_STALE + DEW__PLAN_STEP * k;
    double y = p->p->back[k] + 26, x = fresh;
    char text[60];

    if (!(share >= 0.01) || !stale_from_return(l) ||
        !(p->s->stale_return[k] >= nothing))
        return;
    if (fresh_to_supply(l))
        x = DEW__PLAN_UNIT + DEW__PLAN_UNIT_W + 4;
    fprintf(p->out,
            "<path class=\"d-short\" d=\"M%.1f,%.1f V%.1f H%.1f V%.1f\"/>\n"
            "<path class=\"d-shorthead\" d=\"M%.1f,%.1f l-6,10 h12 Z\"/>\n",
            x, p->p->back[k] + 6, y, stale, p->p->back[k] + 15, stale,
            p->p->back[k] + 5);
    snprintf(text, sizeof text, "straight back: %.20s",
             dew__air_figure(q, p->system).text);
    words(p, (struct spot){stale + 12, y + 4}, "d-flow d-warn", text);
}

static void ducts(const struct pen *p)
{
    const struct dew_duct_layout *l = &p->t->layout;
    int tied = l->kind != DEW_LAYOUT_own_ducts;

    for (int k = 0; k < l->handler_count; k++) {
        supply_trunk(p, k);
        return_trunk(p, k);
    }
    for (int j = 0; j < l->vent_count; j++) {
        outdoor_ducts(p, j);
        if (!stale_from_return(l))
            own_stale(p, j);
        if (!tied || l->also_own)
            own_fresh(p, j);
        for (int k = 0; tied && k < l->handler_count; k++)
            if (l->vents[j].serves >> k & 1)
                ties(p, j, k);
    }
    for (int k = 0; k < l->handler_count; k++)
        short_circuit(p, k);
}

/* ---- a panel ------------------------------------------------------------- */

struct dew__word dew__sketch_title(const struct dew__told *t,
                                   enum dew_vent_state vent, int blower)
{
    struct dew__word w;
    int n = t->layout.handler_count;

    snprintf(w.text, sizeof w.text, "Ventilator %s%s%.60s",
             dew__told_vent(vent),
             n == 0   ? ""
             : n == 1 ? ", blower "
                      : ", blowers ",
             n == 0 ? "" : dew__told_blowers(t, blower).text);
    return w;
}

double dew__sketch_height(const struct dew__told *t)
{
    struct dew__plan plan;

    dew__plan_make(&t->layout, &plan);
    return plan.floor + 30;
}

void dew__sketch_panel(const struct dew__told *t, enum dew_vent_state vent,
                       int blower, enum dew_system system, FILE *out)
{
    struct dew__plan plan;
    struct dew_duct_state again;
    struct pen p = {.out = out, .t = t, .p = &plan, .system = system};

    dew__plan_make(&t->layout, &plan);
    p.s = &t->states[vent][blower];
    p.most = 2 * t->layout.vents[0].flow;
    for (int k = 0; k < t->layout.handler_count; k++)
        p.most = fmax(p.most, t->layout.handlers[k].flow);
    /* the runs of this state: solved before, so it solves again */
    if (dew_ducts_state(t->ducts, vent, blower, &again, NULL) != DEW_OK)
        return;
    words(&p, (struct spot){4, 22}, "d-title",
          dew__sketch_title(t, vent, blower).text);
    house(&p);
    ducts(&p);
    rooms(&p);
    for (int k = 0; k < t->layout.handler_count; k++)
        handler_box(&p, k);
    for (int j = 0; j < t->layout.vent_count; j++)
        vent_box(&p, j);
}
