/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts of the page that are pieces of text. */
#include "sheets/page_parts.h"

#include <math.h>
#include <string.h>

#include "core/embed.h"
#include "report/caution.h"
#include "report/markup.h"
#include "report/words.h"

CORE__EMBEDDED(references_md);
CORE__EMBEDDED(words_md);

/* ---- cautions --------------------------------------------------------------------- */

/* "every option", with "but" the one that is not; "" of others. */
static char *nearly_all(const struct dew_report *r, uint64_t options, char *out,
                        size_t size)
{
    size_t count = r->question->count, n = 0, without = 0;

    out[0] = '\0';
    for (size_t i = 0; i < count && i < 64; i++)
        if (options >> i & 1)
            n++;
        else
            without = i;
    if (count > 1 && n == count)
        snprintf(out, size, "every option");
    else if (count > 3 && n + 1 == count)
        snprintf(out, size, "every option but %s",
                 report__option(r, (int)without).text);
    return out;
}

/* Of every option, or of these by name; "" of none. */
static char *whose(const struct dew_report *r, const struct dew_caution *c,
                   char *out, size_t size)
{
    size_t count = r->question->count, n = 0, at = 0;

    if (nearly_all(r, c->options, out, size)[0] != '\0')
        return out;
    for (size_t i = 0; i < count && i < 64 && at < size; i++)
        if (c->options >> i & 1)
            at += (size_t)snprintf(out + at, size - at, "%s%s",
                                   n++ > 0 ? ", " : "",
                                   report__option(r, (int)i).text);
    return out;
}

/* A STOP in one line that unfolds, any other in full. */
static void caution(const struct dew_report *r, const struct dew_caution *c,
                    FILE *out)
{
    char pressure[REPORT__PRESSURE_LONG], names[REPORT__ESCAPED];

    report__pressure(r, c, DEW_NO_OPTION, pressure, sizeof pressure);
    whose(r, c, names, sizeof names);
    if (c->level == DEW_STOP && !report__open(c))
        report__caution_folded(c, names, pressure, out);
    else if (report__open(c))
        report__caution_html(c, names, pressure, out);
    else
        report__caution_listed(c, names, pressure, out);
}

enum { OPEN = DEW_CAUTION_LEVELS };

/* What was told or computed of a level, or what was not said: OPEN. */
static int is_listed(const struct dew_caution *c, int list)
{
    return report__open(c) ? list == OPEN : list == (int)c->level;
}

static int has(const struct dew_report *r, int list)
{
    for (size_t i = 0; i < r->caution_count; i++)
        if (is_listed(&r->cautions[i], list))
            return 1;
    return 0;
}

static void cautions(const struct dew_report *r, int list, FILE *out)
{
    for (size_t i = 0; i < r->caution_count; i++)
        if (is_listed(&r->cautions[i], list))
            caution(r, &r->cautions[i], out);
}

static void headed(const struct dew_report *r, int list, const char *heading,
                   FILE *out)
{
    if (!has(r, list))
        return;
    fprintf(out, "<h3%s</h3>\n<ul class=\"cautions\">\n", heading);
    cautions(r, list, out);
    fputs("</ul>\n", out);
}

void sheets__part_stops(const struct dew_report *r, FILE *out)
{
    char open[2000];

    report__open_stops(r, open, sizeof open);
    if (!has(r, DEW_STOP) && open[0] == '\0')
        return;
    fputs("<section class=\"stop\" id=\"stop\" aria-label=\"Before anything "
          "else\">\n<ul class=\"cautions\">\n",
          out);
    cautions(r, DEW_STOP, out);
    if (open[0] != '\0')
        report__html(out,
                     "<li><details><summary><span class=\"level\">%s</span>%s"
                     "</summary><p>%s <a href=\"#questions\">What hangs on "
                     "each, and how to answer</a></p></details></li>\n",
                     dew_cautions_level(DEW_STOP),
                     report__open_stops_brief(r).text, open);
    fputs("</ul></section>\n", out);
}

void sheets__part_cautions(const struct dew_report *r, FILE *out)
{
    fputs("<section id=\"cautions\"><h2>Cautions</h2>\n", out);
    if (has(r, DEW_STOP))
        fputs("<p>What you told us of that says STOP stands at the top of the "
              "page.</p>\n",
              out);
    report__html(out, "<p class=\"sub\">%s</p>\n", report__levels);
    headed(r, OPEN, " id=\"questions\">You have not said whether ...", out);
    headed(r, DEW_CHECK, ">To check", out);
    headed(r, DEW_NOTE, ">To know", out);
    fputs("</section>\n", out);
}

/* ---- inputs ------------------------------------------------------------------------ */

static int is_preset(const struct dew_report_input *in)
{
    return strcmp(in->origin, "default") == 0;
}

static void input_table(const struct dew_report *r, int preset, FILE *out)
{
    fputs("<div class=\"wide\"><table class=\"inputs\">", out);
    report__html_heads(
        out, "Key|Value|Option|%s",
        preset ? "Where the default is from (common practice: no source)"
               : "From");
    for (size_t i = 0; i < r->input_count; i++) {
        const struct dew_report_input *in = &r->inputs[i];

        if (is_preset(in) == preset)
            report__html(out,
                         "<tr><td><code>%s</code></td><td>%s</td><td>%s</td>"
                         "<td>%s</td></tr>\n",
                         in->key, in->value,
                         in->option[0] ? in->option : "every option",
                         preset ? report__source(in->source, "common practice")
                                : in->origin);
    }
    fputs("</tbody></table></div>\n", out);
}

