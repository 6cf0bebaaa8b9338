/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Layouts of ducts as a page, and their sketches as single files. */
#include "core/embed.h"
#include "report/caution.h"
#include "report/ducts_json.h"
#include "report/markup.h"
#include "report/set.h"

CORE__EMBEDDED(page_css);
CORE__EMBEDDED(ducts_css);

/* ---- words --------------------------------------------------------------- */

static void gathered(const struct dew_report_ducts *d, enum dew_answer answer,
                     const char *heading, FILE *out)
{
    char of[REPORT__OF_LONG];
    struct report__gathered g;

    report__ducts_gather(d, answer, &g);
    if (g.count == 0)
        return;
    fprintf(out, "<section><h2>%s</h2>\n<ul class=\"cautions\">\n", heading);
    for (size_t k = 0; k < g.count; k++)
        report__caution_html(&g.list[k], "",
                             report__ducts_of(d, &g.list[k], of, sizeof of),
                             out);
    fputs("</ul></section>\n", out);
}

static void cautions(const struct report__told *t, FILE *out)
{
    char said[300];

    if (t->caution_count > 0)
        fprintf(out, "<p class=\"sub\">%s</p>\n",
                report__told_keys(t, said, sizeof said));
}

static void sentences(const struct report__told *t, enum dew_system system,
                      FILE *out)
{
    struct report__said said;

    report__told_words(t, system, &said);
    fputs("<ul class=\"says\">\n", out);
    for (size_t k = 0; k < said.count; k++)
        report__html(out, "<li>%s</li>\n", said.text[k]);
    fputs("</ul>\n", out);
}

static void what(const struct report__told *t, FILE *out)
{
    char text[300];

    fprintf(out, "<p class=\"sub\">%s</p>\n",
            report__told_said(t, text, sizeof text));
}

/* ---- the page ------------------------------------------------------------ */

static void option(const struct report__told *t, enum dew_system system,
                   FILE *out)
{
    what(t, out);
    cautions(t, out);
    report__sketches(t, system, out);
    sentences(t, system, out);
    report__ducts_tables(t, system, REPORT__ON_PAGE, out);
}

enum { DRAWN_ON_PAPER = 2 };

/* On paper many layouts would take a sheet and a half each: there stands only
   that of one option, or the first. */
static const struct report__told *on_paper(const struct dew_report_ducts *d,
                                           const char *option)
{
    const struct report__told *t = report__told_of(d, option);

    for (size_t i = 0; i < d->count && (t == NULL || t->option.quiet); i++)
        t = &d->list[i];
    return t;
}

static void layout(const struct report__told *t, int paper,
                   enum dew_system system, FILE *out)
{
    report__html(out, "<div%-s><h3>%s</h3>\n", paper ? "" : " class=\"screen\"",
                 t->option.name);
    what(t, out);
    report__sketches(t, system, out);
    sentences(t, system, out);
    fputs("<details><summary>Every state, and what to set and "
          "measure</summary>\n",
          out);
    report__ducts_tables(t, system, REPORT__IN_SECTION, out);
    fputs("</details></div>\n", out);
}

void report__ducts_section(const struct dew_report_ducts *ducts,
                           const char *option, enum dew_system system,
                           FILE *out)
{
    int all = report__told_drawn(ducts) <= DRAWN_ON_PAPER;
    const struct report__told *one;

    if (report__told_drawn(ducts) == 0)
        return;
    one = on_paper(ducts, option);
    fputs("<section id=\"airpaths\"><h2>Where the air goes</h2>\n", out);
    for (size_t i = 0; i < ducts->count; i++)
        if (!ducts->list[i].option.quiet)
            layout(&ducts->list[i], all || &ducts->list[i] == one, system, out);
    if (!all)
        report__html(out,
                     "<p class=\"paper\">On paper stands the layout of "
                     "\"%s\" alone: report.html has all %zu.</p>\n",
                     one->option.name, report__told_drawn(ducts));
    fputs("</section>\n", out);
}

static void head(const struct dew_ducts_frame *frame, FILE *out)
{
    static const char *const css[] = {core__data_page_css, core__data_ducts_css,
                                      NULL};
    const char *title = report__title(frame->title);

    report__html_open(out, "Ducts: ", title, css);
    report__html(out,
                 "\n<header><h1>%s</h1>\n<p class=\"sub\">Where the air goes: "
                 "every layout, blower on and off.</p></header>\n<main>\n",
                 title);
}

