/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The place that a person means: by number, name, state or point. */
#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/fail.h"
#include "core/near.h"
#include "dew/unit.h"
#include "made/climate.h"

/* How far the table's place may lie from a point, m: weather changes over
   such a way, and whoever goes further says so (our own choice, no source). */
static const double NEAR_ENOUGH = 80e3;

static const char apart[] = " \t,;/()";

/* clang-format off */
static const struct state {
    const char *code, *name;
} states[] = {
    {"AK", "Alaska"},        {"AL", "Alabama"},        {"AR", "Arkansas"},
    {"AZ", "Arizona"},       {"CA", "California"},     {"CO", "Colorado"},
    {"CT", "Connecticut"},   {"DC", "District of Columbia"},
    {"DE", "Delaware"},      {"FL", "Florida"},        {"GA", "Georgia"},
    {"GU", "Guam"},          {"HI", "Hawaii"},         {"IA", "Iowa"},
    {"ID", "Idaho"},         {"IL", "Illinois"},       {"IN", "Indiana"},
    {"KS", "Kansas"},        {"KY", "Kentucky"},       {"LA", "Louisiana"},
    {"MA", "Massachusetts"}, {"MD", "Maryland"},       {"ME", "Maine"},
    {"MI", "Michigan"},      {"MN", "Minnesota"},      {"MO", "Missouri"},
    {"MS", "Mississippi"},   {"MT", "Montana"},        {"NC", "North Carolina"},
    {"ND", "North Dakota"},  {"NE", "Nebraska"},       {"NH", "New Hampshire"},
    {"NJ", "New Jersey"},    {"NM", "New Mexico"},     {"NV", "Nevada"},
    {"NY", "New York"},      {"OH", "Ohio"},           {"OK", "Oklahoma"},
    {"OR", "Oregon"},        {"PA", "Pennsylvania"},   {"PR", "Puerto Rico"},
    {"RI", "Rhode Island"},  {"SC", "South Carolina"}, {"SD", "South Dakota"},
    {"TN", "Tennessee"},     {"TX", "Texas"},          {"UT", "Utah"},
    {"VA", "Virginia"},      {"VI", "Virgin Islands"}, {"VT", "Vermont"},
    {"WA", "Washington"},    {"WI", "Wisconsin"},      {"WV", "West Virginia"},
    {"WY", "Wyoming"},
};
/* clang-format on */
enum { STATES = sizeof states / sizeof states[0] };

static const char *state_name(const char *code)
{
    for (size_t i = 0; i < STATES; i++)
        if (strcmp(states[i].code, code) == 0)
            return states[i].name;
    return "";
}

static int same(const char *a, const char *b, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (tolower((unsigned char)a[i]) != tolower((unsigned char)b[i]))
            return 0; /* also at the end of the shorter one */
    return 1;
}

/* Does word begin a word of text? */
static int begins(const char *text, const char *word, size_t length)
{
    for (const char *s = text; *s != '\0'; s++)
        if ((s == text || !isalnum((unsigned char)s[-1])) &&
            same(s, word, length))
            return 1;
    return 0;
}

static int is(const char *text, const char *word, size_t length)
{
    return strlen(text) == length && same(text, word, length);
}

int dew_climate_answers(const struct dew_climate *place, const char *words)
{
    words += strspn(words, apart);
    while (*words != '\0') {
        size_t n = strcspn(words, apart);

        if (!begins(place->site.name, words, n) &&
            !begins(place->shown, words, n) && !is(place->site.id, words, n) &&
            !is(place->state, words, n) &&
            !begins(state_name(place->state), words, n))
            return 0;
        words += n;
        words += strspn(words, apart);
    }
    return 1;
}

/* The first few answers, for the message. */
static void add_name(char *list, size_t size, const struct dew_climate *place)
{
    size_t used = strlen(list);

    snprintf(list + used, size - used, "%s%s %s %s", used > 0 ? ", " : "",
             place->site.id, place->site.name, place->state);
}

static int exact(const struct dew_climate *place, const char *words)
{
    return is(place->site.id, words, strlen(words)) ||
           is(place->site.name, words, strlen(words));
}

/* ---- a name that is spelt otherwise --------------------------------------- */

enum { LONGEST = 63, NAMED = 3 };

/* The least letters by which a word of text differs from word. */
static size_t letters_off(const char *text, const char *word)
{
    size_t best = strlen(word);

    while (*text != '\0') {
        char one[LONGEST + 1];
        size_t n = strcspn(text, " -/()"), off;

        snprintf(one, sizeof one, "%.*s", (int)(n < LONGEST ? n : LONGEST),
                 text);
        off = core__distance(one, word);
        best = n > 0 && off < best ? off : best;
        text += n;
        text += strspn(text, " -/()");
    }
    return best;
}

