/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Air paths: what one state of ventilator and blowers does with the air.
 * The duct network (network.h, layout.h) fills these; the march uses them.
 *
 * Volume flows are m3/s of air at 20 degC and site pressure, as everywhere.
 */
#ifndef DEW_DUCTS_H
#define DEW_DUCTS_H

#ifdef __cplusplus
extern "C" {
#endif

/*
 * One state of the air paths.  Plain.  Positive as named.
 *
 * fresh is outdoor air that reaches the occupied zone by the ventilator: the
 * gross supply less cross leakage and less what short-circuits to the stale
 * pickup.  supply - exhaust (gross, at the envelope) is the imbalance of
 * equation 51 together with the leaks.
 */
struct dew_path {
    double supply;    /* m3/s   gross, drawn from outdoors by the ventilator */
    double exhaust;   /* m3/s   gross, thrown outdoors by the ventilator     */
    double fresh;     /* m3/s   outdoor air delivered, 0 .. supply           */
    double drawn;     /* m3/s   by a lone exhaust fan through leaks: the one
                                imbalance that rules count; else 0           */
    double sensible;  /* -      supply-side temperature effectiveness, 0 .. 1 */
    double latent;    /* -      supply-side moisture effectiveness, 0 .. 1   */
    double unplanned; /* m3/s   outdoor air through an idle unit, unrecovered */
    double spill;     /* m3/s   house air lost through an idle unit          */
    double leak_in;   /* m3/s   outdoor or attic air drawn in by duct leaks  */
    double leak_out;  /* m3/s   air lost by duct leaks                       */
    double leak_lost; /* m3/s   part of leak_in lost again by other leaks    */
    double at_coil;   /* m3/s   part of fresh that passes the coil first     */
    double idle_at_coil; /* m3/s part of unplanned that passes it first      */
    double fan_w;      /* W      ventilator's fans                            */
    double fan_heat;   /* W      part of fan_w that warms the supply air      */
    double preheat_w;  /* W/K    of preheating; 0 = none                      */
    double condensing; /* -     of dew_plant_core_at, at supply and exhaust: a
                                core whose warm side may condense; 0 = none  */
};

/*
 * Ventilator: off, on (its normal flow), boost, and defrosting.
 * Blowers: each of up to three handlers off / low / full, in base 3, the
 * first handler the lowest digit.
 */
enum dew_vent_state {
    DEW_VENT_OFF,
    DEW_VENT_ON,
    DEW_VENT_BOOST,
    DEW_VENT_DEFROST,
    DEW_VENT_STATES
};
enum { DEW_BLOWER_STATES = 27 };

#ifdef __cplusplus
}
#endif
#endif
