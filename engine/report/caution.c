/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions and pressures as words. */
#include "report/caution.h"

#include <math.h>
#include <string.h>

#include "report/lay.h"
#include "report/markup.h"

/* ---- fans ------------------------------------------------------------------- */

/* In the order they are named: the strongest first. */
static const struct fan {
    enum dew_local which;
    const char *name, *key;
} fan_list[DEW_LOCALS] = {
    {DEW_LOCAL_KITCHEN, "kitchen hood", "range_hood.flow"},
    {DEW_LOCAL_BATH, "bath fans", "bath_fan.flow"},
    {DEW_LOCAL_DRYER, "dryer", "clothes_dryer.flow"},
};

struct report__word report__fans(unsigned fans)
{
    struct report__word w = {""};
    size_t at = 0;

    for (int e = 0; e < DEW_LOCALS; e++)
        if (fans >> fan_list[e].which & 1U)
            at += (size_t)snprintf(w.text + at, sizeof w.text - at, "%s%s",
                                   at > 0 ? ", " : "", fan_list[e].name);
    return w;
}

const char *report__fan_key(unsigned fans, int place)
{
    return fans >> fan_list[place].which & 1U ? fan_list[place].key : NULL;
}

/* ---- pressure --------------------------------------------------------------- */

struct report__word report__suction(const struct dew_report *report,
                                    size_t option)
{
    struct dew_suction s = dew_cautions_suction(report->question, option);
    struct report__word w;

    if (s.untold != 0)
        snprintf(w.text, sizeof w.text, "not computed: %.80s not given",
                 report__fans(s.untold).text);
    else if (s.beyond)
        snprintf(w.text, sizeof w.text, "more than %.40s Pa",
                 report__number(DEW_SUCTION_MOST, 0).text);
    else
        snprintf(w.text, sizeof w.text, "%.40s Pa",
                 report__number(s.pressure, 1).text);
    return w;
}

/* "" where there is but one. */
static struct report__word which_options(const struct dew_report *r,
                                         uint64_t options)
{
    struct report__word w = {""};

    if (r->question->count > 1)
        report__which(options, w.text, sizeof w.text);
    return w;
}

/* " Computed for option 2, dryer and ventilator at once: -7 Pa." */
static size_t say_computed(const struct dew_report *r, size_t option, char *out,
                           size_t size)
{
    struct dew_suction s = dew_cautions_suction(r->question, option);
    struct report__word whose = which_options(r, UINT64_C(1) << option);
    int vent = r->question->choices[option].facts->core != DEW_CORE_none;

    return (size_t)snprintf(
        out, size, " Computed%s%s, %s%s%s%s %s%s.",
        whose.text[0] != '\0' ? " for " : "", whose.text,
        s.fans != 0 ? report__fans(s.fans).text : "",
        s.fans != 0 && vent ? " and ventilator at once"
        : vent              ? "ventilator alone"
        : s.fans != 0       ? " at once"
                            : "no fan there",
        s.untold | s.fans ? "" : " (hood, bath fans, dryer given as absent)",
        s.beyond ? "," : ":", report__suction(r, option).text,
        s.beyond ? ": these fans would not deliver their rated air" : "");
}

static void say_untold(const struct dew_report *r, unsigned untold,
                       uint64_t options, char *out, size_t size)
{
    int part = r->question->count > 1 && options != 0;
    size_t at = (size_t)snprintf(
        out, size, " Not computed%s%s: %s not given.", part ? " for " : "",
        part ? which_options(r, options).text : "", report__fans(untold).text);

    for (int e = 0, any = 0; e < DEW_LOCALS && at < size; e++)
        if (report__fan_key(untold, e) != NULL)
            at += (size_t)snprintf(out + at, size - at, "%s%s",
                                   any++ ? ", " : " Give ",
                                   report__fan_key(untold, e));
    if (at < size)
        snprintf(out + at, size - at, "; 0 cfm where there is none.");
}

char *report__pressure(const struct dew_report *report,
                       const struct dew_caution *caution, int option, char *out,
                       size_t size)
{
    size_t at = 0;

    out[0] = '\0';
    if (!caution->has_pressure)
        return out;
    if (option >= 0) {
        struct dew_suction s =
            dew_cautions_suction(report->question, (size_t)option);

        if (s.untold != 0)
            snprintf(out, size, " Not computed: %s not given.",
                     report__fans(s.untold).text);
        else
            say_computed(report, (size_t)option, out, size);
        return out;
    }
    if (caution->worst >= 0)
        at = say_computed(report, (size_t)caution->worst, out, size);
    if (caution->untold != 0)
        say_untold(report, caution->untold,
                   caution->worst >= 0 ? caution->untold_options : 0, out + at,
                   size - at);
    return out;
}

/* ---- questions -------------------------------------------------------------- */

int report__open(const struct dew_caution *caution)
{
    return caution->answer == DEW_ANSWER_UNKNOWN;
}

