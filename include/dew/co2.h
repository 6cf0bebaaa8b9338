/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Carbon dioxide that people breathe out, and what it comes to in a room.
 * Pure functions; an argument outside its range gives NaN.
 */
#ifndef DEW_CO2_H
#define DEW_CO2_H

#ifdef __cplusplus
extern "C" {
#endif

enum dew_sex { DEW_FEMALE, DEW_MALE };

/* Basal metabolism, MJ/day; mass kg > 0, age 3 .. 120 years.  [SCHO85], from
   memory. */
double dew_house_basal(enum dew_sex sex, double age, double mass);

/*
 * Generation, m3/s at t and p: RQ BMR M (T/p) 0.000211 L/s, RQ 0.85.
 *
 *     basal  MJ/day > 0    met  -  0.7 .. 10
 *     t      degC  -20 .. 60        p  Pa  50e3 .. 110e3
 *
 * Equation   [PJ17], from memory.
 * Checked    test_co2.c: 0.0048 L/s for a man of 21 - 30 at 1.2 met, 273 K.
 */
double dew_house_co2(double basal, double met, double t, double p);

/* Mean of a man and a woman of 21 - 30 years, 84.9 and 71.9 kg, [PJ17]; m3/s
   at 20 degC and 101.325 kPa. */
double dew_house_co2_adult(double met);

/* Steady rise over outdoors, ppm: 1e6 generation / flow (m3/s both). */
double dew_house_co2_rise(double generation, double flow);

/* A well mixed room. */
struct dew_co2_room {
    double volume;     /* m3    > 0                                          */
    double generation; /* m3/s                                               */
    double flow;       /* m3/s  >= 0   of outdoor air                        */
    double outdoors;   /* ppm                                                */
};

/*
 * ppm at the end of time, s > 0, by one implicit (backward Euler) step of
 *
 *     volume dC/dt = 1e6 generation + flow (outdoors - C)
 *
 * from start, ppm.  It never overshoots; of much time it gives the steady
 * state.  A stage of the march is one such step, by the same formula from
 * engine/house/co2_step.h.
 * Checked    test_co2.c: against the balance's closed form.
 */
double dew_house_co2_step(const struct dew_co2_room *room, double start,
                          double time);

#ifdef __cplusplus
}
#endif
#endif
