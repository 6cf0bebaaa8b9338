/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The tables of a layout, the same in text and page: what each state does,
 * what to set and measure at each grille, parts to buy and duct sizes.
 */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "dew/parts.h"
#include "report/ducts.h"
#include "report/sheet.h"

_Static_assert((int)REPORT__SHEET_ROWS >= 3 * DEW_BLOWER_STATES &&
                   (int)REPORT__SHEET_ROWS > DEW_DUCT_PARTS &&
                   (int)REPORT__SHEET_ROWS >= REPORT__POINTS_MOST &&
                   (int)REPORT__SHEET_ROWS >
                       2 * (DEW_DUCT_GRILLES + 2 * DEW_DUCT_HANDLERS),
               "every row of a layout's tables has room");

/* ---- states ---------------------------------------------------------------- */

/* Three air handlers have no room for words: first letters. */
static struct report__word head_of(const struct report__told *t, int blower)
{
    struct report__word w = report__told_blowers(t, blower);

    if (t->layout.handler_count == DEW_DUCT_HANDLERS)
        for (int k = 0; k < DEW_DUCT_HANDLERS; k++)
            snprintf(w.text + 2 * k, sizeof w.text - (size_t)(2 * k), "%c%s",
                     "olf"[dew_ducts_blower_digit(blower, k)],
                     k < DEW_DUCT_HANDLERS - 1 ? " " : "");
    return w;
}

static const char *letters(const struct report__told *t)
{
    return t->layout.handler_count == DEW_DUCT_HANDLERS
               ? " Air handlers: o off, l low, f full."
               : "";
}

static void state_row(const struct dew_duct_state *s, enum dew_system system,
                      struct report__word name, struct report__sheet *sheet)
{
    int off = s->vent != DEW_VENT_OFF && !s->balanced;

    report__sheet_row(
        sheet, "%s\t%s\t%s\t%s\t%s\t%s%s\t%s\t%s\t%s\t%s", name.text,
        report__told_vent(s->vent),
        report__air_figure(s->fresh_delivered, system).text,
        report__air_figure(s->stale_drawn, system).text,
        report__percent(s->short_circuit_share).text,
        report__air_figure(s->imbalance, system).text, off ? " !" : "",
        report__air_figure(s->backflow, system).text,
        report__air_figure(s->unplanned, system).text,
        report__number(s->blower_w, 0).text, report__number(s->fan_w, 0).text);
}

/* Of the air handlers every state, or those worth a row. */
static void states(const struct report__told *t, enum dew_system system,
                   enum report__ducts_place where, struct report__sheet *s)
{
    int every = where != REPORT__IN_TEXT;
    int last = t->boost ? DEW_VENT_BOOST : DEW_VENT_ON;
    int count = every ? t->blowers : t->shown_count;

    snprintf(s->caption, sizeof s->caption,
             "%s in %s, W electric; ! is more than 10 %% out of balance.%s",
             every ? "Every state, air" : "Air",
             report__unit(DEW_FLOW, system)->name, every ? "" : letters(t));
    report__sheet_columns(s,
                          "9 air\nhandlers\t-6 vent-\nilator\t9 fresh\nto rooms"
                          "\t7 stale\ndrawn\t9 short\ncircuit\t9 fresh -\nstale"
                          "\t9 backflow\t10 unplanned\t7 blower\nW\t5 fans\nW");
    for (int v = DEW_VENT_OFF; v <= last; v++)
        for (int i = 0; i < count; i++) {
            int b = every ? i : t->shown[i];

            state_row(&t->states[v][b], system,
                      every ? report__told_blowers(t, b) : head_of(t, b), s);
        }
}

/* ---- grilles --------------------------------------------------------------- */

/* Where a state has the flow of a grille or air handler k; ROOMS: what the
   rooms of that air handler get, where nothing is an answer too. */
enum { ROOMS = 0 };

static double flow_at(const struct report__told *t,
                      const struct dew_duct_state *s, size_t offset, int k)
{
    const char *state = (const char *)s;

    if (offset == ROOMS)
        return report__told_to_rooms(t, s, k);
    return ((const double *)(const void *)(state + offset))[k];
}

