/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Cautions: what could hurt someone or a house, tied to what was told of it.
 * A question that was not answered counts as the answer that calls for care.
 * The list is part of every output and nothing turns a row of it off.
 */
#ifndef DEW_CAUTIONS_H
#define DEW_CAUTIONS_H

#include <stdint.h>

#include "dew/verdict.h"

#ifdef __cplusplus
extern "C" {
#endif

/* STOP: do nothing before it is settled.  CHECK: look.  NOTE: know. */
enum dew_caution_level { DEW_STOP, DEW_CHECK, DEW_NOTE, DEW_CAUTION_LEVELS };

/* One caution that stands.  Plain; strings are static. */
struct dew_caution {
    enum dew_caution_level level;
    const char *key;    /* "combustion": stable, for scripts                */
    const char *text;   /* in our words, a few sentences                    */
    const char *source; /* a label of docs/references.md, or a few words    */
    uint64_t options;   /* bit i: option i calls for it; 0: the house does  */
    double pressure;    /* Pa   worst computed, house over outdoors; NaN    */
    int worst;          /* the option it is of; DEW_NO_OPTION with NaN      */
};

enum { DEW_CAUTIONS = 48 };

/*
 * The cautions that stand, STOP first, then in a fixed order, into out of
 * room entries (DEW_CAUTIONS hold any).  Returns how many stand.
 */
size_t dew_cautions_of(const struct dew_question *question,
                       struct dew_caution *out, size_t room);

/*
 * The caution of that key, whether it stands or not, with options 0 and
 * pressure NaN.  Returns 0, and leaves *out, where there is none.
 */
int dew_cautions_find(const char *key, struct dew_caution *out);

/* "STOP", "CHECK", "NOTE"; never NULL. */
const char *dew_cautions_level(enum dew_caution_level level);

#ifdef __cplusplus
}
#endif
#endif
