/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L /* NOLINT: unsetenv, sysconf */
#include <errno.h>
#include <pthread.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>
#ifdef _OPENMP
#include <omp.h>
#endif

#include "command.h"
#include "machine.h"

/* Bytes of stack that the command, and each of its threads, is given at least: twice the deepest,
 * 460 KiB of size for a hot result (gcc 12, amd64 with AVX-512). */
enum { STACK = 1024 * 1024 };

/* A handler of exit is given nothing, so that this must stand here. */
static bool ended;

/* Whoever calls exit before main has ended is the runtime of the threads, short of memory or of a
 * thread. */
static void end_for_others(void)
{
    static const char words[] = "stopmargin: the machine failed: memory or threads are short\n";
    if (ended)
        return;
    fputs(words, stderr);
    _exit(EXIT_FAILED);
}

static int check_stack(void)
{
    struct rlimit limit;
    if (getrlimit(RLIMIT_STACK, &limit) != 0 || limit.rlim_cur == RLIM_INFINITY ||
        limit.rlim_cur >= STACK)
        return 0;
    command_tell(
        "stopmargin: the stack is limited to %d KiB; it must be %d KiB or more (ulimit -s)\n",
        (int)(limit.rlim_cur / 1024), STACK / 1024);
    return EXIT_FAILED;
}

/* Sizes of the threads' stacks are read before main begins, and cannot be asked for: without them a
 * thread has the stack that was checked. */
static int forget_stack_sizes(char **words)
{
    static const char *const names[] = {"OMP_STACKSIZE", "GOMP_STACKSIZE", "KMP_STACKSIZE"};
    bool found = false;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        found = found || getenv(names[i]) != NULL;
        unsetenv(names[i]);
    }
    if (!found)
        return 0;
    execv("/proc/self/exe", words);
    command_tell("stopmargin: cannot be started anew without OMP_STACKSIZE; unset it: %s\n",
                 strerror(errno));
    return EXIT_FAILED;
}

static void *wait_for_all(void *gate)
{
    pthread_mutex_lock(gate);
    pthread_mutex_unlock(gate);
    return NULL;
}

int machine_threads(int wanted)
{
    pthread_mutex_t gate = PTHREAD_MUTEX_INITIALIZER;
    const int others = wanted > 1 ? wanted - 1 : 0;
    pthread_t *thread = malloc(((size_t)others + 1) * sizeof *thread);
    int started = 0;
    pthread_mutex_lock(&gate); /* all of them at once, as they will be */
    while (thread != NULL && started < others &&
           pthread_create(&thread[started], NULL, wait_for_all, &gate) == 0)
        started++;
    pthread_mutex_unlock(&gate);
    for (int i = 0; i < started; i++)
        pthread_join(thread[i], NULL);
    free(thread);
    return started == others ? others + 1 : 1;
}

int machine_begin(char **words)
{
    int status = check_stack();
    if (status == 0)
        status = forget_stack_sizes(words);
    if (status == 0 && atexit(end_for_others) != 0)
        status = command_short_of_memory();
    if (status != 0)
        return EXIT_FAILED;
#ifdef _OPENMP
    omp_set_max_active_levels(1); /* or there would be more of them than are tried here */
    omp_set_num_threads(machine_threads(omp_get_max_threads()));
#endif
    return 0;
}

int machine_end(int status)
{
    ended = true;
    return status;
}
