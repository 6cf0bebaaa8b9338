/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger air: moist air at the prompt. */
#include <stdlib.h>
#include <string.h>

#include "cli/air.h"

static const char words[] = "VALUE VALUE\n"
                            "VALUE VALUE outdoors VALUE VALUE\n"
                            "--mix VALUE VALUE FLOW with VALUE VALUE FLOW";

static const char does[] =
    "Any two of dry bulb, relative humidity, humidity ratio, dew point, wet "
    "bulb and enthalpy give the rest.\v"
    "A VALUE has its unit: 75degF 50% 9.2g/kg 28Btu/lb, or a name before it: "
    "t=75degF rh=50% w=9.2g/kg dew=55degF wet=62degF h=45kJ/kg.  Beside them: "
    "p=29.9inHg or elevation=5000ft (sea level unless given), surface=52degF "
    "(does it sweat?), flow=60cfm (at 20 degC and that pressure); before an "
    "outdoor state moisture=50% and heat=75%, what a core keeps of each.\n\n"
    "  dewledger air 75degF 50%\n"
    "  dewledger air 70degF 45% surface=48degF\n"
    "  dewledger air 80.5degF 62.3% outdoors 81degF 63%\n"
    "  dewledger air 68degF 40% 60cfm moisture=50% outdoors 0degF 80%\n"
    "  dewledger air --mix 75degF 50% 300cfm with 20degF 80% 90cfm\n";

enum { KEY_MIX = 0x200, KEY_LIQUID };

static const struct argp_option options[] = {
    {"mix", KEY_MIX, NULL, 0, "mix two streams without heat", 0},
    {"over-liquid", KEY_LIQUID, NULL, 0,
     "below freezing, rh and dew are over liquid water, as weather services "
     "report them (default: over ice)",
     0},
    {0},
};

static error_t take(int key, char *word, struct argp_state *state)
{
    struct cli__air_request *r = state->input;

    (void)word;
    switch (key) {
    case ARGP_KEY_INIT:
        state->child_inputs[0] = &r->common;
        return 0;
    case KEY_MIX:
        r->mix = 1;
        return 0;
    case KEY_LIQUID:
        r->over_liquid = 1;
        return 0;
    case ARGP_KEY_ARGS:
        r->word_count = state->argc - state->next;
        return 0;
    case ARGP_KEY_NO_ARGS:
        cli__usage(state, "give two values, as in 75degF 50%%");
        return 0;
    default:
        return ARGP_ERR_UNKNOWN;
    }
}

/* A number that still waits for its unit: "75", "t=75". */
static int waits(const char *word)
{
    const char *value = strchr(word, '=') ? strchr(word, '=') + 1 : word;
    double x;

    return dew_number_read(value, strlen(value), &x) == strlen(value) &&
           value[0] != '\0';
}

static int is_unit(const char *word)
{
    return strchr(word, '=') == NULL && strspn(word, "0123456789.+-") == 0 &&
           strcmp(word, "with") != 0 && strcmp(word, "outdoors") != 0;
}

/* The words one behind the other, with that between them; NULL without
   memory.  "-5degC" is no option: a space before it keeps argp away. */
static char *joined(char **parts, int count, char between)
{
    char *all = NULL;
    size_t size;
    FILE *to = open_memstream(&all, &size);

    for (int i = 0; to != NULL && i < count; i++) {
        int number =
            parts[i][0] == '-' && strspn(parts[i] + 1, "0123456789.") > 0;

        fprintf(to, "%s%s%c", number ? " " : "", parts[i], between);
    }
    if (to != NULL && fclose(to) == 0)
        return all;
    free(all);
    return NULL;
}

/* Cut at spaces, then put a number and the unit after it together. */
static int cut(struct cli__air_request *r)
{
    static const char spaces[] = " \t";
    char *last = NULL;

    for (char *at = r->words + strspn(r->words, spaces), *word; *at != '\0';
         at += strspn(at, spaces)) {
        word = at;
        at += strcspn(at, spaces);
        *at++ = '\0'; /* each word has a space behind it */
        if (last != NULL && waits(last) && is_unit(word)) {
            memmove(last + strlen(last), word, strlen(word) + 1);
            continue;
        }
        if (r->count == CLI__AIR_WORDS)
            return cli__fail(CLI__BAD_USAGE, "more than %d words",
                             CLI__AIR_WORDS);
        last = r->list[r->count++] = word;
    }
    return CLI__DONE;
}

/* Pointers to words that stand one behind the other; NULL without memory. */
static char **listed(char *block, int count)
{
    char **list =
        block != NULL ? calloc((size_t)count + 1, sizeof *list) : NULL;

    for (int i = 0; list != NULL && i < count; i++) {
        list[i] = block;
        block += strlen(block) + 1;
    }
    return list;
}

static int answer(struct cli__air_request *r)
{
    struct dew_error err = {0};
    enum dew_status status = cli__air_read(r, &err);

    if (status == DEW_OK)
        status = cli__air_states(r, &err);
    return status == DEW_OK ? cli__air_print(r) : cli__error(&err);
}

int cli__cmd_air(int argc, char **argv)
{
    static const struct argp_child children[] = {
        {&cli__result_argp, 0, NULL, 0}, {0}};
    static const struct argp argp = {options,  take, words, does,
                                     children, NULL, NULL};
    struct cli__air_request r = {.common = {0}};
    char *block = joined(argv, argc, '\0'), **args = listed(block, argc);
    int code = args == NULL ? CLI__DONE : cli__parse(&argp, argc, args, &r);

    /* argp has put the words behind the options */
    if (args != NULL && code == CLI__DONE)
        r.words = joined(args + argc - r.word_count, r.word_count, ' ');
    if (code == CLI__DONE)
        code =
            r.words != NULL ? cut(&r) : cli__fail(CLI__FAILED, "out of memory");
    if (code == CLI__DONE)
        code = answer(&r);
    free(r.words);
    free(block);
    free(args);
    return code;
}
