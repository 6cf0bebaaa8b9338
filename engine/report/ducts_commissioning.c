/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The sheet for whoever sets the grilles: what each should give with the
 * blower off and on, the range that is still right, and room for what was
 * found.  Figures that were measured before are judged.
 */
#include <math.h>
#include <string.h>

#include "report/ducts.h"
#include "report/lay.h"
#include "report/markup.h"

/* Of design flow, each way [TIE-MANUALS]. */
static const double allowed = 0.1;

static void add(struct dew__point *list, size_t *n, struct dew__point p)
{
    const double nothing = 2.5e-4; /* m3/s, half a cfm */

    if (p.off >= nothing || p.full >= nothing || !isnan(p.found))
        list[(*n)++] = p;
}

/* Own branches as they are set; supply air of the blower as it is computed. */
size_t dew__commissioning_points(const struct dew__told *t,
                                 struct dew__point *list)
{
    const struct dew_duct_layout *l = &t->design, *now = &t->layout;
    double set = 0, stale = 0;
    size_t n = 0;

    for (int j = 0; j < l->vent_count; j++) {
        set += l->vents[j].set[DEW_VENT_ON];
        stale += l->vents[j].set_stale[DEW_VENT_ON];
    }
    add(list, &n, (struct dew__point){"ventilator", "fresh in", set, set, NAN});
    add(list, &n,
        (struct dew__point){"ventilator", "stale out", stale, stale, NAN});
    for (int g = 0; g < l->grille_count; g++) {
        const struct dew_duct_grille *grille = &l->grilles[g],
                                     *found = &now->grilles[g];
        const struct dew_duct_vent *v =
            &l->vents[grille->vent >= 0 ? grille->vent : 0];
        int own = l->kind == DEW_LAYOUT_own_ducts || l->also_own;
        int pickup = l->kind != DEW_LAYOUT_return_tie &&
                     l->kind != DEW_LAYOUT_return_to_supply;
        double fresh = own && grille->vent >= 0 && !l->also_own
                           ? grille->fresh * v->set[DEW_VENT_ON]
                           : 0;
        double drawn = pickup && grille->vent >= 0
                           ? grille->stale * v->set_stale[DEW_VENT_ON]
                           : 0;
        double blown = grille->handler >= 0 && grille->share > 0
                           ? grille->share * l->handlers[grille->handler].flow
                           : 0;

        add(list, &n,
            (struct dew__point){grille->name, "fresh", fresh, fresh,
                                found->found_fresh});
        add(list, &n,
            (struct dew__point){grille->name, "stale", drawn, drawn,
                                found->found_stale});
        add(list, &n,
            (struct dew__point){grille->name, "supply", 0, blown,
                                found->found_supply});
    }
    return n;
}

static struct dew__word design(double q, enum dew_system system)
{
    return q > 0 ? dew__air_figure(q, system) : (struct dew__word){"-"};
}

/* "86 to 105" */
static struct dew__word band(double q, enum dew_system system)
{
    struct dew__word w = {"-"};

    if (q > 0)
        snprintf(w.text, sizeof w.text, "%.40s to %.40s",
                 dew__air_figure((1 - allowed) * q, system).text,
                 dew__air_figure((1 + allowed) * q, system).text);
    return w;
}

/* "good", "12 % low" of what was measured; "" where nothing was. */
struct dew__word dew__commissioning_judged(const struct dew__point *p)
{
    double want = p->off > 0 ? p->off : p->full, off = p->found / want - 1;
    struct dew__word w = {""};

    if (isnan(p->found))
        return w;
    if (!(want > 0))
        snprintf(w.text, sizeof w.text, "not designed");
    else if (fabs(off) <= allowed)
        snprintf(w.text, sizeof w.text, "good");
    else
        snprintf(w.text, sizeof w.text, "%.20s %% %s",
                 dew__number(100 * fabs(off), 0).text,
                 off < 0 ? "low" : "high");
    return w;
}

