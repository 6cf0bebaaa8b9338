/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings of one kind about several options, in one sentence. */
#include <math.h>
#include <string.h>

#include "report/telling.h"

enum { OPTIONS = 64, EACH = 4 }; /* told each; of more, the least and most */

/* Findings told together; the telling's is the first of them. */
struct many {
    struct telling *t;
    const struct dew_finding *const *list;
    size_t count;
};

/* ", " or " and " before the item at. */
static const char *joint(const struct many *m, size_t at)
{
    return at == 0 ? "" : at + 1 == m->count ? " and " : ", ";
}

static const char *name(const struct many *m, size_t at,
                        struct report__word *room)
{
    *room = report__option(m->t->r, m->list[at]->option);
    return room->text;
}

static void say_all_names(const struct many *m)
{
    int options[OPTIONS];

    for (size_t i = 0; i < m->count; i++)
        options[i] = m->list[i]->option;
    report__say_names(m->t, options, m->count);
}

typedef double figure(const struct dew_finding *f);

/* Where the least and the most of a figure stand. */
static void ends(const struct many *m, figure *of, size_t *least, size_t *most)
{
    *least = *most = 0;
    for (size_t i = 1; i < m->count; i++) {
        if (of(m->list[i]) < of(m->list[*least]))
            *least = i;
        if (of(m->list[i]) > of(m->list[*most]))
            *most = i;
    }
}

/* ---- damper, drier ---------------------------------------------------------- */

static double worse_humid(const struct dew_finding *f)
{
    return f->number.air_worsens.humid;
}

static double grown_dry(const struct dew_finding *f)
{
    return f->number.grows_dry.dry;
}

/* "1,653 hours a year with "a" and 1,669 with "b"", or from least to most. */
static void say_hours(const struct many *m, figure *of)
{
    struct report__word a, b;
    size_t least, most;

    if (m->count <= EACH) {
        for (size_t i = 0; i < m->count; i++)
            report__say(m->t, "%s%s%s with \"%s\"", joint(m, i),
                        report__number(of(m->list[i]), 0).text,
                        i == 0 ? " hours a year" : "", name(m, i, &a));
        return;
    }
    ends(m, of, &least, &most);
    report__say(m->t, "from %s hours a year with \"%s\" to %s with \"%s\"",
                report__number(of(m->list[least]), 0).text, name(m, least, &a),
                report__number(of(m->list[most]), 0).text, name(m, most, &b));
}

/* " with 10 of the options", where not each is told. */
static void say_how_many(const struct many *m)
{
    if (m->count > EACH)
        report__say(m->t, " with %zu of the options", m->count);
}

/* "The house gets damper: too humid in 1,265 hours ..., instead of 189 today." */
static void say_change(const struct many *m, const char *to, const char *what,
                       figure *of, double today)
{
    report__say(m->t, "The house gets %s", to);
    say_how_many(m);
    report__say(m->t, ": %s%s", what, m->count > EACH ? "" : "in ");
    say_hours(m, of);
    report__say(m->t, ", instead of %s today.", report__number(today, 0).text);
}

static void worsen(const struct many *m)
{
    say_change(m, "damper", "too humid ", worse_humid,
               m->list[0]->number.air_worsens.today);
}

static void grow_dry(const struct many *m)
{
    say_change(m, "too dry", "", grown_dry, m->list[0]->number.grows_dry.today);
}

static void saturate(const struct many *m)
{
    struct report__word a;

    report__say(m->t, "The rooms' air is as full of water as air can be "
                      "(100 %%) in ");
    for (size_t i = 0; i < m->count; i++)
        report__say(
            m->t, "%s%s%s with \"%s\"", joint(m, i),
            report__number(m->list[i]->number.saturated.saturated, 0).text,
            i == 0 ? " hours" : "", name(m, i, &a));
    report__say(m->t,
                ": what comes in beyond that turns to fog and wet surfaces.");
}

static void grow_mould(const struct many *m)
{
    static const char *const faces[DEW_SURFACES] = {
        "window glass", "window frame and glass edge", "coldest corner"};
    struct report__word a;

    report__say(m->t,
                "By the model visible mould would grow (mould index of "
                "6 in the year, and after ten such years; %s is "
                "visible): ",
                report__number(DEW_MOULD_LIMIT, 0).text);
    for (size_t i = 0; i < m->count; i++) {
        const struct dew_numbers_mould *n = &m->list[i]->number.mould;

        report__say(m->t, "%swith \"%s\" on the %s (%s, %s)", joint(m, i),
                    name(m, i, &a), faces[n->surface],
                    report__number(n->index, 1).text,
                    report__number(n->after_ten_years, 1).text);
    }
    report__say(m->t, ". Look there.");
}

/* ---- what the coil leaves open ---------------------------------------------- */

