/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Air in ducts, hour by hour. */
#include "dew/ductair.h"

#include <math.h>

#include "dew/air.h"
#include "ducts/build.h"

static const double pi = 3.14159265358979323846;
static const double outer_film = 1.0 / 0.13; /* W/m2K [ISO6946], sideways */
static const double conductivity = 0.0257;   /* W/mK  of air at 20 degC, and */
static const double prandtl = 0.71;          /* from memory                */

static double perimeter(const struct dew_duct *d)
{
    return d->diameter > 0.0 ? pi * d->diameter : 2.0 * (d->width + d->height);
}

static double inner_film(const struct dew_duct *d, double density, double q)
{
    double area = dew_ducts_area(d);
    double wide = dew_ducts_hydraulic_diameter(area, perimeter(d));
    double re = density * q / area * wide / DEW_DUCTS_VISCOSITY;
    double rough = 0.023 * pow(re, 0.8) * pow(prandtl, 0.4);
    double nu = re < 2300.0 ? 3.66 : fmax(rough, 3.66);

    return nu * conductivity / wide;
}

double dew_ducts_u(const struct dew_duct_line *line, double density, double q)
{
    return 1.0 / (1.0 / inner_film(&line->duct, density, q) + line->r +
                  1.0 / outer_film);
}

double dew_ducts_skin(const struct dew_duct_line *line, double density,
                      double q, double t, double t_around)
{
    double u = dew_ducts_u(line, density, q);

    return t_around + u / outer_film * (t - t_around);
}

double dew_ducts_along(const struct dew_duct_line *line, double density,
                       double q, const struct dew_duct_passage *passage)
{
    double cp = dew_air_cp(0.0);
    double units = dew_ducts_u(line, density, q) * perimeter(&line->duct) *
                   passage->length / (density * q * cp);

    return passage->t_around + (passage->t - passage->t_around) * exp(-units);
}

/* ---- one hour ---------------------------------------------------------------- */

/* What is looked at: the layout, and what is told about it. */
struct look {
    const struct dew_duct_layout *layout;
    const struct dew_duct_state *state;
    const struct dew_duct_hour *hour;
    double density;
};

static double lesser(double a, double b)
{
    return isnan(a) || b < a ? b : a;
}

/* The part of a duct outside the envelope: heat, W, and its skin. */
static void outside(const struct look *k, const struct dew_duct_line *line,
                    double q, double t, struct dew_duct_weather *out)
{
    struct dew_duct_passage along = {line->outside * line->duct.length, t,
                                     k->hour->t_place};
    double end, skin;

    if (!(along.length > 0.0) || !(q > 0.0))
        return;
    end = dew_ducts_along(line, k->density, q, &along);
    skin = dew_ducts_skin(line, k->density, q, t, along.t_around);
    out->heat += k->density * q * dew_air_cp(0.0) * (end - t);
    out->outside_skin = lesser(out->outside_skin, skin);
}

/* A duct to outdoors, where it runs in the house. */
static double skin_inside(const struct look *k,
                          const struct dew_duct_line *line, double q, double t)
{
    if (!(q > 0.0) || line->outside >= 1.0)
        return NAN;
    return dew_ducts_skin(line, k->density, q, t, k->hour->t_in);
}

static void look_at_vent(const struct look *k, int j,
                         struct dew_duct_weather *out)
{
    const struct dew_duct_vent *v = &k->layout->vents[j];
    const struct dew_duct_unit *u = &k->state->units[j];
    const struct dew_duct_hour *h = k->hour;

    out->intake_skin =
        lesser(out->intake_skin,
               skin_inside(k, &v->intake, u->supply + u->unplanned, h->t_out));
    out->discharge_skin =
        lesser(out->discharge_skin,
               skin_inside(k, &v->discharge, u->exhaust, h->t_thrown));
    outside(k, &v->fresh, u->supply, h->t_fresh, out);
    outside(k, &v->stale, u->exhaust, h->t_in, out);
}

static double handler_t(const struct dew_duct_hour *h)
{
    return isnan(h->t_handler) ? h->t_in : h->t_handler;
}

static void look_at_handler(const struct look *k, int i,
                            struct dew_duct_weather *out)
{
    const struct dew_duct_handler *at = &k->layout->handlers[i];
    const struct dew_duct_hour *h = k->hour;
    double q = k->state->coil_flow[i];

    outside(k, &at->return_trunk, q, h->t_in, out);
    outside(k, &at->supply_trunk, q, handler_t(h), out);
    if (dew__ducts_supply_fresh(k->layout) && q > 0.0 &&
        k->state->fresh_gross > 0.0) {
        out->trunk_wall = handler_t(h);
        out->trunk_dew = dew_air_dew(h->w_fresh, h->p);
    }
}

/* Fresh and unplanned outdoor air mixed into the return of a blower that
   runs: the coldest. */
static double mixed(const struct look *k)
{
    const struct dew_duct_hour *h = k->hour;
    double coldest = NAN;

    for (int i = 0; i < k->layout->handler_count; i++) {
        double q = k->state->coil_flow[i];
        double fresh = k->state->coil_fresh[i] / q;
        double idle = k->state->coil_idle[i] / q;

        if (!(q > 0.0) || dew_ducts_blower_digit(k->state->blower, i) == 0 ||
            !(fresh + idle > 0.0))
            continue;
        coldest = lesser(coldest, h->t_in + fresh * (h->t_fresh - h->t_in) +
                                      idle * (h->t_out - h->t_in));
    }
    return coldest;
}

