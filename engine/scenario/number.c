/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/number.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* A piece of a value's text. */
struct piece {
    const char *text;
    size_t length;
};

/* What is being read, for faults. */
struct task {
    struct scenario__reading *r;
    const struct dew_field *f;
    const char *path;
    const struct scenario__node *node;
};

/* An amount as typed. */
struct typed {
    double x, low, high;
    struct piece unit, low_unit, high_unit;
    int ranged;
};

static struct piece trimmed(const char *text, size_t length)
{
    while (length > 0 && (*text == ' ' || *text == '\t' || *text == '\n')) {
        text++;
        length--;
    }
    while (length > 0 && (text[length - 1] == ' ' || text[length - 1] == '\t' ||
                          text[length - 1] == '\n'))
        length--;
    return (struct piece){text, length};
}

static struct piece after(struct piece p, size_t used)
{
    return trimmed(p.text + used, p.length - used);
}

/* Where word stands in p as a word of its own; p.length when it does not. */
static size_t find_word(struct piece p, const char *word)
{
    size_t n = strlen(word);

    for (size_t i = 1; i + n < p.length; i++)
        if (memcmp(p.text + i, word, n) == 0 && p.text[i - 1] == ' ' &&
            p.text[i + n] == ' ')
            return i;
    return p.length;
}

static int not_understood(const struct task *t, const char *example)
{
    char list[120] = "";

    if (t->f->quantity != DEW_PURE)
        dew_unit_fitting(t->f->quantity, list, sizeof list);
    scenario__blame(t->r, t->node, t->path, DEW_ESYNTAX,
                    "\"%.60s\" is no number%s%s%s: write it like %s",
                    t->node->text, list[0] ? " with one of the units " : "",
                    list, "", example);
    return 0;
}

/* The nearest thing to an example that the row has. */
static const char *example_of(const struct dew_field *f)
{
    if (f->start != NULL)
        return f->start;
    if (f->preset != NULL && f->preset[0] != '\0' && f->preset[0] != '=')
        return f->preset;
    switch (f->kind) {
    case DEW_KIND_AT:
        return "74 % at 95 cfm";
    case DEW_KIND_HOURS:
        return "22 to 6";
    case DEW_KIND_COUNT:
        return "3";
    default:
        return f->quantity == DEW_PURE ? "0.5" : "12.5 UNIT";
    }
}

/* ---- splitting ------------------------------------------------------------- */

/* A number and what follows it up to stop. */
static int split_number(struct piece *p, double *x, struct piece *unit,
                        const char *stop)
{
    size_t used = dew_number_read(p->text, p->length, x), end;
    struct piece rest;

    if (used == 0 || !isfinite(*x))
        return 0;
    rest = after(*p, used);
    for (end = 0; end < rest.length && strchr(stop, rest.text[end]) == NULL;)
        end++;
    *unit = trimmed(rest.text, end);
    *p = after(rest, end);
    return 1;
}

/* "(0.7 to 2.0)" or "(0.7 ach50 to 2.0 ach50)". */
static int split_range(struct piece p, struct typed *out)
{
    struct piece low, high;
    size_t to;

    if (p.length < 2 || p.text[0] != '(' || p.text[p.length - 1] != ')')
        return 0;
    p = trimmed(p.text + 1, p.length - 2);
    to = find_word(p, "to");
    if (to == p.length)
        return 0;
    low = trimmed(p.text, to);
    high = after(p, to + 2);
    out->ranged = 1;
    return split_number(&low, &out->low, &out->low_unit, "") &&
           split_number(&high, &out->high, &out->high_unit, "") &&
           low.length == 0 && high.length == 0;
}

/* "$6,500" and "$0.18/kWh" are read as "6500 $" and "0.18 $/kWh". */
static struct piece money_first(struct piece p, char *room, size_t size)
{
    double x;
    size_t used;

    if (p.length < 2 || p.length + 2 > size || p.text[0] != '$')
        return p;
    used = dew_number_read(p.text + 1, p.length - 1, &x);
    snprintf(room, size, "%.*s $%.*s", (int)used, p.text + 1,
             (int)(p.length - 1 - used), p.text + 1 + used);
    return trimmed(room, strlen(room));
}

static int split_amount(struct piece p, struct typed *out)
{
    if (!split_number(&p, &out->x, &out->unit, "("))
        return 0;
    out->low = out->high = out->x;
    return p.length == 0 || split_range(p, out);
}