static void leave_coil(const struct many *m)
{
    int decided[OPTIONS];
    struct report__word a;
    size_t count = 0;

    report__say(m->t, "How much water the blower takes back from the wet coil "
                      "is not well known: ");
    for (size_t i = 0; i < m->count; i++) {
        const struct dew_numbers_coil_today *n =
            &m->list[i]->number.coil_option;

        report__say(m->t, "%s\"%s\"%s %s to %s%s", joint(m, i), name(m, i, &a),
                    i == 0 ? " could be too humid in" : "",
                    report__number(n->low, 0).text,
                    report__number(n->high, 0).text, i == 0 ? " hours" : "");
        report__say(m->t, " instead of %s", report__number(n->likely, 0).text);
        if (n->decides)
            decided[count++] = m->list[i]->option;
    }
    report__say(m->t, ".");
    if (count == 0)
        return;
    report__say(m->t, " Whether ");
    if (count == m->count)
        report__say(m->t, "they");
    else
        report__say_names(m->t, decided, count);
    report__say(m->t, " keep%s the limits hangs on that.",
                count > 1 ? "" : "s");
}

/* ---- the blower, and ducts tied to it ----------------------------------------- */

static double blown(const struct dew_finding *f)
{
    return f->number.blower_cost.blower / CORE__KWH;
}

static double put_back(const struct dew_finding *f)
{
    return f->number.blower_cost.reevaporation;
}

/* "718" or "718 to 722". */
static void say_span(const struct many *m, figure *of, double factor)
{
    size_t least, most;
    struct report__word low, high;

    ends(m, of, &least, &most);
    low = report__number(of(m->list[least]) / factor, 0);
    high = report__number(of(m->list[most]) / factor, 0);
    report__say(m->t, strcmp(low.text, high.text) == 0 ? "%s" : "%s to %s",
                low.text, high.text);
}

static void run_blower(const struct many *m)
{
    const struct dew_unit *u = report__unit(DEW_WATER, m->t->r->system);
    size_t least, most;

    report__say(m->t, "With ");
    say_all_names(m);
    report__say(m->t, " the air handler's blower runs for the fresh air too: ");
    say_span(m, blown, 1);
    report__say(m->t, " kWh a year more than today");
    ends(m, put_back, &least, &most);
    if (put_back(m->list[least]) > 1) {
        report__say(m->t, ", and it blows ");
        say_span(m, put_back, u->factor);
        report__say(m->t,
                    " %s more water a year from the wet cooling coil back "
                    "into the rooms",
                    u->name);
    }
    report__say(m->t, ".");
}

/* Each in brackets with what speaks against it. */
static void say_ties(const struct many *m)
{
    struct report__word a;

    for (size_t i = 0; i < m->count; i++) {
        const struct dew_numbers_tie_fine *n = &m->list[i]->number.tie_fine;
        int faulty = n->short_circuits || n->lacks_air || n->damper || n->wet ||
                     n->dear || n->puts_back;

        report__say(m->t, "%s\"%s\"", joint(m, i), name(m, i, &a));
        report__say_tie_faults(m->t, " (", n);
        report__say(m->t, faulty ? ")" : "");
    }
}

static void harm(const struct many *m)
{
    int own = m->list[0]->other;

    report__say(m->t, "Tied into the air handler's ducts, these do harm");
    if (own != DEW_NO_OPTION)
        report__say(m->t, " beside the own ducts of \"%s\"",
                    report__option(m->t->r, own).text);
    report__say(m->t, ": ");
    say_ties(m);
    report__say(m->t, ".");
}

static void keep_up(const struct many *m)
{
    say_ties(m);
    report__say(m->t, " do as well as the own ducts of \"%s\".",
                report__option(m->t->r, m->list[0]->other).text);
}

/* ---- too little air ------------------------------------------------------------ */

static void starve(const struct many *m)
{
    struct report__word a;
    double asked = NAN;

    report__say(m->t, "Too little fresh air: ");
    for (size_t i = 0; i < m->count; i++) {
        const struct dew_numbers_under_ventilated *n =
            &m->list[i]->number.under_ventilated;

        report__say(
            m->t, "%s\"%s\" brings %s", joint(m, i), name(m, i, &a),
            report__amount(n->fresh, DEW_FLOW, m->t->r->system, 0).text);
        if (n->required != asked)
            report__say(
                m->t, " of the %s asked for",
                report__amount(n->required, DEW_FLOW, m->t->r->system, 0).text);
        asked = n->required;
    }
    report__say(m->t, ".");
}

/* ---- money ---------------------------------------------------------------------- */

static double dearer(const struct dew_finding *f)
{
    return -f->number.never_pays.saved;
}

/* "$183" or "$183 to $607". */
static void say_dearer(const struct many *m)
{
    size_t least, most;
    struct report__word low, high;

    ends(m, dearer, &least, &most);
    low = report__money(m->t->r, dearer(m->list[least]));
    high = report__money(m->t->r, dearer(m->list[most]));
    report__say(m->t, strcmp(low.text, high.text) == 0 ? "%s" : "%s to %s",
                low.text, high.text);
}

