/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The report as JSON.  Keys end in their unit and never change with the
 * units of the text; what is not known is null.
 */
#include <math.h>
#include <string.h>

#include "core/fail.h"
#include "report/caution.h"
#include "report/gear.h"
#include "report/json.h"

/* ---- one tally -------------------------------------------------------------- */

static json_t *hours(struct maker *m, const struct dew_tally *t)
{
    return OF_REALS(
        m, {"counted", t->hours}, {"too_humid", t->too_humid},
        {"too_dry", t->too_dry}, {"longest_too_humid", t->longest_too_humid},
        {"outdoor_air_could_dry", t->could_dry},
        {"outdoor_air_could_wet", t->could_wet},
        {"too_humid_with_cooling_idle", t->idle_humid},
        {"heating_falls_short", t->short_heat},
        {"fresh_air_below_required", t->fresh_short},
        {"saturated", t->saturated}, {"defrost", t->frost_hours},
        {"co2_above_1000_ppm", t->co2_high}, {"glass_wet", t->sweat[DEW_GLASS]},
        {"frame_wet", t->sweat[DEW_EDGE]}, {"corner_wet", t->sweat[DEW_CORNER]},
        {"intake_duct_wet", t->ducts[DEW_SPOT_intake]},
        {"exhaust_duct_wet", t->ducts[DEW_SPOT_exhaust]},
        {"supply_trunk_wet_inside", t->ducts[DEW_SPOT_trunk]},
        {"supply_trunk_wet_outside", t->ducts[DEW_SPOT_outside]},
        {"heater_air_too_cold", t->ducts[DEW_SPOT_heater]},
        {"glass_above_80_pct", t->surface_80[DEW_GLASS]},
        {"frame_above_80_pct", t->surface_80[DEW_EDGE]},
        {"corner_above_80_pct", t->surface_80[DEW_CORNER]});
}

static json_t *span(struct maker *m, double mid, double low, double high)
{
    return OF_REALS(m, {"mean", mid}, {"min", low}, {"max", high});
}

static json_t *rh(struct maker *m, const struct dew_tally *t)
{
    return span(m, 100 * study__mean(t->rh_sum, t->hours), 100 * t->rh_min,
                100 * t->rh_max);
}

static json_t *water(struct maker *m, const struct dew_tally *t)
{
    json_t *o = json_object();

#define X(name, words) put(m, o, #name, number(t->water.name));
    DEW_WATER_MAP(X)
#undef X
    REALS(m, o, {"coil_drained", t->coil_drained},
          {"core_drained", t->core_drained}, {"wiped", t->wiped},
          {"putback", t->water.reevaporation}); /* so called until 0.2 */
    return o;
}

static json_t *heat(struct maker *m, const struct dew_tally *t)
{
    json_t *o = json_object();

#define X(name, words) put(m, o, #name, number(t->heat.name / CORE__KWH));
    DEW_HEAT_MAP(X)
#undef X
    /* so called until 0.2 */
    put(m, o, "held", number(t->heat.prescribed / CORE__KWH));
    return o;
}

static json_t *energy(struct maker *m, const struct dew_tally *t)
{
    json_t *o = json_object();

#define X(name, words) put(m, o, #name, number(t->energy.name / CORE__KWH));
    DEW_ENERGY_MAP(X)
#undef X
    put(m, o, "total", number(study__energy(t) / CORE__KWH));
    return o;
}

static json_t *duty(struct maker *m, const struct dew_tally *t)
{
    return OF_REALS(
        m, {"cooling", t->duty.cool}, {"heating", t->duty.heat},
        {"ventilator", t->duty.vent}, {"boost", t->duty.boost},
        {"blower", t->duty.blower}, {"dehumidifier", t->duty.dehumidify},
        {"humidifier", t->duty.humidify}, {"windows", t->duty.window});
}

/* Keys of the scenario that tell of these local exhausts. */
static json_t *fan_keys(struct maker *m, unsigned fans)
{
    json_t *list = json_array();

    for (int e = 0; e < DEW_LOCALS; e++)
        if (report__fan_key(fans, e) != NULL)
            append(m, list, text(report__fan_key(fans, e)));
    return list;
}

