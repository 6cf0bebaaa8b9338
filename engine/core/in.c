/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/in.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>
#define ZLIB_CONST
#include <zlib.h>

#include "core/fail.h"

_Static_assert(CORE__IN_WAIT == 5, "as the message says");

static int comes(int pipe)
{
    struct pollfd p = {.fd = pipe, .events = POLLIN};

    return poll(&p, 1, 1000 * CORE__IN_WAIT) == 1;
}

/* NULL: fit to be read. */
static const char *refusal(int file, enum core__in_how how)
{
    struct stat s;

    errno = 0;
    if (fstat(file, &s) != 0)
        return strerror(errno);
    if (S_ISREG(s.st_mode) || S_ISDIR(s.st_mode)) /* reading tells of that */
        return NULL;
    if (how == CORE__IN_FILE)
        return "a pipe or a device, and it is read more than once: write it "
               "to a file first";
    if (S_ISFIFO(s.st_mode) && !comes(file))
        return "a pipe, and nothing came out of it in 5 s";
    return NULL;
}

int core__in_open(const char *path, enum core__in_how how, const char **why)
{
    int file = open(path, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);

    if (file < 0) {
        *why = strerror(errno);
        return -1;
    }
    *why = refusal(file, how);
    if (*why == NULL && fcntl(file, F_SETFL, O_RDONLY) == 0)
        return file;
    if (*why == NULL)
        *why = strerror(errno);
    close(file);
    return -1;
}

/* ---- a whole file ---------------------------------------------------------- */

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

static size_t size_of(int file)
{
    struct stat s;

    return fstat(file, &s) == 0 && s.st_size > 0 ? (size_t)s.st_size : 1 << 16;
}

static enum dew_status read_all(int file, size_t most, char **bytes,
                                size_t *length, struct dew_error *err)
{
    size_t room = least(size_of(file) + 1, most);
    char *text = malloc(room), *more = text;
    ssize_t got = 1;

    for (*length = 0; more != NULL && got > 0; *length += (size_t)got) {
        if (*length == room) {
            room = least(2 * room, most);
            more = realloc(text, room);
            text = more != NULL ? more : text;
        }
        got = more == NULL ? 0 : read(file, text + *length, room - *length);
        if (got < 0)
            break;
    }
    *bytes = text;
    if (more != NULL && got >= 0)
        return DEW_OK;
    free(text);
    *bytes = NULL;
    return more == NULL ? core__fail(err, DEW_EMEM, "no memory to read it")
                        : core__fail(err, DEW_EIO, "cannot be read: %s",
                                     strerror(errno));
}

enum dew_status core__in_read(const char *path, enum core__in_how how,
                              size_t most, char **bytes, size_t *length,
                              struct dew_error *err)
{
    int table = how == CORE__IN_FILE; /* its messages have a place */
    const char *why = NULL;
    enum dew_status status;
    int file = !table && strcmp(path, "-") == 0
                   ? dup(STDIN_FILENO)
                   : core__in_open(path, how, &why);

    core__at(err, path, 0, 0);
    if (file < 0)
        return core__fail(err, DEW_EIO, "%s%s",
                          table ? "cannot be opened: " : "",
                          why != NULL ? why : strerror(errno));
    core__at(err, path, table, table);
    status = read_all(file, most, bytes, length, err);
    close(file);
    return status;
}

/* ---- gzipped ----------------------------------------------------------------- */

int core__in_packed(const char *bytes, size_t length)
{
    return length >= 2 && memcmp(bytes, "\x1f\x8b", 2) == 0;
}

/* Behind one gzipped part another may stand; anything else is left. */
static int part_follows(z_stream *z, size_t left)
{
    return core__in_packed((const char *)z->next_in, left) &&
           inflateReset(z) == Z_OK;
}

/* How many bytes were given; *code as of zlib. */
static size_t inflate_all(z_stream *z, size_t left, size_t most, char **text,
                          int *code)
{
    size_t given = 0, room = 0;

    for (*code = Z_OK; *code == Z_OK && given < most;) {
        uInt in = (uInt)least(left, 1 << 30), out;

        if (given == room) {
            char *more = realloc(*text, least(room += room + (1 << 17), most));

            if (more == NULL)
                *code = Z_MEM_ERROR;
            *text = more != NULL ? more : *text;
            continue;
        }
        out = (uInt)least(least(room, most) - given, 1 << 30);
        z->avail_in = in;
        z->avail_out = out;
        z->next_out = (Bytef *)(*text + given);
        *code = inflate(z, Z_NO_FLUSH);
        left -= in - z->avail_in;
        given += out - z->avail_out;
        if (*code == Z_STREAM_END && part_follows(z, left))
            *code = Z_OK;
    }
    return given;
}

enum dew_status core__in_unpack(const char *bytes, size_t *length, size_t most,
                                char **text, struct dew_error *err)
{
    enum { GZIP = 16 + MAX_WBITS };
    z_stream z = {.next_in = (const Bytef *)bytes};
    int code = inflateInit2(&z, GZIP);

    *text = NULL;
    if (code == Z_OK)
        *length = inflate_all(&z, *length, most, text, &code);
    inflateEnd(&z);
    if (code == Z_OK || code == Z_STREAM_END)
        return DEW_OK;
    free(*text);
    *text = NULL;
    return code == Z_MEM_ERROR
               ? core__fail(err, DEW_EMEM, "no memory to unpack it")
               : core__fail(err, DEW_EIO,
                            "the compressed data are damaged or end early");
}
