/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The air paths of one state, drawn: outdoors to the left, ventilators and air
 * handlers inside the wall, rooms to the right.  A duct is as wide as the root
 * of its flow; the dark core of a pale trunk is the fresh share of its air.
 */
#include <math.h>
#include <string.h>

#include "draw/ducts_pen.h"
#include "draw/svg.h"

/* ---- house, rooms, units ------------------------------------------------- */

static void house(const struct draw__pen *p)
{
    const double eaves = 16, ridge = 30;
    double left = DRAW__PLAN_WALL, right = DRAW__PLAN_RIGHT,
           top = DRAW__PLAN_TOP - 4;

    draw__pen_words(p, (struct draw__spot){8, DRAW__PLAN_TOP + 10}, "d-small",
                    "outside");
    if (p->words)
        return;
    fprintf(p->out,
            "<path class=\"d-house\" d=\"M%.0f,%.0f V%.0f H%.0f V%.0f\"/>\n",
            left, top, p->p->floor, right, top);
    fprintf(p->out,
            "<path class=\"d-roof\" d=\"M%.0f,%.0f L%.0f,%.0f L%.0f,%.0f "
            "Z\"/>\n",
            left - eaves, top, 0.5 * (left + right), top - ridge, right + 6,
            top);
}

static void box(const struct draw__pen *p, struct draw__spot at,
                struct draw__spot size, const char *class)
{
    if (p->words)
        return;
    fprintf(p->out,
            "<rect class=\"%s\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" "
            "height=\"%.1f\" rx=\"3\"/>\n",
            class, at.x, at.y, size.x, size.y);
}

/* "+24 -32": fresh air that comes in, stale air that is drawn. */
static void room_air(const struct draw__pen *p, double fresh, double stale,
                     double y)
{
    char text[80] = "";
    size_t at = 0;

    if (fresh >= DRAW__NO_FLOW)
        at = (size_t)snprintf(text, sizeof text, "+%s",
                              report__air_figure(fresh, p->system).text);
    if (stale >= DRAW__NO_FLOW)
        snprintf(text + at, sizeof text - at, "%s\xe2\x88\x92%s",
                 at > 0 ? " " : "", report__air_figure(stale, p->system).text);
    if (text[0] != '\0')
        draw__pen_words(p,
                        (struct draw__spot){
                            DRAW__PLAN_ROOMS + DRAW__PLAN_ROOMS_W - 6, y + 4.5},
                        "d-end d-strong", text);
}

static void row(const struct draw__pen *p, const char *name, double y,
                const char *class)
{
    char clean[64];

    box(p, (struct draw__spot){DRAW__PLAN_ROOMS, y - 10.5},
        (struct draw__spot){DRAW__PLAN_ROOMS_W, 21}, class);
    core__clean(name, clean, sizeof clean);
    draw__pen_words(p, (struct draw__spot){DRAW__PLAN_ROOMS + 6, y + 4.5},
                    "d-name", clean);
}

static void rooms(const struct draw__pen *p)
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

static void handler_box(const struct draw__pen *p, int k)
{
    static const char *const does[] = {"blower off", "blower low",
                                       "blower full"};
    double top = p->p->supply[k] - 16, bottom = p->p->back[k] + 16;
    double middle = DRAW__PLAN_UNIT + 0.5 * DRAW__PLAN_UNIT_W;
    char name[40];

    box(p, (struct draw__spot){DRAW__PLAN_UNIT, top},
        (struct draw__spot){DRAW__PLAN_UNIT_W, bottom - top}, "d-unit");
    snprintf(name, sizeof name, "air handler%s%.0d",
             p->t->layout.handler_count > 1 ? " " : "",
             p->t->layout.handler_count > 1 ? k + 1 : 0);
    draw__pen_words(p, (struct draw__spot){middle, top + 27}, "d-mid d-strong",
                    name);
    draw__pen_words(p, (struct draw__spot){middle, top + 44}, "d-mid",
                    does[dew_ducts_blower_digit(p->s->blower, k)]);
    if (p->s->coil_flow[k] >= DRAW__NO_FLOW)
        draw__pen_words(p, (struct draw__spot){middle, top + 61}, "d-mid",
                        report__air(p->s->coil_flow[k], p->system).text);
}

