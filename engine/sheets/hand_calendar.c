/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The owner's calendar: what is due in which month, what the year should look
   like, and a line to write down what was read. */
#include <stddef.h>

#include "report/markup.h"
#include "report/words.h"
#include "sheets/hand.h"

/* Months as bits, January first. */
enum {
    EVERY = 0xfff,
    QUARTERS = 0x249, /* January, April, July, October */
    BETWEEN = 0x492,  /* February, May, August, November */
    SPRING_AUTUMN = 0x208,
    MAY = 0x010,
    SEPTEMBER = 0x100,
    OCTOBER = 0x200
};

/* An hour or more in the month counts as used. */
static const double USED = 1;

static const struct dew_choice *choice(const struct dew_report *r)
{
    return &r->question->choices[report__hand_option(r)];
}

/* ---- who needs what, and when -------------------------------------------------------- */

/* Months in which the duty at offset is used. */
static unsigned used_in(const struct dew_report *r, size_t offset)
{
    unsigned months = 0;

    for (int m = 0; m < DEW_MONTHS; m++) {
        const char *duty = (const char *)&choice(r)->outcome->month[m].duty;

        if (*(const double *)(const void *)(duty + offset) >= USED)
            months |= 1U << m;
    }
    return months;
}

/* The month before the first that cools; May where every month does. */
static unsigned before_cooling(const struct dew_report *r)
{
    unsigned cooled = used_in(r, offsetof(struct dew_duty, cool));

    for (int m = 0; m < DEW_MONTHS; m++) {
        int before = (m + DEW_MONTHS - 1) % DEW_MONTHS;

        if ((cooled >> m & 1U) && !(cooled >> before & 1U))
            return 1U << before;
    }
    return cooled ? MAY : 0;
}

/* What a task is about; it is due where the option has that. */
enum of { HOUSE, VENTILATOR, CORE, HANDLER, COIL, DRAINS, ICE, DRYER, WETTER };

/* The months in which a task is due; 0 where there is nothing to do. */
static unsigned due(const struct dew_report *r, enum of of, unsigned months)
{
    const struct dew_option_facts *f = choice(r)->facts;

    switch (of) {
    case VENTILATOR:
        return f->core != DEW_CORE_none ? months : 0;
    case CORE:
        return f->core >= DEW_CORE_heat_plate ? months : 0;
    case HANDLER:
        return f->handlers > 0 ? months : 0;
    case COIL:
        return before_cooling(r);
    case DRAINS:
        return due(r, CORE, months) || due(r, COIL, 0) || due(r, DRYER, 0)
                   ? months
                   : 0;
    case ICE:
        return used_in(r, offsetof(struct dew_duty, defrost));
    case DRYER:
        return used_in(r, offsetof(struct dew_duty, dehumidify));
    case WETTER:
        return used_in(r, offsetof(struct dew_duty, humidify));
    default:
        return months;
    }
}

/* How often: common practice, no source; the maker's manual comes first. */
static const struct task {
    const char *words;
    enum of of;
    unsigned months; /* 0: as it is used */
} tasks[] = {
    {"carbon monoxide and smoke alarms: press the button", HOUSE, EVERY},
    {"ventilator: clean or change the filters", VENTILATOR, QUARTERS},
    {"intake and exhaust hoods: leaves, lint, insects", VENTILATOR,
     SPRING_AUTUMN},
    {"intake hood and drain: ice and snow", ICE, 0},
    {"core: take out and clean as its manual says", CORE, MAY},
    {"ventilator: measure fresh and stale air, balance", VENTILATOR, OCTOBER},
    {"drains, traps, pans and float switches", DRAINS, SPRING_AUTUMN},
    {"air handler: change the filter", HANDLER, BETWEEN},
    {"cooling coil and its pan, before the season", COIL, 0},
    {"dehumidifier: filter and hose, while it runs", DRYER, 0},
    {"humidifier: clean, no standing water", WETTER, 0},
    {"kitchen hood: grease filter; bath fans: grilles", HOUSE, QUARTERS},
    {"hygrometers: beside a good one, or over damp salt", HOUSE, SEPTEMBER},
};

/* ---- tables -------------------------------------------------------------------------- */

