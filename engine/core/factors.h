/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Factors to SI that are met outside the table of units.  Private to engine/. */
#ifndef DEW_CORE_FACTORS_H
#define DEW_CORE_FACTORS_H

#define CORE__KWH 3.6e6 /* J, exact                */
#define CORE__CFM                                                              \
    (0.3048 * 0.3048 * 0.3048 / 60.0) /* m3/s, exact             */
#define CORE__LB  0.45359237          /* kg, exact [SP811]       */
#define CORE__TON 3516.8528           /* W, of cooling [SP811]   */

#endif
