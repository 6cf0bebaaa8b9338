/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A fit in words and a table of 80 columns. */
#include <math.h>
#include <string.h>

#include "cli/fit.h"
#include "dew/air.h"
#include "report/lay.h"
#include "report/markup.h"
#include "report/words.h"

enum { TEXT = 2000, COLD = -30, WARM = 25, STEP = 5 };
static const double BAND80 = 1.2816; /* of an sd, to both sides */
static const double ROOM_SI = 21.0, ROOM_US = 21.111; /* degC: 70 degF       */
static const double POOR = 3.0; /* points of RH: our own                     */

struct told {
    const struct cli__fit *f;
    const struct dew_evidence_learned *l;
    enum dew_system system;
    double room; /* degC */
};

static struct report__word degrees(const struct told *t, double c)
{
    return report__amount(c, DEW_TEMPERATURE, t->system, 0);
}

static struct report__word number(double x, int decimals)
{
    return report__number(x, decimals);
}

/* ---- did it change? ------------------------------------------------------------ */

static const double CLEAR = 0.95; /* of the draws: our own                   */

/* "2.1 to 4.0 points drier", "1.2 points more humid to 0.4 drier" */
static struct report__word drier(const struct dew_evidence_range *r)
{
    struct report__word w;

    if (r->p90 <= 0)
        snprintf(w.text, sizeof w.text, "%.20s to %.20s points drier",
                 number(-r->p90, 1).text, number(-r->p10, 1).text);
    else if (r->p10 >= 0)
        snprintf(w.text, sizeof w.text, "%.20s to %.20s points more humid",
                 number(r->p10, 1).text, number(r->p90, 1).text);
    else
        snprintf(w.text, sizeof w.text,
                 "%.20s points drier to %.20s more humid",
                 number(-r->p10, 1).text, number(r->p90, 1).text);
    return w;
}

static void say_verdict(const struct told *t,
                        const struct dew_evidence_change *c)
{
    char text[TEXT];

    if (c->drier >= CLEAR || c->drier <= 1 - CLEAR)
        snprintf(text, sizeof text,
                 "Since the change the house is %s by %s points of relative "
                 "humidity than the same weather would have made it as it was "
                 "(8 chances in 10: %s). Whatever else changed with it is in "
                 "that.",
                 c->drier >= CLEAR ? "drier" : "more humid",
                 number(fabs(c->rh.p50), 1).text, drier(&c->rh).text);
    else
        snprintf(text, sizeof text,
                 "The log cannot tell yet whether the change did anything: "
                 "beside the house as it was in the same weather the air is %s "
                 "(8 chances in 10), and habits alone can do that.",
                 drier(&c->rh).text);
    cli__fit_say(t->f, text);
}

static void say_change(const struct told *t)
{
    const struct dew_evidence_change *c = dew_fit_change(t->f->fit);
    double at = 0.5 * (t->l->t_least + t->l->t_most);
    struct dew_evidence_figure was = dew_evidence_excess(t->l, at), now;
    char text[TEXT];

    if (c == NULL)
        return;
    say_verdict(t, c);
    now =
        dew_evidence_excess(dew_evidence_learned(dew_fit_after(t->f->fit)), at);
    snprintf(
        text, sizeof text,
        "In the %s days compared, from %d days after the change on, %s "
        "hours were above %s; in the house as it was it would have been "
        "%s (%s to %s). At %s outdoors it adds %s Pa (%s to %s) now, and "
        "added %s (%s to %s).",
        number(c->days, 0).text, DEW_FIT_SETTLES,
        number(c->humid_logged, 0).text,
        report__percent(dew_fit_too_humid(t->f->fit)).text,
        number(c->humid.p50, 0).text, number(c->humid.p10, 0).text,
        number(c->humid.p90, 0).text, degrees(t, at).text,
        number(now.value, 0).text, number(now.value - BAND80 * now.sd, 0).text,
        number(now.value + BAND80 * now.sd, 0).text, number(was.value, 0).text,
        number(was.value - BAND80 * was.sd, 0).text,
        number(was.value + BAND80 * was.sd, 0).text);
    cli__fit_say(t->f, text);
    cli__fit_head(t->f, "The house as it was", 1);
}