static void vent_box(const struct draw__pen *p, int j)
{
    double top = p->p->vent[j];
    double middle = DRAW__PLAN_UNIT + 0.5 * DRAW__PLAN_UNIT_W;
    char name[40];

    box(p, (struct draw__spot){DRAW__PLAN_UNIT, top},
        (struct draw__spot){DRAW__PLAN_UNIT_W, DRAW__VENT_H}, "d-unit");
    if (!p->words)
        fprintf(p->out,
                "<path class=\"d-core\" d=\"M%.0f,%.0f l26,28 l-26,28 l-26,-28 "
                "Z\"/>\n",
                middle, top + 5);
    snprintf(name, sizeof name, "ventilator%s%.0d",
             p->t->layout.vent_count > 1 ? " " : "",
             p->t->layout.vent_count > 1 ? j + 1 : 0);
    draw__pen_words(p, (struct draw__spot){middle, top + 30}, "d-mid d-strong",
                    name);
    draw__pen_words(p, (struct draw__spot){middle, top + 46}, "d-mid",
                    report__told_vent(p->s->vent));
}

/* ---- ducts --------------------------------------------------------------- */

/* A damper across an outdoor duct, drawn where one is fitted. */
static void damper(const struct draw__pen *p, double y)
{
    if (!p->words && p->t->layout.damper == DEW_DUCT_FITTED)
        fprintf(p->out,
                "<line class=\"d-damper\" x1=\"%d\" y1=\"%.1f\" x2=\"%d\" "
                "y2=\"%.1f\"/>\n",
                DRAW__PLAN_WALL + 14, y - 9, DRAW__PLAN_WALL + 14, y + 9);
}

static void outdoor_ducts(const struct draw__pen *p, int j)
{
    double up = p->p->vent[j] + DRAW__VENT_UP,
           low = p->p->vent[j] + DRAW__VENT_LOW;
    int idle = p->s->vent == DEW_VENT_OFF;
    struct draw__flow in =
        draw__pen_air(p, draw__pen_run(p, DEW_ROLE_FRESH_UNIT, j));
    struct draw__flow out =
        draw__pen_air(p, draw__pen_run(p, DEW_ROLE_STALE_UNIT, j));
    const struct draw__spot a[] = {{10, low}, {DRAW__PLAN_UNIT, low}};
    const struct draw__spot b[] = {{DRAW__PLAN_UNIT, up}, {10, up}};

    /* as measured, where it was */
    in.q = p->s->units[j].supply > 0 ? p->s->units[j].supply : in.q;
    out.q = p->s->units[j].exhaust > 0 ? p->s->units[j].exhaust : out.q;
    draw__pen_duct(p, a, 2, in, idle || in.q < 0 ? DRAW__ASTRAY : DRAW__FRESH);
    draw__pen_duct(p, b, 2, out,
                   idle || out.q < 0 ? DRAW__ASTRAY : DRAW__STALE);
    damper(p, low);
    damper(p, up);
    draw__pen_amount(p, (struct draw__spot){18, low + 20}, in.q, "d-flow");
    draw__pen_amount(p, (struct draw__spot){18, up - 10}, out.q, "d-flow");
}

