/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What their own configure scripts would find out for the libraries that come
   in as sources: GSL, libyaml, jansson, libmd and gnulib's argp and getopt. */
#ifndef DEW_PAGE_CONFIG_H
#define DEW_PAGE_CONFIG_H

#define HAVE_FCNTL_H     1
#define HAVE_INTTYPES_H  1
#define HAVE_MEMCPY      1
#define HAVE_MEMMOVE     1
#define HAVE_STDINT_H    1
#define HAVE_STDIO_H     1
#define HAVE_STDLIB_H    1
#define HAVE_STRDUP      1
#define HAVE_STRINGS_H   1
#define HAVE_STRING_H    1
#define HAVE_SYS_STAT_H  1
#define HAVE_SYS_TIME_H  1
#define HAVE_SYS_TYPES_H 1
#define HAVE_UNISTD_H    1

/* GSL: all of C99's mathematics is there */
#define HAVE_DECL_ACOSH       1
#define HAVE_DECL_ASINH       1
#define HAVE_DECL_ATANH       1
#define HAVE_DECL_EXPM1       1
#define HAVE_DECL_FREXP       1
#define HAVE_DECL_HYPOT       1
#define HAVE_DECL_ISFINITE    1
#define HAVE_DECL_ISINF       1
#define HAVE_DECL_ISNAN       1
#define HAVE_DECL_LDEXP       1
#define HAVE_DECL_LOG1P       1
#define HAVE_IEEE_COMPARISONS 1
#define HAVE_IEEE_DENORMALS   1
#define GSL_RANGE_CHECK       0
#define GSL_COERCE_DBL(x)     (x)
#define DISCARD_POINTER(p)
#define RETURN_IF_NULL(x)                                                      \
    if (!(x)) {                                                                \
        return;                                                                \
    }

/* libyaml: which one it is, told by sources.sh */
#include "versions.h"

/* jansson */
#define HAVE_GETPID 1

/* gnulib: its getopt apart from the C library's; no threads to lock against */
#include <stdalign.h>
#include <stdbool.h>
#include <stdio.h>

#define flockfile(stream)   ((void)(stream))
#define funlockfile(stream) ((void)(stream))
#define __GETOPT_PREFIX     rpl_
#define _GL_ARG_NONNULL(which)
#define _GL_ATTRIBUTE_DEALLOC(how, which)
#define _GL_ATTRIBUTE_FORMAT(spec) __attribute__((__format__ spec))
#define _GL_ATTRIBUTE_PURE
#define _GL_ATTRIBUTE_SPEC_PRINTF_STANDARD __printf__
#define _GL_ATTRIBUTE_SPEC_PRINTF_SYSTEM   __printf__
#define _GL_INLINE                         inline
#define _GL_EXTERN_INLINE                  extern inline
#define _GL_INLINE_HEADER_BEGIN
#define _GL_INLINE_HEADER_END
#define _GL_UNUSED __attribute__((__unused__))

#endif
