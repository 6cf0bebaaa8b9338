/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The heat side of the house: areas, U-values and mass into the nodes that
 * the march carries.  Everything here runs once, before the hours; only
 * dew_house_ground_t is for every hour.
 *
 *     area  m2      u  W/(m2 K)      conductances  W/K      capacities  J/K
 */
#ifndef DEW_THERMAL_H
#define DEW_THERMAL_H

#include <stddef.h>

#include "dew/house.h"
#include "dew/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What a part of the envelope looks out on. */
enum dew_part_kind { DEW_PART_OPAQUE, DEW_PART_GLAZED, DEW_PART_GROUND };

/* One part: wall, roof, window, door, slab. */
struct dew_part {
    enum dew_part_kind kind;
    double area; /* m2         >= 0                                         */
    double u;    /* W/(m2 K)   >= 0    with its inside and outside films    */
};

/* W/K, by what it looks out on. */
struct dew_losses {
    double opaque, glazed, ground;
};

/*
 * Sum of area x u by kind; thermal bridges belong in the opaque part.
 * Errors: DEW_ERANGE, err->path "parts"; the text names the row from 0.
 */
enum dew_status dew_house_losses(const struct dew_part *parts, size_t count,
                                 struct dew_losses *out, struct dew_error *err);

/* Mass of the fabric, [ISO13790] table 12. */
#define DEW_FABRIC_MAP(X)                                                      \
    X(VERY_LIGHT, very_light)                                                  \
    X(LIGHT, light)                                                            \
    X(MEDIUM, medium)                                                          \
    X(HEAVY, heavy)                                                            \
    X(VERY_HEAVY, very_heavy)

enum dew_fabric {
#define X(name, word) DEW_FABRIC_##name,
    DEW_FABRIC_MAP(X)
#undef X
        DEW_FABRICS
};

/* J/K and m2 of a class and a floor area; NaN for no such class. */
double dew_house_fabric_capacity(enum dew_fabric fabric, double floor_area);
double dew_house_fabric_area(enum dew_fabric fabric, double floor_area);

/*
 * Heat held by the room air and the furnishings, J/K: the air's own and
 * 10 kJ/K per m2 of floor for furnishings, [ISO52016] table B.17, from memory.
 *
 *     volume      m3      floor_area  m2
 */
double dew_house_contents(double volume, double floor_area);

/* Everything the nodes are made from.  Complete: no value is assumed. */
struct dew_fabric_nodes {
    double floor_area;      /* m2    10 .. 4000      basement and all        */
    struct dew_losses loss; /* W/K   each >= 0                               */
    double capacity;        /* J/K   > 0         of the fabric               */
    double mass_area;       /* m2    > 0         of the fabric, as exposed   */
    double contents;        /* J/K   > 0         air and furnishings         */
};

/*
 * Conductances of the five-resistance scheme with the ground apart.  Facades
 * and the ground's wave are left empty.
 *
 * Equations  [ISO13790] clause 7.2.2: h_is = 3.45 x 4.5 floor_area, h_ms =
 *            9.1 mass_area, and what is left of the opaque and ground losses
 *            beyond the mass, 1 / (1 / H - 1 / h_ms), shared as they were.
 * Errors     DEW_ERANGE with the member's name in err->path; also where the
 *            opaque and ground losses are not below h_ms.
 * Checked    test_thermal.c: the standard's own hourly arithmetic on these
 *            conductances, and the network's steady state.
 */
enum dew_status dew_house_thermal(const struct dew_fabric_nodes *in,
                                  struct dew_thermal *out,
                                  struct dew_error *err);

/*
 * One facade's glass and opaque wall as the sun meets them.
 *
 *     glass        m2         frame_share  - 0 .. 1  glass over opening
 *     g            - 0 .. 1   total solar transmittance, slant light included
 *     opaque       m2         absorptance  - 0 .. 1
 *     u            W/(m2 K)   of the opaque part
 *
 * Equations  [ISO13790] eqs 43 - 45; R_se = 0.04 m2K/W, [ISO6946].
 */
double dew_house_aperture(double glass, double frame_share, double g);
double dew_house_absorbing(double opaque, double absorptance, double u);

/*
 * What a surface outdoors loses to a clear sky that lies 1 K below the air,
 * W/K: view x R_se x area x u x h_r; h_r = 5 x 0.9 W/(m2 K).
 *
 *     area  m2    u  W/(m2 K)    view  - 0 .. 1: a flat roof 1, a wall or a
 *                                window in it 0.5
 *
 * Equations  [ISO13790] eq. 46, 11.3.5 and 11.4.6; the same R_se as the sun's.
 */
double dew_house_sky(double area, double u, double view);

/* Append one facade.  Errors: DEW_ERANGE when there is no room or a member is
   outside its range (see struct dew_facade). */
enum dew_status dew_house_add_facade(struct dew_thermal *thermal,
                                     const struct dew_facade *facade,
                                     struct dew_error *err);

/* A yearly wave: mean + swing away from the coldest day. */
struct dew_wave {
    double mean;    /* degC                                                 */
    double swing;   /* K      half range, >= 0                              */
    double coldest; /* d      0 .. 365, day of the year                     */
};

