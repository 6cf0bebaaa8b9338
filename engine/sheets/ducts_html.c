/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Layouts of ducts as a page, and their sketches as single files. */
#include <math.h>
#include <string.h>

#include "core/embed.h"
#include "core/fail.h"
#include "core/numeric.h"
#include "draw/ducts_plan.h"
#include "report/caution.h"
#include "report/ducts_json.h"
#include "report/markup.h"
#include "report/set.h"

DEW__EMBEDDED(page_css);
DEW__EMBEDDED(ducts_css);

/* ---- which states are drawn ---------------------------------------------- */

struct panel {
    enum dew_vent_state vent;
    int blower;
};
enum { PANELS = 6 };

static int panels_of(const struct dew__told *t, struct panel *out)
{
    int n = 0, full = dew__told_full(t);

    out[n++] = (struct panel){DEW_VENT_ON, 0};
    if (t->layout.handler_count == 0)
        return n;
    for (int i = 2; i + 1 < t->shown_count; i++)
        out[n++] = (struct panel){DEW_VENT_ON, t->shown[i]};
    out[n++] = (struct panel){DEW_VENT_ON, full};
    if (t->layout.kind != DEW_LAYOUT_own_ducts)
        out[n++] = (struct panel){DEW_VENT_OFF, full};
    return n;
}

/* ---- sketches ------------------------------------------------------------ */

static void sketch(const struct dew__told *t, const struct panel *at,
                   enum dew_system system, FILE *out)
{
    struct dew__word title = dew__sketch_title(t, at->vent, at->blower);

    fprintf(out,
            "<svg class=\"sketch\" role=\"img\" viewBox=\"0 0 %d %.0f\" "
            "aria-label=\"Air paths. %s. The figures are in the tables "
            "below.\">\n",
            DEW__PLAN_WIDE, dew__sketch_height(t), title.text);
    dew__sketch_panel(t, at->vent, at->blower, system, out);
    fputs("</svg>\n", out);
}

static const struct key {
    const char *class, *second, *words;
} keys[] = {
    {"d-fresh", NULL, "fresh air"},
    {"d-stale", "d-rungs", "stale air"},
    {"d-trunk", "d-part", "air of the trunk; dark core: its fresh share"},
    {"d-astray", NULL, "astray: through an idle unit, or backwards"},
    {"d-idle", NULL, "no flow"},
};

static void legend(enum dew_system system, FILE *out)
{
    fputs("<ul class=\"legend\">", out);
    for (size_t k = 0; k < sizeof keys / sizeof keys[0]; k++) {
        fprintf(out,
                "<li><svg class=\"sketch\" aria-hidden=\"true\" viewBox=\"0 0 "
                "26 14\"><polyline class=\"%s\" stroke-width=\"8\" "
                "points=\"0,7 26,7\"/>",
                keys[k].class);
        if (keys[k].second != NULL)
            fprintf(out,
                    "<polyline class=\"%s\" stroke-width=\"3.6\" "
                    "points=\"0,7 26,7\"/>",
                    keys[k].second);
        fprintf(out, "</svg>%s</li>", keys[k].words);
    }
    fprintf(
        out,
        "<li>width: root of the flow; figures: %s; + fresh air into a room, \xe2\x88\x92 stale air "
        "out of it; slanted: Pa in the trunk against the rooms</li></ul>\n",
        dew__unit(DEW_FLOW, system)->name);
}

static void sketches(const struct dew__told *t, enum dew_system system,
                     FILE *out)
{
    struct panel panels[PANELS];
    int n = panels_of(t, panels);

    if (t->layout.written != NULL) {
        fprintf(out, "<p>%s</p>\n", dew__told_bare);
        return;
    }
    fputs("<figure class=\"sketch\"><h3>Where the air goes</h3>\n<div "
          "class=\"panels\">\n",
          out);
    for (int i = 0; i < n; i++)
        sketch(t, &panels[i], system, out);
    fputs("</div>\n", out);
    legend(system, out);
    fputs("</figure>\n", out);
}

/* ---- words --------------------------------------------------------------- */

static void gathered(const struct dew_report_ducts *d, enum dew_answer answer,
                     const char *heading, FILE *out)
{
    char of[DEW__OF_LONG];
    struct dew__gathered g;

    dew__ducts_gather(d, answer, &g);
    if (g.count == 0)
        return;
    fprintf(out, "<section><h2>%s</h2>\n<ul class=\"cautions\">\n", heading);
    for (size_t k = 0; k < g.count; k++)
        dew__caution_html(&g.list[k], "",
                          dew__ducts_of(d, &g.list[k], of, sizeof of), out);
    fputs("</ul></section>\n", out);
}