/* The keys that a month and a year of option i have in common. */
static void put_tally(struct maker *m, json_t *o, size_t i,
                      const struct dew_tally *t)
{
    unsigned untold = dew_cautions_suction(m->r->question, i).untold;

    put(m, o, "hours", hours(m, t));
    put(m, o, "rh_pct", rh(m, t));
    put(m, o, "temperature_c",
        span(m, study__mean(t->t_sum, t->hours), t->t_min, t->t_max));
    put(m, o, "fresh_air_l_s",
        OF_REALS(m, {"delivered", 1000 * study__mean(t->fresh_sum, t->hours)},
                 {"drawn_by_exhaust_fan",
                  1000 * study__mean(t->drawn_sum, t->hours)}));
    put(m, o, "leakage_l_s", number(1000 * study__mean(t->leak_sum, t->hours)));
    put(m, o, "co2_ppm",
        OF_REALS(m, {"mean", study__mean(t->co2_sum, t->hours)},
                 {"max", t->co2_max}));
    put(m, o, "water_kg", water(m, t));
    put(m, o, "heat_kwh", heat(m, t));
    put(m, o, "energy_kwh", energy(m, t));
    put(m, o, "running_h", duty(m, t));
    REALS(m, o, {"supply_air_min_c", t->supply_t_min},
          {"pressure_min_pa", t->pressure_min},
          {"pressure_all_exhausts_min_pa",
           untold != 0 ? NAN : t->pressure_all_min});
}

/* ---- one option -------------------------------------------------------------- */

static json_t *money(struct maker *m, size_t i)
{
    const struct dew_question *q = m->r->question;
    struct dew_bill base = dew_verdict_bill(q, 0);
    struct dew_bill bill = dew_verdict_bill(q, i);
    json_t *o, *uses;

    if (q->prices == NULL)
        return json_null();
    o = json_object();
    uses = json_object();
    put(m, o, "install", estimate(m, bill.install));
    put(m, o, "yearly", estimate(m, bill.yearly));
    put(m, o, "upkeep_yearly", estimate(m, bill.upkeep));
#define X(name, words) put(m, uses, #name, number(bill.name.likely));
    DEW_ENERGY_MAP(X)
#undef X
    put(m, o, "energy_yearly_by_use", uses);
    put(m, o, "present_value", estimate(m, bill.present));
    put(m, o, "payback_years",
        i == 0 ? json_null() : estimate(m, dew_cost_payback(&base, &bill)));
    return o;
}

static json_t *map_of(struct maker *m, const struct dew_outcome *o)
{
    json_t *months = json_array();

    for (int k = 0; k < DEW_MONTHS; k++)
        append(m, months, numbers(m, o->rh_map[k], DEW_DAY_HOURS, 100));
    return months;
}

static json_t *closure(struct maker *m, const struct dew_outcome *o)
{
    return OF_REALS(m, {"water", o->water_residual}, {"heat", o->heat_residual},
                    {"water_turnover_kg", o->water_turnover},
                    {"heat_turnover_kwh", o->heat_turnover / CORE__KWH});
}

static json_t *months(struct maker *m, size_t i)
{
    const struct dew_outcome *o = m->r->question->choices[i].outcome;
    json_t *list = json_array();

    for (int k = 0; k < DEW_MONTHS; k++) {
        json_t *month = json_object();

        put(m, month, "month", json_integer(k + 1));
        put_tally(m, month, i, &o->month[k]);
        append(m, list, month);
    }
    return list;
}