/* ---- what it adds ------------------------------------------------------------ */

static double points(const struct told *t, double pa)
{
    return 100.0 * pa / dew_air_pws_liquid(t->room);
}

static int seen(const struct told *t, double t_out)
{
    return t_out >= t->l->t_least && t_out <= t->l->t_most;
}

/* The coldest or the warmest of the table's rows that the log saw. */
static double end_seen(const struct told *t, int from, int step)
{
    for (int x = from; x >= COLD && x <= WARM; x += step)
        if (seen(t, x))
            return x;
    return 0.5 * (t->l->t_least + t->l->t_most);
}

static void say_excess(const struct told *t)
{
    double cold = end_seen(t, COLD, STEP), warm = end_seen(t, WARM, -STEP);
    struct dew_evidence_figure at_cold = dew_evidence_excess(t->l, cold),
                               at_warm = dew_evidence_excess(t->l, warm);
    char text[TEXT];

    snprintf(text, sizeof text,
             "At %s outdoors your house holds its air %s Pa of water vapour %s "
             "the air outdoors (8 chances in 10: %s to %s): %s points of "
             "relative humidity at %s.",
             degrees(t, cold).text, number(fabs(at_cold.value), 0).text,
             at_cold.value < 0 ? "below" : "above",
             number(at_cold.value - BAND80 * at_cold.sd, 0).text,
             number(at_cold.value + BAND80 * at_cold.sd, 0).text,
             number(points(t, at_cold.value), 0).text,
             degrees(t, t->room).text);
    if (warm > cold)
        snprintf(text + strlen(text), sizeof text - strlen(text),
                 " At %s it is %s Pa (%s to %s).", degrees(t, warm).text,
                 number(at_warm.value, 0).text,
                 number(at_warm.value - BAND80 * at_warm.sd, 0).text,
                 number(at_warm.value + BAND80 * at_warm.sd, 0).text);
    cli__fit_say(t->f, text);
}

static void row(const struct told *t, double t_out)
{
    struct dew_evidence_figure e = dew_evidence_excess(t->l, t_out);
    FILE *out = t->f->out;
    char range[300];

    snprintf(range, sizeof range, "%s to %s",
             number(e.value - BAND80 * e.sd, 0).text,
             number(e.value + BAND80 * e.sd, 0).text);
    if (t->f->page) {
        report__html_row(out, "%s|%s|%s|%s|%s", degrees(t, t_out).text,
                         number(e.value, 0).text, range,
                         number(points(t, e.value), 0).text,
                         seen(t, t_out) ? "seen" : "not seen");
        return;
    }
    report__right(out, degrees(t, t_out).text, 9);
    report__right(out, number(e.value, 0).text, 9);
    report__right(out, range, 18);
    report__right(out, number(points(t, e.value), 0).text, 17);
    fprintf(out, "  %s\n", seen(t, t_out) ? "seen" : "not seen");
}

static void print_table(const struct told *t)
{
    char room[200];

    snprintf(room, sizeof room, "%% RH at %s", degrees(t, t->room).text);
    if (t->f->page) {
        fputs("<div class=\"wide\"><table>", t->f->out);
        report__html_heads(
            t->f->out, "outdoors|adds, Pa|8 times in 10|%s|in the log", room);
    } else
        fprintf(t->f->out, "%9s%9s%18s%17s\n", "outdoors", "adds, Pa",
                "8 times in 10", room);
    for (int x = COLD + 10; x <= WARM; x += STEP)
        row(t, x > 24 ? 24 : x);
    if (t->f->page)
        fputs("</tbody></table></div>\n", t->f->out);
    cli__fit_say(
        t->f, "\"Not seen\" is what other houses do, carried on from yours.");
}

