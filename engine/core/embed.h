/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Files compiled into the library.  The Makefile's EMBED lists them: NAME.EXT
 * becomes the symbol dew__data_NAME_EXT.  Declare it, once, beside its use:
 *
 *     DEW__EMBEDDED(climates_csv);
 *     read_all(dew__data_climates_csv, DEW__EMBEDDED_SIZE(climates_csv));
 *
 * A NUL follows the last byte, outside the size.
 */
#ifndef DEW_CORE_EMBED_H
#define DEW_CORE_EMBED_H

#define DEW__EMBEDDED(name)                                                    \
    extern const char dew__data_##name[], dew__data_##name##_end[]
#define DEW__EMBEDDED_SIZE(name)                                               \
    ((size_t)(dew__data_##name##_end - dew__data_##name))

#endif
