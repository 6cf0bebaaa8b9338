/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of suggestions share.  Private to engine/run/. */
#ifndef DEW_RUN_SUGGEST_H
#define DEW_RUN_SUGGEST_H

#include "dew/size.h"
#include "dew/suggest.h"
#include "run/run.h"

/* Options are sums of parts: bit of each. */
/* clang-format off */
#define RUN__PART_MAP(X)                                                       \
    X(windows) X(exhaust) X(heat) X(enthalpy) X(dehumidifier) X(control)       \
    X(humidifier) X(return_tie) X(supply_tie) X(mix)
/* clang-format on */

enum run__part {
#define X(name) RUN__PART_##name,
    RUN__PART_MAP(X)
#undef X
        RUN__PARTS
};

#define RUN__BIT(name) (1u << RUN__PART_##name)

enum { RUN__SUGGEST_MOST = 40, RUN__SUGGEST_NAME = 60 };

/* An option to make: bits of its parts, and the airflow of its core where that
   is not the air asked for. */
struct run__made {
    unsigned parts;
    double flow; /* m3/s  0: as the scenario has it                          */
};

/* The parts of list entry i that suit the house, 0 past the end; the name. */
unsigned run__suggest_parts(const struct dew_run *house, size_t i);
void run__suggest_name(const struct dew_run *house,
                       const struct run__made *made,
                       char name[RUN__SUGGEST_NAME + 1]);

/* The least airflow that is enough in as many houses as asked; else the one
   that is in most; 0 where that is none. */
double run__suggest_best(const struct dew_size_curve *curve);

/* An airflow as it is set at a fan: up to the next 5 cfm or 2 L/s. */
double run__suggest_flow(const struct dew_run *house, double flow);

/*
 * The text of the house's scenario with other options: the house as it stands
 * and those made, count of them; to be freed.  NULL on an error: DEW_EMEM, and
 * DEW_ESYNTAX where the text has no place for them.
 */
char *run__suggest_write(const struct dew_run *house,
                         const struct run__made *made, size_t count,
                         size_t *length, struct dew_error *err);

/* One drawn house of so many, into an option's means. */
void run__suggest_add(struct dew_suggest_option *o, const struct dew_drawn *h,
                      size_t houses);

/* by and left of each, RUN__SUGGEST_MOST + 1 at most.  The first is the house
   as it stands, which is never left out. */
void run__suggest_leave_out(struct dew_suggest_option *o, size_t count);

#endif
