/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words of the command air: "75degF", "rh=50%", "surface=52degF". */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "cli/air.h"
#include "core/fail.h"

/*
 * Units of no row in unit.h.  kJ/kg counts from dry air at 0 degC, Btu/lb from
 * dry air at 0 degF (-160/9 degC), each with liquid water at 0 degC [ASH-F1];
 * 1 Btu/lb is 2326 J/kg.  Volume is per dry air.
 */
/* clang-format off */
static const struct dew_unit enthalpies[] = {
    {"kJ/kg",  DEW_PURE, 1e3, 0.0, 2, "[ASH-F1]"},
    {"J/kg",   DEW_PURE, 1.0, 0.0, 2, "[ASH-F1]"},
    {"Btu/lb", DEW_PURE, 2326.0, -1006.0 * 160.0 / 9.0, 1, "[ASH-F1]"},
    {0},
};
static const struct dew_unit volumes[] = {
    {"m3/kg",  DEW_PURE, 1.0, 0.0, 2, "exact"},
    {"ft3/lb", DEW_PURE, 0.028316846592 / 0.45359237, 0.0, 1, "exact"},
    {0},
};

#define IN(member) offsetof(struct dew_air, member)
const struct cli__air_row cli__air_rows[CLI__AIR_NAMES] = {
    /*             name         quantity            units       low, high         decimals label                   none            json                    factor member */
    [T]         = {"t",         DEW_TEMPERATURE,    NULL,       -100.0,    90.0,  {1, 2}, "dry bulb",             NULL,           "t_degc",                     1, IN(t)},
    [RH]        = {"rh",        DEW_PURE,           NULL,          0.0,     1.0,  {1, 1}, "relative humidity",    NULL,           "rh_pct",                   100, IN(rh)},
    [W]         = {"w",         DEW_HUMIDITY_RATIO, NULL,          0.0,     1.0,  {1, 2}, "humidity ratio",       NULL,           "humidity_ratio_g_kg",      1e3, IN(w)},
    [DEW]       = {"dew",       DEW_TEMPERATURE,    NULL,       -100.0,    90.0,  {1, 2}, "dew point",            "none: dry air", "dew_point_degc",            1, IN(dew)},
    [WET]       = {"wet",       DEW_TEMPERATURE,    NULL,       -100.0,    90.0,  {1, 2}, "wet bulb",             "none",         "wet_bulb_degc",              1, IN(wet)},
    [H]         = {"h",         DEW_PURE,           enthalpies, -101e3,     5e6,  {2, 2}, "enthalpy",             NULL,           "enthalpy_kj_kg",          1e-3, IN(h)},
    [FLOW]      = {"flow",      DEW_FLOW,           NULL,          0.0,   100.0,  {0}, NULL, NULL, NULL, 0, 0},
    [PRESSURE]  = {"p",         DEW_PRESSURE,       NULL,         50e3,   110e3,  {0, 0}, "total pressure",       NULL,           "pressure_pa",                1, IN(p)},
    [ELEVATION] = {"elevation", DEW_LENGTH,         NULL,       -690.0,  5570.0,  {0}, NULL, NULL, NULL, 0, 0}, /* 50 .. 110 kPa */
    [SURFACE]   = {"surface",   DEW_TEMPERATURE,    NULL,       -100.0,    90.0,  {0}, NULL, NULL, NULL, 0, 0},
    [MOISTURE]  = {"moisture",  DEW_PURE,           NULL,          0.0,     1.0,  {0}, NULL, NULL, NULL, 0, 0},
    [HEAT]      = {"heat",      DEW_PURE,           NULL,          0.0,     1.0,  {0}, NULL, NULL, NULL, 0, 0},
    [RH_LIQUID] = {NULL,        DEW_PURE,           NULL,          0, 0,          {1, 1}, "  over liquid water",  NULL,           "rh_over_liquid_pct",       100, IN(rh_liquid)},
    [DEW_LIQUID] = {NULL,       DEW_TEMPERATURE,    NULL,          0, 0,          {1, 2}, "  over liquid water",  "none: dry air", "dew_point_over_liquid_degc", 1, IN(dew_liquid)},
    [VOLUME]    = {NULL,        DEW_PURE,           volumes,       0, 0,          {2, 4}, "volume per dry air",   NULL,           "volume_m3_kg",               1, IN(v)},
    [DENSITY]   = {NULL,        DEW_DENSITY,        NULL,          0, 0,          {4, 4}, "density",              NULL,           "density_kg_m3",              1, IN(density)},
    [VAPOUR]    = {NULL,        DEW_PRESSURE,       NULL,          0, 0,          {1, 1}, "vapour pressure",      NULL,           "vapour_pressure_pa",         1, IN(pv)},
    [SATURATION] = {NULL,       DEW_PURE,           NULL,          0, 0,          {1, 1}, "degree of saturation", "none",         "saturation_pct",           100, IN(mu)},
};
/* clang-format on */