static void months_head(const char *first, FILE *out)
{
    fprintf(out, "<table class=\"dense\"><thead><tr><th scope=\"col\">%s</th>",
            first);
    for (int m = 0; m < DEW_MONTHS; m++)
        fprintf(out, "<th class=\"box\" scope=\"col\">%s</th>",
                report__month_short(m));
    fputs("</tr></thead><tbody>\n", out);
}

static void task_rows(const struct dew_report *r, FILE *out)
{
    months_head("Due", out);
    for (size_t i = 0; i < sizeof tasks / sizeof *tasks; i++) {
        unsigned months = due(r, tasks[i].of, tasks[i].months);

        if (months == 0)
            continue;
        fprintf(out, "<tr><th scope=\"row\">%s</th>", tasks[i].words);
        for (int m = 0; m < DEW_MONTHS; m++)
            fprintf(out, "<td class=\"box\">%s</td>",
                    months >> m & 1U ? "&#9744;" : "");
        fputs("</tr>\n", out);
    }
    fputs("</tbody></table>\n", out);
}

static double mean_rh(const struct dew_tally *t)
{
    return 100 * t->rh_sum / t->hours;
}

static double too_humid(const struct dew_tally *t)
{
    return t->too_humid;
}

static double could_dry(const struct dew_tally *t)
{
    return 100 * t->could_dry / t->hours;
}

/* NULL: blanks, for what is read. */
static void figure_row(const struct dew_report *r, const char *words,
                       double (*of)(const struct dew_tally *t), FILE *out)
{
    report__html(out, "<tr><th scope=\"row\">%s</th>", words);
    for (int m = 0; m < DEW_MONTHS; m++)
        report__html(
            out, "<td class=\"box\">%-s</td>",
            of == NULL
                ? "&#160;"
                : report__number(of(&choice(r)->outcome->month[m]), 0).text);
    fputs("</tr>\n", out);
}

static void year_rows(const struct dew_report *r, FILE *out)
{
    months_head("As computed, and as read", out);
    figure_row(r, "mean RH indoors, %", mean_rh, out);
    figure_row(r, "hours too humid", too_humid, out);
    figure_row(r, "outdoor air could dry, % of hours", could_dry, out);
    figure_row(r, "RH read indoors, %", NULL, out);
    figure_row(r, "temperature read indoors", NULL, out);
    if (choice(r)->c->plant.dryer.rate > 0)
        figure_row(r, "bucket or meter of the dehumidifier", NULL, out);
    fputs("</tbody></table>\n", out);
}

/* ---- the sheet ------------------------------------------------------------------------ */

static int is_told(const struct dew_report *r, const struct dew_finding *f)
{
    return f->kind == DEW_FINDING_outdoor_dries ||
           f->kind == DEW_FINDING_outdoor_cannot ||
           (f->kind == DEW_FINDING_drying && report__hand_option(r) == 0);
}

static void when_to_air(const struct dew_report *r, FILE *out)
{
    char text[DEW_SENTENCE];

    for (size_t i = 0; i < r->verdict->count; i++)
        if (is_told(r, &r->verdict->list[i]))
            report__html(out, "<p>%s</p>\n",
                         dew_report_sentence(r, &r->verdict->list[i], text,
                                             sizeof text));
}

static void calendar(const struct dew_report *r, FILE *out)
{
    sheets__hand_cautions(r, DEW_STOP, SHEETS__OF_HOUSE | SHEETS__OF_OPTION,
                          out);
    fputs("<h2>What is due, year after year</h2>\n", out);
    task_rows(r, out);
    fputs("<p><small>How often: common practice, no source; the maker's "
          "manual comes first. After any change of fans, ducts or "
          "airtightness: radon and draught of appliances tested anew."
          "</small></p>\n<h2>What the year should look like</h2>\n",
          out);
    year_rows(r, out);
    when_to_air(r, out);
    fputs("<h2>To know</h2>\n", out);
    sheets__hand_cautions(r, DEW_NOTE, SHEETS__OF_HOUSE | SHEETS__OF_OPTION,
                          out);
    sheets__hand_blanks(out,
                        "<p>Filter size __________________ &#160; service by "
                        "________________________ &#160; fitted on "
                        "____________</p>\n");
}

enum dew_status dew_report_calendar(const struct dew_report *report, FILE *out,
                                    struct dew_error *err)
{
    const struct sheets__hand h = {report, "For the owner: a calendar",
                                   calendar};

    return sheets__hand_write(&h, out, err);
}
