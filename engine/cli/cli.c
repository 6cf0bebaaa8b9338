/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Messages, results and words of the command line. */
#include "cli/cli.h"

#include <ctype.h>
#include <math.h>
#include <poll.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include "core/clean.h"
#include "core/fail.h"

enum { MESSAGE = 5000 }; /* the longest path and words around it */

/* Cleaned as a whole: a message is one line. */
int cli__fail(enum cli__exit code, const char *format, ...)
{
    char line[MESSAGE];
    va_list args;

    fflush(stdout);
    va_start(args, format);
    vsnprintf(line, sizeof line, format, args);
    va_end(args);
    fputs("dewledger: ", stderr);
    cli__put(stderr, line);
    fputc('\n', stderr);
    return (int)code;
}

void cli__usage(struct argp_state *state, const char *format, ...)
{
    char line[MESSAGE], clean[MESSAGE];
    va_list args;

    va_start(args, format);
    vsnprintf(line, sizeof line, format, args);
    va_end(args);
    argp_error(state, "%s", core__clean(line, clean, sizeof clean));
}

void cli__put(FILE *out, const char *text)
{
    core__clean_put(out, text, strlen(text));
}

enum cli__exit cli__code(enum dew_status status)
{
    switch (status) {
    case DEW_OK:
        return CLI__DONE;
    case DEW_EMEM:
    case DEW_EIO:
    case DEW_EBALANCE:
        return CLI__FAILED;
    default:
        return CLI__BAD_INPUT;
    }
}

int cli__unread(void)
{
    struct pollfd out = {.fd = STDOUT_FILENO, .events = POLLOUT};

    return ferror(stdout) && poll(&out, 1, 0) == 1 && (out.revents & POLLERR);
}

int cli__error(const struct dew_error *err)
{
    char line[512];

    /* not of a file: the fault is the pipe, see see_it_out in main.c */
    if (err->status == DEW_EIO && err->source[0] == '\0' && cli__unread())
        return CLI__FAILED;
    return cli__fail(cli__code(err->status), "%s",
                     dew_error_line(err, line, sizeof line));
}

/* That a file which the user named cannot be read is bad input. */
int cli__faults(const struct dew_faults *faults)
{
    size_t shown = faults->count < faults->room ? faults->count : faults->room;
    int worst = CLI__DONE;

    for (size_t i = 0; i < shown; i++) {
        int code = cli__error(&faults->list[i]);

        if (faults->list[i].status == DEW_EIO)
            code = CLI__BAD_INPUT;
        worst = code > worst ? code : worst;
    }
    if (faults->count > shown)
        cli__fail(CLI__BAD_INPUT, "and %zu more", faults->count - shown);
    return worst;
}

/* ---- the nearest word ---------------------------------------------------- */

enum { LONGEST_WORD = 63 };

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

/*
 * Letters to add, drop, change or swap with a neighbour to get from a to b
 * (optimal string alignment).  Three rows: before last, last, this.
 */
static size_t distance(const char *a, const char *b)
{
    size_t rows[3][LONGEST_WORD + 1], n = strlen(b);
    size_t *before = rows[0], *last = rows[1], *this = rows[2];

    for (size_t j = 0; j <= n; j++)
        last[j] = j;
    for (size_t i = 1; a[i - 1] != '\0'; i++) {
        size_t *spare = before;

        this[0] = i;
        for (size_t j = 1; j <= n; j++) {
            this[j] = least(last[j - 1] + (a[i - 1] != b[j - 1]),
                            1 + least(last[j], this[j - 1]));
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                this[j] = least(this[j], before[j - 2] + 1);
        }
        before = last;
        last = this;
        this = spare;
    }
    return last[n];
}

const char *cli__nearest(const char *word, const char *const *names,
                         size_t count)
{
    /* alike: one slip, or one in three letters */
    size_t length = strlen(word), best = length / 3 + 1;
    const char *near = NULL;

    if (length < 2 || length > LONGEST_WORD)
        return NULL;
    best = best < 2 ? 2 : best;
    for (size_t i = 0; i < count; i++) {
        size_t named = strlen(names[i]), d;

        if (named < 2 || named > LONGEST_WORD)
            continue;
        d = distance(word, names[i]);
        if (d < best) {
            best = d;
            near = names[i];
        }
    }
    return near;
}

/* ---- results -------------------------------------------------------------- */

