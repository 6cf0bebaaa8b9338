/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a layout is built of: sizes for its flows, parts and hours. */
#include <math.h>

#include "dew/parts.h"
#include "report/ducts.h"
#include "report/lay.h"
#include "report/markup.h"

/* ---- figures --------------------------------------------------------------- */

static int inch_pound(enum dew_system system)
{
    return system == DEW_SYSTEM_US;
}

/* "6 in" or "152 mm"; "" where there is none. */
static struct dew__word across(double diameter, enum dew_system system)
{
    struct dew__word w = {""};
    double inches = diameter / 0.0254;

    if (!(diameter > 0))
        return w;
    if (inch_pound(system))
        snprintf(w.text, sizeof w.text, "%.40s in",
                 dew__number(inches, fabs(inches - rint(inches)) > 0.05).text);
    else
        snprintf(w.text, sizeof w.text, "%.40s mm",
                 dew__number(1000 * diameter, 0).text);
    return w;
}

/* Pieces, or an amount in the report's own unit. */
static struct dew__word amount(const struct dew_duct_part *p,
                               enum dew_system system)
{
    const char *unit = dew_ducts_part_unit(p->kind);

    if (unit[0] == '\0')
        return dew__number(p->amount, 0);
    return dew__amount(p->amount, unit[1] == '2' ? DEW_AREA : DEW_LENGTH,
                       system, 0);
}

/* "intake duct", "intake duct, ventilator 2", "branch to bath". */
static struct dew__word place(const struct dew__told *t,
                              const struct dew_duct_sizing *s)
{
    struct dew__word w;
    char clean[100];

    dew__clean(s->name, clean, sizeof clean);
    if (s->branch)
        snprintf(w.text, sizeof w.text, "branch to %s", clean);
    else if (t->layout.vent_count > 1)
        snprintf(w.text, sizeof w.text, "%s, ventilator %d", clean, s->of + 1);
    else
        snprintf(w.text, sizeof w.text, "%s", clean);
    return w;
}

static double hours_of(const struct dew_duct_part *rows, size_t n)
{
    double sum = 0;

    for (size_t i = 0; i < n; i++)
        sum += rows[i].hours;
    return sum;
}

/* "0.08 in. of water per 100 ft" or "0.65 Pa/m", of the usual rate. */
static const char *rate_words(enum dew_system system)
{
    return inch_pound(system) ? "0.08 in. of water per 100 ft" : "0.65 Pa/m";
}

static const char invented[] =
    "beside the air handlers' own ducts; hours of one fitter are invented and "
    "only compare layouts";

/* ---- text ------------------------------------------------------------------ */

void dew__parts_text(const struct dew__told *t, enum dew_system system,
                     FILE *out)
{
    struct dew_duct_sizing sizes[DEW_DUCT_SIZINGS];
    struct dew_duct_part rows[DEW_DUCT_PARTS];
    size_t n = dew_ducts_parts(&t->layout, rows, DEW_DUCT_PARTS);
    size_t m = dew_ducts_sizings(&t->layout, DEW_DUCTS_USUAL_RATE, sizes,
                                 DEW_DUCT_SIZINGS);

    if (t->layout.written != NULL) {
        fputc('\n', out);
        dew__wrap(out, "", dew__told_bare);
        return;
    }
    fputs("\nTo buy and fit", out);
    fprintf(out, ", %s.\n", "beside the air handlers' own ducts");
    dew__left(out, "part", 46);
    dew__right(out, "size", 9);
    dew__right(out, "amount", 11);
    dew__right(out, "hours", 7);
    fputc('\n', out);
    for (size_t i = 0; i < n; i++) {
        dew__left(out, dew_ducts_part_text(rows[i].kind), 46);
        dew__right(out, across(rows[i].diameter, system).text, 9);
        dew__right(out, amount(&rows[i], system).text, 11);
        dew__right(out, dew__number(rows[i].hours, 1).text, 7);
        fputc('\n', out);
    }
    dew__left(out, "hours of one fitter, invented: to compare only", 66);
    dew__right(out, dew__number(hours_of(rows, n), 0).text, 7);
    fprintf(out, "\n\nSizes for the greatest flow at %s.\n",
            rate_words(system));
    for (size_t i = 0; i < m; i++) {
        dew__left(out, place(t, &sizes[i]).text, 36);
        dew__right(out, dew__air(sizes[i].flow, system).text, 10);
        dew__right(out, across(sizes[i].common, system).text, 10);
        fprintf(out, "   laid %s%s\n", across(sizes[i].now, system).text,
                sizes[i].small ? " !" : "");
    }
}

