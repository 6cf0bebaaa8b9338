/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure a finding is: in how many of the houses drawn it is so too. */
#include <math.h>

#include "study/rules.h"

/* The figure of an option as it was told, of those that limits are about. */
static double told(const struct dew_question *q, size_t i,
                   enum dew_drawn_what what)
{
    const struct dew_tally *y = study__year(q, i);

    return what == DEW_DRAWN_too_humid    ? y->too_humid
           : what == DEW_DRAWN_too_dry    ? y->too_dry
           : what == DEW_DRAWN_glass_wet  ? y->sweat[DEW_GLASS]
           : what == DEW_DRAWN_short_heat ? y->short_heat
                                          : NAN;
}

static const struct dew_drawn *house(const struct dew_question *q, size_t draw,
                                     size_t option)
{
    return &q->draws->each[draw * q->draws->options + option];
}

/* Whether a draw keeps what the likely house keeps, and leaves what it leaves. */
static int as_told(const struct dew_question *q, size_t draw,
                   const struct study__side *side, size_t count)
{
    for (size_t k = 0; k < count; k++) {
        const struct study__side *s = &side[k];
        double allowed = study__allowed(q, study__outcome(q, s->option));
        double drawn = dew_drawn_figure(house(q, draw, s->option), s->what);

        if ((drawn <= allowed) != (told(q, s->option, s->what) <= allowed))
            return 0;
    }
    return 1;
}

void study__doubt(struct dew_finding *f, const struct dew_question *q,
                  const struct study__side *side, size_t count)
{
    if (q->draws == NULL)
        return;
    f->drawn = q->draws->count;
    for (size_t d = 0; d < q->draws->count; d++)
        f->so += (size_t)as_told(q, d, side, count);
}

/* ---- of two options ----------------------------------------------------------- */

/* Half of a tie counts for either: whole hours are what is told. */
static double more(double a, double b)
{
    return round(a) > round(b) ? 1 : round(a) < round(b) ? 0 : 0.5;
}

static double outside(const struct dew_drawn *d)
{
    return d->too_humid + d->too_dry;
}

double study__more_outside(const struct dew_question *q, size_t a, size_t b)
{
    double sum = 0;

    if (q->draws == NULL)
        return more(
            told(q, a, DEW_DRAWN_too_humid) + told(q, a, DEW_DRAWN_too_dry),
            told(q, b, DEW_DRAWN_too_humid) + told(q, b, DEW_DRAWN_too_dry));
    for (size_t d = 0; d < q->draws->count; d++)
        sum += more(outside(house(q, d, a)), outside(house(q, d, b)));
    return sum / (double)q->draws->count;
}

/* The share of houses in which a has more of such hours than b. */
static double has_more(const struct dew_question *q, size_t a, size_t b,
                       enum dew_drawn_what what)
{
    double sum = 0;

    if (q->draws == NULL)
        return more(told(q, a, what), told(q, b, what));
    for (size_t d = 0; d < q->draws->count; d++)
        sum += more(dew_drawn_figure(house(q, d, a), what),
                    dew_drawn_figure(house(q, d, b), what));
    return sum / (double)q->draws->count;
}

int study__sure(const struct dew_question *q, double share)
{
    double sure = q->judging.sure_share - 1e-9;

    return share >= sure ? 1 : 1 - share >= sure ? -1 : 0;
}

int study__worse(const struct dew_question *q, size_t a, size_t b,
                 enum dew_drawn_what what)
{
    double allowed = study__allowed(q, study__outcome(q, b));
    double x = told(q, a, what), y = told(q, b, what);

    return ((x > allowed && y <= allowed) || x - y > allowed) &&
           study__sure(q, has_more(q, a, b, what)) > 0;
}

/* ---- which is best -------------------------------------------------------------- */

size_t study__best_in(const struct dew_question *q, size_t option)
{
    return q->draws != NULL ? dew_draws_shares(q->draws, option).best : 0;
}

int study__rival(const struct dew_question *q, size_t best)
{
    size_t count = q->draws != NULL ? q->draws->count : 0, in = 0;
    int rival = DEW_NO_OPTION;

    for (size_t i = 0; count > 0 && i < q->count; i++)
        if (i != best && study__best_in(q, i) > in) {
            in = study__best_in(q, i);
            rival = (int)i;
        }
    return (double)in >= (1 - q->judging.sure_share) * (double)count - 1e-9
               ? rival
               : DEW_NO_OPTION;
}
