/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Layouts of ducts in brief: which of them work, one line each. */
#include <math.h>
#include <string.h>

#include "report/caution.h"
#include "report/ducts.h"
#include "report/lay.h"
#include "report/markup.h"

enum { NAME = 21, NAMED = 4 };

/* Layouts, and what they are told with. */
struct told {
    const struct dew_report_ducts *ducts;
    const struct dew_ducts_frame *frame;
    const char *directory;
};

/* ---- one layout ------------------------------------------------------------- */

static double delivered(const struct report__told *t, int blower)
{
    return t->states[DEW_VENT_ON][blower].fresh_delivered;
}

/* The ventilator stands still with the blowers: no state of it is off. */
static int off_counts(const struct report__told *t)
{
    return t->option.interlock != DEW_ANSWER_YES || !report__told_tied(t);
}

/* Least fresh air to the rooms, of the states shown that are neither all off
   nor all at full flow; NaN where there are none. */
static double between(const struct report__told *t)
{
    double least = NAN;

    for (int k = 0; k < t->shown_count; k++)
        if (t->shown[k] != 0 && t->shown[k] != report__told_full(t))
            least = fmin(least, delivered(t, t->shown[k]));
    return least;
}

/* Least fresh air to the rooms in any state it runs in. */
static double least(const struct report__told *t)
{
    double air = fmin(between(t), delivered(t, report__told_full(t)));

    return off_counts(t) ? fmin(air, delivered(t, 0)) : air;
}

/* What is asked of it: its rule, else what it draws in. */
static double asked(const struct report__told *t)
{
    return t->option.required > 0 ? t->option.required
                                  : t->states[DEW_VENT_ON][0].fresh_gross;
}

static int works(const struct report__told *t)
{
    return least(t) >= dew_verdict_judging().fresh_share * asked(t);
}

static double straight_back(const struct report__told *t)
{
    double most = 0;

    for (int k = 0; k < t->shown_count; k++)
        if (t->shown[k] != 0 || off_counts(t))
            most = fmax(
                most, t->states[DEW_VENT_ON][t->shown[k]].short_circuit_share);
    return most;
}

/* Unplanned air through the idle ventilator, blowers at full flow. */
static double unplanned(const struct report__told *t)
{
    return t->states[DEW_VENT_OFF][report__told_full(t)].unplanned;
}

/* ---- what says STOP --------------------------------------------------------- */

static void stops(const struct dew_report_ducts *d, FILE *out)
{
    struct report__gathered g;
    char of[REPORT__OF_LONG], line[REPORT__OF_LONG + 100];
    size_t open = 0;

    report__ducts_gather(d, DEW_ANSWER_YES, &g);
    for (size_t k = 0; k < g.count && g.list[k].level == DEW_STOP; k++) {
        snprintf(line, sizeof line, "%s%s", g.list[k].brief,
                 report__ducts_of(d, &g.list[k], of, sizeof of));
        report__wrap(out, "STOP  ", line);
    }
    report__ducts_gather(d, DEW_ANSWER_UNKNOWN, &g);
    while (open < g.count && g.list[open].level == DEW_STOP)
        open++;
    if (open > 0)
        fprintf(out, "STOP  %s\n", report__open_stop_words(open).text);
}

static void questions(const struct dew_report_ducts *d, FILE *out)
{
    struct report__gathered g;

    report__ducts_gather(d, DEW_ANSWER_UNKNOWN, &g);
    for (size_t k = 0; k < g.count && k < REPORT__QUESTIONS; k++)
        report__ask(&g.list[k], k == 0, out);
    if (g.count > REPORT__QUESTIONS)
        fprintf(out, "And %zu more: --full\n", g.count - REPORT__QUESTIONS);
}

/* ---- the answer ------------------------------------------------------------- */

/* The names of those that work, or of those that do not; returns how many. */
static size_t names(const struct told *t, int that_work, char *out, size_t size)
{
    size_t at = 0, count = 0;
    char clean[256];

    out[0] = '\0';
    for (size_t i = 0; i < t->ducts->count; i++) {
        const struct report__told *one = &t->ducts->list[i];

        if (works(one) != that_work || count++ >= NAMED || at >= size)
            continue;
        at += (size_t)snprintf(
            out + at, size - at, "%s\"%s\"", at > 0 ? ", " : "",
            core__clean(one->option.name, clean, sizeof clean));
    }
    if (count > NAMED && at < size)
        snprintf(out + at, size - at, " and %zu more", count - NAMED);
    return count;
}

/* What is asked of those that work: "100 cfm", or from the least to the most,
   where they are asked for different flows. */
static struct report__word asked_words(const struct told *t)
{
    enum dew_system system = t->frame->system;
    double low = INFINITY, high = 0;
    struct report__word w, from;

    for (size_t i = 0; i < t->ducts->count; i++)
        if (works(&t->ducts->list[i])) {
            low = fmin(low, asked(&t->ducts->list[i]));
            high = fmax(high, asked(&t->ducts->list[i]));
        }
    from = report__air_figure(low, system);
    if (strcmp(from.text, report__air_figure(high, system).text) == 0)
        return report__air(high, system);
    snprintf(w.text, sizeof w.text, "%.20s to %.40s, by the layout", from.text,
             report__air(high, system).text);
    return w;
}

