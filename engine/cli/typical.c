/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Typical equipment as tables: what it is, its ranges, where they are from. */
#include "cli/typical.h"

#include <string.h>

#include "cli/cli.h"
#include "dew/library.h"

enum { WORDS = 300 };

/* One row: the word of the key, what it is, its figures, their source. */
typedef void teller(const char *key, const char *words, const char *figures,
                    const char *source);

/* "0.55 to 0.72 to 0.80" of a unit that is factor times SI. */
static const char *range(const struct dew_range *r, double factor, int decimals,
                         char out[60])
{
    snprintf(out, 60, "%.*f, %.*f, %.*f", decimals, r->low * factor, decimals,
             r->likely * factor, decimals, r->high * factor);
    return out;
}

static const double per_cfm = 1 / 2118.8800032893155; /* W per m3/s to W/cfm */
static const double btu_per_wh = 3.412141633;         /* W/W to Btu/Wh       */

static void cores(teller *tell)
{
    const struct dew_typical_core *c;

    for (size_t i = 0; (c = dew_plant_typical_core(i)) != NULL; i++) {
        char heat[60], water[60], leak[60], watts[60], text[WORDS];

        snprintf(
            text, sizeof text,
            "heat %s %%; moisture %s %%; cross leakage %s %%; both fans "
            "%s W/cfm",
            range(&c->sensible, 100, 0, heat), range(&c->latent, 100, 0, water),
            range(&c->eatr, 100, 1, leak), range(&c->power, per_cfm, 2, watts));
        tell(c->key, c->words, text, c->source);
    }
}

static void blowers(teller *tell)
{
    const struct dew_typical_blower *b;

    for (size_t i = 0; (b = dew_plant_typical_blower(i)) != NULL; i++) {
        char watts[60], text[WORDS];

        snprintf(text, sizeof text,
                 "%s W/cfm at full flow; low flow %.0f %%, with %.0f %% of the "
                 "watts",
                 range(&b->power, per_cfm, 3, watts), 100 * b->low_flow,
                 100 * b->low_power);
        tell(b->key, b->words, text, b->source);
    }
}

static void coolers(teller *tell)
{
    const struct dew_typical_cooler *c;

    for (size_t i = 0; (c = dew_plant_typical_cooler(i)) != NULL; i++) {
        char seer[60], shr[60], text[WORDS];

        snprintf(text, sizeof text,
                 "SEER %s; sensible share %s %%; cycling loss %.0f %%; low "
                 "stage %.0f %%; turndown %.0f %%",
                 range(&c->seer, btu_per_wh, 0, seer),
                 range(&c->shr, 100, 0, shr), 100 * c->cycling,
                 100 * c->low_stage, 100 * c->turndown);
        tell(c->key, c->words, text, c->source);
    }
}

static void dryers(teller *tell)
{
    const struct dew_typical_dryer *d;

    for (size_t i = 0; (d = dew_plant_typical_dryer(i)) != NULL; i++) {
        char factor[60], text[WORDS];

        snprintf(text, sizeof text, "%s L/kWh at %.1f degC and %.0f %%",
                 range(&d->factor, 3.6e6, 2, factor), d->rating_t,
                 100 * d->rating_rh);
        tell(d->key, d->words, text, d->source);
    }
}

/* What a coil holds and gives back, in the units of their keys. */
static void stores(teller *tell)
{
    /* cfm/ton to m3/s per W: 4.719474e-4 / 3516.8528 [SP811] */
    static const struct {
        const char *key, *unit;
        double factor;
        int decimals;
    } rows[] = {
        {"coil_hold", "", 1, 0},
        {"coil_drying", "", 1, 2},
        {"cycles", "", 1, 2},
        {"blower_off_delay", "", 1, 0},
        {"still_air", ", %", 100, 1},
        {"airflow", ", cfm/ton", 3516.8528 / 4.719474432e-4, 0},
    };
    enum { ROWS = sizeof rows / sizeof rows[0] };
    const struct dew_typical_store *s;

    for (size_t i = 0; i < ROWS && (s = dew_plant_typical_store(i)) != NULL;
         i++) {
        char figures[60], words[WORDS];

        snprintf(words, sizeof words, "%s%s", s->words, rows[i].unit);
        tell(rows[i].key, words,
             range(&s->value, rows[i].factor, rows[i].decimals, figures),
             s->source);
    }
}

static void fans(teller *tell)
{
    const struct dew_typical_fan *f;

    for (size_t i = 0; (f = dew_plant_typical_fan(i)) != NULL; i++) {
        char text[WORDS];

        snprintf(text, sizeof text, "%.1f cfm/W at least", f->least / per_cfm);
        tell(f->key, f->words, text, f->source);
    }
}

/* What a table is for, and its rows. */
static const struct table {
    const char *key, *about;
    void (*rows)(teller *tell);
} tables[] = {
    {"ventilator.typical", "cores, by ventilator.core and .exchange", cores},
    {"cooling.motor", "blowers of air handlers", blowers},
    {"cooling.typical", "cooling machines", coolers},
    {"dehumidifier.typical", "dehumidifiers", dryers},
    {"cooling", "coils, for the keys of these names", stores},
    {"power of fans", "least efficacy that a code asks for", fans},
};
enum { TABLES = sizeof tables / sizeof tables[0] };

static const char before[] =
    "Typical equipment, for where nothing better is known: low, likely and "
    "high. No make, no model. A spec sheet always replaces it.";

static void line(const char *key, const char *words, const char *figures,
                 const char *source)
{
    printf("  %s: %s\n", key, words);
    cli__wrap(stdout, 6, figures);
    cli__wrap(stdout, 6, source);
}

void cli__typical_text(void)
{
    cli__wrap(stdout, 0, before);
    for (int i = 0; i < TABLES; i++) {
        printf("\n%s: %s\n\n", tables[i].key, tables[i].about);
        tables[i].rows(line);
    }
}

static void cell_row(const char *key, const char *words, const char *figures,
                     const char *source)
{
    printf("| `%s` | %s | %s | %s |\n", key, words, figures, source);
}

void cli__typical_markdown(void)
{
    printf("\n## Typical equipment\n\n%s\n", before);
    for (int i = 0; i < TABLES; i++) {
        printf("\n`%s`: %s.\n\n| word | what it is | low, likely, high | "
               "source |\n|---|---|---|---|\n",
               tables[i].key, tables[i].about);
        tables[i].rows(cell_row);
    }
}
