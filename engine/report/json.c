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
#include "report/json_log.h"

/* ---- one tally -------------------------------------------------------------- */

static json_t *hours(struct maker *m, const struct dew_tally *t)
{
    json_t *o = json_object();

    put(m, o, "counted", number(t->hours));
    put(m, o, "too_humid", number(t->too_humid));
    put(m, o, "too_dry", number(t->too_dry));
    put(m, o, "longest_too_humid", number(t->longest_too_humid));
    put(m, o, "outdoor_air_could_dry", number(t->could_dry));
    put(m, o, "outdoor_air_could_wet", number(t->could_wet));
    put(m, o, "too_humid_with_cooling_idle", number(t->idle_humid));
    put(m, o, "heating_falls_short", number(t->short_heat));
    put(m, o, "fresh_air_below_required", number(t->fresh_short));
    put(m, o, "saturated", number(t->saturated));
    put(m, o, "defrost", number(t->frost_hours));
    put(m, o, "co2_above_1000_ppm", number(t->co2_high));
    put(m, o, "glass_wet", number(t->sweat[DEW_GLASS]));
    put(m, o, "frame_wet", number(t->sweat[DEW_EDGE]));
    put(m, o, "corner_wet", number(t->sweat[DEW_CORNER]));
    put(m, o, "intake_duct_wet", number(t->ducts[DEW_SPOT_intake]));
    put(m, o, "exhaust_duct_wet", number(t->ducts[DEW_SPOT_exhaust]));
    put(m, o, "supply_trunk_wet_inside", number(t->ducts[DEW_SPOT_trunk]));
    put(m, o, "supply_trunk_wet_outside", number(t->ducts[DEW_SPOT_outside]));
    put(m, o, "heater_air_too_cold", number(t->ducts[DEW_SPOT_heater]));
    put(m, o, "glass_above_80_pct", number(t->surface_80[DEW_GLASS]));
    put(m, o, "frame_above_80_pct", number(t->surface_80[DEW_EDGE]));
    put(m, o, "corner_above_80_pct", number(t->surface_80[DEW_CORNER]));
    return o;
}

static json_t *span(struct maker *m, double mid, double low, double high)
{
    json_t *o = json_object();

    put(m, o, "mean", number(mid));
    put(m, o, "min", number(low));
    put(m, o, "max", number(high));
    return o;
}

static json_t *rh(struct maker *m, const struct dew_tally *t)
{
    return span(m, 100 * dew__mean(t->rh_sum, t->hours), 100 * t->rh_min,
                100 * t->rh_max);
}

static json_t *water(struct maker *m, const struct dew_tally *t)
{
    json_t *o = json_object();

#define X(name, words) put(m, o, #name, number(t->water.name));
    DEW_WATER_MAP(X)
#undef X
    put(m, o, "coil_drained", number(t->coil_drained));
    put(m, o, "core_drained", number(t->core_drained));
    put(m, o, "wiped", number(t->wiped));
    return o;
}

static json_t *heat(struct maker *m, const struct dew_tally *t)
{
    json_t *o = json_object();

#define X(name, words) put(m, o, #name, number(t->heat.name / DEW__KWH));
    DEW_HEAT_MAP(X)
#undef X
    return o;
}

static json_t *energy(struct maker *m, const struct dew_tally *t)
{
    json_t *o = json_object();

#define X(name, words) put(m, o, #name, number(t->energy.name / DEW__KWH));
    DEW_ENERGY_MAP(X)
#undef X
    put(m, o, "total", number(dew__energy(t) / DEW__KWH));
    return o;
}

static json_t *duty(struct maker *m, const struct dew_tally *t)
{
    json_t *o = json_object();

    put(m, o, "cooling", number(t->duty.cool));
    put(m, o, "heating", number(t->duty.heat));
    put(m, o, "ventilator", number(t->duty.vent));
    put(m, o, "boost", number(t->duty.boost));
    put(m, o, "blower", number(t->duty.blower));
    put(m, o, "dehumidifier", number(t->duty.dehumidify));
    put(m, o, "humidifier", number(t->duty.humidify));
    put(m, o, "windows", number(t->duty.window));
    return o;
}

