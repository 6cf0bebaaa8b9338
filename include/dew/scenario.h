/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The scenario file: one house, and the options a person weighs for it.
 *
 *     struct dew_error list[50] = {{0}};
 *     struct dew_faults faults = {list, 50, 0};
 *     struct dew_scenario_source from = {text, length, "house.yaml", NULL, 0};
 *
 *     if (dew_scenario_open(&s, &from, &faults) != DEW_OK)
 *         for (size_t i = 0; i < faults.count && i < faults.room; i++)
 *             puts(dew_error_line(&list[i], line, sizeof line));
 *     else
 *         dew_scenario_case(s, 0, &place, NULL, &house_case, &err);
 *     dew_scenario_close(s);
 *
 * Every key is a row of one table (dew_scenario_fields).  The reader, the
 * ranges, the defaults, `explain`, docs/scenario.md and `start` read that
 * table and nothing else.
 *
 * Order of rule: default, then file, then option, then --set.  Mappings merge
 * key by key, single values and lists replace, `none` removes.  Of
 * weather.place, file and monthly the one that --set gives replaces the other
 * in the file, and what the file answers about its weather.file goes too.
 */
#ifndef DEW_SCENARIO_H
#define DEW_SCENARIO_H

#include "dew/ducts.h"
#include "dew/log.h"
#include "dew/march.h"
#include "dew/status.h"
#include "dew/study.h"
#include "dew/unit.h"
#include "dew/weather.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- the table ---------------------------------------------------------- */

/* How a value is written. */
enum dew_kind {
    DEW_KIND_NUMBER, /* 95 cfm; 1.1 ach50 (0.7 to 2.0)                      */
    DEW_KIND_COUNT,  /* 3                                                   */
    DEW_KIND_FLAG,   /* yes, no                                             */
    DEW_KIND_ANSWER, /* yes, no, unknown                                    */
    DEW_KIND_WORD,   /* one of the row's words                              */
    DEW_KIND_TEXT,   /* free text                                           */
    DEW_KIND_AT,     /* 74 % at 95 cfm; or a list of such                   */
    DEW_KIND_HOURS,  /* 22 to 6 (hours of the day); or a list of such       */
    DEW_KIND_LIST,   /* [1 kg, 2 kg]                                        */
    DEW_KIND_ROWS,   /* a list of mappings                                  */
};

/* Another quantity that a key takes, with its own range. */
struct dew_form {
    enum dew_quantity quantity;
    double low, high; /* SI, inclusive                                      */
};

/* What a default leaves open. */
enum dew_doubt {
    DEW_DOUBT_NONE,
    DEW_DOUBT_RANGE,  /* low to high                                         */
    DEW_DOUBT_TIMES,  /* factors of the figure that is worked out            */
    DEW_DOUBT_STEP,   /* what is added to that figure, SI                    */
    DEW_DOUBT_WITHIN, /* -1 the low, 0 the likely, 1 the high of a table    */
    DEW_DOUBT_WORDS   /* one of the words it may be, each as likely         */
};

/* One key.  Static, plain; NULL or 0 where a column does not apply. */
struct dew_field {
    const char *path; /* "ventilator.flow"                                  */
    enum dew_kind kind;
    enum dew_quantity quantity;
    double low, high;   /* SI, inclusive                                    */
    const char *why;    /* the reason shown when a value is refused         */
    const char *preset; /* as typed; NULL = required, "" = nothing,
                           "=words" = worked out from other keys            */
    const char *source; /* of the preset                                    */
    const char *start;  /* value in the file that `start` writes, or NULL   */
    const char *help;
    const char *words;            /* "auto|on|minutes|interlock"            */
    const struct dew_form *forms; /* further quantities that fit            */
    size_t form_count;
    enum dew_quantity at;        /* DEW_KIND_AT: of what stands after "at"  */
    const struct dew_field *row; /* DEW_KIND_ROWS: its columns              */
    size_t row_count;
    size_t least, most;   /* entries of a list, each hour pair, or of rows    */
    int base_only;        /* an option cannot change it                       */
    int either;           /* WORD, FLAG, ANSWER: may be in doubt: "a or b"    */
    enum dew_doubt doubt; /* of the default                             */
    const char
        *span; /* WORDS: "a or b"; RANGE: "low to high" as typed; "" where the
                                 preset itself holds it                     */
    double least_by, most_by; /* TIMES, STEP, WITHIN: the ends              */
    const char *doubt_why;    /* source of that range, or why there is none;
                                 numeric keys have one                      */
};

/* Every key, in the order of the manual.  Static, not to be freed. */
const struct dew_field *dew_scenario_fields(size_t *count);

