/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * libFuzzer target: any bytes as a log must give a status, never a crash, a
 * leak, a log on an error or a figure out of its range.  The first byte picks
 * the answers.
 */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "dew/log.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const struct dew_column_said said[] = {
    {"column 2", "temperature", "degC"}};

static void look(const struct dew_log *log)
{
    size_t count;
    const struct dew_log_hour *h = dew_log_hours(log, &count);

    for (size_t i = 0; i < count; i++)
        if (h[i].t < -70.0 - 1e-9 || h[i].t > 60.0 + 1e-9 || h[i].rh < -1e-9 ||
            h[i].rh > 1.0 + 1e-9 || h[i].co2 < -1e-9)
            abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct dew_log_ask ask = DEW_LOG_ASK;
    struct dew_log_report report;
    struct dew_error list[4] = {{0}};
    struct dew_faults faults = {list, 4, 0};
    struct dew_log *log;
    struct dew_text text = {"fuzz", (const char *)data + 1, size - 1};

    if (size < 1)
        return 0;
    ask.order = (enum dew_date_order)(data[0] % 3);
    ask.clock = (enum dew_clock)(data[0] / 3 % 4);
    ask.sensor = data[0] & 64 ? "all" : NULL;
    ask.degrees = data[0] & 128 ? "degF" : NULL;
    ask.method = (enum dew_log_method)(data[0] / 12 % 3);
    ask.said = said;
    ask.said_count = data[0] & 1;
    if ((dew_log_parse(&log, &text, &ask, &report, &faults) != DEW_OK) !=
            (log == NULL) ||
        (log == NULL && faults.count == 0))
        abort();
    if (log != NULL)
        look(log);
    dew_log_close(log);
    return 0;
}
