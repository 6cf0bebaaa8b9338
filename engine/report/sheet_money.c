/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What each option costs: to install with its range and date, and a year by
   end use. */
#include <math.h>

#include "report/sheet.h"

enum { WIDE = 5 }; /* options side by side */

static struct report__word range(const struct dew_report *r,
                                 const struct dew_estimate *e)
{
    struct report__word w;

    if (isnan(e->likely) || e->low == e->high)
        return report__price(r, e->likely);
    snprintf(w.text, sizeof w.text, "%.30s (%.30s to %.30s)",
             report__money(r, e->likely).text, report__money(r, e->low).text,
             report__money(r, e->high).text);
    return w;
}

/* ---- once ---------------------------------------------------------------------- */

int report__sheet_install(const struct dew_report *r, struct report__sheet *s)
{
    const struct dew_question *q = r->question;

    s->id = "install";
    s->title = "What each option costs, with its range";
    if (q->prices == NULL)
        return 0;
    report__sheet_columns(
        s, "13 option\t28 to install\t26 to run and keep, a year\t13 as of");
    for (size_t i = 0; i < q->count; i++) {
        struct dew_bill bill = dew_verdict_bill(q, i);
        const struct dew_costs *c = q->choices[i].costs;
        char date[40];

        report__sheet_row(s, "%s\t%s\t%s\t%s", report__numbered(r, i).text,
                          range(r, &bill.install).text,
                          range(r, &bill.yearly).text,
                          c != NULL && c->date[0] != '\0'
                              ? core__clean(c->date, date, sizeof date)
                              : "-");
    }
    report__sheet_note(s,
                       "The range of a year is that of the prices, which move "
                       "every option alike. The owner's own hours are %s.",
                       q->prices->wage.likely > 0 ? "priced" : "free");
    return 1;
}

/* ---- a year by end use ------------------------------------------------------------ */

/* One end use, likely, of the first options; nothing where none has it. */
#define USE(name, words)                                                       \
    static double use_##name(const struct dew_bill *b)                         \
    {                                                                          \
        return b->name.likely;                                                 \
    }
DEW_ENERGY_MAP(USE)
#undef USE

static double use_upkeep(const struct dew_bill *b)
{
    return b->upkeep.likely;
}

static double use_yearly(const struct dew_bill *b)
{
    return b->yearly.likely;
}

static const struct use {
    const char *words;
    double (*of)(const struct dew_bill *b);
} uses[] = {
#define X(name, words) {words, use_##name},
    DEW_ENERGY_MAP(X)
#undef X
        {"filters, cores, service", use_upkeep},
    {"all of it", use_yearly},
};

static void use_row(const struct dew_report *r, const struct use *use,
                    struct report__sheet *s)
{
    const struct dew_question *q = r->question;
    char row[WIDE * sizeof(struct report__word)];
    size_t at = 0;
    int some = 0;

    for (size_t i = 0; i < q->count && i < WIDE && at < sizeof row; i++) {
        struct dew_bill bill = dew_verdict_bill(q, i);

        at += (size_t)snprintf(row + at, sizeof row - at, "\t%s",
                               report__money(r, use->of(&bill)).text);
        some |= !(fabs(use->of(&bill)) < 0.5); /* or not known */
    }
    if (some)
        report__sheet_row(s, "%s%s", use->words, row);
}

int report__sheet_yearly(const struct dew_report *r, struct report__sheet *s)
{
    const struct dew_question *q = r->question;

    s->id = "yearly";
    s->title = "What a year costs, by end use";
    if (q->prices == NULL)
        return 0;
    report__sheet_columns(s, "30 end use");
    for (size_t i = 0; i < q->count && i < WIDE; i++)
        report__sheet_columns(s, "10 option %zu", i + 1);
    for (size_t k = 0; k < sizeof uses / sizeof *uses; k++)
        use_row(r, &uses[k], s);
    if (q->count > WIDE)
        report__sheet_note(s,
                           "The first %d options; the others are in the "
                           "summary as JSON.",
                           WIDE);
    if (q->prices->electricity_seasonal || q->prices->gas_seasonal)
        report__sheet_note(s, "Each month is counted at its own price.");
    return s->rows > 0;
}