static json_t *option(struct maker *m, size_t i)
{
    const struct dew_choice *c = &m->r->question->choices[i];
    json_t *o = json_object();

    put(m, o, "name", text(c->outcome->name));
    put(m, o, "delivers_required_air",
        json_boolean(dew_verdict_ventilates(m->r->question, i)));
    put(m, o, "keeps_limits",
        json_boolean(dew_verdict_keeps(m->r->question, i)));
    REALS(m, o, {"too_humid_above_pct", 100 * c->c->limits.too_humid},
          {"too_dry_below_pct", 100 * c->c->limits.too_dry});
    put_tally(m, o, i, &c->outcome->year);
    put(m, o, "pressure_not_told",
        fan_keys(m, dew_cautions_suction(m->r->question, i).untold));
    REALS(m, json_object_get(o, "rh_pct"), {"p5", 100 * c->outcome->rh_5},
          {"p50", 100 * c->outcome->rh_50}, {"p95", 100 * c->outcome->rh_95});
    REALS(m, json_object_get(o, "fresh_air_l_s"),
          {"required", 1000 * c->outcome->required},
          {"counted", 1000 * dew_verdict_fresh(m->r->question, i)});
    put(m, o, "fresh_air_by_rule", report__json_rates(m, i));
    put(m, o, "local_exhaust_by_rule", report__json_local(m, i));
    put(m, o, "surfaces", report__json_surfaces(m, c->outcome));
    put(m, o, "windows_in_winter", report__json_windows(m, c));
    put(m, o, "drying", report__json_drying(m, c));
    put(m, o, "closure", closure(m, c->outcome));
    put(m, o, "money", money(m, i));
    put(m, o, "dehumidifier", report__gear_dryer(m, i));
    put(m, o, "frost", report__gear_frost(m, i));
    put(m, o, "core_range", report__gear_core(m, i));
    put(m, o, "coil_range", report__gear_coil(m, i));
    put(m, o, "handlers", report__gear_handlers(m, i));
    put(m, o, "months", months(m, i));
    put(m, o, "rh_pct_by_month_and_hour", map_of(m, c->outcome));
    put(m, o, "rh_pct_exceeded_in_pct_of_hours",
        numbers(m, c->outcome->duration, DEW_DURATION, 100));
    put(m, o, "warm_up_turns", json_integer(c->outcome->turns));
    put(m, o, "spin_up_turns", json_integer(c->outcome->turns)); /* to 0.2 */
    return o;
}

/* ---- verdict and cautions ------------------------------------------------------ */

json_t *report__json_months(struct maker *m, unsigned mask)
{
    json_t *list = json_array();

    for (int k = 0; k < DEW_MONTHS; k++)
        if (mask >> k & 1U)
            append(m, list, json_integer(k + 1));
    return list;
}

json_t *report__json_option(const struct maker *m, int i)
{
    return text(i >= 0 ? m->r->question->choices[i].outcome->name : NULL);
}

static const char *word_surface_kind(enum dew_surface_kind surface)
{
    static const char *const word[DEW_SURFACES] = {
        [DEW_GLASS] = "glass", [DEW_EDGE] = "frame", [DEW_CORNER] = "corner"};

    return word[surface];
}

static const char *word_reading_kind(enum dew_reading_kind what)
{
    static const char *const word[] = {[DEW_READING_humidity] = "humidity",
                                       [DEW_READING_air_flow] = "air_flow",
                                       [DEW_READING_carbon_dioxide] =
                                           "carbon_dioxide"};

    return word[what];
}

static void values_none(struct maker *m, json_t *o,
                        const struct dew_numbers_none *n)
{
    (void)m, (void)o, (void)n;
}

#define N(name, unit) put(m, o, #name, number(n->name));
#define Y(name)       put(m, o, #name, json_boolean(n->name));
#define E(name, of)   put(m, o, #name, text(word_##of(n->name)));
#define X(kind, rule, group, numbers)                                          \
    static void values_##kind(struct maker *m, json_t *o,                      \
                              const struct dew_numbers_##kind *n)              \
    {                                                                          \
        numbers                                                                \
    }
#define AS(kind, rule, group, like)
DEW_FINDING_MAP(X, AS, N, Y, E)
#undef X
#undef AS

/* The numbers of a finding under their names. */
static json_t *values(struct maker *m, const struct dew_finding *f)
{
    json_t *o = json_object();

    switch (f->kind) {
#define AS(kind, rule, group, like)                                            \
    case DEW_FINDING_##kind:                                                   \
        values_##like(m, o, &f->number.kind);                                  \
        break;
#define X(kind, rule, group, numbers) AS(kind, rule, group, kind)
        DEW_FINDING_MAP(X, AS, , , )
    case DEW_FINDING_KINDS:
        break;
    }
    return o;
}
#undef X
#undef AS
#undef N
#undef Y
#undef E

