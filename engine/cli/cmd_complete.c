/* SPDX-License-Identifier: GPL-3.0-or-later */
/* `complete`: what the shells and the manual ask the option tables for. */
#include <string.h>

#include "cli/tell.h"
#include "cli/weather.h"

enum { KEY_MANUAL = 0x200, MOST = 256 };

struct complete {
    char *words[MOST];
    int count;
    int manual;
};

static error_t take(int key, char *word, struct argp_state *state)
{
    struct complete *c = state->input;

    switch (key) {
    case KEY_MANUAL:
        c->manual = 1;
        return 0;
    case ARGP_KEY_ARG:
        if (c->count == MOST)
            cli__usage(state, "more than %d words", MOST);
        c->words[c->count++] = word;
        return 0;
    case ARGP_KEY_END:
        if (c->count == 0 && !c->manual)
            cli__usage(state, "give the words so far, as in: complete -- run "
                              "house.yaml --u");
        return 0;
    default:
        return ARGP_ERR_UNKNOWN;
    }
}

/* Let a command's own table answer: mark, then the words after the command. */
static void ask(const struct cli__command *row, const char *group,
                const char *mark, char **words, int count)
{
    char name[64], told[sizeof CLI__TELL_MANUAL];
    char *argv[MOST + 3] = {name, told};

    snprintf(name, sizeof name, "dewledger %s%s", group, row->name);
    snprintf(told, sizeof told, "%s", mark);
    for (int i = 0; i < count; i++)
        argv[2 + i] = words[i];
    (void)row->run(2 + count, argv);
}

static const struct cli__command *find(const struct cli__command *rows,
                                       int count, const char *word)
{
    for (int i = 0; i < count; i++)
        if (strcmp(rows[i].name, word) == 0)
            return &rows[i];
    return NULL;
}

static void tell_names(const struct cli__command *rows, int count,
                       const char *begin)
{
    for (int i = 0; i < count; i++)
        cli__tell_word("", rows[i].name, begin, rows[i].does);
    cli__tell_word("", "--help", begin, "say what there is");
}

static void tell(struct complete *c)
{
    char **words = c->words;
    const struct cli__command *row;

    if (c->count == 1) {
        tell_names(cli__commands, CLI__COMMANDS, words[0]);
        cli__tell_word("", "--version", words[0], "versions");
        return;
    }
    row = find(cli__commands, CLI__COMMANDS, words[0]);
    if (strcmp(words[0], "help") == 0 && c->count == 2)
        tell_names(cli__commands, CLI__COMMANDS, words[1]);
    else if (row != NULL && strcmp(words[0], "weather") != 0)
        ask(row, "", CLI__TELL_WORDS, words + 1, c->count - 1);
    else if (row != NULL && c->count == 2)
        tell_names(cli__weathers, CLI__WEATHERS, words[1]);
    else if (row != NULL &&
             (row = find(cli__weathers, CLI__WEATHERS, words[1])) != NULL)
        ask(row, "weather ", CLI__TELL_WORDS, words + 2, c->count - 2);
}

static void tell_manual(void)
{
    for (int i = 0; i < CLI__COMMANDS; i++)
        if (strcmp(cli__commands[i].name, "weather") != 0)
            ask(&cli__commands[i], "", CLI__TELL_MANUAL, NULL, 0);
    for (int i = 0; i < CLI__WEATHERS; i++)
        ask(&cli__weathers[i], "weather ", CLI__TELL_MANUAL, NULL, 0);
}

int cli__cmd_complete(int argc, char **argv)
{
    static const struct argp_option options[] = {
        {"manual", KEY_MANUAL, NULL, 0,
         "print the commands' part of the manual page, roff", 0},
        {0},
    };
    static const struct argp argp = {
        .options = options,
        .parser = take,
        .args_doc = "-- WORD...",
        .doc = "Say what could stand in place of the last WORD of a command "
               "line, a line each.  The shells ask this when you press Tab.\v"
               "  dewledger complete -- run house.yaml --u\n"
               "  dewledger complete -- explain house.\n"};
    struct complete c = {.count = 0};
    int code = cli__parse(&argp, argc, argv, &c);

    if (code != CLI__DONE)
        return code;
    if (c.manual)
        tell_manual();
    else
        tell(&c);
    return CLI__DONE;
}