/* A row of the states shown, left out where nothing flows in any of them. */
static void place_row(const struct report__told *t, const char *name,
                      size_t offset, int k, enum dew_system system,
                      struct report__sheet *s)
{
    char row[REPORT__TOLD_STATES * sizeof(struct report__word)], clean[80];
    double most = 0;
    size_t at = 0;

    for (int i = 0; i < t->shown_count && at < sizeof row; i++) {
        double q = flow_at(t, &t->states[DEW_VENT_ON][t->shown[i]], offset, k);

        most = fmax(most, fabs(q));
        at += (size_t)snprintf(row + at, sizeof row - at, "\t%s",
                               report__air_figure(q, system).text);
    }
    if (offset == ROOMS || report__shown(most, DEW_FLOW, system) >= 0.05)
        report__sheet_row(s, "%s%s", core__clean(name, clean, sizeof clean),
                          row);
}

static void place_rows(const struct report__told *t, size_t offset,
                       const char *name, enum dew_system system,
                       struct report__sheet *s)
{
    int count = name ? t->layout.handler_count : t->layout.grille_count;
    char numbered[60];

    for (int k = 0; k < count; k++) {
        snprintf(numbered, sizeof numbered, "%s %d", name ? name : "", k + 1);
        place_row(t, name ? numbered : t->layout.grilles[k].name, offset, k,
                  system, s);
    }
}

#define FLOW(member) offsetof(struct dew_duct_state, member)

static void grilles(const struct report__told *t, enum dew_system system,
                    enum report__ducts_place where, struct report__sheet *s)
{
    int many = t->shown_count > 5;
    char heads[REPORT__TOLD_STATES * sizeof(struct report__word)] = "";
    size_t at = 0;

    if (where != REPORT__IN_TEXT)
        return; /* a page has its sketches */
    snprintf(s->caption, sizeof s->caption,
             "Ventilator on, air handlers as headed, %s.%s",
             report__unit(DEW_FLOW, system)->name, letters(t));
    report__sheet_columns(s, "%d fresh air out of", many ? 16 : 26);
    for (int i = 0; i < t->shown_count && at < sizeof heads; i++) {
        struct report__word w = head_of(t, t->shown[i]);

        report__sheet_columns(s, "10 %s", w.text);
        at += (size_t)snprintf(heads + at, sizeof heads - at, "\t%s", w.text);
    }
    place_rows(t, FLOW(fresh_at), NULL, system, s);
    place_rows(t, FLOW(fresh_at_return), "return grilles", system, s);
    if (t->layout.handler_count > 1)
        place_rows(t, ROOMS, many ? "all rooms of" : "all rooms of air handler",
                   system, s);
    report__sheet_row(s, "stale air from%s", heads);
    place_rows(t, FLOW(stale_at), NULL, system, s);
    place_rows(t, FLOW(stale_return), "return trunk", system, s);
}

/* ---- what to set and measure ----------------------------------------------- */

/* Of design flow, each way [TIE-MANUALS]. */
static const double allowed = 0.1;

static void add(struct report__point *list, size_t *n, struct report__point p)
{
    const double nothing = 2.5e-4; /* m3/s, half a cfm */

    if (p.off >= nothing || p.full >= nothing || !isnan(p.found))
        list[(*n)++] = p;
}

/* Own branches as they are set; supply air of the blower as it is computed. */
size_t report__commissioning_points(const struct report__told *t,
                                    struct report__point *list)
{
    const struct dew_duct_layout *l = &t->design, *now = &t->layout;
    double set = 0, stale = 0;
    size_t n = 0;

    for (int j = 0; j < l->vent_count; j++) {
        set += l->vents[j].set[DEW_VENT_ON];
        stale += l->vents[j].set_stale[DEW_VENT_ON];
    }
    add(list, &n,
        (struct report__point){"ventilator", "fresh in", set, set, NAN});
    add(list, &n,
        (struct report__point){"ventilator", "stale out", stale, stale, NAN});
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
            (struct report__point){grille->name, "fresh", fresh, fresh,
                                   found->found_fresh});
        add(list, &n,
            (struct report__point){grille->name, "stale", drawn, drawn,
                                   found->found_stale});
        add(list, &n,
            (struct report__point){grille->name, "supply", 0, blown,
                                   found->found_supply});
    }
    return n;
}

