/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a layout does not say. */
#include <math.h>
#include <stdio.h>

#include "core/fail.h"
#include "ducts/build.h"

#define ROWS(table) (sizeof(table) / sizeof((table)[0]))

static const double cfm = 4.719474432e-4; /* m3/s, exact */

/* clang-format off */
static const struct dew_duct_preset presets[] = {
    {"low flow of a blower",          "50 % of its full flow",          "from memory"},
    {"external static",               "124 Pa (0.5 in. of water)",      "common practice, no source"},
    {"filter, coil and casing",       "87 Pa at full flow: filter 25, wet coil 62", "common practice, no source"},
    {"blower's flow without ducts",   "1.3 of its rated flow",          "our own"},
    {"blower's watts",                "0.365 W per cfm",                "[NREL-56354]"},
    {"blower's watts at low flow",    "by the square of the flow",      "our own"},
    {"return's share of the static",  "50 %",                           "our own"},
    {"air speed in a supply trunk",   "4.5 m/s, which sizes it",        "common practice, no source"},
    {"air speed in a return trunk",   "3.5 m/s, which sizes it",        "common practice, no source"},
    {"length of trunks",              "supply 6 m, return 3 m",         "our guess"},
    {"between stale and fresh tap",   "0.91 m (3 ft), the least",       "[TIE-MANUALS]"},
    {"fresh tap of the return to the handler", "3.05 m (10 ft), the least", "[TIE-MANUALS]"},
    {"handler to the fresh tap of the supply", "0.46 m (18 in), the least", "[TIE-MANUALS]"},
    {"duct leaks outside",            "none: ducts inside",             "[ASH-F17] 0 in conditioned space, else 5 to 11 % a side"},
    {"ventilator's rated flow",       "the greatest flow it is set to", "our own"},
    {"ventilator's pressure",         "150 Pa at its rated flow: 225 Pa without flow, 1.75 of its flow without ducts", "from memory"},
    {"ventilator's watts",            "0.83 W per cfm",                 "[CFR460], the least of manufactured homes"},
    {"loss of a side of an idle unit", "75 Pa at its rated flow",       "from memory"},
    {"stale air that comes back",     "1 %",                            "from memory"},
    {"ducts to outdoors",             "short 2, medium 4, long 8 m with 1, 2, 3 elbows and a cap", "our guess"},
    {"ducts from ventilator to tap or first branch", "short 3, medium 6, long 12 m with 2, 3, 4 elbows", "our guess"},
    {"branch to a grille",            "short 2, medium 5, long 9 m with 2, 3, 4 elbows", "our guess"},
    {"own duct's friction",           "0.65 Pa/m (0.08 in. per 100 ft) at most, next common size", "common practice, no source"},
    {"fresh air by own ducts",        "2 parts to the main bedroom, 1 to each other; living room 2, our own", "[F326]"},
    {"stale air by own ducts",        "2 parts from the kitchen, 1 from each bath; a second bath from 3 bedrooms", "common practice, no source"},
    {"insulation of ducts",           "1.4 m2K/W (R-8)",                "common practice, no source"},
    {"shut damper",                   "leaks 2 % of the ventilator's rated flow at 50 Pa",     "from memory"},
    {"air mixed back between taps",   "10 % (0 to 30 %) of the fresh air", "our guess"},
    {"shower's water caught by an own pickup", "q / (q + door), door 27 cfm shut, 120 cfm open, 57 cfm likely", "two-zone mixing; doors by our own fit to 30 to 90 % at 80 cfm, from memory"},
    {"cooking's water caught by an own pickup", "as a shower's with the door open; 0 to that with the door shut", "our own"},
    {"any event's water caught by a return tap", "none (0 to 5 %)",     "our guess"},
    {"density of air",                "1.204 kg/m3",                    "[ASH-F21]"},
};
/* clang-format on */

const struct dew_duct_preset *dew_ducts_preset(size_t i)
{
    return i < ROWS(presets) ? &presets[i] : NULL;
}

static void preset(double *x, double value)
{
    if (isnan(*x))
        *x = value;
}

/* ---- ducts --------------------------------------------------------------- */

static int unsaid(const struct dew_duct *d)
{
    return !(d->diameter > 0.0) && !(d->width > 0.0);
}

/* Round sizes on shelves, m: 4 to 20 in; common practice, no source. */
static const double sizes[] = {.1016, .127,  .1524, .1778, .2032,
                               .254,  .3048, .3556, .4064, .508};

