/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Layouts of ducts as JSON.  Keys end in their unit and never change; what is
 * not known is null.
 */
#include "report/ducts_json.h"

#include "dew/parts.h"
#include "report/json.h"

/* l/s of m3/s. */
static double litres(double q)
{
    const double nothing = 1e-12; /* m3/s, what the solver leaves over */

    return fabs(q) < nothing ? 0 : q / 1e-3;
}

static json_t *handlers(struct maker *m, const struct report__told *t,
                        int blower)
{
    static const char *const names[] = {"off", "low", "full"};
    json_t *a = json_array();

    for (int k = 0; k < t->layout.handler_count; k++)
        append(m, a, text(names[dew_ducts_blower_digit(blower, k)]));
    return a;
}

static json_t *grilles(struct maker *m, const struct report__told *t,
                       const struct dew_duct_state *s)
{
    json_t *a = json_array();

    for (int g = 0; g < t->layout.grille_count; g++)
        append(m, a,
               REALS(m, OF_TEXTS(m, {"room", t->layout.grilles[g].name}),
                     {"fresh_l_s", litres(s->fresh_at[g])},
                     {"air_l_s", litres(s->air_at[g])},
                     {"stale_l_s", litres(s->stale_at[g])}));
    return a;
}

static json_t *trunks(struct maker *m, const struct report__told *t,
                      const struct dew_duct_state *s)
{
    json_t *a = json_array();

    for (int k = 0; k < t->layout.handler_count; k++)
        append(
            m, a,
            OF_REALS(
                m,
                {"fresh_to_rooms_l_s", litres(report__told_to_rooms(t, s, k))},
                {"fresh_out_of_return_grilles_l_s",
                 litres(s->fresh_at_return[k])},
                {"stale_from_return_trunk_l_s", litres(s->stale_return[k])},
                {"coil_air_l_s", litres(s->coil_flow[k])},
                {"coil_fresh_l_s", litres(s->coil_fresh[k])},
                {"fresh_tap_pa", s->tap_fresh[k]},
                {"stale_tap_pa", s->tap_stale[k]}));
    return a;
}

static json_t *state(struct maker *m, const struct report__told *t,
                     const struct dew_duct_state *s)
{
    json_t *o = json_object();

    put(m, o, "handlers", handlers(m, t, s->blower));
    TEXTS(m, o, {"ventilator", report__told_vent(s->vent)});
    REALS(m, o, {"fresh_delivered_l_s", litres(s->fresh_delivered)},
          {"stale_drawn_l_s", litres(s->stale_drawn)},
          {"short_circuit_share", s->short_circuit_share},
          {"imbalance_l_s", litres(s->imbalance)},
          {"backflow_l_s", litres(s->backflow)}, {"fan_w", s->fan_w},
          {"blower_w", s->blower_w},
          {"fresh_drawn_l_s", litres(s->fresh_gross)},
          {"past_coil_l_s", litres(s->at_coil)},
          {"unplanned_l_s", litres(s->unplanned)},
          {"spill_l_s", litres(s->spill)},
          {"duct_leak_in_l_s", litres(s->leak_in)},
          {"duct_leak_out_l_s", litres(s->leak_out)},
          {"lost_by_duct_leaks_share", s->lost_share});
    put(m, o, "within_10_pct",
        json_boolean(s->vent == DEW_VENT_OFF || s->balanced));
    put(m, o, "grilles", grilles(m, t, s));
    put(m, o, "air_handlers", trunks(m, t, s));
    return o;
}

static json_t *states(struct maker *m, const struct report__told *t)
{
    int last = t->boost ? DEW_VENT_BOOST : DEW_VENT_ON;
    json_t *a = json_array();

    for (int v = DEW_VENT_OFF; v <= last; v++)
        for (int b = 0; b < t->blowers; b++)
            append(m, a, state(m, t, &t->states[v][b]));
    return a;
}

static json_t *cautions(struct maker *m, const struct report__told *t)
{
    json_t *a = json_array();

    for (size_t k = 0; k < t->caution_count; k++)
        append(m, a, report__json_caution(m, &t->cautions[k]));
    return a;
}

static json_t *sentences(struct maker *m, const struct report__told *t)
{
    struct report__said said;
    json_t *a = json_array();

    report__told_words(t, DEW_SYSTEM_SI, &said);
    for (size_t k = 0; k < said.count; k++)
        append(m, a, text(said.text[k]));
    return a;
}

static json_t *commissioning(struct maker *m, const struct report__told *t)
{
    struct report__point list[REPORT__POINTS_MOST];
    size_t n = report__commissioning_points(t, list);
    json_t *a = json_array();

    for (size_t i = 0; i < n; i++) {
        const struct report__point *p = &list[i];
        struct report__word judged = report__commissioning_judged(p);
        json_t *o = OF_TEXTS(m, {"where", p->name}, {"air", p->what});

        REALS(m, o, {"design_l_s", litres(p->off > 0 ? p->off : p->full)},
              {"found_l_s", litres(p->found)});
        append(m, a,
               TEXTS(m, o, {"judged", judged.text[0] ? judged.text : NULL}));
    }
    return a;
}

