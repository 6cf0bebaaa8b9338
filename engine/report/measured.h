/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was measured beside the model, in words.  Private to the report. */
#ifndef DEW_REPORT_MEASURED_H
#define DEW_REPORT_MEASURED_H

#include "dew/report.h"

/* One sentence on the humidity, one on the temperature.  Returns out. */
char *report__beside_rh(const struct dew_report *r, char *out, size_t size);
char *report__beside_t(const struct dew_report *r, char *out, size_t size);

#endif
