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
};

/* What an hour's sun and ground are to a house: all that a step cannot reckon. */
struct march__sun {
    double solar;    /* W     through glass                                 */
    double sunlit;   /* W     onto opaque walls                             */
    double t_ground; /* degC                                                */
};

/* What falls on each facade in an hour; houses that stand alike share it. */
struct march__light {
    struct dew_solar on[DEW_FACADES];
};

void march__light_of(const struct dew_case *c, const struct dew_plane *planes,
                     const struct dew_hour *hour, const struct dew_date *date,
                     struct march__light *out);
/* degC   the ground below on a day */
double march__ground_of(const struct dew_case *c, const struct dew_date *date);
/* on: of each facade. */
struct march__sun march__sun_of(const struct dew_case *c,
                                const struct dew_solar *on, double t_ground);

/* Prepare the facades' planes: size DEW_FACADES. */
void march__planes(const struct dew_case *c, struct dew_plane *planes);

/* The flat constants of a case. */
struct march__lane march__lane_of(const struct dew_case *c);

#endif
