/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of a survey share.  Private to engine/survey/. */
#ifndef DEW_SURVEY_SURVEY_H
#define DEW_SURVEY_SURVEY_H

#include <pthread.h>
#include <stdatomic.h>
#include <stdint.h>
#include <sys/types.h>

#include "core/journal.h"
#include "dew/climate.h"
#include "dew/report.h"
#include "dew/survey.h"
#include "scenario/tree.h"

enum {
    SURVEY__FAULTS = 50, /* told of one reading                              */
    SURVEY__ID = 24,
    SURVEY__UNIT = 32,
    SURVEY__SET = 4096, /* of one "key=value"                                */
    SURVEY__FILES = 100 * 1024 * 1024,
    SURVEY__TEXT = 1 << 20,
    SURVEY__PATH = 4096
};

/* ---- the plan ---------------------------------------------------------------- */

/* One value that a key takes, and where it stands in the plan. */
struct survey__value {
    const char *text; /* as after --set                                      */
    const struct scenario__node *node;
};

/* One key that is varied. */
struct survey__axis {
    const struct dew_field *field;
    size_t key; /* its place in dew_scenario_fields                          */
    struct survey__value *values; /* a list, or the steps of a range         */
    /* 0 in a file of houses, and of a range that a sample is drawn from,
       which has its two ends as values */
    size_t count;
    int is_range;
    double low, high;        /* of a range, in its unit                      */
    char unit[SURVEY__UNIT]; /* as typed                                     */
    int number;              /* 1: a column of numbers, SI                   */
    int seen;                /* 1: quantity is that of a value               */
    enum dew_quantity quantity;
};

struct dew_survey_plan {
    struct scenario__arena arena;
    char *name;  /* of the plan                                              */
    char *bytes; /* of it, unpacked                                          */
    size_t length;
    char *scenario_name, *scenario; /* as found, its text                    */
    size_t scenario_length;
    char *made; /* the text with options made for it, or NULL                */
    size_t made_length;
    int bare;
    struct survey__axis axes[DEW_SURVEY_KEYS];
    size_t axis_count;
    size_t houses;
    int sampled; /* 1: they are a sample                                     */
    double *u; /* [houses][axes] of a sample, else NULL                      */
    const char *houses_name;
    char *houses_bytes; /* of a file of houses; cells are parts of it        */
    char houses_sum[DEW_SHA256_TEXT];
    const char **cells; /* [houses][axes] of a file, else NULL               */
    int *lines;         /* [houses] of it                                    */
    char (*places)[SURVEY__ID];
    size_t place_count; /* 0: the scenario's own weather                     */
    const char **options;
    size_t option_count; /* 0: all; else these                               */
    size_t options_all;  /* options that are marched                         */
    const char **names;  /* [options_all]  theirs                            */
    size_t draws;
    unsigned long seed;
};

/* A reading, and what it has found. */
struct survey__reading {
    struct dew_survey_plan *plan;
    struct dew_faults *faults;
    enum dew_status status; /* of the first fault                            */
};

enum dew_status survey__blame(struct survey__reading *r,
                              const struct scenario__node *node,
                              const char *path, enum dew_status status,
                              const char *format, ...)
    __attribute__((format(printf, 5, 6)));
enum dew_status survey__memory(struct survey__reading *r);
void survey__pass_on(struct survey__reading *r, const struct dew_error *err);

/* How many a list has. */
size_t survey__entries(const struct scenario__node *list);

/* The text of a value: of a scalar what it says, else the slice it was. */
const char *survey__slice(struct survey__reading *r,
                          const struct scenario__node *node);

/* The text that is marched: the scenario's, or with options made for it. */
const char *survey__scenario(const struct dew_survey_plan *plan,
                             size_t *length);

/* vary.c: the keys and their values, and whether the scenario takes them. */
void survey__vary(struct survey__reading *r, const struct scenario__node *node,
                  int sample);
/* A key that is varied, added; NULL and a fault, of the place that at has,
   where it cannot be. */
