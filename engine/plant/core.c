/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A row of a spec sheet, turned into the core's own effectiveness. */
#include "dew/core.h"

#include <math.h>
#include <stddef.h>

#include "air/air_step.h"
#include "core/fail.h"

/* Rating tests are stated at standard air; 20 degC and 101325 Pa [ASH-F1]. */
static const double rating_density = 1.204; /* kg/m3                   */
static const double rating_p = 101325.0;    /* Pa                      */

/* Test points [C439], from memory; 50 % on both sides in cooling. */
static const double heating_out = 0.0, heating_in = 22.0;  /* degC */
static const double cooling_out = 35.0, cooling_in = 24.0; /* degC */
static const double cooling_rh = 0.5;

void dew_plant_core_blank(struct dew_core_sheet *sheet)
{
    const struct dew_core_row none = {NAN, NAN, NAN, NAN, NAN, NAN, NAN,
                                      NAN, NAN, NAN, NAN, NAN, NAN};

    for (int i = 0; i < DEW_CORE_ROWS; i++)
        sheet->rows[i] = none;
    sheet->count = 0;
    sheet->kind = DEW_COUNTERFLOW;
    sheet->passes_water = 0;
    sheet->supply_share = 0.5; /* equal fans: common practice, no source */
    sheet->before_core = 0.0;
    sheet->rotor = 5.0; /* from memory */
}

/* ---- absurd rows -------------------------------------------------------- */

static enum dew_status refuse(struct dew_error *err, const char *member,
                              const char *why)
{
    core__in(err, member);
    return core__fail(err, DEW_ERANGE, "%s", why);
}

static enum dew_status share(double x, const char *member, double most,
                             struct dew_error *err)
{
    if (isnan(x) || (x >= 0.0 && x <= most))
        return DEW_OK;
    core__in(err, member);
    if (x > 1.0 && x <= 100.0)
        return core__fail(err, DEW_ERANGE,
                          "%g is above %g: is it a percentage? then write "
                          "%g %% or %g",
                          x, most, x, x / 100.0);
    return core__fail(err, DEW_ERANGE, "%g is outside 0 .. %g", x, most);
}

static enum dew_status shares(const struct dew_core_row *r,
                              struct dew_error *err)
{
    const struct {
        double value, most;
        const char *member;
    } list[] = {
        {r->sre, 1, "sre"},       {r->ase, 1, "ase"},
        {r->asre, 1, "asre"},     {r->sensible, 1, "sensible"},
        {r->tre, 1, "tre"},       {r->lrmt, 1, "lrmt"},
        {r->latent, 1, "latent"}, {r->eatr, 0.5, "eatr"},
    };

    for (size_t i = 0; i < sizeof list / sizeof list[0]; i++) {
        enum dew_status bad =
            share(list[i].value, list[i].member, list[i].most, err);

        if (bad)
            return bad;
    }
    return DEW_OK;
}

static enum dew_status sound(const struct dew_core_sheet *s,
                             const struct dew_core_row *r,
                             struct dew_error *err)
{
    enum dew_status bad = shares(r, err);

    if (bad)
        return bad;
    if (!(r->flow > 0.0 && r->flow < 5.0))
        return refuse(err, "flow", "a row needs a flow above 0, below 5 m3/s");
    if (r->watts < 0.0)
        return refuse(err, "watts", "fans cannot give power back");
    if (r->sre > r->ase)
        return refuse(err, "sre",
                      "SRE is above ASE: SRE has the fan's heat taken out and "
                      "is the lesser; are the two columns changed over?");
    if (r->flow * r->pressure * 2.0 > r->watts)
        return refuse(err, "watts",
                      "less than the power of the air the two fans move "
                      "against that pressure");
    if (!s->passes_water && (r->lrmt > 0.0 || r->latent > 0.0))
        return refuse(err, "lrmt",
                      "plates that pass no water transfer none: choose an "
                      "enthalpy core or leave it out");
    return DEW_OK;
}

/* ---- fan heat out ------------------------------------------------------- */

