/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the engine or a library calls and wasi-libc has not. */
#include <errno.h>
#include <unistd.h>

/* Asked for standard input alone: a module is given none. */
int dup(int file)
{
    (void)file;
    errno = ENOTSUP;
    return -1;
}