static void without(const struct dew_report_ducts *d, enum dew_system system,
                    FILE *out)
{
    char told[300];

    if (d->without_count == 0)
        return;
    fputs("<section><h2>Without a layout</h2>\n<ul>\n", out);
    for (size_t i = 0; i < d->without_count; i++) {
        report__without_words(&d->without[i], system, told, sizeof told);
        report__html(out, "<li>%s: %s</li>\n", d->without[i].name, told);
    }
    fputs("</ul></section>\n", out);
}

/* Layouts, and what they are told with. */
struct files {
    const struct dew_report_ducts *ducts;
    const struct dew_ducts_frame *frame;
};

static void page(const void *of, FILE *out)
{
    const struct files *f = of;
    const struct dew_report_ducts *d = f->ducts;

    head(f->frame, out);
    report__html(out, "<p class=\"sub\">%s</p>\n", report__levels);
    gathered(d, DEW_ANSWER_YES, "Before anything else", out);
    gathered(d, DEW_ANSWER_UNKNOWN, "You have not said whether ...", out);
    for (size_t i = 0; i < d->count; i++) {
        report__html(out, "<section><h2>%s</h2>\n", d->list[i].option.name);
        option(&d->list[i], f->frame->system, out);
        fputs("</section>\n", out);
    }
    without(d, f->frame->system, out);
    fprintf(out,
            "<p><small>House, outdoors and the space around outside ducts are "
            "taken at one pressure: leaks of the envelope are not in these "
            "figures. How to read them: docs/ducts.md. Made by dewledger %s "
            "from a scenario of SHA-256 <code>%s</code>. A planning aid: local "
            "code, the maker's manual and the inspector come first.</small>"
            "</p>\n</main>\n</body></html>\n",
            f->frame->version, f->frame->sha256);
}

enum dew_status dew_report_ducts_html(const struct dew_report_ducts *ducts,
                                      const struct dew_ducts_frame *frame,
                                      FILE *out, struct dew_error *err)
{
    const struct files f = {ducts, frame};

    return report__filled("the page", page, &f, out, err);
}

/* ---- files --------------------------------------------------------------- */

/* Place in the list of the i-th layout that is sketched, or its count. */
static size_t sketched(const struct dew_report_ducts *d, size_t i)
{
    size_t k = 0;

    while (k < d->count && (d->list[k].layout.written != NULL || i-- > 0))
        k++;
    return k;
}

static void name_of(const void *of, size_t i, const char **folder, char *out,
                    size_t size)
{
    const struct files *f = of;
    char part[48];

    *folder = i == 0 ? "" : "sketches/";
    if (i == 0) {
        snprintf(out, size, "ducts.html");
        return;
    }
    report__set_slug(f->ducts->list[sketched(f->ducts, i - 1)].option.name,
                     part, sizeof part);
    snprintf(out, size, "ducts-%zu%s%s.svg", i, part[0] ? "-" : "", part);
}

static enum dew_status fill(const void *of, size_t i, FILE *out,
                            struct dew_error *err)
{
    const struct files *f = of;

    return i == 0 ? dew_report_ducts_html(f->ducts, f->frame, out, err)
                  : dew_report_ducts_svg(f->ducts, sketched(f->ducts, i - 1),
                                         f->frame->system, out, err);
}

static enum dew_status fill_last(const void *of,
                                 const struct report__set_file *files,
                                 size_t count, FILE *out, struct dew_error *err)
{
    const struct files *f = of;

    return report__ducts_json(f->ducts, f->frame,
                              report__set_list_json(files, count), out, err);
}

enum dew_status dew_report_ducts_write(const struct dew_report_ducts *ducts,
                                       const struct dew_ducts_frame *frame,
                                       const char *directory,
                                       struct dew_error *err)
{
    struct files f = {ducts, frame};
    struct report__set set = {&f,           1,        "sketches", name_of, fill,
                              "ducts.json", fill_last};

    while (sketched(ducts, set.count - 1) < ducts->count)
        set.count++;
    return report__set_write(&set, directory, err);
}