/* ---- text ---------------------------------------------------------------- */

void dew__commissioning_text(const struct dew__told *t, enum dew_system system,
                             FILE *out)
{
    struct dew__point list[DEW__POINTS_MOST];
    size_t n = dew__commissioning_points(t, list);
    char clean[80];

    fprintf(out,
            "\nTo set and measure with the blower off and on, %s; +/- 10 %% is "
            "right.\n",
            dew__unit(DEW_FLOW, system)->name);
    dew__left(out, "where", 22);
    dew__left(out, "air", 11);
    dew__right(out, "design", 8);
    dew__right(out, "right", 12);
    dew__right(out, "off", 10);
    dew__right(out, "on", 10);
    fputs("  found\n", out);
    for (size_t i = 0; i < n; i++) {
        double q = list[i].off > 0 ? list[i].off : list[i].full;

        dew__left(out, dew__clean(list[i].name, clean, sizeof clean), 22);
        dew__left(out, list[i].what, 11);
        dew__right(out, design(q, system).text, 8);
        dew__right(out, band(q, system).text, 12);
        dew__right(out, list[i].off > 0 ? "______" : "-", 10);
        dew__right(out, "______", 10);
        if (!isnan(list[i].found))
            fprintf(out, "  %s", dew__air_figure(list[i].found, system).text);
        fputc('\n', out);
        if (dew__commissioning_judged(&list[i]).text[0] != '\0')
            fprintf(out, "%22s found: %s\n", "",
                    dew__commissioning_judged(&list[i]).text);
    }
}

/* ---- page ---------------------------------------------------------------- */

static void row(const struct dew__point *p, enum dew_system system, FILE *out)
{
    double q = p->off > 0 ? p->off : p->full;
    struct dew__word verdict = dew__commissioning_judged(p);
    int bad = verdict.text[0] != '\0' && strcmp(verdict.text, "good") != 0;

    fputs("<tr><th scope=\"row\">", out);
    dew__escape(out, p->name);
    fprintf(out, "</th><td class=\"words\">%s</td><td>%s</td><td>%s</td>",
            p->what, design(q, system).text, band(q, system).text);
    fputs(p->off > 0 ? "<td class=\"blank\"></td>" : "<td>\xe2\x80\x93</td>",
          out);
    fputs("<td class=\"blank\"></td>", out);
    fprintf(out, "<td>%s</td><td%s>%s</td></tr>\n",
            isnan(p->found) ? "" : dew__air_figure(p->found, system).text,
            bad ? " class=\"bad\"" : "", verdict.text);
}

void dew__commissioning_html(const struct dew__told *t, enum dew_system system,
                             FILE *out)
{
    struct dew__point list[DEW__POINTS_MOST];
    size_t n = dew__commissioning_points(t, list);

    fprintf(
        out,
        "<h3>To set and measure</h3>\n<p>Each grille with the blower off "
        "and again with it at full flow; within 10 %% is right. The "
        "blower's own supply air is measured at full flow. Fresh and stale "
        "air of the ventilator agree within 10 %% in both.</p>\n<div "
        "class=\"wide\"><table class=\"sheet\"><caption>Air in %s</caption>"
        "<thead><tr><th scope=\"col\">Where</th><th scope=\"col\" class=\"words\">Air</th>"
        "<th scope=\"col\">Design</th><th scope=\"col\">Right</th><th "
        "scope=\"col\">Measured, blower off</th><th scope=\"col\">Measured, "
        "blower on</th><th scope=\"col\">Found before</th><th "
        "scope=\"col\">Which is</th></tr></thead><tbody>\n",
        dew__unit(DEW_FLOW, system)->name);
    for (size_t i = 0; i < n; i++)
        row(&list[i], system, out);
    fputs("</tbody></table></div>\n<p>Measured by "
          "______________________ on ______________, outdoors ______ "
          "degrees, filter new or cleaned: yes / no.</p>\n",
          out);
}
