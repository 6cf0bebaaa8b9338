/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The house itself, as the log has it, in words and a table of 80 columns. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cli/fit.h"
#include "report/lay.h"
#include "report/words.h"

enum { TEXT = 2400, NAMES = 1000, FIGURE = 120 };
static const double OFF = 3.0; /* points of RH: our own                      */

static const char *path_of(const struct dew_learn_input *x)
{
    size_t keys;

    return dew_scenario_fields(&keys)[x->key].path;
}

static struct report__word number(double x, int decimals)
{
    return report__number(x, decimals);
}

/* ---- how near ---------------------------------------------------------------------- */

/* "5.6 points off (root mean square), 1.0 too dry on the mean" */
static struct report__word near_of(const struct dew_learn_near *n)
{
    struct report__word w;

    snprintf(w.text, sizeof w.text,
             "%.20s points off, %.20s too %s on the mean",
             number(n->rmse, 1).text, number(fabs(n->bias), 1).text,
             n->bias > 0 ? "humid" : "dry");
    return w;
}

static void say_further(const struct cli__fit *f, const struct dew_learned *l)
{
    char text[TEXT];

    if (l->further == 0)
        return;
    snprintf(text, sizeof text,
             "It went on for %zu more houses, as too few of the first %zu "
             "agreed with %s.",
             l->further, l->draws - l->further,
             l->readings > 0 ? "what you read" : "the log");
    cli__fit_say(f, text);
}

static void say_near_readings(const struct cli__fit *f,
                              const struct dew_learned *l)
{
    char text[TEXT];

    snprintf(text, sizeof text,
             "Beside the humidities you read (root mean square) the house as "
             "you told it is %s; the houses that they leave are %s.",
             near_of(&l->likely).text, near_of(&l->after).text);
    cli__fit_say(f, text);
    say_further(f, l);
    snprintf(text, sizeof text,
             "%zu houses were drawn and marched through a year of the place; "
             "weighed by %zu readings they are worth %s. A reading is taken to "
             "be off by what its instrument, another year and habits make of "
             "it, 3 to 5 points.",
             l->houses, l->readings, number(l->effective, 0).text);
    cli__fit_say(f, text);
}

static void say_near(const struct cli__fit *f, const struct dew_learned *l)
{
    char text[TEXT];

    snprintf(text, sizeof text,
             "Beside the log's relative humidity (root mean square of the "
             "hours) the house as you told it is %s; the houses that the log "
             "leaves are %s.",
             near_of(&l->likely).text, near_of(&l->after).text);
    cli__fit_say(f, text);
    if (l->after.rmse > OFF)
        cli__fit_say(
            f, "That is far: what this house does from season to season is "
               "in none of them, and was left out of the weighing. Take the "
               "figures for what the house does on the mean.");
}

static void say_draws(const struct cli__fit *f, const struct dew_learned *l)
{
    char text[TEXT];

    say_further(f, l);
    snprintf(text, sizeof text,
             "%zu houses were drawn and marched through %s days of the log; "
             "weighed by it they are worth %s. The day's mean is weighed, not "
             "the hours: when people shower is in no log. Habits that follow "
             "the seasons are left out.",
             l->houses, number(l->days, 0).text, number(l->effective, 0).text);
    cli__fit_say(f, text);
    if (l->told_run > 0) {
        snprintf(text, sizeof text,
                 "In %s hours the coil of each ran as long as the log says of "
                 "it%s, the air at the log's temperature.",
                 number((double)l->told_run, 0).text,
                 l->told_fan > 0 ? ", and so did the blower" : "");
        cli__fit_say(f, text);
    } else if (l->cooled)
        cli__fit_say(
            f, "While it was warm outdoors and the log stood at its "
               "thermostat that ran the coil; else the houses were held at "
               "the log's temperature.");
    if (l->typical)
        cli__fit_say(f,
                     "Wind and sun are those of a typical year, not of these "
                     "days: the leakage is less sure than it looks.");
}

/* ---- what moved -------------------------------------------------------------------- */

static void row(const struct cli__fit *f, const struct dew_learn_input *x)
{
    char before[FIGURE], after[FIGURE], name[FIGURE];

    snprintf(name, sizeof name, "%s%s", path_of(x), x->usual ? " *" : "");
    dew_learn_show(f->learn, x, 0, before, sizeof before);
    dew_learn_show(f->learn, x, 1, after, sizeof after);
    fprintf(f->out, "%s\n  thought  %s\n  now      %s%s\n", name, before, after,
            x->end > 0   ? "  at its high end"
            : x->end < 0 ? "  at its low end"
                         : "");
}

static size_t count_moved(const struct dew_learn_input *x, size_t count)
{
    size_t n = 0;

    for (size_t i = 0; i < count; i++)
        n += (size_t)x[i].moved;
    return n;
}

static const char *what(const struct cli__fit *f)
{
    return f->fit != NULL ? "this log" : "what you read";
}

static const char *tells(const struct cli__fit *f)
{
    return f->fit != NULL ? "the log tells" : "your readings tell";
}

