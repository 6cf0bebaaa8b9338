/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger survey status: how far, how fast, and who does it. */
#include <stdio.h>
#include <stdlib.h>

#include "cli/cli.h"
#include "cli/survey.h"
#include "dew/survey.h"

enum { LINES = 32 }; /* of threads, before they are told by process */

const char *cli__lasting(double seconds, char text[40])
{
    if (seconds < 1.5)
        snprintf(text, 40, "1 second");
    else if (seconds < 100)
        snprintf(text, 40, "%.0f seconds", seconds);
    else if (seconds < 100 * 60)
        snprintf(text, 40, "%.0f minutes", seconds / 60);
    else if (seconds < 48 * 3600)
        snprintf(text, 40, "%.1f hours", seconds / 3600);
    else
        snprintf(text, 40, "%.1f days", seconds / 86400);
    return text;
}

struct report__word cli__count(size_t n)
{
    return report__number((double)n, 0);
}

static void tell_worker(const struct dew_survey_far *f)
{
    if (f->worker > 0)
        printf("Process %ld is at work there.\n", f->worker);
    else
        printf("%s is at work there.\n",
               f->worker < 0 ? "Another process" : "Nobody");
}

static void tell_rate(const struct dew_survey_state *t)
{
    double a_year =
        t->seconds / ((double)t->done * (double)t->rows / (double)t->items);
    char time[40];

    printf("A thread marches %.3g house-years a second", 1 / a_year);
    if (t->done < t->items)
        printf("; what is left is about %s of one thread's time",
               cli__lasting((double)(t->items - t->done) * t->seconds /
                                (double)t->done,
                            time));
    printf(".\n");
}

/* The threads of a process as one, which then has no number. */
static size_t by_process(struct dew_survey_thread *list, size_t count)
{
    size_t n = 0;

    for (size_t i = 0; i < count; i++)
        if (n > 0 && list[n - 1].process == list[i].process) {
            list[n - 1].done += list[i].done;
            list[n - 1].seconds += list[i].seconds;
        } else {
            list[n++] = list[i];
        }
    return n;
}

/* Files are found by name, so those of a process stand together. */
static void tell_threads(struct dew_survey_far *f)
{
    double years = (double)f->state.rows / (double)f->state.items;
    int many = f->count > LINES;
    size_t n = many ? by_process(f->threads, f->count) : f->count;

    printf("\n%8s %7s %10s   house-years a second%s\n", "process",
           many ? "" : "thread", "items", many ? " and thread" : "");
    for (size_t i = 0; i < n; i++) {
        const struct dew_survey_thread *t = &f->threads[i];
        char thread[24] = "", rate[24] = "-";

        if (!many)
            snprintf(thread, sizeof thread, "%zu", t->thread);
        if (t->seconds > 0)
            snprintf(rate, sizeof rate, "%.3g",
                     (double)t->done * years / t->seconds);
        printf("%8zu %7s %10s   %20s\n", t->process, thread,
               cli__count(t->done).text, rate);
    }
}

static void tell(struct dew_survey_far *f)
{
    const struct dew_survey_state *t = &f->state;

    printf("%s of %s items are done (%.1f %%)", cli__count(t->done).text,
           cli__count(t->items).text, 100 * (double)t->done / (double)t->items);
    if (t->faults > 0)
        printf(", %s of them could not be marched", cli__count(t->faults).text);
    printf(".\n");
    tell_worker(f);
    if (t->done == 0 || t->seconds <= 0)
        return;
    tell_rate(t);
    if (f->count > 1)
        tell_threads(f);
}

int cli__survey_status(const char *folder)
{
    struct dew_survey_far *f = calloc(1, sizeof *f);
    struct dew_error err = {0};
    int code = CLI__DONE;

    if (f == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    if (dew_survey_look(folder, f, &err) != DEW_OK)
        code = cli__error(&err);
    else
        tell(f);
    free(f);
    return code;
}
