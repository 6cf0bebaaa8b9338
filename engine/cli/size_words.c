/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sizes in sentences: a paragraph for each core. */
#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "cli/size.h"
#include "report/lay.h"

enum { TEXT = 2000 };

/* ---- amounts -------------------------------------------------------------------- */

static const struct dew_value *value_of(const struct dew_run *run,
                                        const char *key)
{
    size_t keys;
    const struct dew_field *fields = dew_scenario_fields(&keys);
    const struct dew_value *v =
        dew_scenario_values(dew_run_scenario(run), dew_run_option(run, 0));

    return &v[dew_scenario_field(key) - fields];
}

/* Air as everywhere; water as labels have it: pints or litres a day. */
static const struct dew_unit *unit_of(const struct cli__size *s,
                                      enum dew_size_knob knob)
{
    const char *label = s->system == DEW_SYSTEM_US ? "pint/day" : "L/day";

    switch (knob) {
    case DEW_SIZE_dehumidifier:
        return dew_unit_find(label, strlen(label), DEW_WATER_RATE);
    case DEW_SIZE_set_point:
    case DEW_SIZE_humidifier:
        return dew_unit_find("%", 1, DEW_PURE);
    default:
        return report__unit(DEW_FLOW, s->system);
    }
}

struct report__word cli__size_amount(const struct cli__size *s,
                                     enum dew_size_knob knob, double si,
                                     int way)
{
    const double hair = 1e-6;
    const struct dew_unit *unit = unit_of(s, knob);
    double x = si / unit->factor;
    struct report__word w;

    x = way > 0 ? ceil(x - hair) : way < 0 ? floor(x + hair) : x;
    snprintf(w.text, sizeof w.text, "%.40s %.40s", report__number(x, 0).text,
             unit->name);
    return w;
}

static struct report__word flow(const struct cli__size *s, double si)
{
    return cli__size_amount(s, DEW_SIZE_flow, si, 0);
}

struct report__word cli__size_core(const struct cli__size *s,
                                   enum dew_size_core core)
{
    static const char *const words[] = {
#define X(name, said, core) said,
        DEW_SIZE_CORE_MAP(X)
#undef X
    };
    struct report__word w;
    const char *why;
    const struct dew_run *run = dew_size_run(s->size, core, &why);
    int kind = run != NULL ? value_of(run, "ventilator.core")->choice : 0;

    snprintf(w.text, sizeof w.text, "%s", words[core]);
    if (core == DEW_SIZE_CORE_own)
        snprintf(w.text, sizeof w.text, "the %s as told",
                 kind >= (int)DEW_CORE_enthalpy_plate ? "enthalpy core"
                 : kind == (int)DEW_CORE_heat_plate   ? "heat core"
                                                      : "ventilator");
    return w;
}

static struct report__word limit(const struct cli__size *s, const char *key)
{
    return report__percent(value_of(s->run, key)->amount.si);
}

double cli__size_middle(const struct dew_draws_range *r)
{
    return isnan(r->p50) ? r->told : r->p50;
}

