/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Charts by month: hours too humid, and the books of water. */
#include <math.h>
#include <stddef.h>

#include "draw/charts_tint.h"
#include "report/markup.h"
#include "report/words.h"

/* ---- hours too humid ------------------------------------------------------------ */

/* The option and month of most hours too humid; their count. */
static double most_humid(const struct draw__chart *c, size_t *option,
                         int *month)
{
    double most = 0;

    *option = 0;
    *month = 0;
    for (size_t i = 0; i < c->r->question->count; i++)
        for (int m = 0; m < DEW_MONTHS; m++) {
            double hours = draw__chart_outcome(c, i)->month[m].too_humid;

            if (hours > most) {
                most = hours;
                *option = i;
                *month = m;
            }
        }
    return most;
}

static void humid_bar(const struct draw__plot *p, const struct draw__chart *c,
                      size_t i, int m)
{
    double n = (double)c->r->question->count, wide = 0.84 / n;
    double from = m + 0.08 + wide * (double)i;
    double hours = draw__chart_outcome(c, i)->month[m].too_humid;
    const double corner[4] = {from, 0, from + 0.94 * wide, hours};
    char words[400];

    snprintf(words, sizeof words, "%s, %.100s: %s h too humid",
             report__month(m), report__option(c->r, (int)i).text,
             report__number(hours, 0).text);
    draw__svg_bar(p, corner, draw__svg_option(i), words);
}

static void humid_rows(const struct draw__chart *c)
{
    draw__chart_month_heads(c->out, "Option");
    for (size_t i = 0; i < c->r->question->count; i++)
        draw__chart_month_row(c, i, report__numbered(c->r, i).text,
                              offsetof(struct dew_tally, too_humid), 1);
    fputs("</tbody>", c->out);
}

static void humid_words(const struct draw__chart *c, struct draw__figure *f,
                        double most, size_t option, int month)
{
    snprintf(f->heading, sizeof f->heading, "Hours too humid, month by month");
    snprintf(f->note, sizeof f->note,
             "One bar for each option, in the order of the table.");
    if (most > 0)
        snprintf(f->words, sizeof f->words,
                 "Most in %s with \"%s\": %s hours above the limit.",
                 report__month(month), report__option(c->r, (int)option).text,
                 report__number(most, 0).text);
    else
        snprintf(f->words, sizeof f->words,
                 "No option is above the limit in any month.");
    for (size_t i = 0; i < c->r->question->count; i++)
        draw__figure_key(f, draw__svg_option(i), DRAW__AREA,
                         report__numbered(c->r, i).text);
}

static double too_humid(const struct dew_tally *t)
{
    return t->too_humid;
}

const struct draw__tint draw__tint_humid = {
    "tint humid", "Hours too humid, month by month", "Hours above the limit.",
    too_humid};

static void humid_tinted(const struct draw__chart *c)
{
    if (c->alone) {
        draw__tint_alone(c, &draw__tint_humid);
        return;
    }
    draw__tint_open(c, &draw__tint_humid);
    fputs("</figure>\n", c->out);
}

static void humid_bars(const struct draw__chart *c)
{
    struct draw__figure f = draw__chart_figure(c);
    struct draw__plot p = {.out = c->out, .x1 = DEW_MONTHS};
    size_t option;
    int month;
    double most = most_humid(c, &option, &month);

    p.y1 = fmax(most, 24) * 1.05;
    humid_words(c, &f, most, option, month);
    f.zooms = 1;
    f.plain = 1;
    draw__figure_open(&f, &p, "hours too humid in the month");
    draw__svg_upright(&p);
    draw__svg_months(&p);
    draw__svg_marks_open(&p);
    for (int m = 0; m < DEW_MONTHS; m++)
        for (size_t i = 0; i < c->r->question->count; i++)
            humid_bar(&p, c, i, m);
    if (draw__figure_table(&f, &p, "Hours too humid"))
        humid_rows(c);
    draw__figure_close(&f);
}

void draw__chart_humid_months(const struct draw__chart *c)
{
    if (draw__tinted(c))
        humid_tinted(c);
    else
        humid_bars(c);
}

/* ---- water ------------------------------------------------------------------------ */

/* The flows of the books, gathered so that a tone means the same in every
   chart.  The table beside it names them all. */
enum pile { PEOPLE, CHORES, INSIDE, LEAKS, VENTILATOR, COIL, DRYER, STORES };

static const char *const pile_words[] = {
    "people and pets",
    "showers, cooking, dishes, laundry",
    "plants, ground, drying and other sources",
    "outdoor air by leaks and windows",
    "outdoor air by the ventilator, less what its core holds back",
    "cooling coil: condensed, and put back",
    "dehumidifier",
    "furnishings and surfaces"};

enum { PILES = sizeof pile_words / sizeof *pile_words };
_Static_assert((int)DRAW__WATER + PILES <= (int)DRAW__EVERY, "a tone each");

/* One row for each of DEW_WATER_MAP. */
#define PILE(X, name, pile, words) IN_##name = pile,
enum {
    IN_humidifier = INSIDE,
    IN_leakage = LEAKS,
    IN_windows = LEAKS,
    IN_fresh = VENTILATOR,
    IN_recovered = VENTILATOR,
    IN_unplanned = LEAKS,
    IN_ductleak = LEAKS,
    IN_ductlost = LEAKS,
    IN_coil = COIL,
    IN_reevaporation = COIL,
    IN_dehumidifier = DRYER,
    IN_glass = STORES,
    IN_fog = STORES,
    IN_store = STORES,
    DEW_SOURCE_ROWS(PILE, )
};