/* "good", "12 % low" of what was measured; "" where nothing was. */
struct report__word report__commissioning_judged(const struct report__point *p)
{
    double want = p->off > 0 ? p->off : p->full, off = p->found / want - 1;
    struct report__word w = {""};

    if (isnan(p->found))
        return w;
    if (!(want > 0))
        snprintf(w.text, sizeof w.text, "not designed");
    else if (fabs(off) <= allowed)
        snprintf(w.text, sizeof w.text, "good");
    else
        snprintf(w.text, sizeof w.text, "%.20s %% %s",
                 report__number(100 * fabs(off), 0).text,
                 off < 0 ? "low" : "high");
    return w;
}

/* Behind it what was found, where anything was. */
static void point_row(const struct report__point *p, enum dew_system system,
                      struct report__sheet *s)
{
    double q = p->off > 0 ? p->off : p->full;
    struct report__word judged = report__commissioning_judged(p);
    char clean[80], design[80] = "-\t-", found[200] = "";

    if (q > 0)
        snprintf(design, sizeof design, "%.20s\t%.20s to %.20s",
                 report__air_figure(q, system).text,
                 report__air_figure((1 - allowed) * q, system).text,
                 report__air_figure((1 + allowed) * q, system).text);
    if (!isnan(p->found))
        snprintf(found, sizeof found, "\t%.20s\t%.20s%s",
                 report__air_figure(p->found, system).text, judged.text,
                 strcmp(judged.text, "good") != 0 ? " !" : "");
    report__sheet_row(s, "%s\t%s\t%s\t%s\t______%s",
                      core__clean(p->name, clean, sizeof clean), p->what,
                      design, p->off > 0 ? "______" : "-", found);
}

static void commissioning(const struct report__told *t, enum dew_system system,
                          enum report__ducts_place where,
                          struct report__sheet *s)
{
    struct report__point list[REPORT__POINTS_MOST];
    size_t n = report__commissioning_points(t, list);

    (void)where;
    s->title = "To set and measure";
    snprintf(s->caption, sizeof s->caption,
             "Air in %s with the blower off and on; within 10 %% is right.",
             report__unit(DEW_FLOW, system)->name);
    report__sheet_columns(s,
                          "19 where\t-10 air\t7 design\t12 right\t7 off\t7 on");
    for (size_t i = 0; i < n && s->columns == 6; i++)
        if (!isnan(list[i].found))
            report__sheet_columns(s, "6 found\t12 which is");
    for (size_t i = 0; i < n; i++)
        point_row(&list[i], system, s);
    report__sheet_note(s,
                       "Each grille with the blower off and again with it at "
                       "full flow; the blower's own supply air is measured at "
                       "full flow. Fresh and stale air of the ventilator agree "
                       "within 10 %% in both.");
    report__sheet_note(s,
                       "Measured by ______________________ on ______________, "
                       "outdoors ______ degrees, filter new or cleaned: yes / "
                       "no.");
}

/* ---- parts and sizes ------------------------------------------------------- */

/* "6 in" or "152 mm"; "" where there is none. */
static struct report__word across(double diameter, enum dew_system system)
{
    struct report__word w = {""};
    double inches = diameter / 0.0254;

    if (!(diameter > 0))
        return w;
    if (system == DEW_SYSTEM_US)
        snprintf(
            w.text, sizeof w.text, "%.40s in",
            report__number(inches, fabs(inches - rint(inches)) > 0.05).text);
    else
        snprintf(w.text, sizeof w.text, "%.40s mm",
                 report__number(1000 * diameter, 0).text);
    return w;
}

/* Pieces, or an amount in the report's own unit. */
static struct report__word amount(const struct dew_duct_part *p,
                                  enum dew_system system)
{
    const char *unit = dew_ducts_part_unit(p->kind);