static int gets_air(const struct dew_report *r, int option)
{
    return dew_verdict_fresh(r->question, (size_t)option) >
           dew_verdict_fresh(r->question, 0);
}

/* Fewer hours too humid, and not by making the house too dry. */
static int gets_dry(const struct dew_report *r, int option)
{
    const struct dew_tally *base = study__year(r->question, 0);
    const struct dew_tally *y = study__year(r->question, (size_t)option);

    return y->too_humid < base->too_humid &&
           y->too_dry <= study__allowed(r->question,
                                        r->question->choices[option].outcome);
}

/* "fresh air", with whom where not all have it; returns whether any has. */
static int say_got(const struct many *m, const char *lead, const char *what,
                   int (*has)(const struct dew_report *r, int option))
{
    int options[OPTIONS];
    size_t count = 0;

    for (size_t i = 0; i < m->count; i++)
        if (has(m->t->r, m->list[i]->option))
            options[count++] = m->list[i]->option;
    if (count == 0)
        return 0;
    report__say(m->t, "%s%s", lead, what);
    if (count < m->count) {
        report__say(m->t, " with ");
        report__say_names(m->t, options, count);
    }
    return 1;
}

/* Options that cost more to install than today, whether they pay or not. */
static size_t bought(const struct dew_report *r)
{
    size_t count = 0;

    for (size_t i = 0; i < r->verdict->count; i++)
        count += r->verdict->list[i].kind == DEW_FINDING_pays_back ||
                 r->verdict->list[i].kind == DEW_FINDING_never_pays;
    return count;
}

static void cost_more(const struct many *m)
{
    int any;

    if (m->count > 1 && m->count == bought(m->t->r))
        report__say(m->t, "None of these saves money: they cost ");
    else {
        say_all_names(m);
        report__say(m->t, m->count > 1 ? " save no money: they cost "
                                       : " saves no money: it costs ");
    }
    say_dearer(m);
    report__say(m->t, " a year more to run than today.");
    any = say_got(m, " What you get is ", "fresh air", gets_air);
    any |=
        say_got(m, any ? ", and " : " What you get is ", "drier air", gets_dry);
    report__say(m->t, any ? "." : "");
}

/* ---- all of a kind ----------------------------------------------------------------- */

static const struct {
    enum dew_finding_kind kind;
    void (*say)(const struct many *m);
} kinds[] = {
    {DEW_FINDING_saturated, saturate},
    {DEW_FINDING_mould, grow_mould},
    {DEW_FINDING_air_worsens, worsen},
    {DEW_FINDING_coil_option, leave_coil},
    {DEW_FINDING_grows_dry, grow_dry},
    {DEW_FINDING_blower_cost, run_blower},
    {DEW_FINDING_tie_fine, keep_up},
    {DEW_FINDING_tie_harmful, harm},
    {DEW_FINDING_under_ventilated, starve},
    {DEW_FINDING_never_pays, cost_more},
};

void report__say_dearer(struct telling *t, const struct dew_finding *const *f,
                        size_t count)
{
    cost_more(&(struct many){t, f, count});
}

static int place_of(enum dew_finding_kind kind)
{
    int at = sizeof kinds / sizeof *kinds - 1;

    while (at >= 0 && kinds[at].kind != kind)
        at--;
    return at;
}

/* Damper on the whole, and dearer, are told together; what is better in other
   months, or saves something, has a sentence of its own. */
static int is_plain(const struct dew_finding *f)
{
    if (f->kind == DEW_FINDING_air_worsens)
        return worse_humid(f) > f->number.air_worsens.today;
    return f->kind != DEW_FINDING_never_pays || dearer(f) > 0.5;
}

/* Beside the same other. */
static int together(const struct dew_finding *a, const struct dew_finding *b)
{
    return a == b || (a->kind == b->kind && a->other == b->other &&
                      is_plain(a) && is_plain(b));
}

/* Today's want of air is told first of all. */
static int is_told(const struct dew_finding *f)
{
    return f->kind == DEW_FINDING_under_ventilated && f->option == 0;
}

char *report__told(const struct dew_report *r, size_t i, char out[REPORT__TOLD])
{
    const struct dew_verdict *v = r->verdict;
    const struct dew_finding *f = &v->list[i], *list[OPTIONS];
    struct telling t = {r, f, out, REPORT__TOLD};
    int place = place_of(f->kind);
    size_t count = 0;

    out[0] = '\0';
    if (is_told(f))
        return out;
    for (size_t j = 0; place >= 0 && j < v->count && count < OPTIONS; j++) {
        if (!together(f, &v->list[j]) || is_told(&v->list[j]))
            continue;
        if (j < i)
            return out;
        list[count++] = &v->list[j];
    }
    if (count < 2)
        return dew_report_sentence(r, f, out, REPORT__TOLD);
    kinds[place].say(&(struct many){&t, list, count});
    return out;
}
