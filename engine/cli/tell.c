/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words that could stand next, from a command's option table. */
#include "cli/tell.h"

#include <string.h>

#include "core/clean.h"

enum { DEPTH = 4, LEAD = 64 };

void cli__tell_word(const char *lead, const char *word, const char *begin,
                    const char *what)
{
    /* what is not clean no shell could take as it stands */
    if (strncmp(word, begin, strlen(begin)) == 0 && core__is_clean(word))
        printf("%s%s\t%s\n", lead, word, what);
}

/* ---- the option table ------------------------------------------------------ */

/* The option of that long name, here or in a child; NULL when there is none. */
static const struct argp_option *find(const struct argp *argp, const char *name,
                                      size_t length, int depth)
{
    const struct argp_option *found = NULL;

    for (const struct argp_option *o = argp->options;
         o != NULL && (o->name != NULL || o->key != 0); o++)
        if (o->name != NULL && strlen(o->name) == length &&
            strncmp(o->name, name, length) == 0)
            return o;
    for (const struct argp_child *c = argp->children;
         c != NULL && c->argp != NULL && found == NULL && depth > 0; c++)
        found = find(c->argp, name, length, depth - 1);
    return found;
}

static void tell_options(const struct argp *argp, const char *begin, int depth)
{
    char word[LEAD];

    for (const struct argp_option *o = argp->options;
         o != NULL && (o->name != NULL || o->key != 0); o++) {
        if (o->name == NULL || (o->flags & OPTION_HIDDEN))
            continue;
        snprintf(word, sizeof word, "--%s%s", o->name, o->arg ? "=" : "");
        cli__tell_word("", word, begin, o->doc);
    }
    for (const struct argp_child *c = argp->children;
         c != NULL && c->argp != NULL && depth > 0; c++)
        tell_options(c->argp, begin, depth - 1);
}

/* ---- the words before ------------------------------------------------------- */

/* Does word take the next one as its value?  Then the option, else NULL. */
static const struct argp_option *waits(const struct argp *argp,
                                       const char *word)
{
    const struct argp_option *o = NULL;

    if (strncmp(word, "--", 2) == 0 && strchr(word, '=') == NULL)
        o = find(argp, word + 2, strlen(word + 2), DEPTH);
    return o != NULL && o->arg != NULL ? o : NULL;
}

const char *cli__tell_odd(const struct argp *argp, int argc, char **argv)
{
    for (int i = 1; i < argc && strcmp(argv[i], "--") != 0; i++) {
        const char *word = argv[i];
        int is_long = strncmp(word, "--", 2) == 0;

        if (waits(argp, word) != NULL)
            i++;
        else if (word[0] != '-' || core__is_clean(word))
            continue;
        else if (!is_long ||
                 find(argp, word + 2, strcspn(word + 2, "="), DEPTH) == NULL)
            return word;
    }
    return NULL;
}

/* Keep the words that are no options and no values of options, and the last. */
static int plain_words(const struct argp *argp, char **words, int count,
                       char **kept)
{
    int n = 0;

    for (int i = 0; i + 1 < count; i++) {
        if (waits(argp, words[i]) != NULL)
            i++;
        else if (words[i][0] != '-')
            kept[n++] = words[i];
    }
    kept[n++] = words[count - 1];
    return n;
}

/* The name of the k-th word that args_doc's first line asks for, or NULL. */
static const char *place_name(const char *args_doc, int k, int *length)
{
    const char *at = args_doc, *last = NULL;

    while (at != NULL && *at != '\0' && *at != '\n') {
        at += strspn(at, " []");
        *length = (int)strcspn(at, " ]\n");
        if (*length == 0)
            break;
        last = at;
        if (k-- == 0)
            return at;
        at += *length;
    }
    if (last == NULL)
        return NULL;
    *length = (int)strcspn(last, " ]\n");
    return strncmp(last + *length - 3, "...", 3) == 0 ? last : NULL;
}

static void tell_plain(const struct argp *argp, char **words, int count)
{
    struct cli__value_asked asked = {.lead = "", .words = words};

    asked.begin = words[count - 1];
    asked.count = count - 1;
    asked.name = place_name(argp->args_doc, count - 1, &asked.length);
    if (asked.name != NULL && asked.length > 3 &&
        strncmp(asked.name + asked.length - 3, "...", 3) == 0)
        asked.length -= 3;
    if (asked.name != NULL)
        cli__tell_value(&asked);
}

static void tell_option_value(const struct argp_option *o, const char *lead,
                              const char *begin, char **words, int count)
{
    const struct cli__value_asked asked = {
        .name = strcmp(o->name, "option") == 0 ? "OPTION" : o->arg,
        .length = strcmp(o->name, "option") == 0 ? 6 : (int)strlen(o->arg),
        .lead = lead,
        .begin = begin,
        .words = words,
        .count = count};

    cli__tell_value(&asked);
}

void cli__tell_words(const struct argp *argp, char **words, int count)
{
    enum { MOST = 256 };
    const char *last = words[count - 1], *equal = strchr(last, '=');
    const struct argp_option *o = NULL;
    char *kept[MOST], lead[LEAD] = "";

    if (count > MOST)
        return;
    if (count > 1)
        o = waits(argp, words[count - 2]);
    if (o == NULL && equal != NULL && strncmp(last, "--", 2) == 0) {
        o = find(argp, last + 2, (size_t)(equal - last - 2), DEPTH);
        snprintf(lead, sizeof lead, "%.*s", (int)(equal + 1 - last), last);
        last = equal + 1;
    }
    if (o != NULL) {
        if (o->arg != NULL)
            tell_option_value(o, lead, last, words, count - 1);
    } else if (last[0] == '-') {
        tell_options(argp, last, DEPTH);
        cli__tell_word("", "--help", last, "say more of this command");
        cli__tell_word("", "--usage", last, "the options in short");
    } else {
        tell_plain(argp, kept, plain_words(argp, words, count, kept));
    }
}

int cli__tell(const struct argp *argp, int argc, char **argv)
{
    if (argc > 2 && strcmp(argv[1], CLI__TELL_WORDS) == 0)
        cli__tell_words(argp, argv + 2, argc - 2);
    else if (argc == 2 && strcmp(argv[1], CLI__TELL_MANUAL) == 0)
        cli__tell_manual(argp, argv[0]);
    else
        return 0;
    return 1;
}