/* What one row's test was. */
struct test {
    double m_cp;      /* W/K  of the gross supply                          */
    double rise;      /* K    indoors less outdoors                        */
    double supply_w;  /* W    fan heat in the supply air; NaN if unknown   */
    double exhaust_w; /* W   of the other fan                             */
    double eatr;
};

static double given(double x, double otherwise)
{
    return isnan(x) ? otherwise : x;
}

static struct test test_of(const struct dew_core_sheet *s,
                           const struct dew_core_row *r, double t_out,
                           double t_in)
{
    struct test t = {.eatr = given(r->eatr, 0.0)};
    double watts = r->watts;

    t.m_cp = r->flow / (1.0 - t.eatr) * rating_density * AIR__CP;
    t.rise = given(r->t_in, t_in) - given(r->t_out, t_out);
    if (isnan(watts)) /* from the two printed efficiencies, when both are */
        watts = t.m_cp * t.rise * (r->ase - r->sre) /
                (s->supply_share + r->sre * (1.0 - s->supply_share));
    t.supply_w = s->supply_share * watts;
    t.exhaust_w = watts - t.supply_w;
    return t;
}

/* Share x, less what leaked across as house air. */
static double net_of_leak(double x, double eatr)
{
    return fmax((x - eatr) / (1.0 - eatr), 0.0);
}

/* Core effectiveness from ASE: fan heat, and what the exhaust fan's heat
   ahead of the core lends, taken out. */
static double from_ase(const struct dew_core_sheet *s, const struct test *t,
                       double ase)
{
    double span = t->m_cp * t->rise;

    return (ase * span - t->supply_w) / (span + s->before_core * t->exhaust_w);
}

static void sensible_from(const struct dew_core_sheet *s,
                          const struct dew_core_row *r, const struct test *t,
                          struct dew_core_point *out)
{
    double span = t->m_cp * t->rise, eps;

    if (!isnan(r->sensible)) {
        eps = r->sensible;
        out->sensible = (struct dew_core_span){eps, eps, eps};
        out->ase = eps + given(t->supply_w, 0.0) / span;
    } else if (!isnan(r->sre)) {
        /* [C439] eq. 12 solved for (T2 - T1) / (T3 - T1) */
        out->ase = (r->sre * (span + t->exhaust_w) + t->supply_w) / span;
        eps = from_ase(s, t, out->ase);
        out->sensible =
            (struct dew_core_span){net_of_leak(eps, t->eatr), eps, eps};
    } else if (!isnan(r->ase)) {
        out->ase = r->ase;
        eps = net_of_leak(from_ase(s, t, r->ase), t->eatr);
        out->sensible = (struct dew_core_span){eps, eps, eps};
    } else if (!isnan(r->asre)) {
        eps = r->asre;
        out->ase = eps + given(t->supply_w, 0.0) / span;
        out->sensible = (struct dew_core_span){
            net_of_leak(eps - given(t->supply_w, 0.0) / span, t->eatr), eps,
            eps};
    }
    out->sre = (out->ase * span - t->supply_w) / (span + t->exhaust_w);
}

static enum dew_status sensible_of(const struct dew_core_sheet *s,
                                   const struct dew_core_row *r,
                                   struct dew_core_point *out,
                                   struct dew_error *err)
{
    struct test t = test_of(s, r, heating_out, heating_in);

    out->gross = r->flow / (1.0 - t.eatr);
    if (fabs(t.rise) < 1.0)
        return refuse(err, "t_out",
                      "the test's two temperatures are within 1 K");
    if (isnan(r->sensible) && isnan(r->asre) && isnan(t.supply_w) &&
        !(isnan(r->sre) && isnan(r->ase))) {
        core__in(err, "watts");
        return core__fail(err, DEW_EMISSING,
                          "the fan's heat cannot be taken out of SRE or ASE "
                          "without the watts of that row");
    }
    sensible_from(s, r, &t, out);
    if (out->sensible.likely < 0.0)
        return refuse(err, "watts",
                      "the fan alone would warm the supply air by more than "
                      "the row's effectiveness: watts and flow do not fit");
    if (out->sensible.high > 1.0)
        return refuse(err, "sensible",
                      "the core would warm the air above the house: watts, "
                      "flow and effectiveness do not fit together");
    out->t_supply = given(r->t_out, heating_out) + out->ase * t.rise;
    return DEW_OK;
}

