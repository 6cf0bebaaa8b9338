/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Today beside the best option, in a few figures. */
#include "report/markup.h"
#include "report/option_columns.h"
#include "sheets/page_parts.h"

void sheets__part_glance(const struct dew_report *r, FILE *out)
{
    size_t other = report__beside_today(r), count;
    const struct report__column *rows =
        report__columns(REPORT__TABLE_GLANCE, &count);

    if (other == 0)
        return;
    fputs("<table class=\"glance\"><caption>At a glance</caption>", out);
    report__html(out,
                 "<thead><tr><th scope=\"col\">In the year</th><th "
                 "scope=\"col\">Today<span>: %s</span></th><th "
                 "scope=\"col\">Option %zu<span>: %s</span></th><th "
                 "scope=\"col\">Limit</th></tr></thead><tbody>\n",
                 report__option(r, 0).text, other + 1,
                 report__option(r, (int)other).text);
    for (size_t k = 0; k < count; k++)
        if (rows[k].head[1] == NULL || r->question->prices != NULL)
            report__html_row(
                out, "%s|%s|%s|%s", rows[k].head[0], rows[k].cell(r, 0).text,
                rows[k].cell(r, other).text,
                rows[k].limit != NULL ? rows[k].limit(r).text : "");
    fputs("</tbody></table>\n", out);
}
