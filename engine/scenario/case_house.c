/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The envelope: leakage, heat, buffering, surfaces, comfort. */
#include <math.h>

#include "core/fail.h"
#include "dew/air.h"
#include "dew/buffer.h"
#include "dew/leakage.h"
#include "dew/surface.h"
#include "dew/thermal.h"
#include "scenario/case.h"

static double plan_area(const struct dew_value *v)
{
    return SI(v, house_floor_area) / SI(v, house_storeys);
}

/* Floor of the basement, m2; 0 = none. */
static double basement_area(const struct dew_value *v)
{
    return WORD(v, house_foundation) == FOUNDATION_basement
               ? SI_OR(v, insulation_ground_area, plan_area(v))
               : 0;
}

double scenario__basement_volume(const struct dew_value *v)
{
    return basement_area(v) * SI(v, house_basement_height);
}

double scenario__volume(const struct dew_value *v)
{
    return SI_OR(v, house_volume,
                 SI(v, house_floor_area) * SI(v, house_ceiling_height) +
                     scenario__basement_volume(v));
}

/* An even share of 15 % of the floor; common practice, no source. */
double scenario__window_side(const struct dew_value *v)
{
    return 0.15 / 4 * SI(v, house_floor_area);
}

/* Window area of a side. */
static double side(const struct dew_value *v, int i)
{
    const struct dew_value *area = &v[KEY_windows_north + i];

    return scenario__or(area, scenario__window_side(v));
}

double scenario__windows(const struct dew_value *v)
{
    return side(v, 0) + side(v, 1) + side(v, 2) + side(v, 3);
}

/* ---- air --------------------------------------------------------------------- */

static enum dew_status flow_coefficient(const struct scenario__making *m,
                                        double *c)
{
    const struct dew_value *v = m->v, *tight = &v[KEY_house_airtightness];
    struct dew_airtight in = {.value = tight->amount.si,
                              .n = SI(v, house_leakage_exponent),
                              .volume = scenario__volume(v),
                              .density = dew_air_density_run(m->o->pressure)};

    if (GIVEN(v, house_leakage_at_1_pa)) {
        *c = SI(v, house_leakage_at_1_pa);
        return DEW_OK;
    }
    in.form = tight->unit->quantity == DEW_FLOW50         ? DEW_AIRTIGHT_FLOW50
              : tight->unit->quantity == DEW_LEAKAGE_AREA ? DEW_AIRTIGHT_AREA4
                                                          : DEW_AIRTIGHT_ACH50;
    return dew_house_airtight_c(&in, c, m->err);
}

static double constant_flow(const struct dew_value *v)
{
    const struct dew_value *given = &v[KEY_house_constant_leakage];

    if (given->unit != NULL && given->unit->quantity == DEW_PER_DAY)
        return given->amount.si * scenario__volume(v);
    return given->amount.si;
}

static enum dew_status make_leakage(const struct scenario__making *m)
{
    const struct dew_value *v = m->v;
    struct dew_siting siting = {.storeys = SI(v, house_storeys),
                                .shelter = 1 + WORD(v, house_shelter),
                                .flue = WORD(v, house_flue),
                                .crawlspace = WORD(v, house_foundation) ==
                                              FOUNDATION_crawl_space};
    double c, n = SI(v, house_leakage_exponent);
    enum dew_status status = flow_coefficient(m, &c);

    if (status != DEW_OK)
        return status;
    if (WORD(v, house_infiltration) == INFILTRATION_enhanced)
        return dew_house_leakage_enhanced(c, n, &siting, &m->c->house.leakage,
                                          m->err);
    if (WORD(v, house_infiltration) == INFILTRATION_basic)
        return dew_house_leakage_basic(c, n,
                                       dew_air_density_run(m->o->pressure),
                                       &siting, &m->c->house.leakage, m->err);
    m->c->house.leakage = dew_house_leakage_given(c, n, constant_flow(v));
    return DEW_OK;
}

/* 3 m2 of surface per m2 of floor where not given. */
double scenario__buffering_area(const struct dew_value *v)
{
    return SI_OR(v, buffering_area, 3 * SI(v, house_floor_area));
}

/* ---- heat ------------------------------------------------------------------ */

/* A square plan. */
struct scenario__shell scenario__shell_of(const struct dew_value *v)
{
    double plan = plan_area(v), perimeter = 4 * sqrt(plan);
    double height = (scenario__volume(v) - scenario__basement_volume(v)) /
                    SI(v, house_floor_area);
    double rim = SI(v, house_basement_height) - SI(v, house_basement_depth);
    double walls =
        perimeter * height * SI(v, house_storeys) - scenario__windows(v);

    return (struct scenario__shell){
        SI_OR(v, insulation_wall_area, fmax(walls, 0)),
        SI_OR(v, insulation_roof_area, plan),
        SI_OR(v, insulation_ground_area, plan),
        perimeter,
        WORD(v, house_foundation) == FOUNDATION_basement
            ? perimeter * fmax(rim, 0)
            : 0,
    };
}

