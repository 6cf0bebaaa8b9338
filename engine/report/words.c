/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Amounts, months and names as words. */
#include "report/words.h"

#include <math.h>
#include <string.h>

/* Commas between groups of three of the digits before the point. */
static void group(const char *digits, char *out, size_t size)
{
    size_t whole = strspn(digits, "0123456789"), at = 0;

    for (size_t i = 0; digits[i] != '\0' && at + 2 < size; i++) {
        if (i > 0 && i < whole && (whole - i) % 3 == 0)
            out[at++] = ',';
        out[at++] = digits[i];
    }
    out[at] = '\0';
}

struct report__word report__number(double x, int decimals)
{
    struct report__word w = {"-"}, n;
    int minus;

    if (!isfinite(x))
        return w;
    dew_number_fixed(x, decimals, n.text, sizeof n.text);
    minus = n.text[0] == '-';
    group(n.text + minus, w.text + minus, sizeof w.text - 1);
    return w;
}

struct report__word report__hours(double h)
{
    struct report__word w, n = report__number(h, 0);

    snprintf(w.text, sizeof w.text, "%.60s %s", n.text,
             strcmp(n.text, "1") == 0 ? "hour" : "hours");
    return w;
}

/* What people of the trade read, where the table's first row is not it. */
const struct dew_unit *report__unit(enum dew_quantity quantity,
                                    enum dew_system system)
{
    const struct dew_unit *u = NULL;

    if (quantity == DEW_WATER_RATE && system == DEW_SYSTEM_US)
        u = dew_unit_find("gal/day", 7, quantity);
    if (quantity == DEW_PRESSURE)
        u = dew_unit_find("Pa", 2, quantity);
    return u ? u : dew_unit_shown(quantity, (int)system);
}

double report__shown(double si, enum dew_quantity quantity,
                     enum dew_system system)
{
    const struct dew_unit *u = report__unit(quantity, system);

    return (si - u->offset) / u->factor;
}

struct report__word report__amount(double si, enum dew_quantity quantity,
                                   enum dew_system system, int decimals)
{
    struct report__word w, n;

    n = report__number(report__shown(si, quantity, system), decimals);
    snprintf(w.text, sizeof w.text, "%.60s %s", n.text,
             report__unit(quantity, system)->name);
    return w;
}

struct report__word report__money(const struct dew_report *report,
                                  double amount)
{
    const struct dew_prices *p = report->question->prices;
    struct report__word w = {"-"};

    if (!isfinite(amount))
        return w;
    snprintf(w.text, sizeof w.text, "%s%s%.80s", amount <= -0.5 ? "-" : "",
             p && p->currency[0] ? p->currency : "$",
             report__number(fabs(amount), 0).text);
    return w;
}

struct report__word report__percent(double share)
{
    struct report__word w = {"-"}, n;

    if (!isfinite(share))
        return w;
    n = report__number(fabs(share) < 0.005 ? 0 : 100 * share, 0);
    snprintf(w.text, sizeof w.text, "%.100s %%", n.text);
    return w;
}

struct report__word report__price(const struct dew_report *report,
                                  double amount)
{
    struct report__word wanting = {"not given"};

    return isnan(amount) ? wanting : report__money(report, amount);
}

struct report__word report__numbered(const struct dew_report *report, size_t i)
{
    struct report__word w;

    snprintf(w.text, sizeof w.text, "%zu %.120s", i + 1,
             report__option(report, (int)i).text);
    return w;
}

/* The last of the options that follow i without a gap. */
static int run_end(uint64_t options, int i)
{
    while (i < 63 && options >> (i + 1) & 1)
        i++;
    return i;
}

