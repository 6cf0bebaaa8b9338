/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bytes of a fuzz target as a file, for readers that take a path. */
#ifndef DEW_FUZZ_BYTES_H
#define DEW_FUZZ_BYTES_H

#include <stdint.h>
#include <stdlib.h>
#include <sys/types.h>
#include <unistd.h>

#define FUZZ_PATH "/tmp/dew-fuzz-XXXXXX"

/* Write them to a new file; path begins as FUZZ_PATH and becomes its name,
   which the caller unlinks.  Returns 0 when no file could be made. */
static int bytes_to_file(const uint8_t *data, size_t size,
                         char path[sizeof FUZZ_PATH])
{
    int fd = mkstemp(path);

    if (fd < 0)
        return 0;
    if (write(fd, data, size) != (ssize_t)size)
        abort();
    close(fd);
    return 1;
}

#endif
