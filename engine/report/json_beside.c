/* SPDX-License-Identifier: GPL-3.0-or-later */
/* As JSON, what stands beside the verdict: surfaces, windows, new-house water,
   rules of thumb, fresh air by the rules. */
#include "dew/drying.h"
#include "dew/fresh.h"
#include "dew/thumb.h"
#include "dew/wetting.h"
#include "report/json.h"

static json_t *surface(struct maker *m, const struct dew_outcome *o, int s)
{
    const struct dew_face *f = &o->faces[s];
    json_t *r = OF_REALS(m, {"wet_h", o->year.sweat[s]},
                         {"above_80_pct_h", o->year.surface_80[s]},
                         {"mean_of_30_days_80_pct_h", f->mean_80},
                         {"mould_index", f->mould},
                         {"mould_index_after_10_years", f->mould_years},
                         {"mould_index_pine_1999", f->mould_1999});

    put(m, r, "rh_pct_by_month", numbers(m, f->month_rh, DEW_MONTHS, 100));
    put(m, r, "months_above_80_pct", report__json_months(m, f->months_80));
    return r;
}

json_t *report__json_surfaces(struct maker *m, const struct dew_outcome *o)
{
    json_t *r = json_object();

    put(m, r, "glass", surface(m, o, DEW_GLASS));
    put(m, r, "frame", surface(m, o, DEW_EDGE));
    put(m, r, "corner", surface(m, o, DEW_CORNER));
    return r;
}

json_t *report__json_windows(struct maker *m, const struct dew_choice *c)
{
    struct dew_wet_row rows[DEW_WET_ROWS];
    json_t *list = json_array();

    dew_wetting_of(c->outcome, c->c, rows);
    for (int i = 0; i < DEW_WET_ROWS; i++) {
        append(m, list,
               OF_REALS(m, {"outdoor_low_c", rows[i].t_low},
                        {"outdoor_high_c", rows[i].t_high},
                        {"outdoor_c", rows[i].t}, {"room_c", DEW_WET_ROOM},
                        {"glass_wets_at_pct", 100 * rows[i].glass},
                        {"frame_wets_at_pct", 100 * rows[i].frame},
                        {"trade_ceiling_pct", 100 * rows[i].trade},
                        {"hours", rows[i].hours},
                        {"above_trade_h", rows[i].above_trade},
                        {"wet_glass_h", rows[i].wet},
                        {"keeps_frame_dry_l_s", 1000 * rows[i].keeps_dry}));
    }
    return list;
}

json_t *report__json_drying(struct maker *m, const struct dew_choice *c)
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
    REALS(m, o, {"given_off_kg", d.given_off}, {"left_kg", d.left},
          {"rh_added_points", 100 * d.more},
          {"too_humid_added_h", d.humid_more});
    put(m, o, "agrees_after_months",
        estimate(m, (struct dew_estimate){d.agree.likely / month,
                                          d.agree.low / month,
                                          d.agree.high / month}));
    REALS(m, o, {"agrees_below_points", 100 * DEW_DRYING_AGREES},
          {"too_humid_once_dry_h", c->settled->year.too_humid},
          {"too_dry_once_dry_h", c->settled->year.too_dry},
          {"wet_glass_once_dry_h", c->settled->year.sweat[DEW_GLASS]});
    return o;
}

json_t *report__json_thumbs(struct maker *m)
{
    struct dew_thumb t[DEW_THUMB_RULES];
    size_t count = dew_thumb_of(m->r->question, t);
    json_t *list = json_array();

    for (size_t i = 0; i < count; i++) {
        json_t *o = json_object();

        TEXTS(m, o, {"rule", dew_thumb_key(t[i].rule)},
              {"text", dew_thumb_words(t[i].rule)},
              {"source", dew_thumb_source(t[i].rule)});
        REALS(m, o, {"low_si", t[i].low}, {"high_si", t[i].high},
              {"found_si", t[i].found});
        put(m, o, "option", report__json_option(m, t[i].option));
        put(m, o, "agrees", json_boolean(t[i].says == DEW_THUMB_AGREES));
        put(m, o, "why", text(t[i].why[0] ? t[i].why : NULL));
        append(m, list, o);
    }
    return list;
}

/* ---- fresh air ---------------------------------------------------------------- */

json_t *report__json_rates(struct maker *m, size_t option)
{
    struct dew_dwelling home = dew_fresh_dwelling(m->r->question);
    json_t *list = json_array();

    for (int k = 0; k < DEW_RATE_RULES; k++) {
        enum dew_rate_rule rule = (enum dew_rate_rule)k;
        double asked = dew_house_rate(rule, &home);
        json_t *o = json_object();

        TEXTS(m, o, {"rule", dew_house_rate_key(rule)},
              {"text", dew_house_rate_words(rule)});
        REALS(m, o, {"asked_l_s", 1000 * asked},
              {"below_h", isnan(asked) ? NAN
                                       : dew_fresh_hours_below(m->r->question,
                                                               option, asked)});
        append(m, list, o);
    }
    return list;
}

json_t *report__json_local(struct maker *m, size_t option)
{
    struct dew_fresh_local list[DEW_FRESH_LOCALS];
    size_t count = dew_fresh_locals(m->r->question, option, list);
    json_t *rows = json_array();

    for (size_t i = 0; i < count; i++) {
        json_t *o = json_object();

        TEXTS(m, o, {"rule", list[i].rule},
              {"room", list[i].room == DEW_KITCHEN ? "kitchen" : "bath"});
        REALS(m, o, {"when_needed_l_s", 1000 * list[i].needed},
              {"all_the_time_l_s", 1000 * list[i].continuous},
              {"all_the_time_changes_per_h", list[i].changes},
              {"fan_l_s", 1000 * list[i].here});
        append(m, rows, o);
    }
    return rows;
}
