/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words of the command air: "75degF", "rh=50%", "surface=52degF". */
#include <math.h>
#include <string.h>

#include "cli/air.h"
#include "core/fail.h"

/*
 * kJ/kg counts from dry air at 0 degC, Btu/lb from dry air at 0 degF (-160/9
 * degC), each with liquid water at 0 degC [ASH-F1]; 1 Btu/lb is 2326 J/kg.
 */
static const struct dew__enthalpy_unit enthalpies[] = {
    {"kJ/kg", 1e3, 0.0, 2},
    {"J/kg", 1.0, 0.0, 2},
    {"Btu/lb", 2326.0, -1006.0 * 160.0 / 9.0, 1},
};

enum { ENTHALPIES = sizeof enthalpies / sizeof enthalpies[0] };

const struct dew__enthalpy_unit *dew__enthalpy_find(const char *name)
{
    for (size_t i = 0; i < ENTHALPIES; i++)
        if (strcmp(enthalpies[i].name, name) == 0)
            return &enthalpies[i];
    return NULL;
}

const struct dew__enthalpy_unit *dew__enthalpy_shown(int system)
{
    return system == 1 ? &enthalpies[2] : &enthalpies[0];
}

/* clang-format off */
/* What may be typed before "=", its quantity and range in SI. */
enum name { T, RH, W, DEW, WET, H, FLOW, PRESSURE, ELEVATION, SURFACE, MOISTURE, HEAT, NAMES };

static const struct row {
    const char *name;
    enum dew_quantity quantity; /* PURE for h: see enthalpies */
    double low, high;
} rows[NAMES] = {
    [T]         = {"t",         DEW_TEMPERATURE,    -100.0,    90.0},
    [RH]        = {"rh",        DEW_PURE,              0.0,     1.0},
    [W]         = {"w",         DEW_HUMIDITY_RATIO,    0.0,     1.0},
    [DEW]       = {"dew",       DEW_TEMPERATURE,    -100.0,    90.0},
    [WET]       = {"wet",       DEW_TEMPERATURE,    -100.0,    90.0},
    [H]         = {"h",         DEW_PURE,         -101e3,   5e6},
    [FLOW]      = {"flow",      DEW_FLOW,              0.0,   100.0},
    [PRESSURE]  = {"p",         DEW_PRESSURE,         50e3,   110e3},
    [ELEVATION] = {"elevation", DEW_LENGTH,         -690.0,  5570.0}, /* 50 .. 110 kPa */
    [SURFACE]   = {"surface",   DEW_TEMPERATURE,    -100.0,    90.0},
    [MOISTURE]  = {"moisture",  DEW_PURE,              0.0,     1.0},
    [HEAT]      = {"heat",      DEW_PURE,              0.0,     1.0},
};
/* clang-format on */

static int name_of(const char *word, size_t length)
{
    for (int i = 0; i < NAMES; i++)
        if (strlen(rows[i].name) == length &&
            memcmp(rows[i].name, word, length) == 0)
            return i;
    return -1;
}

static enum dew_status refuse_name(const char *word, size_t length,
                                   struct dew_error *err)
{
    const char *names[NAMES], *near;
    char typed[32];

    for (int i = 0; i < NAMES; i++)
        names[i] = rows[i].name;
    snprintf(typed, sizeof typed, "%.*s", (int)length, word);
    near = dew__cli_nearest(typed, names, NAMES);
    return dew__fail(err, DEW_EUNKNOWN,
                     "no such name; %s%s%st, rh, w, dew, wet, h, flow, p, "
                     "elevation, surface, moisture, heat are known",
                     near ? "nearest is " : "", near ? near : "",
                     near ? "; " : "");
}

/* The name that a bare value's unit tells, or -1. */
static int name_by_unit(const char *value)
{
    static const int tell[] = {T, W, FLOW};
    size_t length = strlen(value), used;
    double x;

    used = dew_number_read(value, length, &x);
    if (used == 0)
        return -1;
    value += used + strspn(value + used, " ");
    if (strcmp(value, "%") == 0)
        return RH;
    if (dew__enthalpy_find(value) != NULL)
        return H;
    for (size_t i = 0; i < sizeof tell / sizeof tell[0]; i++)
        if (dew_unit_find(value, strlen(value), rows[tell[i]].quantity))
            return tell[i];
    return -1;
}

static enum dew_status read_enthalpy(const char *value, struct dew__typed *out,
                                     const struct dew__enthalpy_unit **unit,
                                     struct dew_error *err)
{
    double x;
    size_t used = dew_number_read(value, strlen(value), &x);

