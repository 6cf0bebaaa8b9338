/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Layouts of ducts as JSON.  Keys end in their unit and never change; what is
 * not known is null.
 */
#include "report/ducts_json.h"

#include <math.h>

#include "core/fail.h"
#include "dew/parts.h"

static const double LITRE = 1e-3; /* m3 */

/* Append value, which is taken; one refusal is enough to give it all up. */
static void append(int *bad, json_t *array, json_t *value)
{
    *bad |= json_array_append_new(array, value) != 0;
}

static json_t *number(double x)
{
    return isfinite(x) ? json_real(x) : json_null();
}

static json_t *litres(double q)
{
    const double nothing = 1e-12; /* m3/s, what the solver leaves over */

    return number(fabs(q) < nothing ? 0 : q / LITRE);
}

static json_t *text(const char *words)
{
    char clean[512];

    return json_string(dew__clean(words, clean, sizeof clean));
}

static json_t *handlers(int *bad, const struct dew__told *t, int blower)
{
    static const char *const words[] = {"off", "low", "full"};
    json_t *a = json_array();

    for (int k = 0; k < t->layout.handler_count; k++)
        append(bad, a, json_string(words[dew_ducts_blower_digit(blower, k)]));
    return a;
}

static json_t *grilles(int *bad, const struct dew__told *t,
                       const struct dew_duct_state *s)
{
    json_t *a = json_array();

    for (int g = 0; g < t->layout.grille_count; g++)
        append(bad, a,
               json_pack("{s:o, s:o, s:o, s:o}", "room",
                         text(t->layout.grilles[g].name), "fresh_l_s",
                         litres(s->fresh_at[g]), "air_l_s",
                         litres(s->air_at[g]), "stale_l_s",
                         litres(s->stale_at[g])));
    return a;
}

static json_t *trunks(int *bad, const struct dew__told *t,
                      const struct dew_duct_state *s)
{
    json_t *a = json_array();

    for (int k = 0; k < t->layout.handler_count; k++)
        append(
            bad, a,
            json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o}",
                      "fresh_to_rooms_l_s", litres(dew__told_to_rooms(t, s, k)),
                      "fresh_out_of_return_grilles_l_s",
                      litres(s->fresh_at_return[k]),
                      "stale_from_return_trunk_l_s", litres(s->stale_return[k]),
                      "coil_air_l_s", litres(s->coil_flow[k]), "coil_fresh_l_s",
                      litres(s->coil_fresh[k]), "fresh_tap_pa",
                      number(s->tap_fresh[k]), "stale_tap_pa",
                      number(s->tap_stale[k])));
    return a;
}

static json_t *state(int *bad, const struct dew__told *t,
                     const struct dew_duct_state *s)
{
    int running = s->vent != DEW_VENT_OFF;
    json_t *o = json_pack(
        "{s:o, s:s, s:o, s:o, s:o, s:o, s:o, s:o}", "handlers",
        handlers(bad, t, s->blower), "ventilator", dew__told_vent(s->vent),
        "fresh_delivered_l_s", litres(s->fresh_delivered), "stale_drawn_l_s",
        litres(s->stale_drawn), "short_circuit_share",
        number(s->short_circuit_share), "imbalance_l_s", litres(s->imbalance),
        "backflow_l_s", litres(s->backflow), "fan_w", number(s->fan_w));
    json_t *more = json_pack(
        "{s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:b, s:o, s:o}", "blower_w",
        number(s->blower_w), "fresh_drawn_l_s", litres(s->fresh_gross),
        "past_coil_l_s", litres(s->at_coil), "unplanned_l_s",
        litres(s->unplanned), "spill_l_s", litres(s->spill), "duct_leak_in_l_s",
        litres(s->leak_in), "duct_leak_out_l_s", litres(s->leak_out),
        "lost_by_duct_leaks_share", number(s->lost_share), "within_10_pct",
        running ? s->balanced : 1, "grilles", grilles(bad, t, s),
        "air_handlers", trunks(bad, t, s));

    *bad |= json_object_update_new(o, more) != 0;
    return o;
}

static json_t *states(int *bad, const struct dew__told *t)
{
    int last = t->boost ? DEW_VENT_BOOST : DEW_VENT_ON;
    json_t *a = json_array();

    for (int v = DEW_VENT_OFF; v <= last; v++)
        for (int b = 0; b < t->blowers; b++)
            append(bad, a, state(bad, t, &t->states[v][b]));
    return a;
}

static json_t *cautions(int *bad, const struct dew__told *t)
{
    json_t *a = json_array();

    for (size_t k = 0; k < t->caution_count; k++) {
        const struct dew_caution *c = &t->cautions[k];

        append(bad, a,
               json_pack("{s:s, s:s, s:s, s:s, s:s, s:s?}", "level",
                         dew_cautions_level(c->level), "key", c->key, "text",
                         c->text, "source", c->source, "answer",
                         c->answer == DEW_ANSWER_UNKNOWN ? "unknown" : "yes",
                         "question_key", c->question_key));
    }
    return a;
}

static json_t *sentences(int *bad, const struct dew__told *t)
{
    struct dew__said said;
    json_t *a = json_array();

    dew__told_words(t, DEW_SYSTEM_SI, &said);
    for (size_t k = 0; k < said.count; k++)
        append(bad, a, json_string(said.text[k]));
    return a;
}

