/* SPDX-License-Identifier: GPL-3.0-or-later */
/* glibc's argp, which wasi-libc has not: gnulib's copy, after its settings. */
#ifndef DEW_PAGE_PORT_ARGP_H
#define DEW_PAGE_PORT_ARGP_H

#include "config.h"
#include "gnulib/argp.h"

#endif
