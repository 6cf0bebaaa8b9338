/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the command survey share. */
#ifndef DEW_CLI_SURVEY_H
#define DEW_CLI_SURVEY_H

#include <stddef.h>

#include "report/words.h"

/* A time, as a person says it. */
const char *cli__lasting(double seconds, char text[40]);

/* A count as it is read: "386,688". */
struct report__word cli__count(size_t n);

/* `survey status`: how far the survey in a folder is.  An enum cli__exit. */
int cli__survey_status(const char *folder);

/* `survey show`: what a survey came to, in groups. */
struct cli__show {
    const char *folder;
    const char *by;  /* "place,option"; NULL: by option                     */
    const char *svg; /* a file for the chart, or NULL                        */
    int json;
};
int cli__survey_show(const struct cli__show *ask);

#endif