/* ---- water -------------------------------------------------------------- */

/*
 * Latent effectiveness from a total one: what is left of the enthalpy when
 * the sensible part is known.  fan and more: watts that the reading of the
 * fan terms adds to the numerator and takes from the denominator.
 */
static double from_tre(const struct dew_core_row *r, double m, double eps,
                       double fan, double more)
{
    double t1 = given(r->t_out, cooling_out), t3 = given(r->t_in, cooling_in);
    double w1 = dew_air_w(t1, cooling_rh, rating_p);
    double w3 = dew_air_w(t3, cooling_rh, rating_p);
    double h1 = dew_air_h(t1, w1), span = h1 - dew_air_h(t3, w3);
    double h2 = h1 - (r->tre * (span + more / m) + fan / m);
    double w2 = dew_air_w_h(t1 - eps * (t1 - t3), h2);

    return (w1 - w2) / (w1 - w3);
}

static enum dew_status total_of(const struct dew_core_sheet *s,
                                const struct dew_core_row *r, double eps,
                                struct dew_core_point *out,
                                struct dew_error *err)
{
    struct test t = test_of(s, r, cooling_out, cooling_in);
    double m = t.m_cp / AIR__CP, p_s = t.supply_w, p_e = t.exhaust_w;

    if (isnan(p_s) || isnan(eps)) {
        core__in(err, isnan(eps) ? "sensible" : "watts");
        return core__fail(err, DEW_EMISSING,
                          "TRE gives the water only when the row's %s known",
                          isnan(eps) ? "sensible part is" : "watts are");
    }
    out->latent.low = net_of_leak(from_tre(r, m, eps, 0.0, -p_e), t.eatr);
    out->latent.likely = from_tre(r, m, eps, p_s, 0.0);
    out->latent.high = from_tre(r, m, eps, 2.0 * p_s, p_e);
    if (out->latent.high < 0.0)
        return refuse(err, "tre",
                      "below what the sensible part alone would bring: no "
                      "core gives water back that way");
    if (out->latent.likely > 1.0 || out->latent.low > 1.0)
        return refuse(err, "tre",
                      "more water than there is: TRE and SRE do not fit");
    out->latent.likely = fmax(out->latent.likely, 0.0);
    out->latent.high = fmin(out->latent.high, 1.0);
    return DEW_OK;
}

static enum dew_status latent_of(const struct dew_core_sheet *s,
                                 const struct dew_core_row *r, double eps,
                                 struct dew_core_point *out,
                                 struct dew_error *err)
{
    double x = r->latent;

    if (!s->passes_water)
        return DEW_OK;
    if (!isnan(x)) {
        out->latent = (struct dew_core_span){x, x, x};
    } else if (!isnan(r->lrmt)) {
        x = r->lrmt;
        out->latent =
            (struct dew_core_span){net_of_leak(x, given(r->eatr, 0.0)), x, x};
    } else if (!isnan(r->tre)) {
        return total_of(s, r, eps, out, err);
    }
    return DEW_OK;
}

enum dew_status dew_plant_core_point(const struct dew_core_sheet *sheet, int i,
                                     double sensible_if_none,
                                     struct dew_core_point *out,
                                     struct dew_error *err)
{
    const struct dew_core_span none = {NAN, NAN, NAN};
    struct dew_core_point point = {NAN, NAN, NAN, NAN, none, none};
    const struct dew_core_row *r = &sheet->rows[i];
    enum dew_status bad = sound(sheet, r, err);

    if (!bad)
        bad = sensible_of(sheet, r, &point, err);
    if (!bad)
        bad = latent_of(sheet, r,
                        isnan(sensible_if_none) ? point.sensible.likely
                                                : sensible_if_none,
                        &point, err);
    if (!bad)
        *out = point;
    return bad;
}
