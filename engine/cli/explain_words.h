/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words of the trade and of the kitchen table that lead on to a key. */
#ifndef DEW_CLI_EXPLAIN_WORDS_H
#define DEW_CLI_EXPLAIN_WORDS_H

/* What a person calls it, the key or group it leads to, and why. */
struct cli__led {
    const char *word, *key, *why;
};

/* The row of that word, without regard to case, blank, - and _; NULL: none. */
const struct cli__led *cli__explain_word(const char *word);

#endif
