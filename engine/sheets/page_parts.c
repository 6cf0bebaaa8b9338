/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts of the page that are pieces of text. */
#include "sheets/page_parts.h"

#include <math.h>
#include <string.h>

#include "core/embed.h"
#include "report/caution.h"
#include "report/words.h"

DEW__EMBEDDED(references_md);

/* ---- cautions --------------------------------------------------------------------- */

static int every_option(const struct dew_report *r, const struct dew_caution *c)
{
    size_t count = 0;

    for (size_t i = 0; i < r->question->count && i < 64; i++)
        count += c->options >> i & 1;
    return count == r->question->count;
}

static void caution_options(const struct dew_report *r,
                            const struct dew_caution *c, FILE *out)
{
    int any = 0;

    if (c->options == 0)
        return;
    if (r->question->count > 1 && every_option(r, c)) {
        fputs("<strong>every option:</strong> ", out);
        return;
    }
    for (size_t i = 0; i < r->question->count && i < 64; i++)
        if (c->options >> i & 1) {
            fputs(any++ ? ", " : "<strong>", out);
            dew__escape(out, dew__option(r, (int)i).text);
        }
    if (any)
        fputs(":</strong> ", out);
}

static void caution(const struct dew_report *r, const struct dew_caution *c,
                    FILE *out)
{
    char pressure[DEW__PRESSURE_LONG];

    fprintf(out, "<li><span class=\"level\">%s</span>",
            dew_cautions_level(c->level));
    caution_options(r, c, out);
    dew__escape(out, dew__open(c) ? dew__open_rest(c) : c->text);
    dew__escape(out,
                dew__pressure(r, c, DEW_NO_OPTION, pressure, sizeof pressure));
    if (dew__open(c))
        fprintf(out, " Answer: <code>%s</code>.", c->question_key);
    fputs(" <small>(", out);
    dew__escape(out, c->source);
    fputs(")</small></li>\n", out);
}

/* One told, or computed, of a level. */
static int is_told(const struct dew_caution *c, enum dew_caution_level level)
{
    return c->level == level && !dew__open(c);
}

static void cautions(const struct dew_report *r, enum dew_caution_level level,
                     FILE *out)
{
    for (size_t i = 0; i < r->caution_count; i++)
        if (is_told(&r->cautions[i], level))
            caution(r, &r->cautions[i], out);
}

static int has_level(const struct dew_report *r, enum dew_caution_level level)
{
    for (size_t i = 0; i < r->caution_count; i++)
        if (is_told(&r->cautions[i], level))
            return 1;
    return 0;
}

static void told(const struct dew_report *r, enum dew_caution_level level,
                 const char *heading, FILE *out)
{
    if (!has_level(r, level))
        return;
    fprintf(out, "<h3>%s</h3>\n<ul class=\"cautions\">\n", heading);
    cautions(r, level, out);
    fputs("</ul>\n", out);
}

/* One list of all that was not said, STOP first. */
static void questions(const struct dew_report *r, FILE *out)
{
    int any = 0;

    for (size_t i = 0; i < r->caution_count; i++) {
        if (!dew__open(&r->cautions[i]))
            continue;
        if (any++ == 0)
            fputs("<h3 id=\"questions\">You have not said whether ...</h3>\n"
                  "<ul class=\"cautions\">\n",
                  out);
        caution(r, &r->cautions[i], out);
    }
    if (any)
        fputs("</ul>\n", out);
}

void dew__part_stops(const struct dew_report *r, FILE *out)
{
    char open[2000];

    dew__open_stops(r, open, sizeof open);
    if (!has_level(r, DEW_STOP) && open[0] == '\0')
        return;
    fputs("<section class=\"stop\" id=\"stop\"><h2>Before anything else</h2>\n"
          "<ul class=\"cautions\">\n",
          out);
    cautions(r, DEW_STOP, out);
    if (open[0] != '\0') {
        fprintf(out, "<li><span class=\"level\">%s</span>",
                dew_cautions_level(DEW_STOP));
        dew__escape(out, open);
        fputs(" <a href=\"#questions\">What hangs on each, and how to answer"
              "</a></li>\n",
              out);
    }
    fputs("</ul></section>\n", out);
}

