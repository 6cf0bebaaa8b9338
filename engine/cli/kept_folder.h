/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A folder as a store of marches (dew/kept.h), a file each. */
#ifndef DEW_CLI_KEPT_FOLDER_H
#define DEW_CLI_KEPT_FOLDER_H

#include "dew/kept.h"

/* folder: borrowed; it is there.  What cannot be written is not kept. */
struct dew_kept cli__kept(char *folder);

#endif
