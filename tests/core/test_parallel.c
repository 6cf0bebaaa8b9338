/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Threads that share jobs: each job is done once, and a helper's stack does not
   hang on what the system or the C library gives. */
#include "core/parallel.h"

#include <pthread.h>
#include <stdatomic.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>
#include <unistd.h>

#include "support/rows.h"

enum { JOBS = 400, DEEP = 512 * 1024 };

struct shared {
    pthread_t first;
    atomic_int done[JOBS], deep;
};

/* Fills half of what is promised: by a call, or the first thread would too. */
__attribute__((noinline)) static unsigned char deep_down(int byte)
{
    volatile unsigned char room[DEEP];

    for (size_t i = 0; i < DEEP; i += 512)
        room[i] = (unsigned char)byte;
    return room[DEEP - 512];
}

static void job(void *of, size_t i)
{
    struct shared *s = of;
    const struct timespec pause = {.tv_nsec = 1000000};

    atomic_fetch_add(&s->done[i], 1);
    if (pthread_equal(pthread_self(), s->first))
        nanosleep(&pause, NULL); /* and leaves some to the others */
    else if (deep_down((int)i) == (unsigned char)i)
        atomic_fetch_add(&s->deep, 1);
}

TEST(helpers_have_stacks_of_their_own)
{
    static struct shared s;

    s.first = pthread_self();
    core__parallel(3, JOBS, job, &s);
    for (size_t i = 0; i < JOBS; i++)
        assert_int_equal(s.done[i], 1);
    assert_true(s.deep > 0);
}

TEST(one_thread_does_all_by_itself)
{
    static struct shared s;

    s.first = pthread_self();
    core__parallel(1, 20, job, &s);
    for (size_t i = 0; i < JOBS; i++)
        assert_int_equal(s.done[i], i < 20);
    assert_int_equal(s.deep, 0);
}

/* Once more from the start, where threads get 128 KiB unless they ask. */
static int with_little(void **state)
{
    static char name[] = "test_parallel";
    char *const words[] = {name, NULL};
    struct rlimit stack;

    (void)state;
    if (getrlimit(RLIMIT_STACK, &stack) == 0 &&
        (stack.rlim_cur == RLIM_INFINITY || stack.rlim_cur > 128 * 1024)) {
        stack.rlim_cur = 128 * 1024;
        if (setrlimit(RLIMIT_STACK, &stack) == 0)
            execv("/proc/self/exe", words);
        print_message("as it is: it cannot run itself\n");
    }
    return 0;
}

RUN_TESTS_IN("core, parallel", with_little, NULL);