/*
 * First harmonic of twelve monthly means, with the flattening that averaging
 * over a month brings undone (1.0115).  NaN in gives NaN out.
 */
struct dew_wave dew_house_yearly_wave(const double monthly[12]);

/* Soil, [ISO13370] table 1: conductivity and volumetric heat capacity. */
#define DEW_SOIL_MAP(X) X(CLAY, clay) X(SAND, sand) X(ROCK, rock)

enum dew_soil {
#define X(name, word) DEW_SOIL_##name,
    DEW_SOIL_MAP(X)
#undef X
        DEW_SOILS
};

/* A floor on the ground, or a heated basement below it. */
struct dew_slab {
    double area;       /* m2       > 0                                      */
    double perimeter;  /* m        > 0      exposed                         */
    double wall;       /* m        0 .. 1   thickness of the walls          */
    double resistance; /* m2K/W    0 .. 20  of the floor and its insulation */
    enum dew_soil soil;
    double depth;           /* m      0 .. 6   of a basement's floor below
                                               the ground; 0 = a slab        */
    double wall_resistance; /* m2K/W  0 .. 20  of its walls, insulation and
                                               all, without soil and films   */
};

/* What the ground does to the house. */
struct dew_earth {
    double loss;          /* W/K    to the yearly mean outdoors             */
    struct dew_wave wave; /* of the ground node                             */
    double lean;          /* -      of the inside face, from air to ground  */
};

/*
 * A slab or basement: its loss, and the ground node that gives back its yearly heat flow,
 * with the mean of the outdoors, the swing damped, and the coldest day one
 * month after the outdoors'.  Its inside face lies below the air's temperature
 * by the share that the film takes of the whole resistance, U R_si; in a
 * basement the mean of floor and walls by their areas.
 *
 * Equations  [ISO13370] slab on ground: characteristic width, equivalent
 *            thickness, U; periodic outdoor part 0.37 P lambda ln(delta/d + 1)
 *            with one month's lag.  Basement: U of floor and of walls below
 *            the ground, and 0.37 P lambda (2 (1 - exp(-z/delta)) ln(delta/d_w
 *            + 1) + exp(-z/delta) ln(delta/d_t + 1)).  From memory.  R_si 0.17
 *            m2K/W downward, 0.13 across, [ISO6946].
 * Limits     no edge insulation; a basement is heated and open to the house;
 *            what a yearly wave indoors would add is left out.
 * Errors     DEW_ERANGE with the member's name in err->path.
 * Checked    test_thermal.c, slab_rows and basement_rows.
 */
enum dew_status dew_house_slab(const struct dew_slab *slab,
                               const struct dew_wave *outdoors,
                               struct dew_earth *out, struct dew_error *err);

/* Put the ground's wave and lean into the nodes; its loss goes in with the
   others (dew_house_thermal). */
void dew_house_set_ground(struct dew_thermal *thermal,
                          const struct dew_earth *earth);

/* Ground node, degC, on a day of the year (0 .. 366, parts allowed). */
double dew_house_ground_t(const struct dew_thermal *thermal, double day);

/* ---- the space that ducts outside the envelope lie in -------------------- */

/*
 * An attic, a crawl space or the open air.  One node without capacity; pure
 * functions.  Left out: heat held by the deck, wood that takes up and gives
 * off water, what duct leaks and duct walls do to the space itself.
 */

/* What is around that space, in one hour. */
struct dew_around_hour {
    double t_out;    /* degC                                                 */
    double sun;      /* W/m2   on the flat                                   */
    double t_in;     /* degC   house                                         */
    double t_ground; /* degC   under it                                      */
};

/*
 * Sol-air temperature of the roof, degC.
 *
 * Equation   t_out + absorptance I / h_o - 63 emittance / h_o, with h_o 17
 *            W/m2K and emittance 0.9 [ASH-F18]; the same under every sky.
 */
double dew_house_sol_air(double t_out, double sun, double absorptance);

/* What an attic is made of. */
struct dew_attic {
    double absorptance; /* -        of the roof, 0 .. 1                       */
    double deck;        /* m2K/W    insulation on its deck, 0 = bare          */
    double ceiling;     /* W/(m2 K) between rooms and attic                   */
    double air;         /* 1/s      outdoor air changes                       */
};

/*
 * An attic under a roof of 1.12 of the ceiling's area whose bare deck has 0.30
 * m2K/W, and 1 m high on average: ours.
 */
struct dew_around dew_house_attic(const struct dew_attic *attic);

/*
 * A crawl space 0.8 m high with outdoor air changes, 1/s: floor above of 1.0
 * and earth below of 1.0 W/(m2 K).  Our guess; damp earth is another key's.
 */
struct dew_around dew_house_crawl(double air);

/*
 * Temperature there, degC.  Of no exchange at all, t_out.
 *
 * Equation   (G t_sa + U t_in + K t_ground + H t_out) / (G + U + K + H).
 */
double dew_house_around_t(const struct dew_around *around,
                          const struct dew_around_hour *hour);

#ifdef __cplusplus
}
#endif
#endif