void dew__part_cautions(const struct dew_report *r, FILE *out)
{
    fputs("<section id=\"cautions\"><h2>Cautions</h2>\n", out);
    if (has_level(r, DEW_STOP))
        fputs("<p>What you told us of that says STOP stands at the top of the "
              "page.</p>\n",
              out);
    questions(r, out);
    told(r, DEW_CHECK, "To check", out);
    told(r, DEW_NOTE, "To know", out);
    fputs("</section>\n", out);
}

/* ---- inputs ------------------------------------------------------------------------ */

static int is_preset(const struct dew_report_input *in)
{
    return strcmp(in->origin, "default") == 0;
}

static void input_row(const struct dew_report_input *in, int preset, FILE *out)
{
    fputs("<tr><td><code>", out);
    dew__escape(out, in->key);
    fputs("</code></td><td>", out);
    dew__escape(out, in->value);
    fputs("</td><td>", out);
    dew__escape(out, in->option[0] ? in->option : "every option");
    fputs("</td><td>", out);
    dew__escape(out, preset ? in->source : in->origin);
    fputs("</td></tr>\n", out);
}

static void input_table(const struct dew_report *r, int preset, FILE *out)
{
    fprintf(out,
            "<div class=\"wide\"><table class=\"inputs\"><thead><tr><th "
            "scope=\"col\">Key</th><th scope=\"col\">Value</th><th "
            "scope=\"col\">Option</th><th scope=\"col\">%s</th></tr></thead>"
            "<tbody>\n",
            preset ? "Where the default is from" : "From");
    for (size_t i = 0; i < r->input_count; i++)
        if (is_preset(&r->inputs[i]) == preset)
            input_row(&r->inputs[i], preset, out);
    fputs("</tbody></table></div>\n", out);
}

static size_t input_count(const struct dew_report *r, int preset)
{
    size_t count = 0;

    for (size_t i = 0; i < r->input_count; i++)
        count += is_preset(&r->inputs[i]) == preset;
    return count;
}

void dew__part_inputs(const struct dew_report *r, FILE *out)
{
    size_t told = input_count(r, 0), taken = input_count(r, 1);

    fputs("<section id=\"inputs\"><h2>What was put in</h2>\n", out);
    if (told > 0) {
        fprintf(out,
                "<details open=\"open\"><summary>Told: %zu values</summary>\n",
                told);
        input_table(r, 0, out);
        fputs("</details>\n", out);
    }
    if (taken > 0) {
        fprintf(out,
                "<details><summary>DEFAULT, not told: %zu values. Look through "
                "them: each may be wrong for this house</summary>\n",
                taken);
        input_table(r, 1, out);
        fputs("</details>\n", out);
    }
    fputs("</section>\n", out);
}

/* ---- method ------------------------------------------------------------------------- */

/* What the pieces of the model are; its labels are listed by sources(). */
static const char how[] =
    "The house is one mixed zone: one temperature, one humidity, one content "
    "of carbon dioxide. Each hour of the weather is marched through its "
    "leakage [ASH-F16], ventilator, cooling coil [HR96], dehumidifier, people, "
    "walls and glass [ISO13790], and the water that furnishings hold [WWC13]. "
    "Moist air follows [HW83].";

static const char limits[] =
    "What this cannot see: rooms behind shut doors, the inside of walls and "
    "roofs, a cold corner behind a cupboard, one storey apart from another. "
    "Surfaces are judged from the air of the house by a temperature factor. "
    "Weather is one year: another will differ. It is a planning aid: local "
    "code, the maker's manual and the inspector come first.";

static void judging(const struct dew_report *r, FILE *out)
{
    char text[1000];

    fprintf(out, "<p>%s</p>\n", dew__judged(r, text, sizeof text));
}

static void closure(const struct dew_report *r, FILE *out)
{
    char text[40];

    dew_number_print(dew__worst_closure(r), 2, text, sizeof text);
    fprintf(out,
            "<p>The books of water and heat are closed every hour; over the "
            "year they close to %s of what went through them.</p>\n",
            text);
}

