/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/made_options.h"

#include <stdlib.h>
#include <string.h>

enum { ROOM = 320, TEXT = 6000 };

static int open_it(struct dew_suggest **suggest, const char *path,
                   const struct cli__cli *c)
{
    struct dew_faults faults = {calloc(ROOM, sizeof *faults.list), ROOM, 0};
    const struct dew_run_ask from = {
        .name = path, .sets = c->sets, .set_count = c->set_count};
    int code = CLI__DONE;

    if (faults.list == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    if (dew_suggest_open(suggest, &from, &faults) != DEW_OK)
        code = cli__faults(&faults);
    free(faults.list);
    return code;
}

int cli__suggest(struct dew_suggest **suggest, const char *path,
                 const struct cli__cli *c)
{
    struct dew_error err = {0};
    int code = open_it(suggest, path, c);
    double done = 0;

    while (code == CLI__DONE && done < 1) {
        cli__progress(done, "trying options");
        if (dew_suggest_step(*suggest, &done, &err) != DEW_OK)
            code = cli__error(&err);
    }
    cli__progress(1, "trying options");
    return code;
}

static int is_out(const struct dew_suggest_option *o, int by_another)
{
    return !o->left && (o->by >= 0) == by_another;
}

/* Those left out by another, or for being past the ten; by name where full. */
static void say_left_out(FILE *out, const struct dew_suggest *suggest,
                         int by_another, int full)
{
    static const char *const why[] = {
        "were left out to keep ten",
        "were left out, for another is no worse in hours outside the limits, "
        "in fresh air and in cost"};
    size_t count, said = 0, used, named = 0;
    const struct dew_suggest_option *o = dew_suggest_options(suggest, &count);
    char text[TEXT];

    for (size_t i = 1; i < count; i++)
        said += (size_t)is_out(&o[i], by_another);
    if (said == 0)
        return;
    used = (size_t)snprintf(text, TEXT, "%zu %s%s", said, why[by_another],
                            full ? "" : " (--full names them)");
    for (size_t i = 1; i < count && full && used < TEXT; i++) {
        if (!is_out(&o[i], by_another))
            continue;
        used += (size_t)snprintf(text + used, TEXT - used, "%s \"%s\"",
                                 named++ > 0 ? "," : ":", o[i].name);
        if (by_another && used < TEXT)
            used += (size_t)snprintf(text + used, TEXT - used, " (for \"%s\")",
                                     o[o[i].by].name);
    }
    if (used < TEXT)
        snprintf(text + used, TEXT - used, ".");
    cli__wrap(out, 0, text);
}

void cli__suggest_say(FILE *out, const struct dew_suggest *suggest, int full)
{
    size_t count, left = 0;
    const struct dew_suggest_option *o = dew_suggest_options(suggest, &count);
    char text[500];

    for (size_t i = 0; i < count; i++)
        left += (size_t)o[i].left;
    snprintf(text, sizeof text,
             "These options were made for this house: %zu were tried, from the "
             "house as it stands to cores, dehumidifiers, controls and ties "
             "that suit it, at the fresh air asked for; %zu are left. Prices "
             "to install are our guess: put yours in their place. The text of "
             "the options, to paste and change: --suggest --yaml.",
             count, left);
    cli__wrap(out, 0, text);
    say_left_out(out, suggest, 1, full);
    say_left_out(out, suggest, 0, full);
}
