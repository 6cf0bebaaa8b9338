/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The house: envelope, heat, people, water set free and water held.
 * Plain structs, SI, complete: no hidden default below the scenario floor.
 */
#ifndef DEW_HOUSE_H
#define DEW_HOUSE_H

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Air through the envelope.  Q = c dp^n; natural infiltration in the one
 * form that both the basic and the enhanced model of [ASH-F16] reduce to:
 *
 *     Q_nat = sqrt( (stack_k |dt|^stack_n)^2 + (wind_k U^wind_n)^2 ) + constant
 *
 * basic (eq. 48):    stack_n 0.5, wind_n 1;  enhanced (eqs 49, 50): n and 2n.
 * U is the wind at the station.  dew_house_leakage_* in leakage.h fill it.
 */
struct dew_leakage {
    double c, n;             /* m3/(s Pa^n), -    0 .. , 0.5 .. 1           */
    double stack_k, stack_n; /* m3/(s K^n), -                               */
    double wind_k, wind_n;   /* m3/s per (m/s)^n, -                         */
    double constant;         /* m3/s   given outright, for checks           */
};

/* Glazing or opaque wall of one facade. */
struct dew_facade {
    double azimuth;   /* deg   0 .. 360   clockwise from north; 180 = south */
    double tilt;      /* deg   0 .. 180   0 = facing up, 90 = wall          */
    double aperture;  /* m2    glass area x g-value x frame share           */
    double shade;     /* -     0 .. 1     overhang and neighbours, factor   */
    double absorbing; /* m2    opaque area x absorptance x U x Rse          */
};
enum { DEW_FACADES = 6 };

/*
 * Heat: the nodes of the simple hourly method of [ISO13790], with the air
 * and furnishings as a further state.  W/K, J/K.  The march takes what the map
 * names as it stands.
 */
/* clang-format off */
#define DEW_THERMAL_MAP(X)                                                     \
    X(h_is)       /* W/K   surface to air                              */      \
    X(h_ms)       /* W/K   mass to surface                             */      \
    X(h_em)       /* W/K   outdoors to mass (opaque)                   */      \
    X(h_w)        /* W/K   outdoors to surface (glazing, doors)        */      \
    X(h_ground)   /* W/K   ground to mass                              */      \
    X(c_air)      /* J/K   air and furnishings, > 0                    */      \
    X(c_mass)     /* J/K   > 0                                         */      \
    X(mass_share) /* -     A_m / A_t of radiant gains, to the mass     */      \
    X(lost_share) /* -     H_w / (9.1 A_t): the share the method drops */
/* clang-format on */

#define DEW_MEMBER(name) double name;

struct dew_thermal {
    DEW_THERMAL_MAP(DEW_MEMBER)
    double ground_mean;  /* degC  yearly mean of the ground node            */
    double ground_swing; /* K     half range of its yearly wave             */
    double ground_lag;   /* d     yearday of its coldest day                */
    double floor_lean;   /* -     0 .. 1 of the inside face that the ground
                                  wets: 0 = at the air's t, 1 = the ground's */
    double sky_opaque;   /* W/K   to the sky, of walls and roof: off the mass */
    double sky_glazed;   /* W/K   of windows: off the surface                 */
    double sky_given;    /* K     the sky below the air all year; NaN = each
                                  hour's own                                 */
    struct dew_facade facades[DEW_FACADES];
    int facade_count;
};

/* Water held at three depths, effective penetration [WWC13] with a layer more:
   what follows within hours, within a day, and within weeks. */
struct dew_buffer {
    double surface_kg;   /* kg per unit RH   held at the surface            */
    double mid_kg;       /* kg per unit RH   below it; 0 = nothing deeper   */
    double deep_kg;      /* kg per unit RH   below that; 0 = none           */
    double surface_rate; /* kg/(s Pa)        air to surface store           */
    double mid_rate;     /* kg/(s Pa)        surface to mid store           */
    double deep_rate;    /* kg/(s Pa)        mid to deep store              */
};

/*
 * Sources of water: name, the pile of a chart that shows it, words.  Each is a
 * row of the ledger.  A scheduled source has kg/day and an hourly shape; a
 * source that feels the room's humidity has a rate in kg/(s Pa) on top.
 */
