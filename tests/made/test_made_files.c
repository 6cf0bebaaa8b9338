/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The made years in weather/ are what `make weather-years` makes. */
#include "weather/files.h"

#include "dew/made.h"

static const struct file_row {
    const char *name, *path, *id;
} file_rows[] = {
    {"humid coast", "weather/miami-made.csv", "722020"},
    {"cold winter", "weather/minneapolis-made.csv", "726580"},
    {"marine and mild", "weather/seattle-made.csv", "727930"},
    {"dry mountains", "weather/albuquerque-made.csv", "723650"},
};

static char *whole_file(const char *path)
{
    FILE *in = fopen(path, "rb");
    char *text = malloc(1 << 20);
    size_t n;

    assert_non_null(in);
    assert_non_null(text);
    n = fread(text, 1, (1 << 20) - 1, in);
    assert_int_equal(fclose(in), 0);
    text[n] = '\0';
    return text;
}

/* The last bit of another machine's mathematics may tip a rounding. */
enum { TIPPED_MOST = 5 };

static void the_file_is_made_anew(void **state)
{
    const struct file_row *row = *state;
    struct dew_made how = {.seed = DEW_MADE_SEED};
    struct dew_climate place;
    struct dew_year *year;
    char path[32], *kept, *made;
    size_t tipped = 0, lines = 0;

    assert_int_equal(dew_climate_find(row->id, &place, NULL), DEW_OK);
    assert_int_equal(dew_made_open(&place, &how, &year, NULL), DEW_OK);
    write_file(path, "", 0);
    assert_int_equal(dew_weather_write(year, path, NULL), DEW_OK);
    dew_year_close(year);
    kept = whole_file(row->path);
    made = whole_file(path);
    unlink(path);
    for (char *a = kept, *b = made; *a != '\0'; lines++) {
        size_t n = strcspn(a, "\n") + 1, m = strcspn(b, "\n") + 1;

        tipped += n != m || memcmp(a, b, n) != 0;
        a += n;
        assert_true(*b != '\0');
        b += m;
    }
    assert_int_equal(lines, 8760 + 10);
    assert_between(tipped, 0, TIPPED_MOST);
    free(kept);
    free(made);
}

/* And reads as any weather file: whole, typical; its head says it is made. */
static void the_file_reads_whole(void **state)
{
    const struct file_row *row = *state;
    struct reading r;
    char *text = whole_file(row->path);

    assert_non_null(
        strstr(text, "# provenance: made from monthly figures of "));
    free(text);
    read_file(&r, row->path, NULL);
    assert_int_equal(r.status, DEW_OK);
    assert_int_equal(r.count, 8760);
    assert_int_equal(r.dates[0].year, 0);
    assert_int_equal(dew_year_whole(r.year, NULL), DEW_OK);
    assert_string_equal(dew_year_site(r.year)->id, row->id);
    dew_year_close(r.year);
}

ROWS(file_rows, the_file_is_made_anew);
ROWS(file_rows, the_file_reads_whole);
RUN_TESTS("weather, made files");