char *report__which(uint64_t options, char *out, size_t size)
{
    int many = (options & (options - 1)) != 0;
    size_t at = 0;

    out[0] = '\0';
    for (int i = 0; i < 64 && at + 16 < size; i++) {
        int last = run_end(options, i);

        if (!(options >> i & 1))
            continue;
        at += (size_t)snprintf(out + at, size - at, "%s%d",
                               at > 0 ? ", "
                               : many ? "options "
                                      : "option ",
                               i + 1);
        if (last < i + 2)
            continue;
        at += (size_t)snprintf(out + at, size - at, " to %d", last + 1);
        i = last;
    }
    return out;
}

const struct dew_finding *report__found(const struct dew_report *r,
                                        enum dew_finding_kind kind, int option)
{
    const struct dew_verdict *v = r->verdict;

    for (size_t i = 0; i < v->count; i++)
        if (v->list[i].kind == kind &&
            (option == DEW_NO_OPTION || v->list[i].option == option))
            return &v->list[i];
    return NULL;
}

int report__picked(const struct dew_report *report)
{
    const struct dew_finding *open =
        report__found(report, DEW_FINDING_best_open, DEW_NO_OPTION);

    return report->verdict->best < 0 && open != NULL ? open->option
                                                     : report->verdict->best;
}

size_t report__hand_least(const struct dew_report *r)
{
    const struct dew_choice *c = r->question->choices;
    size_t least = 0;

    for (size_t i = 1; i < r->question->count; i++)
        if (dew_verdict_ventilates(r->question, i) &&
            (least == 0 ||
             c[i].outcome->year.too_humid < c[least].outcome->year.too_humid))
            least = i;
    return least;
}

size_t report__hand_option(const struct dew_report *r)
{
    const struct dew_finding *none =
        report__found(r, DEW_FINDING_best_none, DEW_NO_OPTION);

    if (r->handed != NULL)
        return (size_t)(r->handed - r->question->choices);
    if (report__picked(r) >= 0)
        return (size_t)report__picked(r);
    if (none != NULL && none->option > 0)
        return (size_t)none->option;
    return report__hand_least(r);
}

size_t report__beside_today(const struct dew_report *r)
{
    size_t option = report__hand_option(r);

    return option > 0 ? option : report__hand_least(r);
}

size_t dew_report_beside_today(const struct dew_report *report)
{
    return report__beside_today(report);
}

static struct report__word spaced(const char *value)
{
    struct report__word w;

    snprintf(w.text, sizeof w.text, "%s", value);
    for (char *s = w.text; *s != '\0'; s++)
        *s = (char)(*s == '_' ? ' ' : *s);
    return w;
}

struct report__word report__hand_input(const struct dew_report *r,
                                       size_t option, const char *key)
{
    struct report__word name = report__option(r, (int)option);

    for (size_t i = 0; i < r->input_count; i++) {
        const struct dew_report_input *in = &r->inputs[i];

        if (strcmp(in->key, key) == 0 &&
            (in->option[0] == '\0' || strcmp(in->option, name.text) == 0))
            return spaced(in->value);
    }
    return spaced("not given");
}

static const char *const months[DEW_MONTHS] = {
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};

const char *report__month(int month)
{
    return months[month];
}

const char *report__month_short(int month)
{
    static const char *const text[DEW_MONTHS] = {"Jan", "Feb", "Mar", "Apr",
                                                 "May", "Jun", "Jul", "Aug",
                                                 "Sep", "Oct", "Nov", "Dec"};

    return text[month];
}

static int has(unsigned mask, int month)
{
    return (mask >> (month + DEW_MONTHS) % DEW_MONTHS & 1U) != 0;
}

/* Length of the run of months that begins at first; 0 when none begins. */
static int run_at(unsigned mask, int first)
{
    int length = 0;

    if (!has(mask, first) || has(mask, first - 1))
        return 0;
    while (has(mask, (first + length) % DEW_MONTHS))
        length++;
    return length;
}

static int run_count(unsigned mask)
{
    int count = 0;

    for (int m = 0; m < DEW_MONTHS; m++)
        count += run_at(mask, m) > 0;
    return count;
}

