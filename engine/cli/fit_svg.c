/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The charts of a fit as files. */
#include "cli/fit.h"
#include "core/fail.h"
#include "core/out.h"
#include "draw/charts_fit.h"

static enum dew_status draw(struct draw__fit *what, const char *path,
                            enum dew_status chart(const struct draw__fit *f),
                            struct dew_error *err)
{
    struct core__out out;

    if (path == NULL)
        return DEW_OK;
    if (core__out_open(&out, path, CORE__OUT_OVER, err) != DEW_OK)
        return err->status;
    what->out = out.file;
    if (chart(what) == DEW_OK)
        return core__out_close(&out, err);
    core__out_drop(&out);
    return core__fail(err, DEW_EMEM, "no memory for a chart");
}

enum dew_status cli__fit_charts(const struct cli__fit *f, const char *log,
                                const char *curve, struct dew_error *err)
{
    const struct dew_evidence *e = dew_fit_evidence(f->fit);
    size_t count;
    struct draw__fit what = {.hours = dew_fit_hours(f->fit, &count),
                             .told = dew_evidence_told(e),
                             .dates = dew_fit_dates(f->fit, &count),
                             .until = dew_fit_until(f->fit),
                             .learned = dew_evidence_learned(e),
                             .system = cli__fit_system(f)};

    what.count = count;
    if (draw(&what, log, draw__fit_log, err) != DEW_OK)
        return err->status;
    return draw(&what, curve, draw__fit_curve, err);
}
