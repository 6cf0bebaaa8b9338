/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Today beside the best option, in a few figures. */
#include <math.h>

#include "draw/charts.h"
#include "report/markup.h"
#include "report/words.h"
#include "sheets/page_parts.h"

static struct dew__word humid(const struct dew_report *r, size_t i)
{
    return dew__number(dew__year(r->question, i)->too_humid, 0);
}

static struct dew__word dry(const struct dew_report *r, size_t i)
{
    return dew__number(dew__year(r->question, i)->too_dry, 0);
}

static struct dew__word wet(const struct dew_report *r, size_t i)
{
    return dew__number(dew__year(r->question, i)->sweat[DEW_GLASS], 0);
}

static struct dew__word fresh(const struct dew_report *r, size_t i)
{
    double asked = r->question->choices[i].outcome->required;
    double brought = dew_verdict_fresh(r->question, i);
    struct dew__word w;

    if (!(asked > 0))
        return dew__amount(brought, DEW_FLOW, r->system, 0);
    snprintf(w.text, sizeof w.text, "%.40s of %.60s",
             dew__number(dew__shown(brought, DEW_FLOW, r->system), 0).text,
             dew__amount(asked, DEW_FLOW, r->system, 0).text);
    return w;
}

static struct dew__word co2(const struct dew_report *r, size_t i)
{
    return dew__number(dew__year(r->question, i)->co2_sum /
                           dew__year(r->question, i)->hours,
                       0);
}

static struct dew__word energy(const struct dew_report *r, size_t i)
{
    return dew__grouped(dew__energy(dew__year(r->question, i)) / DEW__KWH, 0);
}

static struct dew__word install(const struct dew_report *r, size_t i)
{
    return dew__price(r, dew_verdict_bill(r->question, i).install.likely);
}

static struct dew__word yearly(const struct dew_report *r, size_t i)
{
    return dew__money(r, dew_verdict_bill(r->question, i).yearly.likely);
}

static const struct row {
    const char *words;
    struct dew__word (*cell)(const struct dew_report *r, size_t i);
    int money; /* only where prices are given */
} rows[] = {
    {"Hours too humid", humid, 0},  {"Hours too dry", dry, 0},
    {"Hours of wet glass", wet, 0}, {"Fresh air brought", fresh, 0},
    {"Mean CO2, ppm", co2, 0},      {"Energy a year, kWh", energy, 0},
    {"To install", install, 1},     {"To run and keep, a year", yearly, 1},
};

void dew__part_glance(const struct dew_report *r, FILE *out)
{
    size_t other = dew__chart_beside(r);

    if (other == 0)
        return;
    fputs("<table class=\"glance\"><caption>At a glance</caption>", out);
    dew__html_heads(out, "In the year|%s|%s", dew__option(r, 0).text,
                    dew__option(r, (int)other).text);
    for (size_t k = 0; k < sizeof rows / sizeof *rows; k++)
        if (!rows[k].money || r->question->prices != NULL)
            dew__html_row(out, "%s|%s|%s", rows[k].words,
                          rows[k].cell(r, 0).text, rows[k].cell(r, other).text);
    fputs("</tbody></table>\n", out);
}
