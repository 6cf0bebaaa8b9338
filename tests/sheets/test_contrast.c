/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Contrast of the page's colours, read from the very sheets it is made with:
 * 4.5 for text, 3 for lines and marks [WCAG21] 1.4.3 and 1.4.11.
 */
#include "support/rows.h"

#include <math.h>
#include <string.h>

#include "core/embed.h"

CORE__EMBEDDED(page_css);
CORE__EMBEDDED(chart_css);
CORE__EMBEDDED(ducts_css);

/* Red, green or blue of "#rrggbb" as light, 0 .. 1. */
static double light(const char *hex, int part)
{
    static const char digits[] = "0123456789abcdef";
    const char *a = strchr(digits, hex[1 + 2 * part]);
    const char *b = strchr(digits, hex[2 + 2 * part]);
    double s;

    assert_true(a != NULL && b != NULL && *a != '\0' && *b != '\0');
    s = (double)(16 * (a - digits) + (b - digits)) / 255;
    return s <= 0.04045 ? s / 12.92 : pow((s + 0.055) / 1.055, 2.4);
}

static double luminance(const char *hex)
{
    return 0.2126 * light(hex, 0) + 0.7152 * light(hex, 1) +
           0.0722 * light(hex, 2);
}

static double contrast(const char *a, const char *b)
{
    double x = luminance(a), y = luminance(b);

    return (fmax(x, y) + 0.05) / (fmin(x, y) + 0.05);
}

#define DARK "@media screen and (prefers-color-scheme:dark){"

/* Where text first stands between from and to, which may be NULL. */
static const char *within(const char *from, const char *to, const char *text)
{
    const char *at = from != NULL ? strstr(from, text) : NULL;

    return at != NULL && (to == NULL || at < to) ? at : NULL;
}

/* The colour that follows text in one of the sheets, by day or in the dark,
   where what is not told anew stays; or text when it is one. */
static const char *colour(const char *text, int dark)
{
    const char *const sheets[] = {core__data_page_css, core__data_chart_css,
                                  core__data_ducts_css};
    const char *at = NULL;

    if (text[0] == '#')
        return text;
    for (int night = dark; night >= 0 && at == NULL; night--)
        for (int i = 0; i < 3 && at == NULL; i++) {
            const char *marker = strstr(sheets[i], DARK);

            assert_non_null(marker);
            at = night ? within(marker, strstr(marker, "\n}\n"), text)
                       : within(sheets[i], marker, text);
        }
    if (at == NULL)
        fail_msg("no \"%s\" in the sheets", text);
    at = strchr(at + strlen(text) - 1, '#');
    assert_non_null(at);
    return at;
}

static const struct pair_row {
    const char *name, *ink, *ground;
    double least;
} rows[] = {
    {"text", "--ink:", "--paper:", 4.5},
    {"text on a card", "--ink:", "--card:", 4.5},
    {"text of the answer", "--ink:", "--good:", 4.5},
    {"text where none will do", "--ink:", "--none:", 4.5},
    {"text of a button", "--ink:", "--wash:", 4.5},
    {"text of a button that is off", "button:disabled{color:", "--wash:", 4.5},
    {"soft text", "--soft:", "--paper:", 4.5},
    {"soft text on a card", "--soft:", "--card:", 4.5},
    {"link", "--link:", "--paper:", 4.5},
    {"STOP", "--stop:", "--card:", 4.5},
    {"STOP, reversed", "--card:", "--stop:", 4.5},
    {"ring of focus", "--link:", "--card:", 3},
    {"border of a button", "--soft:", "--card:", 3},
    {"words of a chart", "svg text{", ".paper{fill:", 4.5},
    {"notes of a chart", "svg .note{", ".paper{fill:", 4.5},
    {"unit of a chart", "svg .unit,", ".paper{fill:", 4.5},
    {"map, too dry", "svg .cell{font", ".m1{fill:", 4.5},
    {"map, middle", "svg .cell{font", ".m3{fill:", 4.5},
    {"map, too humid", "svg .cell{font", ".m4{fill:", 4.5},
    {"map, far too humid", "svg .cell{font", ".m5{fill:", 4.5},
    {"much damp in a month", "#16202b", ".humid .h4{background:", 4.5},
    {"much energy in a month", "#16202b", ".energy .h4{background:", 4.5},
    {"words of a sketch", "svg.sketch text{", ".d-paper{fill:", 4.5},
    {"figures of a sketch", "svg.sketch text{", ".d-room{fill:", 4.5},
    {"pale figures of a sketch", ".d-pale{", ".d-room{fill:", 4.5},
    {"warning of a sketch", ".d-warn{fill:", ".d-paper{fill:", 4.5},
    {"fresh air", ".d-fresh", ".d-paper{fill:", 3},
    {"stale air", ".d-stale{", ".d-paper{fill:", 3},
    {"air astray", ".d-astray", ".d-paper{fill:", 3},
    {"frame", ".frame{", ".paper{fill:", 3},
    {"line 0", ".l0{stroke:", ".paper{fill:", 3},
    {"line 1", ".l1{stroke:", ".paper{fill:", 3},
    {"line 2", ".l2{stroke:", ".paper{fill:", 3},
    {"line 3", ".l3{stroke:", ".paper{fill:", 3},
    {"line 4", ".l4{stroke:", ".paper{fill:", 3},
    {"line 5", ".l5{stroke:", ".paper{fill:", 3},
    {"line 6", ".l6{stroke:", ".paper{fill:", 3},
    {"line 7", ".l7{stroke:", ".paper{fill:", 3},
    {"line 8", ".l8{stroke:", ".paper{fill:", 3},
    {"line 9", ".l9{stroke:", ".paper{fill:", 3},
    {"indoors over days too humid", ".thick{", ".some{stroke:", 3},
    {"indoors over days far too humid", ".thick{", ".much{stroke:", 3},
    {"outdoors over days too humid", ".thin{", ".some{stroke:", 3},
    {"outdoors over days far too humid", ".thin{", ".much{stroke:", 3},
    {"dots", ".dots{", ".paper{fill:", 3},
    {"limit", ".edge{", ".paper{fill:", 3},
    {"the log", ".logged{", ".paper{fill:", 3},
    {"outline of a bar", "rect[class^=\"t\"]{stroke:", ".paper{fill:", 3},
};

static void told_apart(const struct pair_row *r, int dark)
{
    double got = contrast(colour(r->ink, dark), colour(r->ground, dark));

    if (!(got >= r->least))
        fail_msg("contrast %.2f, least %.1f", got, r->least);
}

static void told_apart_by_day(void **state)
{
    told_apart(*state, 0);
}

static void told_apart_in_the_dark(void **state)
{
    told_apart(*state, 1);
}

/* [WCAG21] the ratio runs from 1 to 21 */
TEST(ends_of_the_scale)
{
    assert_near(contrast("#000000", "#ffffff"), 21, 1e-12);
    assert_near(contrast("#8c1c2c", "#8c1c2c"), 1, 1e-12);
    assert_near(contrast("#777777", "#ffffff"), 4.48, 0.005);
}

ROWS(rows, told_apart_by_day);
ROWS(rows, told_apart_in_the_dark);
RUN_TESTS("sheets, contrast");
