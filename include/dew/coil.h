/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Cooling coil and heat pump: from a label to what the coil does with the
 * house's own air.
 *
 *     dew_plant_coil_gross   label (net or gross) -> gross figures
 *     dew_plant_coil_open    gross figures -> struct dew_coil (nothing owned)
 *     dew_plant_coil_stage   the same coil at a lower stage
 *     dew_plant_coil_at      coil, air, outdoors -> sensible, water, power
 *
 * Gross is what the coil takes out of the air; net is that less the blower's
 * heat.  Power is that of compressor and outdoor fan; the blower's watts are
 * kept apart everywhere.
 *
 * Rating: 26.667 degC (80 degF) and 19.444 degC (67 degF) wet bulb indoors,
 * 35 degC (95 degF) outdoors, 101325 Pa.
 */
#ifndef DEW_COIL_H
#define DEW_COIL_H

#include "dew/plant.h"
#include "dew/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A label.  NaN = not known. */
struct dew_coil_label {
    double capacity; /* W      > 0        total                           */
    int is_net;      /*        1: blower heat already off                 */
    double shr;      /* -      0.5 .. 1   sensible share, as capacity     */
    double air;      /* m3/s   standard air; NaN: 400 cfm per ton         */
    double blower_w; /* W      at air; NaN: 365 W per 1000 cfm            */
    double eer;      /* W/W    net capacity / all power; or               */
    double seer;     /* W/W    seasonal, or                               */
    double cop;      /* W/W    gross capacity / compressor and outdoor fan */
    double cycling;  /* -      C_d, for seer; NaN: 0.07                   */
};

/*
 * Gross capacity, gross SHR, air, cop and blower watts of a label, written
 * into the handler's members of those names; the rest of it is left alone.
 *
 * Presets    400 cfm per ton: common practice, no source; 365 W per 1000 cfm:
 *            the rating standard's default, from memory.
 * Equation   SEER = EER_B (1 - C_d / 2), EER_B at 27.8 degC outdoors
 *            [APP-M], taken back to 35 degC by the curves below.
 * Errors     DEW_EMISSING without capacity or any of eer, seer, cop;
 *            DEW_ERANGE with the member in err->path.
 */
enum dew_status dew_plant_coil_gross(const struct dew_coil_label *label,
                                     struct dew_handler *out,
                                     struct dew_error *err);

/* A coil, resolved.  Plain. */
struct dew_coil {
    double capacity; /* W      gross total at rating                      */
    double power;    /* W      compressor and outdoor fan at rating       */
    double m;        /* kg/s   dry air at rating                          */
    double bypass;   /* -      at rating                                  */
    double units;    /* kg/s   -m ln(bypass): bypass = exp(-units / flow) */
    double adp;      /* degC   apparatus dew point at rating              */
    double latent;   /* kg/s   water taken out at rating                  */
    double shr;      /* -      at rating                                  */
    double shr_dry;  /* -      the share above which the coil stays dry   */
    double by_capacity, by_eir; /* - what the curves give at rating, inverted */
    double dry; /* -      1: never wet, its SHR is above shr_dry      */
};

/*
 * Resolve one handler's coil.  The label holds at 101325 Pa: at a lower
 * pressure the same fan moves less air, and the coil runs colder.  The straight line from the rated entering to
 * the rated leaving state is carried on to saturation; above shr_dry it misses
 * and the coil is taken as dry, bypass 0 at the entering dew point.
 *
 * Checked    SHR 0.70, 0.73, 0.75, 0.80 at 400 cfm per ton, counted at the
 *            entering air's own volume: ADP 11.79, 12.58, 13.01, 13.86 degC,
 *            bypass 0.259, 0.184, 0.136, 0.018.
 * Errors     DEW_ERANGE with the member in err->path.
 */
enum dew_status dew_plant_coil_open(const struct dew_handler *handler,
                                    struct dew_coil *out,
                                    struct dew_error *err);

/*
 * Share of the full air at stage 0 < s <= 1 of a handler's capacity: its
 * low_air at its low stage or least capacity, 1 at 1, a straight line between
 * and beyond, never below s / 2.
 */
