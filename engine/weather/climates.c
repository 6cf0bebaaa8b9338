/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The table of monthly climates, as it lies in weather/climates.csv, put into
 * the read-only data by the assembler (which looks from where make runs).
 */
#include "weather/climate.h"

__asm__(".section .rodata\n"
        ".global dew__climates\n"
        ".type dew__climates, @object\n"
        "dew__climates:\n"
        ".incbin \"weather/climates.csv\"\n"
        ".global dew__climates_end\n"
        ".type dew__climates_end, @object\n"
        "dew__climates_end:\n"
        ".byte 0\n"
        ".size dew__climates, . - dew__climates\n"
        ".size dew__climates_end, 1\n"
        ".text\n");

size_t dew__climates_size(void)
{
    return (size_t)(dew__climates_end - dew__climates);
}
