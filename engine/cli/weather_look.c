/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger weather look: what a file holds, on 80 columns. */
#include <math.h>
#include <string.h>

#include "cli/weather.h"
#include "core/clean.h"

enum { GAPS_SHOWN = 6, SKETCH = 56, KEY_WIDTH = 10 };

/* "key   words", broken at spaces to the width, the words under each other. */
static void print_key(const char *key, const char *words)
{
    int width = cli__width() - KEY_WIDTH, used = 0;

    if (words[0] == '\0')
        return;
    printf("%-*s", KEY_WIDTH, key);
    while (*words != '\0') {
        size_t n = strcspn(words, " ");

        if (used > 0 && used + 1 + (int)n > width) {
            printf("\n%-*s", KEY_WIDTH, "");
            used = 0;
        }
        used += printf("%s", used > 0 ? " " : "") + (int)n;
        core__clean_put(stdout, words, n);
        words += n;
        words += strspn(words, " ");
    }
    putchar('\n');
}

static void print_site(const struct cli__weather_file *f)
{
    const struct dew_site *s = dew_year_site(f->year);
    char line[600], utc[24];
    enum dew_system system = cli__weather_system(&f->common);

    snprintf(line, sizeof line, "%s%s%s", s->name, s->name[0] ? ", " : "",
             s->id);
    print_key("site", line);
    snprintf(line, sizeof line, "%s N, %s E, %s, UTC %s h",
             report__number(s->latitude, 3).text,
             report__number(s->longitude, 3).text,
             report__amount(s->elevation, DEW_LENGTH, system, 0).text,
             isnan(s->utc_offset)
                 ? "-"
                 : dew_number_print(s->utc_offset, 4, utc, sizeof utc));
    print_key("place", line);
}

static char *stamp(const struct dew_date *d, char *out, size_t size)
{
    if (d->year == 0)
        snprintf(out, size, "%02d-%02d %02d:00", d->month, d->day, d->hour);
    else
        snprintf(out, size, "%04d-%02d-%02d %02d:00", d->year, d->month, d->day,
                 d->hour);
    return out;
}

static void print_period(const struct cli__weather_file *f)
{
    char from[32], to[32], line[120];
    size_t n;
    const struct dew_date *d = dew_year_dates(f->year, &n);

    snprintf(line, sizeof line, "%zu hours, %s to %s%s", n,
             stamp(&d[0], from, sizeof from), stamp(&d[n - 1], to, sizeof to),
             d[0].year == 0 ? ", a typical year" : "");
    print_key("period", line);
}

static void print_understood(const struct cli__weather_file *f)
{
    const struct dew_weather_report *r = &f->report;
    char line[160];

    print_key("form", r->format);
    for (int i = 0; i < r->column_count; i++) {
        snprintf(line, sizeof line, "\"%s\" is %s%s%s", r->columns[i].header,
                 r->columns[i].meaning, r->columns[i].unit[0] ? ", " : "",
                 r->columns[i].unit);
        print_key(i == 0 ? "columns" : "", line);
    }
    print_key("units by", r->units_by);
    print_key("clock", r->clock);
    print_key("humidity", r->humidity);
    print_key("pressure", r->pressure);
    print_key("hours", r->method);
}

static void print_notices(const struct cli__weather_file *f)
{
    char notes[DEW_NOTES_MOST][DEW_NOTE_TEXT];
    size_t n = dew_weather_notes(&f->report, notes, DEW_NOTES_MOST);

    for (size_t i = 0; i < n; i++)
        print_key(i == 0 ? "reading" : "", notes[i]);
    if (f->fill != NULL)
        print_key("filled", dew_year_provenance(f->year));
}

static void print_gaps(const struct cli__weather_file *f)
{
    struct cli__weather_gap gaps[GAPS_SHOWN];
    size_t n, count = cli__weather_gaps(f->year, gaps, GAPS_SHOWN);
    const struct dew_date *d = dew_year_dates(f->year, &n);
    char line[120], from[32];

    for (size_t i = 0; i < count && i < GAPS_SHOWN; i++) {
        snprintf(line, sizeof line, "%zu hours without values from %s on",
                 gaps[i].hours, stamp(&d[gaps[i].first], from, sizeof from));
        print_key(i == 0 ? "GAPS" : "", line);
    }
    if (count > GAPS_SHOWN) {
        snprintf(line, sizeof line, "and %zu more", count - GAPS_SHOWN);
        print_key("", line);
    }
}

