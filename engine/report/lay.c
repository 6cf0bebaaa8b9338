/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text in 80 columns. */
#include "report/lay.h"

#include <string.h>

#include "report/words.h"

/* Bytes of the first width characters of text. */
static size_t bytes_of(const char *text, int width)
{
    size_t at = 0;

    while (text[at] != '\0') {
        if (((unsigned char)text[at] & 0xc0) != 0x80 && width-- == 0)
            break;
        at++;
    }
    return at;
}

/* Bytes that go on a line of room columns: to the last space that fits. */
static size_t line_of(const char *text, int room)
{
    size_t most = bytes_of(text, room), at = most;

    if (text[most] == '\0' || text[most] == ' ')
        return most;
    while (at > 0 && text[at - 1] != ' ')
        at--;
    while (at > 0 && text[at - 1] == ' ')
        at--;
    return at > 0 ? at : most;
}

void report__wrap(FILE *out, const char *head, const char *text)
{
    int indent = report__width(head);

    fputs(head, out);
    for (;;) {
        size_t length = line_of(text, REPORT__COLUMNS - indent);

        fwrite(text, 1, length, out);
        fputc('\n', out);
        text += length;
        while (*text == ' ')
            text++;
        if (*text == '\0')
            return;
        fprintf(out, "%*s", indent, "");
    }
}

static void cut(FILE *out, const char *text, int width)
{
    fwrite(text, 1, bytes_of(text, width - 1), out);
    fputc('~', out);
}

void report__left(FILE *out, const char *text, int width)
{
    int taken = report__width(text);

    if (taken > width)
        cut(out, text, width);
    else
        fprintf(out, "%s%*s", text, width - taken, "");
}

void report__right(FILE *out, const char *text, int width)
{
    int taken = report__width(text);

    if (taken > width)
        cut(out, text, width);
    else
        fprintf(out, "%*s%s", width - taken, "", text);
}

void report__heading(FILE *out, const char *text)
{
    fprintf(out, "\n%s\n", text);
    for (int i = report__width(text); i > 0; i--)
        fputc('-', out);
    fputc('\n', out);
}