static json_t *commissioning(int *bad, const struct dew__told *t)
{
    struct dew__point list[DEW__POINTS_MOST];
    size_t n = dew__commissioning_points(t, list);
    json_t *a = json_array();

    for (size_t i = 0; i < n; i++) {
        const struct dew__point *p = &list[i];
        double design = p->off > 0 ? p->off : p->full;
        struct dew__word judged = dew__commissioning_judged(p);

        append(
            bad, a,
            json_pack("{s:o, s:s, s:o, s:o, s:o}", "where", text(p->name),
                      "air", p->what, "design_l_s", litres(design), "found_l_s",
                      litres(p->found), "judged",
                      judged.text[0] ? json_string(judged.text) : json_null()));
    }
    return a;
}

static json_t *metres(double x)
{
    return x > 0 ? number(x) : json_null();
}

static json_t *parts(int *bad, const struct dew__told *t)
{
    struct dew_duct_part rows[DEW_DUCT_PARTS];
    size_t n = dew_ducts_parts(&t->layout, rows, DEW_DUCT_PARTS);
    json_t *a = json_array();

    for (size_t i = 0; i < n; i++)
        append(bad, a,
               json_pack("{s:s, s:o, s:o, s:s, s:o}", "part",
                         dew_ducts_part_text(rows[i].kind), "diameter_m",
                         metres(rows[i].diameter), "amount",
                         number(rows[i].amount), "unit",
                         dew_ducts_part_unit(rows[i].kind), "hours",
                         number(rows[i].hours)));
    return a;
}

static json_t *sizes(int *bad, const struct dew__told *t)
{
    struct dew_duct_sizing rows[DEW_DUCT_SIZINGS];
    size_t n = dew_ducts_sizings(&t->layout, DEW_DUCTS_USUAL_RATE, rows,
                                 DEW_DUCT_SIZINGS);
    json_t *a = json_array();

    for (size_t i = 0; i < n; i++)
        append(bad, a,
               json_pack("{s:o, s:i, s:b, s:o, s:o, s:o, s:o, s:o, s:o, s:b}",
                         "duct", text(rows[i].name), "of", rows[i].of + 1,
                         "branch", rows[i].branch, "flow_l_s",
                         litres(rows[i].flow), "least_m", metres(rows[i].least),
                         "common_m", metres(rows[i].common), "laid_m",
                         metres(rows[i].now), "friction_pa_m",
                         number(rows[i].rate), "speed_m_s",
                         number(rows[i].speed), "too_small", rows[i].small));
    return a;
}

static const char *layout_key(enum dew_layout kind)
{
#define X(name, words) #name,
    static const char *const keys[] = {DEW_LAYOUT_MAP(X)};
#undef X

    return keys[kind];
}

static json_t *layout(int *bad, const struct dew__told *t)
{
    const struct dew_duct_layout *l = &t->layout;

    return json_pack(
        "{s:o, s:s, s:i, s:i, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}",
        "option", text(t->option.name), "layout",
        l->written != NULL ? "written" : layout_key(l->kind), "air_handlers",
        l->handler_count, "ventilators", l->vent_count, "fresh_required_l_s",
        litres(t->option.required), "trunk_resists_pa",
        l->handler_count > 0
            ? number(t->states[DEW_VENT_ON][0].trunk_resists[0])
            : json_null(),
        "cautions", cautions(bad, t), "states", states(bad, t), "commissioning",
        commissioning(bad, t), "parts", parts(bad, t), "sizes", sizes(bad, t),
        "says", sentences(bad, t));
}

static json_t *all(int *bad, const struct dew_report_ducts *d,
                   const struct dew_ducts_frame *frame)
{
    json_t *layouts = json_array(), *without = json_array();

    for (size_t i = 0; i < d->count; i++)
        append(bad, layouts, layout(bad, &d->list[i]));
    for (size_t i = 0; i < d->without_count; i++)
        append(bad, without, text(d->without[i].name));
    return json_pack("{s:o, s:s, s:s, s:o, s:o}", "title", text(frame->title),
                     "version", frame->version, "scenario_sha256",
                     frame->sha256, "layouts", layouts, "without_layout",
                     without);
}

static enum dew_status put_out(json_t *o, int bad, FILE *out,
                               struct dew_error *err)
{
    if (bad || o == NULL) {
        json_decref(o);
        return dew__fail(err, DEW_EMEM, "no memory for the JSON");
    }
    bad = json_dumpf(o, out, JSON_INDENT(2) | JSON_REAL_PRECISION(10)) != 0 ||
          fputc('\n', out) == EOF || fflush(out) != 0;
    json_decref(o);
    return bad ? dew__fail(err, DEW_EIO, "the JSON could not be written")
               : DEW_OK;
}

enum dew_status dew_report_ducts_json(const struct dew_report_ducts *ducts,
                                      const struct dew_ducts_frame *frame,
                                      FILE *out, struct dew_error *err)
{
    int bad = 0;
    json_t *o = all(&bad, ducts, frame);

    return put_out(o, bad, out, err);
}

enum dew_status dew__ducts_json(const struct dew_report_ducts *ducts,
                                const struct dew_ducts_frame *frame,
                                json_t *written, FILE *out,
                                struct dew_error *err)
{
    int bad = 0;
    json_t *o = all(&bad, ducts, frame);

    bad |= json_object_set_new(o, "written", written) != 0;
    return put_out(o, bad, out, err);
}