double ducts__size(double q, double rate, double roughness)
{
    for (size_t i = 0; i < ROWS(sizes); i++) {
        struct dew_duct d = {
            .diameter = sizes[i], .length = 1.0, .roughness = roughness};

        if (dew_ducts_drop(&d, DEW_DUCTS_DENSITY, q, NULL) <= rate)
            return sizes[i];
    }
    return sizes[ROWS(sizes) - 1];
}

static const double smooth_wall = 0.09e-3; /* m, [ASH-F21] table 1, average */

/* An own duct by its class, sized for the flow. */
static void own_line(struct dew_duct_line *line, double q, double length,
                     double loss)
{
    const double rate = 0.65; /* Pa/m */

    preset(&line->outside, 0.0);
    preset(&line->r, 1.4);
    if (!unsaid(&line->duct))
        return;
    line->duct =
        (struct dew_duct){.diameter = ducts__size(q, rate, smooth_wall),
                          .length = length,
                          .roughness = smooth_wall,
                          .loss = loss};
}

static void trunk(struct dew_duct_line *line, double q, double speed,
                  double length)
{
    const double pi = 3.14159265358979323846;

    preset(&line->outside, 0.0);
    preset(&line->r, 1.4);
    if (!unsaid(&line->duct))
        return;
    line->duct = (struct dew_duct){.diameter = sqrt(4.0 * q / (pi * speed)),
                                   .length = length,
                                   .roughness = smooth_wall};
}

/* ---- handlers and ventilators -------------------------------------------- */

static void fill_handler(struct dew_duct_handler *h)
{
    const double foot = 0.3048;

    preset(&h->low, 0.5);
    preset(&h->external, 124.0);
    preset(&h->inside, 87.0);
    preset(&h->free, 1.3);
    preset(&h->watts, 0.365 / cfm * h->flow);
    preset(&h->watts_low, h->watts * h->low * h->low);
    preset(&h->return_share, 0.5);
    trunk(&h->return_trunk, h->flow, 3.5, 3.0);
    trunk(&h->supply_trunk, h->flow, 4.5, 6.0);
    preset(&h->between, 3.0 * foot);
    preset(&h->before, 10.0 * foot);
    preset(&h->after, 1.5 * foot);
    preset(&h->leak_return, 0.0);
    preset(&h->leak_supply, 0.0);
}

static void fill_flows(struct dew_duct_vent *v)
{
    double *on = &v->set[DEW_VENT_ON], *boost = &v->set[DEW_VENT_BOOST];

    preset(on, v->flow);
    preset(boost, *on);
    preset(&v->set_stale[DEW_VENT_ON], *on);
    preset(&v->set_stale[DEW_VENT_BOOST], *boost);
    v->set[DEW_VENT_OFF] = v->set_stale[DEW_VENT_OFF] = 0.0;
    preset(&v->flow,
           fmax(fmax(*on, *boost),
                fmax(v->set_stale[DEW_VENT_ON], v->set_stale[DEW_VENT_BOOST])));
}

/* Lengths and elbows by class: to outdoors, to the tap or first branch, to a
   grille. */
static const struct ways {
    double outdoor, elbows_outdoor, inner, elbows_inner, branch, elbows_branch;
} ways[] = {
    {2.0, 1.0, 3.0, 2.0, 2.0, 2.0},
    {4.0, 2.0, 6.0, 3.0, 5.0, 3.0},
    {8.0, 3.0, 12.0, 4.0, 9.0, 4.0},
};
static const double elbow = 0.25; /* [ETB-208] rounded, r/D above 1 */
static const double entry = 0.35, leaving = 1.0; /* [ETB-208] */
static const double screen = 3.0;                /* [ETB-208] grille 0.7 free */

static void fill_vent(const struct dew_duct_layout *l, struct dew_duct_vent *v,
                      int j)
{
    const struct ways *w = &ways[l->length];
    double fresh, stale;

    fill_flows(v);
    fresh = fmax(v->set[DEW_VENT_ON], v->set[DEW_VENT_BOOST]);
    stale = fmax(v->set_stale[DEW_VENT_ON], v->set_stale[DEW_VENT_BOOST]);
    preset(&v->pressure, 225.0 * (1.0 - 1.0 / (1.75 * 1.75)));
    preset(&v->watts, v->flow / (1.2 * cfm));
    preset(&v->core, 75.0);
    preset(&v->eatr, 0.01);
    if (v->serves < 0)
        v->serves = l->vent_count > 1 ? 1 << j : (1 << l->handler_count) - 1;
    own_line(&v->intake, fresh, w->outdoor,
             entry + screen + elbow * w->elbows_outdoor);
    own_line(&v->discharge, stale, w->outdoor,
             leaving + screen + elbow * w->elbows_outdoor);
    own_line(&v->fresh, fresh, w->inner, elbow * w->elbows_inner);
    own_line(&v->stale, stale, w->inner, elbow * w->elbows_inner);
}

