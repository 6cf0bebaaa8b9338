/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Recovery core: from the rows a spec sheet prints to what the core does at
 * any pair of flows.
 *
 *     dew_plant_core_point   one row -> the core's own effectiveness, as a
 *                            low / likely / high where a rating leaves it open
 *     dew_plant_core_fit     a sheet -> struct dew_core (one reading of it)
 *     dew_plant_core_at      core and two flows -> effectiveness, watts, heat
 *
 * State points: 1 outdoor air in, 2 supply air out, 3 house air in,
 * 4 exhaust air out.  Volume flows are m3/s of air at 20 degC.
 *
 * Effectiveness here is that of the fresh part of the supply: air that leaks
 * across in the unit (EATR) is house air come back, and what it carries is
 * not counted as recovered.  So heat and water brought in by ventilation are
 * fresh x (1 - effectiveness) x the difference, with fresh = gross x (1 - EATR).
 */
#ifndef DEW_CORE_H
#define DEW_CORE_H

#include "dew/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- exchangers: effectiveness from transfer units, and back ------------- */

/*
 *     ntu   number of transfer units, UA / C_min     -    0 .. 500
 *     c     capacity ratio, C_min / C_max            -    0 .. 1
 *     eps   effectiveness on C_min                   -    0 .. 1
 *
 * Vapour goes by the same relations with dry-air mass flows for capacities.
 * An argument outside its range gives NaN.
 */

/* The way the two airs pass each other. */
enum dew_exchange {
    DEW_COUNTERFLOW, /* plates, counterflow                                 */
    DEW_CROSSFLOW,   /* plates, crossflow, both airs unmixed                */
    DEW_HEADERED,    /* counterflow plates with crossflow ends              */
    DEW_WHEEL,       /* rotor; its correction is apart, see below           */
};

/*
 * Effectiveness.
 *
 * Equation   counterflow [ASH-F4] table 10, T10.2; crossflow the exact series
 *            of [MASON54], to 1e-14; headered: two in series in counterflow
 *            order [KL84], with DEW_HEADER_SHARE of the units in the ends;
 *            wheel as counterflow.
 * Errors     NaN outside the ranges above.
 * Checked    tests/plant/test_exchange.c against published values.
 */
double dew_plant_effectiveness(enum dew_exchange kind, double ntu, double c);

/*
 * Share of the transfer units that a headered core has in its crossflow ends.
 * Common practice, no source: two of seven parts of the plate.
 */
#define DEW_HEADER_SHARE (2.0 / 7.0)

/*
 * Transfer units that give eps; the inverse of dew_plant_effectiveness, to
 * 1e-10 relative.  Closed form for counterflow; else bisection in the
 * logarithm of ntu within 1e-9 .. 500.
 *
 * Errors     NaN when eps is outside 0 .. 1 or not reached within ntu 500.
 */
double dew_plant_ntu(enum dew_exchange kind, double eps, double c);

/* Two exchangers in series in counterflow order, each on the same c [KL84]. */
double dew_plant_in_series(double eps_1, double eps_2, double c);

/*
 * Factor on the effectiveness of a rotor that turns at a finite speed.
 *
 *     rotor  -    1 .. inf    heat capacity rate of the rotor / C_min
 *
 * Equation   1 - 1 / (9 rotor^1.93), [KL84]; stated there for eps <= 0.9.
 */
double dew_plant_rotor(double rotor);

/* ---- cores --------------------------------------------------------------- */

enum { DEW_CORE_ROWS = 12 };

/* Which end of what a rating leaves open. */
enum dew_reading { DEW_READ_LOW, DEW_READ_LIKELY, DEW_READ_HIGH, DEW_READINGS };

/* One printed row.  NaN = not printed.  At least flow and one of sensible,
   ase, sre, asre, latent, lrmt, tre. */
