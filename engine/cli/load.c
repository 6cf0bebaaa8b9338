/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/load.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#include <zlib.h>

#include "core/in.h"

enum { ROOM = 100, MOST = 1 << 20 };

static gzFile open_any(const char *path, const char **why)
{
    int file = strcmp(path, "-") == 0 ? dup(STDIN_FILENO)
                                      : dew__in_open(path, DEW__IN_ONCE, why);
    gzFile gz = file >= 0 ? gzdopen(file, "rb") : NULL;

    if (file >= 0 && gz == NULL) {
        *why = strerror(ENOMEM);
        close(file);
    }
    return gz;
}

/* One byte more than is allowed, so that too long is seen. */
char *dew__cli_text(const char *path, size_t *length)
{
    char *text = malloc(MOST + 2);
    const char *why = strerror(ENOMEM);
    gzFile file = text != NULL ? open_any(path, &why) : NULL;
    int got;

    errno = 0;
    if (file == NULL) {
        dew__cli_fail(DEW__BAD_INPUT, "%s: %s", path, why);
        free(text);
        return NULL;
    }
    got = gzread(file, text, MOST + 1);
    if (got < 0 || gzclose(file) != Z_OK) {
        dew__cli_fail(DEW__BAD_INPUT, "%s: cannot be read%s%s", path,
                      errno ? ": " : "", errno ? strerror(errno) : "");
        free(text);
        return NULL;
    }
    *length = (size_t)got;
    return text;
}

/* The groups of the keys at fault. */
static void name_groups(const struct dew_faults *faults, char *groups,
                        size_t size)
{
    size_t used = 0;

    groups[0] = '\0';
    for (size_t i = 0; i < faults->count && i < faults->room; i++) {
        const char *path = faults->list[i].path;

        if (used + 1 < size)
            used += (size_t)snprintf(groups + used, size - used, "%.*s,",
                                     (int)strcspn(path, "."), path);
    }
}

typedef enum dew_status opener(struct dew_scenario **scenario,
                               const struct dew_scenario_source *from,
                               struct dew_faults *faults);

static int open_by(opener *opens, const char *path,
                   const struct dew__cli *common, struct dew_scenario **s,
                   struct dew_faults *faults)
{
    struct dew_scenario_source from = {
        .name = path, .sets = common->sets, .set_count = common->set_count};
    char *text = dew__cli_text(path, &from.length);
    enum dew_status status;

    *s = NULL;
    if (text == NULL)
        return DEW__BAD_INPUT;
    from.text = text;
    status = opens(s, &from, faults);
    free(text);
    return status == DEW_OK ? DEW__DONE : dew__cli_faults(faults);
}

int dew__cli_scenario(const char *path, const struct dew__cli *common,
                      struct dew_scenario **s)
{
    struct dew_error list[ROOM] = {{0}};
    struct dew_faults faults = {list, ROOM, 0};

    return open_by(dew_scenario_open, path, common, s, &faults);
}

int dew__cli_look(const char *path, const struct dew__cli *common,
                  struct dew_scenario **s, char *groups, size_t size)
{
    struct dew_error list[ROOM] = {{0}};
    struct dew_faults faults = {list, ROOM, 0};
    int code = open_by(dew_scenario_look, path, common, s, &faults);

    name_groups(&faults, groups, size);
    return code;
}

static int no_option(const struct dew_scenario *s, const char *name)
{
    char names[400] = "";
    size_t used = 0, count = dew_scenario_count(s);

    for (size_t i = 0; i < count && used < sizeof names; i++)
        used += (size_t)snprintf(names + used, sizeof names - used, "%s\"%s\"",
                                 i > 0 ? ", " : "", dew_scenario_name(s, i));
    return dew__cli_fail(DEW__BAD_INPUT,
                         "--option %s: the scenario has no option of that "
                         "name; it has %s",
                         name, names);
}

int dew__cli_picks(const struct dew__cli *common, const struct dew_scenario *s,
                   unsigned char *picked)
{
    size_t count = dew_scenario_count(s);

    memset(picked, common->option_count == 0, count);
    for (size_t i = 0; i < common->option_count; i++) {
        size_t k = dew_scenario_find(s, common->options[i]);

        if (k == count)
            return no_option(s, common->options[i]);
        picked[k] = 1;
    }
    return DEW__DONE;
}

int dew__cli_chosen(const struct dew__cli *common, const struct dew_scenario *s,
                    size_t *which, size_t most, size_t *count)
{
    size_t all = dew_scenario_count(s), n = 0;
    unsigned char *picked = calloc(all, 1);
    int code;

    if (picked == NULL)
        return dew__cli_fail(DEW__FAILED, "out of memory");
    code = dew__cli_picks(common, s, picked);
    for (size_t i = 0; code == DEW__DONE && i < all; i++) {
        if (picked[i] && n == most)
            code = dew__cli_fail(DEW__BAD_INPUT,
                                 "more than %zu options: pick some by --option",
                                 most);
        else if (picked[i])
            which[n++] = i;
    }
    free(picked);
    *count = n;
    return code;
}

error_t dew__cli_one(int key, char *word, struct argp_state *state,
                     const char **path)
{
    switch (key) {
    case ARGP_KEY_ARG:
        if (*path != NULL)
            dew__cli_usage(state, "one scenario at a time");
        *path = word;
        return 0;
    case ARGP_KEY_NO_ARGS:
        dew__cli_usage(state, "name a scenario file");
        return 0;
    default:
        return ARGP_ERR_UNKNOWN;
    }
}

int dew__cli_system(const struct dew__cli *common, const struct dew_scenario *s)
{
    return common->units ? common->units : dew_scenario_system(s);
}
