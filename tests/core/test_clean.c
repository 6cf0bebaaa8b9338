/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text from outside: nothing that a terminal acts on, and names as they are.
   Sources: the ranges are those of Unicode 15, chapter 23 (controls,
   directional formatting, separators, noncharacters), from memory; forms that
   are not UTF-8 are those of RFC 3629, section 3 and 4. */
#include "support/rows.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/clean.h"
#include "dew/status.h"

static const struct row {
    const char *name, *text, *want, *json;
} rows[] = {
    {"letters stay", "as it stands, 95 cfm", "as it stands, 95 cfm", NULL},
    {"names stay: Latin, Greek, Han, an emoji, a joiner",
     "Z\xc3\xbcrich \xce\x91\xce\xb8 \xe5\xb1\xb1 \xf0\x9f\x8f\xa0 "
     "\xe0\xa4\x95\xe0\xa5\x8d\xe2\x80\x8d\xe0\xa4\xb7",
     "Z\xc3\xbcrich \xce\x91\xce\xb8 \xe5\xb1\xb1 \xf0\x9f\x8f\xa0 "
     "\xe0\xa4\x95\xe0\xa5\x8d\xe2\x80\x8d\xe0\xa4\xb7",
     NULL},
    {"Hebrew and Arabic stay", "\xd7\xa9\xd7\x9c \xd8\xa8\xd9\x8a",
     "\xd7\xa9\xd7\x9c \xd8\xa8\xd9\x8a", NULL},
    {"a no-break space stays", "95\xc2\xa0m", "95\xc2\xa0m", NULL},
    {"escape", "a\x1b[2J", "a\\x1b[2J", "a\\u001b[2J"},
    {"bell, newline, return, tab", "\a\n\r\t", "\\x07\\x0a\\x0d\\x09", NULL},
    {"delete", "\x7f.", "\\x7f.", "\\u007f."},
    {"first and last of the upper controls", "\xc2\x80\xc2\x9f", "U+0080U+009F",
     "\\u0080\\u009f"},
    {"one byte that 8-bit terminals act on",
     "\x9b"
     "2J",
     "\\x9b2J", NULL},
    {"right-to-left override", "x\xe2\x80\xaey", "xU+202Ey", "x\\u202ey"},
    {"first embedding", "\xe2\x80\xaa", "U+202A", NULL},
    {"line separator", "\xe2\x80\xa8", "U+2028", NULL},
    {"what stands beside it stays", "\xe2\x80\xa7\xe2\x80\xaf",
     "\xe2\x80\xa7\xe2\x80\xaf", NULL},
    {"isolates", "\xe2\x81\xa6\xe2\x81\xa9", "U+2066U+2069", NULL},
    {"what stands beside them stays", "\xe2\x81\xa5\xe2\x81\xaa",
     "\xe2\x81\xa5\xe2\x81\xaa", NULL},
    {"marks", "\xe2\x80\x8e\xe2\x80\x8f\xd8\x9c", "U+200EU+200FU+061C", NULL},
    {"no character", "\xef\xbf\xbe\xef\xbf\xbf", "U+FFFEU+FFFF", NULL},
    {"Latin-1", "caf\xe9", "caf\\xe9", NULL},
    {"overlong slash", "\xc0\xaf", "\\xc0\\xaf", NULL},
    {"overlong escape in three", "\xe0\x80\x9b", "\\xe0\\x80\\x9b", NULL},
    {"surrogate", "\xed\xa0\x80", "\\xed\\xa0\\x80", NULL},
    {"above U+10FFFF", "\xf4\x90\x80\x80", "\\xf4\\x90\\x80\\x80", NULL},
    {"cut off", "a\xe2\x80", "a\\xe2\\x80", NULL},
    {"cut off before a letter", "\xe2\x80z", "\\xe2\\x80z", NULL},
};

static void a_row(void **state)
{
    const struct row *r = *state;
    char out[200], again[200];

    assert_string_equal(core__clean(r->text, out, sizeof out), r->want);
    assert_string_equal(core__clean(out, again, sizeof again), r->want);
    assert_int_equal(core__is_clean(r->text), strcmp(r->text, r->want) == 0);
}

/* What the streams write, to be freed. */
static char *streamed(const char *text, size_t length, int json)
{
    char *written = NULL;
    size_t size;
    FILE *out = open_memstream(&written, &size);

    assert_non_null(out);
    if (json)
        core__clean_json(out, text);
    else
        core__clean_put(out, text, length);
    assert_int_equal(fclose(out), 0);
    return written;
}

TEST(a_stream_takes_the_same)
{
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        char *got = streamed(rows[i].text, strlen(rows[i].text), 0);

        assert_string_equal(got, rows[i].want);
        free(got);
        if (rows[i].json == NULL)
            continue;
        got = streamed(rows[i].text, 0, 1);
        assert_string_equal(got, rows[i].json);
        free(got);
    }
}

TEST(a_stream_takes_zero_bytes_and_ends_where_told)
{
    char *got = streamed("a\0b\xc3\xbc", 4, 0);

    assert_string_equal(got, "a\\x00b\\xc3");
    free(got);
}

TEST(newlines_between_values_of_json_stay)
{
    char *got = streamed("{\n \"a\": \"\xc2\x9b\"\n}", 0, 1);

    assert_string_equal(got, "{\n \"a\": \"\\u009b\"\n}");
    free(got);
}

TEST(a_cut_never_falls_within_a_character)
{
    static const struct {
        size_t size;
        const char *want;
    } cuts[] = {{1, ""},
                {2, "a"},
                {5, "a"},
                {6, "a\\x1b"},
                {7, "a\\x1b"},
                {8, "a\\x1b\xc3\xbc"},
                {13, "a\\x1b\xc3\xbc"},
                {14, "a\\x1b\xc3\xbcU+202E"}};
    char out[20];

    for (size_t i = 0; i < COUNT_OF(cuts); i++)
        assert_string_equal(
            core__clean("a\x1b\xc3\xbc\xe2\x80\xae", out, cuts[i].size),
            cuts[i].want);
}

/* No byte of any two-byte start, whatever follows, leaves a control. */
TEST(no_pair_of_bytes_leaves_a_control)
{
    char text[3] = "", out[20];

    for (int a = 1; a < 256; a++)
        for (int b = 0; b < 256; b++) {
            text[0] = (char)a;
            text[1] = (char)b;
            core__clean(text, out, sizeof out);
            for (const char *c = out; *c != '\0'; c++)
                assert_true((unsigned char)*c >= 0x20 && *c != 0x7f);
            assert_true(core__is_clean(out));
        }
}

/* The line that is for people is clean; the record keeps what it was told. */
TEST(a_line_of_an_error_is_clean)
{
    struct dew_error err = {.status = DEW_EUNKNOWN,
                            .line = 3,
                            .column = 1,
                            .source = "a\x1b.yaml",
                            .path = "\xe2\x80\xae",
                            .text = "no \x9b such"};
    char line[200];

    assert_string_equal(dew_error_line(&err, line, sizeof line),
                        "a\\x1b.yaml:3:1: U+202E: no \\x9b such");
    assert_string_equal(err.path, "\xe2\x80\xae");
}

ROWS(rows, a_row);
RUN_TESTS("core, clean");
