/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Air in ducts: through their walls, and what the march watches. */
#include "dew/ducts.h"

#include <math.h>

#include "dew/air.h"
#include "ducts/build.h"
#include "ducts/delivery_step.h"

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

double dew_ducts_along(const struct dew_duct_line *line, double density,
                       double q, const struct dew_duct_passage *passage)
{
    double cp = dew_air_cp(0.0);
    double units = dew_ducts_u(line, density, q) * perimeter(&line->duct) *
                   passage->length / (density * q * cp);

    return passage->t_around + (passage->t - passage->t_around) * exp(-units);
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
    struct dew_duct_watch w = {.trunk = ducts__supply_fresh(layout)};
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
    return ducts__delivery(leaking, supply_takes, return_takes);
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
