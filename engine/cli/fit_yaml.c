/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scenario as the log leaves it, and its houses in a file beside. */
#include <stdlib.h>
#include <string.h>

#include "cli/fit.h"
#include "cli/spread_csv.h"
#include "core/out.h"
#include "report/words.h"

enum { TEXT = 2400, NAMES = 1000, ROOM = 320 };

int cli__fit_houses(const char *path, char out[CLI__FIT_PATH])
{
    const char *dot = strrchr(path, '.');
    size_t length = strlen(path);

    if (length + sizeof "-houses.csv" > CLI__FIT_PATH)
        return cli__fail(CLI__FAILED, "%.60s...: too long a path", path);
    if (dot != NULL && (strcmp(dot, ".yaml") == 0 || strcmp(dot, ".yml") == 0))
        length = (size_t)(dot - path);
    snprintf(out, CLI__FIT_PATH, "%.*s-houses.csv", (int)length, path);
    return CLI__DONE;
}

static const char *name_of(const char *path)
{
    const char *slash = strrchr(path, '/');

    return slash != NULL ? slash + 1 : path;
}

/* ---- words ---------------------------------------------------------------------- */

static void say_left(const char *path, const char *left)
{
    char words[TEXT];

    if (left[0] == '\0')
        return;
    snprintf(words, sizeof words,
             "Not written into %.500s, as they are no figure of their own "
             "there: %s.",
             path, left);
    cli__wrap(stderr, 0, words);
}

static void say_houses(const char *path, const struct dew_learn_houses *h,
                       size_t draws, size_t keys)
{
    char words[TEXT];

    cli__anew_print(stderr, h->spread, draws);
    if (h->beyond == 0)
        return;
    snprintf(words, sizeof words,
             "%zu of the %zu figures in %.500s lay beyond the range written of "
             "them, and stand at its end.",
             h->beyond, draws * keys, path);
    cli__wrap(stderr, 0, words);
}

static void say_ranges(const char *path)
{
    char words[TEXT];

    snprintf(words, sizeof words,
             "%.500s has the ranges alone, each by itself: its weather is less "
             "than a year, so no houses are drawn from it.",
             path);
    cli__wrap(stderr, 0, words);
}

/* ---- files ---------------------------------------------------------------------- */

static int write_houses(const struct cli__fit *f, const char *path,
                        const struct dew_learn_houses *h, size_t draws)
{
    const struct cli__spread s = {.run = h->run,
                                  .spread = h->spread,
                                  .draws = draws,
                                  .options = dew_run_count(h->run)};
    struct dew_error err = {0};
    size_t count;
    const struct dew_learn_input *x = dew_learn_inputs(f->learn, &count);
    size_t *keys = calloc(count + 1, sizeof *keys);
    int code = CLI__DONE;

    if (keys == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    for (size_t i = 0; i < count; i++)
        keys[i] = x[i].key;
    if (cli__houses_write(&s, keys, count, path, &err) != DEW_OK)
        code = cli__error(&err);
    else
        say_houses(path, h, draws, count);
    free(keys);
    return code;
}

/* The text is opened as whoever reads the file will. */
static int houses(const struct cli__fit *f, const struct cli__fit_yaml *to,
                  const char *text, size_t length, const char *path)
{
    struct dew_faults faults = {calloc(ROOM, sizeof *faults.list), ROOM, 0};
    struct dew_run_ask written = to->from;
    struct dew_learn_houses h;
    int code = CLI__DONE;

    if (faults.list == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    written.text = text;
    written.length = length;
    if (dew_learn_houses(f->learn, &written, &to->houses, &h, &faults) !=
        DEW_OK)
        code = cli__faults(&faults);
    else
        code = write_houses(f, path, &h, to->houses.draws);
    dew_learn_houses_close(&h);
    free(faults.list);
    return code;
}

static int write_text(const char *path, const char *text, size_t length)
{
    struct dew_error err = {0};
    struct core__out out;

    if (core__out_open(&out, path, CORE__OUT_OVER, &err) == DEW_OK) {
        fwrite(text, 1, length, out.file);
        core__out_close(&out, &err);
    }
    return err.status == DEW_OK ? CLI__DONE : cli__error(&err);
}

int cli__fit_yaml(const struct cli__fit *f, const struct cli__fit_yaml *to)
{
    char left[NAMES], path[CLI__FIT_PATH];
    struct dew_error err = {0};
    size_t length;
    char *text;
    int code = CLI__DONE, yearly;

    if (to->path == NULL)
        return CLI__DONE;
    if ((code = cli__fit_houses(to->path, path)) != CLI__DONE)
        return code;
    yearly = dew_learn_learned(f->learn)->yearly;
    text = dew_learn_write(f->learn, yearly ? name_of(path) : NULL, &length,
                           left, sizeof left, &err);
    if (text == NULL)
        return cli__error(&err);
    if (yearly)
        code = houses(f, to, text, length, path);
    else
        say_ranges(to->path);
    if (code == CLI__DONE)
        code = write_text(to->path, text, length);
    free(text);
    if (code == CLI__DONE)
        say_left(to->path, left);
    return code;
}
