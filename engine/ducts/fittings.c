/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables of duct walls and fittings. */
#include "dew/network.h"

#include <math.h>
#include <string.h>

#define ROWS(table) (sizeof(table) / sizeof((table)[0]))

/* clang-format off */
/* m; roughness: the table's own advice, else the middle of its range */
static const struct dew_duct_wall walls[] = {
    {"drawn tubing",          0.46e-6, 0.46e-6, 0.46e-6, "[ASH-F21] table 1"},
    {"plastic pipe",          0.046e-3, 0.009e-3, 0.046e-3, "[ASH-F21] table 1, medium smooth"},
    {"aluminium, round",      0.049e-3, 0.037e-3, 0.061e-3, "[ASH-F21] table 1, middle"},
    {"galvanized, round",     0.09e-3,  0.049e-3, 0.098e-3, "[ASH-F21] table 1, average"},
    {"galvanized, spiral",    0.12e-3,  0.061e-3, 0.12e-3,  "[ASH-F21] table 1, and table 13"},
    {"galvanized, ribbed spiral", 0.102e-3, 0.088e-3, 0.116e-3, "[ASH-F21] table 1, middle"},
    {"galvanized, rectangular", 0.09e-3, 0.082e-3, 0.15e-3, "[ASH-F21] table 1, average"},
    {"flexible",              0.9e-3,   0.09e-3,  0.9e-3,   "[ASH-F21] table 1, pulled out, not metallic"},
    {"flexible, metallic",    1.65e-3,  1.2e-3,   2.1e-3,   "[ASH-F21] table 1, middle"},
    {"lined, faced",          1.52e-3,  1.52e-3,  1.52e-3,  "[ASH-F21] table 1"},
    {"lined, spray coated",   4.57e-3,  4.57e-3,  4.57e-3,  "[ASH-F21] table 1"},
    {"concrete",              1.65e-3,  0.30e-3,  3.0e-3,   "[ASH-F21] table 1, middle"},
};

#define FOOT 0.3048 /* m, exact */
static const struct dew_duct_fitting fittings[] = {
    {"elbow 90 sharp",            1.3,  NAN, "[ETB-208]"},
    {"elbow 90 with vanes",       0.7,  NAN, "[ETB-208]"},
    {"elbow 90 tight",            0.5,  NAN, "[ETB-208], rounded, r/D below 1"},
    {"elbow 90 smooth",           0.25, NAN, "[ETB-208], rounded, r/D above 1"},
    {"elbow 90 die-stamped",      0.11, NAN, "[ASH-F21] example 8, r/D 1.5"},
    {"elbow 90 of seven gores",   0.11, NAN, "[ASH-F21] example 8, r/D 2.5"},
    {"elbow 90 of three gores",   0.34, NAN, "[ASH-F21] example 9, r/D 1.5"},
    {"elbow 45 sharp",            0.5,  NAN, "[ETB-208]"},
    {"elbow 45 tight",            0.2,  NAN, "[ETB-208], rounded, r/D below 1"},
    {"elbow 45 smooth",           0.05, NAN, "[ETB-208], rounded, r/D above 1"},
    {"take-off 45 entry",         0.64, NAN, "[ASH-F21] table 10, flow ratio 0.2, area ratio 0.25, on the branch"},
    {"take-off wye and elbow",    0.74, NAN, "[ASH-F21] table 10, likewise"},
    {"take-off conical",          0.87, NAN, "[ASH-F21] table 10, likewise"},
    {"take-off conical, tapered", 1.10, NAN, "[ASH-F21] table 10, likewise"},
    {"take-off plain tee",        1.80, NAN, "[ASH-F21] table 10, likewise"},
    {"main past a take-off",      0.15, NAN, "[ASH-F21] table 10, likewise, on the main"},
    {"room to duct",              0.35, NAN, "[ETB-208]"},
    {"duct to room",              1.0,  NAN, "[ETB-208]"},
    {"grille 0.7 free",           3.0,  NAN, "[ETB-208]"},
    {"grille 0.6 free",           4.0,  NAN, "[ETB-208]"},
    {"grille 0.5 free",           6.0,  NAN, "[ETB-208]"},
    {"grille 0.4 free",           10.0, NAN, "[ETB-208]"},
    {"grille 0.3 free",           20.0, NAN, "[ETB-208]"},
    {"grille 0.2 free",           50.0, NAN, "[ETB-208]"},
    {"elbow 90, by code",         NAN, 15.0 * FOOT, "[IRC-M1506] note c, exhaust ducts"},
    {"elbow 90 150 mm, by maker", NAN, 15.0 * FOOT, "[HOOD-SHEETS]"},
    {"elbow 45 150 mm, by maker", NAN, 9.0 * FOOT,  "[HOOD-SHEETS]"},
    {"wall cap, by maker",        NAN, 30.0 * FOOT, "[HOOD-SHEETS], with its damper, 150 mm"},
    {"roof cap, by maker",        NAN, 30.0 * FOOT, "[HOOD-SHEETS], 150 mm"},
    {"dryer elbow 90 mitred",     NAN, 5.0 * FOOT,  "[IRC-M1502], 100 mm"},
    {"dryer elbow 45 mitred",     NAN, 2.5 * FOOT,  "[IRC-M1502], 100 mm"},
    {"dryer elbow 90 smooth",     NAN, 1.75 * FOOT, "[IRC-M1502], 100 mm, radius 150 mm"},
};
/* clang-format on */

const struct dew_duct_wall *dew_ducts_wall(size_t i)
{
    return i < ROWS(walls) ? &walls[i] : NULL;
}

const struct dew_duct_fitting *dew_ducts_fitting(size_t i)
{
    return i < ROWS(fittings) ? &fittings[i] : NULL;
}

const struct dew_duct_wall *dew_ducts_wall_named(const char *name)
{
    for (size_t i = 0; i < ROWS(walls); i++)
        if (strcmp(walls[i].name, name) == 0)
            return &walls[i];
    return NULL;
}

const struct dew_duct_fitting *dew_ducts_fitting_named(const char *name)
{
    for (size_t i = 0; i < ROWS(fittings); i++)
        if (strcmp(fittings[i].name, name) == 0)
            return &fittings[i];
    return NULL;
}
