/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/kept.h"

#include <string.h>

#include "march/pieces.h"

_Static_assert((int)DEW_KEPT_NAME == (int)SHA256_DIGEST_STRING_LENGTH,
               "a name is a SHA-256 in words");

void study__name_add(struct study__name *name, const void *bytes, size_t length)
{
    SHA256Update(&name->sum, bytes, length);
}

static void add_piece(void *name, const void *bytes, size_t length)
{
    study__name_add(name, bytes, length);
}

void study__name_case(struct study__name *name, const struct dew_case *c)
{
    march__case_pieces(c, add_piece, name);
}

struct study__name study__name_of(const char *what, size_t length)
{
    struct study__name name;

    SHA256Init(&name.sum);
    study__name_add(&name, what, strlen(what) + 1);
    study__name_add(&name, &length, sizeof length);
    return name;
}

void study__name_end(struct study__name *name, char out[DEW_KEPT_NAME])
{
    SHA256End(&name->sum, out);
}

void study__name_weather(const struct dew_weather *weather,
                         const double *prescribed_t, char out[DEW_KEPT_NAME])
{
    size_t n = weather->count;
    struct study__name name = study__name_of("weather", n);

    study__name_add(&name, weather->hours, n * sizeof *weather->hours);
    study__name_add(&name, weather->dates, n * sizeof *weather->dates);
    if (prescribed_t != NULL)
        study__name_add(&name, prescribed_t, n * sizeof *prescribed_t);
    study__name_end(&name, out);
}