static void print_month(const struct cli__weather_sum *s,
                        enum dew_system system)
{
    const double values[] = {s->t.mean,  s->t.low,  s->t.high,
                             s->td.mean, s->td.low, s->td.high};

    printf("%-5s%6zu", report__month_short(s->month - 1), s->t.n);
    for (size_t i = 0; i < 6; i++)
        printf("%8s", report__number(
                          report__shown(values[i], DEW_TEMPERATURE, system), 1)
                          .text);
    /* a mean of W/m2 over a day, in kWh */
    printf(
        "%8s%10s\n",
        report__number(report__shown(s->wind.mean, DEW_SPEED, system), 1).text,
        report__number(s->global.mean * 24.0 / 1000.0, 2).text);
}

static void print_months(const struct cli__weather_sum months[12],
                         enum dew_system system)
{
    const char *degree = report__unit(DEW_TEMPERATURE, system)->name;

    printf("\n             temperature, %s        dew point, %s      "
           "   wind  sun, kWh\n",
           degree, degree);
    printf("month hours    mean  lowest highest    mean  lowest highest%8s"
           "  /m2 day\n",
           report__unit(DEW_SPEED, system)->name);
    for (int m = 0; m < 12; m++)
        if (months[m].hours > 0)
            print_month(&months[m], system);
}

static int place_on(double x, double low, double high)
{
    int at = (int)((x - low) / (high - low) * (SKETCH - 1) + 0.5);

    return at < 0 ? 0 : at >= SKETCH ? SKETCH - 1 : at;
}

static void sketch_month(const struct cli__weather_sum *s, double low,
                         double high)
{
    char bar[SKETCH + 1];

    memset(bar, ' ', SKETCH);
    bar[SKETCH] = '\0';
    for (int i = place_on(s->td.low, low, high);
         i <= place_on(s->td.high, low, high); i++)
        bar[i] = '-';
    bar[place_on(s->td.mean, low, high)] = 'o';
    printf("%-5s|%s|\n", report__month_short(s->month - 1), bar);
}

/* Dew point of each month: lowest ---o--- highest, o the mean. */
static void print_sketch(const struct cli__weather_sum months[12],
                         enum dew_system system)
{
    double low = INFINITY, high = -INFINITY;

    for (int m = 0; m < 12; m++) {
        low = fmin(low, months[m].td.low); /* fmin passes NaN by */
        high = fmax(high, months[m].td.high);
    }
    if (!(high > low))
        return;
    low = 5.0 * floor(low / 5.0);
    high = 5.0 * ceil(high / 5.0);
    printf("\ndew point, lowest ---o--- highest, o the mean, %s to %s\n",
           report__number(report__shown(low, DEW_TEMPERATURE, system), 0).text,
           report__amount(high, DEW_TEMPERATURE, system, 0).text);
    for (int m = 0; m < 12; m++)
        if (months[m].td.n > 0)
            sketch_month(&months[m], low, high);
}

static void print_text(const struct cli__weather_file *f)
{
    struct cli__weather_sum months[12];
    enum dew_system system = cli__weather_system(&f->common);

    print_site(f);
    print_period(f);
    print_understood(f);
    print_notices(f);
    print_gaps(f);
    cli__weather_months(f->year, months);
    print_months(months, system);
    print_sketch(months, system);
}

int cli__weather_look(int argc, char **argv)
{
    struct cli__weather_file f = {.files = 1};
    int code = cli__weather_parse(
        &f,
        "Read a weather file, plain or gzipped, and say what was understood, "
        "what was mended, and what its months are like.\v"
        "  dewledger weather look station.csv\n"
        "  dewledger weather look airports.csv --station JFK --unit temp=degF\n"
        "  dewledger weather look year.csv --svg year.svg\n",
        argc, argv);

    if (code != 0)
        return code;
    f.ask.keep_gaps = 1; /* to look, a gap is no reason to stop */
    code = cli__weather_open(&f);
    if (code != 0)
        return code;
    if (f.svg != NULL)
        code = cli__weather_picture(&f);
    if (code == 0 && f.common.json)
        code = cli__json(cli__weather_json(&f));
    else if (code == 0)
        print_text(&f);
    dew_year_close(f.year);
    return code;
}
