/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Units: every unit the trade writes, with its exact factor to SI.
 *
 * Inside the library everything is SI (degC, Pa, kg/kg, m3/s, W, J, -); a
 * unit exists only where a person's text is read or written.
 *
 * SI value = number * factor + offset.
 */
#ifndef DEW_UNIT_H
#define DEW_UNIT_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/*
 * One row per kind of quantity: its code, the SI unit the library uses, and
 * what it is in words.  Airtightness keeps its own forms (see house.h): its
 * rows convert within one form only and the reader asks which form it was.
 */
#define DEW_QUANTITY_MAP(X)                                                    \
    X(PURE, "", "a number without unit, a share or a percentage")              \
    X(TEMPERATURE, "degC", "temperature")                                      \
    X(TEMPERATURE_STEP, "K", "temperature difference")                         \
    X(LENGTH, "m", "length")                                                   \
    X(AREA, "m2", "area")                                                      \
    X(VOLUME, "m3", "volume")                                                  \
    X(FLOW, "m3/s", "air flow")                                                \
    X(ACH50, "1/h at 50 Pa", "air changes at 50 Pa")                           \
    X(FLOW50, "m3/s at 50 Pa", "air flow at 50 Pa")                            \
    X(LEAKAGE_AREA, "m2 ELA", "effective leakage area at 4 Pa")                \
    X(PRESSURE, "Pa", "pressure")                                              \
    X(RSI, "m2K/W", "thermal resistance")                                      \
    X(USI, "W/m2K", "thermal transmittance")                                   \
    X(CONDUCTANCE, "W/K", "heat loss coefficient")                             \
    X(CAPACITY, "J/K", "heat capacity")                                        \
    X(AREA_CAPACITY, "J/m2K", "heat capacity per area")                        \
    X(POWER, "W", "power")                                                     \
    X(ENERGY, "J", "energy")                                                   \
    X(WATER_RATE, "kg/s", "water set free or removed")                         \
    X(WATER, "kg", "water")                                                    \
    X(WATER_PER_ENERGY, "kg/J", "water removed per energy")                    \
    X(HUMIDITY_RATIO, "kg/kg", "humidity ratio")                               \
    X(SPEED, "m/s", "speed")                                                   \
    X(TIME, "s", "time")                                                       \
    X(SHARE_OF_TIME, "", "share of each hour")                                 \
    X(PER_DAY, "1/s", "events per day")                                        \
    X(MONEY, "$", "money")                                                     \
    X(ENERGY_PRICE, "$/J", "price of energy")                                  \
    X(WAGE, "$/s", "price of an hour")                                         \
    X(IRRADIANCE, "W/m2", "irradiance")                                        \
    X(IRRADIATION, "J/m2 day", "solar energy per day")                         \
    X(FLOW_PER_POWER, "m3/J", "air moved per energy")                          \
    X(FLOW_PER_CAPACITY, "m3/s per W", "air flow per cooling capacity")        \
    X(BUFFER_VALUE, "kg/m2", "moisture buffer value, per unit RH")             \
    X(ANGLE, "deg", "angle")                                                   \
    X(CO2, "ppm", "carbon dioxide, by volume")                                 \
    X(MASS, "kg", "mass")                                                      \
    X(DENSITY, "kg/m3", "density")

enum dew_quantity {
#define X(code, si, words) DEW_##code,
    DEW_QUANTITY_MAP(X)
#undef X
        DEW_QUANTITY_COUNT
};

struct dew_unit {
    const char *name;           /* as typed: "cfm", "degF", "kWh"          */
    enum dew_quantity quantity; /* one name may have a row per quantity    */
    double factor, offset;      /* SI = x * factor + offset                */
    int system;                 /* 0 both, 1 inch-pound, 2 metric          */
    const char *source;         /* how the factor is defined               */
};

/* Every row, in a fixed order; *count rows.  Static, not to be freed. */
const struct dew_unit *dew_unit_all(size_t *count);

/* The row for name (length bytes) in quantity, or NULL. */
const struct dew_unit *dew_unit_find(const char *name, size_t length,
                                     enum dew_quantity quantity);

/*
 * Write the units that fit quantity as "cfm, L/s, m3/h, m3/s" into out.
 * Returns out.  size > 0; cut at a whole name, never overrun.
 */
char *dew_unit_fitting(enum dew_quantity quantity, char *out, size_t size);

/* The row to print quantity in: system 1 inch-pound, 2 metric.  Never NULL. */
const struct dew_unit *dew_unit_shown(enum dew_quantity quantity, int system);

/* The words of DEW_QUANTITY_MAP and its SI unit; never NULL. */
const char *dew_quantity_text(enum dew_quantity quantity);
const char *dew_quantity_si(enum dew_quantity quantity);

/*
 * A decimal number at the start of text (length bytes, need not end in NUL),
 * read with a point whatever the locale: sign, digits, point, exponent;
 * commas between groups of three digits are taken ("2,200").  No hex, no inf,
 * no nan.  Returns the bytes used, 0 when there is no number; *x is written
 * only when it is.
 */
size_t dew_number_read(const char *text, size_t length, double *x);

/*
 * Print x with digits significant digits (1 .. 17), the shortest form, with
 * a point whatever the locale.  NaN prints "nan".  Returns out, of size > 0.
 */
char *dew_number_print(double x, int digits, char *out, size_t size);

/* The same with a fixed count of decimals (0 .. 9), never "-0". */
char *dew_number_fixed(double x, int decimals, char *out, size_t size);

#ifdef __cplusplus
}
#endif
#endif