    if (unit[0] == '\0')
        return report__number(p->amount, 0);
    return report__amount(p->amount, unit[1] == '2' ? DEW_AREA : DEW_LENGTH,
                          system, 0);
}

/* "intake duct", "intake duct, ventilator 2", "branch to bath". */
static struct report__word place(const struct report__told *t,
                                 const struct dew_duct_sizing *s)
{
    struct report__word w;
    char clean[100];

    core__clean(s->name, clean, sizeof clean);
    if (s->branch)
        snprintf(w.text, sizeof w.text, "branch to %s", clean);
    else if (t->layout.vent_count > 1)
        snprintf(w.text, sizeof w.text, "%s, ventilator %d", clean, s->of + 1);
    else
        snprintf(w.text, sizeof w.text, "%s", clean);
    return w;
}

static int is_listed(const struct report__told *t,
                     enum report__ducts_place where)
{
    return where != REPORT__IN_SECTION && t->layout.written == NULL;
}

static void parts(const struct report__told *t, enum dew_system system,
                  enum report__ducts_place where, struct report__sheet *s)
{
    struct dew_duct_part rows[DEW_DUCT_PARTS];
    size_t n = dew_ducts_parts(&t->layout, rows, DEW_DUCT_PARTS);
    double hours = 0;

    if (!is_listed(t, where))
        return;
    s->title = "To buy and fit";
    snprintf(s->caption, sizeof s->caption,
             "Counted from the layout, beside the air handlers' own ducts; "
             "hours of one fitter are our guess and only compare layouts.");
    report__sheet_columns(s, "46 part\t9 size\t11 amount\t7 hours");
    for (size_t i = 0; i < n; i++) {
        hours += rows[i].hours;
        report__sheet_row(s, "%s\t%s\t%s\t%s",
                          dew_ducts_part_text(rows[i].kind),
                          across(rows[i].diameter, system).text,
                          amount(&rows[i], system).text,
                          report__number(rows[i].hours, 1).text);
    }
    report__sheet_row(s, "all hours\t\t\t%s", report__number(hours, 0).text);
}

static void sizes(const struct report__told *t, enum dew_system system,
                  enum report__ducts_place where, struct report__sheet *s)
{
    struct dew_duct_sizing rows[DEW_DUCT_SIZINGS];
    size_t n = dew_ducts_sizings(&t->layout, DEW_DUCTS_USUAL_RATE, rows,
                                 DEW_DUCT_SIZINGS);

    if (!is_listed(t, where))
        return;
    snprintf(s->caption, sizeof s->caption,
             "Sizes for the greatest flow at %s; ! is too small.",
             system == DEW_SYSTEM_US ? "0.08 in. of water per 100 ft"
                                     : "0.65 Pa/m");
    report__sheet_columns(s,
                          "34 duct\t9 %s\t9 least\t14 common size\t12 as laid",
                          report__unit(DEW_FLOW, system)->name);
    for (size_t i = 0; i < n; i++)
        report__sheet_row(s, "%s\t%s\t%s\t%s\t%s%s", place(t, &rows[i]).text,
                          report__air_figure(rows[i].flow, system).text,
                          across(rows[i].least, system).text,
                          across(rows[i].common, system).text,
                          across(rows[i].now, system).text,
                          rows[i].small ? " !" : "");
}

/* ---- all ------------------------------------------------------------------- */

typedef void table(const struct report__told *t, enum dew_system system,
                   enum report__ducts_place where, struct report__sheet *s);

static table *const tables[] = {states, grilles, commissioning, parts, sizes};

void report__ducts_tables(const struct report__told *t, enum dew_system system,
                          enum report__ducts_place where, FILE *out)
{
    struct report__sheet s;

    for (size_t k = 0; k < sizeof tables / sizeof *tables; k++) {
        memset(&s, 0, sizeof s);
        tables[k](t, system, where, &s);
        if (s.columns == 0)
            continue;
        if (where == REPORT__IN_TEXT)
            report__sheet_table_text(&s, out);
        else
            report__sheet_table_html(&s, out);
    }
}
