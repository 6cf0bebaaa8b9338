/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any text at all is twelve months of a place or a list of faults. */
#include <stdint.h>
#include <stdlib.h>

#include "dew/climate.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct dew_error list[8] = {{0}};
    struct dew_faults faults = {list, 8, 0};
    struct dew_climate climate;
    enum dew_status status =
        dew_climate_read((const char *)data, size, "fuzz", &climate, &faults);

    if ((status == DEW_OK) != (faults.count == 0))
        abort();
    return 0;
}