/* Trunks of air handler k, to its rooms and back. */
static void supply_trunk(const struct draw__pen *p, int k)
{
    const struct dew_duct_layout *l = &p->t->layout;
    double y = p->p->supply[k], high = y, low = y;
    int own = l->kind == DEW_LAYOUT_own_ducts || l->also_own;
    struct draw__flow first =
        draw__pen_air(p, draw__pen_run_named(p, "handler to fresh tap", k));
    struct draw__flow rest =
        draw__pen_air(p, draw__pen_run_named(p, "supply trunk", k));
    const struct draw__spot a[] = {{DRAW__PLAN_UNIT + DRAW__PLAN_UNIT_W, y},
                                   {DRAW__PLAN_FRESH - DRAW__PLAN_STEP * k, y}};
    const struct draw__spot b[] = {{DRAW__PLAN_FRESH - DRAW__PLAN_STEP * k, y},
                                   {DRAW__PLAN_RISER, y}};

    for (int g = 0; g < l->grille_count; g++)
        if (l->grilles[g].handler == k && l->grilles[g].share > 0) {
            high = fmin(high, p->p->room[g]);
            low = fmax(low, p->p->room[g]);
        }
    {
        const struct draw__spot riser[] = {{DRAW__PLAN_RISER, high},
                                           {DRAW__PLAN_RISER, low}};

        if (fabs(rest.q) >= DRAW__NO_FLOW)
            draw__pen_path(p, riser, 2, "d-trunk",
                           draw__pen_width(p, 0.5 * rest.q));
    }
    draw__pen_duct(p, a, 2, first, DRAW__TRUNK);
    draw__pen_duct(p, b, 2, rest, DRAW__TRUNK);
    draw__pen_amount(
        p,
        (struct draw__spot){own ? DRAW__PLAN_OWN - 8 : DRAW__PLAN_RISER - 10,
                            y - 11},
        rest.q, "d-flow d-end d-pale");
    for (int g = 0; g < l->grille_count; g++) {
        const struct draw__spot c[] = {{DRAW__PLAN_RISER, p->p->room[g]},
                                       {DRAW__PLAN_ROOMS, p->p->room[g]}};

        if (l->grilles[g].handler == k && l->grilles[g].share > 0)
            draw__pen_duct(
                p, c, 2, draw__pen_air(p, draw__pen_run(p, DEW_ROLE_GRILLE, g)),
                DRAW__TRUNK);
    }
}

static void return_trunk(const struct draw__pen *p, int k)
{
    double y = p->p->back[k], stale = DRAW__PLAN_STALE + DRAW__PLAN_STEP * k,
           fresh = DRAW__PLAN_FRESH - DRAW__PLAN_STEP * k;
    const struct draw__spot a[] = {{DRAW__PLAN_ROOMS, y}, {stale, y}};
    const struct draw__spot b[] = {{stale, y}, {fresh, y}};
    const struct draw__spot c[] = {{fresh, y},
                                   {DRAW__PLAN_UNIT + DRAW__PLAN_UNIT_W, y}};

    draw__pen_duct(p, a, 2,
                   draw__pen_air(p, draw__pen_run_named(p, "return trunk", k)),
                   DRAW__TRUNK);
    draw__pen_amount(
        p, (struct draw__spot){DRAW__PLAN_RISER - 6, y - 11},
        draw__pen_air(p, draw__pen_run_named(p, "return trunk", k)).q,
        "d-flow d-end d-pale");
    draw__pen_duct(p, b, 2,
                   draw__pen_air(p, draw__pen_run_named(
                                        p, "between the taps of return", k)),
                   DRAW__TRUNK);
    draw__pen_duct(
        p, c, 2,
        draw__pen_air(p, draw__pen_run_named(p, "return to handler", k)),
        DRAW__TRUNK);
}

enum { TAP_WORDS = 47 }; /* of "-55 Pa" */

