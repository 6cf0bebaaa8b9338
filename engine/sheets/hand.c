/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the sheets to hand over share. */
#include "sheets/hand.h"

#include <math.h>
#include <string.h>

#include "core/embed.h"
#include "core/fail.h"
#include "core/numeric.h"
#include "report/caution.h"
#include "report/words.h"

DEW__EMBEDDED(hand_css);

static int is_best(const struct dew_report *r)
{
    return r->verdict->best >= 0 &&
           (size_t)r->verdict->best == dew__hand_option(r);
}

static void head(const struct dew_report *r, const char *whom, FILE *out)
{
    char span[200];

    fprintf(out,
            "<!DOCTYPE html>\n<html lang=\"en\"><head><meta "
            "charset=\"utf-8\"/>\n<meta name=\"viewport\" "
            "content=\"width=device-width, initial-scale=1\"/>\n<title>%s: ",
            whom);
    dew__escape(out, dew__option(r, (int)dew__hand_option(r)).text);
    fprintf(out, "</title>\n<style>\n%s</style></head>\n<body><header><h1>%s",
            dew__data_hand_css, whom);
    fputs("</h1><div class=\"for\">", out);
    dew__escape(out, r->title && r->title[0] ? r->title : "Untitled");
    fputs("<br/>Option: <strong>", out);
    dew__escape(out, dew__option(r, (int)dew__hand_option(r)).text);
    fputs(is_best(r) || r->question->count == 1 ? "</strong>"
          : r->handed != NULL ? "</strong> (as picked, not the best)"
          : dew__picked(r) < 0
              ? "</strong> (none will do; the nearest)"
              : "</strong> (one of several that will do; no best is told, for "
                "want of prices)",
          out);
    fputs("</div></header>\n<main>\n", out);
    dew_report_span(r->question->choices[0].outcome->count, span, sizeof span);
    if (span[0] != '\0') {
        fputs("<p>", out);
        dew__escape(out, span);
        fputs("</p>\n", out);
    }
}

static void foot(const struct dew_report *r, FILE *out)
{
    int year = strcmp(dew__span(r).text, "year") == 0;

    fprintf(out,
            "</main>\n<footer>A planning aid, computed for one mixed zone and "
            "%s%s of weather. Local code, the maker's manual and the "
            "inspector come first. Weather: ",
            year ? "one " : "", dew__span(r).text);
    dew__escape(out, r->weather ? r->weather : "not told");
    fputs(". Made by dewledger ", out);
    dew__escape(out, r->version);
    for (size_t i = 0; i < r->file_count; i++)
        fprintf(out, "; %s %.16s", r->files[i].role, r->files[i].sha256);
    fputs(" (SHA-256, first digits).</footer>\n</body></html>\n", out);
}

static int is_of(const struct dew_report *r, const struct dew_caution *c,
                 int scope)
{
    size_t option = dew__hand_option(r);

    if (c->options == 0)
        return (scope & DEW__OF_HOUSE) != 0;
    return (scope & DEW__OF_OPTION) != 0 && option < 64 &&
           (c->options >> option & 1) != 0;
}

/* The pressure on a sheet is that of the sheet's option, not the worst. */
static void caution(const struct dew_report *r, const struct dew_caution *c,
                    FILE *out)
{
    char pressure[DEW__PRESSURE_LONG];

    fprintf(out, "<li><span class=\"level\">%s</span>",
            dew_cautions_level(c->level));
    dew__escape(out, dew__open(c) ? "Not said whether " : "");
    dew__escape(out, dew__open(c) ? dew__open_rest(c) : c->text);
    dew__escape(out, dew__pressure(r, c, (int)dew__hand_option(r), pressure,
                                   sizeof pressure));
    fputs("</li>\n", out);
}

/* Those told, or those asked, as far as the sheet is about them. */
static void of_kind(const struct dew_report *r, enum dew_caution_level level,
                    int scope, int open, FILE *out)
{
    for (size_t i = 0; i < r->caution_count; i++) {
        const struct dew_caution *c = &r->cautions[i];

        if (c->level != level || !is_of(r, c, scope) || dew__open(c) != open)
            continue;
        caution(r, c, out);
    }
}

void dew__hand_cautions(const struct dew_report *r,
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

void dew__hand_row(FILE *out, const char *name, const char *value)
{
    fputs("<tr><th scope=\"row\">", out);
    dew__escape(out, name);
    fputs("</th><td>", out);
    dew__escape(out, value);
    fputs("</td></tr>\n", out);
}

void dew__hand_blank(FILE *out, int letters)
{
    fprintf(out, "<span class=\"blank\" style=\"width:%dch\">&#160;</span>",
            letters);
}

enum dew_status dew__hand_write(const struct dew_report *r, const char *whom,
                                void (*fill)(const struct dew_report *r,
                                             FILE *out),
                                FILE *out, struct dew_error *err)
{
    struct dew__numeric n;

    if (!dew__numeric_c(&n))
        return dew__fail(err, DEW_EMEM, "no memory for the sheet");
    head(r, whom, out);
    fill(r, out);
    foot(r, out);
    dew__numeric_back(&n);
    if (fflush(out) != 0 || ferror(out))
        return dew__fail(err, DEW_EIO, "the sheet could not be written");
    return DEW_OK;
}
