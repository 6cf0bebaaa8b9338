/* SPDX-License-Identifier: GPL-3.0-or-later */
/* wasi-libc's, and what port.c adds. */
#ifndef DEW_PAGE_PORT_UNISTD_H
#define DEW_PAGE_PORT_UNISTD_H

#include_next <unistd.h>

int dup(int file);

#endif
