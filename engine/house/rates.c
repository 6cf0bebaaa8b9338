/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/rates.h"

#include <math.h>
#include <string.h>

#include "core/range.h"

static const double foot2 = 0.3048 * 0.3048;               /* m2 */
static const double cfm = 0.3048 * 0.3048 * 0.3048 / 60.0; /* m3/s */
static const double litre = 1e-3;                          /* m3 */
static const double bin = 500.0; /* ft2 a row of the tables */
static const double person_cfm = 7.5;

const char *dew_house_rate_key(enum dew_rate_rule rule)
{
    static const char *const keys[] = {
#define X(code, key, words) key,
        DEW_RATE_MAP(X)
#undef X
    };
    return (unsigned)rule < DEW_RATE_RULES ? keys[rule] : NULL;
}

const char *dew_house_rate_words(enum dew_rate_rule rule)
{
    static const char *const texts[] = {
#define X(code, key, words) words,
        DEW_RATE_MAP(X)
#undef X
    };
    return (unsigned)rule < DEW_RATE_RULES ? texts[rule] : NULL;
}

/* "Number of bedrooms; not to be less than one" [UPC-E]. */
static int counted(int bedrooms)
{
    return bedrooms < 1 ? 1 : bedrooms;
}

/* [UPC-E] and [IRC21-WA] end at 5000 ft2 and do not go below 30 cfm.  Both are
   their formula at the top of each 500 ft2, rounded up to a whole step of cfm:
   checked cell by cell. */
static double table(const struct dew_dwelling *home, double per_ft2,
                    double step)
{
    const double most_ft2 = 5000.0;
    const double slip = 1e-9; /* ft2, so that 185.8 m2 = 2000 ft2 stays */
    double ft2 = home->floor_area / foot2;
    double top = fmax(ceil((ft2 - slip) / bin), 1.0) * bin;
    int bedrooms = counted(home->bedrooms);

    if (top > most_ft2)
        return NAN;
    if (bedrooms > 5)
        bedrooms = 5;
    return cfm *
           fmax(step *
                    ceil((per_ft2 * top + person_cfm * (bedrooms + 1)) / step -
                         slip),
                30.0);
}

/* [IRC-M1505]: 30 cfm to 1500 ft2 and one bedroom, 15 more for each 1500 ft2 more and
   for each two bedrooms more, to six rows above 7500 ft2 and five columns above
   7 bedrooms. */
static double model_table(const struct dew_dwelling *home)
{
    const double slip = 1e-9; /* ft2 */
    double ft2 = home->floor_area / foot2;
    double rows = fmin(fmax(ceil((ft2 - slip) / 1500.0), 1.0), 6.0);
    int columns = home->bedrooms > 7 ? 5 : home->bedrooms / 2 + 1;

    return cfm * 15.0 * (rows + columns);
}

static double equation(const struct dew_dwelling *home, double per_ft2)
{
    return cfm * (per_ft2 * home->floor_area / foot2 +
                  person_cfm * (counted(home->bedrooms) + 1));
}

/* England: by bedrooms, L/s, and by floor; 13 L/s for one habitable room, which
   is what a home without a bedroom is taken for.  [ADF21]. */
static double by_bedrooms(const struct dew_dwelling *home, double one,
                          double more)
{
    double rooms =
        home->bedrooms < 1 ? 13.0 : one + more * (home->bedrooms - 1);

    return litre * fmax(rooms, 0.3 * home->floor_area);
}

double dew_house_rate(enum dew_rate_rule rule, const struct dew_dwelling *home)
{
    double floor = home->floor_area;

    if (!core__within(floor, 10.0, 2000.0) ||
        !core__within(home->bedrooms, 0, 12))
        return NAN;
    switch (rule) {
    case DEW_RATE_622_2013:
        return equation(home, 0.03);
    case DEW_RATE_622_2013_TABLE:
        return table(home, 0.03, 1.0);
    case DEW_RATE_622_2013_METRIC:
        return litre * (0.15 * floor + 3.5 * (counted(home->bedrooms) + 1));
    case DEW_RATE_622_2010:
        return equation(home, 0.01);
    case DEW_RATE_IRC_TABLE:
        return model_table(home);
    case DEW_RATE_IRC_2021_WA_TABLE:
        return table(home, 0.01, 5.0);
    case DEW_RATE_ADF_2021:
        return by_bedrooms(home, 19.0, 6.0);
    case DEW_RATE_ADF_2010:
        return by_bedrooms(home, 13.0, 4.0);
    case DEW_RATE_EN16798_I:
        return litre * 0.49 * floor;
    case DEW_RATE_EN16798_II:
        return litre * 0.42 * floor;
    case DEW_RATE_EN16798_III:
        return litre * 0.35 * floor;
    case DEW_RATE_EN16798_IV:
        return litre * 0.23 * floor;
    case DEW_RATE_ACH_035:
        if (!(home->volume > 0.0 && home->persons >= 0.0))
            return NAN;
        /* [EPA-VENT] */
        return fmax(0.35 * home->volume / 3600.0, 15.0 * cfm * home->persons);
    case DEW_RATE_RULES:
        break;
    }
    return NAN;
}

