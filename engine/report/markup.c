/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writing pages and drawings. */
#include "report/markup.h"

#include <stdarg.h>

#include "core/clean.h"
#include "core/fail.h"
#include "core/numeric.h"

void report__escape(FILE *out, const char *text)
{
    char clean[REPORT__ESCAPED];

    for (const char *s = core__clean(text, clean, sizeof clean); *s; s++)
        switch (*s) {
        case '&':
            fputs("&amp;", out);
            break;
        case '<':
            fputs("&lt;", out);
            break;
        case '>':
            fputs("&gt;", out);
            break;
        case '"':
            fputs("&quot;", out);
            break;
        default:
            fputc(*s, out);
        }
}

/* One conversion, from its "%"; returns its last letter. */
static const char *convert(FILE *out, const char *s, va_list *args)
{
    int own = s[1] == '-', places = 0;

    s += own;
    if (s[1] == '.') {
        places = s[2] - '0';
        s += 2;
    }
    switch (*++s) {
    case 's':
        if (own)
            fputs(va_arg(*args, const char *), out);
        else
            report__escape(out, va_arg(*args, const char *));
        break;
    case 'd':
        fprintf(out, "%d", va_arg(*args, int));
        break;
    case 'z':
        fprintf(out, "%zu", va_arg(*args, size_t));
        return s + 1;
    case 'f':
        fprintf(out, "%.*f", places, va_arg(*args, double));
        break;
    default:
        fputc(*s, out);
    }
    return s;
}

/* Between two cells, the first pair apart; NULL: "|" is a letter. */
static void write(FILE *out, const char *format, const char *const between[2],
                  va_list *args)
{
    int cells = 0;

    for (const char *s = format; *s != '\0'; s++)
        if (*s == '%')
            s = convert(out, s, args);
        else if (*s == '|' && between != NULL)
            fputs(between[cells++ > 0], out);
        else
            fputc(*s, out);
}

void report__html(FILE *out, const char *format, ...)
{
    va_list args;

    va_start(args, format);
    write(out, format, NULL, &args);
    va_end(args);
}

void report__html_row(FILE *out, const char *format, ...)
{
    static const char *const between[2] = {"</th><td>", "</td><td>"};
    va_list args;

    fputs("<tr><th scope=\"row\">", out);
    va_start(args, format);
    write(out, format, between, &args);
    va_end(args);
    fputs("</td></tr>\n", out);
}

void report__html_heads(FILE *out, const char *format, ...)
{
    static const char next[] = "</th><th scope=\"col\">";
    static const char *const between[2] = {next, next};
    va_list args;

    fputs("<thead><tr><th scope=\"col\">", out);
    va_start(args, format);
    write(out, format, between, &args);
    va_end(args);
    fputs("</th></tr></thead><tbody>\n", out);
}

void report__html_open(FILE *out, const char *before, const char *title,
                       const char *const *css)
{
    report__html(
        out,
        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta "
        "charset=\"utf-8\"/>\n<meta name=\"viewport\" "
        "content=\"width=device-width, initial-scale=1\"/>\n<title>%s%s"
        "</title>\n<style>\n",
        before, title);
    for (; *css != NULL; css++)
        fputs(*css, out);
    fputs("</style></head>\n<body>", out);
}

enum dew_status report__filled(const char *what,
                               void (*fill)(const void *of, FILE *out),
                               const void *of, FILE *out, struct dew_error *err)
{
    struct core__numeric n;

    if (!core__numeric_c(&n))
        return core__fail(err, DEW_EMEM, "no memory for %s", what);
    fill(of, out);
    core__numeric_back(&n);
    if (fflush(out) != 0 || ferror(out))
        return core__fail(err, DEW_EIO, "%s could not be written", what);
    return DEW_OK;
}
