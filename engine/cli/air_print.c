/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Answers of the command air, as text and as JSON. */
#include <math.h>
#include <string.h>

#include "cli/air.h"

enum { WORD = 48, LINE = 400 };

/* "75.0 degF": si in the unit that system prints quantity in. */
static const char *shown(double si, enum dew_quantity quantity, int system,
                         int decimals, char out[WORD])
{
    const struct dew_unit *u = dew_unit_shown(quantity, system);
    char number[32];

    dew_number_fixed((si - u->offset) / u->factor, decimals, number,
                     sizeof number);
    snprintf(out, WORD, "%s %s", number, u->name);
    return out;
}

static const char *degrees(double t, int system, char out[WORD])
{
    return shown(t, DEW_TEMPERATURE, system, system == 1 ? 1 : 2, out);
}

static const char *percent(double share, char out[WORD])
{
    char number[32];

    snprintf(out, WORD, "%s %%",
             dew_number_fixed(100.0 * share, 1, number, sizeof number));
    return out;
}

static const char *content(double w, int system, char out[WORD])
{
    return shown(w, DEW_HUMIDITY_RATIO, system, system == 1 ? 1 : 2, out);
}

static const char *enthalpy(double h, int system, char out[WORD])
{
    const struct dew__enthalpy_unit *u = dew__enthalpy_shown(system);
    char number[32];

    dew_number_fixed((h - u->offset) / u->factor, 2, number, sizeof number);
    snprintf(out, WORD, "%s %s", number, u->name);
    return out;
}

/* Volume per dry air has no row of its own: it is made of two. */
static const char *volume(double v, int system, char out[WORD])
{
    const struct dew_unit *m3 = dew_unit_shown(DEW_VOLUME, system);
    const struct dew_unit *kg = dew_unit_shown(DEW_MASS, system);
    char number[32];

    dew_number_fixed(v / m3->factor * kg->factor, system == 1 ? 2 : 4, number,
                     sizeof number);
    snprintf(out, WORD, "%s %s/%s", number, m3->name, kg->name);
    return out;
}

static void row(const char *name, const char *value)
{
    printf("  %-22s %s\n", name, value);
}

/* No dew point where there is no water. */
static const char *point(double td, int system, char out[WORD])
{
    return isnan(td) ? "none: dry air" : degrees(td, system, out);
}

static void print_state(const char *title, const struct dew_air *a, int system)
{
    int frost = a->dew < DEW_AIR_TRIPLE;
    char x[WORD];

    printf("%s\n", title);
    row("dry bulb", degrees(a->t, system, x));
    row("relative humidity", percent(a->rh, x));
    if (a->t < DEW_AIR_TRIPLE)
        row("  over liquid water", percent(a->rh_liquid, x));
    row(frost ? "frost point" : "dew point", point(a->dew, system, x));
    if (frost)
        row("  over liquid water", point(a->dew_liquid, system, x));
    row("wet bulb", isnan(a->wet) ? "none" : degrees(a->wet, system, x));
    row("humidity ratio", content(a->w, system, x));
    row("enthalpy", enthalpy(a->h, system, x));
    row("volume per dry air", volume(a->v, system, x));
    row("density", shown(a->density, DEW_DENSITY, system, 4, x));
    row("vapour pressure", shown(a->pv, DEW_PRESSURE, system, 1, x));
    row("degree of saturation", isnan(a->mu) ? "none" : percent(a->mu, x));
    row("total pressure", shown(a->p, DEW_PRESSURE, system, 0, x));
}

static json_t *json_state(const struct dew_air *a)
{
    return json_pack(
        "{so so so so so so so so so so so so so}", "t_degc",
        dew__cli_real(a->t), "rh_pct", dew__cli_real(100 * a->rh),
        "rh_over_liquid_pct", dew__cli_real(100 * a->rh_liquid),
        "dew_point_degc", dew__cli_real(a->dew), "dew_point_over_liquid_degc",
        dew__cli_real(a->dew_liquid), "wet_bulb_degc", dew__cli_real(a->wet),
        "humidity_ratio_g_kg", dew__cli_real(1e3 * a->w), "enthalpy_kj_kg",
        dew__cli_real(1e-3 * a->h), "volume_m3_kg", dew__cli_real(a->v),
        "density_kg_m3", dew__cli_real(a->density), "vapour_pressure_pa",
        dew__cli_real(a->pv), "saturation_pct", dew__cli_real(100 * a->mu),
        "pressure_pa", dew__cli_real(a->p));
}

/* ---- a surface ------------------------------------------------------------- */

/* rh beside a surface, and the room's rh at which it begins to wet. */
struct surface {
    double t, rh, wets_at;
};

static struct surface beside(const struct dew__air_request *r)
{
    const struct dew_air *a = &r->side[0].state;
    struct surface s = {r->surface, dew_air_rh(r->surface, a->w, a->p), NAN};

    if (r->surface < a->t)
        s.wets_at = dew_air_pws(r->surface) / dew_air_pws(a->t);
    return s;
}