static void cautions(const struct dew__told *t, FILE *out)
{
    char said[300];

    if (t->caution_count > 0)
        fprintf(out, "<p class=\"sub\">%s</p>\n",
                dew__told_keys(t, said, sizeof said));
}

static void sentences(const struct dew__told *t, enum dew_system system,
                      FILE *out)
{
    struct dew__said said;

    dew__told_words(t, system, &said);
    fputs("<ul class=\"says\">\n", out);
    for (size_t k = 0; k < said.count; k++) {
        fputs("<li>", out);
        dew__escape(out, said.text[k]);
        fputs("</li>\n", out);
    }
    fputs("</ul>\n", out);
}

static void what(const struct dew__told *t, FILE *out)
{
    char text[300];

    snprintf(text, sizeof text, "%s; %s.", dew__told_kind(t),
             dew__told_what(t).text);
    text[0] = (char)(text[0] >= 'a' ? text[0] - 'a' + 'A' : text[0]);
    fprintf(out, "<p class=\"sub\">%s</p>\n", text);
}

/* ---- the page ------------------------------------------------------------ */

void dew__ducts_option_html(const struct dew__told *t, enum dew_system system,
                            FILE *out)
{
    what(t, out);
    cautions(t, out);
    sketches(t, system, out);
    sentences(t, system, out);
    dew__ducts_tables(t, system, DEW__ON_PAGE, out);
}

void dew__ducts_section(const struct dew_report_ducts *ducts,
                        enum dew_system system, FILE *out)
{
    if (dew__told_drawn(ducts) == 0)
        return;
    fputs("<section id=\"airpaths\"><h2>Where the air goes</h2>\n", out);
    for (size_t i = 0; i < ducts->count; i++) {
        if (ducts->list[i].option.quiet)
            continue;
        fputs("<h3>", out);
        dew__escape(out, ducts->list[i].option.name);
        fputs("</h3>\n", out);
        what(&ducts->list[i], out);
        sketches(&ducts->list[i], system, out);
        sentences(&ducts->list[i], system, out);
        fputs("<details><summary>Every state, and what to set and "
              "measure</summary>\n",
              out);
        dew__ducts_tables(&ducts->list[i], system, DEW__IN_SECTION, out);
        fputs("</details>\n", out);
    }
    fputs("</section>\n", out);
}

static void head(const struct dew_ducts_frame *frame, FILE *out)
{
    const char *title = frame->title[0] ? frame->title : "Untitled";

    fputs("<!DOCTYPE html>\n<html lang=\"en\"><head><meta "
          "charset=\"utf-8\"/>\n<meta name=\"viewport\" "
          "content=\"width=device-width, initial-scale=1\"/>\n<title>Ducts: ",
          out);
    dew__escape(out, title);
    fprintf(out, "</title>\n<style>\n%s%s</style></head>\n<body>\n",
            dew__data_page_css, dew__data_ducts_css);
    fputs("<header><h1>", out);
    dew__escape(out, title);
    fputs("</h1>\n<p class=\"sub\">Where the air goes: every layout, blower on "
          "and off.</p></header>\n<main>\n",
          out);
}

static void foot(const struct dew_report_ducts *d,
                 const struct dew_ducts_frame *frame, FILE *out)
{
    char told[300];

    if (d->without_count > 0)
        fputs("<section><h2>Without a layout</h2>\n<ul>\n", out);
    for (size_t i = 0; i < d->without_count; i++) {
        fputs("<li>", out);
        dew__escape(out, d->without[i].name);
        dew__without_words(&d->without[i], frame->system, told, sizeof told);
        fprintf(out, ": %s</li>\n", told);
    }
    if (d->without_count > 0)
        fputs("</ul></section>\n", out);
    fprintf(out,
            "<p><small>House, outdoors and the space around outside ducts are "
            "taken at one pressure: leaks of the envelope are not in these "
            "figures. How to read them: docs/ducts.md. Made by dewledger %s "
            "from a scenario of SHA-256 <code>%s</code>. A planning aid: local "
            "code, the maker's manual and the inspector come first.</small>"
            "</p>\n</main>\n</body></html>\n",
            frame->version, frame->sha256);
}

static void page(const struct dew_report_ducts *d,
                 const struct dew_ducts_frame *frame, FILE *out)
{
    head(frame, out);
    gathered(d, DEW_ANSWER_YES, "Before anything else", out);
    gathered(d, DEW_ANSWER_UNKNOWN, "You have not said whether ...", out);
    for (size_t i = 0; i < d->count; i++) {
        fputs("<section><h2>", out);
        dew__escape(out, d->list[i].option.name);
        fputs("</h2>\n", out);
        dew__ducts_option_html(&d->list[i], frame->system, out);
        fputs("</section>\n", out);
    }
    foot(d, frame, out);
}

