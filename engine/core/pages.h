/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Memory in few pages.  Private. */
#ifndef DEW_CORE_PAGES_H
#define DEW_CORE_PAGES_H

#include <stddef.h>

/*
 * A hint, and no more: this block of some megabytes is filled soon, and whole.
 * Where the system takes it, each page is asked for some hundred at a time:
 * of a march of a year the asking was a fifth of the time.  NULL is let be.
 */
void core__few_pages(void *block, size_t bytes);

#endif
