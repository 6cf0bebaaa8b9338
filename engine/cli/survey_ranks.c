/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Ranks talk by three messages: rank 0 says once that it has begun; another
 * asks for items and tells with it what it has done, or tells that it has
 * ended; rank 0 answers what it asks.  A rank that is lost ends them all, which
 * is what MPI does by itself: what was put down stays, and --resume goes on.
 */
#include "cli/survey_ranks.h"

#include <mpi.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "cli/cli.h"

enum { TAG_BEGUN = 1, TAG_ASK, TAG_ANSWER };

/* NAP: ns  between two looks for a message, for MPI's own waiting takes a
   processor; IDLE: naps after which rank 0 looks whether it is to stop */
enum { NAP = 500000, IDLE = 400 };

struct cli__ranks {
    int number, count;
    struct dew_survey_share share;
    struct dew_survey_state seen, told; /* of one that marches               */
};

struct ask {
    uint64_t done, faults;
    double seconds;
    int32_t ended, status;
    char text[500];
};

/* mpirun of Open MPI and of those that take after MPICH. */
static const char *number_text(void)
{
    const char *text = getenv("OMPI_COMM_WORLD_RANK");

    return text != NULL ? text : getenv("PMI_RANK");
}

size_t cli__ranks_number(void)
{
    const char *text = number_text();

    return text != NULL ? (size_t)strtoul(text, NULL, 10) : 0;
}

/* ---- messages ------------------------------------------------------------------------- */

static int is_there(int from, int tag, MPI_Status *what)
{
    int there = 0;

    MPI_Iprobe(from, tag, MPI_COMM_WORLD, &there, what);
    return there;
}

static void nap(void)
{
    const struct timespec t = {0, NAP};

    nanosleep(&t, NULL);
}

static void receive(int from, int tag, void *to, size_t size)
{
    MPI_Status what;

    while (!is_there(from, tag, &what))
        nap();
    MPI_Recv(to, (int)size, MPI_BYTE, from, tag, MPI_COMM_WORLD,
             MPI_STATUS_IGNORE);
}

static void send(int to, int tag, const void *from, size_t size)
{
    MPI_Send(from, (int)size, MPI_BYTE, to, tag, MPI_COMM_WORLD);
}

/* ---- one that marches --------------------------------------------------------------------- */

static struct ask news(struct cli__ranks *r)
{
    struct ask a;

    memset(&a, 0, sizeof a);
    a.done = r->seen.done - r->told.done;
    a.faults = r->seen.faults - r->told.faults;
    a.seconds = r->seen.seconds - r->told.seconds;
    r->told = r->seen;
    return a;
}

static void take(void *of, size_t range[2])
{
    struct cli__ranks *r = of;
    struct ask a = news(r);
    uint64_t answer[2];

    send(0, TAG_ASK, &a, sizeof a);
    receive(0, TAG_ANSWER, answer, sizeof answer);
    range[0] = (size_t)answer[0];
    range[1] = (size_t)answer[1];
}

void cli__ranks_far(struct cli__ranks *r, const struct dew_survey_state *state)
{
    r->seen = *state;
}

void cli__ranks_ended(struct cli__ranks *r, const struct dew_error *err)
{
    struct ask a = news(r);
    char host[MPI_MAX_PROCESSOR_NAME] = "";
    int length;

    MPI_Get_processor_name(host, &length);
    a.ended = 1;
    a.status = (int32_t)err->status;
    if (err->status != DEW_OK)
        snprintf(a.text, sizeof a.text, "rank %d on %.80s: %.380s", r->number,
                 host, err->text);
    send(0, TAG_ASK, &a, sizeof a);
}

/* ---- rank 0 --------------------------------------------------------------------------------- */

struct server {
    struct dew_survey *s;
    int left; /* that have not ended                                         */
    struct dew_error err;
};

static void answer_one(struct server *v, int from)
{
    size_t range[2] = {0, 0};
    uint64_t answer[2] = {0, 0};
    struct dew_survey_state more = {0};
    struct ask a;

    receive(from, TAG_ASK, &a, sizeof a);
    more.done = (size_t)a.done;
    more.faults = (size_t)a.faults;
    more.seconds = a.seconds;
    dew_survey_add(v->s, &more);
    if (a.status != DEW_OK && v->err.status == DEW_OK) {
        v->err.status = (enum dew_status)a.status;
        snprintf(v->err.text, sizeof v->err.text, "%.*s",
                 (int)sizeof v->err.text - 1, a.text);
    }
    v->left -= a.ended != 0;
    if (a.ended)
        return;
    /* after a failure nothing more is begun */
    if (v->err.status == DEW_OK && dew_survey_hand(v->s, range)) {
        answer[0] = range[0];
        answer[1] = range[1];
    }
    send(from, TAG_ANSWER, answer, sizeof answer);
}

static enum dew_status serve(void *of, struct dew_survey *survey,
                             struct dew_error *err)
{
    const struct cli__ranks *r = of;
    const struct dew_survey_state none = {0};
    struct server v = {.s = survey, .left = r->count - 1};
    MPI_Status what;

    for (int idle = 0; v.left > 0;) {
        if (is_there(MPI_ANY_SOURCE, TAG_ASK, &what)) {
            answer_one(&v, what.MPI_SOURCE);
            idle = 0;
            continue;
        }
        nap();
        if (++idle % IDLE == 0)
            dew_survey_add(survey, &none);
    }
    *err = v.err;
    return v.err.status;
}

/* ---- all -------------------------------------------------------------------------------------- */

int cli__ranks_open(struct cli__ranks **ranks, size_t threads)
{
    struct cli__ranks *r;
    int level;

    *ranks = NULL;
    if (number_text() == NULL)
        return CLI__DONE;
    r = calloc(1, sizeof *r);
    if (r == NULL)
        return cli__fail(CLI__FAILED, "out of memory");
    if (MPI_Init_thread(NULL, NULL, MPI_THREAD_SERIALIZED, &level) !=
            MPI_SUCCESS ||
        level < MPI_THREAD_SERIALIZED) {
        free(r);
        return cli__fail(CLI__FAILED,
                         "this MPI does not let threads send one at a time");
    }
    MPI_Comm_rank(MPI_COMM_WORLD, &r->number);
    MPI_Comm_size(MPI_COMM_WORLD, &r->count);
    r->share.of = r;
    r->share.process = (size_t)r->number;
    r->share.workers = (size_t)(r->count - 1) * threads;
    r->share.take = take;
    r->share.serve = serve;
    *ranks = r;
    return CLI__DONE;
}

const struct dew_survey_share *cli__ranks_share(struct cli__ranks *r)
{
    return r != NULL && r->count > 1 ? &r->share : NULL;
}

int cli__ranks_begun(struct cli__ranks *r, int code)
{
    if (r == NULL)
        return code;
    if (r->number > 0)
        receive(0, TAG_BEGUN, &code, sizeof code);
    else
        for (int to = 1; to < r->count; to++)
            send(to, TAG_BEGUN, &code, sizeof code);
    return code;
}

void cli__ranks_close(struct cli__ranks *r)
{
    if (r != NULL)
        MPI_Finalize();
    free(r);
}
