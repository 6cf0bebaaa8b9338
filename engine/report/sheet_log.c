/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The owner's own log beside the model, and held against outdoor air. */
#include <math.h>

#include "dew/air.h"
#include "report/log_sums.h"
#include "report/measured.h"
#include "report/sheet.h"

static struct report__word degrees(const struct dew_report *r, double t)
{
    return report__number(report__shown(t, DEW_TEMPERATURE, r->system), 1);
}

/* A difference of temperatures, with its unit. */
static struct report__word difference(const struct dew_report *r, double kelvin)
{
    const struct dew_unit *u = report__unit(DEW_TEMPERATURE, r->system);
    struct report__word w;

    snprintf(w.text, sizeof w.text, "%.40s %.20s",
             report__number(kelvin / u->factor, 1).text, u->name);
    return w;
}

static void month_row(const struct dew_report *r, int month,
                      struct report__sheet *s)
{
    struct report__log_sum sum = report__log_sum_of(r, month);
    int tested = report__log_tested(r);

    if (sum.hours == 0 && sum.rh_hours == 0 && sum.tested == 0)
        return;
    report__sheet_row(s, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s",
                      month < 0 ? "All" : report__month(month),
                      report__number(sum.hours, 0).text,
                      degrees(r, sum.dew_read).text,
                      degrees(r, sum.dew_model).text,
                      report__number(100 * sum.rh_read, 0).text,
                      report__number(100 * sum.rh_model, 0).text,
                      report__number(tested ? sum.dries : NAN, 0).text,
                      report__number(tested ? sum.tested : NAN, 0).text);
}

static void compared(const struct dew_report *r,
                     const struct report__log_sum *sum, struct report__sheet *s)
{
    double off = sum->dew_model - sum->dew_read;

    if (sum->hours > 0)
        report__sheet_note(
            s,
            "Over %s hours the model of \"%.100s\" has a dew point %s %s than "
            "the log, on average%s.",
            report__number(sum->hours, 0).text, report__option(r, 0).text,
            difference(r, fabs(off)).text, off > 0 ? "higher" : "lower",
            r->laid->same_hours
                ? ""
                : "; laid beside it by month, day and hour, as the weather is "
                  "of another year: compare levels, not days");
}

/* Five points of RH, as cheap sensors are off: common practice, no source. */
static const double DOUBT = 0.05;

static double dew_of(double t, double rh)
{
    return dew_air_t_pws_liquid(rh * dew_air_pws_liquid(t));
}

static void doubted(const struct dew_report *r,
                    const struct report__log_sum *sum, struct report__sheet *s)
{
    double rh = sum->rh_read, t = sum->t_read;

    if (!(sum->rh_hours > 0 && sum->t_hours > 0 && rh > DOUBT))
        return;
    report__sheet_note(
        s,
        "A cheap sensor may be 5 points of humidity off, which makes %s to %s %s of "
        "dew point out of the log's mean: check it beside a good one.",
        degrees(r, dew_of(t, rh - DOUBT)).text,
        degrees(r, dew_of(t, rh + DOUBT)).text,
        report__unit(DEW_TEMPERATURE, r->system)->name);
}

static void tested(const struct dew_report *r,
                   const struct report__log_sum *sum, struct report__sheet *s)
{
    if (!report__log_tested(r))
        report__sheet_note(
            s, "Whether outdoor air would have dried the house cannot "
               "be told: the log has no outdoor columns, and the "
               "weather is of another year.");
    else if (sum->tested > 0)
        report__sheet_note(
            s,
            "Of the %s hours of the log that have a dew point indoors and outdoors, "
            "outdoor air would have dried the house in %s (outdoor dew point "
            "below the indoor one; outdoors as %s).",
            report__number(sum->tested, 0).text,
            report__number(sum->dries, 0).text,
            r->laid->dew_point_out ? "the log's own columns have it"
                                   : "the weather file has it");
}

int report__sheet_log(const struct dew_report *r, struct report__sheet *s)
{
    struct report__log_sum sum;
    char text[DEW_SENTENCE];

    if (r->laid == NULL)
        return 0;
    s->id = "log";
    s->title = "Your own log beside the model";
    report__sheet_columns(
        s,
        "11 month\t7 hours\t10 dew read\t8 model\t9 RH read\t8 model\t11 could dry\t7 of h");
    for (int m = 0; m < DEW_MONTHS; m++)
        month_row(r, m, s);
    month_row(r, -1, s);
    sum = report__log_sum_of(r, -1);
    tested(r, &sum, s);
    if (r->beside != NULL && r->beside->rh.hours > 0)
        report__sheet_note(s, "%s", report__beside_rh(r, text, sizeof text));
    if (r->beside != NULL && r->beside->t.hours > 0)
        report__sheet_note(s, "%s", report__beside_t(r, text, sizeof text));
    compared(r, &sum, s);
    doubted(r, &sum, s);
    report__sheet_note(
        s, "Dew points in %s, relative humidity (RH) in %%. The log: %.400s",
        report__unit(DEW_TEMPERATURE, r->system)->name, r->log);
    return 1;
}
