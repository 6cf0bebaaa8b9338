/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Answers of the command air, as text and as JSON. */
#include <math.h>
#include <stdarg.h>

#include "cli/air.h"

struct word {
    char text[48];
};

static void say(const char *format, ...) __attribute__((format(printf, 1, 2)));

static void say(const char *format, ...)
{
    char line[400];
    va_list args;

    va_start(args, format);
    vsnprintf(line, sizeof line, format, args);
    va_end(args);
    cli__wrap(stdout, 0, line);
}

/* "75.0 degF": si in that unit. */
static struct word shown(double si, const struct dew_unit *u, int decimals)
{
    char number[32];
    struct word w;

    dew_number_fixed((si - u->offset) / u->factor, decimals, number,
                     sizeof number);
    snprintf(w.text, sizeof w.text, "%s %s", number, u->name);
    return w;
}

static struct word percent(double share)
{
    static const struct dew_unit unit = {"%", DEW_PURE, 1.0, 0.0, 0, ""};

    return shown(100.0 * share, &unit, 1);
}

/* As its row tells it. */
static struct word told(const struct cli__air_request *r, int name, double si)
{
    const struct cli__air_row *row = &cli__air_rows[name];
    struct word w;

    if (isnan(si) && row->none != NULL) {
        snprintf(w.text, sizeof w.text, "%s", row->none);
        return w;
    }
    if (row->quantity == DEW_PURE && row->units == NULL)
        return percent(si);
    return shown(si, cli__air_unit(name, r->common.units),
                 row->decimals[r->common.units == 2]);
}

static const unsigned char order[] = {
    T, RH,     RH_LIQUID, DEW,    DEW_LIQUID, WET,     W,
    H, VOLUME, DENSITY,   VAPOUR, SATURATION, PRESSURE};

static double member(const struct dew_air *a, int name)
{
    return *(const double *)((const char *)a + cli__air_rows[name].member);
}

static void print_state(const struct cli__air_request *r, const char *title,
                        const struct dew_air *a)
{
    int frost = a->dew < DEW_AIR_TRIPLE, ice = a->t < DEW_AIR_TRIPLE;

    printf("%s\n", title);
    for (size_t i = 0; i < sizeof order; i++) {
        int n = order[i];

        if ((n != RH_LIQUID || ice) && (n != DEW_LIQUID || frost))
            printf("  %-22s %s\n",
                   n == DEW && frost ? "frost point" : cli__air_rows[n].label,
                   told(r, n, member(a, n)).text);
    }
}

static json_t *json_state(const struct dew_air *a)
{
    json_t *o = json_object();

    for (size_t i = 0; i < sizeof order; i++) {
        const struct cli__air_row *row = &cli__air_rows[order[i]];
        double x = row->json_factor * member(a, order[i]);

        o = cli__set(o, row->json, cli__real(x));
    }
    return o;
}

/* ---- a surface ------------------------------------------------------------- */

/* rh beside the surface, and of the room when it begins to wet, or NaN. */
static double beside(const struct cli__air_request *r, double *wets_at)
{
    const struct dew_air *a = &r->side[0].state;

    *wets_at =
        r->surface < a->t ? dew_air_pws(r->surface) / dew_air_pws(a->t) : NAN;
    return dew_air_rh(r->surface, a->w, a->p);
}

static void print_surface(const struct cli__air_request *r)
{
    double from, rh = beside(r, &from);
    const char *wets = r->surface < DEW_AIR_TRIPLE ? "frosts over" : "sweats";
    struct word t = told(r, T, r->surface), at = percent(from);

    if (isnan(from))
        say("A surface at %s stays dry: it is not colder than the air.",
            t.text);
    else if (rh >= 1.0)
        say("A surface at %s %s: in this air it would do so from %s relative "
            "humidity up.",
            t.text, wets, at.text);
    else
        say("A surface at %s stays dry, with %s beside it; it %s once the air "
            "reaches %s.",
            t.text, percent(rh).text, wets, at.text);
    if (rh >= 0.8 && rh < 1.0) /* mould: ISO 13788's surface criterion */
        say("Above 80 %% beside a surface for weeks, mould can grow.");
}

