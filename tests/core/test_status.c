/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Status texts and error lines. */
#include "support/rows.h"

#include <string.h>

#include "core/fail.h"
#include "dew/march.h"
#include "dew/unit.h"

TEST(first_error_stays_and_names_its_place)
{
    struct dew_error err = {0};
    char line[400];

    core__at(&err, "s.yaml", 3, 20);
    core__in(&err, "house.volume");
    assert_int_equal(core__fail(&err, DEW_ERANGE, "%d is too small", 7),
                     DEW_ERANGE);
    assert_int_equal(core__fail(&err, DEW_EMEM, "later"), DEW_EMEM);
    assert_string_equal(dew_error_line(&err, line, sizeof line),
                        "s.yaml:3:20: house.volume: 7 is too small");
}

TEST(faults_count_past_their_room)
{
    struct dew_error list[2] = {{0}}, err = {0};
    struct dew_faults faults = {list, 2, 0};

    err.status = DEW_EUNIT;
    for (int i = 0; i < 3; i++)
        assert_int_equal(core__fault(&faults, &err), DEW_EUNIT);
    assert_int_equal(faults.count, 3);
    assert_int_equal(list[1].status, DEW_EUNIT);
}

/* Those with a line of the file first, then of --set, by line and column; the
   rest as it was. */
TEST(faults_are_put_in_order)
{
    static const struct {
        const char *source;
        int line, column;
    } said[] = {{"--set", 2, 1}, {"a", 0, 0}, {"a", 9, 3},
                {"a", 9, 2},     {"a", 2, 7}, {"--set", 1, 1}};
    static const int order[] = {4, 3, 2, 5, 0, 1};
    struct dew_error list[COUNT_OF(said)] = {{0}};
    struct dew_faults faults = {list, COUNT_OF(said), COUNT_OF(said) + 3};

    for (size_t i = 0; i < COUNT_OF(said); i++) {
        core__at(&list[i], said[i].source, said[i].line, said[i].column);
        list[i].hour = (int)i;
    }
    core__faults_in_order(&faults, "a");
    for (size_t i = 0; i < COUNT_OF(said); i++)
        assert_int_equal(list[i].hour, order[i]);
    core__faults_in_order(NULL, "a");
}

RUN_TESTS("core, status");
