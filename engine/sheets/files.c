/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which files a report has, and what fills them. */
#include "report/json.h"
#include "report/set.h"
#include "report/words.h"

/* The files of the whole study; those of the options follow. */
static const struct whole {
    const char *name;
    enum dew_status (*write)(const struct dew_report *report, FILE *out,
                             struct dew_error *err);
} whole[] = {
    {"report.html", dew_report_html},
    {"contractor.html", dew_report_contractor},
    {"inspector.html", dew_report_inspector},
    {"calendar.html", dew_report_calendar},
};

enum { NAME_ROOM = REPORT__SET_NAME, WHOLE = sizeof whole / sizeof *whole };

/* Where the charts stand. */
#define CHARTS "charts"

/* What file i is: one of the whole study, the hours of an option, a chart. */
struct part {
    size_t whole; /* below WHOLE: which                                   */
    size_t option;
    int chart; /* DEW_CHARTS: none                                     */
};

static size_t option_count(const struct dew_report *r)
{
    return r->question->count;
}

static size_t part_count(const struct dew_report *r)
{
    size_t count = WHOLE + option_count(r);

    for (int k = 0; k < DEW_CHARTS; k++)
        count += dew_report_chart_count(r, (enum dew_chart)k);
    return count;
}

static struct part part_of(const struct dew_report *r, size_t i)
{
    struct part p = {i, 0, DEW_CHARTS};

    if (i < WHOLE)
        return p;
    p.whole = WHOLE;
    p.option = i - WHOLE;
    if (p.option < option_count(r))
        return p;
    p.option -= option_count(r);
    for (p.chart = 0; p.chart < DEW_CHARTS; p.chart++) {
        size_t count = dew_report_chart_count(r, (enum dew_chart)p.chart);

        if (p.option < count)
            break;
        p.option -= count;
    }
    return p;
}

/* "NAME-2-heat-core", or "NAME" for what shows every option. */
static void numbered(const struct dew_report *r, const char *name,
                     size_t option, char *out, size_t size)
{
    char part[48];

    report__set_slug(r->question->choices[option].outcome->name, part,
                     sizeof part);
    snprintf(out, size, "%s-%zu%s%s", name, option + 1, part[0] ? "-" : "",
             part);
}

/* folder: where the name stands, "" or CHARTS with its slash. */
static void name_of(const void *report, size_t i, const char **folder,
                    char *out, size_t size)
{
    const struct dew_report *r = report;
    struct part p = part_of(r, i);
    char name[NAME_ROOM - 8];

    *folder = p.chart < DEW_CHARTS ? CHARTS "/" : "";
    if (p.whole < WHOLE) {
        snprintf(out, size, "%s", whole[p.whole].name);
    } else if (p.chart == DEW_CHARTS) {
        numbered(r, "hours", p.option, name, sizeof name);
        snprintf(out, size, "%s.csv", name);
    } else {
        enum dew_chart kind = (enum dew_chart)p.chart;
        const char *file = dew_report_chart_file(kind);

        if (dew_report_chart_each(kind))
            numbered(r, file, p.option, name, sizeof name);
        else
            snprintf(name, sizeof name, "%s", file);
        snprintf(out, size, "%s.svg", name);
    }
}

static enum dew_status fill_part(const void *report, size_t i, FILE *out,
                                 struct dew_error *err)
{
    const struct dew_report *r = report;
    struct part p = part_of(r, i);

    if (p.whole < WHOLE)
        return whole[p.whole].write(r, out, err);
    if (p.chart == DEW_CHARTS)
        return dew_report_hours(r, p.option, out, err);
    return dew_report_chart(r, (enum dew_chart)p.chart, p.option, out, err);
}

/* It names the others, and so comes last. */
static enum dew_status fill_summary(const void *report,
                                    const struct report__set_file *files,
                                    size_t count, FILE *out,
                                    struct dew_error *err)
{
    return report__json_report(report, report__set_list_json(files, count), out,
                               err);
}

/* The first so many of the files, and the summary. */
static enum dew_status write_first(const struct dew_report *report,
                                   size_t count, const char *directory,
                                   struct dew_error *err)
{
    struct report__set set = {report,    count,          CHARTS,      name_of,
                              fill_part, "summary.json", fill_summary};

    return report__set_write(&set, directory, err);
}

enum dew_status dew_report_write(const struct dew_report *report,
                                 const char *directory, struct dew_error *err)
{
    return write_first(report, part_count(report), directory, err);
}

enum dew_status dew_report_write_few(const struct dew_report *report,
                                     const char *directory,
                                     struct dew_error *err)
{
    return write_first(report, 1, directory, err);
}
