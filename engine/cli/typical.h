/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The library of typical equipment, told.  Private to engine/cli/. */
#ifndef DEW_CLI_TYPICAL_H
#define DEW_CLI_TYPICAL_H

/* On stdout, as text or as a section of docs/scenario.md. */
void cli__typical_text(void);
void cli__typical_markdown(void);

#endif