/* Transmittance of a basement's wall in the open, R_si 0.13 and R_se 0.04
   m2K/W [ISO6946]. */
static double rim_u(const struct dew_value *v)
{
    return 1 / (SI(v, insulation_basement_walls) + 0.13 + 0.04);
}

static enum dew_status losses(const struct scenario__making *m,
                              const struct scenario__shell *s,
                              struct dew_losses *out)
{
    const struct dew_value *v = m->v;
    const struct dew_part parts[] = {
        {DEW_PART_OPAQUE, s->walls, 1 / SI(v, insulation_walls)},
        {DEW_PART_OPAQUE, s->roof, 1 / SI(v, insulation_roof)},
        {DEW_PART_OPAQUE, s->rim, rim_u(v)},
        {DEW_PART_GLAZED, scenario__windows(v), SI(v, windows_u)},
    };
    enum dew_status status =
        dew_house_losses(parts, sizeof parts / sizeof parts[0], out, m->err);

    if (status == DEW_OK && GIVEN(v, insulation_heat_loss))
        out->opaque = SI(v, insulation_heat_loss);
    return status;
}

static enum dew_status ground_of(const struct scenario__making *m,
                                 const struct scenario__shell *s,
                                 struct dew_earth *earth)
{
    const double wall = 0.2; /* m, thickness; common practice, no source */
    const struct dew_value *v = m->v;
    struct dew_wave outdoors = dew_house_yearly_wave(m->o->monthly);
    int cellar = WORD(v, house_foundation) == FOUNDATION_basement;
    struct dew_slab slab = {
        .area = s->ground,
        .perimeter = s->perimeter,
        .wall = wall,
        .resistance = SI(v, insulation_floor),
        .soil = (enum dew_soil)WORD(v, ground_soil),
        .depth = cellar ? SI(v, house_basement_depth) : 0,
        .wall_resistance = SI(v, insulation_basement_walls),
    };
    enum dew_status status = DEW_OK;

    *earth = (struct dew_earth){.wave = outdoors};
    if (s->ground > 0)
        status = dew_house_slab(&slab, &outdoors, earth, m->err);
    earth->wave.mean = SI_OR(v, ground_mean, earth->wave.mean);
    earth->wave.swing = SI_OR(v, ground_swing, earth->wave.swing);
    return status;
}

/* Four walls and the roof; whole-window sun gain, so the glass is the window. */
static enum dew_status facades(const struct scenario__making *m,
                               const struct scenario__shell *s)
{
    const struct dew_value *v = m->v;
    double shade = SI(v, windows_unshaded), a = SI(v, insulation_absorptance);
    enum dew_status status = DEW_OK;
    struct dew_facade roof = {
        .tilt = 0,
        .shade = 1,
        .absorbing =
            dew_house_absorbing(s->roof, a, 1 / SI(v, insulation_roof)),
    };

    for (int i = 0; i < 4 && status == DEW_OK; i++) {
        struct dew_facade f = {
            .azimuth = fmod(90.0 * i + SI(v, windows_turn) + 360, 360),
            .tilt = 90,
            .aperture =
                dew_house_aperture(side(v, i), 1, SI(v, windows_sun_gain)),
            .shade = shade,
            .absorbing = dew_house_absorbing(s->walls / 4, a,
                                             1 / SI(v, insulation_walls)),
        };

        status = dew_house_add_facade(&m->c->house.thermal, &f, m->err);
    }
    if (status == DEW_OK)
        status = dew_house_add_facade(&m->c->house.thermal, &roof, m->err);
    return status;
}

/* A basement's walls and floor count as heavy, by its floor. */
static struct dew_fabric_nodes nodes_of(const struct dew_value *v)
{
    enum dew_fabric fabric = (enum dew_fabric)WORD(v, house_construction);
    double area = SI(v, house_floor_area), below = basement_area(v);

    return (struct dew_fabric_nodes){
        .floor_area = area + below,
        .capacity = dew_house_fabric_capacity(fabric, area) +
                    dew_house_fabric_capacity(DEW_FABRIC_HEAVY, below),
        .mass_area = dew_house_fabric_area(fabric, area) +
                     dew_house_fabric_area(DEW_FABRIC_HEAVY, below),
        .contents = dew_house_contents(scenario__volume(v), area + below),
    };
}

/* Walls and windows see half of the sky, the roof all of it [ISO13790]. */
static void make_sky(const struct scenario__making *m,
                     const struct scenario__shell *s)
{
    const double level = 1.0, upright = 0.5;
    const struct dew_value *v = m->v;
    struct dew_thermal *t = &m->c->house.thermal;

    t->sky_opaque =
        dew_house_sky(s->roof, 1 / SI(v, insulation_roof), level) +
        dew_house_sky(s->walls, 1 / SI(v, insulation_walls), upright);
    t->sky_glazed =
        dew_house_sky(scenario__windows(v), SI(v, windows_u), upright);
    t->sky_given = SI_OR(v, insulation_sky, NAN);
}

