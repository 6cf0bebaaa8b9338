/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Duct layouts: nothing said, and a state as the march wants it. */
#include "dew/ducts.h"

#include <math.h>

#include "ducts/build.h"

static void blank_line(struct dew_duct_line *line)
{
    *line = (struct dew_duct_line){.outside = NAN, .r = NAN};
}

static void blank_handler(struct dew_duct_handler *h)
{
    *h = (struct dew_duct_handler){.flow = NAN,
                                   .low = NAN,
                                   .external = NAN,
                                   .inside = NAN,
                                   .free = NAN,
                                   .watts = NAN,
                                   .watts_low = NAN,
                                   .return_share = NAN,
                                   .between = NAN,
                                   .before = NAN,
                                   .after = NAN,
                                   .leak_return = NAN,
                                   .leak_supply = NAN};
    blank_line(&h->return_trunk);
    blank_line(&h->supply_trunk);
}

static void blank_vent(struct dew_duct_vent *v)
{
    *v = (struct dew_duct_vent){.flow = NAN,
                                .pressure = NAN,
                                .watts = NAN,
                                .core = NAN,
                                .eatr = NAN,
                                .serves = -1};
    for (int s = 0; s < DEW_DUCT_VENT_STATES; s++)
        v->set[s] = v->set_stale[s] = NAN;
    blank_line(&v->intake);
    blank_line(&v->discharge);
    blank_line(&v->fresh);
    blank_line(&v->stale);
}

static void blank_grille(struct dew_duct_grille *g)
{
    *g = (struct dew_duct_grille){.handler = -1,
                                  .share = NAN,
                                  .vent = -1,
                                  .fresh = NAN,
                                  .stale = NAN,
                                  .found_supply = NAN,
                                  .found_fresh = NAN,
                                  .found_stale = NAN};
    blank_line(&g->line);
}

void dew_ducts_layout_blank(struct dew_duct_layout *layout)
{
    const struct dew_duct_range unsaid = {NAN, NAN, NAN};

    *layout = (struct dew_duct_layout){.vent_count = 1,
                                       .length = DEW_DUCT_MEDIUM,
                                       .bedrooms = 3,
                                       .damper_leak = NAN,
                                       .mixing = unsaid,
                                       .density = NAN};
    for (int k = 0; k < DEW_DUCT_HANDLERS; k++)
        blank_handler(&layout->handlers[k]);
    for (int j = 0; j < DEW_DUCT_VENTS; j++)
        blank_vent(&layout->vents[j]);
    for (int g = 0; g < DEW_DUCT_GRILLES; g++)
        blank_grille(&layout->grilles[g]);
    for (int i = 0; i < 3; i++) {
        layout->short_circuit[i] = NAN;
        layout->found[i] = (struct dew_duct_found){NAN, NAN};
        layout->pickup[i] = unsaid;
    }
}

int ducts__return_fresh(const struct dew_duct_layout *l)
{
    return l->kind == DEW_LAYOUT_return_tie || l->kind == DEW_LAYOUT_mix;
}

int ducts__supply_fresh(const struct dew_duct_layout *l)
{
    return l->kind == DEW_LAYOUT_supply_tie ||
           l->kind == DEW_LAYOUT_return_to_supply;
}

int ducts__return_stale(const struct dew_duct_layout *l)
{
    return l->kind == DEW_LAYOUT_return_tie ||
           l->kind == DEW_LAYOUT_return_to_supply;
}

int ducts__own_fresh(const struct dew_duct_layout *l)
{
    return l->kind == DEW_LAYOUT_own_ducts || l->also_own;
}

int dew_ducts_blower_digit(int blower, int handler)
{
    for (int k = 0; k < handler; k++)
        blower /= 3;
    return blower % 3;
}

struct dew_path dew_ducts_path(const struct dew_duct_state *state,
                               const struct dew_duct_core *core)
{
    return (struct dew_path){.supply = state->fresh_gross,
                             .exhaust = state->stale_drawn,
                             .fresh = state->fresh_delivered,
                             .sensible = core->sensible,
                             .latent = core->latent,
                             .unplanned = state->unplanned,
                             .spill = state->spill,
                             .leak_in = state->leak_in,
                             .leak_out = state->leak_out,
                             .leak_lost = state->leak_lost,
                             .at_coil = state->at_coil,
                             .idle_at_coil = state->idle_at_coil,
                             .fan_w = state->fan_w,
                             .fan_heat = state->fan_w * core->heat_share,
                             .condensing = core->condensing};
}
