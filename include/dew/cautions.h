/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Cautions: what could hurt someone or a house, tied to what was told of it.
 * A question that was not answered counts as the answer that calls for care,
 * and is told as a question, with the key that answers it.
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
    /* YES: told, or computed of what was told.  UNKNOWN: nobody said */
    enum dew_answer answer;
    const char *question_key; /* "safety.illness": answers it; NULL = none  */
    int has_pressure;         /* 1: what follows is about something         */
    double pressure; /* Pa   deepest of dew_cautions_suction over those options
                        (of the house: all) of which there is one; NaN      */
    int worst;       /* the option it is of; DEW_NO_OPTION with NaN         */
    unsigned untold; /* fans not told, and the options they are not told of */
    uint64_t untold_options;
};

enum { DEW_CAUTIONS = 64 };

/*
 * The house's pressure with every fan at once: the ventilator and blowers in
 * their worst state, each local exhaust at its full flow.  None is computed
 * while the flow of one of the three was not told, 0 m3/s where it is absent:
 * one that is there and not counted would make it false comfort.
 */
struct dew_suction {
    double pressure; /* Pa   house over outdoors; NaN with untold           */
    unsigned fans;   /* bit e of enum dew_local: counted                    */
    unsigned untold; /* the same: not told                                  */
    int beyond;      /* 1: past DEW_SUCTION_MOST                            */
};
struct dew_suction dew_cautions_suction(const struct dew_question *question,
                                        size_t option);

/* Pa  Past it no household fan delivers its rated air, and no figure is told.
   Our own choice, no source. */
#define DEW_SUCTION_MOST 50.0

/*
 * The cautions that stand, STOP first, in a level what was told first, then in
 * a fixed order, into out of room entries (DEW_CAUTIONS hold any).  Returns how many stand.
 */
size_t dew_cautions_of(const struct dew_question *question,
                       struct dew_caution *out, size_t room);

/*
 * The caution of that key as it is told with that answer, whether it stands or
 * not, with options 0 and pressure NaN.  Returns 0, and leaves *out, where
 * there is none.
 */
int dew_cautions_find(const char *key, enum dew_answer answer,
                      struct dew_caution *out);

/* "You have not said whether ": how every open question begins. */
const char *dew_cautions_open_words(void);

/* "STOP", "CHECK", "NOTE"; never NULL. */
const char *dew_cautions_level(enum dew_caution_level level);

#ifdef __cplusplus
}
#endif
#endif
