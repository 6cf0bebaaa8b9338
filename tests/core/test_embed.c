/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file compiled in is the file. */
#include "support/rows.h"

#include <stdio.h>
#include <string.h>

#include "core/embed.h"

CORE__EMBEDDED(embedded_csv);

TEST(embedded_bytes_are_the_file)
{
    char text[200];
    FILE *file = fopen("tests/support/embedded.csv", "rb");
    size_t length;

    assert_non_null(file);
    length = fread(text, 1, sizeof text, file);
    fclose(file);
    assert_true(length > 40);
    assert_int_equal(CORE__EMBEDDED_SIZE(embedded_csv), length);
    assert_memory_equal(core__data_embedded_csv, text, length);
    assert_int_equal(core__data_embedded_csv[length], 0);
}

RUN_TESTS("core, embedded files");