static void inputs(const struct dew_report *r, int preset, const char *before,
                   const char *after, FILE *out)
{
    size_t count = 0;

    for (size_t i = 0; i < r->input_count; i++)
        count += is_preset(&r->inputs[i]) == preset;
    if (count == 0)
        return;
    fprintf(out, "%s%zu values%s</summary>\n", before, count, after);
    input_table(r, preset, out);
    fputs("</details>\n", out);
}

void sheets__part_inputs(const struct dew_report *r, FILE *out)
{
    fputs("<section id=\"inputs\"><h2>What was put in</h2>\n", out);
    inputs(r, 0, "<details><summary>Given: ", "", out);
    inputs(r, 1, "<details class=\"taken\"><summary>DEFAULT, not given: ",
           ". Look through them: each may be wrong for this house", out);
    fputs("<p class=\"paper\">On paper the defaults are left out: look through "
          "them in report.html, or with \"dewledger check\".</p>\n",
          out);
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

/* What the reading of a weather file left out and mended. */
static void weather_notes(const struct dew_report *r, FILE *out)
{
    if (r->weather_note_count == 0)
        return;
    fputs("<p>Of the weather file:</p>\n<ul>", out);
    for (size_t i = 0; i < r->weather_note_count; i++)
        report__html(out, "<li>%s</li>", r->weather_notes[i]);
    fputs("</ul>\n", out);
}

void sheets__part_method(const struct dew_report *r, FILE *out)
{
    char judged[1000], closure[40];

    dew_number_print(report__closes_within(r), 2, closure, sizeof closure);
    fprintf(
        out,
        "<section id=\"method\"><h2>How it was worked out, and its "
        "limits</h2>\n<p>%s</p>\n<p>%s</p>\n<p>The books of water and "
        "heat are closed every hour; over the year they close to within %s of "
        "what went through them.</p>\n",
        how, report__judged(r, judged, sizeof judged), closure);
    weather_notes(r, out);
    fprintf(out, "<p>%s</p></section>\n", limits);
}

/* ---- words --------------------------------------------------------------------- */

static const char *const words[] = {
    "Relative humidity, RH", "Points",    "Dew point",   "Could dry",
    "Fresh air asked for",   "Core",      "Mould index", "Pays back",
    "STOP, CHECK, NOTE",     "Made year",
};

/* A paragraph up to the blank line behind it, without marks of emphasis. */
static void paragraph(const char *text, FILE *out)
{
    const char *end = strstr(text, "\n\n");
    size_t length = end != NULL ? (size_t)(end - text) : strlen(text);
    char plain[1000];
    size_t at = 0;

    for (size_t i = 0; i < length && at + 1 < sizeof plain; i++)
        if (text[i] != '*' && text[i] != '`')
            plain[at++] = (char)(text[i] == '\n' ? ' ' : text[i]);
    plain[at] = '\0';
    report__html(out, "%s", plain);
}

void sheets__part_words(FILE *out)
{
    char head[80];

    fputs("<section id=\"words\"><h2>Words</h2>\n<ul class=\"plain\">\n", out);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        const char *text;

        snprintf(head, sizeof head, "\n**%s.**", words[i]);
        text = strstr(core__data_words_md, head);
        if (text == NULL)
            continue;
        report__html(out, "<li><strong>%s.</strong>", words[i]);
        paragraph(text + strlen(head), out);
        fputs("</li>\n", out);
    }
    fputs("</ul></section>\n", out);
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
    char name[80], line[600];

    snprintf(name, sizeof name, "%.*s", (int)length, label);
    snprintf(line, sizeof line, "%.*s", (int)strcspn(text, "\n"), text);
    report__html(out, "<li><strong>%s</strong>%s</li>\n", name, line);
}

void sheets__part_sources(const struct dew_report *r, FILE *out)
{
    const char *line = core__data_references_md;

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
            report__number(fabs(s->latitude), 2).text,
            s->latitude < 0 ? "south" : "north",
            report__number(fabs(s->longitude), 2).text,
            s->longitude < 0 ? "west" : "east",
            report__amount(s->elevation, DEW_LENGTH, r->system, 0).text);
}

void sheets__part_origin(const struct dew_report *r, FILE *out)
{
    report__html(
        out,
        "<section id=\"origin\"><h2>What this page was made from</h2>\n<ul "
        "class=\"plain\">\n<li>Weather: %s; %zu hours</li>\n",
        r->weather ? r->weather : "not given",
        r->question->choices[0].outcome->count);
    place(r, out);
    for (size_t i = 0; i < r->file_count; i++)
        fprintf(out, "<li>The %s file: SHA-256 <code>%s</code></li>\n",
                r->files[i].role, r->files[i].sha256);
    report__html(out, "<li>The program: dewledger %s</li>\n</ul></section>\n",
                 r->version);
}