struct dew_core_row {
    double flow;     /* m3/s   > 0      net supply air                       */
    double watts;    /* W      0 ..     all fans together                    */
    double pressure; /* Pa     0 ..     outside the unit, at this flow       */
    double t_out;    /* degC            of the test; NaN: 0, or 35 for tre   */
    double t_in;     /* degC            of the test; NaN: 22, or 24 for tre  */
    double sre;      /* -      0 .. 1   sensible recovery efficiency         */
    double ase;      /* -      0 .. 1   apparent sensible effectiveness      */
    double asre;     /* -      0 .. 1   adjusted sensible recovery           */
    double sensible; /* -      0 .. 1   the core's own, fan heat left out    */
    double tre;      /* -      0 .. 1   total recovery efficiency, cooling   */
    double lrmt;     /* -      0 .. 1   latent recovery moisture transfer    */
    double latent;   /* -      0 .. 1   the core's own                       */
    double eatr;     /* -      0 .. 0.5 exhaust air transfer; NaN: 0         */
};

/* A spec sheet.  Plain. */
struct dew_core_sheet {
    struct dew_core_row rows[DEW_CORE_ROWS];
    int count; /*       1 .. DEW_CORE_ROWS                     */
    enum dew_exchange kind;
    int passes_water;    /*       0: plates that never carry water over  */
    double supply_share; /* -     of watts in the supply air, preset 0.5 */
    double before_core;  /* -     of the exhaust fan's heat that enters
                                      ahead of the core, preset 0            */
    double rotor;        /* -     wheel: rotor / air capacity at the first
                                      row, preset 5, from memory; else unused */
};

/* All rows NaN, count 0, presets in place. */
void dew_plant_core_blank(struct dew_core_sheet *sheet);

struct dew_core_span {
    double low, likely, high;
};

/* What one row says about the core. */
struct dew_core_point {
    double gross;                  /* m3/s   supply, leak across included  */
    double t_supply;               /* degC   at the test; NaN if unknown   */
    double ase;                    /* -      with fan heat                 */
    double sre;                    /* -      net of it                     */
    struct dew_core_span sensible; /* -      NaN when the row has none     */
    struct dew_core_span latent;   /* -      NaN when the row has none     */
};

/*
 * Fan heat taken out of row i of a sheet.
 *
 * Equation   SRE = (m cp (T2 - T1) - P_s) / (m cp (T3 - T1) + P_e), from
 *            memory of [C439] eq. 12; ASE = (T2 - T1) / (T3 - T1);
 *            eps = (T2 - P_s / (m cp) - T1) / (T3 - T1).
 * Left open  SRE and LRMT: whether the cross leakage was corrected for
 *            (likely: it was).  ASRE: whether the supply fan's heat is still
 *            in it (likely: not).  TRE: the sign of the fan terms in cooling;
 *            low as in heating, high as a penalty twice, likely as in ASE.
 *            The sensible part of TRE is the row's own, or sensible_if_none.
 * Errors     DEW_EMISSING, DEW_ERANGE with the member in err->path and the
 *            reason: a share above 1 (perhaps a percentage), SRE above ASE,
 *            more air power than electrical, fan heat beyond the rise, TRE
 *            below its sensible part.  *out only on DEW_OK.
 */
enum dew_status dew_plant_core_point(const struct dew_core_sheet *sheet, int i,
                                     double sensible_if_none,
                                     struct dew_core_point *out,
                                     struct dew_error *err);

/* A core, resolved.  Plain. */
struct dew_core {
    enum dew_exchange kind;
    int passes_water;
    double flow;           /* m3/s   gross, where the units below hold     */
    double ntu, slope;     /* -      NTU = ntu (q / flow)^(slope - 1)      */
    double ntu_w, slope_w; /* -      the same for water; ntu_w 0 = none    */
    double eatr;           /* -                                            */
    double rotor;          /* -      at flow                               */
    double watts;          /* W      at flow; 0 = unknown or none          */
    double watts_power;    /* -      watts go by q to this power           */
    double supply_share, before_core;
    double q_low, q_high; /* m3/s   gross flows the sheet spans           */
};