#define DEW_SOURCE_ROWS(ROW, X)                                                \
    ROW(X, people, PEOPLE, "people")                                           \
    ROW(X, showers, CHORES, "showers and baths")                               \
    ROW(X, cooking, CHORES, "cooking")                                         \
    ROW(X, dishes, CHORES, "dishes")                                           \
    ROW(X, laundry, CHORES, "laundry dried indoors")                           \
    ROW(X, plants, INSIDE, "plants")                                           \
    ROW(X, pets, PEOPLE, "pets and aquaria")                                   \
    ROW(X, ground, INSIDE, "wet ground or slab")                               \
    ROW(X, drying, INSIDE, "building materials drying")                        \
    ROW(X, burning, INSIDE, "unvented burning")                                \
    ROW(X, other, INSIDE, "other or daily total")

#define DEW_SOURCE_ROW(X, name, pile, words)  X(name, words)
#define DEW_SOURCE_NAME(X, name, pile, words) X(name)
#define DEW_SOURCE_MAP(X)                     DEW_SOURCE_ROWS(DEW_SOURCE_ROW, X)

enum dew_source {
#define X(name, words) DEW_SOURCE_##name,
    DEW_SOURCE_MAP(X)
#undef X
        DEW_SOURCES
};

/* Shares of a day by hour, Monday to Friday and weekend; each sums to 1. */
struct dew_shape {
    double weekday[24], weekend[24];
};

/* One source. */
struct dew_water {
    double per_day;         /* kg/day     0 .. 500   as scheduled           */
    struct dew_shape shape; /* when                                         */
    double rate;            /* kg/(s Pa)  evaporates by vapour pressure, from
                               a surface at the air's t; the ground's from one
                               that leans to the ground (floor_lean), and never
                               below 0                                      */
    double half_life;       /* d          0 = does not decay                */
    double start_day;       /* d          of the run, when decay begins     */
    double caught;          /* -   0 .. 1 share caught before it mixes, while
                                          the pickup that catches it runs   */
    double heat_share;      /* -   0 .. 1 share of its latent heat taken from
                                          the air (laundry, plants, ground) */
};

/* People and other heat. */
struct dew_people {
    double count;               /* persons                                 */
    double sensible_w;          /* W each, when present                    */
    double co2;                 /* m3/s each, when present, at 20 degC     */
    double present_weekday[24]; /* - 0 .. 1                                */
    double present_weekend[24];
    double gains_w; /* W   appliances and light, mean          */
    struct dew_shape gains_shape;
    double gains_convective; /* -   0 .. 1                              */
};

/* Set points by hour of the day.  Equal heat and cool is allowed. */
struct dew_comfort {
    double heat[24], cool[24]; /* degC                                      */
    double band;               /* K      throttling band, 0 = ideal         */
    int given;                 /* 1: indoor t is heat[], nothing else acts  */
};

/* Windows opened by habit in mild weather. */
struct dew_windows {
    double flow;      /* m3/s  at full opening, 0 = never                 */
    double mild_low;  /* degC  running mean outdoors at which it begins   */
    double mild_high; /* degC  at which it is full                        */
    int by_dew_point; /* 1: who opens them looks at the dew point first   */
};

/* Inside surfaces that may sweat: glass, frame edge, coldest corner. */
struct dew_surface {
    double factor;   /* -    f_Rsi, 0 .. 1: ts = te + f (ti - te)            */
    double area;     /* m2   0 = watched only, no film                        */
    double film_max; /* kg   beyond it water runs off and is wiped          */
};
enum dew_surface_kind { DEW_GLASS, DEW_EDGE, DEW_CORNER, DEW_SURFACES };

/*
 * The space around ducts outside the envelope (thermal.h), W/(m2 K) of its floor.
 * All zero: the open air.
 */
struct dew_around {
    double absorptance; /* -   of the roof over it                          */
    double roof, rooms, ground, air; /* to roof, house, earth, outdoors     */
};

struct dew_house {
    double volume;     /* m3   20 .. 5000                                   */
    double floor_area; /* m2   10 .. 2000                                   */
    int bedrooms;      /* 0 .. 12                                           */
    struct dew_leakage leakage;
    struct dew_thermal thermal;
    struct dew_buffer buffer;
    struct dew_water water[DEW_SOURCES];
    struct dew_people people;
    struct dew_comfort comfort;
    struct dew_windows windows;
    struct dew_surface surfaces[DEW_SURFACES];
    double co2_outdoors; /* ppm                                             */
    struct dew_around around; /* ducts outside the envelope                 */
};

#ifdef __cplusplus
}
#endif
#endif
