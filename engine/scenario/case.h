/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From values to a case.  Private to engine/scenario/. */
#ifndef DEW_SCENARIO_CASE_H
#define DEW_SCENARIO_CASE_H

#include "dew/core.h"
#include "dew/library.h"
#include "dew/plant.h"
#include "dew/scenario.h"
#include "ducts/seen.h"
#include "scenario/keys.h"

/* What every part works on. */
struct scenario__making {
    const struct dew_value
        *v; /* SCENARIO__KEYS                               */
    const struct dew_outdoors *o;
    struct dew_case *c;
    struct dew_error *err;
    enum dew_reading reading; /* of the core's ratings                      */
    int coil;                 /* -1 dry, 0 likely, 1 wet between runs       */
    int other_handlers;       /* 1: even split for lead and lag, and back   */
    int as_designed;          /* 1: ducts without what was measured         */
    const struct dew_duct_written *written; /* of ducts.runs, or NULL       */
    struct ducts__seen *seen;               /* the scenario's, or NULL      */
};

#define SI(v, key)    ((v)[KEY_##key].amount.si)
#define GIVEN(v, key) ((v)[KEY_##key].given)
#define WORD(v, key)  ((v)[KEY_##key].choice)
/* The text of a key, or "". */
#define TEXT(v, key) (GIVEN(v, key) ? (v)[KEY_##key].text : "")
/* The figure of a key, or another where it was not given, as it is moved. */
#define SI_OR(v, key, other) scenario__or(&(v)[KEY_##key], (other))

/* A cell of row i of a key with rows. */
#define CELL(v, key, i, table, column)                                         \
    (&(v)[KEY_##key].items[(i)*SCENARIO__##table##_COLUMNS + table##_##column])

#define RUN(v, i, column)    CELL(v, ducts_runs, i, RUN, column)
#define GRILLE(v, i, column) CELL(v, ducts_grilles, i, GRILLE, column)
#define LINE(v, i, column)   CELL(v, ducts_lines, i, LINE, column)
#define POINT(v, i, column)  CELL(v, ducts_points, i, POINT, column)
#define FOUND(v, i, column)  CELL(v, ducts_found, i, FOUND, column)

/* A figure that is worked out, as a change moves it. */
static inline double scenario__moved(const struct dew_value *v, double other)
{
    return other * (1 + v->moved.more) + v->moved.step;
}

static inline double scenario__or(const struct dew_value *v, double other)
{
    return v->given ? v->amount.si : scenario__moved(v, other);
}

/* A figure of a table, as far towards its ends as a change moves it. */
static inline double scenario__within(const struct dew_value *v, double low,
                                      double likely, double high)
{
    double by = v->moved.within;

    return likely + by * (by < 0 ? likely - low : high - likely);
}

/* The figure of a cell, or another where it was not given. */
static inline double scenario__cell_or(const struct dew_value *cell,
                                       double other)
{
    return cell->given ? cell->amount.si : other;
}

enum dew_status scenario__make_house(struct scenario__making *m);
enum dew_status scenario__make_people(struct scenario__making *m);
enum dew_status scenario__make_plant(struct scenario__making *m);
enum dew_status scenario__make_paths(struct scenario__making *m);
/* The paths of the layout's network in place of those, where one is written;
   both parts above come first. */
enum dew_status scenario__make_ducts(struct scenario__making *m);

/* The layout that the keys describe, filled; its names are the values'. */
enum dew_status scenario__ducts_layout(const struct scenario__making *m,
                                       struct dew_duct_layout *out);
/* Faults of the ducts are told of the key they come from. */
enum dew_status scenario__ducts_blame(const struct scenario__making *m,
                                      enum dew_status status,
                                      const struct dew_error *inside);
/* Roughness of a word of the columns named wall, m. */
double scenario__wall(int word);

/*
 * The network that ducts.points and ducts.runs write out, in arena; a point
 * that is not there is one past the last.  0: out of memory.
 */
struct scenario__arena;
int scenario__written_make(struct scenario__arena *arena,
                           const struct dew_value *v,
                           const struct dew_duct_written **out);
/* Its rooms as grilles of a layout, and whether it has dampers; returns how
   many rooms, of which the layout holds DEW_DUCT_GRILLES. */
int scenario__written_rooms(const struct dew_value *v,
                            struct dew_duct_layout *l);
/* What run i is built as, and row of a point of that name or the count. */
enum dew_duct_kind scenario__run_kind(const struct dew_value *v, int i);
size_t scenario__point_row(const struct dew_value *v, const char *name);

/* 1 where a ventilator has two fans; 1 where its layout is also computed. */
int scenario__two_sided(const struct dew_value *v);
int scenario__ducts_said(const struct dew_value *v);
/* 1 where air handlers have leaks, or trunks outside the envelope. */
int scenario__ducts_outside(const struct dew_value *v);

/* Areas of the envelope, m2, and its way round, m; a square plan. */
struct scenario__shell {
    double walls, roof, ground, perimeter;
    double rim; /* m2   of a basement's walls, above the ground            */
};
struct scenario__shell scenario__shell_of(const struct dew_value *v);
/* m2 of windows on a side that was not told, and of surface that buffers; W */
double scenario__window_side(const struct dew_value *v);
double scenario__buffering_area(const struct dew_value *v);
double scenario__heating_capacity(const struct dew_value *v);
/* m3 of all and of the basement alone, 0 = none; m2 of windows on all sides. */
double scenario__volume(const struct dew_value *v);
double scenario__basement_volume(const struct dew_value *v);
double scenario__windows(const struct dew_value *v);
double scenario__people_count(const struct dew_value *v);
/* Showers and baths, and meals, a day. */
double scenario__showers(const struct dew_value *v);
double scenario__meals(const struct dew_value *v);
/* kg still in the fabric when the year begins. */
double scenario__construction_water(const struct dew_value *v);
/* m3/s asked by the rule or the key; 0 = none. */
double scenario__required(const struct dew_value *v);
/* Of the ventilator as rated, m3/s. */
double scenario__vent_flow(const struct dew_value *v);
int scenario__handlers(const struct dew_value *v);
/* 1 where the core passes heat. */
int scenario__recovers(const struct dew_value *v);

double scenario__cross_leakage(const struct dew_value *v);
enum dew_status scenario__core_of(const struct scenario__making *m,
                                  struct dew_core *core);
/* What a unit does in place of its running state while it defrosts. */
struct dew_path scenario__path_defrosting(enum dew_frost strategy,
                                          struct dew_path on);

/* 1 where a person wrote the key, not a default. */
#define SAID(v, key)                                                           \
    ((v)[KEY_##key].given && (v)[KEY_##key].origin.by != DEW_BY_DEFAULT)

/* The library's rows, or NULL where no typical one is asked for. */
const struct dew_typical_core *scenario__typical_core(
    const struct dew_value *v);
const struct dew_typical_cooler *scenario__typical_cooler(
    const struct dew_value *v);
const struct dew_typical_dryer *scenario__typical_dryer(
    const struct dew_value *v);

/* 24 figures of a list, or one figure for all hours. */
void scenario__fill_day(const struct dew_value *list, double otherwise,
                        double out[24]);

#endif
