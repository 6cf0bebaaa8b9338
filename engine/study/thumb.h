/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rules of thumb, one function each.  Private to the study. */
#ifndef DEW_STUDY_THUMB_H
#define DEW_STUDY_THUMB_H

#include "dew/thumb.h"

/* Fill t for rule; 0 when there is nothing to say. */
typedef int dew__thumb(const struct dew_question *q, struct dew_thumb *t);

/* The option a rule is held to: the best, else the least humid that brings
   the air asked for, else the last that has a ventilator, else the first. */
size_t dew__thumb_option(const struct dew_question *q);

/* Set what the rule says, what is found, and whether found lies within it,
   widened by slack (a share of either end). */
int dew__thumb_set(struct dew_thumb *t, double low, double high, double found,
                   double slack);

/* Put why beside it where they differ; returns 1. */
int dew__thumb_why(struct dew_thumb *t, const char *why);

/* thumb_air.c */
dew__thumb dew__thumb_humid_60, dew__thumb_winter_ceiling, dew__thumb_rate_now,
    dew__thumb_rate_old, dew__thumb_rate_rooms, dew__thumb_half_time,
    dew__thumb_dew_60, dew__thumb_family_water, dew__thumb_first_year,
    dew__thumb_tight_3;

/* thumb_plant.c */
dew__thumb dew__thumb_not_dryer, dew__thumb_core_choice, dew__thumb_fan_auto,
    dew__thumb_ton_water, dew__thumb_cool_half, dew__thumb_own_best,
    dew__thumb_no_damper, dew__thumb_balance, dew__thumb_sensible_76,
    dew__thumb_fan_15, dew__thumb_dryer_1000, dew__thumb_dryer_factor,
    dew__thumb_cost_balanced;

#endif
