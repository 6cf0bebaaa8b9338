/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Threads that take the next job until there is none. */
#include "core/parallel.h"

#include <stdatomic.h>
#include <unistd.h>

#ifdef __wasm__
#define ALONE /* there are no threads in it */
#else
#include <pthread.h>
#endif

/* Threads, and bytes of stack for each: what a C library gives differs, from
   128 KiB. */
enum { MOST = 256, STACK = 1 << 20 };

struct work {
    void (*job)(void *of, size_t i);
    void *of;
    size_t count;
    atomic_size_t next;
};

static void *take(void *at)
{
    struct work *w = at;
    size_t i;

    while ((i = atomic_fetch_add(&w->next, 1)) < w->count)
        w->job(w->of, i);
    return NULL;
}

size_t core__processors(void)
{
    long n = sysconf(_SC_NPROCESSORS_ONLN);

    return n < 1 ? 1 : n > MOST ? MOST : (size_t)n;
}

#ifdef ALONE
static void take_all(struct work *w, size_t wanted)
{
    (void)wanted;
    take(w);
}
#else
static void take_all(struct work *w, size_t wanted)
{
    pthread_t helper[MOST];
    pthread_attr_t own;
    size_t helpers = 0;

    if (pthread_attr_init(&own) == 0) {
        while (helpers + 1 < wanted && helpers < MOST &&
               pthread_attr_setstacksize(&own, STACK) == 0 &&
               pthread_create(&helper[helpers], &own, take, w) == 0)
            helpers++;
        pthread_attr_destroy(&own);
    }
    take(w);
    for (size_t i = 0; i < helpers; i++)
        pthread_join(helper[i], NULL);
}
#endif

void core__parallel(size_t threads, size_t count,
                    void (*job)(void *of, size_t i), void *of)
{
    struct work w = {.job = job, .of = of, .count = count};

    atomic_init(&w.next, 0);
    take_all(&w, threads < count ? threads : count);
}
