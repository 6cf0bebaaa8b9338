/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/near.h"

enum { LONGEST = 63 };

static int plain(char c)
{
    if (c >= 'A' && c <= 'Z')
        return c - 'A' + 'a';
    return c == '-' || c == ' ' ? '_' : c;
}

static size_t length_of(const char *s)
{
    size_t n = 0;

    while (n < LONGEST && s[n] != '\0')
        n++;
    return n;
}

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* Optimal string alignment, three rows kept. */
size_t core__distance(const char *a, const char *b)
{
    size_t n = length_of(a), m = length_of(b);
    size_t rows[3][LONGEST + 1] = {{0}};

    for (size_t j = 0; j <= m; j++)
        rows[0][j] = j;
    for (size_t i = 1; i <= n; i++) {
        size_t *now = rows[i % 3], *last = rows[(i + 2) % 3];
        const size_t *older = rows[(i + 1) % 3];

        now[0] = i;
        for (size_t j = 1; j <= m; j++) {
            size_t change = plain(a[i - 1]) != plain(b[j - 1]);

            now[j] =
                least(least(last[j], now[j - 1]) + 1, last[j - 1] + change);
            if (i > 1 && j > 1 && plain(a[i - 1]) == plain(b[j - 2]) &&
                plain(a[i - 2]) == plain(b[j - 1]))
                now[j] = least(now[j], older[j - 2] + 1);
        }
    }
    return rows[n % 3][m];
}