static enum dew_status make_thermal(const struct scenario__making *m)
{
    const struct dew_value *v = m->v;
    struct dew_fabric_nodes in = nodes_of(v);
    struct scenario__shell s = scenario__shell_of(v);
    struct dew_earth earth;
    enum dew_status status = losses(m, &s, &in.loss);

    if (status == DEW_OK)
        status = ground_of(m, &s, &earth);
    in.loss.ground = status == DEW_OK ? earth.loss : 0;
    if (status == DEW_OK)
        status = dew_house_thermal(&in, &m->c->house.thermal, m->err);
    if (status != DEW_OK)
        return status;
    dew_house_set_ground(&m->c->house.thermal, &earth);
    make_sky(m, &s);
    return facades(m, &s);
}

/* ---- water held, surfaces ------------------------------------------------ */

static enum dew_status make_buffer(const struct scenario__making *m)
{
    const double room_t = 21; /* degC, where capacities are taken */
    const struct dew_value *v = m->v;
    double psat = dew_air_pws(room_t), floor_area = SI(v, house_floor_area);
    /* its words are none and those of the list */
    int class = WORD(v, buffering_class) - 1;

    if (GIVEN(v, buffering_value) && SI(v, buffering_value) > 0)
        return dew_house_buffer_mbv(
            SI(v, buffering_value), scenario__buffering_area(v),
            DEW_BUFFER_FILM, psat, &m->c->house.buffer, m->err);
    if (class >= 0 && !GIVEN(v, buffering_value))
        m->c->house.buffer = dew_house_buffer_house(
            (enum dew_holding) class,
            scenario__moved(&v[KEY_buffering_class], floor_area), psat);
    return DEW_OK;
}

static void make_surfaces(const struct scenario__making *m)
{
    const struct dew_value *v = m->v;
    struct dew_surface *s = m->c->house.surfaces;
    double area = scenario__windows(v),
           edge = area * SI(v, surfaces_edge_share);
    double glass = fmax(0, 1 - SI(v, windows_u) * DEW_FILM_GLASS);

    s[DEW_GLASS] = dew_house_surface(
        DEW_GLASS, SI_OR(v, surfaces_glass_factor, glass), area - edge);
    s[DEW_EDGE] =
        dew_house_surface(DEW_EDGE, SI(v, surfaces_edge_factor), edge);
    s[DEW_CORNER] =
        dew_house_surface(DEW_CORNER, SI(v, surfaces_corner_factor), 0);
}

/* ---- comfort ------------------------------------------------------------- */

/* Whether hour h (0 .. 23, its middle) lies in one of the spans. */
static int in_spans(const struct dew_value *spans, int h)
{
    double middle = h + 0.5;

    for (size_t i = 0; i < spans->count; i++) {
        double from = spans->items[i].amount.si, until = spans->items[i].at;

        if (from <= until ? middle >= from && middle < until
                          : middle >= from || middle < until)
            return 1;
    }
    return 0;
}

static void make_comfort(const struct scenario__making *m)
{
    const struct dew_value *v = m->v;
    struct dew_comfort *c = &m->c->house.comfort;

    c->band = SI(v, temperature_band);
    for (int h = 0; h < 24; h++) {
        int back = in_spans(&v[KEY_temperature_setback_hours], h);

        c->heat[h] =
            back ? SI_OR(v, temperature_heat_setback, SI(v, temperature_heat))
                 : SI(v, temperature_heat);
        c->cool[h] =
            back ? SI_OR(v, temperature_cool_setback, SI(v, temperature_cool))
                 : SI(v, temperature_cool);
    }
    if (!GIVEN(v, temperature_given) && !GIVEN(v, temperature_given_by_hour))
        return;
    c->given = 1;
    scenario__fill_day(&v[KEY_temperature_given_by_hour],
                       SI(v, temperature_given), c->heat);
    for (int h = 0; h < 24; h++)
        c->cool[h] = c->heat[h];
}

enum dew_status scenario__make_house(struct scenario__making *m)
{
    const struct dew_value *v = m->v;
    struct dew_house *h = &m->c->house;
    enum dew_status status;

    h->volume = scenario__volume(v);
    h->floor_area = SI(v, house_floor_area);
    h->bedrooms = (int)SI(v, house_bedrooms);
    h->co2_outdoors = SI(v, limits_outdoor_carbon_dioxide);
    h->windows = (struct dew_windows){SI(v, airing_flow), SI(v, airing_from),
                                      SI(v, airing_full),
                                      WORD(v, airing_habit) == HABIT_dew_point};
    make_surfaces(m);
    make_comfort(m);
    status = make_leakage(m);
    if (status == DEW_OK)
        status = make_thermal(m);
    if (status == DEW_OK)
        status = make_buffer(m);
    return status;
}
