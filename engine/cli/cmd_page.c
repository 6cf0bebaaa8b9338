/* SPDX-License-Identifier: GPL-3.0-or-later */
/* `page`: the whole program as one page, with a scenario and its files in it. */
#include <stddef.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cli/cli.h"
#include "cli/load.h"
#include "core/in.h"
#include "core/out.h"
#include "run/run.h"

enum {
    KEY_FROM = 256,
    KEY_OUT,
    MOST_PAGE = 16 << 20, /* bytes: of the page without a house, some 3 MiB */
    MOST_FILE = 64 << 20  /* of a file, as in the page itself               */
};

/* What the page has in the place of a house. */
static const char PLACE[] = "id=\"ui-house\"></script>";
static const size_t BEFORE = sizeof PLACE - sizeof "</script>";

struct page {
    const char *path, *out, *from;
};

/* Files that the scenario names, as they are read. */
struct kept {
    const char *scenario;
    json_t *files; /* by the names written there, base64 */
};

static error_t take(int key, char *word, struct argp_state *state)
{
    struct page *p = state->input;

    switch (key) {
    case KEY_FROM:
        p->from = word;
        return 0;
    case KEY_OUT:
        p->out = word;
        return 0;
    case ARGP_KEY_END:
        if (p->path != NULL && p->out == NULL)
            cli__usage(state, "--out FILE says where the page goes");
        return 0;
    default:
        return cli__one(key, word, state, &p->path);
    }
}

/* ---- the page without a house ------------------------------------------- */

/* Where the program lies, without its name and the last slash; 0: unknown. */
static int own_folder(char *out, size_t size)
{
    ssize_t length = readlink("/proc/self/exe", out, size - 1);
    char *slash;

    if (length <= 0)
        return 0;
    out[length] = '\0';
    slash = strrchr(out, '/');
    if (slash == NULL)
        return 0;
    *slash = '\0';
    return 1;
}

/* Installed beside the program, or made in the tree that it was built in. */
static int find_page(char *out, size_t size)
{
    static const char *const places[] = {"/../share/dewledger/dewledger.html",
                                         "/../page/dewledger.html"};
    size_t folder;

    if (!own_folder(out, size))
        return 0;
    folder = strlen(out);
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        int n = snprintf(out + folder, size - folder, "%s", places[i]);

        if ((size_t)n < size - folder && access(out, R_OK) == 0)
            return 1;
    }
    return 0;
}

/* Where PLACE begins; NULL: nowhere. */
static const char *find_place(const char *bytes, size_t length)
{
    const size_t size = sizeof PLACE - 1;
    const char *at = bytes;

    while (at != NULL && (size_t)(at - bytes) + size <= length) {
        if (memcmp(at, PLACE, size) == 0)
            return at;
        at = memchr(at + 1, PLACE[0], length - (size_t)(at + 1 - bytes));
    }
    return NULL;
}

/* Its bytes, to be freed, and where the house belongs. */
static int read_page(const struct page *p, char **bytes, size_t *length,
                     size_t *place)
{
    char found[RUN__PATH];
    const char *path = p->from;
    struct dew_error err = {0};
    const char *at;

    if (path == NULL && find_page(found, sizeof found))
        path = found;
    if (path == NULL)
        return cli__fail(CLI__FAILED,
                         "the page was not built with this program: `make "
                         "page` in its source tree builds it, --from FILE "
                         "takes one that lies elsewhere");
    if (core__in_read(path, CORE__IN_FILE, MOST_PAGE, bytes, length, &err) !=
        DEW_OK)
        return cli__error(&err);
    at = find_place(*bytes, *length);
    if (at == NULL)
        return cli__fail(CLI__BAD_INPUT,
                         "%s: is no page of dewledger without a house: give "
                         "the one that `make page` builds",
                         path);
    *place = (size_t)(at - *bytes) + BEFORE;
    return CLI__DONE;
}

/* ---- the house ------------------------------------------------------------ */

/* Of RFC 4648, to be freed; NULL where memory is short. */
static char *base64(const char *bytes, size_t length)
{
    static const char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                 "abcdefghijklmnopqrstuvwxyz0123456789+/";
    char *text = malloc(4 * (length / 3 + 1) + 1), *to = text;

    for (size_t i = 0; text != NULL && i < length; i += 3) {
        size_t left = length - i;
        unsigned long b = (unsigned long)(unsigned char)bytes[i] << 16;

        if (left > 1)
            b |= (unsigned long)(unsigned char)bytes[i + 1] << 8;
        if (left > 2)
            b |= (unsigned char)bytes[i + 2];
        *to++ = digits[b >> 18];
        *to++ = digits[b >> 12 & 63];
        *to++ = digits[b >> 6 & 63];
        *to++ = digits[b & 63];
    }
    if (text == NULL)
        return NULL;
    for (size_t i = (3 - length % 3) % 3; i > 0; i--)
        to[-(ptrdiff_t)i] = '=';
    *to = '\0';
    return text;
}

