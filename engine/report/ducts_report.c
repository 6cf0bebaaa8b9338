/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Layouts, solved in every state, and the cautions that stand. */
#include "dew/ducts_report.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/fail.h"
#include "report/ducts.h"

/* ---- names of states ----------------------------------------------------- */

int report__told_full(const struct report__told *t)
{
    return t->blowers - 1; /* every digit 2 */
}

struct report__word report__told_blowers(const struct report__told *t,
                                         int blower)
{
    static const char *const words[] = {"off", "low", "full"};
    struct report__word w = {"-"};
    size_t at = 0;

    for (int k = 0; k < t->layout.handler_count; k++)
        at += (size_t)snprintf(w.text + at, sizeof w.text - at, "%s%s",
                               k > 0 ? " " : "",
                               words[dew_ducts_blower_digit(blower, k)]);
    return w;
}

const char *report__told_vent(enum dew_vent_state vent)
{
    return vent == DEW_VENT_OFF ? "off" : vent == DEW_VENT_ON ? "on" : "boost";
}

/* Whole cfm and L/s, as near as anyone measures; of a trickle a tenth of a
   L/s. */
static int air_decimals(double flow, enum dew_system system)
{
    return system != DEW_SYSTEM_US && fabs(flow) < 1e-3;
}

struct report__word report__air(double flow, enum dew_system system)
{
    return report__amount(flow, DEW_FLOW, system, air_decimals(flow, system));
}

struct report__word report__air_figure(double flow, enum dew_system system)
{
    double shown = report__shown(flow, DEW_FLOW, system);
    double least = system == DEW_SYSTEM_US ? 0.5 : 0.05;

    if (fabs(shown) < least)
        return report__number(0, 0);
    return report__number(shown, air_decimals(flow, system));
}

/* ---- solving ------------------------------------------------------------- */

static enum dew_status solve_all(struct report__told *t, struct dew_error *err)
{
    enum dew_status status = dew_ducts_open(&t->ducts, &t->layout, err);

    t->blowers = 1;
    for (int k = 0; k < t->layout.handler_count; k++)
        t->blowers *= 3;
    for (int v = 0; v < DEW_DUCT_VENT_STATES; v++)
        for (int b = 0; b < t->blowers && status == DEW_OK; b++)
            status = dew_ducts_state(t->ducts, (enum dew_vent_state)v, b,
                                     &t->states[v][b], err);
    return status;
}

/* The short circuit at one end of what may mix between the taps. */
static enum dew_status at_end(struct report__told *t, enum dew_duct_reading end,
                              double *out, struct dew_error *err)
{
    struct dew_duct_layout l = t->layout;
    struct dew_duct_state s;
    struct dew_ducts *d;
    enum dew_status status;

    l.reading = end;
    status = dew_ducts_open(&d, &l, err);
    for (int b = 0; b < t->blowers && status == DEW_OK; b++) {
        status = dew_ducts_state(d, DEW_VENT_ON, b, &s, err);
        if (status == DEW_OK)
            out[b] = s.short_circuit_share;
    }
    dew_ducts_close(d);
    return status;
}

static enum dew_status range(struct report__told *t, struct dew_error *err)
{
    enum dew_status status = DEW_OK;

    for (int b = 0; b < DEW_BLOWER_STATES; b++)
        t->shortest[b] = t->longest[b] = NAN;
    if (t->layout.kind != DEW_LAYOUT_return_tie)
        return DEW_OK;
    status = at_end(t, DEW_DUCT_LOW, t->shortest, err);
    if (status == DEW_OK)
        status = at_end(t, DEW_DUCT_HIGH, t->longest, err);
    return status;
}

/* All off, all low, each alone at full flow, all at full flow. */
static void choose_shown(struct report__told *t)
{
    int low = 0, place = 1;

    t->shown[t->shown_count++] = 0;
    if (t->layout.handler_count == 0)
        return;
    for (int k = 0; k < t->layout.handler_count; k++, place *= 3)
        low += place;
    t->shown[t->shown_count++] = low;
    place = 1;
    for (int k = 0; t->layout.handler_count > 1 && k < t->layout.handler_count;
         k++, place *= 3)
        t->shown[t->shown_count++] = 2 * place;
    t->shown[t->shown_count++] = report__told_full(t);
}

static int another_boost(const struct dew_duct_layout *l)
{
    int other = 0;

    for (int j = 0; j < l->vent_count; j++)
        other |=
            l->vents[j].set[DEW_VENT_BOOST] != l->vents[j].set[DEW_VENT_ON] ||
            l->vents[j].set_stale[DEW_VENT_BOOST] !=
                l->vents[j].set_stale[DEW_VENT_ON];
    return other;
}

