/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L /* NOLINT: sigaction */
#include "signals.h"

#include <signal.h>
#include <stddef.h>

enum { ENDS = 3 };

static const int ends[ENDS] = {SIGINT, SIGTERM, SIGHUP};

/* A handler has nothing else to write to, and the process has one way to take each signal. */
static volatile sig_atomic_t held;
static struct sigaction before[ENDS];

static void hold(int number)
{
    held = number;
}

void signals_hold(void)
{
    const struct sigaction action = {.sa_handler = hold, .sa_flags = SA_RESTART};
    held = 0;
    for (int i = 0; i < ENDS; i++) {
        sigaction(ends[i], NULL, &before[i]);
        if (before[i].sa_handler != SIG_IGN)
            sigaction(ends[i], &action, NULL);
    }
}

void signals_release(void)
{
    for (int i = 0; i < ENDS; i++)
        sigaction(ends[i], &before[i], NULL);
    if (held != 0)
        raise((int)held);
}