struct survey__axis *survey__axis(struct survey__reading *r, const char *path,
                                  struct dew_error *at);
void survey__check(struct survey__reading *r);

/* Takes the unit of an axis' column from a value that was read, or says that
   it is of another quantity; at: where it stands. */
void survey__known(struct survey__reading *r, struct survey__axis *axis,
                   const struct dew_scenario *s, struct dew_error *at);

/* houses.c: a file of houses. */
void survey__houses(struct survey__reading *r,
                    const struct scenario__node *node);
void survey__check_houses(struct survey__reading *r);

/* ---- sets.c: a house of the plan ---------------------------------------------- */

/* What is set over the scenario for one house in one place. */
struct survey__sets {
    const char *list[DEW_SURVEY_KEYS + 1];
    size_t count;
    char room[DEW_SURVEY_KEYS + 1][SURVEY__SET];
};

/* What key a of a house is set to; room: SURVEY__SET bytes. */
const char *survey__cell(const struct dew_survey_plan *plan, size_t house,
                         size_t axis, char *room);
void survey__sets(const struct dew_survey_plan *plan, size_t house,
                  size_t place, struct survey__sets *out);
/* The scenario of such a text, with the first house that fits, of those looked
   at, in the first place; the faults are of the first house. */
enum dew_status survey__first_house(const struct dew_survey_plan *p,
                                    const char *text, size_t length,
                                    struct dew_scenario **scenario,
                                    struct dew_faults *faults);
/* How many houses are looked at, until one fits. */
enum { SURVEY__LOOKED = 256 };
size_t survey__looked(const struct dew_survey_plan *p);
/* One of them: the text "key=value", of "weather.place" where field is NULL. */
void survey__set(struct survey__sets *out, const struct dew_field *field,
                 const char *value);

/* Reads the scenario with sets; faults of set i are told as of at[i], which a
   caller has filled, and how many is returned.  Others are not told, nor what
   keys come to together: *s is good for its base alone. */
struct survey__look {
    struct survey__sets sets;
    struct dew_error list[SURVEY__FAULTS];
    struct dew_error at[DEW_SURVEY_KEYS + 1];
};
size_t survey__look(struct survey__reading *r, struct survey__look *look,
                    size_t first, size_t last, struct dew_scenario **s);

/* Draw the houses of a sample.  Errors: DEW_EMEM, those of core__draw. */
enum dew_status survey__sample(struct dew_survey_plan *plan,
                               struct dew_error *err);

/* ---- item.c: what an item came to, as bytes ------------------------------------ */

/* Bytes that grow; failed: 1 once there was no memory. */
struct survey__bytes {
    char *at;
    size_t length, room;
    int failed;
};
void survey__put(struct survey__bytes *b, const void *from, size_t length);

/* Where an item was: "" and NaN where the weather does not say. */
struct survey__where {
    char id[SURVEY__ID], name[64], state[4];
    double latitude, longitude;
};

/* An item as read back. */
struct survey__item {
    size_t number;
    struct survey__where where;
    double known[DEW_SURVEY_KEYS]; /* of the axes, SI; NaN where words        */
    size_t rows;      /* 0: at fault                                         */
    const char *text; /* of the fault                                        */
    const char *figures; /* rows, packed                                     */
};

struct dew_spread;
/* What an item came to, or what is wrong with it, appended to b. */
void survey__put_rows(const struct dew_survey_plan *p,
                      const struct dew_run *run,
                      const struct dew_spread *spread, size_t item,
                      struct survey__bytes *b);
void survey__put_fault(const struct dew_survey_plan *p,
                       const struct dew_error *err, size_t item,
                       struct survey__bytes *b);

/* The item at bytes, and how long it is; 0 where there is none whole. */
size_t survey__unpack(const struct dew_survey_plan *plan, const char *bytes,
                      size_t length, struct survey__item *out);
/* Its number and length without a plan. */
size_t survey__skip(const char *bytes, size_t length, size_t *number,
                    int *fault);
/* Row i of it. */
void survey__row(const struct survey__item *item, size_t i,
                 struct dew_drawn *out);

