/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A survey on many processes, started together by mpirun: rank 0 has the folder
 * and hands out, the others march.  Only of a command built with `make MPI=1`;
 * else, and where mpirun did not start it, a process is alone.
 */
#ifndef DEW_CLI_SURVEY_RANKS_H
#define DEW_CLI_SURVEY_RANKS_H

#include "dew/survey.h"

struct cli__ranks; /* NULL: alone */

#ifdef CLI__MPI

/* The number that mpirun gave this process; 0 where it gave none. */
size_t cli__ranks_number(void);

/* Meet the others; *ranks stays NULL where there are none.  threads: of each
   rank.  An enum cli__exit; what was wrong is told. */
int cli__ranks_open(struct cli__ranks **ranks, size_t threads);

/* Rank 0 says how the beginning went, an enum cli__exit, the others wait for
   it.  It is returned. */
int cli__ranks_begun(struct cli__ranks *ranks, int code);

/* What dew_survey_run needs; NULL of one that is alone. */
const struct dew_survey_share *cli__ranks_share(struct cli__ranks *ranks);

/* Of those that march: how far it is, to be told with the next question... */
void cli__ranks_far(struct cli__ranks *ranks,
                    const struct dew_survey_state *state);
/* ... and that it has ended, and how. */
void cli__ranks_ended(struct cli__ranks *ranks, const struct dew_error *err);

void cli__ranks_close(struct cli__ranks *ranks); /* NULL is allowed */

#else

static inline size_t cli__ranks_number(void)
{
    return 0;
}

static inline int cli__ranks_open(struct cli__ranks **ranks, size_t threads)
{
    (void)threads;
    *ranks = NULL;
    return 0;
}

static inline int cli__ranks_begun(struct cli__ranks *ranks, int code)
{
    (void)ranks;
    return code;
}

static inline const struct dew_survey_share *cli__ranks_share(
    struct cli__ranks *ranks)
{
    (void)ranks;
    return NULL;
}

static inline void cli__ranks_far(struct cli__ranks *ranks,
                                  const struct dew_survey_state *state)
{
    (void)ranks;
    (void)state;
}

static inline void cli__ranks_ended(struct cli__ranks *ranks,
                                    const struct dew_error *err)
{
    (void)ranks;
    (void)err;
}

static inline void cli__ranks_close(struct cli__ranks *ranks)
{
    (void)ranks;
}

#endif
#endif