struct report__word report__months(unsigned mask)
{
    const unsigned all = (1U << DEW_MONTHS) - 1;
    struct report__word w = {""};
    unsigned rest = all & ~mask;
    int left = run_count(mask & all);

    if (rest != 0 && (rest & (rest - 1)) == 0) {
        for (int m = 0; m < DEW_MONTHS; m++)
            if (has(rest, m))
                snprintf(w.text, sizeof w.text, "every month but %s",
                         months[m]);
        return w;
    }
    if ((mask & all) == all || (mask & all) == 0) {
        snprintf(w.text, sizeof w.text, "%s",
                 (mask & all) ? "every month" : "no month");
        return w;
    }
    for (int m = 0; m < DEW_MONTHS; m++) {
        int length = run_at(mask, m);
        size_t at = strlen(w.text);

        if (length == 0)
            continue;
        left--;
        snprintf(w.text + at, sizeof w.text - at, "%s%s%s%s", months[m],
                 length == 1   ? ""
                 : length == 2 ? " and "
                               : " to ",
                 length == 1 ? "" : months[(m + length - 1) % DEW_MONTHS],
                 left == 0   ? ""
                 : left == 1 ? " and "
                             : ", ");
    }
    return w;
}

int report__width(const char *text)
{
    int width = 0;

    for (; *text != '\0'; text++)
        width += ((unsigned char)*text & 0xc0) != 0x80;
    return width;
}

/* ---- the time marched ----------------------------------------------------- */

static int is_year(size_t hours)
{
    return hours >= 8700 && hours <= 8784;
}

char *dew_report_span(size_t hours, char *out, size_t size)
{
    out[0] = '\0';
    if (!is_year(hours))
        snprintf(out, size,
                 "The weather has %zu hours, a year has 8760: hours, water and "
                 "energy \"a year\" are sums in the %zu hours of the file; "
                 "only costs a year are scaled to 8760.",
                 hours, hours);
    return out;
}

const char *report__title(const char *title)
{
    return title != NULL && title[0] != '\0' ? title : "Untitled";
}

struct report__word report__span(const struct dew_report *report)
{
    size_t hours = report->question->choices[0].outcome->count;
    struct report__word w = {"year"};

    if (!is_year(hours))
        snprintf(w.text, sizeof w.text, "%zu hours", hours);
    return w;
}

struct report__word report__option(const struct dew_report *report, int i)
{
    struct report__word w = {"no option"};

    if (i >= 0 && (size_t)i < report->question->count)
        core__clean(report->question->choices[i].outcome->name, w.text,
                    sizeof w.text);
    return w;
}

char *report__judged(const struct dew_report *report, char *out, size_t size)
{
    const struct dew_judging *j = &report->question->judging;

    snprintf(
        out, size,
        "A limit counts as kept when it is passed in at most %s %% of the "
        "year; a month stands out at %s %% of its hours; fresh air counts "
        "as delivered from %s %% of what is asked for; what is so in fewer than "
        "%s of 100 houses like yours is a close call. These shares are our own choice, "
        "and so is the mark of %s ppm for carbon dioxide: no current "
        "standard of ventilation holds a limit for it indoors.",
        report__number(100 * j->kept_share, 0).text,
        report__number(100 * j->month_share, 0).text,
        report__number(100 * j->fresh_share, 0).text,
        report__number(100 * j->sure_share, 0).text,
        report__number(DEW_CO2_MARK, 0).text);
    return out;
}

double report__closes_within(const struct dew_report *report)
{
    double worst = 0;

    for (size_t i = 0; i < report->question->count; i++) {
        const struct dew_outcome *o = report->question->choices[i].outcome;

        worst = fmax(worst, fmax(o->water_residual, o->heat_residual));
    }
    return worst > 0 ? pow(10, ceil(log10(worst))) : 0;
}
