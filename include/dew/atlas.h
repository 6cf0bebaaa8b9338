/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What one invented tight house came to in each place of the table of climates
 * (docs/atlas.md): how many of 100 houses drawn around it each kind of option
 * kept within the limits, with the fresh air asked for.
 *
 *     struct dew_atlas a;
 *     if (dew_atlas_find(place.site.id, &a) && a.answer != DEW_ATLAS_NONE)
 *         printf("%s\n", dew_atlas_fan_name(a.fan));
 *
 * A regression of our own model, not a measurement, and of no other house.
 */
#ifndef DEW_ATLAS_H
#define DEW_ATLAS_H

#ifdef __cplusplus
extern "C" {
#endif

/* What there is besides a fan for fresh air, the least first; the words are
   those of weather/answers.csv. */
#define DEW_ATLAS_MAP(X)                                                       \
    X(VENTILATION, ventilation)                                                \
    X(DEHUMIDIFIER, dehumidifier)                                              \
    X(HUMIDIFIER, humidifier)                                                  \
    X(BOTH, both)                                                              \
    X(NONE, none)
enum dew_atlas_besides {
#define X(NAME, word) DEW_ATLAS_##NAME,
    DEW_ATLAS_MAP(X)
#undef X
        DEW_ATLAS_KINDS
};

enum dew_atlas_fan { DEW_ATLAS_EXHAUST, DEW_ATLAS_HEAT, DEW_ATLAS_ENTHALPY };

/* Which core keeps the house longer within the limits, with nothing besides:
   either, neither by much, or not told by the houses drawn. */
enum dew_atlas_core {
    DEW_ATLAS_CORE_ENTHALPY,
    DEW_ATLAS_CORE_HEAT,
    DEW_ATLAS_CORE_ALIKE,
    DEW_ATLAS_CORE_OPEN
};

/* A place.  Plain. */
struct dew_atlas {
    enum dew_atlas_besides answer;  /* the least that does in 80 of 100, or
                                       NONE                                   */
    enum dew_atlas_besides besides; /* of the option named: answer, or where
                                       none does what comes nearest           */
    enum dew_atlas_fan fan;         /* of the option named                    */
    enum dew_atlas_core core;
    double does;                  /* 0..1   houses in which that option does */
    double reach[DEW_ATLAS_NONE]; /* 0..1   the most that an option of that
                                       kind does in                           */
};

/* The place with that number; returns 0, *out untouched, where the atlas has
   none. */
int dew_atlas_find(const char *station, struct dew_atlas *out);

/* "dehumidifier"; "exhaust"; "enthalpy": the words of the file. */
const char *dew_atlas_besides_name(enum dew_atlas_besides besides);
const char *dew_atlas_fan_name(enum dew_atlas_fan fan);
const char *dew_atlas_core_name(enum dew_atlas_core core);

#ifdef __cplusplus
}
#endif
#endif