const char *report__open_rest(const struct dew_caution *caution)
{
    const char *words = dew_cautions_open_words();
    size_t length = strlen(words);

    return strncmp(caution->text, words, length) == 0 ? caution->text + length
                                                      : caution->text;
}

struct report__word report__open_stop_words(size_t count)
{
    struct report__word w = {""};

    if (count > 0)
        snprintf(w.text, sizeof w.text,
                 "%zu safety %s open (below): change no fan, duct or leak "
                 "first.",
                 count, count == 1 ? "question is" : "questions are");
    return w;
}

void report__ask(const struct dew_caution *caution, int first, FILE *out)
{
    if (first)
        fputs(
            "\nNot answered yet, and the keys that answer (CHECK: before you buy)\n",
            out);
    fprintf(out, "%-6s%s: %s\n", dew_cautions_level(caution->level),
            caution->question_key, caution->ask);
}

int report__asks(const struct dew_report *report, size_t i)
{
    const struct dew_caution *c = report->cautions;

    for (size_t k = 0; k < i; k++)
        if (report__open(&c[k]) && report__open(&c[i]) &&
            strcmp(c[k].question_key, c[i].question_key) == 0)
            return 0;
    return report__open(&c[i]);
}

char *report__open_stops(const struct dew_report *report, char *out,
                         size_t size)
{
    size_t at = 0;

    out[0] = '\0';
    for (size_t i = 0; i < report->caution_count && at < size; i++) {
        const struct dew_caution *c = &report->cautions[i];
        const char *rest = report__open_rest(c);

        if (c->level != DEW_STOP || !report__asks(report, i))
            continue;
        at += (size_t)snprintf(out + at, size - at, "%s%.*s",
                               at > 0 ? "; or whether "
                                      : dew_cautions_open_words(),
                               (int)strcspn(rest, "."), rest);
    }
    if (at > 0 && at < size)
        snprintf(out + at, size - at,
                 ". Each counts as the worse answer until you say: change no "
                 "fan, duct or leak before you know.");
    return out;
}

struct report__word report__open_stops_brief(const struct dew_report *report)
{
    size_t open = 0;

    for (size_t i = 0; i < report->caution_count; i++)
        open +=
            report->cautions[i].level == DEW_STOP && report__asks(report, i);
    return report__open_stop_words(open);
}

/* ---- one caution ------------------------------------------------------------ */

const char report__levels[] =
    "STOP: someone could be hurt, settle it first. CHECK: look or measure "
    "before you buy. NOTE: good to know. Without a source in brackets it is "
    "common practice.";

const char *report__source(const char *source, const char *practice)
{
    return strcmp(source, "common practice, no source") == 0 ? practice
                                                             : source;
}

void report__caution_text(const struct dew_caution *c, const char *whose,
                          const char *more, FILE *out)
{
    const char *source = report__source(c->source, "");
    char text[REPORT__CAUTION_LONG], head[16], answer[80] = "";

    if (report__open(c))
        snprintf(answer, sizeof answer, " Answer: %s.", c->question_key);
    snprintf(text, sizeof text, "%s%s%s%s%s%s%s%s", whose, whose[0] ? ": " : "",
             report__open(c) ? report__open_rest(c) : c->text, more, answer,
             source[0] ? " (" : "", source, source[0] ? ")" : "");
    snprintf(head, sizeof head, "%-6s ", dew_cautions_level(c->level));
    report__wrap(out, head, text);
}

/* All but its level. */
static void body(const struct dew_caution *c, const char *whose,
                 const char *more, FILE *out)
{
    if (whose != NULL && whose[0] != '\0')
        report__html(out, "<strong>%s:</strong> ", whose);
    report__html(out, "%s%s%s",
                 whose == NULL && report__open(c) ? "Not said whether " : "",
                 report__open(c) ? report__open_rest(c) : c->text, more);
    if (whose != NULL && report__open(c))
        report__html(out, " Answer: <code>%s</code>.", c->question_key);
    if (whose != NULL && report__source(c->source, "")[0] != '\0')
        report__html(out, " <small>(%s)</small>", c->source);
}

void report__caution_html(const struct dew_caution *c, const char *whose,
                          const char *more, FILE *out)
{
    report__html(out, "<li><span class=\"level\">%s</span>",
                 dew_cautions_level(c->level));
    body(c, whose, more, out);
    fputs("</li>\n", out);
}

void report__caution_listed(const struct dew_caution *c, const char *whose,
                            const char *more, FILE *out)
{
    fputs("<li>", out);
    body(c, whose, more, out);
    fputs("</li>\n", out);
}

void report__caution_folded(const struct dew_caution *c, const char *whose,
                            const char *more, FILE *out)
{
    report__html(out,
                 "<li><details><summary><span class=\"level\">%s</span>%s"
                 "</summary><p>",
                 dew_cautions_level(c->level), c->brief);
    body(c, whose, more, out);
    fputs("</p></details></li>\n", out);
}
