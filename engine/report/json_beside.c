/* SPDX-License-Identifier: GPL-3.0-or-later */
/* As JSON, what stands beside the verdict: surfaces, windows, new-house water,
   rules of thumb, fresh air by the rules. */
#include "dew/drying.h"
#include "dew/fresh.h"
#include "dew/thumb.h"
#include "dew/wetting.h"
#include "report/json.h"

static json_t *option_name(const struct dew_report *r, int i)
{
    return i >= 0 ? text(r->question->choices[i].outcome->name) : json_null();
}

static json_t *surface(struct maker *m, const struct dew_outcome *o, int s)
{
    const struct dew_face *f = &o->faces[s];
    json_t *r = json_object(), *rh = json_array(), *damp = json_array();

    put(m, r, "wet_h", number(o->year.sweat[s]));
    put(m, r, "above_80_pct_h", number(o->year.surface_80[s]));
    put(m, r, "mean_of_30_days_80_pct_h", number(f->mean_80));
    put(m, r, "mould_index", number(f->mould));
    put(m, r, "mould_index_after_10_years", number(f->mould_years));
    put(m, r, "mould_index_pine_1999", number(f->mould_1999));
    for (int k = 0; k < DEW_MONTHS; k++) {
        append(m, rh, number(100 * f->month_rh[k]));
        if (f->months_80 >> k & 1U)
            append(m, damp, json_integer(k + 1));
    }
    put(m, r, "rh_pct_by_month", rh);
    put(m, r, "months_above_80_pct", damp);
    return r;
}

json_t *dew__json_surfaces(struct maker *m, const struct dew_outcome *o)
{
    json_t *r = json_object();

    put(m, r, "glass", surface(m, o, DEW_GLASS));
    put(m, r, "frame", surface(m, o, DEW_EDGE));
    put(m, r, "corner", surface(m, o, DEW_CORNER));
    return r;
}

json_t *dew__json_windows(struct maker *m, const struct dew_choice *c)
{
    struct dew_wet_row rows[DEW_WET_ROWS];
    json_t *list = json_array();

    dew_wetting_of(c->outcome, c->c, rows);
    for (int i = 0; i < DEW_WET_ROWS; i++) {
        json_t *r = json_object();

        put(m, r, "outdoor_low_c", number(rows[i].t_low));
        put(m, r, "outdoor_high_c", number(rows[i].t_high));
        put(m, r, "outdoor_c", number(rows[i].t));
        put(m, r, "room_c", number(DEW_WET_ROOM));
        put(m, r, "glass_wets_at_pct", number(100 * rows[i].glass));
        put(m, r, "frame_wets_at_pct", number(100 * rows[i].frame));
        put(m, r, "trade_ceiling_pct", number(100 * rows[i].trade));
        put(m, r, "hours", number(rows[i].hours));
        put(m, r, "above_trade_h", number(rows[i].above_trade));
        put(m, r, "wet_glass_h", number(rows[i].wet));
        put(m, r, "keeps_frame_dry_l_s", number(1000 * rows[i].keeps_dry));
        append(m, list, r);
    }
    return list;
}

json_t *dew__json_drying(struct maker *m, const struct dew_choice *c)
{
    const double month = 8760.0 / 12;
    const struct dew_drying_ask ask = {c->outcome, c->settled,
                                       &c->c->house.water[DEW_SOURCE_drying],
                                       c->facts->half_life};
    struct dew_drying d;
    json_t *o;

    if (c->settled == NULL)
        return json_null();
    d = dew_drying_of(&ask);
    o = json_object();
    put(m, o, "given_off_kg", number(d.given_off));
    put(m, o, "left_kg", number(d.left));
    put(m, o, "rh_added_points", number(100 * d.more));
    put(m, o, "too_humid_added_h", number(d.humid_more));
    put(m, o, "agrees_after_months",
        estimate(m, (struct dew_estimate){d.agree.likely / month,
                                          d.agree.low / month,
                                          d.agree.high / month}));
    put(m, o, "agrees_below_points", number(100 * DEW_DRYING_AGREES));
    put(m, o, "too_humid_once_dry_h", number(c->settled->year.too_humid));
    put(m, o, "too_dry_once_dry_h", number(c->settled->year.too_dry));
    put(m, o, "wet_glass_once_dry_h",
        number(c->settled->year.sweat[DEW_GLASS]));
    return o;
}

json_t *dew__json_thumbs(struct maker *m)
{
    struct dew_thumb t[DEW_THUMB_RULES];
    size_t count = dew_thumb_of(m->r->question, t);
    json_t *list = json_array();

    for (size_t i = 0; i < count; i++) {
        json_t *o = json_object();

        put(m, o, "rule", text(dew_thumb_key(t[i].rule)));
        put(m, o, "text", text(dew_thumb_words(t[i].rule)));
        put(m, o, "source", text(dew_thumb_source(t[i].rule)));
        put(m, o, "low_si", number(t[i].low));
        put(m, o, "high_si", number(t[i].high));
        put(m, o, "found_si", number(t[i].found));
        put(m, o, "option", option_name(m->r, t[i].option));
        put(m, o, "agrees", json_boolean(t[i].says == DEW_THUMB_AGREES));
        put(m, o, "why", t[i].why[0] ? text(t[i].why) : json_null());
        append(m, list, o);
    }
    return list;
}

/* ---- fresh air ---------------------------------------------------------------- */

json_t *dew__json_rates(struct maker *m, size_t option)
{
    struct dew_dwelling home = dew_fresh_dwelling(m->r->question);
    json_t *list = json_array();

    for (int k = 0; k < DEW_RATE_RULES; k++) {
        enum dew_rate_rule rule = (enum dew_rate_rule)k;
        double asked = dew_house_rate(rule, &home);
        json_t *o = json_object();

        put(m, o, "rule", text(dew_house_rate_key(rule)));
        put(m, o, "text", text(dew_house_rate_words(rule)));
        put(m, o, "asked_l_s", number(1000 * asked));
        put(m, o, "below_h",
            number(isnan(asked)
                       ? NAN
                       : dew_fresh_hours_below(m->r->question, option, asked)));
        append(m, list, o);
    }
    return list;
}

json_t *dew__json_local(struct maker *m, size_t option)
{
    struct dew_fresh_local list[DEW_FRESH_LOCALS];
    size_t count = dew_fresh_locals(m->r->question, option, list);
    json_t *rows = json_array();

    for (size_t i = 0; i < count; i++) {
        json_t *o = json_object();

        put(m, o, "rule", text(list[i].rule));
        put(m, o, "room",
            text(list[i].room == DEW_KITCHEN ? "kitchen" : "bath"));
        put(m, o, "when_needed_l_s", number(1000 * list[i].needed));
        put(m, o, "all_the_time_l_s", number(1000 * list[i].continuous));
        put(m, o, "all_the_time_changes_per_h", number(list[i].changes));
        put(m, o, "fan_l_s", number(1000 * list[i].here));
        append(m, rows, o);
    }
    return rows;
}