void dew_ducts_weather(const struct dew_duct_layout *layout,
                       const struct dew_duct_state *state,
                       const struct dew_duct_hour *hour,
                       struct dew_duct_weather *out)
{
    struct look k = {layout, state, hour, dew_air_density_run(hour->p)};
    double dew_in = dew_air_dew(hour->w_in, hour->p);
    double dew_place = dew_air_dew(hour->w_place, hour->p);

    *out = (struct dew_duct_weather){.intake_skin = NAN,
                                     .discharge_skin = NAN,
                                     .outside_skin = NAN,
                                     .trunk_wall = NAN,
                                     .trunk_dew = NAN,
                                     .mixed_t = NAN};
    for (int j = 0; j < layout->vent_count && layout->written == NULL; j++)
        look_at_vent(&k, j, out);
    for (int i = 0; i < layout->handler_count && layout->written == NULL; i++)
        look_at_handler(&k, i, out);
    out->mixed_t = mixed(&k);
    out->intake_sweats = out->intake_skin < dew_in;
    out->discharge_sweats = out->discharge_skin < dew_in;
    out->outside_sweats = out->outside_skin < dew_place;
    out->trunk_sweats = out->trunk_wall < out->trunk_dew;
}

/* ---- for the march ------------------------------------------------------------ */

const char *dew_ducts_spot_text(enum dew_duct_spot spot)
{
    static const char *const text[] = {
#define X(name, words) words,
        DEW_DUCT_SPOT_MAP(X)
#undef X
    };

    return (unsigned)spot < DEW_DUCT_SPOTS ? text[spot] : "no such place";
}

static double follows(const struct dew_duct_line *line, double density,
                      double q, int there)
{
    return there && q > 0.0 ? dew_ducts_u(line, density, q) / outer_film : 0.0;
}

/* What of its difference to outside air loses in a trunk, - */
static double taken(const struct dew_duct_line *trunk, double density, double q)
{
    struct dew_duct_passage along = {trunk->outside * trunk->duct.length, 1.0,
                                     0.0};

    return along.length > 0.0 ? 1.0 - dew_ducts_along(trunk, density, q, &along)
                              : 0.0;
}

static void watch_trunks(const struct dew_duct_layout *l,
                         struct dew_duct_watch *w)
{
    double all = 0.0;

    for (int k = 0; k < l->handler_count; k++)
        all += l->handlers[k].flow;
    for (int k = 0; k < l->handler_count; k++) {
        const struct dew_duct_handler *h = &l->handlers[k];
        double share = h->flow / all, low = h->low * h->flow;

        w->supply_full += share * taken(&h->supply_trunk, l->density, h->flow);
        w->supply_low += share * taken(&h->supply_trunk, l->density, low);
        w->return_full += share * taken(&h->return_trunk, l->density, h->flow);
        w->return_low += share * taken(&h->return_trunk, l->density, low);
    }
}

void dew_ducts_watch_of(const struct dew_duct_layout *layout,
                        struct dew_duct_watch *out)
{
    struct dew_duct_watch w = {.trunk = dew__ducts_supply_fresh(layout)};
    double rho = layout->density;

    if (layout->written != NULL) {
        *out = (struct dew_duct_watch){0};
        return;
    }
    for (int j = 0; j < layout->vent_count; j++) {
        const struct dew_duct_vent *v = &layout->vents[j];

        w.intake_follows =
            fmax(w.intake_follows, follows(&v->intake, rho, v->set[DEW_VENT_ON],
                                           v->intake.outside < 1.0));
        w.exhaust_follows =
            fmax(w.exhaust_follows,
                 follows(&v->discharge, rho, v->set_stale[DEW_VENT_ON],
                         v->discharge.outside < 1.0));
    }
    for (int k = 0; k < layout->handler_count; k++) {
        const struct dew_duct_handler *h = &layout->handlers[k];

        w.outside_follows =
            fmax(w.outside_follows, follows(&h->supply_trunk, rho, h->flow,
                                            h->supply_trunk.outside > 0.0));
    }
    watch_trunks(layout, &w);
    *out = w;
}

struct dew_duct_delivery dew_ducts_delivery(
    const struct dew_duct_leaking *leaking, double supply_takes,
    double return_takes)
{
    double kept = 1.0 - leaking->lost;
    double both = (1.0 - supply_takes) * (1.0 - return_takes);

    return (struct dew_duct_delivery){.kept = kept,
                                      .wall = kept * (1.0 - leaking->drawn) *
                                              (1.0 - both),
                                      .wall_effect = kept * supply_takes};
}

void dew_ducts_watch_leaks(struct dew_duct_state (*states)[DEW_BLOWER_STATES],
                           int blowers, int handlers,
                           struct dew_duct_watch *watch)
{
    const int at[2] = {(blowers - 1) / 2, blowers - 1}; /* every digit 1, 2 */

    for (int v = 0; v < DEW_VENT_STATES; v++)
        for (int k = 0; k < handlers; k++)
            for (int full = 0; full < 2; full++) {
                int vent = v == DEW_VENT_DEFROST ? DEW_VENT_OFF : v;
                const struct dew_duct_state *s = &states[vent][at[full]];

                watch->leaks[v][k][full] = (struct dew_duct_leaking){
                    .drawn = s->coil_drawn[k], .lost = s->coil_lost[k]};
            }
}