static void print_surface(const struct dew__air_request *r, int system)
{
    struct surface s = beside(r);
    const char *wets = s.t < DEW_AIR_TRIPLE ? "frosts over" : "sweats";
    char t[WORD], rh[WORD], at[WORD], line[LINE];

    degrees(s.t, system, t);
    percent(s.rh, rh);
    if (isnan(s.wets_at))
        snprintf(line, sizeof line,
                 "A surface at %s stays dry: it is not colder than the air.",
                 t);
    else if (s.rh >= 1.0)
        snprintf(line, sizeof line,
                 "A surface at %s %s: in this air it would do so from %s "
                 "relative humidity up.",
                 t, wets, percent(s.wets_at, at));
    else
        snprintf(line, sizeof line,
                 "A surface at %s stays dry, with %s beside it; it %s once the "
                 "air reaches %s.",
                 t, rh, wets, percent(s.wets_at, at));
    dew__cli_wrap(stdout, 0, line);
    if (s.rh >= 0.8 && s.rh < 1.0) /* mould: ISO 13788's surface criterion */
        dew__cli_wrap(stdout, 0,
                      "Above 80 % beside a surface for weeks, mould can grow.");
}

static json_t *json_surface(const struct dew__air_request *r)
{
    struct surface s = beside(r);

    return json_pack("{so so so so}", "t_degc", dew__cli_real(s.t), "rh_pct",
                     dew__cli_real(100 * s.rh), "wets_at_room_rh_pct",
                     dew__cli_real(100 * s.wets_at), "wet",
                     json_boolean(s.rh >= 1.0));
}

/* ---- the dew-point test ---------------------------------------------------- */

/* A share that common sensors are off by (trade notes: 3 to 5 points). */
static const double sensor = 0.03;

/* How far a sensor's error moves the dew point of a side given by rh. */
static double doubt(const struct dew__air_side *s)
{
    for (int i = 0; i < 2; i++)
        if (s->given[i] == DEW_AIR_BY_RH) {
            double rh = fmin(s->state.rh + sensor, 1.0);

            return dew_air_dew_liquid(dew_air_w(s->state.t, rh, s->state.p),
                                      s->state.p) -
                   s->state.dew_liquid;
        }
    return 0.0;
}

/* kg/s that flow brings in, less what a core keeps; NaN without a flow. */
static double water_brought(const struct dew__air_request *r)
{
    double flow = isnan(r->side[0].flow) ? r->side[1].flow : r->side[0].flow;

    return flow * dew_air_density_run(r->p) * (1.0 - r->moisture) *
           (r->side[1].state.w - r->side[0].state.w);
}

static void print_brief(const struct dew__air_request *r, int i,
                        const char *where, int system)
{
    const struct dew_air *a = &r->side[i].state;
    char t[WORD], rh[WORD], td[WORD], w[WORD];

    printf("%-9s %s, %s: dew point %s, %s\n", where, degrees(a->t, system, t),
           percent(r->over_liquid ? a->rh_liquid : a->rh, rh),
           point(a->dew_liquid, system, td), content(a->w, system, w));
}

static void print_verdict(const struct dew__air_request *r, int system)
{
    const struct dew_air *in = &r->side[0].state, *out = &r->side[1].state;
    char gap[WORD], line[LINE];
    int dries = out->w < in->w;

    content(fabs(out->w - in->w), system, gap);
    snprintf(line, sizeof line,
             dries ? "Outdoor air can dry this house now: it holds %s less."
                   : "Outdoor air cannot dry this house now: it holds %s more.",
             gap);
    dew__cli_wrap(stdout, 0, line);
    if (fabs(out->dew_liquid - in->dew_liquid) <
        doubt(&r->side[0]) + doubt(&r->side[1]))
        dew__cli_wrap(stdout, 0,
                      "The two dew points are closer than sensors good to 3 "
                      "points of humidity can tell.");
}

static void print_brought(const struct dew__air_request *r, int system)
{
    double water = water_brought(r);
    char rate[WORD], kept[WORD], line[LINE];

    if (isnan(water))
        return;
    dew_number_print(100.0 * r->moisture, 4, kept, sizeof kept);
    if (system == 1) /* the trade counts a day's water in gallons */
        snprintf(rate, sizeof rate, "%s gal/day",
                 dew_number_fixed(
                     fabs(water) /
                         dew_unit_find("gal/day", 7, DEW_WATER_RATE)->factor,
                     1, line, WORD));
    else
        shown(fabs(water), DEW_WATER_RATE, system, 1, rate);
    snprintf(line, sizeof line,
             "That flow, with %s%s moisture kept by a core, %s %s.",
             r->moisture > 0.0 ? kept : "no",
             r->moisture > 0.0 ? " % of the" : "",
             water > 0.0 ? "brings in" : "takes out", rate);
    dew__cli_wrap(stdout, 0, line);
}

/* degC behind a core, its fans left out; NaN when not asked. */
static double supplied(const struct dew__air_request *r)
{
    double out = r->side[1].state.t;

    return out + r->heat * (r->side[0].state.t - out);
}