static void add(char *text, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

static void add(char *text, const char *format, ...)
{
    size_t used = strlen(text);
    va_list list;

    va_start(list, format);
    vsnprintf(text + used, TEXT - used, format, list);
    va_end(list);
}

/* ---- why none does ---------------------------------------------------------------- */

/* The limit that most houses break at a point, the air apart. */
static enum dew_drawn_what worst(const struct dew_size_point *p)
{
    enum dew_drawn_what most = DEW_DRAWN_too_humid;

    if (p->fails[DEW_DRAWN_too_dry] > p->fails[most])
        most = DEW_DRAWN_too_dry;
    if (p->fails[DEW_DRAWN_glass_wet] > p->fails[most])
        most = DEW_DRAWN_glass_wet;
    return most;
}

/* By the hours of the middle house; where it keeps the limit, by the houses
   that do not. */
static void add_broken(const struct cli__size *s, char *text,
                       const struct dew_size_point *p)
{
    enum dew_drawn_what what = worst(p);
    double hours = cli__size_middle(&p->hours[what]);

    if (what == DEW_DRAWN_glass_wet)
        add(text, "the glass is wet");
    else if (what == DEW_DRAWN_too_humid)
        add(text, "it is above %s", limit(s, "limits.too_humid").text);
    else
        add(text, "it is below %s", limit(s, "limits.too_dry").text);
    if (hours > s->target.hours || s->target.draws == 0)
        add(text, " in %s of the year", report__hours(hours).text);
    else
        add(text, " for too long in %zu of them", p->fails[what]);
}

/* The first point with the air asked for; the last one where none has it. */
static const struct dew_size_point *with_air(const struct dew_size_curve *c)
{
    size_t i = 0;

    while (i + 1 < c->count &&
           c->houses - c->points[i].fails[DEW_DRAWN_short_of_air] < c->need)
        i++;
    return &c->points[i];
}

static void add_why_no_flow(const struct cli__size *s, char *text,
                            const struct dew_size_curve *c)
{
    const struct dew_size_point *near = &c->points[c->nearest];
    const struct dew_size_point *p = with_air(c);

    if (c->breaks == DEW_DRAWN_short_of_air && near->value < p->value)
        add(text,
            " %s keeps the limits in most houses but brings less than the air "
            "asked for;",
            flow(s, near->value).text);
    add(text, " at %s ", flow(s, p->value).text);
    if (p->fails[DEW_DRAWN_short_of_air] + c->need > c->houses)
        add(text,
            "it still brings less than the air asked for in too many: its "
            "control or its frost protection holds it back");
    else
        add_broken(s, text, p);
}

/* ---- the answer --------------------------------------------------------------------- */

static void add_flow(const struct cli__size *s, char *text,
                     const struct dew_size_curve *c)
{
    const char *air = c->knob == DEW_SIZE_boost ? "boost" : "airflow";

    if (!c->found) {
        add(text, "no %s alone is enough:", air);
        add_why_no_flow(s, text, c);
    } else {
        add(text, "%s of %s alone is enough", air,
            cli__size_amount(s, c->knob, c->low, 1).text);
        if (c->at_last)
            add(text, ", and more (tried up to %s)", flow(s, c->high).text);
        else
            add(text, ", and more than %s is too much",
                cli__size_amount(s, c->knob, c->high, -1).text);
        if (c->stretches > 1)
            add(text, "; a flow above that is enough again: see the table");
    }
    add(text, ". ");
}

static void add_turns(const struct cli__size *s, char *text,
                      const struct dew_size_curve *c)
{
    double damper = dew_size_turn(c, DEW_DRAWN_too_humid);
    double drier = dew_size_turn(c, DEW_DRAWN_too_dry);

    if (!isnan(damper))
        add(text, "More air makes it damper above %s%s", flow(s, damper).text,
            isnan(drier) ? ". " : ", ");
    if (!isnan(drier))
        add(text, "%s above %s. ",
            isnan(damper) ? "More air makes it too dry more often"
                          : "and too dry more often",
            flow(s, drier).text);
}

static const char *label_test(const struct cli__size *s)
{
    static const char *const tests[] = {"65 degF", "80 degF", "73 degF"};
    int word = value_of(s->run, "dehumidifier.rating")->choice;

    return tests[word >= 0 && word < 3 ? word : 0];
}

static void add_dryer(const struct cli__size *s, char *text,
                      const struct dew_size_curve *c)
{
    const struct dew_size_curve *set =
        dew_size_find(s->size, c->core, DEW_SIZE_set_point);

    if (!c->found) {
        add(text, "At %s no dehumidifier up to %s is enough: ",
            flow(s, c->at_flow).text,
            cli__size_amount(s, c->knob, c->points[c->count - 1].value, 0)
                .text);
        add_broken(s, text, &c->points[c->nearest]);
        add(text, ". ");
        return;
    }
    add(text,
        "At %s, a dehumidifier of %s by its label (test at %s) keeps it below "
        "%s%s. ",
        flow(s, c->at_flow).text, cli__size_amount(s, c->knob, c->low, 1).text,
        label_test(s), limit(s, "limits.too_humid").text,
        c->at_first ? "; smaller ones were not tried" : "");
    if (set != NULL && set->found)
        add(text, "One of %s may be set to %s at most. ",
            cli__size_amount(s, DEW_SIZE_dehumidifier, set->rate, 1).text,
            cli__size_amount(s, set->knob, set->high, -1).text);
}

static void add_humidifier(const struct cli__size *s, char *text,
                           const struct dew_size_curve *c)
{
    if (!c->found) {
        add(text, "At %s no setting of a humidifier is enough: at %s ",
            flow(s, c->at_flow).text,
            cli__size_amount(s, c->knob, c->points[c->nearest].value, 0).text);
        add_broken(s, text, &c->points[c->nearest]);
        add(text, ". ");
        return;
    }
    add(text, "At %s, a humidifier set to %s keeps it above %s",
        flow(s, c->at_flow).text, cli__size_amount(s, c->knob, c->low, 1).text,
        limit(s, "limits.too_dry").text);
    if (!c->at_last)
        add(text, "; above %s the glass stays wet too long",
            cli__size_amount(s, c->knob, c->high, -1).text);
    add(text, ". ");
}

/* The sizes found, in one house at once. */
static void add_together(const struct cli__size *s, char *text,
                         const struct dew_size_curve *c)
{
    const struct dew_size_point *p = &c->points[0];

    if (s->target.draws == 0)
        add(text, "Together %s", p->enough ? "that is enough" : "it is not: ");
    else
        add(text, "Together that is enough in %zu of the %zu houses drawn%s",
            p->does, c->houses, p->enough ? "" : ", too few: ");
    if (!p->enough)
        add_broken(s, text, p);
    add(text, ". ");
}

static void say_core(const struct cli__size *s, enum dew_size_core core)
{
    static void (*const adds[DEW_SIZE_KNOBS])(
        const struct cli__size *s, char *text,
        const struct dew_size_curve *c) = {[DEW_SIZE_flow] = add_flow,
                                           [DEW_SIZE_boost] = add_flow,
                                           [DEW_SIZE_dehumidifier] = add_dryer,
                                           [DEW_SIZE_humidifier] =
                                               add_humidifier,
                                           [DEW_SIZE_together] = add_together};
    char text[TEXT] = "";

    if (dew_size_find(s->size, core, DEW_SIZE_flow) == NULL)
        return;
    add(text, "With %s: ", cli__size_core(s, core).text);
    for (int k = 0; k < DEW_SIZE_KNOBS; k++) {
        const struct dew_size_curve *c =
            dew_size_find(s->size, core, (enum dew_size_knob)k);

        if (c != NULL && adds[k] != NULL)
            adds[k](s, text, c);
    }
    add_turns(s, text, dew_size_find(s->size, core, DEW_SIZE_flow));
    cli__wrap(stdout, 0, text);
}

static int any_fails(const struct cli__size *s)
{
    for (int k = 0; k < DEW_SIZE_CORES; k++) {
        const struct dew_size_curve *c =
            dew_size_find(s->size, (enum dew_size_core)k, DEW_SIZE_flow);

        if (c != NULL && !c->found)
            return 1;
    }
    return 0;
}

/* Of the weather, where no airflow is enough: what none can be better than. */
static void say_outdoors(const struct cli__size *s)
{
    const struct dew_size_outdoors out = dew_size_outdoors(s->size);
    char text[TEXT] = "Outdoor air, once at room temperature, is itself";
    int damp = out.too_humid > s->target.hours;
    int dry = out.too_dry > s->target.hours;

    if (damp)
        add(text,
            " above %s in %s of the year: no airflow alone dries the "
            "house then",
            limit(s, "limits.too_humid").text,
            report__hours(out.too_humid).text);
    if (dry)
        add(text, "%s below %s in %s: the more of it, the drier the rooms",
            damp ? ". It is" : "", limit(s, "limits.too_dry").text,
            report__hours(out.too_dry).text);
    add(text, ".");
    if ((damp || dry) && any_fails(s))
        cli__wrap(stdout, 0, text);
}

static void say_untried(const struct cli__size *s)
{
    for (int k = DEW_SIZE_CORE_own + 1; k < DEW_SIZE_CORES; k++) {
        char text[TEXT] = "";
        const char *why;

        if (dew_size_run(s->size, (enum dew_size_core)k, &why) == NULL &&
            why[0] != '\0') {
            add(text, "Not tried: %s (%s).",
                cli__size_core(s, (enum dew_size_core)k).text, why);
            cli__wrap(stdout, 0, text);
        }
    }
}

/* Which core is the better one, at the air asked for. */
static void say_better(const struct cli__size *s)
{
    char text[TEXT] = "";
    struct dew_size_best b = {0};
    size_t i = 0;
    int named = 0;

    while (dew_size_best(s->size, i++, &b) &&
           fabs(b.flow - s->target.asked) > 1e-3 * s->target.asked)
        b.houses = 0;
    if (b.houses == 0)
        return;
    add(text, "At %s, of the %zu houses drawn,", flow(s, b.flow).text,
        b.houses);
    for (int k = 0; k < DEW_SIZE_CORES; k++) {
        if (dew_size_find(s->size, (enum dew_size_core)k, DEW_SIZE_flow) ==
            NULL)
            continue;
        add(text, " %s %s %zu,", cli__size_core(s, (enum dew_size_core)k).text,
            named++ > 0 ? "in"
                        : "is outside the limits for the fewest hours in",
            b.best[k]);
    }
    text[strlen(text) - 1] = '\0';
    if (b.alike > 0)
        add(text, "; in %zu they are less than a day apart", b.alike);
    add(text, ".");
    cli__wrap(stdout, 0, text);
}

static void say_question(const struct cli__size *s)
{
    const struct dew_scenario *scenario = dew_run_scenario(s->run);
    char text[TEXT] = "", name[160];

    add(text,
        "How much is enough for \"%s\", all else as told? Enough keeps it "
        "between %s and %s and the glass dry, but for %.0f hours of the year "
        "each, and brings the %s of fresh air asked for",
        core__clean(dew_scenario_name(scenario, dew_run_option(s->run, 0)),
                    name, sizeof name),
        limit(s, "limits.too_dry").text, limit(s, "limits.too_humid").text,
        s->target.hours, flow(s, s->target.asked).text);
    if (s->target.draws > 0)
        add(text, ", in %.0f of 100 houses like yours", 100 * s->target.share);
    add(text, ".");
    cli__wrap(stdout, 0, text);
}

void cli__size_say(const struct cli__size *s)
{
    say_question(s);
    putchar('\n');
    for (int k = 0; k < DEW_SIZE_CORES; k++)
        say_core(s, (enum dew_size_core)k);
    say_better(s);
    say_outdoors(s);
    if (value_of(s->run, "dehumidifier.observed")->given)
        cli__wrap(stdout, 0,
                  "Its dehumidifier, told by what it is seen to take out, runs "
                  "as told; none is sized.");
    say_untried(s);
}
