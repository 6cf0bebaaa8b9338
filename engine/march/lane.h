/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What one step needs, flat, from lists.  Private to the march. */
#ifndef DEW_MARCH_LANE_H
#define DEW_MARCH_LANE_H

#include "dew/march.h"

/* clang-format off */
/* Constants of one case.  SI as named in house.h and plant.h. */
#define DEW_LANE_MAP(X)                                                        \
    X(rho) X(mass_air) X(volume) X(stack_k) X(stack_n) X(wind_k) X(wind_n)     \
    DEW_THERMAL_MAP(X)                                                         \
    X(leak_constant) X(convective) X(cap_surface)                              \
    X(cap_deep) X(rate_surface) X(rate_deep) X(evap_plants) X(evap_laundry)    \
    X(evap_ground) X(cool_plants) X(cool_laundry) X(cool_ground) X(band)       \
    X(lead_lag) X(face_glass) X(face_edge) X(face_corner) X(film_rate_glass)   \
    X(film_rate_edge) X(film_rate_corner) X(dry_low) X(dry_width)              \
    X(wet_high) X(wet_width) X(wet_heat) X(co2_out) X(dry_per) X(wet_per)      \
    X(cap_mid) X(rate_mid)                                                     \
    X(per_surface) X(per_mid) X(per_deep)                                      \
    X(wet_follow) /* -    of the air's t in that of the wet ground's face */

/* What holds during one hour: schedules resolved, and one step's controls. */
#define DEW_DRIVE_MAP(X)                                                       \
    DEW_SOURCE_ROWS(DEW_SOURCE_NAME, X)                                        \
    X(bodies) X(gains) X(solar) X(sunlit) X(set_heat) X(set_cool) X(given)     \
    X(told_cool) /* -    of the coils, while the air is given          */      \
    X(t_ground) X(window) X(co2_in)                                            \
    X(sky_opaque) /* W    to the sky, off the mass                     */      \
    X(sky_glazed) /* W    to the sky, off the surface                  */      \
    X(wet_t)     /* degC the ground's part in t of its wet inside face   */    \
    DEW_MACHINES_MAP(X)

/* The machines of a step, from heat_cap on: the next begins with them. */
#define DEW_MACHINES_MAP(X)                                                    \
    X(heat_cap) X(dry_rate) X(dry_power) X(wet_rate)                           \
    X(blower_idle) X(blower_cool) X(blower_heat) X(reevaporation)              \
    X(duct_g)    /* W/K  of air in ducts outside, blowers as they run    */    \
    X(place_t) X(place_w) /* around those ducts                          */    \
    X(lost_heat) /* -    of heat, with air that supply leaks lose        */    \
    X(lost_cool) /* -    of cold and of what the coil takes out, likewise */   \
    X(lost_rest) /* -    of what blowers do besides, likewise            */    \
    X(duct_heat) /* -    of heat, lost on its way through such ducts     */    \
    X(duct_cool) /* -    of cold, likewise                               */

/* One cooling coil at its present entering state (see coil.h). */
#define DEW_COIL_MAP(X)                                                        \
    X(sensible) /* W    gross, at full duty                            */      \
    X(pass)     /* kg/s of air that meets the coil, x wet share         */     \
    X(w_adp)    /* kg/kg                                               */      \
    X(power)    /* W    compressor and condenser                       */      \
    X(blower)   /* W    at full flow                                   */

/* Air paths, weighted whole over the states of the step.  kg/s, W. */
#define DEW_BLEND_MAP(X)                                                       \
    X(leak) X(fresh) X(drawn) X(fresh_sensible) X(fresh_latent) X(unplanned)   \
    X(ductleak) X(fan_w) X(fan_heat) X(preheat)                                \
    X(preheat_use) /* W    electricity of it                           */      \
    X(drained)     /* kg/s condensed in the recovery core              */

/* Coefficients of one step: the only place with transcendental work. */
#define DEW_TERMS_MAP(X)                                                       \
    X(cp) X(per_w) X(t_air) X(pws_air) X(air_slope) X(t_store) X(pws_store)    \
    X(store_slope) X(sorb) X(evap_air) X(evap_surface) X(wsat_glass)           \
    X(wsat_edge) X(wsat_corner) X(air_source) X(surface_source)                \
    X(mass_source) X(air_g) X(heat_full) X(cool_full) X(w_source) X(w_g)       \
    X(pws_wet)   /* Pa   of the ground's wet inside face                 */    \
    X(wet_slope) /* Pa/K of it, by the air's t                           */    \
    X(fog)       /* kg/s out of saturated air, whose heat is in evap_air */
/* clang-format on */

#define DEW_LANE_STRUCT(name, MAP)                                             \
    struct name {                                                              \
        MAP(DEW_MEMBER)                                                        \
    }

DEW_LANE_STRUCT(march__lane, DEW_LANE_MAP);
DEW_LANE_STRUCT(march__drive, DEW_DRIVE_MAP);
DEW_LANE_STRUCT(march__coil, DEW_COIL_MAP);
DEW_LANE_STRUCT(march__blend, DEW_BLEND_MAP);
DEW_LANE_STRUCT(march__terms, DEW_TERMS_MAP);

/* One stage's duties, 0 .. 1 but for fog. */
/* clang-format off */
#define DEW_DUTY_MAP(X)                                                        \
    X(heat) X(cool) X(cool_2) X(cool_3) X(dry) X(wet)                          \
    X(fog)      /* kg/s, and not a share: out of saturated air         */
/* clang-format on */
DEW_LANE_STRUCT(march__duty, DEW_DUTY_MAP);

#define DEW_LANE static inline __attribute__((always_inline))

#endif