static enum dew_status fail(struct dew_error *err, enum dew_status status,
                            const char *name, const char *why)
{
    err->status = status;
    snprintf(err->text, sizeof err->text, "%.200s: %s", name, why);
    return status;
}

/* As the run reads it, it is kept. */
static enum dew_status read_and_keep(void *of, const char *name, char **bytes,
                                     size_t *length, struct dew_error *err)
{
    struct kept *k = of;
    struct run__file file;
    char *text;
    int is_short;

    if (run__beside(k->scenario, name, MOST_FILE + 1, &file, err) != DEW_OK)
        return err->status;
    text = base64(file.bytes, file.length);
    k->files = cli__set(k->files, name, json_string(text));
    is_short = text == NULL || k->files == NULL;
    free(text);
    if (is_short || file.length > MOST_FILE) {
        free(file.bytes);
        return is_short ? fail(err, DEW_EMEM, name, "out of memory")
                        : fail(err, DEW_ERANGE, name,
                               "above 64 MiB: too much for a page");
    }
    *bytes = file.bytes;
    *length = file.length;
    return DEW_OK;
}

/* The scenario must be right: a house to hand over has no faults.  Its text and
   the names in it are UTF-8 then. */
static json_t *house(const struct page *p, int *code)
{
    struct dew_error err = {0};
    struct kept k = {p->path, json_object()};
    const struct dew_files files = {&k, read_and_keep};
    struct cli__text from = {.name = p->path, .files = &files};
    const struct cli__cli common = {.json = 0};
    struct dew_run *run = NULL;
    char *text = NULL;
    json_t *out = NULL;

    if (run__text(p->path, &text, &from.length, &err) != DEW_OK) {
        *code = err.status == DEW_EMEM
                    ? cli__error(&err)
                    : cli__fail(CLI__BAD_INPUT, "%s: %s", p->path, err.text);
    } else {
        from.text = text;
        *code = cli__open_text(&run, &from, &common, DEW_RUN_CHECK, 0);
    }
    if (*code == CLI__DONE)
        out = json_pack("{s: s#, s: O}", "text", text, from.length, "files",
                        k.files);
    if (*code == CLI__DONE && out == NULL)
        *code = cli__fail(CLI__FAILED, "out of memory");
    dew_run_close(run);
    json_decref(k.files);
    free(text);
    return out;
}

/* ---- both ----------------------------------------------------------------- */

/* JSON that cannot end the element that it stands in. */
static void write_inert(FILE *to, const char *json)
{
    for (; *json != '\0'; json++)
        if (*json == '<')
            fputs("\\u003c", to);
        else
            fputc(*json, to);
}

static int write_page(const struct page *p, const json_t *given)
{
    struct dew_error err = {0};
    struct core__out out;
    char *bytes = NULL, *json = NULL;
    size_t length = 0, place = 0;
    int code = read_page(p, &bytes, &length, &place);

    if (code == CLI__DONE) {
        json = cli__json_text(given);
        if (json == NULL)
            code = cli__fail(CLI__FAILED, "out of memory");
    }
    if (code == CLI__DONE &&
        core__out_open(&out, p->out, CORE__OUT_OVER, &err) == DEW_OK) {
        fwrite(bytes, 1, place, out.file);
        write_inert(out.file, json);
        fwrite(bytes + place, 1, length - place, out.file);
        core__out_close(&out, &err);
    }
    if (err.status != DEW_OK)
        code = cli__error(&err);
    free(json);
    free(bytes);
    return code;
}

int cli__cmd_page(int argc, char **argv)
{
    static const struct argp_option options[] = {
        {"from", KEY_FROM, "FILE", 0,
         "the page to put it in: the one built with the program, unless told",
         0},
        {"out", KEY_OUT, "FILE", 0, "write it there", 0},
        {0},
    };
    static const struct argp argp = {
        .options = options,
        .parser = take,
        .args_doc = "SCENARIO.yaml",
        .doc = "Write the whole program as one page for any browser, with this "
               "scenario, its weather file and its log in it: to look at, to "
               "change, to hand on.\v"
               "The page needs no network and sends nothing.  Who has it has "
               "the files in it too.\n"
               "\n"
               "  dewledger page house.yaml --out house.html\n"};
    struct page p = {NULL, NULL, NULL};
    int code = cli__parse(&argp, argc, argv, &p);
    json_t *given;

    if (code != CLI__DONE)
        return code;
    given = house(&p, &code);
    if (code == CLI__DONE)
        code = write_page(&p, given);
    json_decref(given);
    return code;
}
