/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/in.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/fail.h"

_Static_assert(DEW__IN_WAIT == 5, "as the message says");

static int comes(int pipe)
{
    struct pollfd p = {.fd = pipe, .events = POLLIN};

    return poll(&p, 1, 1000 * DEW__IN_WAIT) == 1;
}

/* NULL: fit to be read. */
static const char *refusal(int file, enum dew__in_how how)
{
    struct stat s;

    errno = 0;
    if (fstat(file, &s) != 0)
        return strerror(errno);
    if (S_ISREG(s.st_mode) || S_ISDIR(s.st_mode)) /* reading tells of that */
        return NULL;
    if (how == DEW__IN_FILE)
        return "a pipe or a device, and it is read more than once: write it "
               "to a file first";
    if (S_ISFIFO(s.st_mode) && !comes(file))
        return "a pipe, and nothing came out of it in 5 s";
    return NULL;
}

int dew__in_open(const char *path, enum dew__in_how how, const char **why)
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
    return more == NULL
               ? dew__fail(err, DEW_EMEM, "no memory to read it")
               : dew__fail(err, DEW_EIO, "cannot be read: %s", strerror(errno));
}

enum dew_status dew__in_read(const char *path, enum dew__in_how how,
                             size_t most, char **bytes, size_t *length,
                             struct dew_error *err)
{
    int table = how == DEW__IN_FILE; /* its messages have a place */
    const char *why = NULL;
    enum dew_status status;
    int file = !table && strcmp(path, "-") == 0 ? dup(STDIN_FILENO)
                                                : dew__in_open(path, how, &why);

    dew__at(err, path, 0, 0);
    if (file < 0)
        return dew__fail(err, DEW_EIO, "%s%s",
                         table ? "cannot be opened: " : "",
                         why != NULL ? why : strerror(errno));
    dew__at(err, path, table, table);
    status = read_all(file, most, bytes, length, err);
    close(file);
    return status;
}

/* ---- gzipped or not -------------------------------------------------------- */

static const unsigned char magic[2] = {0x1f, 0x8b};

static int is_packed(const void *bytes, size_t length)
{
    return length >= sizeof magic && memcmp(bytes, magic, sizeof magic) == 0;
}

int dew__unpack_open(struct dew__unpack *u, const char *bytes, size_t length)
{
    enum { GZIP = 16 + MAX_WBITS };

    *u = (struct dew__unpack){
        .bytes = bytes, .length = length, .packed = is_packed(bytes, length)};
    return !u->packed || inflateInit2(&u->z, GZIP) == Z_OK;
}

/* Behind one gzipped part another may stand; anything else is left. */
static int part_follows(struct dew__unpack *u)
{
    return is_packed(u->bytes + u->used, u->length - u->used) &&
           inflateReset(&u->z) == Z_OK;
}

long dew__unpack_next(struct dew__unpack *u, char *into, size_t room)
{
    size_t given = 0;
    int code = Z_OK;

    if (!u->packed) {
        given = least(room, u->length - u->used);
        if (given > 0)
            memcpy(into, u->bytes + u->used, given);
        u->used += given;
        return (long)given;
    }
    while (given < room && code == Z_OK) {
        uInt in = (uInt)least(u->length - u->used, 1 << 30);
        uInt out = (uInt)least(room - given, 1 << 30);

        u->z.next_in = (const Bytef *)(u->bytes + u->used);
        u->z.next_out = (Bytef *)(into + given);
        u->z.avail_in = in;
        u->z.avail_out = out;
        code = inflate(&u->z, Z_NO_FLUSH);
        u->used += in - u->z.avail_in;
        given += out - u->z.avail_out;
        if (code == Z_STREAM_END && part_follows(u))
            code = Z_OK;
    }
    return code == Z_OK || code == Z_STREAM_END ? (long)given : -1;
}

void dew__unpack_close(struct dew__unpack *u)
{
    if (u->packed)
        inflateEnd(&u->z);
    u->packed = 0;
}

enum dew_status dew__in_text(char **bytes, size_t *length, size_t most,
                             struct dew_error *err)
{
    struct dew__unpack u;
    int opened = dew__unpack_open(&u, *bytes, *length);
    char *text = opened ? malloc(most + 1) : NULL;
    long got = text != NULL ? dew__unpack_next(&u, text, most + 1) : 0;

    dew__unpack_close(&u);
    free(*bytes);
    *bytes = NULL;
    if (text == NULL)
        return dew__fail(err, DEW_EMEM, "%s", strerror(ENOMEM));
    if (got < 0) {
        free(text);
        return dew__fail(err, DEW_EIO, "cannot be read");
    }
    *bytes = text;
    *length = (size_t)got;
    return DEW_OK;
}
