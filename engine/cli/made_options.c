/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/made_options.h"

#include <stdlib.h>
#include <string.h>

enum { ROOM = 320, TEXT = 6000 };

static enum dew_status open_it(struct dew_suggest **suggest,
                               const struct cli__text *text,
                               const struct cli__cli *c, size_t draws,
                               struct dew_faults *faults)
{
    const struct dew_run_ask from = {.name = text->name,
                                     .text = text->text,
                                     .length = text->length,
                                     .sets = c->sets,
                                     .set_count = c->set_count};

    return dew_suggest_open(suggest, &from, draws, faults);
}

static int march(struct dew_suggest *suggest)
{
    struct dew_error err = {0};
    int code = CLI__DONE;
    double done = 0;

    while (code == CLI__DONE && done < 1) {
        cli__progress(done, "trying options");
        if (dew_suggest_step(suggest, &done, &err) != DEW_OK)
            code = cli__error(&err);
    }
    cli__progress(1, "trying options");
    return code;
}

int cli__suggest(struct dew_suggest **suggest, const struct cli__text *from,
                 const struct cli__cli *c, size_t draws)
{
    struct dew_faults faults = {calloc(ROOM, sizeof *faults.list), ROOM, 0};
    int code = CLI__DONE;

    if (faults.list == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    if (open_it(suggest, from, c, draws, &faults) != DEW_OK)
        code = cli__faults(&faults);
    free(faults.list);
    return code == CLI__DONE ? march(*suggest) : code;
}

int cli__suggest_unasked(struct dew_suggest **suggest,
                         const struct cli__text *from, const struct cli__cli *c,
                         size_t draws)
{
    struct dew_error list[1] = {{0}};
    struct dew_faults faults = {list, 1, 0};

    if (open_it(suggest, from, c, draws, &faults) != DEW_OK)
        return CLI__DONE;
    fputs("dewledger: note: the file has no options, so those usually tried "
          "are marched:\n"
          "  half a minute or so on two processors; --quick marches the house "
          "alone\n",
          stderr);
    return march(*suggest);
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
             "that suit it, at the fresh air asked for and, where "
             "another airflow keeps more such houses within the limits, at "
             "that one; %zu are left. Prices "
             "to install are our guess: put yours in their place. The text of "
             "the options, to paste and change: --suggest --yaml.",
             count, left);
    cli__wrap(out, 0, text);
    say_left_out(out, suggest, 1, full);
    say_left_out(out, suggest, 0, full);
}
