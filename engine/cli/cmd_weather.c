/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger weather: files of weather, and what is in them. */
#include <string.h>

#include "cli/weather.h"

const struct dew__command dew__weathers[DEW__WEATHERS] = {
#define X(name, does) {#name, dew__weather_##name, does},
    DEW__WEATHER_MAP(X)
#undef X
};

int dew__weather_system(const struct dew__cli *common)
{
    return common->units == 2 ? 2 : 1;
}

static void help(FILE *to)
{
    fputs("usage: dewledger weather WORD [NAME...] [--OPTION...]\n\n", to);
    for (size_t i = 0; i < DEW__WEATHERS; i++)
        fprintf(to, "  %-9s %s\n", dew__weathers[i].name,
                dew__weathers[i].does);
    fputs("\ndewledger weather WORD --help says more of one.\n", to);
}

int dew__cmd_weather(int argc, char **argv)
{
    const char *names[DEW__WEATHERS], *near;
    char name[48];

    if (argc < 2) {
        help(stderr);
        return DEW__BAD_USAGE;
    }
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-?") == 0) {
        help(stdout);
        return DEW__DONE;
    }
    for (size_t i = 0; i < DEW__WEATHERS; i++) {
        names[i] = dew__weathers[i].name;
        if (strcmp(argv[1], dew__weathers[i].name) != 0)
            continue;
        snprintf(name, sizeof name, "dewledger weather %s",
                 dew__weathers[i].name);
        argv[1] = name;
        return dew__weathers[i].run(argc - 1, argv + 1);
    }
    near = dew__cli_nearest(argv[1], names, DEW__WEATHERS);
    return dew__cli_fail(DEW__BAD_USAGE, "weather: no word %s; %s%s", argv[1],
                         near != NULL ? "nearest is " : "see ",
                         near != NULL ? near : "dewledger weather --help");
}
