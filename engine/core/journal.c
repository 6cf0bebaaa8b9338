/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/journal.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#define ZLIB_CONST
#include <zlib.h>

#include "core/fail.h"
#include "core/part.h"

/* In front of the bytes of a record, which the sum goes over with length. */
struct head {
    char mark[4];
    uint32_t length, sum;
};

static const char MARK[4] = {'d', 'e', 'w', 'j'};

static uint32_t sum_of(const char *bytes, uint32_t length)
{
    uLong sum = crc32(0, (const Bytef *)&length, sizeof length);

    return (uint32_t)crc32(sum, (const Bytef *)bytes, length);
}

static enum dew_status trouble(const char *what, struct dew_error *err)
{
    return core__fail(err, DEW_EIO, "could not be %s: %s", what,
                      strerror(errno));
}

/* Bytes read, fewer at the end of the file; -1 and errno. */
static ssize_t get(int file, off_t at, char *bytes, size_t length)
{
    size_t got = 0;

    while (got < length) {
        ssize_t n = pread(file, bytes + got, length - got, at + (off_t)got);

        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return -1;
        if (n == 0)
            break;
        got += (size_t)n;
    }
    return (ssize_t)got;
}

enum dew_status core__journal_get(int file, off_t at, char *bytes,
                                  size_t length, struct dew_error *err)
{
    ssize_t n = get(file, at, bytes, length);

    if (n < 0)
        return trouble("read", err);
    return (size_t)n == length ? DEW_OK
                               : core__fail(err, DEW_EIO, "has become shorter");
}

/* ---- reading ----------------------------------------------------------------- */

struct reader {
    int file;
    char *bytes; /* of the record at hand                                    */
    size_t room;
};

static int make_room(struct reader *r, size_t length)
{
    char *more;

    if (length <= r->room)
        return 1;
    more = realloc(r->bytes, length);
    if (more == NULL)
        return 0;
    r->bytes = more;
    r->room = length;
    return 1;
}

/* The record at at; *whole is 0 where there is none. */
static enum dew_status next(struct reader *r, off_t at, struct head *h,
                            int *whole, struct dew_error *err)
{
    ssize_t n = get(r->file, at, (char *)h, sizeof *h);

    *whole = 0;
    if (n < 0)
        return trouble("read", err);
    if ((size_t)n < sizeof *h || memcmp(h->mark, MARK, sizeof MARK) != 0 ||
        h->length > CORE__RECORD_MOST)
        return DEW_OK;
    if (!make_room(r, h->length))
        return core__fail(err, DEW_EMEM, "no memory for a record");
    n = get(r->file, at + (off_t)sizeof *h, r->bytes, h->length);
    if (n < 0)
        return trouble("read", err);
    *whole = (size_t)n == h->length && sum_of(r->bytes, h->length) == h->sum;
    return DEW_OK;
}

enum dew_status core__journal_read(int file, core__record_seen *seen, void *of,
                                   off_t *end, struct dew_error *err)
{
    struct reader r = {file, NULL, 0};
    struct head h;
    enum dew_status status;
    int whole, enough = 0;

    *end = 0;
    while ((status = next(&r, *end, &h, &whole, err)) == DEW_OK && whole &&
           !enough) {
        off_t at = *end + (off_t)sizeof h;

        if (seen != NULL)
            enough = seen(of, r.bytes, h.length, at);
        *end = at + (off_t)h.length;
    }
    free(r.bytes);
    return status;
}

/* ---- writing ----------------------------------------------------------------- */

enum dew_status core__journal_open(struct core__journal *journal, int folder,
                                   const char *name, struct dew_error *err)
{
    enum dew_status status;

    journal->file =
        openat(folder, name, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0666);
    if (journal->file < 0)
        return trouble("opened", err);
    status = core__journal_read(journal->file, NULL, NULL, &journal->end, err);
    /* of an empty one not even the name need be on the disk yet */
    if (status == DEW_OK && journal->end == 0 && core__folder_sync(folder) != 0)
        status = trouble("written", err);
    if (status == DEW_OK && ftruncate(journal->file, journal->end) != 0)
        status = trouble("written", err);
    if (status != DEW_OK)
        core__journal_close(journal);
    return status;
}

void core__journal_close(struct core__journal *journal)
{
    if (journal->file >= 0)
        close(journal->file);
    journal->file = -1;
}

static int put(const struct core__journal *j, off_t at, const char *bytes,
               size_t length)
{
    for (size_t put = 0; put < length;) {
        ssize_t n = pwrite(j->file, bytes + put, length - put, at + (off_t)put);

        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return 0;
        put += (size_t)n;
    }
    return 1;
}

enum dew_status core__journal_add(struct core__journal *journal,
                                  const char *bytes, size_t length,
                                  struct dew_error *err)
{
    struct head h = {.length = (uint32_t)length};
    off_t at = journal->end + (off_t)sizeof h;
    enum dew_status status;

    if (length > CORE__RECORD_MOST)
        return core__fail(err, DEW_ERANGE, "a record of %zu bytes", length);
    memcpy(h.mark, MARK, sizeof MARK);
    h.sum = sum_of(bytes, h.length);
    if (put(journal, journal->end, (const char *)&h, sizeof h) &&
        put(journal, at, bytes, length) && fsync(journal->file) == 0) {
        journal->end = at + (off_t)length;
        return DEW_OK;
    }
    status = trouble("written", err);
    /* where even that fails, the torn record is cut off by the next reader */
    (void)!ftruncate(journal->file, journal->end);
    return status;
}