enum dew_status dew_report_ducts_html(const struct dew_report_ducts *ducts,
                                      const struct dew_ducts_frame *frame,
                                      FILE *out, struct dew_error *err)
{
    struct dew__numeric n;

    if (!dew__numeric_c(&n))
        return dew__fail(err, DEW_EMEM, "no memory for the page");
    page(ducts, frame, out);
    dew__numeric_back(&n);
    if (fflush(out) != 0 || ferror(out))
        return dew__fail(err, DEW_EIO, "the page could not be written");
    return DEW_OK;
}

/* ---- single files -------------------------------------------------------- */

static void svg_legend(double y, enum dew_system system, FILE *out)
{
    for (size_t k = 0; k < sizeof keys / sizeof keys[0]; k++, y += 20) {
        fprintf(out,
                "<polyline class=\"%s\" stroke-width=\"8\" points=\"8,%.0f "
                "44,%.0f\"/>\n",
                keys[k].class, y - 4, y - 4);
        if (keys[k].second != NULL)
            fprintf(out,
                    "<polyline class=\"%s\" stroke-width=\"3.6\" "
                    "points=\"8,%.0f 44,%.0f\"/>\n",
                    keys[k].second, y - 4, y - 4);
        fprintf(out, "<text x=\"54\" y=\"%.0f\">%s</text>\n", y, keys[k].words);
    }
    fprintf(out,
            "<text x=\"8\" y=\"%.0f\">Figures: %s; + fresh air into a room, "
            "\xe2\x88\x92 stale air out of it; slanted: Pa.</text>\n",
            y + 4, dew__unit(DEW_FLOW, system)->name);
}

enum dew_status dew_report_ducts_svg(const struct dew_report_ducts *ducts,
                                     size_t layout, enum dew_system system,
                                     FILE *out, struct dew_error *err)
{
    const struct dew__told *t = &ducts->list[layout];
    const double gap = 16, foot_room = 150;
    double high = dew__sketch_height(t) + gap;
    struct panel panels[PANELS];
    struct dew__numeric n;
    int count = panels_of(t, panels);

    if (!dew__numeric_c(&n))
        return dew__fail(err, DEW_EMEM, "no memory for the sketch");
    fprintf(out,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"sketch\" "
            "viewBox=\"0 0 %d %.0f\">\n<title>",
            DEW__PLAN_WIDE, 34 + count * high + foot_room);
    dew__escape(out, t->option.name);
    fprintf(out, "</title>\n<style>%s</style>\n", dew__data_ducts_css);
    fprintf(out, "<rect width=\"100%%\" height=\"100%%\" fill=\"#ffffff\"/>\n"
                 "<text class=\"d-title\" x=\"4\" y=\"22\">");
    dew__escape(out, t->option.name);
    fputs("</text>\n", out);
    for (int i = 0; i < count; i++) {
        fprintf(out, "<g transform=\"translate(0 %.0f)\">\n", 34 + i * high);
        dew__sketch_panel(t, panels[i].vent, panels[i].blower, system, out);
        fputs("</g>\n", out);
    }
    svg_legend(34 + count * high + 12, system, out);
    fputs("</svg>\n", out);
    dew__numeric_back(&n);
    if (fflush(out) != 0 || ferror(out))
        return dew__fail(err, DEW_EIO, "the sketch could not be written");
    return DEW_OK;
}

struct files {
    const struct dew_report_ducts *ducts;
    const struct dew_ducts_frame *frame;
};

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
    dew__set_slug(f->ducts->list[sketched(f->ducts, i - 1)].option.name, part,
                  sizeof part);
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
                                 const struct dew__set_file *files,
                                 size_t count, FILE *out, struct dew_error *err)
{
    const struct files *f = of;

    return dew__ducts_json(f->ducts, f->frame, dew__set_list_json(files, count),
                           out, err);
}

enum dew_status dew_report_ducts_write(const struct dew_report_ducts *ducts,
                                       const struct dew_ducts_frame *frame,
                                       const char *directory,
                                       struct dew_error *err)
{
    struct files f = {ducts, frame};
    struct dew__set set = {&f,           1,        "sketches", name_of, fill,
                           "ducts.json", fill_last};

    while (sketched(ducts, set.count - 1) < ducts->count)
        set.count++;
    return dew__set_write(&set, directory, err);
}
