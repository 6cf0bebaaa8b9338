/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Why the house is as damp as it is, in words, a table of 80 columns and JSON. */
#include <math.h>
#include <string.h>

#include "cli/fit.h"
#include "report/markup.h"
#include "report/words.h"

enum { TEXT = 1600, NAMES = 600 };

/* Likelier by so much, and of so many of the too humid hours, it is the answer;
   our own. */
static const double MORE = 0.1, MATTERS = 0.05;

static struct report__word hundred(double chance)
{
    return report__number(100 * chance, 0);
}

static const char *by(const struct cli__fit *f)
{
    return f->fit != NULL ? "the log" : "what you read";
}

/* The likeliest of those that are likelier than thought and take humid hours with
   them; count: none. */
static size_t likeliest(const struct dew_learn_cause *c, size_t count)
{
    size_t best = count;

    for (size_t i = 0; i < count; i++)
        if (c[i].after > c[i].before + MORE && c[i].timed &&
            c[i].hours.p50 > MATTERS * c[i].humid &&
            (best == count || c[i].after > c[best].after))
            best = i;
    return best;
}

static void say_answer(const struct cli__fit *f,
                       const struct dew_learn_cause *c, size_t count)
{
    size_t best = likeliest(c, count);
    char text[TEXT];

    if (best == count)
        snprintf(text, sizeof text,
                 "Of %zu things that may make a house damp, and that you did "
                 "not tell of, %s makes none much likelier than it was thought "
                 "before whose end would make it much less humid.",
                 count, by(f));
    else
        snprintf(text, sizeof text,
                 "Why it is as damp as it is: %s makes likelier most of all "
                 "\"%s\", %s of 100 where %s were thought before. Go and look "
                 "before you spend on it.",
                 by(f), c[best].name, hundred(c[best].after).text,
                 hundred(c[best].before).text);
    cli__fit_say(f, text);
}

/* "640 (310 to 900) of 1,200" */
static struct report__word gone(const struct dew_learn_cause *c)
{
    struct report__word w;

    if (!c->timed)
        snprintf(w.text, sizeof w.text, "too few have it");
    else if (c->humid < 1)
        snprintf(w.text, sizeof w.text, "no hour was too humid");
    else
        snprintf(w.text, sizeof w.text, "%.20s (%.20s to %.20s) of %.20s",
                 report__number(c->hours.p50, 0).text,
                 report__number(c->hours.p10, 0).text,
                 report__number(c->hours.p90, 0).text,
                 report__number(c->humid, 0).text);
    return w;
}

static void row(const struct cli__fit *f, const struct dew_learn_cause *c)
{
    if (f->page)
        report__html_row(f->out, "%s|%s|%s|%s", c->name,
                         hundred(c->before).text, hundred(c->after).text,
                         gone(c).text);
    else
        fprintf(f->out, "  %-27s %8s %7s  %s\n", c->name,
                hundred(c->before).text, hundred(c->after).text, gone(c).text);
}

static void heads(const struct cli__fit *f)
{
    if (!f->page) {
        fprintf(f->out, "\n  %-27s %8s %7s  %s\n", "chance of 100 that",
                "thought", "now", "too humid hours gone without");
        return;
    }
    fputs("<div class=\"wide\"><table>", f->out);
    report__html_heads(f->out, "chance of 100 that|thought|now|too humid hours "
                               "gone without");
}

static void say_table(const struct cli__fit *f, const struct dew_learn_cause *c,
                      size_t count)
{
    char text[TEXT];
    int dries = 0;

    heads(f);
    for (size_t i = 0; i < count; i++) {
        row(f, &c[i]);
        dries |= c[i].timed && c[i].hours.p50 < 0;
    }
    if (f->page)
        fputs("</tbody></table></div>\n", f->out);
    cli__fit_gap(f);
    snprintf(text, sizeof text,
             "The last column is of houses that have it: half lose more hours "
             "than the first figure (1 in 10 fewer than the second, 1 in 10 "
             "more than the third), of so many hours %s. The chances thought "
             "before are our guesses, and those now hang on them. Only what "
             "you did not tell is asked.%s",
             f->fit != NULL ? "of the log" : "a year",
             dries ? " Where the hours are below 0 it dries more than it "
                     "dampens."
                   : "");
    cli__fit_say(f, text);
}

/* Names of a group, with commas between. */
static void names_of(const struct dew_learn_cause *c, size_t count,
                     size_t group, char *out, size_t size)
{
    size_t used = 0;

    out[0] = '\0';
    for (size_t i = 0; i < count && used < size; i++)
        if (c[i].together == group)
            used += (size_t)snprintf(out + used, size - used, "%s%s",
                                     used > 0 ? ", " : "", c[i].name);
}

static void say_together(const struct cli__fit *f,
                         const struct dew_learn_cause *c, size_t count)
{
    for (size_t i = 0, told = 0; i < count; i++) {
        char names[NAMES], text[TEXT];

        if (c[i].together <= told)
            continue;
        told = c[i].together;
        names_of(c, count, told, names, sizeof names);
        snprintf(text, sizeof text,
                 "Not told apart, the one does as the other: %s. That one of "
                 "them or more is so: %s of 100, where %s were thought before.",
                 names, hundred(c[i].any_after).text,
                 hundred(c[i].any_before).text);
        cli__fit_say(f, text);
    }
}

void cli__fit_why(const struct cli__fit *f)
{
    size_t count;
    const struct dew_learn_cause *c = dew_learn_causes(f->learn, &count);

    if (count == 0) {
        cli__fit_say(f,
                     "Nothing that may make the house damp is left open: the "
                     "scenario tells all that is in the table of causes.");
        cli__fit_gap(f);
        return;
    }
    say_answer(f, c, count);
    say_table(f, c, count);
    say_together(f, c, count);
    cli__fit_gap(f);
}

static json_t *hours_json(const struct dew_learn_cause *c)
{
    return c->timed ? cli__range(c->hours.p10, c->hours.p50, c->hours.p90)
                    : json_null();
}

json_t *cli__fit_why_json(const struct cli__fit *f)
{
    size_t count;
    const struct dew_learn_cause *c = dew_learn_causes(f->learn, &count);
    json_t *list = json_array();

    for (size_t i = 0; i < count; i++) {
        json_t *o =
            json_pack("{s:s, s:s, s:s, s:o, s:o, s:I}", "name", c[i].name,
                      "key", c[i].key, "source", c[i].source, "before",
                      cli__real(c[i].before), "after", cli__real(c[i].after),
                      "together", (json_int_t)c[i].together);

        o = cli__set(o, "any_before", cli__real(c[i].any_before));
        o = cli__set(o, "any_after", cli__real(c[i].any_after));
        o = cli__set(o, "too_humid_h",
                     c[i].timed ? cli__real(c[i].humid) : json_null());
        o = cli__set(o, "too_humid_h_gone", hours_json(&c[i]));
        list = cli__add(list, o);
    }
    return list;
}