/* ---- grilles ------------------------------------------------------------- */

/* One kind of share of the grilles on one handler or ventilator. */
struct shares {
    double *share[DEW_DUCT_GRILLES], found[DEW_DUCT_GRILLES];
    int count;
};

static void add(struct shares *s, double *share, double found)
{
    if (*share == 0.0)
        return;
    s->share[s->count] = share;
    s->found[s->count++] = found;
}

/* Measured flows give the shares where all were measured; else what was said,
   and equal parts of the rest; then all to sum to 1. */
static int share_out(struct shares *s)
{
    double sum = 0.0, found = 0.0;
    int open = 0;

    for (int i = 0; i < s->count; i++) {
        found += s->found[i]; /* NaN stays */
        open += isnan(*s->share[i]);
        sum += isnan(*s->share[i]) ? 0.0 : *s->share[i];
    }
    for (int i = 0; i < s->count; i++) {
        if (found > 0.0)
            *s->share[i] = s->found[i];
        else if (isnan(*s->share[i]))
            *s->share[i] =
                sum < 1.0 ? (1.0 - sum) / open : sum / (s->count - open);
    }
    sum = 0.0;
    for (int i = 0; i < s->count; i++)
        sum += *s->share[i];
    for (int i = 0; i < s->count; i++)
        *s->share[i] /= sum;
    return s->count > 0 && sum > 0.0;
}

static enum dew_status none_of(struct dew_error *err, const char *what, int of,
                               const char *kind)
{
    core__in_row(err, what, (size_t)of, "grilles");
    return core__fail(err, DEW_EMISSING, "has no grille for its %s air", kind);
}

static enum dew_status fill_shares(struct dew_duct_layout *l,
                                   struct dew_error *err)
{
    for (int k = 0; k < l->handler_count; k++) {
        struct shares s = {.count = 0};

        for (int g = 0; g < l->grille_count; g++)
            if (l->grilles[g].handler == k)
                add(&s, &l->grilles[g].share, l->grilles[g].found_supply);
        if (!share_out(&s))
            return none_of(err, "handlers", k, "supply");
    }
    for (int j = 0; j < l->vent_count; j++) {
        struct shares fresh = {.count = 0}, stale = {.count = 0};

        for (int g = 0; g < l->grille_count; g++) {
            if (l->grilles[g].vent != j)
                continue;
            add(&fresh, &l->grilles[g].fresh, l->grilles[g].found_fresh);
            add(&stale, &l->grilles[g].stale, l->grilles[g].found_stale);
        }
        if (!share_out(&fresh) && ducts__own_fresh(l))
            return none_of(err, "vents", j, "fresh");
        if (!share_out(&stale) && !ducts__return_stale(l))
            return none_of(err, "vents", j, "stale");
    }
    return DEW_OK;
}

static void fill_branches(struct dew_duct_layout *l)
{
    const struct ways *w = &ways[l->length];

    for (int g = 0; g < l->grille_count; g++) {
        struct dew_duct_grille *at = &l->grilles[g];
        const struct dew_duct_vent *v;
        double fresh, stale;

        if (at->vent < 0)
            continue;
        v = &l->vents[at->vent];
        fresh = at->fresh * fmax(v->set[DEW_VENT_ON], v->set[DEW_VENT_BOOST]);
        stale = at->stale *
                fmax(v->set_stale[DEW_VENT_ON], v->set_stale[DEW_VENT_BOOST]);
        own_line(&at->line, fmax(fresh, stale), w->branch,
                 elbow * w->elbows_branch);
    }
}

/* What was measured at grilles, summed, when all of a kind were. */
static void fill_found(struct dew_duct_layout *l)
{
    double fresh = 0.0, stale = 0.0;

    for (int g = 0; g < l->grille_count; g++) {
        const struct dew_duct_grille *at = &l->grilles[g];

        if (at->vent >= 0 && at->fresh > 0.0)
            fresh += at->found_fresh;
        if (at->vent >= 0 && at->stale > 0.0)
            stale += at->found_stale;
    }
    if (l->kind == DEW_LAYOUT_own_ducts && fresh > 0.0)
        preset(&l->found[0].fresh, fresh);
    if (!ducts__return_stale(l) && stale > 0.0)
        preset(&l->found[0].stale, stale);
    for (int i = 1; i < 3; i++) {
        preset(&l->found[i].fresh, l->found[i - 1].fresh);
        preset(&l->found[i].stale, l->found[i - 1].stale);
    }
}