/* "62 to 68 %": the middle is likely. */
static int split_span(struct piece p, struct typed *out)
{
    size_t to = find_word(p, "to");
    struct piece low = trimmed(p.text, to), high;

    if (to == p.length)
        return 0;
    high = after(p, to + 2);
    out->ranged = 1;
    if (!split_number(&low, &out->low, &out->low_unit, "") ||
        !split_number(&high, &out->high, &out->high_unit, "") ||
        low.length != 0 || high.length != 0)
        return 0;
    out->x = 0.5 * (out->low + out->high);
    out->unit = out->high_unit;
    return 1;
}

/* ---- units ----------------------------------------------------------------- */

static const struct dew_unit *unit_of(const struct dew_field *f,
                                      struct piece unit, double *low,
                                      double *high)
{
    const struct dew_unit *u =
        dew_unit_find(unit.text, unit.length, f->quantity);

    *low = f->low;
    *high = f->high;
    for (size_t i = 0; u == NULL && i < f->form_count; i++) {
        u = dew_unit_find(unit.text, unit.length, f->forms[i].quantity);
        *low = f->forms[i].low;
        *high = f->forms[i].high;
    }
    return u;
}

/* Every unit that fits, those of further forms included. */
static char *fitting(const struct dew_field *f, char *out, size_t size)
{
    size_t used;

    dew_unit_fitting(f->quantity, out, size);
    for (size_t i = 0; i < f->form_count; i++) {
        used = strlen(out);
        if (used + 8 >= size)
            break;
        memcpy(out + used, ", ", 3);
        dew_unit_fitting(f->forms[i].quantity, out + used + 2, size - used - 2);
    }
    return out;
}

static int unit_fault(const struct task *t, double x, struct piece unit)
{
    char list[150], number[32];

    fitting(t->f, list, sizeof list);
    if (unit.length == 0)
        scenario__blame(t->r, t->node, t->path, DEW_EUNIT,
                        "%s needs a unit: write one of %s",
                        dew_number_print(x, 6, number, sizeof number), list);
    else
        scenario__blame(t->r, t->node, t->path, DEW_EUNIT,
                        "\"%.*s\" is no unit that fits: write one of %s",
                        (int)(unit.length < 30 ? unit.length : 30), unit.text,
                        list);
    return 0;
}

static double to_si(const struct dew_unit *u, double x)
{
    return x * u->factor + u->offset;
}

/* "76 is above 1: write 76 % or 0.76" */
static int percent_fault(const struct task *t, double x, double high)
{
    char a[32], b[32], c[32];

    scenario__blame(t->r, t->node, t->path, DEW_ERANGE,
                    "%s is above %s: write %s %% or %s",
                    dew_number_print(x, 6, a, sizeof a),
                    dew_number_print(high, 4, c, sizeof c), a,
                    dew_number_print(x / 100, 6, b, sizeof b));
    return 0;
}

/* A whole end is told to its last digit. */
static int digits_of(double end)
{
    return end == rint(end) ? 10 : 4;
}

static int in_range(const struct task *t, const struct dew_unit *u, double x,
                    const double ends[2])
{
    double si = to_si(u, x), end;
    char a[32], b[32], gap[2] = {u->name[0] ? ' ' : '\0', '\0'};

    if (si >= ends[0] && si <= ends[1])
        return 1;
    if (u->name[0] == '\0' && ends[1] <= 1.5 && x > ends[1] &&
        x / 100 <= ends[1] && x / 100 >= ends[0])
        return percent_fault(t, x, ends[1]);
    end = (ends[si > ends[1]] - u->offset) / u->factor;
    scenario__blame(t->r, t->node, t->path, DEW_ERANGE,
                    "%s%s%s is %s %s%s%s: %s",
                    dew_number_print(x, 6, a, sizeof a), gap, u->name,
                    si > ends[1] ? "above" : "below",
                    dew_number_print(end, digits_of(end), b, sizeof b), gap,
                    u->name, t->f->why);
    return 0;
}

/* A range's ends may repeat the unit or another of the same quantity. */
static int range_end(const struct task *t, const struct dew_unit *u, double x,
                     struct piece unit, double *si)
{
    const struct dew_unit *own = u;

    if (unit.length > 0)
        own = dew_unit_find(unit.text, unit.length, u->quantity);
    if (own == NULL)
        return unit_fault(t, x, unit);
    *si = to_si(own, x);
    return 1;
}

static int read_amount(const struct task *t, struct piece text,
                       struct dew_value *out)
{
    struct typed in = {0};
    double ends[2];
    const struct dew_unit *u;
    char room[96];
    int spans = t->f->either && split_span(text, &in);

