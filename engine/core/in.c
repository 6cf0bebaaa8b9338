/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/in.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

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
