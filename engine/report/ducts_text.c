/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Layouts of ducts as text of 80 columns. */
#include <math.h>
#include <string.h>

#include "core/fail.h"
#include "core/numeric.h"
#include "report/caution.h"
#include "report/ducts.h"
#include "report/lay.h"

static void gathered(const struct dew_report_ducts *d, enum dew_answer answer,
                     const char *heading, FILE *out)
{
    char of[DEW__OF_LONG];
    struct dew__gathered g;

    dew__ducts_gather(d, answer, &g);
    if (g.count > 0)
        dew__heading(out, heading);
    for (size_t k = 0; k < g.count; k++)
        dew__caution_text(&g.list[k], "",
                          dew__ducts_of(d, &g.list[k], of, sizeof of), out);
}

/* Once for all layouts: what was told or computed, then what was not said. */
static void cautions(const struct dew_report_ducts *d, FILE *out)
{
    gathered(d, DEW_ANSWER_YES, "Before anything else", out);
    gathered(d, DEW_ANSWER_UNKNOWN, "You have not said whether ...", out);
}

static void one(const struct dew__told *t, enum dew_system system, FILE *out)
{
    struct dew__said said;
    char clean[256], head[300];

    dew__heading(out, dew__clean(t->option.name, clean, sizeof clean));
    snprintf(head, sizeof head, "%s; %s.", dew__told_kind(t),
             dew__told_what(t).text);
    head[0] = (char)(head[0] >= 'a' ? head[0] - 'a' + 'A' : head[0]);
    dew__wrap(out, "", head);
    if (t->caution_count > 0)
        dew__wrap(out, "", dew__told_keys(t, head, sizeof head));
    dew__ducts_tables(t, system, DEW__IN_TEXT, out);
    fputc('\n', out);
    if (t->layout.written != NULL) {
        dew__wrap(out, "", dew__told_bare);
        fputc('\n', out);
    }
    dew__told_words(t, system, &said);
    for (size_t k = 0; k < said.count; k++)
        dew__wrap(out, "  ", said.text[k]);
}

static void all(const struct dew_report_ducts *d,
                const struct dew_ducts_frame *frame, FILE *out)
{
    char clean[256], told[300], line[600];

    if (frame->title[0] != '\0')
        dew__wrap(out, "", dew__clean(frame->title, clean, sizeof clean));
    cautions(d, out);
    for (size_t i = 0; i < d->count; i++)
        one(&d->list[i], frame->system, out);
    for (size_t i = 0; i < d->without_count; i++) {
        if (i == 0)
            fputc('\n', out);
        dew__without_words(&d->without[i], frame->system, told, sizeof told);
        snprintf(line, sizeof line, "%s: %s",
                 dew__clean(d->without[i].name, clean, sizeof clean), told);
        dew__wrap(out, "", line);
    }
}

enum dew_status dew_report_ducts_text(const struct dew_report_ducts *ducts,
                                      const struct dew_ducts_frame *frame,
                                      FILE *out, struct dew_error *err)
{
    struct dew__numeric n;

    if (!dew__numeric_c(&n))
        return dew__fail(err, DEW_EMEM, "no memory for the text");
    all(ducts, frame, out);
    dew__numeric_back(&n);
    if (fflush(out) != 0 || ferror(out))
        return dew__fail(err, DEW_EIO, "the text could not be written");
    return DEW_OK;
}