double dew_plant_stage_air(const struct dew_handler *handler, double s);

/*
 * Electricity of a handler's blower at that share of its full air, 0 .. 1, W:
 * a power law through its full and its low flow, or the square of the flow
 * where it has no low one.  Ours; no source.
 */
double dew_plant_blower_w(const struct dew_handler *handler, double air);

/*
 * The same coil at stage 0 < s <= 1 of its capacity with that share of its
 * air, power cut as capacity, the surface kept: less air lets bypass fall, and
 * the coil runs nearer saturation; more air for its capacity makes it warmer.
 * That power falls with capacity is ours: two-stage compressors do a little
 * better.
 */
struct dew_coil dew_plant_coil_stage(const struct dew_coil *coil, double s,
                                     double air);

/* The air a coil meets. */
struct dew_coil_air {
    double t;     /* degC   entering                                       */
    double w;     /* kg/kg  entering                                       */
    double p;     /* Pa                                                    */
    double t_out; /* degC   at the outdoor unit                            */
    double flow;  /* -      0.5 .. 1.2   air through the coil / at rating  */
};

/* What it does, running without a stop. */
struct dew_coil_work {
    double total;    /* W     gross                                        */
    double sensible; /* W     gross                                        */
    double water;    /* kg/s  taken out: m_bf (w - w_adp), 0 when dry      */
    double m_bf;     /* kg/s  air that meets the coil, m (1 - bypass)      */
    double t_adp;    /* degC  apparatus dew point                          */
    double w_adp;    /* kg/kg saturated there; when dry, above w           */
    double power;    /* W     compressor and outdoor fan                   */
    double t_wet;    /* degC  entering wet bulb                            */
    double held;     /* -     1: a curve was held at the end of its range  */
};

/*
 * Coil at a state.
 *
 * Equation   capacity and EIR by the curves of [NREL-56354] in entering wet
 *            bulb and outdoor temperature, and in flow, each normalised at
 *            rating; bypass from units; h_adp = h - total / m_bf; the coil
 *            line gives sensible and water.  Water leaves with no heat.
 *            Above the dry-coil share the wet bulb at which the coil only
 *            just stays dry takes the entering one's place.
 * Range      wet bulb 13.9 .. 23.9 degC (57 .. 75 degF), outdoors 18.3 ..
 *            46.1 degC (65 .. 115 degF), from memory of where it was fitted.
 *            Beyond them the curves are held at their ends and held is 1; t
 *            0 .. 45 degC, else NaN members.
 *            An apparatus dew point below 0 degC (a coil that ices up) is
 *            held too, from -5 degC down, saturation counted over liquid.
 * Accuracy   of this solution against an iterated one: 2e-4 of total, 1e-7
 *            kg/s of water.  The rated water comes back within 0.2 %: the
 *            label's line is straight in t and w, the coil's in h and w.
 */
void dew_plant_coil_at(const struct dew_coil *coil,
                       const struct dew_coil_air *air,
                       struct dew_coil_work *out);

/* ---- the curves themselves ---------------------------------------------- */

/*
 * As published, not normalised; NaN outside the ranges above.
 *
 *     t_wet  degC   entering wet bulb
 *     t_out  degC   outdoors
 *     flow   -      of rated, 0.5 .. 1.2
 */
double dew_plant_cooling_capacity(double t_wet, double t_out);
double dew_plant_cooling_eir(double t_wet, double t_out);
double dew_plant_cooling_capacity_flow(double flow);
double dew_plant_cooling_eir_flow(double flow);

/*
 * Heating: capacity and EIR of [NREL-56354], as published.
 *
 *     t_in   degC   10 .. 27     indoors
 *     t_out  degC   -30 .. 20    outdoors; the coldest 12 K extrapolated, ours
 */
double dew_plant_heating_capacity(double t_in, double t_out);
double dew_plant_heating_eir(double t_in, double t_out);

/*
 * COP of a heat pump at t_out whose label says cop_warm at 8.3 degC (47 degF)
 * and cop_cold at -8.3 degC (17 degF): the published curve, bent in a
 * straight line so that both labels are met; never below 1, the resistance
 * that takes over.  The same for a capacity ratio: 1 at 8.3 degC.
 * t_out outside -30 .. 20 degC is held at the ends.
 */
