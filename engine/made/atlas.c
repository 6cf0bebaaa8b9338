/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answers by place: find a row. */
#include "made/atlas.h"

#include <string.h>

#include "dew/unit.h"
#include "made/climate.h"

/* The columns of weather/answers.csv, in its order; REACH begins the shares of
   each kind. */
enum { STATION, ANSWER, BESIDES, FAN, DOES, REACH };
enum { CORE = REACH + DEW_ATLAS_NONE, CELLS };

#define X(NAME, word) #word,
static const char *const kinds[DEW_ATLAS_KINDS] = {DEW_ATLAS_MAP(X)};
#undef X
static const char *const fans[] = {"exhaust", "heat", "enthalpy"};
static const char *const cores[] = {"enthalpy", "heat", "alike", "open"};

static const char *next_line(const char *text)
{
    text += strcspn(text, "\n");
    return *text == '\n' ? text + 1 : text;
}

/* Which of the words the cell is; count for none. */
static unsigned word_of(const struct made__line *row, int c,
                        const char *const *words, unsigned count)
{
    unsigned i = 0;

    while (i < count && (strlen(words[i]) != row->length[c] ||
                         memcmp(words[i], row->cell[c], row->length[c]) != 0))
        i++;
    return i;
}

/* A share told in percent. */
static int take_share(const struct made__line *row, int c, double *share)
{
    double x;

    if (row->length[c] == 0 ||
        dew_number_read(row->cell[c], row->length[c], &x) != row->length[c] ||
        !(x >= 0.0 && x <= 100.0))
        return 0;
    *share = x / 100.0;
    return 1;
}

static int take(const struct made__line *row, struct dew_atlas *out)
{
    unsigned answer = word_of(row, ANSWER, kinds, DEW_ATLAS_KINDS);
    unsigned besides = word_of(row, BESIDES, kinds, DEW_ATLAS_NONE);
    unsigned fan = word_of(row, FAN, fans, sizeof fans / sizeof fans[0]);
    unsigned core = word_of(row, CORE, cores, sizeof cores / sizeof cores[0]);
    struct dew_atlas a;

    if (answer == DEW_ATLAS_KINDS || besides == DEW_ATLAS_NONE ||
        fan == sizeof fans / sizeof fans[0] ||
        core == sizeof cores / sizeof cores[0] ||
        !take_share(row, DOES, &a.does))
        return 0;
    for (int k = 0; k < DEW_ATLAS_NONE; k++)
        if (!take_share(row, REACH + k, &a.reach[k]))
            return 0;
    a.answer = (enum dew_atlas_besides)answer;
    a.besides = (enum dew_atlas_besides)besides;
    a.fan = (enum dew_atlas_fan)fan;
    a.core = (enum dew_atlas_core)core;
    *out = a;
    return 1;
}

int made__atlas_find(const char *text, const char *station,
                     struct dew_atlas *out)
{
    size_t n = strlen(station);
    struct made__line row;

    for (text = next_line(next_line(text)); *text != '\0';
         text = next_line(text))
        if (n > 0 && strncmp(text, station, n) == 0 && text[n] == ',') {
            made__cut(text, &row);
            return row.count == CELLS && take(&row, out);
        }
    return 0;
}

int dew_atlas_find(const char *station, struct dew_atlas *out)
{
    return made__atlas_find(core__data_answers_csv, station, out);
}

const char *dew_atlas_besides_name(enum dew_atlas_besides besides)
{
    return kinds[besides];
}

const char *dew_atlas_fan_name(enum dew_atlas_fan fan)
{
    return fans[fan];
}

const char *dew_atlas_core_name(enum dew_atlas_core core)
{
    return cores[core];
}
