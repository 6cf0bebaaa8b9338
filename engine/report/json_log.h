/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The log beside the model, as part of the summary.  Private to the report. */
#ifndef DEW_REPORT_JSON_LOG_H
#define DEW_REPORT_JSON_LOG_H

#include <jansson.h>

#include "dew/report.h"

/* The log; JSON's null where there is none; NULL when out of memory. */
json_t *dew__json_log(const struct dew_report *r);

#endif
