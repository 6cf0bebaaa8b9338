/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Layouts as JSON, with what was written beside.  Private to the report. */
#ifndef DEW_REPORT_DUCTS_JSON_H
#define DEW_REPORT_DUCTS_JSON_H

#include <jansson.h>

#include "report/ducts.h"

/* As dew_report_ducts_json, with the list of the files beside it, which is
   taken; NULL: there was no memory for it. */
enum dew_status report__ducts_json(const struct dew_report_ducts *ducts,
                                   const struct dew_ducts_frame *frame,
                                   json_t *written, FILE *out,
                                   struct dew_error *err);

#endif