/* What the reading of a weather file left out and mended. */
static void weather_notes(const struct dew_report *r, FILE *out)
{
    if (r->weather_note_count == 0)
        return;
    fputs("<p>Of the weather file:</p>\n<ul>", out);
    for (size_t i = 0; i < r->weather_note_count; i++) {
        fputs("<li>", out);
        dew__escape(out, r->weather_notes[i]);
        fputs("</li>", out);
    }
    fputs("</ul>\n", out);
}

void dew__part_method(const struct dew_report *r, FILE *out)
{
    fprintf(out,
            "<section id=\"method\"><h2>How it was worked out, and its "
            "limits</h2>\n<p>%s</p>\n",
            how);
    judging(r, out);
    closure(r, out);
    weather_notes(r, out);
    fprintf(out, "<p>%s</p></section>\n", limits);
}

/* ---- sources ------------------------------------------------------------------------ */

static int is_label_letter(char c)
{
    return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-';
}

/* Whether text holds that label as a word of its own. */
static int cites(const char *text, const char *label, size_t length)
{
    for (const char *s = text; *s != '\0'; s++)
        if ((s == text || !is_label_letter(s[-1])) &&
            strncmp(s, label, length) == 0 && !is_label_letter(s[length]))
            return 1;
    return 0;
}

static int cited(const struct dew_report *r, const char *label, size_t length)
{
    if (cites(how, label, length))
        return 1;
    for (size_t i = 0; i < r->caution_count; i++)
        if (cites(r->cautions[i].source, label, length))
            return 1;
    for (size_t i = 0; i < r->input_count; i++)
        if (cites(r->inputs[i].source, label, length))
            return 1;
    return 0;
}

static void source(const char *label, size_t length, FILE *out)
{
    const char *text = label + length + 1; /* past "]" */
    char line[600];

    fprintf(out, "<li><strong>%.*s</strong>", (int)length, label);
    snprintf(line, sizeof line, "%.*s", (int)strcspn(text, "\n"), text);
    dew__escape(out, line);
    fputs("</li>\n", out);
}

void dew__part_sources(const struct dew_report *r, FILE *out)
{
    const char *line = dew__data_references_md;

    fputs("<section id=\"sources\"><h2>Sources</h2>\n<p>Those that this page "
          "cites; the manual lists all. \"From memory\" means that the figure "
          "was not looked up again.</p>\n<ul class=\"plain\">\n",
          out);
    while ((line = strstr(line, "\n* [")) != NULL) {
        const char *label = line + strlen("\n* [");
        size_t length = strcspn(label, "]\n");

        if (label[length] == ']' && cited(r, label, length))
            source(label, length, out);
        line = label;
    }
    fputs("</ul></section>\n", out);
}

/* ---- origin -------------------------------------------------------------------------- */

static void place(const struct dew_report *r, FILE *out)
{
    const struct dew_site *s = r->site;

    if (s == NULL || !isfinite(s->latitude) || !isfinite(s->longitude))
        return;
    fprintf(out, "<li>Site: %s deg %s, %s deg %s, %s above the sea</li>\n",
            dew__number(fabs(s->latitude), 2).text,
            s->latitude < 0 ? "south" : "north",
            dew__number(fabs(s->longitude), 2).text,
            s->longitude < 0 ? "west" : "east",
            dew__amount(s->elevation, DEW_LENGTH, r->system, 0).text);
}

void dew__part_origin(const struct dew_report *r, FILE *out)
{
    fputs("<section id=\"origin\"><h2>What this page was made from</h2>\n<ul "
          "class=\"plain\">\n<li>Weather: ",
          out);
    dew__escape(out, r->weather ? r->weather : "not told");
    fprintf(out, "; %zu hours</li>\n", r->question->choices[0].outcome->count);
    place(r, out);
    for (size_t i = 0; i < r->file_count; i++)
        fprintf(out, "<li>The %s file: SHA-256 <code>%s</code></li>\n",
                r->files[i].role, r->files[i].sha256);
    fputs("<li>The program: dewledger ", out);
    dew__escape(out, r->version);
    fputs("</li>\n</ul></section>\n", out);
}