/* Two passes, into room that is there: jansson's own json_dumps loses a key
   that it has none for. */
char *cli__json_text(const json_t *root)
{
    const size_t how = JSON_INDENT(2) | JSON_REAL_PRECISION(10);
    size_t length = root != NULL ? json_dumpb(root, NULL, 0, how) : 0;
    char *text = length > 0 ? malloc(length + 1) : NULL;

    if (text == NULL)
        return NULL;
    text[length] = '\0';
    if (json_dumpb(root, text, length, how) == length)
        return text;
    free(text);
    return NULL;
}

int cli__json(json_t *root)
{
    char *text = cli__json_text(root);

    json_decref(root);
    if (text == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    core__clean_json(stdout, text);
    putchar('\n');
    free(text);
    return CLI__DONE;
}

/* whole, unless a part is missing in it. */
static json_t *unless(int missing, json_t *whole)
{
    if (!missing)
        return whole;
    json_decref(whole);
    return NULL;
}

json_t *cli__set(json_t *o, const char *key, json_t *value)
{
    return unless(json_object_set_new(o, key, value) != 0, o);
}

json_t *cli__add(json_t *list, json_t *value)
{
    return unless(json_array_append_new(list, value) != 0, list);
}

json_t *cli__real(double x)
{
    return isfinite(x) ? json_real(x) : json_null();
}

json_t *cli__range(double p10, double p50, double p90)
{
    return json_pack("{s:o, s:o, s:o}", "p10", cli__real(p10), "p50",
                     cli__real(p50), "p90", cli__real(p90));
}

/* Columns of the window; 0 where none is seen. */
static int window(void)
{
#ifdef TIOCGWINSZ
    struct winsize size = {0};

    if (isatty(STDOUT_FILENO) && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0)
        return size.ws_col;
#endif
    return 0;
}

int cli__width(void)
{
    int seen = window(), columns = seen > 0 ? seen : 80;

    if (columns < 40)
        return 40;
    return columns > 120 ? 120 : columns;
}

int cli__colour(FILE *stream)
{
    const char *no = getenv("NO_COLOR"), *term = getenv("TERM");

    if ((no != NULL && no[0] != '\0') || term == NULL ||
        strcmp(term, "dumb") == 0)
        return 0;
    return isatty(fileno(stream));
}

void cli__progress(double done, const char *what, ...)
{
    char text[200];
    va_list args;

    if (!isatty(STDERR_FILENO))
        return;
    if (done >= 1) {
        fprintf(stderr, "\r%78s\r", "");
        return;
    }
    va_start(args, what);
    vsnprintf(text, sizeof text, what, args);
    va_end(args);
    fprintf(stderr, "\r%s, %3.0f %%", text, 100 * done); /* in one piece */
}

void cli__wrap(FILE *stream, int indent, const char *text)
{
    int width = cli__width(), at = 0;

    while (*text != '\0') {
        size_t length = strcspn(text, " ");

        if (at > indent && at + 1 + (int)length > width) {
            fputc('\n', stream);
            at = 0;
        }
        at += fprintf(stream, "%*s", at == 0 ? indent : 1, "") + (int)length;
        core__clean_put(stream, text, length);
        text += length;
        text += strspn(text, " ");
    }
    fputc('\n', stream);
}

/* ---- quantities ----------------------------------------------------------- */

enum dew_status cli__quantity(const char *word, enum dew_quantity quantity,
                              struct cli__typed *out, struct dew_error *err)
{
    size_t length = strlen(word), used;
    const struct dew_unit *unit;
    char fit[160];
    double x;

    used = dew_number_read(word, length, &x);
    if (used == 0)
        return core__fail(err, DEW_ESYNTAX, "\"%s\" is no number", word);
    while (isspace((unsigned char)word[used]))
        used++;
    unit = dew_unit_find(word + used, length - used, quantity);
    dew_unit_fitting(quantity, fit, sizeof fit);
    if (unit == NULL && word[used] == '\0')
        return core__fail(err, DEW_EUNIT, "\"%s\" needs a unit: %s", word, fit);
    if (unit == NULL)
        return core__fail(err, DEW_EUNIT, "\"%s\" is no unit of %s: %s",
                          word + used, dew_quantity_text(quantity), fit);
    out->si = x * unit->factor + unit->offset;
    out->unit = unit;
    return DEW_OK;
}