static json_t *finding(struct maker *m, const struct dew_finding *f)
{
    json_t *o = json_object(), *sources = json_array();
    char sentence[DEW_SENTENCE];

    put(m, o, "kind", text(dew_verdict_key(f->kind)));
    put(m, o, "text",
        text(dew_report_sentence(m->r, f, sentence, sizeof sentence)));
    put(m, o, "option", report__json_option(m, f->option));
    put(m, o, "other_option", report__json_option(m, f->other));
    put(m, o, "months", report__json_months(m, f->months));
    put(m, o, "values", values(m, f));
    put(m, o, "houses_so",
        f->drawn > 0 ? json_integer((json_int_t)f->so) : json_null());
    for (int k = 0; k < DEW_FINDING_SOURCES && f->source[k] != NULL; k++) {
        json_t *source = json_object();

        put(m, source, "name", text(f->source[k]));
        put(m, source, "kg_per_day", number(f->source_kg[k]));
        append(m, sources, source);
    }
    put(m, o, "water", sources);
    return o;
}

/* Names of the options that will do, in their order. */
static json_t *passing(struct maker *m)
{
    size_t list[64], count = dew_verdict_passing(m->r->question, list);
    json_t *names = json_array();

    for (size_t i = 0; i < count; i++)
        append(m, names, report__json_option(m, (int)list[i]));
    return names;
}

static json_t *verdict(struct maker *m)
{
    json_t *o = json_object(), *list = json_array();

    put(m, o, "best", report__json_option(m, m->r->verdict->best));
    put(m, o, "will_do", passing(m));
    for (size_t i = 0; i < m->r->verdict->count; i++)
        append(m, list, finding(m, &m->r->verdict->list[i]));
    put(m, o, "findings", list);
    return o;
}

/* Which options it is about, and the pressure it rests on. */
static void put_whose(struct maker *m, json_t *o, const struct dew_caution *c)
{
    json_t *options = json_array();

    for (size_t i = 0; i < m->r->question->count && i < 64; i++)
        if (c->options >> i & 1)
            append(m, options, report__json_option(m, (int)i));
    put(m, o, "options", options);
    put(m, o, "pressure_pa", number(c->pressure));
    put(m, o, "pressure_option", report__json_option(m, c->worst));
    put(m, o, "pressure_not_told",
        c->has_pressure ? fan_keys(m, c->untold) : json_null());
}

json_t *report__json_caution(struct maker *m, const struct dew_caution *c)
{
    json_t *o =
        OF_TEXTS(m, {"level", dew_cautions_level(c->level)}, {"key", c->key},
                 {"text", c->text}, {"source", c->source});

    if (m->r != NULL)
        put_whose(m, o, c);
    return TEXTS(m, o, {"answer", report__open(c) ? "unknown" : "yes"},
                 {"question_key", c->question_key});
}

/* ---- inputs and the whole -------------------------------------------------------- */

static json_t *site(struct maker *m)
{
    const struct dew_site *s = m->r->site;
    const struct dew_question *q = m->r->question;
    json_t *o = json_object(), *notes = json_array();
    char span[200];

    put(m, o, "hours", json_integer((json_int_t)q->choices[0].outcome->count));
    dew_report_span(q->choices[0].outcome->count, span, sizeof span);
    put(m, o, "is_year", json_boolean(span[0] == '\0'));
    put(m, o, "span", text(span[0] == '\0' ? NULL : span));
    put(m, o, "provenance", text(m->r->weather != NULL ? m->r->weather : ""));
    for (size_t i = 0; i < m->r->weather_note_count; i++)
        append(m, notes, text(m->r->weather_notes[i]));
    put(m, o, "notes", notes);
    if (s == NULL)
        return o;
    TEXTS(m, o, {"id", s->id}, {"name", s->name});
    REALS(m, o, {"latitude_deg", s->latitude}, {"longitude_deg", s->longitude},
          {"elevation_m", s->elevation}, {"utc_offset_h", s->utc_offset});
    return o;
}