/*
 * One reading of a whole sheet.  With one flow the transfer units go as 1/q
 * (laminar plates: constant conductance); with more, the conductance goes as
 * q^slope, fitted by least squares in the logarithms.  Heating rows warmer
 * than -5 degC outdoors count for sensible effectiveness when there are any
 * (colder ones hold defrost); lrmt or latent rows before tre rows for water.
 * Fan watts: by q^3 (fan laws) with one row, fitted with more.
 *
 * Errors     as dew_plant_core_point; DEW_EMISSING without a sensible value;
 *            DEW_ERANGE when recovery rises with flow faster than a turbulent
 *            core could make it (slope > 1), or falls faster than slope -1.
 */
enum dew_status dew_plant_core_fit(const struct dew_core_sheet *sheet,
                                   enum dew_reading reading,
                                   struct dew_core *out, struct dew_error *err);

/* What a core does at a pair of gross flows. */
struct dew_core_state {
    double sensible;   /* -     supply-side temperature effectiveness        */
    double latent;     /* -     supply-side moisture effectiveness           */
    double fresh;      /* m3/s  supply less the leak across                  */
    double ntu;        /* -     on the lesser flow                           */
    double condensing; /* -    units of the counterflow core of that sensible
                               effectiveness, on the supply flow: for
                               dew_plant_core_wet; 0 where water passes     */
    double watts;      /* W     all fans                                     */
    double heat;       /* W     of watts that warms the supply air           */
    int extrapolated;  /*       the flow is outside what the sheet spans     */
};

/*
 * State at supply and exhaust, gross, m3/s, each > 0.
 *
 * Equation   1/UA halved between the sides, each as q^-slope; effectiveness
 *            dew_plant_effectiveness on the lesser flow; supply side = eps
 *            C_min / C_s.
 * Errors     NaN members when a flow is not positive.
 */
void dew_plant_core_at(const struct dew_core *core, double supply,
                       double exhaust, struct dew_core_state *out);

/* Two airs in a core that passes no water. */
struct dew_core_meeting {
    double ntu;   /* -      > 0 .. 200    UA over the supply air's capacity  */
    double ratio; /* -      0.3 .. 3      house air / outdoor air, dry kg    */
    double t_out; /* degC   -60 .. t_in   outdoor air in                     */
    double t_in;  /* degC   0 .. 40       house air in                       */
    double w;     /* kg/kg  0 .. w_sat    of the house air                   */
    double p;     /* Pa     50e3 .. 110e3                                    */
};

/* What condensing in a core does to one hour. */
struct dew_core_wet {
    double sensible;  /* -      supply-side effectiveness                    */
    double dry;       /* -      the same if nothing condensed                */
    double t_exhaust; /* degC   exhaust air out                             */
    double water;     /* kg     drained per kg of dry exhaust air           */
};

/*
 * A core that passes no water, its warm air cooled below its dew point.  The
 * supply air's w does not change.
 *
 * Equation   counterflow, constant conductance; the exhaust air's heat
 *            capacity is its mean change of enthalpy per degree over the dry
 *            part and over the wet part apart.
 * Accuracy   the exhaust air's end within 0.0001 K of these equations' root
 *            up to 6 units at ratios of 0.75 to 1.33, within 0.01 K up to 50
 *            units and within 0.02 K at any (regressions, of a million cores
 *            drawn).  The equations themselves against 100 cuts of the wet
 *            part, the worst on effectiveness and on the water, outdoors from
 *            -40 degC up: 0.014 and 2 % on equal flows, 0.006 and 2 % at a
 *            ratio of 1.4, 0.036 and 3 % at 0.7, 0.046 and 4 % at 0.5 and
 *            below; from -24 degC up and to 6 units 0.004 and 1.5 %, 0.006
 *            and 3 %, 0.017 and 3 % (2000 slices).
 *            Where the exhaust air would end below 0 degC the water is what
 *            frost would hold; the heat of freezing is left out.
 * Errors     NaN outside the ranges.
 */
void dew_plant_core_wet(const struct dew_core_meeting *meeting,
                        struct dew_core_wet *out);

#ifdef __cplusplus
}
#endif
#endif
