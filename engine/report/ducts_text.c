/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Layouts of ducts as text of 80 columns. */
#include <math.h>
#include <string.h>

#include "core/fail.h"
#include "core/numeric.h"
#include "report/caution.h"
#include "report/ducts.h"
#include "report/lay.h"

enum { NAME = 13, VENT = 6 };

/* Three air handlers have no room for words: first letters. */
static struct dew__word head_of(const struct dew__told *t, int blower)
{
    struct dew__word w = dew__told_blowers(t, blower);

    if (t->layout.handler_count == DEW_DUCT_HANDLERS)
        for (int k = 0; k < DEW_DUCT_HANDLERS; k++)
            snprintf(w.text + 2 * k, sizeof w.text - (size_t)(2 * k), "%c%s",
                     "olf"[dew_ducts_blower_digit(blower, k)],
                     k < DEW_DUCT_HANDLERS - 1 ? " " : "");
    return w;
}

/* ---- the states ---------------------------------------------------------- */

static const struct column {
    const char *head[2];
    int width;
} columns[DEW__STATE_CELLS] = {
    {{"fresh", "to rooms"}, 9}, {{"stale", "drawn"}, 7},
    {{"short", "circuit"}, 9},  {{"fresh -", "stale"}, 8},
    {{"back-", "flow"}, 6},     {{"un-", "planned"}, 8},
    {{"blower", "W"}, 7},       {{"fans", "W"}, 5},
};

static void heads(FILE *out)
{
    static const char *const left[2][2] = {{"", "vent-"},
                                           {"air handlers", "ilator"}};

    for (int line = 0; line < 2; line++) {
        dew__left(out, left[line][0], NAME);
        dew__left(out, left[line][1], VENT);
        for (size_t k = 0; k < DEW__STATE_CELLS; k++)
            dew__right(out, columns[k].head[line], columns[k].width);
        fputc('\n', out);
    }
}

static void state(const struct dew__told *t, const struct dew_duct_state *s,
                  enum dew_system system, FILE *out)
{
    struct dew__word cells[DEW__STATE_CELLS];

    dew__state_cells(s, system, cells);
    dew__left(out, head_of(t, s->blower).text, NAME);
    dew__left(out, dew__told_vent(s->vent), VENT);
    for (size_t k = 0; k < DEW__STATE_CELLS; k++)
        dew__right(out, cells[k].text, columns[k].width);
    fputs(s->vent != DEW_VENT_OFF && !s->balanced ? " !\n" : "\n", out);
}

static void states(const struct dew__told *t, enum dew_system system, FILE *out)
{
    int last = t->boost ? DEW_VENT_BOOST : DEW_VENT_ON, bad = 0;

    fprintf(out, "\nAir in %s; W electric.%s\n",
            dew__unit(DEW_FLOW, system)->name,
            t->layout.handler_count == DEW_DUCT_HANDLERS
                ? "  Air handlers: o off, l low, f full."
                : "");
    heads(out);
    for (int v = DEW_VENT_OFF; v <= last; v++)
        for (int i = 0; i < t->shown_count; i++) {
            state(t, &t->states[v][t->shown[i]], system, out);
            bad |= v > 0 && !t->states[v][t->shown[i]].balanced;
        }
    if (bad)
        fputs("! more than 10 % out of balance\n", out);
}

/* ---- the grilles --------------------------------------------------------- */

enum { GRILLE = 26, CELL = 10 };

static void flow_row(const struct dew__told *t, const char *name,
                     const double *flows, enum dew_system system, FILE *out)
{
    dew__left(out, name, t->shown_count > 5 ? GRILLE - CELL : GRILLE);
    for (int i = 0; i < t->shown_count; i++)
        dew__right(out, dew__air_figure(flows[i], system).text, CELL);
    fputc('\n', out);
}

static void grille_row(const struct dew__told *t, const char *name,
                       const double *flows, enum dew_system system, FILE *out)
{
    double most = 0;

    for (int i = 0; i < t->shown_count; i++)
        most = fmax(most, fabs(flows[i]));
    if (dew__shown(most, DEW_FLOW, system) >= 0.05)
        flow_row(t, name, flows, system, out);
}

static void grille_heads(const struct dew__told *t, const char *what, FILE *out)
{
    int room = t->shown_count > 5 ? GRILLE - CELL : GRILLE;

    dew__left(out, what, room);
    for (int i = 0; i < t->shown_count; i++)
        dew__right(out, head_of(t, t->shown[i]).text, CELL);
    fputc('\n', out);
}

static void fresh_grilles(const struct dew__told *t, enum dew_system system,
                          FILE *out)
{
    double flows[DEW__TOLD_STATES];
    char name[60];

    grille_heads(t, "fresh air out of", out);
    for (int g = 0; g < t->layout.grille_count; g++) {
        for (int i = 0; i < t->shown_count; i++)
            flows[i] = t->states[DEW_VENT_ON][t->shown[i]].fresh_at[g];
        grille_row(t, t->layout.grilles[g].name, flows, system, out);
    }
    for (int k = 0; k < t->layout.handler_count; k++) {
        for (int i = 0; i < t->shown_count; i++)
            flows[i] = t->states[DEW_VENT_ON][t->shown[i]].fresh_at_return[k];
        snprintf(name, sizeof name, "return grilles %d", k + 1);
        grille_row(t, name, flows, system, out);
    }
}

/* What each of several air handlers' rooms get, nothing being an answer. */
static void fresh_floors(const struct dew__told *t, enum dew_system system,
                         FILE *out)
{
    double flows[DEW__TOLD_STATES];
    char name[60];

    if (t->layout.handler_count < 2)
        return;
    for (int k = 0; k < t->layout.handler_count; k++) {
        for (int i = 0; i < t->shown_count; i++)
            flows[i] =
                dew__told_to_rooms(t, &t->states[DEW_VENT_ON][t->shown[i]], k);
        snprintf(name, sizeof name,
                 t->shown_count > 5 ? "all rooms of %d"
                                    : "all rooms of air handler %d",
                 k + 1);
        flow_row(t, name, flows, system, out);
    }
}

static void stale_grilles(const struct dew__told *t, enum dew_system system,
                          FILE *out)
{
    double flows[DEW__TOLD_STATES];
    char name[60];

    grille_heads(t, "stale air from", out);
    for (int g = 0; g < t->layout.grille_count; g++) {
        for (int i = 0; i < t->shown_count; i++)
            flows[i] = t->states[DEW_VENT_ON][t->shown[i]].stale_at[g];
        grille_row(t, t->layout.grilles[g].name, flows, system, out);
    }
    for (int k = 0; k < t->layout.handler_count; k++) {
        for (int i = 0; i < t->shown_count; i++)
            flows[i] = t->states[DEW_VENT_ON][t->shown[i]].stale_return[k];
        snprintf(name, sizeof name, "return trunk %d", k + 1);
        grille_row(t, name, flows, system, out);
    }
}

static void grilles(const struct dew__told *t, enum dew_system system,
                    FILE *out)
{
    fprintf(out, "\nVentilator on, air handlers as headed%s, %s.\n",
            t->layout.handler_count == DEW_DUCT_HANDLERS
                ? " (o off, l low, f full)"
                : "",
            dew__unit(DEW_FLOW, system)->name);
    fresh_grilles(t, system, out);
    fresh_floors(t, system, out);
    stale_grilles(t, system, out);
}

/* ---- all ----------------------------------------------------------------- */

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
    states(t, system, out);
    grilles(t, system, out);
    dew__commissioning_text(t, system, out);
    dew__parts_text(t, system, out);
    fputc('\n', out);
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
