/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a duct layout is built of. */
#include "dew/parts.h"

#include <math.h>

#include "ducts/build.h"

static const double pi = 3.14159265358979323846;

/* ---- sizes ---------------------------------------------------------------- */

static double loss_of(double diameter, double roughness, double q)
{
    struct dew_duct d = {
        .diameter = diameter, .length = 1.0, .roughness = roughness};

    return dew_ducts_drop(&d, DEW_DUCTS_DENSITY, q, NULL);
}

/* Loss falls with the diameter: halve the bracket in the logarithm. */
double dew_ducts_diameter(double q, double rate, double roughness)
{
    double low = fmax(0.02, 10.0 * roughness), high = 3.0;

    if (!(q >= 1e-4 && q <= 50.0 && rate >= 0.01 && rate <= 50.0 &&
          roughness >= 0.0 && roughness <= 0.005) ||
        !(loss_of(low, roughness, q) >= rate) ||
        !(loss_of(high, roughness, q) <= rate))
        return NAN;
    while (high / low - 1.0 > 1e-12) {
        double middle = sqrt(low * high);

        if (loss_of(middle, roughness, q) > rate)
            low = middle;
        else
            high = middle;
    }
    return high;
}

/* Rows on their way out, no more than there is room for. */
struct sizings {
    struct dew_duct_sizing *out;
    size_t room, count;
    double rate;
};

static double across(const struct dew_duct *d)
{
    return d->diameter > 0.0
               ? d->diameter
               : dew_ducts_equivalent_diameter(d->width, d->height);
}

static void size_run(struct sizings *s, struct dew_duct_sizing row,
                     const struct dew_duct *laid)
{
    struct dew_duct metre = *laid;

    metre.length = 1.0;
    metre.extra = metre.loss = 0.0;
    row.least = dew_ducts_diameter(row.flow, s->rate, laid->roughness);
    row.common = ducts__size(row.flow, s->rate, laid->roughness);
    row.now = across(laid);
    row.rate = dew_ducts_drop(&metre, DEW_DUCTS_DENSITY, row.flow, NULL);
    row.speed = row.flow / dew_ducts_area(laid);
    row.small = row.rate > s->rate;
    if (s->count < s->room)
        s->out[s->count] = row;
    s->count++;
}

static double most_fresh(const struct dew_duct_vent *v)
{
    return fmax(v->set[DEW_VENT_ON], v->set[DEW_VENT_BOOST]);
}

static double most_stale(const struct dew_duct_vent *v)
{
    return fmax(v->set_stale[DEW_VENT_ON], v->set_stale[DEW_VENT_BOOST]);
}

/* Runs that a ventilator's fresh or stale air is split between. */
static int ties_of(const struct dew_duct_layout *l, int j)
{
    int ties = 0;

    for (int k = 0; k < l->handler_count; k++)
        ties += l->vents[j].serves >> k & 1;
    return l->kind == DEW_LAYOUT_own_ducts ? 0 : ties;
}

static int grilles_of(const struct dew_duct_layout *l, int j, int fresh)
{
    int count = 0;

    for (int g = 0; g < l->grille_count; g++) {
        const struct dew_duct_grille *at = &l->grilles[g];

        count += at->vent == j && (fresh ? at->fresh : at->stale) > 0.0;
    }
    return count;
}

static void size_vent(struct sizings *s, const struct dew_duct_layout *l, int j)
{
    const struct dew_duct_vent *v = &l->vents[j];
    int fresh_runs = ties_of(l, j) + ducts__own_fresh(l);
    int stale_runs = ducts__return_stale(l) ? ties_of(l, j) : 1;

    size_run(s,
             (struct dew_duct_sizing){
                 .name = "intake duct", .of = j, .flow = most_fresh(v)},
             &v->intake.duct);
    size_run(s,
             (struct dew_duct_sizing){
                 .name = "exhaust duct", .of = j, .flow = most_stale(v)},
             &v->discharge.duct);
    size_run(s,
             (struct dew_duct_sizing){.name = "fresh air duct",
                                      .of = j,
                                      .flow = most_fresh(v) / fresh_runs},
             &v->fresh.duct);
    size_run(s,
             (struct dew_duct_sizing){.name = "stale air duct",
                                      .of = j,
                                      .flow = most_stale(v) / stale_runs},
             &v->stale.duct);
}