/* Keys of the scenario that tell of these local exhausts. */
static json_t *fan_keys(struct maker *m, unsigned fans)
{
    json_t *list = json_array();

    for (int e = 0; e < DEW_LOCALS; e++)
        if (dew__fan_key(fans, e) != NULL)
            append(m, list, text(dew__fan_key(fans, e)));
    return list;
}

/* The keys that a month and a year of option i have in common. */
static void put_tally(struct maker *m, json_t *o, size_t i,
                      const struct dew_tally *t)
{
    unsigned untold = dew_cautions_suction(m->r->question, i).untold;

    json_t *fresh = json_object(), *co2 = json_object();

    put(m, o, "hours", hours(m, t));
    put(m, o, "rh_pct", rh(m, t));
    put(m, o, "temperature_c",
        span(m, dew__mean(t->t_sum, t->hours), t->t_min, t->t_max));
    put(m, fresh, "delivered",
        number(1000 * dew__mean(t->fresh_sum, t->hours)));
    put(m, fresh, "drawn_by_exhaust_fan",
        number(1000 * dew__mean(t->drawn_sum, t->hours)));
    put(m, o, "fresh_air_l_s", fresh);
    put(m, o, "leakage_l_s", number(1000 * dew__mean(t->leak_sum, t->hours)));
    put(m, co2, "mean", number(dew__mean(t->co2_sum, t->hours)));
    put(m, co2, "max", number(t->co2_max));
    put(m, o, "co2_ppm", co2);
    put(m, o, "water_kg", water(m, t));
    put(m, o, "heat_kwh", heat(m, t));
    put(m, o, "energy_kwh", energy(m, t));
    put(m, o, "running_h", duty(m, t));
    put(m, o, "supply_air_min_c", number(t->supply_t_min));
    put(m, o, "pressure_min_pa", number(t->pressure_min));
    put(m, o, "pressure_all_exhausts_min_pa",
        number(untold != 0 ? NAN : t->pressure_all_min));
}

/* ---- one option -------------------------------------------------------------- */

static json_t *money(struct maker *m, size_t i)
{
    const struct dew_question *q = m->r->question;
    struct dew_bill base = dew_verdict_bill(q, 0);
    struct dew_bill bill = dew_verdict_bill(q, i);
    json_t *o = json_object(), *uses = json_object();

    if (q->prices == NULL) {
        json_decref(o);
        json_decref(uses);
        return json_null();
    }
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

    for (int k = 0; k < DEW_MONTHS; k++) {
        json_t *row = json_array();

        for (int h = 0; h < DEW_DAY_HOURS; h++)
            append(m, row, number(100 * o->rh_map[k][h]));
        append(m, months, row);
    }
    return months;
}

static json_t *duration(struct maker *m, const struct dew_outcome *o)
{
    json_t *curve = json_array();

    for (int k = 0; k < DEW_DURATION; k++)
        append(m, curve, number(100 * o->duration[k]));
    return curve;
}

