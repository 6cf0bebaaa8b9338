/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "core/clean.h"
#include "core/fail.h"

const char *dew_status_text(enum dew_status status)
{
    static const char *const text[] = {
#define X(code, words) words,
        DEW_STATUS_MAP(X)
#undef X
    };
    if ((unsigned)status >= DEW_STATUS_COUNT)
        return "unknown status";
    return text[status];
}

/* Copy the end of from when the whole does not fit: a file's name is there. */
static void copy_tail(char *to, size_t size, const char *from)
{
    size_t length;

    from = from != NULL ? from : "";
    length = strlen(from);
    if (length < size)
        memcpy(to, from, length + 1);
    else
        snprintf(to, size, "...%s", from + length - (size - 4));
}

void core__at(struct dew_error *err, const char *source, int line, int column)
{
    if (err == NULL || err->status != DEW_OK)
        return;
    copy_tail(err->source, sizeof err->source, source);
    err->line = line;
    err->column = column;
}

void core__in(struct dew_error *err, const char *path)
{
    if (err != NULL && err->status == DEW_OK)
        copy_tail(err->path, sizeof err->path, path);
}

void core__in_row(struct dew_error *err, const char *list, size_t i,
                  const char *member)
{
    char path[sizeof err->path];

    snprintf(path, sizeof path, "%s[%zu]%s%s", list, i, member ? "." : "",
             member ? member : "");
    core__in(err, path);
}

void core__blame(struct dew_error *err, enum dew_status status,
                 const char *format, ...)
{
    va_list args;

    if (err == NULL || err->status != DEW_OK)
        return;
    err->status = status;
    va_start(args, format);
    vsnprintf(err->text, sizeof err->text, format, args);
    va_end(args);
}

char *dew_error_line(const struct dew_error *err, char *out, size_t size)
{
    char place[160] = "", line[600];

    if (err->line > 0)
        snprintf(place, sizeof place, "%s:%d:%d: ", err->source, err->line,
                 err->column);
    else if (err->hour > 0)
        snprintf(place, sizeof place, "hour %d: ", err->hour);
    else if (err->source[0] != '\0')
        snprintf(place, sizeof place, "%s: ", err->source);
    snprintf(line, sizeof line, "%s%s%s%s", place, err->path,
             err->path[0] ? ": " : "", err->text);
    return core__clean(line, out, size);
}

enum dew_status core__fault(struct dew_faults *faults,
                            const struct dew_error *err)
{
    if (faults == NULL)
        return err->status;
    if (faults->count < faults->room)
        faults->list[faults->count] = *err;
    faults->count++;
    return err->status;
}

/* Those of the file, then of --set, then those without a line. */
static int group_of(const struct dew_error *e, const char *source)
{
    if (e->line <= 0)
        return 2;
    return strcmp(e->source, source) == 0    ? 0
           : strcmp(e->source, "--set") == 0 ? 1
                                             : 2;
}

static int comes_before(const struct dew_error *a, const struct dew_error *b,
                        const char *source)
{
    int of_a = group_of(a, source), of_b = group_of(b, source);

    if (of_a != of_b || of_a == 2)
        return of_a < of_b;
    return a->line != b->line ? a->line < b->line : a->column < b->column;
}

void core__faults_in_order(struct dew_faults *faults, const char *source)
{
    size_t n;

    if (faults == NULL)
        return;
    n = faults->count < faults->room ? faults->count : faults->room;
    for (size_t i = 1; i < n; i++) {
        struct dew_error one = faults->list[i];
        size_t k = i;

        for (; k > 0 && comes_before(&one, &faults->list[k - 1], source); k--)
            faults->list[k] = faults->list[k - 1];
        faults->list[k] = one;
    }
}