/* ---- what is caught before it mixes --------------------------------------- */

struct dew_duct_range dew_ducts_pickup(enum dew_layout kind,
                                       enum dew_duct_event event, double q)
{
    const double shut = 27.0 * cfm, open = 120.0 * cfm, likely = 57.0 * cfm;
    struct dew_duct_range r = {q / (q + open), q / (q + likely),
                               q / (q + shut)};

    if (!(q >= 0.0))
        return (struct dew_duct_range){NAN, NAN, NAN};
    if (kind == DEW_LAYOUT_return_tie || kind == DEW_LAYOUT_return_to_supply)
        return (struct dew_duct_range){0.0, 0.0, 0.05};
    if (event == DEW_DUCT_COOKING)
        return (struct dew_duct_range){0.0, r.low, r.high};
    return r;
}

static void fill_pickup(struct dew_duct_layout *l)
{
    double sum = 0.0;
    int pickups = 0;

    for (int j = 0; j < l->vent_count; j++)
        sum += l->vents[j].set_stale[DEW_VENT_ON];
    for (int g = 0; g < l->grille_count; g++)
        pickups += l->grilles[g].vent >= 0 && l->grilles[g].stale > 0.0;
    for (int e = 0; e < DEW_DUCT_EVENTS; e++)
        if (isnan(l->pickup[e].likely))
            l->pickup[e] = dew_ducts_pickup(l->kind, (enum dew_duct_event)e,
                                            pickups > 0 ? sum / pickups : 0.0);
}

/* ---- checks -------------------------------------------------------------- */

static enum dew_status out(struct dew_error *err, const char *path,
                           const char *text)
{
    core__in(err, path);
    return core__fail(err, DEW_ERANGE, "%s", text);
}

static enum dew_status check_counts(const struct dew_duct_layout *l,
                                    struct dew_error *err)
{
    if ((unsigned)l->kind >= DEW_LAYOUTS)
        return out(err, "kind", "is no layout");
    if (l->handler_count < 0 || l->handler_count > DEW_DUCT_HANDLERS)
        return out(err, "handler_count", "is outside 0 .. 3");
    if (l->handler_count == 0 && l->kind != DEW_LAYOUT_own_ducts)
        return out(err, "handler_count", "a tie needs an air handler");
    if (l->vent_count == 0 && l->handler_count == 0)
        return out(err, "vent_count", "no ventilator and no air handler");
    if (l->vent_count == 0 && l->kind != DEW_LAYOUT_own_ducts)
        return out(err, "vent_count", "a tie needs a ventilator");
    if (l->vent_count < 0 ||
        (l->vent_count > 1 && l->vent_count != l->handler_count))
        return out(err, "vent_count",
                   "is neither 0, 1 nor the number of air handlers");
    if (l->grille_count < 0 || l->grille_count > DEW_DUCT_GRILLES)
        return out(err, "grille_count", "is outside 0 .. 16");
    if (l->bedrooms < 0 || l->bedrooms > 12)
        return out(err, "bedrooms", "is outside 0 .. 12");
    if ((unsigned)l->length > DEW_DUCT_LONG)
        return out(err, "length", "is no class");
    return DEW_OK;
}

static enum dew_status check_needed(const struct dew_duct_layout *l,
                                    struct dew_error *err)
{
    for (int k = 0; k < l->handler_count; k++)
        if (!(l->handlers[k].flow >= 0.05 && l->handlers[k].flow <= 3.0)) {
            core__in_row(err, "handlers", (size_t)k, "flow");
            if (isnan(l->handlers[k].flow))
                return core__fail(
                    err, DEW_EMISSING,
                    "a blower's full flow is needed, 0.05 .. 3 m3/s");
            return core__fail(err, DEW_ERANGE,
                              "a blower's full flow is 0.05 .. 3 m3/s (106 .. "
                              "6360 cfm), and its machine's is %.3g m3/s",
                              l->handlers[k].flow);
        }
    for (int j = 0; j < l->vent_count; j++)
        if (isnan(l->vents[j].flow) && isnan(l->vents[j].set[DEW_VENT_ON])) {
            core__in_row(err, "vents", (size_t)j, "set");
            return core__fail(err, DEW_EMISSING,
                              "a ventilator needs a flow to be set to");
        }
    return DEW_OK;
}