/* ---- cautions ------------------------------------------------------------ */

/* As it stands with that answer; no: it does not. */
static void caution(struct report__told *t, const char *key,
                    enum dew_answer answer)
{
    if (answer != DEW_ANSWER_NO && t->caution_count < REPORT__TOLD_CAUTIONS)
        t->caution_count += (size_t)dew_cautions_find(
            key, answer, &t->cautions[t->caution_count]);
}

static enum dew_answer yes_if(int stands)
{
    return stands ? DEW_ANSWER_YES : DEW_ANSWER_NO;
}

/* It stands where the good news is denied, or not confirmed. */
static enum dew_answer wanting(int asked, enum dew_answer good)
{
    if (!asked || good == DEW_ANSWER_YES)
        return DEW_ANSWER_NO;
    return good == DEW_ANSWER_NO ? DEW_ANSWER_YES : DEW_ANSWER_UNKNOWN;
}

static enum dew_answer damper(const struct dew_duct_layout *l)
{
    return l->damper == DEW_DUCT_FITTED ? DEW_ANSWER_YES
           : l->damper == DEW_DUCT_NONE ? DEW_ANSWER_NO
                                        : DEW_ANSWER_UNKNOWN;
}

static int unbalanced(const struct report__told *t)
{
    int any = 0;

    for (int b = 0; b < t->blowers; b++)
        any |= !t->states[DEW_VENT_ON][b].balanced;
    return any;
}

static void find_cautions(struct report__told *t)
{
    const struct dew_duct_layout *l = &t->layout;
    int tied = report__told_tied(t);

    caution(t, "return_tie",
            wanting(l->kind == DEW_LAYOUT_return_tie, t->option.interlock));
    caution(t, "hood_joined", t->option.hood);
    caution(t, "no_damper", wanting(tied, damper(l)));
    caution(t, "imbalance", yes_if(unbalanced(t)));
    caution(t, "interlock",
            yes_if(tied && t->option.interlock != DEW_ANSWER_NO));
}

/* Put c of layout i to those gathered, each once with all its layouts. */
static void gather(struct report__gathered *g, const struct dew_caution *c,
                   size_t i)
{
    size_t k = 0;

    while (k < g->count && (strcmp(g->list[k].key, c->key) != 0 ||
                            g->list[k].answer != c->answer))
        k++;
    if (k == REPORT__GATHERED)
        return;
    if (k == g->count)
        g->list[g->count++] = *c;
    g->list[k].options |= i < 64 ? UINT64_C(1) << i : 0;
}

void report__ducts_gather(const struct dew_report_ducts *ducts,
                          enum dew_answer answer, struct report__gathered *out)
{
    out->count = 0;
    for (int level = DEW_STOP; level < DEW_CAUTION_LEVELS; level++)
        for (size_t i = 0; i < ducts->count; i++)
            for (size_t k = 0; k < ducts->list[i].caution_count; k++) {
                const struct dew_caution *c = &ducts->list[i].cautions[k];

                if ((int)c->level == level && c->answer == answer)
                    gather(out, c, i);
            }
}

char *report__ducts_of(const struct dew_report_ducts *ducts,
                       const struct dew_caution *c, char *out, size_t size)
{
    char clean[256];
    size_t at = 0;

    out[0] = '\0';
    for (size_t i = 0; ducts->count > 1 && i < ducts->count && at < size; i++)
        if (i < 64 && c->options >> i & 1)
            at += (size_t)snprintf(
                out + at, size - at, "%s\"%s\"", at > 0 ? ", " : " Of ",
                core__clean(ducts->list[i].option.name, clean, sizeof clean));
    if (at > 0 && at + 1 < size)
        snprintf(out + at, size - at, ".");
    return out;
}

char *report__told_keys(const struct report__told *t, char *out, size_t size)
{
    size_t at = 0;

    out[0] = '\0';
    for (size_t k = 0; k < t->caution_count && at < size; k++)
        at += (size_t)snprintf(
            out + at, size - at, "%s%s %s%s",
            at > 0 ? ", " : "Cautions, told above: ",
            dew_cautions_level(t->cautions[k].level), t->cautions[k].key,
            t->cautions[k].answer == DEW_ANSWER_UNKNOWN ? " (asked)" : "");
    if (at > 0 && at + 1 < size)
        snprintf(out + at, size - at, ".");
    return out;
}

/* ---- open and close ------------------------------------------------------ */

