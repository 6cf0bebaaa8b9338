/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A scenario read, and the case of its first option, at a made-up place. */
#ifndef DEW_TESTS_CASE_OPEN_H
#define DEW_TESTS_CASE_OPEN_H

#include <string.h>

#include "dew/air.h"
#include "dew/scenario.h"
#include "scenario/case_grounds.h"

static const double cfm = 4.719474432e-4; /* m3/s, exact */
static const double ft2 = 0.09290304;     /* m2, exact */

/* A made place: 17 degC on the yearly mean, coldest in January. */
static const struct dew_outdoors place = {
    .site = {.name = "made up",
             .latitude = 41.3,
             .longitude = -81.9,
             .elevation = 238,
             .utc_offset = -5},
    .pressure = 98512,
    .monthly = {5.1, 6.9, 11.2, 16.4, 21.7, 26.1, 28.3, 27.6, 24.2, 17.9, 11.4,
                6.8},
};

static inline struct dew_scenario *opened(const char *text,
                                          const char *const *sets,
                                          size_t set_count)
{
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    struct dew_scenario_source from = {text, strlen(text), "h.yaml", sets,
                                       set_count};
    struct dew_scenario *s = NULL;
    char line[400];

    if (dew_scenario_open(&s, &from, &faults) != DEW_OK)
        fail_msg("%s", dew_error_line(&list[0], line, sizeof line));
    return s;
}

static inline void make(const struct dew_scenario *s, size_t option,
                        struct dew_case *out)
{
    struct dew_error err = {0};
    char line[400];

    if (dew_scenario_case(s, option, &place, NULL, out, &err) != DEW_OK)
        fail_msg("%s", dew_error_line(&err, line, sizeof line));
}

static inline struct dew_case case_of(const char *text)
{
    struct dew_scenario *s = opened(text, NULL, 0);
    struct dew_case c;

    make(s, 0, &c);
    dew_scenario_close(s);
    return c;
}

#endif