static void say_moved(const struct cli__fit *f)
{
    size_t count, moved;
    const struct dew_learn_input *x = dew_learn_inputs(f->learn, &count);
    char text[TEXT];

    moved = count_moved(x, count);
    if (moved == 0) {
        cli__fit_say(
            f, "Nothing is learned of the house's figures that was not "
               "thought before: every house of your description can do it.");
        return;
    }
    snprintf(text, sizeof text,
             "Of %zu figures in doubt %s something of %s: half of "
             "the houses have less (1 in 10 less than the first figure in "
             "brackets, 1 in 10 more than the second).",
             count, tells(f),
             moved == 1 ? "one" : number((double)moved, 0).text);
    cli__fit_say(f, text);
    cli__fit_gap(f);
    for (size_t i = 0; i < count && !f->page; i++)
        if (x[i].moved)
            row(f, &x[i]);
    cli__fit_inputs_page(f);
    for (size_t i = 0; i < count; i++)
        if (x[i].moved && x[i].usual) {
            cli__fit_say(f, "* you did not tell it: thought is what is "
                            "usual");
            break;
        }
}

static void say_pairs(const struct cli__fit *f)
{
    size_t count, inputs;
    const struct dew_learn_pair *p = dew_learn_pairs(f->learn, &count);
    const struct dew_learn_input *x = dew_learn_inputs(f->learn, &inputs);
    char text[TEXT];

    for (size_t i = 0; i < count; i++) {
        snprintf(text, sizeof text,
                 "Not told apart: more of %s with %s of %s does the same "
                 "(correlation %s).",
                 path_of(&x[p[i].a]), p[i].r > 0 ? "more" : "less",
                 path_of(&x[p[i].b]), number(p[i].r, 2).text);
        cli__fit_say(f, text);
    }
}

/* ---- what is ruled out --------------------------------------------------------------- */

/* Figures pushed to an end, with commas between. */
static void ends(const struct cli__fit *f, char *out, size_t size)
{
    size_t count, used = 0;
    const struct dew_learn_input *x = dew_learn_inputs(f->learn, &count);

    out[0] = '\0';
    for (size_t i = 0; i < count && used < size; i++)
        if (x[i].end != 0)
            used += (size_t)snprintf(out + used, size - used, "%s%s (%s)",
                                     used > 0 ? ", " : "", path_of(&x[i]),
                                     x[i].end > 0 ? "high" : "low");
}

/* Where nothing is told, what cannot give way is where to look. */
static void say_sure(const struct cli__fit *f, const char *sure)
{
    char text[TEXT];

    if (dew_learn_learned(f->learn)->told || sure[0] == '\0')
        return;
    snprintf(text, sizeof text,
             "Look first at what you gave without a range, which cannot give "
             "way: %s.",
             sure);
    cli__fit_say(f, text);
}

/* What nobody told of, where it is damper or drier than any house. */
static void say_beyond(const struct cli__fit *f, const struct dew_learned *l)
{
    if (l->reach > DEW_LEARN_REACH)
        cli__fit_say(f, "What would make it drier: more air than you told, by "
                        "leaks, fans or windows, fewer people; or a sensor "
                        "that reads low (log.reads).");
    else if (l->reach < -DEW_LEARN_REACH)
        cli__fit_say(
            f, f->why
                   ? "Or a sensor reads high (log.reads)."
                   : "What would make it damper: less air than you told, or "
                     "water that you did not tell of (--why asks for wet "
                     "ground, laundry, a heater without a flue and others); or "
                     "a sensor that reads high (log.reads).");
}

/* Where to look when the log wants what was not thought. */
static void say_look(const struct cli__fit *f)
{
    char names[NAMES], sure[NAMES], text[TEXT];

    ends(f, names, sizeof names);
    dew_learn_sure(f->learn, sure, sizeof sure);
    if (names[0] == '\0') {
        say_sure(f, sure);
        return;
    }
    snprintf(
        text, sizeof text,
        "Pushed to the end of what was thought possible: %s. Look at these "
        "first%s%s%s",
        names,
        sure[0] != '\0' ? ", and at what you gave without a range, which "
                          "cannot give way: "
                        : "",
        sure, ".");
    cli__fit_say(f, text);
}

static void say_untold(const struct cli__fit *f, const struct dew_learned *l)
{
    char text[TEXT];

    if (fabs(l->reach) > DEW_LEARN_REACH)
        snprintf(text, sizeof text,
                 "No house of your description is as %s as %s: of %zu "
                 "the likeliest is %s.",
                 l->reach > 0 ? "dry" : "damp", what(f), l->houses,
                 near_of(&l->best).text);
    else if (l->innovation > DEW_LEARN_INNOVATION)
        snprintf(text, sizeof text,
                 "No house of your description goes up and down as %s does: of "
                 "%zu the likeliest is %s.",
                 what(f), l->houses, near_of(&l->best).text);
    else
        snprintf(text, sizeof text,
                 "Too few houses of your description do what %s shows to tell "
                 "anything of them: %zu drawn are worth %s when weighed by it, "
                 "and %d are the least. The likeliest is %s.",
                 what(f), l->houses, number(l->effective, 0).text,
                 DEW_LEARN_ENOUGH, near_of(&l->best).text);
    cli__fit_say(f, text);
    say_further(f, l);
    say_look(f);
    say_beyond(f, l);
    cli__fit_say(f, "Wider ranges may hold the house, or more draws find it "
                    "(--draws 16384). Nothing is told of its figures.");
}