const struct dew_unit *cli__air_unit(int name, int system)
{
    const struct dew_unit *u = cli__air_rows[name].units;

    if (u == NULL)
        return dew_unit_shown(cli__air_rows[name].quantity, system);
    while (u->system != system)
        u++;
    return u;
}

/* A unit that may be typed for a row, or NULL. */
static const struct dew_unit *unit_of(const struct cli__air_row *row,
                                      const char *text)
{
    const struct dew_unit *u = row->units;

    if (u == NULL)
        return dew_unit_find(text, strlen(text), row->quantity);
    while (u->name != NULL && strcmp(u->name, text) != 0)
        u++;
    return u->name != NULL ? u : NULL;
}

/* "t, rh, w": the first names. */
static char *names(int count, char *out, size_t size)
{
    size_t at = 0;

    for (int i = 0; i < count && at < size; i++)
        at += (size_t)snprintf(out + at, size - at, "%s%s", i > 0 ? ", " : "",
                               cli__air_rows[i].name);
    return out;
}

/* The row of that name, or -1 with the fault told. */
static int name_of(const char *word, size_t length, struct dew_error *err)
{
    const char *known[CLI__AIR_TYPED], *near;
    char typed[32], all[120];

    for (int i = 0; i < CLI__AIR_TYPED; i++) {
        known[i] = cli__air_rows[i].name;
        if (strlen(known[i]) == length && memcmp(known[i], word, length) == 0)
            return i;
    }
    snprintf(typed, sizeof typed, "%.*s", (int)length, word);
    near = cli__nearest(typed, known, CLI__AIR_TYPED);
    core__fail(err, DEW_EUNKNOWN, "no such name; %s%s%s%s are known",
               near ? "nearest is " : "", near ? near : "", near ? "; " : "",
               names(CLI__AIR_TYPED, all, sizeof all));
    return -1;
}

/* The unit behind a number, or NULL without a number. */
static const char *unit_behind(const char *value, double *x)
{
    size_t used = dew_number_read(value, strlen(value), x);

    return used > 0 ? value + used + strspn(value + used, " ") : NULL;
}

/* The row that a bare value's unit tells, or -1 with the fault told. */
static int name_by_unit(const char *value, struct dew_error *err)
{
    static const int tell[] = {H, T, W, FLOW};
    double x;
    const char *unit = unit_behind(value, &x);

    if (unit != NULL && strcmp(unit, "%") == 0)
        return RH;
    for (size_t i = 0; unit != NULL && i < sizeof tell / sizeof tell[0]; i++)
        if (unit_of(&cli__air_rows[tell[i]], unit) != NULL)
            return tell[i];
    core__fail(err, DEW_ESYNTAX,
               "write a value with its unit, as 75degF, 50%%, 9.2g/kg, 40kJ/kg "
               "or 60cfm, or name=value");
    return -1;
}

/* A quantity that has units of its own. */
static enum dew_status read_own(const struct cli__air_row *row,
                                const char *value, struct cli__typed *out,
                                struct dew_error *err)
{
    double x;
    const char *unit = unit_behind(value, &x);