static void print_supplied(const struct dew__air_request *r, int system)
{
    char t[WORD], kept[WORD], line[LINE];

    if (isnan(r->heat))
        return;
    shown(supplied(r), DEW_TEMPERATURE, system, 0, t);
    dew_number_print(100.0 * r->heat, 4, kept, sizeof kept);
    snprintf(line, sizeof line,
             "A core that keeps %s %% of the heat supplies air at %s, before "
             "its fan warms it.",
             kept, t);
    dew__cli_wrap(stdout, 0, line);
}

static void print_test(const struct dew__air_request *r, int system)
{
    print_brief(r, 0, "Indoors", system);
    print_brief(r, 1, "Outdoors", system);
    print_verdict(r, system);
    print_brought(r, system);
    print_supplied(r, system);
}

static json_t *json_test(const struct dew__air_request *r)
{
    const struct dew_air *in = &r->side[0].state, *out = &r->side[1].state;

    return json_pack(
        "{so so so so so so}", "outdoor_air_can_dry",
        json_boolean(out->w < in->w), "humidity_ratio_gap_g_kg",
        dew__cli_real(1e3 * (out->w - in->w)), "dew_point_gap_k",
        dew__cli_real(out->dew_liquid - in->dew_liquid), "sensor_doubt_k",
        dew__cli_real(doubt(&r->side[0]) + doubt(&r->side[1])),
        "water_brought_kg_day", dew__cli_real(86400.0 * water_brought(r)),
        "supply_air_degc", dew__cli_real(supplied(r)));
}

/* ---- mixing ---------------------------------------------------------------- */

/* The two streams mixed: *fog kg/s; 0 when the library refuses. */
static int mixed(const struct dew__air_request *r, struct dew_air *out,
                 double *fog)
{
    static const enum dew_air_given by[2] = {DEW_AIR_BY_T, DEW_AIR_BY_W};
    struct dew_stream s[2], m;
    double value[2];

    for (int i = 0; i < 2; i++) {
        s[i].t = r->side[i].state.t;
        s[i].w = r->side[i].state.w;
        s[i].p = r->p;
        s[i].flow = r->side[i].flow * dew_air_density_run(r->p);
    }
    m = dew_air_mix(&s[0], &s[1], fog);
    value[0] = m.t;
    value[1] = m.w;
    return dew_air_solve(by, value, r->p, out, NULL) == DEW_OK;
}

static void print_mix(const struct dew__air_request *r,
                      const struct dew_air *mix, double fog, int system)
{
    char x[WORD], line[LINE];

    print_brief(r, 0, "First", system);
    print_brief(r, 1, "Second", system);
    print_state("Mixed", mix, system);
    if (fog > 0.0) {
        snprintf(line, sizeof line,
                 "The mix is fogged: %s of water does not stay in the air.",
                 shown(fog, DEW_WATER_RATE, system, 1, x));
        dew__cli_wrap(stdout, 0, line);
    }
}

/* ---- all of it ------------------------------------------------------------- */

static int answer_json(const struct dew__air_request *r,
                       const struct dew_air *mix, double fog)
{
    const char *first = r->outdoors ? "indoors" : r->mix ? "first" : "state";
    json_t *root = json_object();
    int bad = json_object_set_new(root, first, json_state(&r->side[0].state));

    if (r->sides == 2)
        bad |= json_object_set_new(root, r->mix ? "second" : "outdoors",
                                   json_state(&r->side[1].state));
    if (r->outdoors)
        bad |= json_object_set_new(root, "test", json_test(r));
    if (r->mix) {
        bad |= json_object_set_new(root, "mixed", json_state(mix));
        bad |=
            json_object_set_new(root, "fog_kg_h", dew__cli_real(3600.0 * fog));
    }
    if (!isnan(r->surface))
        bad |= json_object_set_new(root, "surface", json_surface(r));
    if (!bad)
        return dew__cli_json(root);
    json_decref(root);
    return dew__cli_json(NULL);
}

static int system_of(const struct dew__air_request *r)
{
    if (r->common.units != 0)
        return r->common.units;
    return r->typed[1] > r->typed[2] ? 1 : 2;
}

int dew__air_print(const struct dew__air_request *r)
{
    int system = system_of(r);
    struct dew_air mix = {0};
    double fog = 0.0;

    if (r->mix && !mixed(r, &mix, &fog))
        return dew__cli_fail(DEW__BAD_INPUT,
                             "the mix lies outside -100 .. 90 degC");
    if (r->capped)
        fputs("dewledger: note: full over liquid water is more than full over "
              "ice; taken as full over ice\n",
              stderr);
    if (r->common.json)
        return answer_json(r, &mix, fog);
    if (r->mix)
        print_mix(r, &mix, fog, system);
    else if (r->outdoors)
        print_test(r, system);
    else
        print_state("Air", &r->side[0].state, system);
    if (!isnan(r->surface))
        print_surface(r, system);
    return DEW__DONE;
}
