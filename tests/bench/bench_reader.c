/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Reading a typical year against a bare libcsv pass over the same bytes, and
 * the memory it takes beyond the result.  The file: argument 1, or one of
 * ../shared/data; without either there is nothing to measure.
 */
#include <csv.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <time.h>
#include <zlib.h>

#include "dew/weather.h"

enum { RUNS = 41 };

static double now(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void count_cell(void *cell, size_t length, void *data)
{
    (void)cell;
    *(size_t *)data += length;
}

static double bare(const char *path)
{
    static char block[1 << 17];
    struct csv_parser csv;
    double start = now();
    size_t bytes = 0;
    gzFile in = gzopen(path, "rb");
    int n;

    csv_init(&csv, 0);
    while ((n = gzread(in, block, sizeof block)) > 0)
        csv_parse(&csv, block, (size_t)n, count_cell, NULL, &bytes);
    csv_fini(&csv, count_cell, NULL, &bytes);
    csv_free(&csv);
    gzclose(in);
    return bytes > 0 ? now() - start : 0.0;
}

static double ours(const char *path)
{
    struct dew_weather_ask ask = DEW_WEATHER_ASK;
    struct dew_weather_report report;
    struct dew_year *year;
    double start = now(), took;

    if (dew_weather_read(&year, path, &ask, &report, NULL) != DEW_OK)
        exit(EXIT_FAILURE);
    took = now() - start;
    dew_year_close(year);
    return took;
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;

    return (x > y) - (x < y);
}

static long peak_kib(void)
{
    struct rusage u;

    getrusage(RUSAGE_SELF, &u);
    return u.ru_maxrss;
}

int main(int argc, char **argv)
{
    const char *path =
        argc > 1 ? argv[1] : "../shared/data/weather/tmy3/723170TYA.CSV";
    double a[RUNS], b[RUNS];
    long before;
    gzFile in = gzopen(path, "rb");

    if (in == NULL) {
        printf("reader: no file %s\n", path);
        return 0;
    }
    gzclose(in);
    bare(path);
    before = peak_kib();
    ours(path);
    printf("reader: peak memory %ld KiB above a bare pass, of which %zu KiB "
           "are the result\n",
           peak_kib() - before,
           8760 * (sizeof(struct dew_hour) + sizeof(struct dew_date)) / 1024);
    for (int i = 0; i < RUNS; i++) {
        a[i] = bare(path);
        b[i] = ours(path);
    }
    qsort(a, RUNS, sizeof a[0], ascending);
    qsort(b, RUNS, sizeof b[0], ascending);
    /* the least of many: what else the machine does only adds */
    printf("reader: libcsv alone %.2f ms, a typical year %.2f ms, %.2f times\n",
           1e3 * a[0], 1e3 * b[0], b[0] / a[0]);
    return 0;
}
