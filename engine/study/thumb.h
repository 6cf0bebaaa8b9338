/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rules of thumb, one function each.  Private to the study. */
#ifndef DEW_STUDY_THUMB_H
#define DEW_STUDY_THUMB_H

#include "dew/thumb.h"

/* Fill t for rule; 0 when there is nothing to say. */
typedef int study__thumb(const struct dew_question *q, struct dew_thumb *t);

/* The option a rule is held to: the best, else the least humid that brings
   the air asked for, else the last that has a ventilator, else the first. */
size_t study__thumb_option(const struct dew_question *q);

/* Set what the rule says, what is found, and whether found lies within it,
   widened by slack (a share of either end). */
int study__thumb_set(struct dew_thumb *t, double low, double high, double found,
                     double slack);

/* Put why beside it where they differ; returns 1. */
int study__thumb_why(struct dew_thumb *t, const char *why);

/* thumb_air.c */
study__thumb study__thumb_humid_60, study__thumb_winter_ceiling,
    study__thumb_rate_now, study__thumb_rate_old, study__thumb_rate_rooms,
    study__thumb_half_time, study__thumb_dew_60, study__thumb_family_water,
    study__thumb_first_year, study__thumb_tight_3;

/* thumb_plant.c */
study__thumb study__thumb_not_dryer, study__thumb_core_choice,
    study__thumb_fan_auto, study__thumb_ton_water, study__thumb_cool_half,
    study__thumb_own_best, study__thumb_no_damper, study__thumb_balance,
    study__thumb_sensible_76, study__thumb_fan_15, study__thumb_dryer_1000,
    study__thumb_dryer_factor, study__thumb_cost_balanced;

#endif
