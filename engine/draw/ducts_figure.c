/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sketches of a layout: as a figure of a page, and as a single file. */
#include "core/embed.h"
#include "draw/ducts_plan.h"
#include "report/markup.h"

CORE__EMBEDDED(ducts_css);

/* ---- which states are drawn ---------------------------------------------- */

struct panel {
    enum dew_vent_state vent;
    int blower;
};
enum { PANELS = 6 };

static int panels_of(const struct report__told *t, struct panel *out)
{
    int n = 0, full = report__told_full(t);

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

static void sketch(const struct report__told *t, const struct panel *at,
                   enum dew_system system, FILE *out)
{
    struct report__word title = report__sketch_title(t, at->vent, at->blower);

    fprintf(out,
            "<svg class=\"sketch\" role=\"img\" viewBox=\"0 0 %d %.0f\" "
            "aria-label=\"Air paths. %s. The figures are in the tables "
            "below.\">\n",
            DRAW__PLAN_WIDE, report__sketch_height(t), title.text);
    report__sketch_panel(t, at->vent, at->blower, system, out);
    fputs("</svg>\n", out);
}

static const struct key {
    const char *class, *second, *words;
} keys[] = {
    {"d-fresh", NULL, "fresh air"},
    {"d-stale", "d-rungs", "stale air"},
    {"d-trunk", "d-part", "air of the trunk; dark core: its fresh share"},
    {"d-astray", NULL, "astray: through an idle unit, or backwards"},
};

/* The stroke of a key from x0 to x1, end behind each line. */
static void swatch(const struct key *k, int x0, int x1, double y,
                   const char *end, FILE *out)
{
    report__html(out,
                 "<polyline class=\"%s\" stroke-width=\"8\" points=\"%d,%.0f "
                 "%d,%.0f\"/>%-s",
                 k->class, x0, y, x1, y, end);
    if (k->second != NULL)
        report__html(
            out,
            "<polyline class=\"%s\" stroke-width=\"3.6\" points=\"%d,%.0f "
            "%d,%.0f\"/>%-s",
            k->second, x0, y, x1, y, end);
}

static void legend(enum dew_system system, FILE *out)
{
    fputs("<ul class=\"legend\">", out);
    for (size_t k = 0; k < sizeof keys / sizeof keys[0]; k++) {
        fputs("<li><svg class=\"sketch\" aria-hidden=\"true\" viewBox=\"0 0 26 "
              "14\">",
              out);
        swatch(&keys[k], 0, 26, 7, "", out);
        fprintf(out, "</svg>%s</li>", keys[k].words);
    }
    fprintf(
        out,
        "<li>width: root of the flow; ducts without flow are left out; figures: "
        "%s as the fans bring it; + fresh air into a room, \xe2\x88\x92 stale air "
        "out of it; slanted: Pa in the trunk against the rooms</li></ul>\n",
        report__unit(DEW_FLOW, system)->name);
}

void report__sketches(const struct report__told *t, enum dew_system system,
                      FILE *out)
{
    struct panel panels[PANELS];
    int n = panels_of(t, panels);

    if (t->layout.written != NULL) {
        fprintf(out, "<p>%s</p>\n", report__told_bare);
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

/* ---- single files -------------------------------------------------------- */

/* One layout to sketch. */
struct single {
    const struct report__told *t;
    enum dew_system system;
};

static void single_legend(double y, enum dew_system system, FILE *out)
{
    for (size_t k = 0; k < sizeof keys / sizeof keys[0]; k++, y += 20) {
        swatch(&keys[k], 8, 44, y - 4, "\n", out);
        report__html(out, "<text x=\"54\" y=\"%.0f\">%s</text>\n", y,
                     keys[k].words);
    }
    fprintf(out,
            "<text x=\"8\" y=\"%.0f\">Figures: %s; + fresh air into a room, "
            "\xe2\x88\x92 stale air out of it; slanted: Pa.</text>\n",
            y + 4, report__unit(DEW_FLOW, system)->name);
}

enum { ONE_COLUMN = 3 }; /* panels below each other in a file               */

static void single(const void *of, FILE *out)
{
    const struct single *f = of;
    const double gap = 16, foot_room = 150;
    double high = report__sketch_height(f->t) + gap;
    struct panel panels[PANELS];
    int count = panels_of(f->t, panels);
    int across = count > ONE_COLUMN ? 2 : 1,
        down = (count + across - 1) / across;

    report__html(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"sketch\" "
        "viewBox=\"0 0 %d %.0f\">\n<title>%s</title>\n<style>%-s</style>\n"
        "<rect class=\"d-paper\" width=\"100%%\" height=\"100%%\"/>\n"
        "<text class=\"d-title\" x=\"4\" y=\"22\">%s</text>\n",
        across * DRAW__PLAN_WIDE, 34 + down * high + foot_room,
        f->t->option.name, core__data_ducts_css, f->t->option.name);
    for (int i = 0; i < count; i++) {
        int row = i / across;

        fprintf(out, "<g transform=\"translate(%d %.0f)\">\n",
                i % across * DRAW__PLAN_WIDE, 34 + row * high);
        report__sketch_panel(f->t, panels[i].vent, panels[i].blower, f->system,
                             out);
        fputs("</g>\n", out);
    }
    single_legend(34 + down * high + 12, f->system, out);
    fputs("</svg>\n", out);
}

enum dew_status dew_report_ducts_svg(const struct dew_report_ducts *ducts,
                                     size_t layout, enum dew_system system,
                                     FILE *out, struct dew_error *err)
{
    const struct single f = {&ducts->list[layout], system};

    return report__filled("the sketch", single, &f, out, err);
}
