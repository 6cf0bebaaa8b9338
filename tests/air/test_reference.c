/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Every state of tests/air/data/psychrometrics_reference.csv (-40 .. 60 degC,
 * rh 5 .. 100 %, 60 .. 105 kPa): the same formulas by another hand, and real
 * moist air.  tests/air/make_reference.py says how the table is made.
 */
#include "support/rows.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "dew/air.h"
#include "dew/unit.h"

enum column {
    T,
    RH,
    P,
    PWS,
    PW,
    W,
    WS,
    H,
    V,
    TDP,
    TWB,
    MU,
    RHO,
    TDP_TIGHT,
    TWB_TIGHT,
    PSAT_REAL,
    F_REAL,
    WS_REAL,
    W_REAL,
    H_REAL,
    V_REAL,
    TWB_REAL,
    NEAR_0,
    COLUMNS
};
enum { MOST = 2100 };

static double table[MOST][COLUMNS];
static size_t rows;

static void read_row(const char *line, double *row)
{
    for (int i = 0; i < COLUMNS; i++) {
        size_t length = strcspn(line, ",\r\n");

        row[i] = NAN; /* an empty cell: no solution is known */
        if (length > 0)
            assert_int_equal(dew_number_read(line, length, &row[i]), length);
        line += length + (line[length] == ',');
    }
}

static int open_table(void **state)
{
    FILE *f = fopen("tests/air/data/psychrometrics_reference.csv", "r");
    char line[600];

    (void)state;
    if (f == NULL || fgets(line, sizeof line, f) == NULL)
        return -1;
    while (rows < MOST && fgets(line, sizeof line, f) != NULL)
        read_row(line, table[rows++]);
    return fclose(f);
}

/* One claim: ours for a row, the column, and how far apart they may be. */
struct claim {
    const char *source;
    double (*ours)(const double *row);
    enum column column;
    double absolute, relative;
    double (*scale)(const double *row); /* of relative; NULL the column */
    int skip_near_0;
    size_t least; /* rows that must have been compared */
};

static double w_of(const double *r)
{
    return dew_air_w(r[T], 0.01 * r[RH], r[P]);
}

static double pws_of(const double *r)
{
    return dew_air_pws(r[T]);
}

static double pw_of(const double *r)
{
    return dew_air_pv(w_of(r), r[P]);
}

static double ws_of(const double *r)
{
    return dew_air_w_sat(r[T], r[P]);
}

static double h_of(const double *r)
{
    return dew_air_h(r[T], w_of(r));
}

static double v_of(const double *r)
{
    return dew_air_v(r[T], w_of(r), r[P]);
}

static double mu_of(const double *r)
{
    return dew_air_mu(r[T], w_of(r), r[P]);
}

static double rho_of(const double *r)
{
    return dew_air_density(r[T], w_of(r), r[P]);
}

static double dew_of(const double *r)
{
    return dew_air_dew(w_of(r), r[P]);
}

static double wet_of(const double *r)
{
    return dew_air_wet(r[T], w_of(r), r[P]);
}

/* What h is relative to: it passes through 0. */
static double h_scale(const double *r)
{
    return fabs(r[H]) + 1006.0;
}

/*
 * Of h of real air: 0.6 % of the latent part (0.8 above 45 degC), and what dry air as a real gas
 * gains as its pressure falls from sea level (h is 0 there, at 0 degC): the
 * Joule-Thomson effect, 0.35 K/bar at -40 degC, 3.5 J/kg per kPa.
 */
static double real_h_scale(const double *r)
{
    double hot = r[T] > 45.0 ? 8.0 / 6.0 : 1.0;

    return hot * DEW_AIR_LATENT * r[W] + 3.5e-3 * fabs(r[P] - 101325.0) / 6e-3;
}

/* clang-format off */
static const struct claim claims[] = {
    /* the same formulas: [ASH-F1] by the library psychrolib */
    {"pws by psychrolib, 2016 states",        pws_of, PWS, 0, 1e-6, NULL, 0, 2016},
    {"pw by psychrolib, 2016 states",         pw_of,  PW,  0, 1e-6, NULL, 0, 2016},
    {"w by psychrolib, 2016 states",          w_of,   W,   0, 1e-6, NULL, 0, 2016},
    {"w saturated by psychrolib, 2016 states", ws_of, WS,  0, 1e-6, NULL, 0, 2016},
    {"h by psychrolib, 2016 states",          h_of,   H,   0, 1e-6, h_scale, 0, 2016},
    {"v by psychrolib, 2016 states",          v_of,   V,   0, 1e-6, NULL, 0, 2016},
    {"saturation by psychrolib, 2016 states", mu_of,  MU,  0, 1e-6, NULL, 0, 2016},
    {"density by psychrolib, 2016 states",    rho_of, RHO, 0, 1e-6, NULL, 0, 2016},
    {"dew point by psychrolib, 2016 states",  dew_of, TDP, 1e-3, 0, NULL, 0, 2016},
    {"wet bulb by psychrolib, 1975 states",   wet_of, TWB, 2e-3, 0, NULL, 1, 1975},
    /* the same equations solved tightly */
    {"dew point solved tightly, 2016 states", dew_of, TDP_TIGHT, 1e-4, 0, NULL, 0, 2016},
    {"wet bulb solved tightly, 1975 states",  wet_of, TWB_TIGHT, 1e-4, 0, NULL, 1, 1975},
    /* real moist air, [IAPWS-G8]: what a perfect gas is allowed to miss */
    {"w saturated of real air, within 0.8 %", ws_of,  WS_REAL, 1e-8, 8e-3, NULL, 0, 2016},
    {"w of real air, within 0.8 %",           w_of,   W_REAL,  1e-8, 8e-3, NULL, 0, 2016},
    {"h of real air, 0.05 kJ/kg + 0.6 % of its latent part", h_of, H_REAL, 50.0, 6e-3, real_h_scale, 0, 2016},
    {"v of real air, within 0.15 %",          v_of,   V_REAL,  0, 1.5e-3, NULL, 0, 2016},
    {"wet bulb of real air, within 0.03 K",   wet_of, TWB_REAL, 0.03, 0, NULL, 1, 1},
};
/* clang-format on */

static void claim_holds_for_every_state(void **state)
{
    const struct claim *c = *state;
    size_t seen = 0;

    for (size_t i = 0; i < rows; i++) {
        const double *r = table[i];
        double scale = c->scale ? c->scale(r) : fabs(r[c->column]);

        if (isnan(r[c->column]) || (c->skip_near_0 && r[NEAR_0] != 0.0))
            continue;
        seen++;
        assert_near(c->ours(r), r[c->column],
                    c->absolute + c->relative * scale);
    }
    assert_true(seen >= c->least);
}

/* The bias has a sign: a perfect gas holds less water and less heat. */
TEST(perfect_gas_stands_below_real_air)
{
    for (size_t i = 0; i < rows; i++) {
        const double *r = table[i];
        double share = 1.0 - ws_of(r) / r[WS_REAL];

        /* 1e-8 is the last digit of the table's w */
        assert_true(share > -1e-8 / r[WS_REAL]);
        if (r[T] >= -20.0 && r[T] <= 45.0)
            assert_between(1e6 * share, 2000, 6000);
    }
}

ROWS(claims, claim_holds_for_every_state);
RUN_TESTS_IN("air, reference states", open_table, NULL);