    if (!spans && !split_amount(money_first(text, room, sizeof room), &in))
        return not_understood(t, example_of(t->f));
    u = unit_of(t->f, in.unit, &ends[0], &ends[1]);
    if (u == NULL)
        return unit_fault(t, in.x, in.unit);
    if (!spans && !in_range(t, u, in.x, ends))
        return 0; /* of a span the ends are held, and tell themselves */
    out->unit = u;
    out->amount.si = out->amount.low = out->amount.high = to_si(u, in.x);
    if (t->r->systems != NULL)
        t->r->systems[u->system]++;
    if (!in.ranged)
        return 1;
    if (!range_end(t, u, in.low, in.low_unit, &out->amount.low) ||
        !range_end(t, u, in.high, in.high_unit, &out->amount.high) ||
        !in_range(t, u, (out->amount.low - u->offset) / u->factor, ends) ||
        !in_range(t, u, (out->amount.high - u->offset) / u->factor, ends))
        return 0;
    if (out->amount.low <= out->amount.si && out->amount.si <= out->amount.high)
        return 1;
    scenario__blame(
        t->r, t->node, t->path, DEW_ERANGE,
        "\"%.60s\": the range must hold the value, the lower end first",
        t->node->text);
    return 0;
}

/* ---- the other kinds --------------------------------------------------------- */

static int read_count(const struct task *t, struct dew_value *out)
{
    struct piece p = trimmed(t->node->text, strlen(t->node->text)), unit;
    struct dew_unit none = {.name = "", .factor = 1};
    double x, ends[2] = {t->f->low, t->f->high};

    if (!split_number(&p, &x, &unit, "") || unit.length > 0 || x != floor(x)) {
        scenario__blame(t->r, t->node, t->path, DEW_ESYNTAX,
                        "\"%.40s\" is no whole number: write it like %s",
                        t->node->text, example_of(t->f));
        return 0;
    }
    out->amount.si = out->amount.low = out->amount.high = x;
    return in_range(t, &none, x, ends);
}

/* "74 % at 95 cfm" */
static int read_at(const struct task *t, struct dew_value *out)
{
    struct piece p = trimmed(t->node->text, strlen(t->node->text)), rest, unit;
    size_t at = find_word(p, "at");
    const struct dew_unit *u;
    double x;

    if (at == p.length)
        return not_understood(t, example_of(t->f));
    rest = after(p, at + 2);
    if (!read_amount(t, trimmed(p.text, at), out))
        return 0;
    if (!split_number(&rest, &x, &unit, "") || x <= 0)
        return not_understood(t, example_of(t->f));
    u = dew_unit_find(unit.text, unit.length, t->f->at);
    if (u == NULL) {
        struct dew_field other = {.quantity = t->f->at};
        struct task about = {t->r, &other, t->path, t->node};

        return unit_fault(&about, x, unit);
    }
    out->at = to_si(u, x);
    if (t->r->systems != NULL)
        t->r->systems[u->system]++;
    return 1;
}

/* "22" or "22:30", hours. */
static int clock_time(struct piece p, double *h)
{
    double minutes = 0;
    size_t used = dew_number_read(p.text, p.length, h);

    if (used == 0)
        return 0;
    p = after(p, used);
    if (p.length > 1 && p.text[0] == ':') {
        used = dew_number_read(p.text + 1, p.length - 1, &minutes);
        if (used == 0)
            return 0;
        p = after(p, used + 1);
    }
    *h += minutes / 60;
    return p.length == 0 && minutes >= 0 && minutes < 60 && *h >= 0 && *h <= 24;
}

static int read_hours(const struct task *t, struct dew_value *out)
{
    struct piece p = trimmed(t->node->text, strlen(t->node->text));
    size_t to = find_word(p, "to");
    double from, until;

    if (to == p.length || !clock_time(trimmed(p.text, to), &from) ||
        !clock_time(after(p, to + 2), &until)) {
        scenario__blame(t->r, t->node, t->path, DEW_ESYNTAX,
                        "\"%.40s\" is no span of hours: write it like 22 to 6",
                        t->node->text);
        return 0;
    }
    out->amount.si = out->amount.low = out->amount.high = from;
    out->at = until;
    return 1;
}

int scenario__number_value(struct scenario__reading *r,
                           const struct dew_field *field, const char *path,
                           const struct scenario__node *node,
                           struct dew_value *out)
{
    struct task t = {r, field, path, node};

    switch (field->kind) {
    case DEW_KIND_COUNT:
        return read_count(&t, out);
    case DEW_KIND_AT:
        return read_at(&t, out);
    case DEW_KIND_HOURS:
        return read_hours(&t, out);
    default:
        return read_amount(&t, trimmed(node->text, strlen(node->text)), out);
    }
}