/* The key of that exact path, or NULL. */
const struct dew_field *dew_scenario_field(const char *path);

/*
 * The known key or group nearest to path in spelling, or NULL where more than
 * one letter in three is another.
 */
const char *dew_scenario_nearest(const char *path);

/* What a group of keys is about ("house", "cooling"), or NULL. */
const char *dew_scenario_group(const char *name);

/* ---- what was read ------------------------------------------------------ */

enum dew_origin_by {
    DEW_BY_DEFAULT,
    DEW_BY_FILE,
    DEW_BY_OPTION,
    DEW_BY_SET,
};

/* Where a value came from; place zero when not from a text. */
struct dew_origin {
    enum dew_origin_by by;
    int line, column;      /* from 1                                        */
    size_t offset, length; /* bytes of the value in the text                */
};

/* A number with its doubt, SI; low = high = si when no range was given. */
struct dew_measure {
    double si, low, high;
};

/* How a figure that is worked out is moved; all 0 = not at all. */
struct dew_moved {
    double more;   /* factor, less one                                      */
    double step;   /* added, SI                                             */
    double within; /* -1 .. 1, by the low and high of a table               */
};

/* One value as read.  given = 0: absent, the rest is zero. */
struct dew_value {
    int given;
    const struct dew_unit *unit; /* as typed; NULL where none applies       */
    struct dew_measure
        amount;       /* NUMBER, COUNT; AT's first part; HOURS' start */
    double at;        /* AT's second part, SI; HOURS' end, h      */
    int choice;       /* WORD: its place in words; FLAG 0, 1;
                                   ANSWER: enum dew_answer                  */
    const char *text; /* as typed                                 */
    const struct dew_value *items; /* AT, HOURS, LIST: entries; ROWS: cells */
    size_t count;                  /* of entries or rows                    */
    struct dew_origin origin;
    struct dew_moved moved; /* by a change, of what is not given           */
    double least, most;     /* SI, of a default: its row's span; else 0, 0 */
    unsigned may; /* WORD, FLAG, ANSWER in doubt: bit i, it may be choice i;
                     0: it is as told                                       */
};

struct dew_scenario; /* opaque: text, values, origins, options */

/* What to read.  Borrowed for the call only. */
struct dew_scenario_source {
    const char *text;
    size_t length;           /* bytes, at most 1 MiB                        */
    const char *name;        /* for messages                                */
    const char *const *sets; /* "key=value", each as after --set            */
    size_t set_count;
};

/*
 * Read a scenario.  Every fault of one pass is put into *faults.
 *
 * Owner   on DEW_OK *scenario is the caller's, for dew_scenario_close; else
 *         NULL.
 * Errors  the status of the first fault; DEW_EMEM.
 */
enum dew_status dew_scenario_open(struct dew_scenario **scenario,
                                  const struct dew_scenario_source *from,
                                  struct dew_faults *faults);

/*
 * The same, for whoever looks on for further faults: where the keys could be
 * read but have faults, *scenario is handed over all the same, and good for
 * dew_scenario_weather, dew_scenario_log, dew_scenario_base and the close
 * alone; keys with a fault are then at their defaults.  NULL where the text
 * is no scenario at all.
 */
enum dew_status dew_scenario_look(struct dew_scenario **scenario,
                                  const struct dew_scenario_source *from,
                                  struct dew_faults *faults);

/* Free a scenario; NULL is allowed. */
void dew_scenario_close(struct dew_scenario *scenario);

/* Borrowed from the scenario; never NULL.  option < the count. */
const char *dew_scenario_title(const struct dew_scenario *scenario);
size_t dew_scenario_count(const struct dew_scenario *scenario);
const char *dew_scenario_name(const struct dew_scenario *scenario,
                              size_t option);
/* 1 where no option was told: the one there is is the house as it stands. */
int dew_scenario_bare(const struct dew_scenario *scenario);
/* The option of that name, or the count when there is none. */
size_t dew_scenario_find(const struct dew_scenario *scenario, const char *name);
/* One value for each row of dew_scenario_fields, in its order. */
const struct dew_value *dew_scenario_values(const struct dew_scenario *scenario,
                                            size_t option);
/* The same before any option. */
const struct dew_value *dew_scenario_base(const struct dew_scenario *scenario);
/* The text as read, for whoever puts values back into it. */
const char *dew_scenario_text(const struct dew_scenario *scenario,
                              size_t *length);

/* The system the file's units used most: 1 inch-pound, 2 metric. */
int dew_scenario_system(const struct dew_scenario *scenario);