static void answer(const struct told *t, FILE *out)
{
    char list[600], line[900];

    fputc('\n', out);
    if (names(t, 1, list, sizeof list) > 0) {
        snprintf(line, sizeof line,
                 "%.600s: at least %.20s of the fresh air asked for (%.80s) "
                 "reaches the "
                 "rooms, whatever the blowers do while the ventilator runs.",
                 list, report__percent(dew_verdict_judging().fresh_share).text,
                 asked_words(t).text);
        report__wrap(out, "Works:  ", line);
    } else {
        report__wrap(out, "Works:  ", "None of these.");
    }
    if (names(t, 0, list, sizeof list) > 0) {
        snprintf(line, sizeof line,
                 "%s: too little reaches the rooms in some state of the "
                 "blowers; the table says in which.",
                 list);
        report__wrap(out, "Fails:  ", line);
    }
}

/* ---- the table -------------------------------------------------------------- */

static void heads(const struct told *t, FILE *out)
{
    static const char *const head[3][9] = {
        {"", "blower", "some", "blower", "asked", "straight", "un-", "full",
         "to"},
        {"fresh air to rooms", "off", "on", "full", "for", "back out",
         "planned", "blower", "install"},
        {"option", "flow", "flow", "flow", "flow", "%", "flow", "W", "once"}};
    static const int width[9] = {NAME, 7, 6, 7, 6, 9, 8, 7, 8};
    const char *unit = report__unit(DEW_FLOW, t->frame->system)->name;

    fputc('\n', out);
    for (int line = 0; line < 3; line++) {
        report__left(out, head[line][0], width[0]);
        for (int k = 1; k < 9; k++)
            report__right(out,
                          head[line][k][0] == 'f' && head[line][k][1] == 'l'
                              ? unit
                              : head[line][k],
                          width[k]);
        fputc('\n', out);
    }
}

static struct report__word price(const struct told *t,
                                 const struct report__told *one)
{
    struct report__word w = {"-"};

    if (isfinite(one->option.install))
        snprintf(w.text, sizeof w.text, "%s%.60s", t->frame->currency,
                 report__number(one->option.install, 0).text);
    return w;
}

static void line_of(const struct told *t, size_t i, FILE *out)
{
    const struct report__told *one = &t->ducts->list[i];
    enum dew_system system = t->frame->system;
    char clean[256];

    report__left(out, core__clean(one->option.name, clean, sizeof clean), NAME);
    report__right(out,
                  off_counts(one)
                      ? report__air_figure(delivered(one, 0), system).text
                      : "along",
                  7);
    report__right(out, report__air_figure(between(one), system).text, 6);
    report__right(
        out,
        report__air_figure(delivered(one, report__told_full(one)), system).text,
        7);
    report__right(out, report__air_figure(asked(one), system).text, 6);
    report__right(out, report__number(100 * straight_back(one), 0).text, 9);
    report__right(out, report__air_figure(unplanned(one), system).text, 8);
    report__right(
        out,
        report__number(
            one->states[DEW_VENT_ON][report__told_full(one)].blower_w, 0)
            .text,
        7);
    report__right(out, price(t, one).text, 8);
    fputs(works(one) ? "\n" : "!\n", out);
}

static void table(const struct told *t, FILE *out)
{
    int fails = 0;

    heads(t, out);
    for (size_t i = 0; i < t->ducts->count; i++) {
        line_of(t, i, out);
        fails |= !works(&t->ducts->list[i]);
    }
    if (fails)
        fputs("! too little in some state; along: it stands still with the "
              "blower\n",
              out);
    report__wrap(out, "",
                 "Straight back out: the worst state. Unplanned: through the "
                 "idle ventilator, blower at full flow.");
}

static void all(const void *of, FILE *out)
{
    const struct told *t = of;
    const struct dew_report_ducts *d = t->ducts;
    char clean[256], words[300], line[600];

    if (t->frame->title[0] != '\0')
        report__wrap(out, "",
                     core__clean(t->frame->title, clean, sizeof clean));
    stops(d, out);
    if (d->count > 0) {
        answer(t, out);
        table(t, out);
    }
    for (size_t i = 0; i < d->without_count; i++) {
        report__without_words(&d->without[i], t->frame->system, words,
                              sizeof words);
        snprintf(line, sizeof line, "%s: %s",
                 core__clean(d->without[i].name, clean, sizeof clean), words);
        report__wrap(out, "", line);
    }
    questions(d, out);
    if (t->directory != NULL) {
        snprintf(line, sizeof line,
                 "%.200s/ducts.html (open this), ducts.json, a sketch of each.",
                 t->directory);
        report__wrap(out, "Files:  ", line);
    }
    fputs(t->directory != NULL
              ? "Next:   have the sheet of what to set and measure filled in "
                "on site.\n"
              : "Next:   --full for each grille and what to buy; --out DIR for "
                "sketches.\n",
          out);
}

enum dew_status dew_report_ducts_brief(const struct dew_report_ducts *ducts,
                                       const struct dew_ducts_frame *frame,
                                       const char *directory, FILE *out,
                                       struct dew_error *err)
{
    const struct told t = {ducts, frame, directory};

    return report__filled("the text", all, &t, out, err);
}
