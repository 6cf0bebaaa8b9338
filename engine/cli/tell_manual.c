/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A command's section of the manual, from its option table. */
#include <string.h>

#include "cli/tell.h"

void cli__roff_put(const char *text, size_t length)
{
    if (length > 0 && (text[0] == '.' || text[0] == '\''))
        fputs("\\&", stdout);
    for (size_t i = 0; i < length; i++)
        if (text[i] == '\\')
            fputs("\\e", stdout);
        else if (text[i] == '-')
            fputs("\\-", stdout);
        else if (text[i] == '\'')
            fputs("\\(aq", stdout);
        else
            putchar(text[i]);
}

static int is_example(const char *line)
{
    return strncmp(line, "  ", 2) == 0;
}

/* Paragraphs part at empty lines; lines set in by two are examples. */
static void put_text(const char *text, size_t length)
{
    const char *end = text + length;
    int shown = 0;

    while (text < end) {
        const char *stop = memchr(text, '\n', (size_t)(end - text));
        size_t n = (size_t)((stop != NULL ? stop : end) - text);

        if (is_example(text) && !shown)
            puts(".PP\n.RS\n.nf");
        else if (!is_example(text) && shown)
            puts(".fi\n.RE");
        else if (n == 0 && text + 1 < end && !is_example(text + 1))
            puts(".PP");
        shown = is_example(text);
        cli__roff_put(text + (shown ? 2 : 0), n - (shown ? 2 : 0));
        if (n > 0)
            putchar('\n');
        text += n + (stop != NULL);
    }
    if (shown)
        puts(".fi\n.RE");
}

static void put_usage(const struct argp *argp, const char *name)
{
    const char *at = argp->args_doc != NULL ? argp->args_doc : "";

    do {
        size_t n = strcspn(at, "\n");

        printf("%s.B ", at == argp->args_doc || *at == '\0' ? "" : ".br\n");
        cli__roff_put(name, strlen(name));
        printf(" [\\fIOPTION\\fP...]%s", *at ? " " : "");
        cli__roff_put(at, n);
        putchar('\n');
        at += n + (at[n] == '\n');
    } while (*at != '\0');
}

static void put_options(const struct argp *argp)
{
    for (const struct argp_option *o = argp->options;
         o != NULL && (o->name != NULL || o->key != 0); o++) {
        if (o->name == NULL || (o->flags & OPTION_HIDDEN))
            continue;
        printf(".TP\n\\fB");
        if (o->key > ' ' && o->key < 127)
            printf("\\-%c\\fP, \\fB", o->key);
        printf("\\-\\-");
        cli__roff_put(o->name, strlen(o->name));
        printf("\\fP");
        if (o->arg != NULL) {
            printf("=\\fI");
            cli__roff_put(o->arg, strlen(o->arg));
            printf("\\fP");
        }
        putchar('\n');
        cli__roff_put(o->doc, strlen(o->doc));
        putchar('\n');
    }
}

static void put_all_options(const struct argp *argp, int depth)
{
    put_options(argp);
    for (const struct argp_child *c = argp->children;
         c != NULL && c->argp != NULL && depth > 0; c++)
        put_all_options(c->argp, depth - 1);
}

void cli__tell_manual(const struct argp *argp, const char *name)
{
    const char *doc = argp->doc != NULL ? argp->doc : "";
    size_t first = strcspn(doc, "\v");

    printf(".SS ");
    cli__roff_put(name, strlen(name));
    printf("\n");
    put_usage(argp, name);
    puts(".PP");
    put_text(doc, first);
    put_all_options(argp, 4);
    if (doc[first] == '\v') {
        if (!is_example(doc + first + 1))
            puts(".PP");
        put_text(doc + first + 1, strlen(doc + first + 1));
    }
}