static enum dew_status tell_one(struct report__told *t,
                                const struct dew_ducts_option *option,
                                struct dew_error *err)
{
    enum dew_status status;

    t->option = *option;
    t->layout = *option->layout;
    t->design = option->design != NULL ? *option->design : *option->layout;
    t->option.layout = &t->layout;
    t->option.design = &t->design;
    t->boost = another_boost(&t->layout);
    status = solve_all(t, err);
    if (status == DEW_OK)
        status = range(t, err);
    if (status != DEW_OK)
        return status;
    choose_shown(t);
    find_cautions(t);
    return DEW_OK;
}

/* Air handlers alone: their leaks, all blowers at full flow. */
static enum dew_status tell_without(struct report__without *w,
                                    const struct dew_ducts_option *option,
                                    struct dew_error *err)
{
    struct dew_duct_state s = {0};
    enum dew_status status = DEW_OK;
    struct dew_ducts *d = NULL;
    int full = 1;

    for (int k = 0; k < option->layout->handler_count; k++)
        full *= 3;
    if (full > 1)
        status = dew_ducts_open(&d, option->layout, err);
    if (full > 1 && status == DEW_OK)
        status = dew_ducts_state(d, DEW_VENT_OFF, full - 1, &s, err);
    dew_ducts_close(d);
    *w = (struct report__without){option->name, s.leak_in, s.leak_out};
    return status;
}

/* A layout that nobody wrote down and that cannot be is left out. */
static enum dew_status add(struct dew_report_ducts *d,
                           const struct dew_ducts_option *option,
                           struct dew_error *err)
{
    struct report__told *t = &d->list[d->count];
    struct dew_error quiet = {0};
    enum dew_status status = tell_one(t, option, option->quiet ? &quiet : err);

    if (status == DEW_OK || !option->quiet || status == DEW_EMEM) {
        d->count++;
        return status;
    }
    dew_ducts_close(t->ducts);
    memset(t, 0, sizeof *t);
    return DEW_OK;
}

/* Room for count layouts, or NULL. */
static struct dew_report_ducts *room_for(size_t count)
{
    struct dew_report_ducts *d = calloc(1, sizeof *d);
    size_t most = count > 0 ? count : 1;

    if (d == NULL)
        return NULL;
    d->list = calloc(most, sizeof *d->list);
    d->without = calloc(most, sizeof *d->without);
    if (d->list != NULL && d->without != NULL)
        return d;
    dew_report_ducts_close(d);
    return NULL;
}

enum dew_status dew_report_ducts_open(struct dew_report_ducts **ducts,
                                      const struct dew_ducts_option *options,
                                      size_t count, struct dew_error *err)
{
    struct dew_report_ducts *d = room_for(count);
    enum dew_status status = DEW_OK;

    *ducts = NULL;
    if (d == NULL)
        return core__fail(err, DEW_EMEM, "no memory for the layouts");
    for (size_t i = 0; i < count && status == DEW_OK; i++) {
        if (options[i].layout->vent_count == 0 && options[i].quiet)
            continue;
        if (options[i].layout->vent_count == 0)
            status =
                tell_without(&d->without[d->without_count++], &options[i], err);
        else
            status = add(d, &options[i], err);
    }
    if (status == DEW_OK)
        *ducts = d;
    else
        dew_report_ducts_close(d);
    return status;
}

void dew_report_ducts_close(struct dew_report_ducts *ducts)
{
    if (ducts == NULL)
        return;
    for (size_t i = 0; i < ducts->count; i++)
        dew_ducts_close(ducts->list[i].ducts);
    free(ducts->list);
    free(ducts->without);
    free(ducts);
}

const struct report__told *report__told_of(const struct dew_report_ducts *ducts,
                                           const char *name)
{
    for (size_t i = 0; ducts != NULL && i < ducts->count; i++)
        if (strcmp(ducts->list[i].option.name, name) == 0)
            return &ducts->list[i];
    return NULL;
}

size_t report__told_drawn(const struct dew_report_ducts *ducts)
{
    size_t drawn = 0;

    for (size_t i = 0; ducts != NULL && i < ducts->count; i++)
        drawn += !ducts->list[i].option.quiet;
    return drawn;
}

size_t dew_report_ducts_stops(const struct dew_report_ducts *ducts)
{
    size_t stops = 0;

    for (size_t i = 0; i < ducts->count; i++)
        for (size_t k = 0; k < ducts->list[i].caution_count; k++)
            stops += ducts->list[i].cautions[k].level == DEW_STOP;
    return stops;
}