    if (unit == NULL)
        return core__fail(err, DEW_ESYNTAX, "\"%s\" is no number", value);
    out->unit = unit_of(row, unit);
    if (out->unit == NULL)
        return core__fail(err, DEW_EUNIT,
                          "an enthalpy needs its unit: kJ/kg, J/kg, Btu/lb");
    out->si = x * out->unit->factor + out->unit->offset;
    return DEW_OK;
}

/* Outside its range: said in the unit that was typed. */
static enum dew_status refuse_range(const struct cli__air_row *row,
                                    const struct dew_unit *u,
                                    struct dew_error *err)
{
    char low[32], high[32];

    dew_number_print((row->low - u->offset) / u->factor, 5, low, sizeof low);
    dew_number_print((row->high - u->offset) / u->factor, 5, high, sizeof high);
    if (row == &cli__air_rows[RH] && u->name[0] == '\0')
        return core__fail(err, DEW_ERANGE,
                          "outside 0 .. 1: write 50%% or 0.5 for half");
    return core__fail(err, DEW_ERANGE, "outside %s .. %s%s%s", low, high,
                      u->name[0] ? " " : "", u->name);
}

static enum dew_status keep_given(struct cli__air_side *s,
                                  enum dew_air_given name, const char *word,
                                  double si, struct dew_error *err)
{
    if (s->count == 2)
        return core__fail(err, DEW_EAMBIGUOUS,
                          "a third value: two say all of a state");
    if (s->count == 1 && s->given[0] == name)
        return core__fail(err, DEW_EAMBIGUOUS,
                          "%s is given twice: name the other, as in dew=... or "
                          "wet=...",
                          cli__air_rows[name].name);
    s->given[s->count] = name;
    s->value[s->count] = si;
    s->word[s->count++] = word;
    return DEW_OK;
}

static enum dew_status keep(struct cli__air_request *r, int name,
                            const char *word, double si, struct dew_error *err)
{
    struct cli__air_side *side = &r->side[r->sides - 1];
    double *const to[CLI__AIR_TYPED] = {
        [FLOW] = &side->flow,    [PRESSURE] = &r->p,        [ELEVATION] = &r->p,
        [SURFACE] = &r->surface, [MOISTURE] = &r->moisture, [HEAT] = &r->heat};

    if (name < DEW_AIR_GIVEN_COUNT)
        return keep_given(side, (enum dew_air_given)name, word, si, err);
    *to[name] = name == ELEVATION ? dew_air_std_pressure(si) : si;
    return DEW_OK;
}

static enum dew_status read_word(struct cli__air_request *r, const char *word,
                                 struct dew_error *err)
{
    const char *equals = strchr(word, '='), *value = equals ? equals + 1 : word;
    int name = equals ? name_of(word, (size_t)(equals - word), err)
                      : name_by_unit(word, err);
    const struct cli__air_row *row = &cli__air_rows[name < 0 ? T : name];
    struct cli__typed got = {0.0, dew_unit_shown(row->quantity, 2)};
    enum dew_status status;

    if (name < 0)
        return err->status;
    status = row->units != NULL
                 ? read_own(row, value, &got, err)
                 : cli__quantity(value, row->quantity, &got, err);
    if (status != DEW_OK)
        return status;
    r->typed[got.unit->system]++;
    if (!(got.si >= row->low && got.si <= row->high))
        return refuse_range(row, got.unit, err);
    return keep(r, name, word, got.si, err);
}

static enum dew_status next_side(struct cli__air_request *r,
                                 struct dew_error *err)
{
    if (r->sides == 2)
        return core__fail(err, DEW_ESYNTAX, "two states are all it takes");
    if (r->outdoors == r->mix)
        return core__fail(
            err, DEW_ESYNTAX,
            "\"with\" joins two streams of --mix; \"outdoors\" "
            "stands before the outdoor state of a dew-point test");
    r->sides++;
    return DEW_OK;
}

