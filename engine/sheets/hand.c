/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the sheets to hand over share. */
#include "sheets/hand.h"

#include <string.h>

#include "core/embed.h"
#include "report/caution.h"
#include "report/markup.h"
#include "report/words.h"

CORE__EMBEDDED(hand_css);

static int is_best(const struct dew_report *r)
{
    return r->verdict->best >= 0 &&
           (size_t)r->verdict->best == report__hand_option(r);
}

static void head(const struct dew_report *r, const char *whom, FILE *out)
{
    static const char *const css[] = {core__data_hand_css, NULL};
    struct report__word option = report__option(r, (int)report__hand_option(r));
    char before[80], span[200];

    snprintf(before, sizeof before, "%s: ", whom);
    report__html_open(out, before, option.text, css);
    report__html(
        out,
        "<header><h1>%s</h1><div class=\"for\">%s<br/>Option: <strong>%s"
        "</strong>%s</div></header>\n<main>\n",
        whom, report__title(r->title), option.text,
        is_best(r) || r->question->count == 1 ? ""
        : r->handed != NULL                   ? " (as picked, not the best)"
        : report__picked(r) < 0
            ? " (none will do; the nearest)"
            : " (one of several that will do; no best is told, for "
              "want of prices)");
    dew_report_span(r->question->choices[0].outcome->count, span, sizeof span);
    if (span[0] != '\0')
        report__html(out, "<p>%s</p>\n", span);
}

static void foot(const struct dew_report *r, FILE *out)
{
    int year = strcmp(report__span(r).text, "year") == 0;

    report__html(
        out,
        "</main>\n<footer>A planning aid, computed for one mixed zone and "
        "%s%s of weather. Local code, the maker's manual and the "
        "inspector come first. Weather: %s. Made by dewledger %s",
        year ? "one " : "", report__span(r).text,
        r->weather ? r->weather : "not given", r->version);
    for (size_t i = 0; i < r->file_count; i++)
        fprintf(out, "; %s %.16s", r->files[i].role, r->files[i].sha256);
    fputs(" (SHA-256, first digits).</footer>\n</body></html>\n", out);
}

static int is_of(const struct dew_report *r, const struct dew_caution *c,
                 int scope)
{
    size_t option = report__hand_option(r);

    if (c->options == 0)
        return (scope & SHEETS__OF_HOUSE) != 0;
    return (scope & SHEETS__OF_OPTION) != 0 && option < 64 &&
           (c->options >> option & 1) != 0;
}

/* Those told, or those asked, as far as the sheet is about them.  The pressure
   is that of the sheet's option, not the worst. */
static void of_kind(const struct dew_report *r, enum dew_caution_level level,
                    int scope, int open, FILE *out)
{
    char pressure[REPORT__PRESSURE_LONG];

    for (size_t i = 0; i < r->caution_count; i++) {
        const struct dew_caution *c = &r->cautions[i];

        if (c->level != level || !is_of(r, c, scope) || report__open(c) != open)
            continue;
        report__pressure(r, c, (int)report__hand_option(r), pressure,
                         sizeof pressure);
        (level == DEW_STOP ? report__caution_html
                           : report__caution_listed)(c, NULL, pressure, out);
    }
}

void sheets__hand_cautions(const struct dew_report *r,
                           enum dew_caution_level level, int scope, FILE *out)
{
    int any = 0;

    for (size_t i = 0; i < r->caution_count; i++)
        any |=
            r->cautions[i].level == level && is_of(r, &r->cautions[i], scope);
    if (!any)
        return;
    fprintf(out, "<ul class=\"cautions %s\">\n",
            level == DEW_STOP ? "stop" : "check columns");
    of_kind(r, level, scope, 0, out);
    of_kind(r, level, scope, 1, out);
    fputs("</ul>\n", out);
}

void sheets__hand_blanks(FILE *out, const char *text)
{
    for (const char *s = text; *s != '\0'; s++)
        if (*s == '_') {
            size_t letters = strspn(s, "_");

            fprintf(out,
                    "<span class=\"blank\" style=\"width:%zuch\">&#160;"
                    "</span>",
                    letters);
            s += letters - 1;
        } else {
            fputc(*s, out);
        }
}

static void sheet(const void *of, FILE *out)
{
    const struct sheets__hand *h = of;

    head(h->r, h->whom, out);
    h->fill(h->r, out);
    foot(h->r, out);
}

enum dew_status sheets__hand_write(const struct sheets__hand *hand, FILE *out,
                                   struct dew_error *err)
{
    return report__filled("the sheet", sheet, hand, out, err);
}
