/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What layouts did that were solved before: cases of one scenario differ mostly
 * in what is no duct.  Private.
 */
#ifndef DEW_DUCTS_SEEN_H
#define DEW_DUCTS_SEEN_H

#include "dew/ducts.h"

struct ducts__seen;

/* Of the last so many layouts; NULL without memory, which the others take as a
   memory that holds nothing.  Networks written out have to stay as they are
   until it is closed. */
struct ducts__seen *ducts__seen_open(size_t most);
void ducts__seen_close(struct ducts__seen *seen);

/* As dew_ducts_states, and as dew_ducts_state of a layout just opened whose
   ventilator is on, to the last bit.  Threads may share one: while another
   looks, a layout is solved anew. */
enum dew_status ducts__seen_states(
    struct ducts__seen *seen, const struct dew_duct_layout *layout,
    struct dew_duct_state (*out)[DEW_BLOWER_STATES], int *blowers,
    struct dew_error *err);
enum dew_status ducts__seen_running(struct ducts__seen *seen,
                                    const struct dew_duct_layout *layout,
                                    int blower, struct dew_duct_state *out,
                                    struct dew_error *err);

#endif
