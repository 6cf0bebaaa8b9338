/* SPDX-License-Identifier: GPL-3.0-or-later */
/* jansson's name for what the others call config.h. */
#include "config.h"