/* ---- how long it remembers ----------------------------------------------------- */

/* After how many hours that share of a change shows. */
static double hours_to(const struct told *t, double share)
{
    double h = 0;

    while (h < 8760 && dew_evidence_shown(t->l, h) < share)
        h += 1;
    return h;
}

static struct report__word span(double hours)
{
    struct report__word w;

    if (hours < 1)
        snprintf(w.text, sizeof w.text, "an hour or less");
    else if (hours < 48)
        snprintf(w.text, sizeof w.text, "%.0f hour%s", hours,
                 hours < 1.5 ? "" : "s");
    else
        snprintf(w.text, sizeof w.text, "%.0f days", hours / 24);
    return w;
}

static void say_memory(const struct told *t)
{
    char text[TEXT];

    snprintf(text, sizeof text,
             "It remembers: half of a change in the outdoor air shows indoors "
             "after %s, nine tenths after %s. What lies in walls, floors and "
             "furniture gives water and takes it meanwhile.",
             span(hours_to(t, 0.5)).text, span(hours_to(t, 0.9)).text);
    cli__fit_say(t->f, text);
}

static void say_habits(const struct told *t)
{
    const struct dew_evidence_noise *n = &t->l->noise;
    char text[TEXT];

    snprintf(text, sizeof text,
             "It changes by itself: slowly, over %s, by about %s points of "
             "relative humidity to either side (habits, windows, guests), and "
             "within %s by about %s (showers, cooking, washing).",
             span(n->slow_hours).text, number(n->slow, 1).text,
             span(n->quick_hours).text, number(n->quick, 1).text);
    if (t->l->young.sd > 0)
        snprintf(text + strlen(text), sizeof text - strlen(text),
                 " Drying out added %s Pa when the log began.",
                 number(t->l->young.value, 0).text);
    cli__fit_say(t->f, text);
}

static void say_falls(const struct told *t, const struct dew_evidence_falls *x,
                      const char *when)
{
    char text[TEXT];

    if (x == NULL || x->count == 0)
        return;
    snprintf(text, sizeof text,
             "The air%s: in %zu falls of CO2 %s of it was changed an hour (8 "
             "of 10: %s to %s), or more: whoever was still at home makes it "
             "look less.",
             when, x->count, report__percent(x->rate.p50).text,
             report__percent(x->rate.p10).text,
             report__percent(x->rate.p90).text);
    cli__fit_say(t->f, text);
}

static void say_run(const struct told *t)
{
    const struct dew_fit_run r = dew_fit_run(t->f->fit);
    char text[TEXT];

    if (!isnan(r.cool)) {
        snprintf(text, sizeof text,
                 "By the log cooling ran for %s of the time. --house runs the "
                 "coil by it.",
                 report__percent(r.cool).text);
        cli__fit_say(t->f, text);
    }
    if (!isnan(r.fan)) {
        snprintf(text, sizeof text,
                 "The blower ran for %s of it; --house runs it so. Where that "
                 "is much more than cooling and heating take, it runs by "
                 "itself and brings back what is left on the coil: tell it as "
                 "cooling.blower.",
                 report__percent(r.fan).text);
        cli__fit_say(t->f, text);
    }
}

static void say_air(const struct told *t)
{
    int changed = dew_fit_change(t->f->fit) != NULL;

    say_run(t);
    say_falls(t, dew_fit_falls(t->f->fit, 0), changed ? " before" : "");
    if (changed)
        say_falls(t, dew_fit_falls(t->f->fit, 1), " after the change");
}

/* ---- how well ------------------------------------------------------------------ */

