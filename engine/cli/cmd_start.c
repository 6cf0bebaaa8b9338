/* SPDX-License-Identifier: GPL-3.0-or-later */
/* `start`: a commented scenario that runs unedited, from the key table. */
#include <string.h>

#include "cli/cli.h"
#include "core/out.h"
#include "dew/scenario.h"

enum { KEY_ALL = 'a', KEY_OUT = 'o' };

struct start {
    const char *out;
    int all;
};

static error_t take(int key, char *word, struct argp_state *state)
{
    struct start *s = state->input;

    switch (key) {
    case KEY_ALL:
        s->all = 1;
        return 0;
    case KEY_OUT:
        s->out = word;
        return 0;
    case ARGP_KEY_ARG:
        cli__usage(state, "%s: start takes no word; --out FILE says where",
                   word);
        return 0;
    default:
        return ARGP_ERR_UNKNOWN;
    }
}

/* Words in comments, 76 columns. */
static void comment(FILE *to, int indent, const char *text)
{
    enum { WIDTH = 76 };
    int used = 0;

    while (*text != '\0') {
        int n = (int)strcspn(text, " ");

        if (used == 0 || used + 1 + n > WIDTH) {
            fprintf(to, "%s%*s#", used == 0 ? "" : "\n", indent, "");
            used = indent + 1;
        }
        fprintf(to, " %.*s", n, text);
        used += 1 + n;
        text += n + (text[n] == ' ');
    }
    fputc('\n', to);
}

/* Asked for though nothing stands for them: a figure would be an answer. */
static int is_asked(const struct dew_field *f)
{
    static const char *const asked[] = {"ducts.place", "ducts.leak_return",
                                        "ducts.leak_supply"};

    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++)
        if (strcmp(f->path, asked[i]) == 0)
            return 1;
    return 0;
}

static int is_written(const struct dew_field *f)
{
    return f->start != NULL || is_asked(f);
}

static void write_key(FILE *to, const struct dew_field *f)
{
    const char *dot = strchr(f->path, '.');
    int indent = dot != NULL ? 2 : 0;
    const char *name = dot != NULL ? dot + 1 : f->path;

    comment(to, indent, f->help);
    if (f->start != NULL)
        fprintf(to, "%*s%s: %s\n", indent, "", name, f->start);
    else if (f->preset[0] == '=' || f->preset[0] == '\0')
        fprintf(to, "%*s# %s:  (%s)\n", indent, "", name,
                f->preset[0] ? f->preset + 1 : "none");
    else
        fprintf(to, "%*s# %s: %s\n", indent, "", name, f->preset);
}

/* Does the group hold a key that is written? */
static int has_written(const char *group, size_t n)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);

    for (size_t i = 0; i < count; i++)
        if (strncmp(f[i].path, group, n + 1) == 0 && is_written(&f[i]))
            return 1;
    return 0;
}

static void write_keys(FILE *to, int all)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);
    char group[40], last[40] = "";

    for (size_t i = 0; i < count; i++) {
        size_t n = strcspn(f[i].path, ".");
        int grouped = f[i].path[n] == '.';
        int written = grouped ? has_written(f[i].path, n) : is_written(&f[i]);

        if (!all && !written)
            continue;
        snprintf(group, sizeof group, "%.*s", (int)n, f[i].path);
        if (grouped && strcmp(group, last) != 0) {
            fputc('\n', to);
            comment(to, 0, dew_scenario_group(group));
            fprintf(to, "%s:\n", group);
        }
        snprintf(last, sizeof last, "%s", group);
        if (all || is_written(&f[i]))
            write_key(to, &f[i]);
    }
}

static void write_all(FILE *to, int all)
{
    comment(to, 0,
            "A scenario for dewledger.  House, people and prices are made up: "
            "put your own in their place.  `dewledger check FILE` says every "
            "fault, `dewledger explain KEY` what a key means, `dewledger start "
            "--all` lists every key there is.");
    fputc('\n', to);
    write_keys(to, all);
    fputs("\n"
          "# What is weighed: each option says only what it changes.  A "
          "ventilator\n"
          "# without a flow brings what the rule asks for of this floor and "
          "its bedrooms.\n"
          "options:\n"
          "  - name: as it stands\n"
          "\n"
          "  - name: enthalpy core, own ducts\n"
          "    ventilator:\n"
          "      core: enthalpy_plate\n"
          "      sensible: 74 % at 95 cfm\n"
          "      moisture: 52 % at 95 cfm\n"
          "      power: 58 W\n"
          "    costs: {install: 5200 $ (3800 to 7500), upkeep: 60 $}\n"
          "\n"
          "  - name: exhaust fan and dehumidifier\n"
          "    ventilator: {core: exhaust_only, power: 18 W}\n"
          "    dehumidifier: {rate: 50 pint/day, rating: portable_65F, set: 52 "
          "%}\n"
          "    costs: {install: 900 $ (500 to 1600), upkeep: 20 $}\n",
          to);
}

/* Never over a file that is there. */
static int write_file(const struct start *s)
{
    struct dew_error err = {0};
    struct core__out out;

    if (core__out_open(&out, s->out, CORE__OUT_NEW, &err) == DEW_OK) {
        write_all(out.file, s->all);
        core__out_close(&out, &err);
    }
    return err.status == DEW_OK ? CLI__DONE : cli__error(&err);
}

int cli__cmd_start(int argc, char **argv)
{
    static const struct argp_option options[] = {
        {"all", KEY_ALL, NULL, 0, "every key, the defaults as comments", 0},
        {"out", KEY_OUT, "FILE", 0, "write it there; never over a file", 0},
        {0},
    };
    static const struct argp argp = {
        .options = options,
        .parser = take,
        .doc = "Write a commented scenario that runs as it is."};
    struct start s = {0};
    int code = cli__parse(&argp, argc, argv, &s);

    if (code != CLI__DONE)
        return code;
    if (s.out != NULL)
        return write_file(&s);
    write_all(stdout, s.all);
    return CLI__DONE;
}