/* What a grille's own branch carries in this layout; 0 for none. */
static double branch_flow(const struct dew_duct_layout *l,
                          const struct dew_duct_grille *at)
{
    double fresh = 0.0, stale = 0.0;

    if (at->vent < 0)
        return 0.0;
    if (ducts__own_fresh(l))
        fresh = at->fresh * most_fresh(&l->vents[at->vent]);
    if (!ducts__return_stale(l))
        stale = at->stale * most_stale(&l->vents[at->vent]);
    return fmax(fresh, stale);
}

size_t dew_ducts_sizings(const struct dew_duct_layout *layout, double rate,
                         struct dew_duct_sizing *out, size_t room)
{
    struct sizings s = {out, room, 0, rate};

    if (layout->written != NULL)
        return 0;
    for (int j = 0; j < layout->vent_count; j++)
        size_vent(&s, layout, j);
    for (int g = 0; g < layout->grille_count; g++) {
        double q = branch_flow(layout, &layout->grilles[g]);
        struct dew_duct_sizing row = {
            .name = layout->grilles[g].name, .of = g, .branch = 1, .flow = q};

        if (q > 0.0)
            size_run(&s, row, &layout->grilles[g].line.duct);
    }
    return s.count;
}

/* ---- the list --------------------------------------------------------------- */

static const struct {
    const char *words, *unit;
    double hours;
} kinds[] = {
#define X(name, words, unit, hours) {words, unit, hours},
    DEW_DUCT_PART_MAP(X)
#undef X
};

const char *dew_ducts_part_text(enum dew_duct_part_kind kind)
{
    return (unsigned)kind < DEW_DUCT_PART_KINDS ? kinds[kind].words
                                                : "no such part";
}

const char *dew_ducts_part_unit(enum dew_duct_part_kind kind)
{
    return (unsigned)kind < DEW_DUCT_PART_KINDS ? kinds[kind].unit : "";
}

struct parts {
    struct dew_duct_part rows[DEW_DUCT_PARTS];
    size_t count;
};

static int alike(double a, double b)
{
    return fabs(a - b) < 1e-6; /* m: one size */
}

static void add(struct parts *p, enum dew_duct_part_kind kind, double diameter,
                double amount)
{
    size_t i = 0;

    if (!(amount > 0.0))
        return;
    while (i < p->count &&
           !(p->rows[i].kind == kind && alike(p->rows[i].diameter, diameter)))
        i++;
    if (i == DEW_DUCT_PARTS) /* more sizes than shelves: the last row */
        i--;
    if (i == p->count)
        p->rows[p->count++] =
            (struct dew_duct_part){.kind = kind, .diameter = diameter};
    p->rows[i].amount += amount;
    p->rows[i].hours += amount * kinds[kind].hours;
}

/* A run: its duct, its elbows, its insulation; ends: what its ends lose. */
static void add_line(struct parts *p, const struct dew_duct_line *line,
                     double ends, double clad)
{
    const double elbow = 0.25; /* [ETB-208] rounded, r/D above 1 */
    double wide = across(&line->duct);

    add(p, DEW_PART_duct, wide, line->duct.length);
    add(p, DEW_PART_elbow, wide, floor((line->duct.loss - ends) / elbow + 0.5));
    add(p, DEW_PART_insulation, 0.0, clad * pi * wide * line->duct.length);
}

