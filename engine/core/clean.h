/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Text from outside - files, keys, values, names, the command line - made fit
 * to be shown.  What a terminal or a page would act on becomes letters:
 *
 *   control characters, and bytes that are not UTF-8     \x1b
 *   control characters above U+007F, what turns the
 *   direction of writing, separators of lines and
 *   paragraphs, U+FFFE and U+FFFF                        U+202E
 *
 * Everything else stays byte for byte.  Cleaning twice changes nothing more.
 * Every message and every report passes through here.
 */
#ifndef DEW_CORE_CLEAN_H
#define DEW_CORE_CLEAN_H

#include <stddef.h>
#include <stdio.h>

/* text into out, cut before a character that does not fit whole.  Returns
   out.  size > 0. */
char *core__clean(const char *text, char *out, size_t size);

/* The same onto a stream; length bytes, zero bytes too. */
void core__clean_put(FILE *out, const char *text, size_t length);

/* JSON, in which such characters stand only within strings: written \u202e. */
void core__clean_json(FILE *out, const char *json);

/* Whether core__clean would change nothing. */
int core__is_clean(const char *text);

#endif