struct bound {
    const char *path;
    double value, low, high;
};

static enum dew_status within(const struct bound *b, size_t n, const char *of,
                              int index, struct dew_error *err)
{
    for (size_t i = 0; i < n; i++) {
        if (b[i].value >= b[i].low && b[i].value <= b[i].high)
            continue;
        if (of != NULL)
            core__in_row(err, of, (size_t)index, b[i].path);
        else
            core__in(err, b[i].path);
        return core__fail(err, DEW_ERANGE, "%g is outside %g .. %g", b[i].value,
                          b[i].low, b[i].high);
    }
    return DEW_OK;
}

static enum dew_status check_handler(const struct dew_duct_handler *h, int k,
                                     struct dew_error *err)
{
    const struct bound bounds[] = {
        {"low", h->low, 0.05, 1.0},
        {"external", h->external, 10.0, 500.0},
        {"inside", h->inside, 1.0, 500.0},
        {"free", h->free, 1.01, 3.0},
        {"watts", h->watts, 0.0, 5000.0},
        {"watts_low", h->watts_low, 0.0, 5000.0},
        {"return_share", h->return_share, 0.1, 0.9},
        {"between", h->between, 0.0, 100.0},
        {"before", h->before, 0.0, 100.0},
        {"after", h->after, 0.0, 100.0},
        {"leak_return", h->leak_return, 0.0, 0.5},
        {"leak_supply", h->leak_supply, 0.0, 0.5},
    };

    return within(bounds, ROWS(bounds), "handlers", k, err);
}

static enum dew_status check_vent(const struct dew_duct_vent *v, int j,
                                  struct dew_error *err)
{
    const struct bound bounds[] = {
        {"flow", v->flow, 0.003, 1.0},
        {"pressure", v->pressure, 10.0, 500.0},
        {"watts", v->watts, 0.0, 2000.0},
        {"core", v->core, 1.0, 500.0},
        {"eatr", v->eatr, 0.0, 0.5},
        {"set", v->set[DEW_VENT_ON], 0.001, 1.0},
        {"set", v->set[DEW_VENT_BOOST], 0.001, 1.0},
        {"set_stale", v->set_stale[DEW_VENT_ON], 0.001, 1.0},
        {"set_stale", v->set_stale[DEW_VENT_BOOST], 0.001, 1.0},
    };

    return within(bounds, ROWS(bounds), "vents", j, err);
}

static enum dew_status check_filled(const struct dew_duct_layout *l,
                                    struct dew_error *err)
{
    const struct bound bounds[] = {
        {"damper_leak", l->damper_leak, 0.003, 1.0},
        {"mixing", l->mixing.low, 0.0, l->mixing.likely},
        {"mixing", l->mixing.high, l->mixing.likely, 1.0},
        {"density", l->density, 0.5, 2.0},
        {"reference", l->reference, 0.0, DEW_BLOWER_STATES - 1.0},
    };
    enum dew_status status = within(bounds, ROWS(bounds), NULL, 0, err);

    for (int k = 0; k < l->handler_count && status == DEW_OK; k++)
        status = check_handler(&l->handlers[k], k, err);
    for (int j = 0; j < l->vent_count && status == DEW_OK; j++)
        status = check_vent(&l->vents[j], j, err);
    return status;
}

enum dew_status dew_ducts_layout_fill(struct dew_duct_layout *layout,
                                      struct dew_error *err)
{
    struct dew_duct_layout l = *layout;
    enum dew_status status = check_counts(&l, err);

    if (status == DEW_OK)
        status = check_needed(&l, err);
    if (status != DEW_OK)
        return status;
    for (int k = 0; k < l.handler_count; k++)
        fill_handler(&l.handlers[k]);
    for (int j = 0; j < l.vent_count; j++)
        fill_vent(&l, &l.vents[j], j);
    if (l.grille_count == 0 && l.written == NULL)
        ducts__usual(&l);
    if (l.written == NULL)
        status = fill_shares(&l, err);
    if (status != DEW_OK)
        return status;
    fill_branches(&l);
    fill_found(&l);
    fill_pickup(&l);
    preset(&l.damper_leak, 0.02);
    preset(&l.density, DEW_DUCTS_DENSITY);
    if (isnan(l.mixing.likely))
        l.mixing = (struct dew_duct_range){0.0, 0.1, 0.3};
    status = check_filled(&l, err);
    if (status == DEW_OK)
        *layout = l;
    return status;
}