/* Its pressure stands below it, from x. */
static void tap(const struct draw__pen *p, struct draw__spot at, double pascal,
                double x)
{
    char text[40];

    if (!p->words)
        fprintf(p->out,
                "<circle class=\"d-tap\" cx=\"%.1f\" cy=\"%.1f\" r=\"3.4\"/>\n",
                at.x, at.y);
    if (!(fabs(pascal) >= 1))
        return;
    snprintf(text, sizeof text, "%s%.20s Pa", pascal > 0 ? "+" : "\xe2\x88\x92",
             report__number(fabs(pascal), 0).text);
    draw__pen_words(p, (struct draw__spot){x, at.y + 19}, "d-pascal", text);
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

/* Where a tie's figure stands: ties of one ventilator side by side. */
static struct draw__spot tie_label(const struct draw__pen *p, int j, int k,
                                   int stale)
{
    const struct dew_duct_layout *l = &p->t->layout;
    double top = p->p->vent[j];
    int shared = l->vent_count == 1, beside = shared ? k : 0;
    int last = shared ? l->handler_count - 1 : k;

    if (stale)
        return (struct draw__spot){DRAW__PLAN_STALE + DRAW__PLAN_STEP * last +
                                       8,
                                   top + DRAW__VENT_UP + 16 * (1 + beside)};
    return (struct draw__spot){DRAW__PLAN_FRESH -
                                   (shared ? 0 : DRAW__PLAN_STEP * k) + 7,
                               top + DRAW__VENT_LOW + 17 + 15 * beside};
}

/* "2: 53", of the second of several air handlers. */
static void tie_amount(const struct draw__pen *p, struct draw__spot at, int k,
                       double q)
{
    char text[80];

    if (p->t->layout.handler_count < 2) {
        draw__pen_amount(p, at, q, "d-flow");
        return;
    }
    snprintf(text, sizeof text, "%d: %.40s", k + 1,
             report__air_figure(fabs(q), p->system).text);
    if (fabs(q) >= DRAW__NO_FLOW)
        draw__pen_words(p, at, "d-flow", text);
}

/* Ties of ventilator j to air handler k. */
static void ties(const struct draw__pen *p, int j, int k)
{
    const struct dew_duct_layout *l = &p->t->layout;
    double right = DRAW__PLAN_UNIT + DRAW__PLAN_UNIT_W;
    double fresh = DRAW__PLAN_FRESH - DRAW__PLAN_STEP * k,
           stale = DRAW__PLAN_STALE + DRAW__PLAN_STEP * k;
    double to = fresh_to_supply(l) ? p->p->supply[k] : p->p->back[k];
    double low = p->p->vent[j] + DRAW__VENT_LOW,
           up = p->p->vent[j] + DRAW__VENT_UP;
    int idle = p->s->vent == DEW_VENT_OFF;
    struct draw__flow in =
        draw__pen_air(p, draw__pen_run(p, DEW_ROLE_FRESH_TIE, k));
    struct draw__flow out =
        draw__pen_air(p, draw__pen_run(p, DEW_ROLE_STALE_TIE, k));
    const struct draw__spot a[] = {{right, low}, {fresh, low}, {fresh, to}};
    const struct draw__spot b[] = {
        {stale, p->p->back[k]}, {stale, up}, {right, up}};

    if (stale_from_return(l)) {
        draw__pen_duct(p, b, 3, out,
                       idle || out.q < 0 ? DRAW__ASTRAY : DRAW__STALE);
        tie_amount(p, tie_label(p, j, k, 1), k, out.q);
    }
    draw__pen_duct(p, a, 3, in, idle || in.q < 0 ? DRAW__ASTRAY : DRAW__FRESH);
    tie_amount(p, tie_label(p, j, k, 0), k, in.q);
}

/* Fresh air out of grille g by its own duct: without its supply air's part. */
static double own_part(const struct draw__pen *p, int g)
{
    const struct dew_duct_grille *at = &p->t->layout.grilles[g];

    if (!(at->handler >= 0 && at->share > 0))
        return p->s->fresh_at[g];
    return p->s->fresh_at[g] -
           draw__pen_air(p, draw__pen_run(p, DEW_ROLE_GRILLE, g)).fresh;
}

/* Drawn over the ties, with the pressures of the trunk. */
static void taps(const struct draw__pen *p, int k)
{
    const struct dew_duct_layout *l = &p->t->layout;
    int stale = stale_from_return(l);
    const struct draw__spot a = {DRAW__PLAN_FRESH - DRAW__PLAN_STEP * k,
                                 fresh_to_supply(l) ? p->p->supply[k]
                                                    : p->p->back[k]};
    const struct draw__spot b = {DRAW__PLAN_STALE + DRAW__PLAN_STEP * k,
                                 p->p->back[k]};

    tap(p, a, l->gap ? 0 : p->s->tap_fresh[k],
        stale && k == 0 ? a.x - TAP_WORDS : a.x + 7);
    if (stale)
        tap(p, b, p->s->tap_stale[k],
            DRAW__PLAN_STALE + DRAW__PLAN_STEP * (l->handler_count - 1) + 7);
}

/* What a duct of its own carries, unless it is what stands at the hood. */
static void own_amount(const struct draw__pen *p, struct draw__spot at,
                       double q, double hood)
{
    const double same = 0.02;

    if (fabs(q - hood) >= same * hood)
        draw__pen_amount(p, at, q, "d-flow");
}

static void own_fresh(const struct draw__pen *p, int j)
{
    const struct dew_duct_layout *l = &p->t->layout;
    double y = p->p->vent[j] + DRAW__VENT_LOW, high = y, low = y, sum = 0;

    for (int g = 0; g < l->grille_count; g++)
        if (l->grilles[g].vent == j && l->grilles[g].fresh > 0) {
            high = fmin(high, p->p->room[g]);
            low = fmax(low, p->p->room[g]);
            sum += own_part(p, g);
        }
    {
        const struct draw__spot a[] = {{DRAW__PLAN_UNIT + DRAW__PLAN_UNIT_W, y},
                                       {DRAW__PLAN_OWN, y}};
        const struct draw__spot b[] = {{DRAW__PLAN_OWN, high},
                                       {DRAW__PLAN_OWN, low}};

        if (sum >= DRAW__NO_FLOW) {
            draw__pen_path(p, b, 2, "d-halo", 8);
            draw__pen_path(p, b, 2, "d-fresh", draw__pen_width(p, 0.5 * sum));
        }
        draw__pen_duct(p, a, 2, (struct draw__flow){sum, sum}, DRAW__FRESH);
        own_amount(p, (struct draw__spot){a[0].x + 12, y - 8}, sum,
                   p->s->units[j].supply);
    }
    for (int g = 0; g < l->grille_count; g++) {
        const struct draw__spot c[] = {{DRAW__PLAN_OWN, p->p->room[g]},
                                       {DRAW__PLAN_ROOMS, p->p->room[g]}};
        double q = own_part(p, g);

        if (l->grilles[g].vent == j && l->grilles[g].fresh > 0)
            draw__pen_duct(p, c, 2, (struct draw__flow){q, q}, DRAW__FRESH);
    }
}

static void own_stale(const struct draw__pen *p, int j)
{
    const struct dew_duct_layout *l = &p->t->layout;
    double up = p->p->vent[j] + DRAW__VENT_UP, top = p->p->ceiling[j];
    double right = DRAW__PLAN_UNIT + DRAW__PLAN_UNIT_W, low = top, sum = 0;
    const double edge = DRAW__PLAN_ROOMS + DRAW__PLAN_ROOMS_W;

    for (int g = 0; g < l->grille_count; g++)
        if (l->grilles[g].vent == j && l->grilles[g].stale > 0) {
            low = fmax(low, p->p->room[g]);
            sum += p->s->stale_at[g];
        }
    {
        const struct draw__spot a[] = {{DRAW__PLAN_BACK, low},
                                       {DRAW__PLAN_BACK, top},
                                       {right + 24, top},
                                       {right + 24, up},
                                       {right, up}};

        draw__pen_duct(p, a, 5, (struct draw__flow){sum, 0}, DRAW__STALE);
        own_amount(p, (struct draw__spot){right + 40, top + 18}, sum,
                   p->s->units[j].exhaust);
    }
    for (int g = 0; g < l->grille_count; g++) {
        const struct draw__spot c[] = {{edge, p->p->room[g]},
                                       {DRAW__PLAN_BACK, p->p->room[g]}};

        if (l->grilles[g].vent == j && l->grilles[g].stale > 0)
            draw__pen_duct(p, c, 2, (struct draw__flow){p->s->stale_at[g], 0},
                           DRAW__STALE);
    }
}

/* m3/s of fresh air that leaves by the stale tie of air handler k. */
static double straight_back(const struct draw__pen *p, int k)
{
    const struct dew_duct_layout *l = &p->t->layout;
    double net = 0, sum = 0;

    for (int j = 0; j < l->vent_count; j++)
        net += p->s->units[j].supply * (1 - l->vents[j].eatr);
    for (int i = 0; i < l->handler_count; i++)
        sum += draw__pen_air(p, draw__pen_run(p, DEW_ROLE_STALE_TIE, i)).fresh;
    return sum > 0 ? draw__pen_air(p, draw__pen_run(p, DEW_ROLE_STALE_TIE, k))
                             .fresh /
                         sum * p->s->short_circuit_share * net
                   : 0;
}

/* An arrow of its own for it. */
static void short_circuit(const struct draw__pen *p, int k)
{
    const struct dew_duct_layout *l = &p->t->layout;
    double q = straight_back(p, k);
    double fresh = DRAW__PLAN_FRESH - DRAW__PLAN_STEP * k,
           stale = DRAW__PLAN_STALE + DRAW__PLAN_STEP * k;
    double y = p->p->back[k] + 30, x = fresh;
    char text[60];

    if (!(q >= 0.01 * p->s->fresh_gross) || !(q >= DRAW__NO_FLOW))
        return;
    if (fresh_to_supply(l))
        x = DRAW__PLAN_UNIT + DRAW__PLAN_UNIT_W + 4;
    if (!p->words)
        fprintf(p->out,
                "<path class=\"d-short\" d=\"M%.1f,%.1f V%.1f H%.1f V%.1f\"/>\n"
                "<path class=\"d-shorthead\" d=\"M%.1f,%.1f l-6,10 h12 Z\"/>\n",
                x, p->p->back[k] + 6, y, stale, p->p->back[k] + 15, stale,
                p->p->back[k] + 5);
    snprintf(text, sizeof text, "straight back: %.20s",
             report__air_figure(q, p->system).text);
    draw__pen_words(p, (struct draw__spot){stale + 10, y + 5}, "d-flow d-warn",
                    text);
}

static void ducts(const struct draw__pen *p)
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
    for (int j = 0; j < l->vent_count; j++)
        for (int k = 0; tied && k < l->handler_count; k++)
            if (l->vents[j].serves >> k & 1)
                taps(p, k);
    for (int k = 0; k < l->handler_count; k++)
        if (stale_from_return(l) && p->s->vent != DEW_VENT_OFF)
            short_circuit(p, k);
}

