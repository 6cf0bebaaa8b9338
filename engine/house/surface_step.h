/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * An inside surface at a state, without a call, a branch or a loop; surface.h
 * has its contract.  Private to engine/.
 */
#ifndef DEW_HOUSE_SURFACE_STEP_H
#define DEW_HOUSE_SURFACE_STEP_H

#include "air/poly.h"

/* f_Rsi = (ts - te) / (ti - te), [ISO13788] */
static CORE__INLINE double house__surface_t(double factor, double ti, double te)
{
    return te + factor * (ti - te);
}

#endif
