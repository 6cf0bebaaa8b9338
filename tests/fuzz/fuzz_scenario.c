/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The scenario reader on any bytes: a file, and after a zero byte one --set.
 * What is read is shown and made into cases; a fault and a result exclude
 * each other.
 */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "dew/scenario.h"

static const struct dew_outdoors place = {
    .site = {.latitude = 41.3, .longitude = -81.9, .utc_offset = -5},
    .pressure = 98512,
    .monthly = {5, 7, 11, 16, 22, 26, 28, 28, 24, 18, 11, 7},
};

static void use(const struct dew_scenario *s)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);
    char out[300];

    for (size_t i = 0; i < dew_scenario_count(s); i++) {
        const struct dew_value *v = dew_scenario_values(s, i);
        static struct dew_case c;

        for (size_t k = 0; k < count; k++) {
            const struct dew_origin *o = &v[k].origin;
            size_t length;

            dew_scenario_show(&f[k], &v[k], (int)(k % 3), out, sizeof out);
            dew_scenario_text(s, &length);
            if (o->by == DEW_BY_FILE && o->offset + o->length > length)
                abort();
        }
        (void)dew_scenario_case(s, i, &place, NULL, &c, NULL);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    const uint8_t *zero = size > 0 ? memchr(data, 0, size) : NULL;
    size_t length = zero != NULL ? (size_t)(zero - data) : size;
    char *set = zero != NULL ? calloc(1, size - length) : NULL;
    const char *sets[1];
    struct dew_scenario_source from = {(const char *)data, length, "f.yaml",
                                       sets, set != NULL};
    struct dew_scenario *s = NULL;
    enum dew_status status;
    char line[500];

    if (set != NULL)
        memcpy(set, zero + 1, size - length - 1);
    sets[0] = set;
    status = dew_scenario_open(&s, &from, &faults);
    if ((status == DEW_OK) != (faults.count == 0) ||
        (status == DEW_OK) != (s != NULL))
        abort();
    if (s != NULL)
        use(s);
    else
        dew_error_line(&list[0], line, sizeof line);
    dew_scenario_close(s);
    free(set);
    return 0;
}
