/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of a run share.  Private to engine/run/ and what calls it. */
#ifndef DEW_RUN_RUN_H
#define DEW_RUN_RUN_H

#include "dew/climate.h"
#include "dew/run.h"

enum {
    RUN__MOST = 256,   /* years marched: as many as a study holds        */
    RUN__OTHERS = 128, /* of them alternatives                           */
    RUN__PATH = 4096,
    RUN__SHOWN = 192, /* of an input                                     */
    RUN__TEXT = 1 << 20
};

struct run__option {
    size_t at;  /* in the scenario                                           */
    size_t dry; /* of the cases; 0 = none                                    */
    struct dew_option_facts facts;
    struct dew_costs costs;
};

enum { RUN__FAULTS = 100 }; /* most that one reading tells               */

struct dew_run {
    struct dew_error list[RUN__FAULTS]; /* room of run__room                 */
    const struct dew_run_ask *ask; /* these two while it is opened           */
    struct dew_faults *faults;
    enum dew_status status; /* of the first fault                            */
    enum dew_run_job job;
    unsigned with;
    size_t threads;
    const struct dew_kept *kept; /* NULL: nothing is                         */

    struct dew_scenario *scenario;
    struct dew_climate place; /* a made year is made of                      */
    struct dew_year *year;
    int lent; /* 1: the year is another run's                                */
    struct dew_outdoors outdoors;
    char notes[DEW_NOTES_MOST + 1][DEW_NOTE_TEXT]; /* of its reading and sky */
    const char *note[DEW_NOTES_MOST + 1];
    size_t note_count;
    struct dew_log *log;          /* NULL when the scenario names none       */
    struct dew_measured measured; /* of it, an hour of the year each         */
    const struct dew_report_fit *learned; /* of dew_run_learned               */
    struct dew_report_log laid; /* the same, with dew points               */
    double *hours; /* owned: t, RH, dew point in and out, a year each        */
    int held;      /* 1: the house is held at measured.t                     */
    char hashes[3][DEW_SHA256_TEXT]; /* scenario, weather, log; "" = none    */

    struct run__option *options;
    size_t count;
    int handed; /* 1: the second was picked alone                            */
    struct dew_case *cases; /* of options, alternatives and dry ones       */
    size_t of[RUN__MOST];   /* of the options, that each is of             */
    size_t cases_count;
    struct dew_study *study; /* NULL before the first step                   */
    struct dew_report_doubt doubts[RUN__OTHERS];
    size_t doubt_count;
    struct dew_report_ducts *ducts;
    char span[200]; /* dew_report_span                                       */

    struct dew_report_input *inputs;
    char (*values)[RUN__SHOWN]; /* of the inputs                         */
    struct dew_choice *choices;
    struct dew_safety safety;
    struct dew_prices prices;
    struct dew_question question;
    struct dew_verdict verdict;
    struct dew_caution cautions[DEW_CAUTIONS];
    const struct dew_draws *draws; /* NULL: none                             */
    struct dew_beside beside; /* the first option, where there is a log      */
    struct dew_report_file files[3];
    struct dew_report_years years; /* of a made year                         */
    struct dew_report report; /* version NULL: not judged                    */
};

/* Empty room for at most most faults of one reading; the last one is gone. */
struct dew_faults run__room(struct dew_run *r, size_t most);

/* Add a fault, or all of a list and how many it could not hold; returns the
   status. */
enum dew_status run__fault(struct dew_run *r, const struct dew_error *err);
enum dew_status run__faults(struct dew_run *r, const struct dew_faults *faults);
enum dew_status run__memory(struct dew_run *r);

/* An error to come is about this key, where the scenario or --set gave it. */
void run__about(const struct dew_run *r, const char *key,
                struct dew_error *err);

/* ---- files.c: a file in memory ---------------------------------------------- */

struct run__file {
    char name[RUN__PATH]; /* as found                                    */
    char *bytes;          /* to be freed                                 */
    size_t length;
};

/*
 * A file of that name, looked for beside the scenario, then in the working
 * directory: where it is; and read, most bytes of it at most.  Errors, where the name stands being in
 * err already: DEW_EUNKNOWN, DEW_ERANGE, DEW_EIO, DEW_EMEM.
 */
enum dew_status run__find_beside(const char *scenario, const char *name,
                                 char out[RUN__PATH], struct dew_error *err);