/* ---- march.c: items marched ------------------------------------------------------ */

/* The first run that a worker marched in a place, for its weather, and where
   nothing is drawn its spread, for its light; NULL at first. */
struct survey__last {
    struct dew_run *run;
    struct dew_spread *spread;
    size_t place;
};
void survey__last_close(struct survey__last *last);

/* How many items march side by side at most; and from first on, before end. */
enum { SURVEY__TOGETHER = 32 };
size_t survey__together(const struct dew_survey_plan *plan);
size_t survey__next(const struct dew_survey_plan *plan, size_t first,
                    size_t end);

/* March count items, survey__next at most, and append them to b: each comes to
   the same bytes whatever marches beside it.  Errors: DEW_EMEM and what is no
   fault of the house's; what was appended then is none. */
enum dew_status survey__march(const struct dew_survey_plan *plan, size_t first,
                              size_t count, struct survey__last *last,
                              struct survey__bytes *b, struct dew_error *err);

/* ---- folder.c and survey.c ------------------------------------------------------ */

/* Where an item lies; length 0: nowhere. */
struct survey__lies {
    off_t at;
    uint32_t length;
    uint32_t file;
};

struct dew_survey {
    struct dew_survey_plan *plan;
    struct dew_survey_size size;
    enum dew_survey_how how;
    char *folder; /* NULL: nothing is kept                                   */
    int directory;
    int holder; /* a part that says who is at work                           */
    char holder_name[64];
    struct survey__lies *lies; /* [items]; NULL of who joined               */
    int *files;                /* journals, for reading                      */
    size_t file_count;
    struct dew_survey_state state;
    /* while it runs */
    const struct dew_survey_watch *watch;
    pthread_mutex_t lock;
    size_t next, grain, most, taken;
    atomic_int stop;
    struct dew_error err; /* of the worker that failed first                 */
};

/* Open the folder, see what it holds, or begin. */
enum dew_status survey__folder_open(struct dew_survey *s,
                                    struct dew_error *err);
void survey__folder_close(struct dew_survey *s);
/* Find the items in the journals. */
enum dew_status survey__find(struct dew_survey *s, struct dew_error *err);
/* The name of a worker's journal: process and thread, from 0. */
void survey__journal_name(size_t process, size_t worker, char out[32]);

/* An item's bytes, to *room, which grows. */
enum dew_status survey__load(const struct dew_survey *s, size_t item,
                             struct survey__bytes *room,
                             struct survey__item *out, struct dew_error *err);

/* ---- result.c: the table -------------------------------------------------------- */

enum { SURVEY__NUMBER = 40, SURVEY__COLUMN = 160 };

/* Whoever takes the cells of the table, row by row. */
struct survey__taker {
    void *of;
    void (*text)(void *of, const char *text);
    void (*number)(void *of, double x); /* NaN: nothing                      */
    void (*whole)(void *of, size_t n);
    enum dew_status (*end)(void *of, struct dew_error *err); /* of a row     */
};
enum dew_status survey__rows(const struct dew_survey *s,
                             const struct survey__taker *to,
                             struct dew_error *err);
/* The faults: house, place, what. */
enum dew_status survey__fault_rows(const struct dew_survey *s,
                                   const struct survey__taker *to,
                                   struct dew_error *err);

enum survey__type { SURVEY__WHOLE, SURVEY__REAL, SURVEY__WORDS };
/* The name and type of column i; 0 past the last.  Letters, digits and _. */
int survey__column(const struct dew_survey_plan *plan, size_t i, char *name,
                   enum survey__type *type);

/* result_csv.c and result_sqlite.c */
enum dew_status survey__write_csv(const struct dew_survey *s,
                                  struct dew_error *err);
enum dew_status survey__write_faults(const struct dew_survey *s,
                                     struct dew_error *err);
enum dew_status survey__write_sqlite(const struct dew_survey *s,
                                     struct dew_error *err);
char *survey__path(const char *folder, const char *name); /* to be freed */

#endif
