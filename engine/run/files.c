/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files in memory: by the caller's own reader, or opened here. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "core/fail.h"
#include "core/in.h"
#include "run/run.h"

/* Beside the scenario first, else in the working directory. */
static int beside(const char *scenario, const char *file, char *out)
{
    const char *slash = strrchr(scenario, '/');
    int folder =
        slash != NULL && file[0] != '/' ? (int)(slash + 1 - scenario) : 0;
    int length = snprintf(out, RUN__PATH, "%.*s%s", folder, scenario, file);

    if (length >= RUN__PATH)
        return 0;
    if (access(out, R_OK) != 0)
        length = snprintf(out, RUN__PATH, "%s", file);
    return length < RUN__PATH;
}

enum dew_status run__find_beside(const char *scenario, const char *name,
                                 char out[RUN__PATH], struct dew_error *err)
{
    if (!beside(scenario, name, out))
        return core__fail(err, DEW_ERANGE, "too long a path");
    if (access(out, R_OK) != 0)
        return core__fail(err, DEW_EUNKNOWN,
                          "%s: %s (looked for beside the scenario, then where "
                          "the command was given)",
                          name, strerror(errno));
    return DEW_OK;
}

enum dew_status run__beside(const char *scenario, const char *name, size_t most,
                            struct run__file *out, struct dew_error *err)
{
    struct dew_error found = {0}; /* the file itself is at fault then */

    if (run__find_beside(scenario, name, out->name, err) != DEW_OK)
        return err->status;
    if (core__in_read(out->name, CORE__IN_FILE, most, &out->bytes, &out->length,
                      &found) != DEW_OK)
        *err = found;
    return err->status;
}

static enum dew_status open_here(const struct dew_run *r, const char *name,
                                 struct run__file *out, struct dew_error *err)
{
    return run__beside(r->ask->name, name, (size_t)1 << 31, out, err);
}

static enum dew_status by_caller(const struct dew_run *r, const char *name,
                                 struct run__file *out, struct dew_error *err)
{
    const struct dew_files *files = r->ask->files;

    if (snprintf(out->name, sizeof out->name, "%s", name) >= RUN__PATH)
        return core__fail(err, DEW_ERANGE, "too long a name");
    err->status = files->read(files->of, name, &out->bytes, &out->length, err);
    if (err->status == DEW_OK && out->bytes == NULL && out->length > 0)
        err->status = DEW_EIO;
    if (err->status != DEW_OK && err->text[0] == '\0')
        snprintf(err->text, sizeof err->text, "%.200s: %s", name,
                 dew_status_text(err->status));
    return err->status;
}

enum dew_status run__file(struct dew_run *r, const char *key, const char *name,
                          char hash[DEW_SHA256_TEXT], struct run__file *out)
{
    struct dew_error err = {0};

    out->bytes = NULL;
    out->length = 0;
    run__about(r, key, &err);
    if ((r->ask->files != NULL ? by_caller : open_here)(r, name, out, &err) !=
        DEW_OK)
        return run__fault(r, &err);
    dew_report_sha256(out->bytes, out->length, hash);
    return DEW_OK;
}

enum dew_status run__unpack(char **bytes, size_t *length, struct dew_error *err)
{
    char *packed = *bytes;
    enum dew_status status = DEW_OK;

    if (core__in_packed(packed, *length)) {
        status = core__in_unpack(packed, length, RUN__TEXT + 1, bytes, err);
        free(packed);
    }
    return status;
}

enum dew_status run__text(const char *name, char **text, size_t *length,
                          struct dew_error *err)
{
    enum dew_status status =
        core__in_read(name, CORE__IN_ONCE, RUN__TEXT + 1, text, length, err);

    return status == DEW_OK ? run__unpack(text, length, err) : status;
}