/* What a pile brings and takes in a month, kg, both positive. */
struct moved {
    double in[PILES], out[PILES];
};

static void move(struct moved *m, int pile, double kg)
{
    m->in[pile] += fmax(kg, 0);
    m->out[pile] += fmax(-kg, 0);
}

static struct moved moved_in(const struct dew_water_flows *w)
{
    struct moved m = {{0}, {0}};

#define X(name, words)                                                         \
    if ((int)IN_##name != (int)VENTILATOR)                                     \
        move(&m, IN_##name, w->name);
    DEW_WATER_MAP(X)
#undef X
    move(&m, VENTILATOR, w->fresh + w->recovered);
    return m;
}

/* The largest sum of one month, in or out, kg. */
static double most_water_of(const struct dew_outcome *o)
{
    double most = 1;

    for (int month = 0; month < DEW_MONTHS; month++) {
        struct moved m = moved_in(&o->month[month].water);
        double in = 0, out = 0;

        for (int k = 0; k < PILES; k++) {
            in += m.in[k];
            out += m.out[k];
        }
        most = fmax(most, fmax(in, out));
    }
    return most;
}

/* The same scale for every option, so that charts can be compared. */
static double most_water(const struct draw__chart *c)
{
    double most = 1;

    for (size_t i = 0; i < c->r->question->count; i++)
        most = fmax(most, most_water_of(draw__chart_outcome(c, i)));
    return most;
}

static void pile_up(const struct draw__plot *p, const struct draw__chart *c,
                    int month, const double *kg, int sign)
{
    double at = 0;
    char words[400];

    for (int k = 0; k < PILES; k++) {
        double amount = sign * report__shown(kg[k], DEW_WATER, c->r->system);
        const double corner[4] = {month + 0.14, at, month + 0.86, at + amount};

        snprintf(words, sizeof words, "%s, %s: %s %s", report__month(month),
                 pile_words[k],
                 report__amount(kg[k], DEW_WATER, c->r->system, 0).text,
                 sign > 0 ? "in" : "out");
        draw__svg_bar(p, corner, DRAW__WATER + k, words);
        at += amount;
    }
}

static void water_row(const struct draw__chart *c, const char *words,
                      size_t offset)
{
    const char *year = (const char *)study__year(c->r->question, c->option);

    if (fabs(*(const double *)(const void *)(year + offset)) >= 0.5)
        draw__chart_month_row(c, c->option, words, offset,
                              report__unit(DEW_WATER, c->r->system)->factor);
}

static void water_table(const struct draw__chart *c)
{
    draw__chart_month_heads(c->out,
                            report__unit(DEW_WATER, c->r->system)->name);
#define X(name, words)                                                         \
    water_row(c, words, offsetof(struct dew_tally, water.name));
    DEW_WATER_MAP(X)
#undef X
    fputs("</tbody>", c->out);
}

static void water_words(const struct draw__chart *c, struct draw__figure *f)
{
    struct moved year =
        moved_in(&draw__chart_outcome(c, c->option)->year.water);
    int in = 0, out = 0;

    for (int k = 0; k < PILES; k++) {
        in = year.in[k] > year.in[in] ? k : in;
        out = year.out[k] > year.out[out] ? k : out;
        if (year.in[k] >= 0.5 || year.out[k] >= 0.5)
            draw__figure_key(f, DRAW__WATER + k, DRAW__AREA, pile_words[k]);
    }
    snprintf(f->heading, sizeof f->heading, "Books of water: %.120s",
             report__option(c->r, (int)c->option).text);
    snprintf(f->note, sizeof f->note,
             "Above the line what comes into the air of the house in a month, "
             "below it what leaves.");
    snprintf(f->words, sizeof f->words,
             "Most comes by %s, %.30s a year; most leaves by %s, %.30s.",
             pile_words[in],
             report__amount(year.in[in], DEW_WATER, c->r->system, 0).text,
             pile_words[out],
             report__amount(year.out[out], DEW_WATER, c->r->system, 0).text);
}

void draw__chart_water(const struct draw__chart *c)
{
    const struct dew_outcome *o = draw__chart_outcome(c, c->option);
    struct draw__figure f = draw__chart_figure(c);
    double most = 1.05 * report__shown(most_water(c), DEW_WATER, c->r->system);
    struct draw__plot p = {
        .out = c->out, .x1 = DEW_MONTHS, .y0 = -most, .y1 = most};

    water_words(c, &f);
    f.plain = 1;
    draw__figure_open(&f, &p, "%.40s in the month",
                      report__unit(DEW_WATER, c->r->system)->name);
    draw__svg_upright(&p);
    draw__svg_months(&p);
    draw__svg_marks_open(&p);
    for (int m = 0; m < DEW_MONTHS; m++) {
        struct moved moved = moved_in(&o->month[m].water);

        pile_up(&p, c, m, moved.in, 1);
        pile_up(&p, c, m, moved.out, -1);
    }
    if (draw__figure_table(&f, &p, "Water by month, + in, - out"))
        water_table(c);
    draw__figure_close(&f);
}
