/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Mould growth index, 0 (none) .. 6 (all over), on a surface whose temperature
 * and humidity are known hour by hour.  1: germs under the microscope; 3: seen
 * by eye.  [ASH-160] (2016) passes a surface whose index stays at or below 3
 * (from memory).
 *
 * Two forms, not to be mixed: the 1999 form for pine and spruce [HV99], and
 * the later one by sensitivity class [OV11], which has its own rate beyond 1
 * and leaves wood and surface out of the times.
 *
 *     t   degC
 *     rh  -       of the air at the surface; above 1 counts as 1, being wet
 *
 * Growth needs 0 < t < 50 and rh at or above the critical one.
 */
#ifndef DEW_MOULD_H
#define DEW_MOULD_H

#ifdef __cplusplus
extern "C" {
#endif

enum dew_mould_class {
    DEW_MOULD_VERY_SENSITIVE, /* pine sapwood                              */
    DEW_MOULD_SENSITIVE,      /* planed wood, paper-faced boards           */
    DEW_MOULD_MEDIUM,         /* concrete, aerated concrete, mineral wool  */
    DEW_MOULD_RESISTANT,      /* glass, metal, tiles                       */
    DEW_MOULD_CLASSES
};

/* What grows on what.  Zeroed: the 1999 form on resawn pine, but for decline,
   which must be given. */
struct dew_mould_rule {
    int by_class;               /* 0: 1999 form; 1: by sensitivity class    */
    enum dew_mould_class which; /* read by the class form                   */
    int spruce;                 /* 1999 form: 0 pine, 1 spruce              */
    int kiln_dried;             /* 1999 form: 0 resawn, 1 original surface  */
    double decline;             /* -  0 .. 1   of the loss in dry times: 1,
                                   0.5, 0.25 or 0.1, from memory            */
};

/* What the next hour needs to know. */
struct dew_mould {
    double index;     /* 0 .. 6                                             */
    double dry_hours; /* h   without growth until now                       */
};

/* Critical rh, - : [HV99], at least 0.80; 0.85 for the two hardier classes;
   1 at and below 0 degC. */
double dew_house_mould_critical(const struct dew_mould_rule *rule, double t);

/* Weeks to index 1 and to index 3 at a steady climate, [HV99]; NaN where
   nothing grows. */
double dew_house_mould_start(const struct dew_mould_rule *rule, double t,
                             double rh);
double dew_house_mould_seen(const struct dew_mould_rule *rule, double t,
                            double rh);

/* Highest index a steady climate leads to; may be negative. */
double dew_house_mould_most(const struct dew_mould_rule *rule, double t,
                            double rh);

/*
 * One hour at t and rh.  Growth k1 k2 / (7 x 24 t_m) by one explicit step, as
 * the published figures are made; in hours without it a loss of 0.032 a day
 * for the first 6 h, none to 24 h, 0.016 a day after, times decline.  Never
 * below 0.  A NaN climate makes the index NaN.
 *
 * Checked    test_mould.c: hours to 1 and 3, index after 30, 90 and 365 days
 *            at twelve steady climates; decline.
 */
void dew_house_mould_hour(const struct dew_mould_rule *rule, double t,
                          double rh, struct dew_mould *state);

#ifdef __cplusplus
}
#endif
#endif
