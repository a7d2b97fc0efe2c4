/* SPDX-License-Identifier: MIT */
/** @file watch.h
 * How a study tells how far it is, and how it is told to stop.
 */
#ifndef BRAKE_WATCH_H
#define BRAKE_WATCH_H

#include <signal.h>

/** Who watches a study. Any member may be NULL. */
struct brake_watch {
    /** Called now and then, from the thread that started the study.
     * done and total [-] are in units of the study: cases, samples, steps. */
    void (*progress)(void *context, double done, double total);
    void *context;                     /**< handed back to it */
    const volatile sig_atomic_t *stop; /**< the study ends soon after this is no longer 0 */
};

#endif
