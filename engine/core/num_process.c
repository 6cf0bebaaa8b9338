/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What concerns GSL in a whole process: for a program, never for a library. */
#include <gsl/gsl_errno.h>
#include <gsl/gsl_version.h>

#include "core/num.h"

void core__num_quiet(void)
{
    gsl_set_error_handler_off();
}

const char *core__num_version(void)
{
    return gsl_version;
}