/* ---- a panel ------------------------------------------------------------- */

struct report__word report__sketch_title(const struct report__told *t,
                                         enum dew_vent_state vent, int blower)
{
    static const char *const does[] = {"off", "low", "full"};
    struct report__word w;
    int n = t->layout.handler_count;
    size_t at = (size_t)snprintf(w.text, sizeof w.text, "Ventilator %s",
                                 report__told_vent(vent));

    for (int k = 0; k < n; k++) {
        const char *now = does[dew_ducts_blower_digit(blower, k)];

        at += n == 1 ? (size_t)snprintf(w.text + at, sizeof w.text - at,
                                        ", blower %s", now)
                     : (size_t)snprintf(w.text + at, sizeof w.text - at,
                                        ", blower %d %s", k + 1, now);
    }
    return w;
}

double report__sketch_height(const struct report__told *t)
{
    struct draw__plan plan;

    draw__plan_make(&t->layout, &plan);
    return plan.floor + 30;
}

/* Its lines, or its words. */
static void panel(const struct draw__pen *p)
{
    house(p);
    ducts(p);
    rooms(p);
    for (int k = 0; k < p->t->layout.handler_count; k++)
        handler_box(p, k);
    for (int j = 0; j < p->t->layout.vent_count; j++)
        vent_box(p, j);
}