double dew_plant_heat_pump_cop(const struct dew_heater *heater, double t_out);
double dew_plant_heat_pump_capacity(double t_out);

/* ---- part load ---------------------------------------------------------- */

/* PLF = 1 - C_d (1 - PLR), and run time fraction PLR / PLF, 0 .. 1. */
double dew_plant_part_load(double plr, double c_d);
double dew_plant_run_time(double plr, double c_d);

/* ---- water held on the coil ---------------------------------------------- */

/*
 * Water held on a cooling coil: what a blower puts back when the compressor
 * stands still.
 *
 * It fills while the compressor runs (the coil takes tau = 45 s to wet),
 * drains only above what it can hold, and evaporates at
 *
 *     gamma x L x sqrt(m / m_max) x (wet bulb depression / rated one)
 *
 * whenever air moves over it with the compressor off; L is the rated rate of
 * water, m_max = t_wet x L.  The compressor cycles 4 N_max X (1 - X) times an
 * hour at run time fraction X, and after each cycle the blower runs on by its
 * off-delay.  How long those cycles are a thermostat knows from how it ran of
 * late, run + lately, and no step changes: without that memory, a little less
 * running would mean longer rests, these more evaporation, and that would cool
 * instead of the machine, at once and without end.  While the blower stands, a little air drifts through the coil
 * by buoyancy: still is what it takes up, as a share of what full flow would.
 * It leaves saturated at the wet bulb, so it never takes more than
 *
 *     0.68 x still x (what the full air takes up until it is saturated)
 *
 * and nothing where the air around the coil is saturated.
 *
 * Laboratory and field work [SH04] [FSEC-1537] [FSEC-443], as far as it is
 * known to us, is of a blower that never stops: all the water is removed only
 * while the compressor runs on, and evaporation falls as the coil dries.  A
 * share for a blower that cycles is not taken from it.
 */

/* What the store is made of.  Plain. */
struct dew_coil_store {
    double latent;     /* kg/s   L, rated rate of water                     */
    double most;       /* kg     m_max                                      */
    double gamma;      /* -                                                 */
    double cycles_max; /* 1/h    N_max                                      */
    double still;      /* -      of full flow's evaporation, blower off     */
};

/* From the handler and its coil. */
struct dew_coil_store dew_plant_coil_store_of(const struct dew_handler *handler,
                                              const struct dew_coil *coil);

/*
 * Share of the time, 0 .. 1 - run, that the blower runs on at full flow after
 * the compressor's cycles, at run time fraction run, 0 .. 1.
 */
double dew_plant_off_delay(const struct dew_handler *handler, double run);

/* One step of it. */
struct dew_coil_store_in {
    double m;          /* kg     0 .. most   at the start                   */
    double seconds;    /* s      0 .. 3600                                  */
    double run;        /* -      0 .. 1      X, compressor                  */
    double blower;     /* -      run .. 1    blower                         */
    double water;      /* kg/s   0 ..        at the coil's present state    */
    double depression; /* -      0 ..        wet bulb depression / 7.222 K  */
    double
        soak; /* kg/s   0 ..        full air could take up, to its wet bulb */
    double lately; /* -      -run .. 1 - run   how much more it ran of late   */
};

struct dew_coil_store_out {
    double m;            /* kg     at the end                                 */
    double condensed;    /* kg     taken out of the air                       */
    double reevaporated; /* kg     given back to it                           */
    double drained; /* kg     condensed - reevaporated - (gain in m)         */
};

/*
 * Advance the store.  Within a cycle the equations are integrated in closed
 * form; a step need hold no whole number of cycles.
 *
 * Checked    net / gross water at a steady run time fraction against the
 *            closed form of [HR96] (from memory): 0.002.
 * Errors     NaN members outside the ranges.
 */
void dew_plant_coil_store_step(const struct dew_coil_store *store,
                               const struct dew_coil_store_in *in,
                               struct dew_coil_store_out *out);

#ifdef __cplusplus
}
#endif
#endif