/* Letters by which the place's words differ from those asked for; more than
   one in three of a word is another word, and then LONGEST. */
static size_t place_off(const struct dew_climate *place, const char *words)
{
    size_t sum = 0, n, off;

    for (words += strspn(words, apart); *words != '\0';
         words += n, words += strspn(words, apart)) {
        char word[LONGEST + 1];

        n = strcspn(words, apart);
        snprintf(word, sizeof word, "%.*s", (int)(n < LONGEST ? n : LONGEST),
                 words);
        if (dew_climate_answers(place, word))
            continue;
        off = letters_off(place->site.name, word);
        if (3 * off > n)
            return LONGEST;
        sum += off;
    }
    return sum;
}

/* The places spelt most alike, for the message; "" for none. */
static void add_nearest(char *list, size_t size, const char *words)
{
    struct dew_climate place;
    size_t best = LONGEST, found = 0, at = 0;

    while (made__climate_next(&at, &place, 0)) {
        size_t off = place_off(&place, words);

        if (off > best || off == LONGEST || (off == best && found == NAMED))
            continue;
        if (off < best) {
            list[0] = '\0';
            found = 0;
        }
        best = off;
        found++;
        add_name(list, size, &place);
    }
}

static int is_zip(const char *words)
{
    return strspn(words, "0123456789") == 5 &&
           (words[5] == '\0' || words[5] == '-');
}

static enum dew_status refuse(const char *words, struct dew_error *err)
{
    char list[180] = "";

    if (is_zip(words))
        return core__fail(err, DEW_EUNKNOWN,
                          "\"%.20s\" looks like a postal code, which the table "
                          "does not have: write a town, or latitude and "
                          "longitude as in 29.76 -95.37",
                          words);
    add_nearest(list, sizeof list, words);
    if (list[0] == '\0')
        return core__fail(err, DEW_EUNKNOWN,
                          "no place in the table answers to \"%.60s\": "
                          "`dewledger weather list STATE` names those of a "
                          "state",
                          words);
    return core__fail(err, DEW_EUNKNOWN,
                      "no place in the table answers to \"%.40s\"; spelt most "
                      "like it: %s",
                      words, list);
}

/* ---- a point ---------------------------------------------------------------- */

/* "29.76 -95.37" or "29.76, -95.37": two numbers and no more. */
static int is_point(const char *words, double at[2])
{
    for (int i = 0; i < 2; i++) {
        size_t n;

        words += strspn(words, apart);
        n = dew_number_read(words, strlen(words), &at[i]);
        if (n == 0 || (words[n] != '\0' && strchr(apart, words[n]) == NULL))
            return 0;
        words += n;
    }
    return words[strspn(words, apart)] == '\0';
}

static enum dew_status of_point(const double at[2], struct dew_climate *out,
                                struct dew_error *err)
{
    struct dew_nearby near;
    size_t count;
    enum dew_status status =
        dew_climate_near(at[0], at[1], &near, 1, &count, err);

    if (status != DEW_OK)
        return status;
    if (near.distance > NEAR_ENOUGH)
        return core__fail(
            err, DEW_EUNKNOWN,
            "the nearest place of the table, %s %s %s, is %.0f km "
            "(%.0f mi) away: name it if its weather will do",
            near.place.site.id, near.place.site.name, near.place.state,
            near.distance / 1e3, near.distance / 1609.344);
    *out = near.place;
    return DEW_OK;
}

/* ---- all of it ---------------------------------------------------------------- */

enum dew_status dew_climate_find(const char *words, struct dew_climate *out,
                                 struct dew_error *err)
{
    struct dew_climate place;
    size_t at = 0, before = 0, found = 0, whole = 0, hit = 0;
    char list[160] = "";
    double point[2];

    if (is_point(words, point))
        return of_point(point, out, err);
    for (; made__climate_next(&at, &place, 0); before = at) {
        if (!dew_climate_answers(&place, words))
            continue;
        if (exact(&place, words)) {
            if (whole++ == 0)
                hit = before;
        } else if (found == 0 && whole == 0) {
            hit = before;
        }
        if (found++ < NAMED)
            add_name(list, sizeof list, &place);
    }
    if (found == 0)
        return refuse(words, err);
    if (whole != 1 && found > 1)
        return core__fail(err, DEW_EAMBIGUOUS,
                          "%zu places answer to \"%.40s\": %s%s; add the state "
                          "or write the number",
                          found, words, list, found > NAMED ? ", ..." : "");
    made__climate_next(&hit, out, 1);
    return DEW_OK;
}
