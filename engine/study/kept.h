/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The names of what is kept (dew/kept.h).  Private. */
#ifndef DEW_STUDY_KEPT_H
#define DEW_STUDY_KEPT_H

#include <sha2.h>

#include "dew/kept.h"
#include "dew/study.h"

struct study__name {
    SHA2_CTX sum;
};

/* Begin a name: what is kept, a word, and how many bytes it has, so that no two
   layouts share one. */
struct study__name study__name_of(const char *what, size_t length);

/* All that a march depends on goes in. */
void study__name_add(struct study__name *name, const void *bytes,
                     size_t length);

/* A case by its numbers: what lies between them is anything. */
void study__name_case(struct study__name *name, const struct dew_case *c);

/* The hours and what is held in them (or NULL), as a name of their own: they
   are long, and many marches go through them. */
void study__name_weather(const struct dew_weather *weather,
                         const double *prescribed_t, char out[DEW_KEPT_NAME]);

void study__name_end(struct study__name *name, char out[DEW_KEPT_NAME]);

#endif
