/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Files compiled into the library.  The Makefile's EMBED lists them: NAME.EXT
 * becomes the symbol core__data_NAME_EXT.  Declare it, once, beside its use:
 *
 *     CORE__EMBEDDED(climates_csv);
 *     read_all(core__data_climates_csv, CORE__EMBEDDED_SIZE(climates_csv));
 *
 * A NUL follows the last byte, outside the size.
 */
#ifndef DEW_CORE_EMBED_H
#define DEW_CORE_EMBED_H

#define CORE__EMBEDDED(name)                                                   \
    extern const char core__data_##name[], core__data_##name##_end[]
#define CORE__EMBEDDED_SIZE(name)                                              \
    ((size_t)(core__data_##name##_end - core__data_##name))

#endif