static json_t *json_surface(const struct cli__air_request *r)
{
    double from, rh = beside(r, &from);

    return json_pack("{so so so so}", "t_degc", cli__real(r->surface), "rh_pct",
                     cli__real(100 * rh), "wets_at_room_rh_pct",
                     cli__real(100 * from), "wet", json_boolean(rh >= 1.0));
}

/* ---- the dew-point test ---------------------------------------------------- */

/* How far a sensor's error moves the dew point of a side given by rh. */
static double doubt(const struct cli__air_side *s)
{
    const double sensor = 0.03; /* trade notes: 3 to 5 points */
    const struct dew_air *a = &s->state;

    if (s->given[0] != DEW_AIR_BY_RH && s->given[1] != DEW_AIR_BY_RH)
        return 0.0;
    return dew_air_dew_liquid(dew_air_w(a->t, fmin(a->rh + sensor, 1.0), a->p),
                              a->p) -
           a->dew_liquid;
}

/* What the outdoors differs by, and what a flow and a core make of it. */
struct test {
    double gap, dew_gap, doubt; /* kg/kg, K, K                              */
    double water;    /* kg/s that flow brings in, less what a core keeps; NaN */
    double supplied; /* degC behind a core, its fans left out; NaN not asked  */
};

static struct test test_of(const struct cli__air_request *r)
{
    const struct cli__air_side *in = &r->side[0], *out = &r->side[1];
    double flow = isnan(in->flow) ? out->flow : in->flow;
    double gap = out->state.w - in->state.w;

    return (struct test){
        .gap = gap,
        .dew_gap = out->state.dew_liquid - in->state.dew_liquid,
        .doubt = doubt(in) + doubt(out),
        .water = flow * dew_air_density_run(r->p) * (1.0 - r->moisture) * gap,
        .supplied = out->state.t + r->heat * (in->state.t - out->state.t)};
}

static void print_brief(const struct cli__air_request *r, int i,
                        const char *where)
{
    const struct dew_air *a = &r->side[i].state;

    printf("%-9s %s, %s: dew point %s, %s\n", where, told(r, T, a->t).text,
           percent(r->over_liquid ? a->rh_liquid : a->rh).text,
           told(r, DEW, a->dew_liquid).text, told(r, W, a->w).text);
}

static void print_brought(const struct cli__air_request *r, double water)
{
    /* the trade counts a day's water in gallons */
    const struct dew_unit *u = r->common.units == 1
                                   ? dew_unit_find("gal/day", 7, DEW_WATER_RATE)
                                   : dew_unit_shown(DEW_WATER_RATE, 2);
    char kept[48];

    dew_number_print(100.0 * r->moisture, 4, kept, sizeof kept);
    say("That flow, with %s%s moisture kept by a core, %s %s.",
        r->moisture > 0.0 ? kept : "no", r->moisture > 0.0 ? " % of the" : "",
        water > 0.0 ? "brings in" : "takes out", shown(fabs(water), u, 1).text);
}

static void print_test(const struct cli__air_request *r)
{
    struct test x = test_of(r);
    char kept[48];

    print_brief(r, 0, "Indoors");
    print_brief(r, 1, "Outdoors");
    say("Outdoor air %s dry this house now: it holds %s %s.",
        x.gap < 0.0 ? "can" : "cannot", told(r, W, fabs(x.gap)).text,
        x.gap < 0.0 ? "less" : "more");
    if (fabs(x.dew_gap) < x.doubt)
        say("The two dew points are closer than sensors good to 3 points of "
            "humidity can tell.");
    if (!isnan(x.water))
        print_brought(r, x.water);
    dew_number_print(100.0 * r->heat, 4, kept, sizeof kept);
    if (!isnan(r->heat))
        say("A core that keeps %s %% of the heat supplies air at %s, before "
            "its fan warms it.",
            kept, shown(x.supplied, cli__air_unit(T, r->common.units), 0).text);
}