/*
 * Print a value as a person would type it, in that system's units (1 inch-
 * pound, 2 metric, 0 those it was typed in): "95 cfm (80 to 110)".  Returns
 * out; size > 0; cut, never overrun.
 */
char *dew_scenario_show(const struct dew_field *field,
                        const struct dew_value *value, int system, char *out,
                        size_t size);

/*
 * The figure of a key (its place in dew_scenario_fields) that other values
 * give where it is not given itself, SI; NaN where none does without weather,
 * a layout or a machine.
 */
double dew_scenario_worked(const struct dew_value *values, size_t key);

/*
 * What is in doubt of a key (its place in dew_scenario_fields): of a range that
 * was told, else of the default as it is worked out here.  *ends, SI: the
 * likely is 1 of TIMES, 0 of STEP and WITHIN; of WORDS the choice, and the ends
 * are the first and last it may be.  NONE: *ends is unchanged.
 */
enum dew_doubt dew_scenario_doubt(const struct dew_value *values, size_t key,
                                  struct dew_measure *ends);

/*
 * The range of a default in words: "1 to 10 R", "0.5 to 1.6 times that", "less
 * 2 K to 2 K more"; "" where it has none, or writes it itself.  value is the
 * default as read, or NULL: a range is then as the row types it.  system as
 * above.  Returns out; size > 0; cut, never overrun.
 */
char *dew_scenario_show_doubt(const struct dew_field *field,
                              const struct dew_value *value, int system,
                              char *out, size_t size);

/* The choice at a share (0 .. 1) of those that words in doubt may be; the one
   told where it is in no doubt. */
int dew_scenario_word(const struct dew_value *value, double share);

/*
 * Why a range of a key (its place in dew_scenario_fields) changes nothing with
 * these values: what it is about is not there, or another key stands in its
 * place.  -1 where neither is so; of two the higher is the closer to the key.
 */
int dew_scenario_lull(const struct dew_value *values, size_t key);
/* In words, "there is no basement"; of -1 too.  Static. */
const char *dew_scenario_lull_words(int lull);

/* ---- what it makes ------------------------------------------------------ */

/*
 * Which weather is asked for; exactly one of the texts is not "".  Borrowed
 * from the scenario; files are relative to the scenario's folder.
 */
struct dew_weather_request {
    const char *place;   /* for dew_climate_find and dew_made_open          */
    const char *file;    /* of hours                                        */
    const char *monthly; /* for dew_climate_read and dew_made_open          */
    const char *fill;    /* place to fill the file from, or ""              */
    unsigned long seed;
    struct dew_weather_ask
        ask;             /* what the scenario answers; said is NULL     */
    const char *units;   /* "HEADER=UNIT, ...", or ""                   */
    const char *columns; /* "HEADER=MEANING, ...", or ""                */
};
struct dew_weather_request dew_scenario_weather(
    const struct dew_scenario *scenario);

/* How many houses like the one told are asked for; given: somebody said so.
   Borrowed from the scenario. */
struct dew_draws_request {
    size_t count; /* 0 .. 65536 */
    int given;
    const char
        *file; /* of houses, relative to the scenario's folder; "": none */
};
struct dew_draws_request dew_scenario_draws(
    const struct dew_scenario *scenario);

/*
 * Which log is to be laid beside the model, and how it is read; file is ""
 * where none is.  Borrowed from the scenario; the file is relative to the
 * scenario's folder.
 */
struct dew_log_request {
    const char *file;
    struct dew_log_ask ask; /* said is NULL                             */
    const char *units;      /* "HEADER=UNIT, ...", or ""                */
    const char *columns;    /* "HEADER=MEANING, ...", or ""             */
    int held; /* 1: the house is held at the temperature measured           */
};
struct dew_log_request dew_scenario_log(const struct dew_scenario *scenario);

/* What was seen of the house without a logger.  Plain. */
enum { DEW_SEEN_MOST = 24 };
struct dew_seen {
    unsigned months;      /* bit m: of month m + 1; 0: dated                */
    double from, until;   /* h  by the clock; until below from: past midnight */
    struct dew_date date; /* dated: the day, hour 0                         */
    double at;            /* h  of that day, 0 .. 24                        */
    struct dew_measure rh; /* -  si NaN: not read                            */
    double t;              /* degC  NaN: the house's own                     */
    int glass;             /* 1 wet, 0 dry, -1 not told                      */
    int line, column;      /* of its when                                    */
};
/* The rows of readings whose time is sound, DEW_SEEN_MOST at most, into list;
   how many. */
size_t dew_scenario_seen(const struct dew_scenario *scenario,
                         struct dew_seen *list);