    if (used == 0)
        return dew__fail(err, DEW_ESYNTAX, "\"%s\" is no number", value);
    value += used + strspn(value + used, " ");
    *unit = dew__enthalpy_find(value);
    if (*unit == NULL)
        return dew__fail(err, DEW_EUNIT,
                         "an enthalpy needs its unit: kJ/kg, J/kg, Btu/lb");
    out->si = x * (*unit)->factor + (*unit)->offset;
    return DEW_OK;
}

/* Outside its range: said in the unit that was typed. */
static enum dew_status refuse_range(const struct row *row, double factor,
                                    double offset, const char *unit,
                                    struct dew_error *err)
{
    char low[32], high[32];

    dew_number_print((row->low - offset) / factor, 5, low, sizeof low);
    dew_number_print((row->high - offset) / factor, 5, high, sizeof high);
    if (row == &rows[RH] && unit[0] == '\0')
        return dew__fail(err, DEW_ERANGE,
                         "outside 0 .. 1: write 50%% or 0.5 for half");
    return dew__fail(err, DEW_ERANGE, "outside %s .. %s%s%s", low, high,
                     unit[0] ? " " : "", unit);
}

static enum dew_status read_value(struct dew__air_request *r, int name,
                                  const char *value, double *si,
                                  struct dew_error *err)
{
    const struct row *row = &rows[name];
    const struct dew__enthalpy_unit *h = NULL;
    struct dew__typed got = {0.0, dew_unit_shown(row->quantity, 2)};
    enum dew_status status =
        name == H ? read_enthalpy(value, &got, &h, err)
                  : dew__cli_quantity(value, row->quantity, &got, err);

    if (status != DEW_OK)
        return status;
    r->typed[h ? h->system : got.unit->system]++;
    *si = got.si;
    if (got.si >= row->low && got.si <= row->high)
        return DEW_OK;
    if (h != NULL)
        return refuse_range(row, h->factor, h->offset, h->name, err);
    return refuse_range(row, got.unit->factor, got.unit->offset, got.unit->name,
                        err);
}

static enum dew_status keep_given(struct dew__air_request *r, int name,
                                  const char *word, double si,
                                  struct dew_error *err)
{
    struct dew__air_side *side = &r->side[r->sides - 1];

    if (side->count == 2)
        return dew__fail(err, DEW_EAMBIGUOUS,
                         "a third value: two say all of a state");
    for (int i = 0; i < side->count; i++)
        if (side->given[i] == (enum dew_air_given)name)
            return dew__fail(err, DEW_EAMBIGUOUS,
                             "%s is given twice: name the other, as in dew=... "
                             "or wet=...",
                             rows[name].name);
    side->given[side->count] = (enum dew_air_given)name;
    side->value[side->count] = si;
    side->word[side->count++] = word;
    return DEW_OK;
}

static enum dew_status keep(struct dew__air_request *r, int name,
                            const char *word, double si, struct dew_error *err)
{
    switch (name) {
    case FLOW:
        r->side[r->sides - 1].flow = si;
        return DEW_OK;
    case PRESSURE:
        r->p = si;
        return DEW_OK;
    case ELEVATION:
        r->p = dew_air_std_pressure(si);
        return DEW_OK;
    case SURFACE:
        r->surface = si;
        return DEW_OK;
    case MOISTURE:
        r->moisture = si;
        return DEW_OK;
    case HEAT:
        r->heat = si;
        return DEW_OK;
    default: /* the first six are enum dew_air_given, in its order */
        return keep_given(r, name, word, si, err);
    }
}

static enum dew_status read_word(struct dew__air_request *r, const char *word,
                                 struct dew_error *err)
{
    const char *equals = strchr(word, '='), *value = equals ? equals + 1 : word;
    size_t length = equals ? (size_t)(equals - word) : 0;
    int name = equals ? name_of(word, length) : name_by_unit(word);
    enum dew_status status;
    double si;

    dew__in(err, word);
    if (name < 0 && equals != NULL)
        return refuse_name(word, length, err);
    if (name < 0)
        return dew__fail(err, DEW_ESYNTAX,
                         "write a value with its unit, as 75degF, 50%%, "
                         "9.2g/kg, 40kJ/kg or 60cfm, or name=value");
    status = read_value(r, name, value, &si, err);
    if (status != DEW_OK)
        return status;
    return keep(r, name, word, si, err);
}

static int starts_side(struct dew__air_request *r, const char *word)
{
    if (strcmp(word, "outdoors") == 0)
        r->outdoors = 1;
    else if (strcmp(word, "with") != 0)
        return 0;
    return 1;
}

static enum dew_status next_side(struct dew__air_request *r, const char *word,
                                 struct dew_error *err)
{
    dew__in(err, word);
    if (r->sides == 2)
        return dew__fail(err, DEW_ESYNTAX, "two states are all it takes");
    if (r->outdoors == r->mix)
        return dew__fail(err, DEW_ESYNTAX,
                         "\"with\" joins two streams of --mix; \"outdoors\" "
                         "stands before the outdoor state of a dew-point test");
    r->sides++;
    return DEW_OK;
}