static json_t *json_test(const struct cli__air_request *r)
{
    struct test x = test_of(r);

    return json_pack("{so so so so so so}", "outdoor_air_can_dry",
                     json_boolean(x.gap < 0.0), "humidity_ratio_gap_g_kg",
                     cli__real(1e3 * x.gap), "dew_point_gap_k",
                     cli__real(x.dew_gap), "sensor_doubt_k", cli__real(x.doubt),
                     "water_brought_kg_day", cli__real(86400.0 * x.water),
                     "supply_air_degc", cli__real(x.supplied));
}

/* ---- mixing ---------------------------------------------------------------- */

/* The two streams mixed: *fog kg/s; 0 when the library refuses. */
static int mixed(const struct cli__air_request *r, struct dew_air *out,
                 double *fog)
{
    static const enum dew_air_given by[2] = {DEW_AIR_BY_T, DEW_AIR_BY_W};
    struct dew_stream s[2], m;

    for (int i = 0; i < 2; i++)
        s[i] = (struct dew_stream){.t = r->side[i].state.t,
                                   .w = r->side[i].state.w,
                                   .p = r->p,
                                   .flow = r->side[i].flow *
                                           dew_air_density_run(r->p)};
    m = dew_air_mix(&s[0], &s[1], fog);
    return dew_air_solve(by, (double[]){m.t, m.w}, r->p, out, NULL) == DEW_OK;
}

static void print_mix(const struct cli__air_request *r,
                      const struct dew_air *mix, double fog)
{
    const struct dew_unit *u = dew_unit_shown(DEW_WATER_RATE, r->common.units);

    print_brief(r, 0, "First");
    print_brief(r, 1, "Second");
    print_state(r, "Mixed", mix);
    if (fog > 0.0)
        say("The mix is fogged: %s of water does not stay in the air.",
            shown(fog, u, 1).text);
}

/* ---- all of it ------------------------------------------------------------- */

static int answer_json(const struct cli__air_request *r,
                       const struct dew_air *mix, double fog)
{
    const char *first = r->outdoors ? "indoors" : r->mix ? "first" : "state";
    json_t *root =
        cli__set(json_object(), first, json_state(&r->side[0].state));

    if (r->sides == 2)
        root = cli__set(root, r->mix ? "second" : "outdoors",
                        json_state(&r->side[1].state));
    if (r->outdoors)
        root = cli__set(root, "test", json_test(r));
    if (r->mix) {
        root = cli__set(root, "mixed", json_state(mix));
        root = cli__set(root, "fog_kg_h", cli__real(3600.0 * fog));
    }
    if (!isnan(r->surface))
        root = cli__set(root, "surface", json_surface(r));
    return cli__json(root);
}

int cli__air_print(struct cli__air_request *r)
{
    struct dew_air mix = {0};
    double fog = 0.0;

    if (r->common.units == 0)
        r->common.units = cli__air_system(r);
    if (r->mix && !mixed(r, &mix, &fog))
        return cli__fail(CLI__BAD_INPUT,
                         "the mix lies outside -100 .. 90 degC");
    if (r->capped)
        fputs("dewledger: note: full over liquid water is more than full over "
              "ice; taken as full over ice\n",
              stderr);
    if (r->common.json)
        return answer_json(r, &mix, fog);
    if (r->mix)
        print_mix(r, &mix, fog);
    else if (r->outdoors)
        print_test(r);
    else
        print_state(r, "Air", &r->side[0].state);
    if (!isnan(r->surface))
        print_surface(r);
    return CLI__DONE;
}