double dew_house_fan_rate(enum dew_credit_rule rule, double total,
                          double credit, int balanced)
{
    if (!(total > 0.0 && credit >= 0.0))
        return NAN;
    if (rule == DEW_CREDIT_NONE)
        return total;
    if (rule == DEW_CREDIT_2013_NEW)
        return total - fmin(credit, 2.0 / 3.0 * total);
    if (rule == DEW_CREDIT_2016 && !balanced)
        credit *= fmin(credit / total, 1.0);
    return fmax(total - credit, 0.0);
}

/*
 * Mean concentration, source x cycle / volume = 1, at k = flow on x cycle /
 * volume.  On for f it falls towards 1/k, off it rises by 1 - f.
 */
static double mean_concentration(double f, double k)
{
    double off = 1.0 - f;
    /* what is above 1/k as the fan stops: off e/(1 - e), e = exp(-k f) */
    double above = off / expm1(k * f);

    return 1.0 / k + off * (1.0 / k + above) + 0.5 * off * off;
}

double dew_house_effectiveness(double share, double turns)
{
    double off = 1.0 - share, low = turns, high = turns;
    const double enough = 1e-13; /* of k */

    if (!core__within(share, 1e-3, 1.0) || !(turns > 0.0) ||
        turns * off * off >= 2.0)
        return NAN;
    for (int i = 0; i < 100 && mean_concentration(share, high) * turns > 1; i++)
        high *= 2.0;
    for (int i = 0; i < 200 && high - low > enough * high; i++) {
        double k = 0.5 * (low + high);

        if (mean_concentration(share, k) * turns > 1.0)
            low = k;
        else
            high = k;
    }
    return turns / (high * share);
}

double dew_house_steady(double on, double share, double cycle, double volume)
{
    double k = on * cycle / volume;

    if (!core__within(share, 1e-3, 1.0) || !(k > 0.0))
        return NAN;
    return volume / cycle / mean_concentration(share, k);
}

/* clang-format off */
#define CFM(x) ((x) * 0.3048 * 0.3048 * 0.3048 / 60.0)
#define LPS(x) ((x) * 1e-3)
static const struct dew_exhaust_rule locals[] = {
    {"62.2",        DEW_KITCHEN, DEW_WHEN_NEEDED, CFM(100), 0, "vented hood"},
    {"62.2",        DEW_KITCHEN, DEW_CONTINUOUS,  0,        5, ""},
    {"62.2",        DEW_BATH,    DEW_WHEN_NEEDED, CFM(50),  0, ""},
    {"62.2",        DEW_BATH,    DEW_CONTINUOUS,  CFM(20),  0, ""},
    {"irc",         DEW_KITCHEN, DEW_WHEN_NEEDED, CFM(100), 0, ""},
    {"irc",         DEW_KITCHEN, DEW_CONTINUOUS,  CFM(25),  0, ""},
    {"irc",         DEW_BATH,    DEW_WHEN_NEEDED, CFM(50),  0, ""},
    {"irc",         DEW_BATH,    DEW_CONTINUOUS,  CFM(20),  0, ""},
    {"irc-2021-wa", DEW_KITCHEN, DEW_WHEN_NEEDED, CFM(160), 0, "electric, or capture 65 %"},
    {"irc-2021-wa", DEW_KITCHEN, DEW_WHEN_NEEDED, CFM(250), 0, "gas, or capture 80 %"},
    {"irc-2021-wa", DEW_KITCHEN, DEW_CONTINUOUS,  0,        5, "enclosed kitchen"},
    {"irc-2021-wa", DEW_BATH,    DEW_WHEN_NEEDED, CFM(50),  0, ""},
    {"irc-2021-wa", DEW_BATH,    DEW_CONTINUOUS,  CFM(20),  0, ""},
    {"adf-2021",    DEW_KITCHEN, DEW_WHEN_NEEDED, LPS(30),  0, "with a hood"},
    {"adf-2021",    DEW_KITCHEN, DEW_WHEN_NEEDED, LPS(60),  0, "without a hood"},
    {"adf-2021",    DEW_UTILITY, DEW_WHEN_NEEDED, LPS(30),  0, ""},
    {"adf-2021",    DEW_BATH,    DEW_WHEN_NEEDED, LPS(15),  0, ""},
    {"adf-2021",    DEW_TOILET,  DEW_WHEN_NEEDED, LPS(6),   0, ""},
    {"adf-2021",    DEW_KITCHEN, DEW_CONTINUOUS,  LPS(13),  0, "high rate"},
    {"adf-2021",    DEW_UTILITY, DEW_CONTINUOUS,  LPS(8),   0, "high rate"},
    {"adf-2021",    DEW_BATH,    DEW_CONTINUOUS,  LPS(8),   0, "high rate"},
    {"adf-2021",    DEW_TOILET,  DEW_CONTINUOUS,  LPS(6),   0, "high rate"},
};
/* clang-format on */

const struct dew_exhaust_rule *dew_house_locals(size_t *count)
{
    *count = sizeof locals / sizeof locals[0];
    return locals;
}