/* What of the weather a case is made from.  Plain. */
struct dew_outdoors {
    struct dew_site site;
    double pressure;    /* Pa     mean                                      */
    double monthly[12]; /* degC   mean of each month                        */
};

/*
 * The means of a year.  A month without an hour takes the year's mean.
 * Errors: DEW_EMISSING when the year has no hour.
 */
enum dew_status dew_scenario_outdoors(const struct dew_year *year,
                                      struct dew_outdoors *out,
                                      struct dew_error *err);

/* Figures put in the place of those read, SI, for spreads and sizes. */
struct dew_change {
    const char *path;   /* of a NUMBER key, or of an AT key given with one
                         pair, whose first part it is then; of a WORD, FLAG
                         or ANSWER key; of TIMES, STEP and WITHIN any key
                         that is worked out                                 */
    double si;          /* of words: the choice                             */
    enum dew_doubt how; /* NONE and RANGE: si is the figure; else what that
                           doubt is of                                      */
};
struct dew_changes {
    const struct dew_change *list;
    size_t count;
};

/*
 * The complete case of one option.  changes may be NULL; with them, rules
 * between keys are looked at anew.  out may be NULL, to see whether there is
 * one.
 *
 * Errors  DEW_EMEM; DEW_EUNKNOWN for a change of no such key;
 *         DEW_ERANGE and others of the house and plant functions, the key's
 *         group in err->path.  *out only on DEW_OK.
 */
enum dew_status dew_scenario_case(const struct dew_scenario *scenario,
                                  size_t option,
                                  const struct dew_outdoors *outdoors,
                                  const struct dew_changes *changes,
                                  struct dew_case *out, struct dew_error *err);

/* Whether an option keeps the rules between its keys with figures changed.
   Errors: DEW_ERANGE, the key in err->path; DEW_EMEM; DEW_EUNKNOWN as above. */
enum dew_status dew_scenario_agrees(const struct dew_scenario *scenario,
                                    size_t option,
                                    const struct dew_changes *changes,
                                    struct dew_error *err);

/* An option with one thing read another way. */
struct dew_another {
    enum dew_otherwise how; /* given                                        */
    int open; /* 1: c is another case; 0: nothing is left open, c is unset  */
    struct dew_case c;
};

/* Fill *another by its how.  Errors as dew_scenario_case. */
enum dew_status dew_scenario_otherwise(const struct dew_scenario *scenario,
                                       size_t option,
                                       const struct dew_outdoors *outdoors,
                                       struct dew_another *another,
                                       struct dew_error *err);

/*
 * The layout of an option, filled, as its case is computed with; vent_count 0
 * where it has no ventilator with two fans.  Its names are the scenario's.
 *
 * Errors  as dew_scenario_case.  *out only on DEW_OK.
 */
enum dew_status dew_scenario_layout(const struct dew_scenario *scenario,
                                    size_t option,
                                    const struct dew_outdoors *outdoors,
                                    struct dew_duct_layout *out,
                                    struct dew_error *err);

/* The same as it was meant: without ventilator.found and any measured flow. */
enum dew_status dew_scenario_design(const struct dew_scenario *scenario,
                                    size_t option,
                                    const struct dew_outdoors *outdoors,
                                    struct dew_duct_layout *out,
                                    struct dew_error *err);

/* 1 where an option writes a layout down, so that its case is computed with
   it; 0 where the flows are as typed. */
int dew_scenario_layout_written(const struct dew_scenario *scenario,
                                size_t option);

/* 1 where an option's air handlers have leaks, or trunks outside the envelope:
   they count in its case, with whatever ventilator. */
int dew_scenario_ducts_outside(const struct dew_scenario *scenario,
                               size_t option);

/* Fresh air the option must deliver, m3/s; 0 = none asked. */
double dew_scenario_required(const struct dew_scenario *scenario,
                             size_t option);
/* The same with figures changed.  Errors: DEW_EMEM; DEW_EUNKNOWN for a change
   that dew_scenario_case does not know.  *out only on DEW_OK. */
enum dew_status dew_scenario_required_with(const struct dew_scenario *scenario,
                                           size_t option,
                                           const struct dew_changes *changes,
                                           double *out, struct dew_error *err);

/* The plain inputs of a study. */
struct dew_safety dew_scenario_safety(const struct dew_scenario *scenario);
struct dew_prices dew_scenario_prices(const struct dew_scenario *scenario);
struct dew_costs dew_scenario_costs(const struct dew_scenario *scenario,
                                    size_t option);
struct dew_option_facts dew_scenario_facts(const struct dew_scenario *scenario,
                                           size_t option);

#ifdef __cplusplus
}
#endif
#endif
