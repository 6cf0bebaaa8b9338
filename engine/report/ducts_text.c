/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Layouts of ducts as text of 80 columns. */
#include "report/caution.h"
#include "report/ducts.h"
#include "report/lay.h"
#include "report/markup.h"

/* Once for all layouts: what was told or computed, or what was not said;
   returns how many, told of those before. */
static size_t gathered(const struct dew_report_ducts *d, enum dew_answer answer,
                       const char *heading, size_t before, FILE *out)
{
    char of[REPORT__OF_LONG];
    struct report__gathered g;

    report__ducts_gather(d, answer, &g);
    if (g.count > 0)
        report__heading(out, heading);
    if (g.count > 0 && before == 0)
        report__wrap(out, "", report__levels);
    for (size_t k = 0; k < g.count; k++)
        report__caution_text(&g.list[k], "",
                             report__ducts_of(d, &g.list[k], of, sizeof of),
                             out);
    return g.count;
}

static void one(const struct report__told *t, enum dew_system system, FILE *out)
{
    struct report__said said;
    char clean[256], head[300];

    report__heading(out, core__clean(t->option.name, clean, sizeof clean));
    report__wrap(out, "", report__told_said(t, head, sizeof head));
    if (t->caution_count > 0)
        report__wrap(out, "", report__told_keys(t, head, sizeof head));
    report__ducts_tables(t, system, REPORT__IN_TEXT, out);
    fputc('\n', out);
    if (t->layout.written != NULL) {
        report__wrap(out, "", report__told_bare);
        fputc('\n', out);
    }
    report__told_words(t, system, &said);
    for (size_t k = 0; k < said.count; k++)
        report__wrap(out, "  ", said.text[k]);
}

/* Layouts, and what they are told with. */
struct told {
    const struct dew_report_ducts *ducts;
    const struct dew_ducts_frame *frame;
};

static void all(const void *of, FILE *out)
{
    const struct dew_ducts_frame *frame = ((const struct told *)of)->frame;
    const struct dew_report_ducts *d = ((const struct told *)of)->ducts;
    char clean[256], told[300], line[600];
    size_t known;

    if (frame->title[0] != '\0')
        report__wrap(out, "", core__clean(frame->title, clean, sizeof clean));
    known = gathered(d, DEW_ANSWER_YES, "Before anything else", 0, out);
    gathered(d, DEW_ANSWER_UNKNOWN, "You have not said whether ...", known,
             out);
    for (size_t i = 0; i < d->count; i++)
        one(&d->list[i], frame->system, out);
    for (size_t i = 0; i < d->without_count; i++) {
        if (i == 0)
            fputc('\n', out);
        report__without_words(&d->without[i], frame->system, told, sizeof told);
        snprintf(line, sizeof line, "%s: %s",
                 core__clean(d->without[i].name, clean, sizeof clean), told);
        report__wrap(out, "", line);
    }
}

enum dew_status dew_report_ducts_text(const struct dew_report_ducts *ducts,
                                      const struct dew_ducts_frame *frame,
                                      FILE *out, struct dew_error *err)
{
    const struct told t = {ducts, frame};

    return report__filled("the text", all, &t, out, err);
}