enum dew_status dew__air_read(struct dew__air_request *r, struct dew_error *err)
{
    r->sides = 1;
    r->side[0].flow = r->side[1].flow = r->surface = NAN;
    r->heat = NAN;
    r->p = dew_air_std_pressure(0.0);
    for (size_t i = 0; i < r->count; i++) {
        enum dew_status status = starts_side(r, r->list[i])
                                     ? next_side(r, r->list[i], err)
                                     : read_word(r, r->list[i], err);

        if (status != DEW_OK)
            return status;
        err->path[0] = '\0';
    }
    return DEW_OK;
}

/* ---- states ---------------------------------------------------------------- */

/* Saturated over liquid is above saturation over ice: the rest falls out. */
static void cap(struct dew__air_request *r, struct dew__air_side *s)
{
    for (int i = 0; i < 2; i++) {
        double full = dew_air_w_sat(s->value[1 - i], r->p);

        if (s->given[i] == DEW_AIR_BY_W && s->given[1 - i] == DEW_AIR_BY_T &&
            s->value[1 - i] < DEW_AIR_TRIPLE && s->value[i] > full) {
            s->value[i] = full;
            r->capped = 1;
        }
    }
}

/* As weather services count: rh and dew over liquid below 0 degC become w. */
static enum dew_status over_liquid(struct dew__air_side *s, double p,
                                   struct dew_error *err)
{
    for (int i = 0; i < 2; i++) {
        int t_other = s->given[1 - i] == DEW_AIR_BY_T;

        if (s->given[i] == DEW_AIR_BY_DEW)
            s->value[i] = dew_air_w_dew_liquid(s->value[i], p);
        else if (s->given[i] == DEW_AIR_BY_RH && t_other)
            s->value[i] = dew_air_w_rh_liquid(s->value[1 - i], s->value[i], p);
        else if (s->given[i] == DEW_AIR_BY_RH)
            return dew__fail(err, DEW_EAMBIGUOUS,
                             "--over-liquid takes rh only beside t");
        else
            continue;
        s->given[i] = DEW_AIR_BY_W;
    }
    return DEW_OK;
}

/* t and something that air of that t cannot hold: said in the typed unit. */
static enum dew_status refuse_full(const struct dew__air_request *r,
                                   const struct dew__air_side *s, int t,
                                   struct dew_error *err)
{
    int system = r->typed[1] > r->typed[2] ? 1 : 2;
    const struct dew_unit *w = dew_unit_shown(DEW_HUMIDITY_RATIO, system);
    char most[32];

    dew_number_print(dew_air_w_sat(s->value[t], r->p) / w->factor, 4, most,
                     sizeof most);
    dew__in(err, s->word[1 - t]);
    return dew__fail(err, DEW_ESOLVE,
                     "no air at %s has this: its range goes from dry to full "
                     "(%s %s)",
                     s->word[t], most, w->name);
}

static enum dew_status state_of(struct dew__air_request *r,
                                struct dew__air_side *s, struct dew_error *err)
{
    struct dew_error found = {0};
    enum dew_status status = DEW_OK;

    if (s->count < 2)
        return dew__fail(err, DEW_EMISSING,
                         "a state takes two of t, rh, w, dew, wet, h%s",
                         s->count ? "; one is given" : "");
    if (r->over_liquid)
        status = over_liquid(s, r->p, err);
    if (status != DEW_OK)
        return status;
    if (r->over_liquid)
        cap(r, s);
    status = dew_air_solve(s->given, s->value, r->p, &s->state, &found);
    for (int i = 0; status == DEW_ESOLVE && i < 2; i++)
        if (s->given[i] == DEW_AIR_BY_T)
            return refuse_full(r, s, i, err);
    if (status != DEW_OK)
        return dew__fail(err, status, "%s and %s: %s", s->word[0], s->word[1],
                         found.text);
    return DEW_OK;
}

enum dew_status dew__air_states(struct dew__air_request *r,
                                struct dew_error *err)
{
    for (int i = 0; i < r->sides; i++) {
        enum dew_status status = state_of(r, &r->side[i], err);

        if (status != DEW_OK)
            return status;
        if (r->mix && !(r->side[i].flow > 0.0))
            return dew__fail(err, DEW_EMISSING,
                             "each stream of --mix takes a flow, as 60cfm");
    }
    if (r->mix && r->sides < 2)
        return dew__fail(err, DEW_EMISSING,
                         "--mix takes two states with \"with\" between them");
    return DEW_OK;
}
