/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/load.h"

#include <stdlib.h>

enum { ROOM = 320 }; /* a hundred of the scenario, fifty of each file, more */

int cli__open(struct dew_run **run, const char *path, const struct cli__cli *c,
              enum dew_run_job job, unsigned with)
{
    const struct cli__text read = {.name = path};

    return cli__open_text(run, &read, c, job, with);
}

int cli__open_text(struct dew_run **run, const struct cli__text *from,
                   const struct cli__cli *c, enum dew_run_job job,
                   unsigned with)
{
    struct dew_faults faults = {calloc(ROOM, sizeof *faults.list), ROOM, 0};
    const struct dew_run_ask ask = {.name = from->name,
                                    .text = from->text,
                                    .length = from->length,
                                    .sets = c->sets,
                                    .set_count = c->set_count,
                                    .options = c->options,
                                    .option_count = c->option_count,
                                    .job = job,
                                    .with = with,
                                    .files = from->files,
                                    .kept =
                                        c->kept.get != NULL ? &c->kept : NULL};
    int code = CLI__DONE;

    *run = NULL;
    if (faults.list == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    if (dew_run_open(run, &ask, &faults) != DEW_OK)
        code = cli__faults(&faults);
    free(faults.list);
    return code;
}

error_t cli__one(int key, char *word, struct argp_state *state,
                 const char **path)
{
    switch (key) {
    case ARGP_KEY_ARG:
        if (*path != NULL)
            cli__usage(state, "one scenario at a time");
        *path = word;
        return 0;
    case ARGP_KEY_NO_ARGS:
        cli__usage(state, "name a scenario file");
        return 0;
    default:
        return ARGP_ERR_UNKNOWN;
    }
}
