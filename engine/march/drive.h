/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Schedules resolved for one hour, and controls for one step.  Private. */
#ifndef DEW_MARCH_DRIVE_H
#define DEW_MARCH_DRIVE_H

#include "dew/sun.h"
#include "march/lane.h"

/* The clockwork of one run that is neither state nor constant. */
struct march__clock {
    double day;  /* d      since the run began, for what decays             */
    double mild; /* degC   running mean outdoors, for the window habit      */
    double uncooled; /* h  since the house was last cooled                  */
    int idle;        /* 1: time stands still for what decays (warm-up)      */
};

/* The clockwork before the first hour: t outdoors, nothing cooled lately. */
struct march__clock march__clock_set(double t);

/* An hour on: t outdoors, and the share of the hour that cooling ran. */
void march__clock_turn(struct march__clock *clock, double t, double cool);

/* The hour's drive: what schedules, sun and decay say.  known: the hour's sun,
   or where to keep it; NULL to work it out. */
struct march__drive march__drive_of(const struct dew_case *c,
                                    const struct dew_plane *planes,
                                    const struct march__clock *clock,
                                    const struct dew_hour *hour,
                                    const struct dew_date *date,
                                    struct dew_lit *known);

/* Shut the windows of one who looks at the dew point, where from start to end
   of the hour the air outdoors is not drier than it should be; x is the house
   then. */
void march__mind_windows(const struct dew_case *c, const struct dew_state *x,
                         const struct dew_hour *start,
                         const struct dew_hour *end, struct march__drive *d);

/* Prepare the facades' planes: size DEW_FACADES. */
void march__planes(const struct dew_case *c, struct dew_plane *planes);

/* The flat constants of a case. */
struct march__lane march__lane_of(const struct dew_case *c);

#endif
