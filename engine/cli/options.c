/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The options that commands share. */
#include <math.h>
#include <string.h>

#include "cli/cli.h"
#include "cli/tell.h"

enum { KEY_JSON = 0x100, KEY_UNITS, KEY_SET, KEY_OPTION, KEY_OUT, KEY_STRICT };

unsigned long cli__whole(struct argp_state *state, const char *name,
                         const char *word, double low, double high)
{
    double x;

    if (dew_number_read(word, strlen(word), &x) != strlen(word) ||
        word[0] == '\0' || x < low || x > high || x != floor(x))
        cli__usage(state, "--%s %s: write a whole number in %.0f .. %.0f", name,
                   word, low, high);
    return (unsigned long)x;
}

unsigned long cli__threads(struct argp_state *state, const char *word)
{
    return cli__whole(state, "threads", word, 1, 256);
}

unsigned long cli__seed(struct argp_state *state, const char *word)
{
    return cli__whole(state, "seed", word, 0, 4294967295.0);
}

static void take_units(struct cli__cli *c, const char *word,
                       struct argp_state *state)
{
    if (strcmp(word, "us") == 0)
        c->units = 1;
    else if (strcmp(word, "si") == 0)
        c->units = 2;
    else
        cli__usage(state, "--units %s: write us or si", word);
}

static error_t take_result(int key, char *word, struct argp_state *state)
{
    struct cli__cli *c = state->input;

    switch (key) {
    case KEY_JSON:
        c->json = 1;
        return 0;
    case KEY_UNITS:
        take_units(c, word, state);
        return 0;
    default:
        return ARGP_ERR_UNKNOWN;
    }
}

static void keep(const char **list, size_t *count, const char *word,
                 struct argp_state *state)
{
    if (*count == CLI__SETS)
        cli__usage(state, "more than %d of one option", CLI__SETS);
    list[(*count)++] = word;
}

static error_t take_scenario(int key, char *word, struct argp_state *state)
{
    struct cli__cli *c = state->input;

    switch (key) {
    case KEY_SET:
        if (strchr(word, '=') == NULL || word[0] == '=')
            cli__usage(state, "--set %s: write key=value", word);
        keep(c->sets, &c->set_count, word, state);
        return 0;
    case KEY_OPTION:
        keep(c->options, &c->option_count, word, state);
        return 0;
    case KEY_OUT:
        c->out = word;
        return 0;
    case KEY_STRICT:
        c->strict = 1;
        return 0;
    default:
        return ARGP_ERR_UNKNOWN;
    }
}

static const struct argp_option result_options[] = {
    {"json", KEY_JSON, NULL, 0, "print JSON; its units do not change", 0},
    {"units", KEY_UNITS, "us|si", 0, "print in these (default: as typed)", 0},
    {0},
};

#define PICKS                                                                  \
    {"set", KEY_SET, "KEY=VALUE", 0, "override a key; may be repeated", 0},    \
    {                                                                          \
        "option", KEY_OPTION, "NAME", 0, "only this option; may be repeated",  \
            0                                                                  \
    }

static const struct argp_option pick_options[] = {PICKS, {0}};

static const struct argp_option scenario_options[] = {
    PICKS,
    {"out", KEY_OUT, "DIR", 0, "write the files of the result there", 0},
    {"strict", KEY_STRICT, NULL, 0, "exit 4 when a STOP caution stands", 0},
    {0},
};

const struct argp cli__result_argp = {.options = result_options,
                                      .parser = take_result};
const struct argp cli__pick_argp = {.options = pick_options,
                                    .parser = take_scenario};
const struct argp cli__scenario_argp = {.options = scenario_options,
                                        .parser = take_scenario};

int cli__parse(const struct argp *argp, int argc, char **argv, void *input)
{
    const char *odd;
    error_t bad;

    if (cli__tell(argp, argc, argv))
        return CLI__TOLD;
    odd = cli__tell_odd(argp, argc, argv);
    if (odd != NULL)
        return cli__fail(CLI__BAD_USAGE,
                         "%s: no such option (%s --help lists them)", odd,
                         argv[0]);
    bad = argp_parse(argp, argc, argv, 0, NULL, input);
    return bad ? cli__fail(CLI__FAILED, "%s", strerror(bad)) : CLI__DONE;
}