enum dew_status cli__air_read(struct cli__air_request *r, struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    r->sides = 1;
    r->side[0].flow = r->side[1].flow = r->surface = r->heat = NAN;
    r->p = dew_air_std_pressure(0.0);
    for (size_t i = 0; i < r->count && status == DEW_OK; i++) {
        int outdoors = strcmp(r->list[i], "outdoors") == 0;

        r->outdoors |= outdoors;
        core__in(err, r->list[i]);
        status = outdoors || strcmp(r->list[i], "with") == 0
                     ? next_side(r, err)
                     : read_word(r, r->list[i], err);
    }
    if (status == DEW_OK)
        core__in(err, "");
    return status;
}

/* ---- states ---------------------------------------------------------------- */

/* As weather services count: rh and dew over liquid below 0 degC become w.
   Saturated over liquid is above saturation over ice: the rest falls out. */
static enum dew_status over_liquid(struct cli__air_request *r,
                                   struct cli__air_side *s,
                                   struct dew_error *err)
{
    for (int i = 0; i < 2; i++) {
        double *x = &s->value[i], other = s->value[1 - i];
        int beside_t = s->given[1 - i] == DEW_AIR_BY_T;

        if (s->given[i] == DEW_AIR_BY_RH && !beside_t)
            return core__fail(err, DEW_EAMBIGUOUS,
                              "--over-liquid takes rh only beside t");
        if (s->given[i] == DEW_AIR_BY_DEW)
            *x = dew_air_w_dew_liquid(*x, r->p);
        else if (s->given[i] == DEW_AIR_BY_RH)
            *x = dew_air_w_rh_liquid(other, *x, r->p);
        else if (s->given[i] != DEW_AIR_BY_W)
            continue;
        s->given[i] = DEW_AIR_BY_W;
        if (beside_t &&
            other<DEW_AIR_TRIPLE && * x> dew_air_w_sat(other, r->p)) {
            *x = dew_air_w_sat(other, r->p);
            r->capped = 1;
        }
    }
    return DEW_OK;
}

int cli__air_system(const struct cli__air_request *r)
{
    return r->typed[1] > r->typed[2] ? 1 : 2;
}

/* t and something that air of that t cannot hold: said in the typed unit. */
static enum dew_status refuse_full(const struct cli__air_request *r,
                                   const struct cli__air_side *s, int t,
                                   struct dew_error *err)
{
    const struct dew_unit *w = cli__air_unit(W, cli__air_system(r));
    char most[32];

    dew_number_print(dew_air_w_sat(s->value[t], r->p) / w->factor, 4, most,
                     sizeof most);
    core__in(err, s->word[1 - t]);
    return core__fail(err, DEW_ESOLVE,
                      "no air at %s has this: its range goes from dry to full "
                      "(%s %s)",
                      s->word[t], most, w->name);
}

static enum dew_status state_of(struct cli__air_request *r,
                                struct cli__air_side *s, struct dew_error *err)
{
    struct dew_error found = {0};
    enum dew_status status = DEW_OK;
    char all[60];

    if (s->count < 2)
        return core__fail(err, DEW_EMISSING, "a state takes two of %s%s",
                          names(DEW_AIR_GIVEN_COUNT, all, sizeof all),
                          s->count ? "; one is given" : "");
    if (r->over_liquid)
        status = over_liquid(r, s, err);
    if (status != DEW_OK)
        return status;
    status = dew_air_solve(s->given, s->value, r->p, &s->state, &found);
    for (int i = 0; status == DEW_ESOLVE && i < 2; i++)
        if (s->given[i] == DEW_AIR_BY_T)
            return refuse_full(r, s, i, err);
    return status == DEW_OK ? DEW_OK
                            : core__fail(err, status, "%s and %s: %s",
                                         s->word[0], s->word[1], found.text);
}

enum dew_status cli__air_states(struct cli__air_request *r,
                                struct dew_error *err)
{
    for (int i = 0; i < r->sides; i++) {
        enum dew_status status = state_of(r, &r->side[i], err);

        if (status != DEW_OK)
            return status;
        if (r->mix && !(r->side[i].flow > 0.0))
            return core__fail(err, DEW_EMISSING,
                              "each stream of --mix takes a flow, as 60cfm");
    }
    if (r->mix && r->sides < 2)
        return core__fail(err, DEW_EMISSING,
                          "--mix takes two states with \"with\" between them");
    return DEW_OK;
}