static void units(const struct draw__pen *p)
{
    char text[80];

    snprintf(text, sizeof text, "air in %.20s",
             report__unit(DEW_FLOW, p->system)->name);
    draw__pen_words(p, (struct draw__spot){DRAW__PLAN_WIDE - 4, 22},
                    "d-small d-end", text);
}

void report__sketch_panel(const struct report__told *t,
                          enum dew_vent_state vent, int blower,
                          enum dew_system system, FILE *out)
{
    struct draw__plan plan;
    struct dew_duct_state again;
    struct draw__pen p = {.out = out, .t = t, .p = &plan, .system = system};

    draw__plan_make(&t->layout, &plan);
    p.s = &t->states[vent][blower];
    p.most = 2 * t->layout.vents[0].flow;
    for (int k = 0; k < t->layout.handler_count; k++)
        p.most = fmax(p.most, t->layout.handlers[k].flow);
    /* the runs of this state: solved before, so it solves again */
    if (dew_ducts_state(t->ducts, vent, blower, &again, NULL) != DEW_OK)
        return;
    p.words = 1;
    draw__pen_words(&p, (struct draw__spot){4, 22}, "d-title",
                    report__sketch_title(t, vent, blower).text);
    units(&p);
    for (p.words = 0; p.words <= 1; p.words++)
        panel(&p);
}
