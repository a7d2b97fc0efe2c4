/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L /* NOLINT: fileno, isatty, clock_gettime, sigaction */
#include "progress.h"

#include <stdio.h>
#include <time.h>
#include <unistd.h>
#include "vehicle/text.h"

enum { EXIT_SIGNAL = 128 }; /* as shells have it */

static const double FIRST = 1.0; /* [s] shorter work needs no line */
static const double EVERY = 0.2; /* [s] */

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

static void write_time(double seconds, char text[32])
{
    if (seconds < 120.0)
        brake_text_format(text, 32, "%.0f s", seconds);
    else if (seconds < 7200.0)
        brake_text_format(text, 32, "%.0f min", seconds / 60.0);
    else
        brake_text_format(text, 32, "%.1f h", seconds / 3600.0);
}

/* Blanks at the end cover what a longer line left. */
static void show(void *context, double done, double total)
{
    struct progress *progress = context;
    const double time = now();
    const double spent = time - progress->began;
    const double rate = (done - progress->offset) / spent;
    char left[32];
    if (!progress->terminal || spent < FIRST || time - progress->shown < EVERY)
        return;
    progress->shown = time;
    write_time((total - done) / rate, left);
    brake_text_print(stderr, "\r%5.1f %% of %.4g %s, %.3g a second, %s left      ",
                     100.0 * done / total, total, progress->unit, rate, left);
}

struct brake_watch progress_begin(struct progress *progress, const char *unit, double offset)
{
    *progress = (struct progress){unit, offset, now(), 0.0, isatty(fileno(stderr)) != 0};
    return (struct brake_watch){.progress = show, .context = progress};
}

void progress_end(const struct progress *progress)
{
    if (progress->shown > 0.0)
        brake_text_print(stderr, "\r%78s\r", "");
}

static volatile sig_atomic_t caught; /* a handler has nothing else to write to */

static void catch_signal(int number)
{
    caught = number;
}

struct brake_watch progress_begin_study(struct progress *progress, const char *unit, double offset)
{
    const struct sigaction action = {.sa_handler = catch_signal,
                                     .sa_flags = (int)(SA_RESTART | SA_RESETHAND)};
    sigaction(SIGINT, &action, NULL);
    sigaction(SIGTERM, &action, NULL);
    struct brake_watch watch = progress_begin(progress, unit, offset);
    watch.stop = &caught;
    return watch;
}

int progress_stopped(void)
{
    return caught != 0 ? EXIT_SIGNAL + (int)caught : 0;
}