/* How far other made years of the place differ; null: none was marched. */
static json_t *years(struct maker *m)
{
    const struct dew_report_years *y = m->r->years;
    json_t *o;

    if (y == NULL || y->count == 0)
        return json_null();
    o = json_object();
    put(m, o, "count", json_integer(y->count));
    put(m, o, "today_too_humid_h",
        OF_REALS(m, {"low", y->low[0]}, {"high", y->high[0]}));
    put(m, o, "option", json_integer((json_int_t)y->option));
    put(m, o, "option_too_humid_h",
        y->option > 0 ? OF_REALS(m, {"low", y->low[1]}, {"high", y->high[1]})
                      : json_null());
    return o;
}

static json_t *inputs(struct maker *m)
{
    json_t *list = json_array();

    for (size_t i = 0; i < m->r->input_count; i++) {
        const struct dew_report_input *in = &m->r->inputs[i];

        append(m, list,
               OF_TEXTS(m, {"option", in->option[0] ? in->option : NULL},
                        {"key", in->key}, {"value", in->value},
                        {"origin", in->origin},
                        {"source", in->source[0] ? in->source : NULL}));
    }
    return list;
}

static json_t *files(struct maker *m)
{
    json_t *list = json_array();

    for (size_t i = 0; i < m->r->file_count; i++)
        append(m, list,
               OF_TEXTS(m, {"role", m->r->files[i].role},
                        {"sha256", m->r->files[i].sha256}));
    return list;
}

static json_t *judging(struct maker *m)
{
    const struct dew_judging *j = &m->r->question->judging;

    return OF_REALS(
        m, {"kept_share", j->kept_share}, {"month_share", j->month_share},
        {"fresh_share", j->fresh_share}, {"sure_share", j->sure_share});
}

static json_t *whole(struct maker *m)
{
    json_t *o = json_object(), *options = json_array();
    json_t *cautions = json_array();

    TEXTS(m, o, {"program", "dewledger"}, {"version", m->r->version},
          {"title", m->r->title != NULL ? m->r->title : ""});
    put(m, o, "files", files(m));
    put(m, o, "weather", site(m));
    for (size_t i = 0; i < m->r->caution_count; i++)
        append(m, cautions, report__json_caution(m, &m->r->cautions[i]));
    put(m, o, "cautions", cautions);
    put(m, o, "verdict", verdict(m));
    put(m, o, "rules_of_thumb", report__json_thumbs(m));
    put(m, o, "judging", judging(m));
    put(m, o, "houses", report__json_houses(m));
    for (size_t i = 0; i < m->r->question->count; i++)
        append(m, options, option(m, i));
    put(m, o, "options", options);
    put(m, o, "years", years(m));
    put(m, o, "log", report__json_log(m));
    put(m, o, "inputs", inputs(m));
    return o;
}

enum dew_status report__json_write(struct maker *m, json_t *o, size_t flags,
                                   const char *what, FILE *out,
                                   struct dew_error *err)
{
    int short_of = o == NULL || m->failed, bad = 0;

    if (!short_of) {
        bad = json_dumpf(o, out, flags) != 0 || fputc('\n', out) == EOF ||
              fflush(out) != 0;
        short_of = bad && !ferror(out); /* a dump needs some of its own */
    }
    json_decref(o);
    if (short_of)
        return core__fail(err, DEW_EMEM, "no memory for %s", what);
    if (bad)
        return core__fail(err, DEW_EIO, "%s could not be written", what);
    return DEW_OK;
}

static const size_t FLAGS = JSON_INDENT(1) | JSON_REAL_PRECISION(12);

enum dew_status dew_report_json(const struct dew_report *report, FILE *out,
                                struct dew_error *err)
{
    struct maker m = {report, 0};

    return report__json_write(&m, whole(&m), FLAGS, "the summary", out, err);
}

enum dew_status report__json_report(const struct dew_report *report,
                                    json_t *written, FILE *out,
                                    struct dew_error *err)
{
    struct maker m = {report, 0};
    json_t *o = whole(&m);

    put(&m, o, "written", written);
    return report__json_write(&m, o, FLAGS, "the summary", out, err);
}