static double metres(double x)
{
    return x > 0 ? x : NAN;
}

static json_t *parts(struct maker *m, const struct report__told *t)
{
    struct dew_duct_part rows[DEW_DUCT_PARTS];
    size_t n = dew_ducts_parts(&t->layout, rows, DEW_DUCT_PARTS);
    json_t *a = json_array();

    for (size_t i = 0; i < n; i++) {
        json_t *o = OF_TEXTS(m, {"part", dew_ducts_part_text(rows[i].kind)});

        REALS(m, o, {"diameter_m", metres(rows[i].diameter)},
              {"amount", rows[i].amount});
        TEXTS(m, o, {"unit", dew_ducts_part_unit(rows[i].kind)});
        append(m, a, REALS(m, o, {"hours", rows[i].hours}));
    }
    return a;
}

static json_t *sizes(struct maker *m, const struct report__told *t)
{
    struct dew_duct_sizing rows[DEW_DUCT_SIZINGS];
    size_t n = dew_ducts_sizings(&t->layout, DEW_DUCTS_USUAL_RATE, rows,
                                 DEW_DUCT_SIZINGS);
    json_t *a = json_array();

    for (size_t i = 0; i < n; i++) {
        json_t *o = OF_TEXTS(m, {"duct", rows[i].name});

        put(m, o, "of", json_integer(rows[i].of + 1));
        put(m, o, "branch", json_boolean(rows[i].branch));
        REALS(m, o, {"flow_l_s", litres(rows[i].flow)},
              {"least_m", metres(rows[i].least)},
              {"common_m", metres(rows[i].common)},
              {"laid_m", metres(rows[i].now)}, {"friction_pa_m", rows[i].rate},
              {"speed_m_s", rows[i].speed});
        put(m, o, "too_small", json_boolean(rows[i].small));
        append(m, a, o);
    }
    return a;
}

static const char *layout_key(enum dew_layout kind)
{
#define X(name, words) #name,
    static const char *const keys[] = {DEW_LAYOUT_MAP(X)};
#undef X

    return keys[kind];
}

static json_t *layout(struct maker *m, const struct report__told *t)
{
    const struct dew_duct_layout *l = &t->layout;
    json_t *o = OF_TEXTS(
        m, {"option", t->option.name},
        {"layout", l->written != NULL ? "written" : layout_key(l->kind)});

    put(m, o, "air_handlers", json_integer(l->handler_count));
    put(m, o, "ventilators", json_integer(l->vent_count));
    REALS(m, o, {"fresh_required_l_s", litres(t->option.required)},
          {"trunk_resists_pa", l->handler_count > 0
                                   ? t->states[DEW_VENT_ON][0].trunk_resists[0]
                                   : NAN});
    put(m, o, "cautions", cautions(m, t));
    put(m, o, "states", states(m, t));
    put(m, o, "commissioning", commissioning(m, t));
    put(m, o, "parts", parts(m, t));
    put(m, o, "sizes", sizes(m, t));
    put(m, o, "says", sentences(m, t));
    return o;
}

static json_t *all(struct maker *m, const struct dew_report_ducts *d,
                   const struct dew_ducts_frame *frame)
{
    json_t *layouts = json_array(), *without = json_array();
    json_t *o =
        OF_TEXTS(m, {"title", frame->title}, {"version", frame->version},
                 {"scenario_sha256", frame->sha256});

    for (size_t i = 0; i < d->count; i++)
        append(m, layouts, layout(m, &d->list[i]));
    for (size_t i = 0; i < d->without_count; i++)
        append(m, without, text(d->without[i].name));
    put(m, o, "layouts", layouts);
    put(m, o, "without_layout", without);
    return o;
}

static const size_t FLAGS = JSON_INDENT(2) | JSON_REAL_PRECISION(10);

enum dew_status dew_report_ducts_json(const struct dew_report_ducts *ducts,
                                      const struct dew_ducts_frame *frame,
                                      FILE *out, struct dew_error *err)
{
    struct maker m = {NULL, 0};

    return report__json_write(&m, all(&m, ducts, frame), FLAGS, "the JSON", out,
                              err);
}

enum dew_status report__ducts_json(const struct dew_report_ducts *ducts,
                                   const struct dew_ducts_frame *frame,
                                   json_t *written, FILE *out,
                                   struct dew_error *err)
{
    struct maker m = {NULL, 0};
    json_t *o = all(&m, ducts, frame);

    put(&m, o, "written", written);
    return report__json_write(&m, o, FLAGS, "the JSON", out, err);
}