static void say_kept_back(const struct told *t)
{
    const struct dew_evidence_score *s = &t->l->rest;
    char text[TEXT];

    if (s->hours == 0)
        snprintf(text, sizeof text,
                 "After that day the log has no hour to hold it to.");
    else
        snprintf(text, sizeof text,
                 "Put to the test: the %s days after were foretold from the "
                 "outdoor air and the indoor temperature alone. The relative "
                 "humidity was off by %s points (root mean square; %s too "
                 "%s on the mean), and %s of the hours were inside the band "
                 "meant to hold 80 %%. A straight line of the outdoor "
                 "temperature is off by %s.",
                 number(s->days, 0).text, number(s->rmse_rh, 1).text,
                 number(fabs(s->bias_rh), 1).text,
                 s->bias_rh > 0 ? "humid" : "dry",
                 report__percent(s->band80).text,
                 number(t->l->line.rmse_rh, 1).text);
    cli__fit_say(t->f, text);
}

static void say_how_well(const struct told *t)
{
    const struct dew_evidence_score *s = &t->l->fit;
    char text[TEXT];

    snprintf(text, sizeof text,
             "Learned from %s days with %s to %s outdoors. The curve and the "
             "memory alone meet those days within %s points of relative "
             "humidity (root mean square); a straight line of the outdoor "
             "temperature within %s.",
             number(s->days, 0).text, degrees(t, t->l->t_least).text,
             degrees(t, t->l->t_most).text, number(s->rmse_rh, 1).text,
             number(t->l->line_fit.rmse_rh, 1).text);
    cli__fit_say(t->f, text);
    if (s->rmse_rh > POOR)
        cli__fit_say(
            t->f, "That is poor: much of what this house does follows neither "
                  "the weather nor its own past.");
    if (t->f->until && dew_fit_change(t->f->fit) == NULL)
        say_kept_back(t);
}

/* ---- what it cannot tell -------------------------------------------------------- */

static void say_limits(const struct told *t)
{
    char text[TEXT];

    cli__fit_list(t->f, "What this log cannot tell");
    cli__fit_item(
        t->f,
        "Water and air apart: twice the water given off with twice the air "
        "changed looks the same. What a fan or a ventilator would do needs "
        "the air change from elsewhere.");
    snprintf(text, sizeof text,
             "Seasons it has not seen: colder than %s and warmer than %s "
             "outdoors is a guess from other houses, and the band widens.",
             degrees(t, t->l->t_least).text, degrees(t, t->l->t_most).text);
    cli__fit_item(t->f, text);
    if (t->l->t_most >= WARM - STEP)
        cli__fit_item(
            t->f, "Summer with air conditioning: the curve ends at 24 degC (75 "
                  "degF) and knows no coil.");
    cli__fit_item(
        t->f,
        "An empty house: one that was wet once still adds 100 to 180 Pa for "
        "months as it dries. An excess alone proves no leak and no habit.");
}

static void say_assumed(const struct told *t)
{
    const char *text;

    cli__fit_list(t->f, "What was assumed");
    for (size_t i = 0; (text = dew_fit_note(t->f->fit, i)) != NULL; i++)
        cli__fit_item(t->f, text);
}

enum dew_system cli__fit_system(const struct cli__fit *f)
{
    return (enum dew_system)(f->units ? f->units : dew_fit_system(f->fit));
}

void cli__fit_print(const struct cli__fit *f)
{
    struct told t = {.f = f};

    if (f->learn != NULL) {
        cli__fit_house(f);
        if (f->fit == NULL)
            return;
        cli__fit_head(f, "What the log says by itself", 1);
    }
    t.l = dew_evidence_learned(dew_fit_evidence(f->fit));
    t.system = cli__fit_system(f);
    t.room = t.system == DEW_SYSTEM_US ? ROOM_US : ROOM_SI;
    say_change(&t);
    say_excess(&t);
    cli__fit_gap(f);
    print_table(&t);
    cli__fit_gap(f);
    say_memory(&t);
    say_habits(&t);
    say_air(&t);
    cli__fit_gap(f);
    say_how_well(&t);
    cli__fit_gap(f);
    cli__fit_figures(f);
    say_limits(&t);
    cli__fit_list_end(f, 0);
    say_assumed(&t);
    cli__fit_list_end(f, 1);
}