void cli__fit_house(const struct cli__fit *f)
{
    const struct dew_learned *l = dew_learn_learned(f->learn);

    if (l->told) {
        if (f->why)
            cli__fit_why(f);
        cli__fit_print_options(f);
        say_moved(f);
        say_pairs(f);
        cli__fit_gap(f);
        say_look(f);
        if (l->readings > 0)
            say_near_readings(f, l);
        else {
            say_near(f, l);
            say_draws(f, l);
        }
    } else
        say_untold(f, l);
}

/* ---- JSON ---------------------------------------------------------------------------- */

static json_t *near_json(const struct dew_learn_near *n)
{
    return json_pack("{s:o, s:o}", "rmse_rh_pct", cli__real(n->rmse),
                     "bias_rh_pct", cli__real(n->bias));
}

static json_t *range_json(const struct dew_evidence_range *r)
{
    return cli__range(r->p10, r->p50, r->p90);
}

static json_t *input_json(const struct cli__fit *f,
                          const struct dew_learn_input *x)
{
    static const char *const how[] = {"si",   "si",     "times_usual",
                                      "step", "within", "word"};
    char before[FIGURE], after[FIGURE];
    json_t *o = json_pack("{s:s, s:b, s:b, s:i, s:s}", "key", path_of(x),
                          "usual", x->usual, "moved", x->moved, "end", x->end,
                          "of", how[x->how]);

    o = cli__set(o, "before", range_json(&x->before));
    o = cli__set(o, "after", range_json(&x->after));
    o = cli__set(o, "score_mean", cli__real(x->mean));
    o = cli__set(o, "score_sd", cli__real(x->sd));
    dew_learn_show(f->learn, x, 0, before, sizeof before);
    dew_learn_show(f->learn, x, 1, after, sizeof after);
    o = cli__set(o, "before_words", json_string(before));
    return cli__set(o, "after_words", json_string(after));
}

static json_t *inputs_json(const struct cli__fit *f)
{
    size_t count;
    const struct dew_learn_input *x = dew_learn_inputs(f->learn, &count);
    json_t *list = json_array();

    for (size_t i = 0; i < count; i++)
        list = cli__add(list, input_json(f, &x[i]));
    return list;
}

static json_t *pairs_json(const struct cli__fit *f)
{
    size_t count, inputs;
    const struct dew_learn_pair *p = dew_learn_pairs(f->learn, &count);
    const struct dew_learn_input *x = dew_learn_inputs(f->learn, &inputs);
    json_t *list = json_array();

    for (size_t i = 0; i < count; i++)
        list = cli__add(
            list, json_pack("{s:s, s:s, s:o}", "a", path_of(&x[p[i].a]), "b",
                            path_of(&x[p[i].b]), "r", cli__real(p[i].r)));
    return list;
}

json_t *cli__fit_house_json(const struct cli__fit *f)
{
    const struct dew_learned *l =
        f->learn != NULL ? dew_learn_learned(f->learn) : NULL;
    json_t *o;

    if (l == NULL)
        return json_null();
    o = json_pack("{s:I, s:I, s:I, s:o, s:b, s:o}", "draws",
                  (json_int_t)l->draws, "further_draws", (json_int_t)l->further,
                  "houses", (json_int_t)l->houses, "effective_draws",
                  cli__real(l->effective), "told", l->told, "days",
                  cli__real(l->days));
    o = cli__set(o, "readings", json_integer((json_int_t)l->readings));
    o = cli__set(o, "run_told_h", json_integer((json_int_t)l->told_run));
    o = cli__set(o, "blower_told_h", json_integer((json_int_t)l->told_fan));
    o = cli__set(o, "innovation_rms", cli__real(l->innovation));
    o = cli__set(o, "reach_sd", cli__real(l->reach));
    o = cli__set(o, "as_told", near_json(&l->likely));
    o = cli__set(o, "likeliest", near_json(&l->best));
    o = cli__set(o, "after", l->told ? near_json(&l->after) : json_null());
    o = cli__set(o, "inputs", l->told ? inputs_json(f) : json_null());
    o = cli__set(o, "together", l->told ? pairs_json(f) : json_null());
    o = cli__set(o, "causes",
                 l->told && f->why ? cli__fit_why_json(f) : json_null());
    o = cli__set(o, "options", cli__fit_options_json(f));
    o = cli__set(o, "drawn_anew", cli__fit_left_out_json(f));
    o = cli__set(o, "slow_sd_pct", cli__real(l->noise.slow));
    o = cli__set(o, "slow_time_d", cli__real(l->noise.slow_hours));
    return cli__set(o, "white_sd_pct", cli__real(l->noise.white));
}