/* ---- page ------------------------------------------------------------------ */

static void cell(const char *text, FILE *out)
{
    fputs("<td>", out);
    dew__escape(out, text);
    fputs("</td>", out);
}

static void parts_table(const struct dew_duct_part *rows, size_t n,
                        enum dew_system system, FILE *out)
{
    fprintf(out,
            "<h3>To buy and fit</h3>\n<p>Counted from the layout, %s.</p>\n"
            "<div class=\"wide\"><table><thead><tr><th scope=\"col\">Part</th>"
            "<th scope=\"col\">Size</th><th scope=\"col\">Amount</th><th "
            "scope=\"col\">Hours</th></tr></thead><tbody>\n",
            invented);
    for (size_t i = 0; i < n; i++) {
        fputs("<tr><th scope=\"row\">", out);
        dew__escape(out, dew_ducts_part_text(rows[i].kind));
        fputs("</th>", out);
        cell(across(rows[i].diameter, system).text, out);
        cell(amount(&rows[i], system).text, out);
        cell(dew__number(rows[i].hours, 1).text, out);
        fputs("</tr>\n", out);
    }
    fprintf(out,
            "<tr><th scope=\"row\">All hours</th><td></td><td></td><td>%s</td>"
            "</tr>\n</tbody></table></div>\n",
            dew__number(hours_of(rows, n), 0).text);
}

static void size_row(const struct dew__told *t, const struct dew_duct_sizing *s,
                     enum dew_system system, FILE *out)
{
    fputs("<tr><th scope=\"row\">", out);
    dew__escape(out, place(t, s).text);
    fputs("</th>", out);
    cell(dew__air_figure(s->flow, system).text, out);
    cell(across(s->least, system).text, out);
    cell(across(s->common, system).text, out);
    fprintf(out, "<td%s>%s</td></tr>\n", s->small ? " class=\"bad\"" : "",
            across(s->now, system).text);
}

void dew__parts_html(const struct dew__told *t, enum dew_system system,
                     FILE *out)
{
    struct dew_duct_sizing sizes[DEW_DUCT_SIZINGS];
    struct dew_duct_part rows[DEW_DUCT_PARTS];
    size_t n = dew_ducts_parts(&t->layout, rows, DEW_DUCT_PARTS);
    size_t m = dew_ducts_sizings(&t->layout, DEW_DUCTS_USUAL_RATE, sizes,
                                 DEW_DUCT_SIZINGS);

    if (t->layout.written != NULL)
        return; /* said in place of the sketch */
    parts_table(rows, n, system, out);
    fprintf(out,
            "<div class=\"wide\"><table><caption>Sizes for the greatest flow "
            "at %s</caption><thead><tr><th scope=\"col\">Duct</th><th "
            "scope=\"col\">Air, %s</th><th scope=\"col\">Least</th><th "
            "scope=\"col\">Common size</th><th scope=\"col\">As laid</th></tr>"
            "</thead><tbody>\n",
            rate_words(system), dew__unit(DEW_FLOW, system)->name);
    for (size_t i = 0; i < m; i++)
        size_row(t, &sizes[i], system, out);
    fputs("</tbody></table></div>\n", out);
}
