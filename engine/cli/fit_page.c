/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A fit as a page that opens without a network, its charts among the words; and
   the words themselves, which are the same on a terminal. */
#include <string.h>

#include "cli/fit.h"
#include "core/embed.h"
#include "draw/svg.h"
#include "report/lay.h"
#include "report/markup.h"
#include "report/words.h"
#include "run/fit.h"

CORE__EMBEDDED(page_css);
CORE__EMBEDDED(chart_css);

/* ---- words, here and there ------------------------------------------------------- */

void cli__fit_say(const struct cli__fit *f, const char *text)
{
    if (f->page)
        report__html(f->out, "<p>%s</p>\n", text);
    else
        cli__wrap(f->out, 0, text);
}

void cli__fit_head(const struct cli__fit *f, const char *text, int after)
{
    if (f->page)
        report__html(f->out, "<h2>%s</h2>\n", text);
    else
        fprintf(f->out, "%s%s\n", after ? "\n" : "", text);
}

void cli__fit_gap(const struct cli__fit *f)
{
    if (!f->page)
        fputc('\n', f->out);
}

void cli__fit_list(const struct cli__fit *f, const char *heading)
{
    cli__fit_head(f, heading, 0);
    if (f->page)
        fputs("<ul class=\"plain\">\n", f->out);
}

void cli__fit_item(const struct cli__fit *f, const char *text)
{
    if (f->page)
        report__html(f->out, "<li>%s</li>\n", text);
    else
        report__wrap(f->out, "- ", text);
}

void cli__fit_list_end(const struct cli__fit *f, int last)
{
    if (f->page)
        fputs("</ul>\n", f->out);
    else if (!last)
        fputc('\n', f->out);
}

/* ---- the page -------------------------------------------------------------------- */

static const struct dew_scenario *scenario_of(const struct cli__fit *f)
{
    return f->fit != NULL ? f->fit->run->scenario
                          : dew_run_scenario(dew_learn_run(f->learn));
}

static void head(const struct cli__fit *f)
{
    static const char *const css[] = {core__data_page_css, core__data_chart_css,
                                      NULL};
    const char *title = report__title(dew_scenario_title(scenario_of(f)));
    size_t count;

    report__html_open(f->out, "Learned: ", title, css);
    fputs("\n<svg class=\"defs\" aria-hidden=\"true\">", f->out);
    draw__svg_patterns(f->out);
    report__html(f->out, "</svg>\n<header><h1>%s</h1>\n<p class=\"sub\">",
                 title);
    if (f->fit != NULL) {
        const struct dew_date *d = dew_fit_dates(f->fit, &count);

        fprintf(f->out, "What the log of %04d-%02d-%02d to ", d->year, d->month,
                d->day);
        d += count - 1;
        fprintf(f->out, "%04d-%02d-%02d tells of the house", d->year, d->month,
                d->day);
    } else
        fputs("What your readings tell of the house", f->out);
    fputs("</p></header>\n<main>\n", f->out);
}

static void foot(const struct cli__fit *f)
{
    char hash[DEW_SHA256_TEXT];
    size_t length;
    const char *text = dew_scenario_text(scenario_of(f), &length);

    dew_report_sha256(text, length, hash);
    report__html(
        f->out,
        "<p><small>How it is learned, and how well it foretells: "
        "docs/evidence.md. Made by dewledger %s from a scenario of "
        "SHA-256 <code>%s</code>. A planning aid: it finds no mould, no "
        "leak and no carbon monoxide.</small></p>\n</main>\n"
        "</body></html>\n",
        DEW_VERSION, hash);
}

static void page(const void *of, FILE *out)
{
    struct cli__fit f = *(const struct cli__fit *)of;

    f.out = out;
    f.page = 1;
    head(&f);
    fputs("<section id=\"answer\">\n", out);
    cli__fit_print(&f);
    fputs("</section>\n", out);
    foot(&f);
}

static enum dew_status fill(const void *of, FILE *out, struct dew_error *err)
{
    return report__filled("the page", page, of, out, err);
}

enum dew_status cli__fit_page(const struct cli__fit *f, const char *path,
                              struct dew_error *err)
{
    return cli__fit_file(path, fill, f, err);
}