static json_t *closure(struct maker *m, const struct dew_outcome *o)
{
    json_t *c = json_object();

    put(m, c, "water", number(o->water_residual));
    put(m, c, "heat", number(o->heat_residual));
    put(m, c, "water_turnover_kg", number(o->water_turnover));
    put(m, c, "heat_turnover_kwh", number(o->heat_turnover / DEW__KWH));
    return c;
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

static void put_percentiles(struct maker *m, json_t *option,
                            const struct dew_outcome *o)
{
    json_t *r = json_object_get(option, "rh_pct");

    put(m, r, "p5", number(100 * o->rh_5));
    put(m, r, "p50", number(100 * o->rh_50));
    put(m, r, "p95", number(100 * o->rh_95));
}

static json_t *option(struct maker *m, size_t i)
{
    const struct dew_choice *c = &m->r->question->choices[i];
    json_t *o = json_object(), *fresh;

    put(m, o, "name", text(c->outcome->name));
    put(m, o, "delivers_required_air",
        json_boolean(dew_verdict_ventilates(m->r->question, i)));
    put(m, o, "keeps_limits",
        json_boolean(dew_verdict_keeps(m->r->question, i)));
    put(m, o, "too_humid_above_pct", number(100 * c->c->limits.too_humid));
    put(m, o, "too_dry_below_pct", number(100 * c->c->limits.too_dry));
    put_tally(m, o, i, &c->outcome->year);
    put(m, o, "pressure_not_told",
        fan_keys(m, dew_cautions_suction(m->r->question, i).untold));
    put_percentiles(m, o, c->outcome);
    fresh = json_object_get(o, "fresh_air_l_s");
    put(m, fresh, "required", number(1000 * c->outcome->required));
    put(m, fresh, "counted",
        number(1000 * dew_verdict_fresh(m->r->question, i)));
    put(m, o, "fresh_air_by_rule", dew__json_rates(m, i));
    put(m, o, "local_exhaust_by_rule", dew__json_local(m, i));
    put(m, o, "surfaces", dew__json_surfaces(m, c->outcome));
    put(m, o, "windows_in_winter", dew__json_windows(m, c));
    put(m, o, "drying", dew__json_drying(m, c));
    put(m, o, "closure", closure(m, c->outcome));
    put(m, o, "money", money(m, i));
    put(m, o, "dehumidifier", dew__gear_dryer(m->r, i));
    put(m, o, "frost", dew__gear_frost(m->r, i));
    put(m, o, "core_range", dew__gear_core(m->r, i));
    put(m, o, "coil_range", dew__gear_coil(m->r, i));
    put(m, o, "handlers", dew__gear_handlers(m->r, i));
    put(m, o, "months", months(m, i));
    put(m, o, "rh_pct_by_month_and_hour", map_of(m, c->outcome));
    put(m, o, "rh_pct_exceeded_in_pct_of_hours", duration(m, c->outcome));
    put(m, o, "spin_up_turns", json_integer(c->outcome->turns));
    return o;
}

/* ---- verdict and cautions ------------------------------------------------------ */

static json_t *month_list(struct maker *m, unsigned mask)
{
    json_t *list = json_array();

    for (int k = 0; k < DEW_MONTHS; k++)
        if (mask >> k & 1U)
            append(m, list, json_integer(k + 1));
    return list;
}

static json_t *name_of(const struct dew_report *r, int i)
{
    return i >= 0 ? text(r->question->choices[i].outcome->name) : json_null();
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
    put(m, o, "option", name_of(m->r, f->option));
    put(m, o, "other_option", name_of(m->r, f->other));
    put(m, o, "months", month_list(m, f->months));
    put(m, o, "values", values(m, f));
    put(m, o, "near_limit_h",
        f->near_limit > 0 ? number(f->near_limit) : json_null());
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
        append(m, names, name_of(m->r, (int)list[i]));
    return names;
}

static json_t *verdict(struct maker *m)
{
    json_t *o = json_object(), *list = json_array();

    put(m, o, "best", name_of(m->r, m->r->verdict->best));
    put(m, o, "will_do", passing(m));
    for (size_t i = 0; i < m->r->verdict->count; i++)
        append(m, list, finding(m, &m->r->verdict->list[i]));
    put(m, o, "findings", list);
    return o;
}

static json_t *caution(struct maker *m, const struct dew_caution *c)
{
    json_t *o = json_object(), *options = json_array();

    put(m, o, "level", text(dew_cautions_level(c->level)));
    put(m, o, "key", text(c->key));
    put(m, o, "text", text(c->text));
    put(m, o, "source", text(c->source));
    for (size_t i = 0; i < m->r->question->count && i < 64; i++)
        if (c->options >> i & 1)
            append(m, options, name_of(m->r, (int)i));
    put(m, o, "options", options);
    put(m, o, "pressure_pa", number(c->pressure));
    put(m, o, "pressure_option", name_of(m->r, c->worst));
    put(m, o, "pressure_not_told",
        c->has_pressure ? fan_keys(m, c->untold) : json_null());
    put(m, o, "answer",
        text(dew__open(c) ? "unknown" : dew_answer_text(DEW_ANSWER_YES)));
    put(m, o, "question_key",
        c->question_key != NULL ? text(c->question_key) : json_null());
    return o;
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
    put(m, o, "span", span[0] == '\0' ? json_null() : text(span));
    put(m, o, "provenance", text(m->r->weather));
    for (size_t i = 0; i < m->r->weather_note_count; i++)
        append(m, notes, text(m->r->weather_notes[i]));
    put(m, o, "notes", notes);
    if (s == NULL)
        return o;
    put(m, o, "id", text(s->id));
    put(m, o, "name", text(s->name));
    put(m, o, "latitude_deg", number(s->latitude));
    put(m, o, "longitude_deg", number(s->longitude));
    put(m, o, "elevation_m", number(s->elevation));
    put(m, o, "utc_offset_h", number(s->utc_offset));
    return o;
}

static json_t *inputs(struct maker *m)
{
    json_t *list = json_array();

    for (size_t i = 0; i < m->r->input_count; i++) {
        const struct dew_report_input *in = &m->r->inputs[i];
        json_t *o = json_object();

        put(m, o, "option", in->option[0] ? text(in->option) : json_null());
        put(m, o, "key", text(in->key));
        put(m, o, "value", text(in->value));
        put(m, o, "origin", text(in->origin));
        put(m, o, "source", in->source[0] ? text(in->source) : json_null());
        append(m, list, o);
    }
    return list;
}

static json_t *files(struct maker *m)
{
    json_t *list = json_array();

    for (size_t i = 0; i < m->r->file_count; i++) {
        json_t *o = json_object();

        put(m, o, "role", text(m->r->files[i].role));
        put(m, o, "sha256", text(m->r->files[i].sha256));
        append(m, list, o);
    }
    return list;
}

static json_t *judging(struct maker *m)
{
    const struct dew_judging *j = &m->r->question->judging;
    json_t *o = json_object();

    put(m, o, "kept_share", number(j->kept_share));
    put(m, o, "month_share", number(j->month_share));
    put(m, o, "fresh_share", number(j->fresh_share));
    put(m, o, "close_share", number(j->close_share));
    put(m, o, "close_h", number(j->close_hours));
    return o;
}

static json_t *whole(struct maker *m)
{
    json_t *o = json_object(), *options = json_array();
    json_t *cautions = json_array();

    put(m, o, "program", text("dewledger"));
    put(m, o, "version", text(m->r->version));
    put(m, o, "title", text(m->r->title));
    put(m, o, "files", files(m));
    put(m, o, "weather", site(m));
    for (size_t i = 0; i < m->r->caution_count; i++)
        append(m, cautions, caution(m, &m->r->cautions[i]));
    put(m, o, "cautions", cautions);
    put(m, o, "verdict", verdict(m));
    put(m, o, "rules_of_thumb", dew__json_thumbs(m));
    put(m, o, "judging", judging(m));
    for (size_t i = 0; i < m->r->question->count; i++)
        append(m, options, option(m, i));
    put(m, o, "options", options);
    put(m, o, "log", dew__json_log(m->r));
    put(m, o, "inputs", inputs(m));
    return o;
}

static enum dew_status put_out(const struct maker *m, json_t *o, FILE *out,
                               struct dew_error *err)
{
    const size_t flags = JSON_INDENT(1) | JSON_REAL_PRECISION(12);
    int bad;

    if (o == NULL || m->failed) {
        json_decref(o);
        return dew__fail(err, DEW_EMEM, "no memory for the summary");
    }
    bad = json_dumpf(o, out, flags) != 0 || fputc('\n', out) == EOF ||
          fflush(out) != 0;
    json_decref(o);
    if (bad)
        return dew__fail(err, DEW_EIO, "the summary could not be written");
    return DEW_OK;
}

enum dew_status dew_report_json(const struct dew_report *report, FILE *out,
                                struct dew_error *err)
{
    struct maker m = {report, 0};

    return put_out(&m, whole(&m), out, err);
}

enum dew_status dew__json_report(const struct dew_report *report,
                                 json_t *written, FILE *out,
                                 struct dew_error *err)
{
    struct maker m = {report, 0};
    json_t *o = whole(&m);

    put(&m, o, "written", written);
    return put_out(&m, o, out, err);
}