static void add_outdoors(struct parts *p, const struct dew_duct_layout *l,
                         const struct dew_duct_vent *v)
{
    const struct dew_duct_line *lines[2] = {&v->intake, &v->discharge};
    const double ends[2] = {0.35 + 3.0, 1.0 + 3.0}; /* as filled in, fill.c */

    for (int i = 0; i < 2; i++) {
        double wide = across(&lines[i]->duct);

        add_line(p, lines[i], ends[i], 1.0);
        add(p, DEW_PART_cap, wide, 1.0);
        add(p, DEW_PART_motorised, wide, l->damper == DEW_DUCT_FITTED);
    }
}

static void add_ties(struct parts *p, const struct dew_duct_layout *l, int j)
{
    const struct dew_duct_vent *v = &l->vents[j];
    int ties = ties_of(l, j);

    for (int k = 0; k < ties; k++) {
        double wide = across(&v->fresh.duct);

        add_line(p, &v->fresh, 0.0, v->fresh.outside);
        add(p, DEW_PART_take_off, wide, !l->gap);
        add(p, DEW_PART_balancing, wide, 1.0);
        add(p, DEW_PART_backdraft, wide, l->backdraft == DEW_DUCT_FITTED);
        if (!ducts__return_stale(l))
            continue;
        wide = across(&v->stale.duct);
        add_line(p, &v->stale, 0.0, v->stale.outside);
        add(p, DEW_PART_take_off, wide, 1.0);
        add(p, DEW_PART_balancing, wide, 1.0);
    }
    if (ties > 1)
        add(p, DEW_PART_tee, across(&v->fresh.duct), ties - 1.0);
    if (ties > 1 && ducts__return_stale(l))
        add(p, DEW_PART_tee, across(&v->stale.duct), ties - 1.0);
}

/* Own ducts of one air: the main, its tees, and each branch. */
static void add_own(struct parts *p, const struct dew_duct_layout *l, int j,
                    int fresh)
{
    const struct dew_duct_vent *v = &l->vents[j];
    const struct dew_duct_line *first = fresh ? &v->fresh : &v->stale;

    add_line(p, first, 0.0, first->outside);
    add(p, DEW_PART_tee, across(&first->duct), grilles_of(l, j, fresh) - 1.0);
    for (int g = 0; g < l->grille_count; g++) {
        const struct dew_duct_grille *at = &l->grilles[g];
        double wide = across(&at->line.duct);

        if (at->vent != j || !((fresh ? at->fresh : at->stale) > 0.0))
            continue;
        add_line(p, &at->line, 0.0, at->line.outside);
        add(p, DEW_PART_grille, wide, 1.0);
        add(p, DEW_PART_balancing, wide, 1.0);
    }
}

/* In the order of the list, then by size. */
static int before(const struct dew_duct_part *a, const struct dew_duct_part *b)
{
    return a->kind < b->kind ||
           (a->kind == b->kind && a->diameter < b->diameter);
}

static void sort(struct parts *p)
{
    for (size_t i = 1; i < p->count; i++) {
        struct dew_duct_part row = p->rows[i];
        size_t k = i;

        for (; k > 0 && before(&row, &p->rows[k - 1]); k--)
            p->rows[k] = p->rows[k - 1];
        p->rows[k] = row;
    }
}

size_t dew_ducts_parts(const struct dew_duct_layout *layout,
                       struct dew_duct_part *out, size_t room)
{
    struct parts p = {.count = 0};

    if (layout->written != NULL)
        return 0;
    for (int j = 0; j < layout->vent_count; j++) {
        add(&p, DEW_PART_ventilator, 0.0, 1.0);
        add(&p, DEW_PART_setting, 0.0, 1.0);
        add_outdoors(&p, layout, &layout->vents[j]);
        add_ties(&p, layout, j);
        if (ducts__own_fresh(layout))
            add_own(&p, layout, j, 1);
        if (!ducts__return_stale(layout))
            add_own(&p, layout, j, 0);
    }
    if (layout->kind == DEW_LAYOUT_return_tie)
        add(&p, DEW_PART_interlock, 0.0, layout->handler_count);
    sort(&p);
    for (size_t i = 0; i < p.count && i < room; i++)
        out[i] = p.rows[i];
    return p.count;
}
