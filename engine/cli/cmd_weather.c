/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger weather: files of weather, and what is in them. */
#include <math.h>
#include <string.h>

#include "cli/weather.h"

const struct cli__command cli__weathers[CLI__WEATHERS] = {
#define X(name, does) {#name, cli__weather_##name, does},
    CLI__WEATHER_MAP(X)
#undef X
};

enum dew_system cli__weather_system(const struct cli__cli *common)
{
    return common->units == 2 ? DEW_SYSTEM_SI : DEW_SYSTEM_US;
}

void cli__weather_word(char *words, size_t size, const char *word)
{
    size_t used = strlen(words);

    snprintf(words + used, size - used, "%s%s", used > 0 ? " " : "", word);
}

struct cli__weather_spread cli__weather_spread(const double *first,
                                               size_t stride, int count)
{
    struct cli__weather_spread s = {INFINITY, 0.0, -INFINITY};

    for (int i = 0; i < count; i++, first += stride) {
        s.low = fmin(s.low, *first);
        s.high = fmax(s.high, *first);
        s.mean += *first / count;
    }
    return s;
}

static void help(FILE *to)
{
    fputs("usage: dewledger weather WORD [NAME...] [--OPTION...]\n\n", to);
    for (size_t i = 0; i < CLI__WEATHERS; i++)
        fprintf(to, "  %-9s %s\n", cli__weathers[i].name,
                cli__weathers[i].does);
    fputs("\ndewledger weather WORD --help says more of one.\n", to);
}

int cli__cmd_weather(int argc, char **argv)
{
    const char *names[CLI__WEATHERS], *near;
    char name[48];

    if (argc < 2) {
        help(stderr);
        return CLI__BAD_USAGE;
    }
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-?") == 0) {
        help(stdout);
        return CLI__DONE;
    }
    for (size_t i = 0; i < CLI__WEATHERS; i++) {
        names[i] = cli__weathers[i].name;
        if (strcmp(argv[1], cli__weathers[i].name) != 0)
            continue;
        snprintf(name, sizeof name, "dewledger weather %s",
                 cli__weathers[i].name);
        argv[1] = name;
        return cli__weathers[i].run(argc - 1, argv + 1);
    }
    near = cli__nearest(argv[1], names, CLI__WEATHERS);
    return cli__fail(CLI__BAD_USAGE, "weather: no word %s; %s%s", argv[1],
                     near != NULL ? "nearest is " : "see ",
                     near != NULL ? near : "dewledger weather --help");
}