enum dew_status run__beside(const char *scenario, const char *name, size_t most,
                            struct run__file *out, struct dew_error *err);

/* The file that a key names, its SHA-256 into hash; a fault where it is not
   had. */
enum dew_status run__file(struct dew_run *r, const char *key, const char *name,
                          char hash[DEW_SHA256_TEXT], struct run__file *out);

/*
 * The text of a small file ("-" for standard input, gzipped or not), one byte
 * more than 1 MiB at most, so that too long is seen; to be freed.
 */
enum dew_status run__text(const char *name, char **text, size_t *length,
                          struct dew_error *err);
/* Such bytes in the place of gzipped ones. */
enum dew_status run__unpack(char **bytes, size_t *length,
                            struct dew_error *err);

/* ---- read_weather.c, read_log.c, lay_log.c: what the scenario names ---------- */

enum { RUN__SAID = 32, RUN__ANSWER = 1024 };

/* What a person says of a file's columns. */
struct run__said {
    struct dew_column_said row[RUN__SAID];
    size_t count;
};

/*
 * Take "HEADER=UNIT" (is_unit) or "HEADER=MEANING"; word is cut in place and
 * kept.  Returns what is wrong with it, or NULL.
 */
const char *run__say(struct run__said *said, char *word, int is_unit);
/* All of the text of a key ("log.units", "weather.columns"), commas between;
   room keeps it. */
enum dew_status run__say_all(struct dew_run *r, const char *key,
                             const char *text, char room[RUN__ANSWER],
                             struct run__said *said);

/*
 * Make the year whole: long gaps and missing lanes from the made year of
 * place (words, as for dew_climate_find; NULL or "": from none), light parted.
 */
enum dew_status run__fill(struct dew_year *year, const char *place,
                          unsigned long seed, struct dew_year_filled *filled,
                          struct dew_error *err);

/* What the scenario answers of its log; ask borrows from this. */
struct run__log_answers {
    struct dew_log_ask ask;
    struct run__said said;
    char units[RUN__ANSWER], columns[RUN__ANSWER];
};
enum dew_status run__log_answers(struct dew_run *r,
                                 struct run__log_answers *out);

enum dew_status run__weather(struct dew_run *r);
/* The hours of weather.file as they are, with their gaps, into r->year. */
enum dew_status run__weather_air(struct dew_run *r);
enum dew_status run__log(struct dew_run *r);

/* Hours by month, day and hour; too large for a stack. */
typedef size_t run__calendar[12][31][24];
size_t *run__place(run__calendar places, const struct dew_date *d);

/* The last step of the log: r->laid from r->measured and, where the file has
   outdoor columns, from those.  places is room to work in. */
void run__lay(struct dew_run *r, run__calendar places,
              const struct dew_text *text, const struct dew_log_ask *ask,
              const struct dew_log_report *read);

/* The fault of a log, found there, whose hours have no humidity. */
enum dew_status run__no_humidity(struct dew_run *r, const char *found,
                                 const struct dew_weather_report *file);

/* ---- read.c ------------------------------------------------------------------ */

/* Scenario, weather and log, all faults of them; a check tries the cases too. */
enum dew_status run__read(struct dew_run *r);
enum dew_status run__pick(struct dew_run *r); /* the options            */

/* ---- learn_seen.c ------------------------------------------------------------ */

/* 1: the run's weather has hours of that reading. */
int run__seen_there(const struct dew_run *r, const struct dew_seen *seen);

/* ---- run.c ------------------------------------------------------------------- */

/* Made year number of the run's place, for dew_year_close unless it is NULL, and
   what a case asks of it. */
enum dew_status run__made_year(const struct dew_run *r, int number,
                               struct dew_year **year,
                               struct dew_outdoors *outdoors,
                               struct dew_error *err);

/* A key, by its path, of the values of a base or an option. */
const struct dew_value *run__value(const struct dew_value *values,
                                   const char *key);

/* ---- judge.c ----------------------------------------------------------------- */

/* 1 where any energy has a price. */
int run__priced(const struct dew_prices *p);

/* ---- layouts.c and inputs.c -------------------------------------------------- */

enum dew_status run__layouts(struct dew_run *r);

/* Every value that is given or has a default, in the order of the table: once
   where no option changes it, else for each option; in the report's system.
   How many. */
size_t run__inputs(struct dew_run *r);

#endif
