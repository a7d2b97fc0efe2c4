/* SPDX-License-Identifier: MIT */
/* A study that Python waits for: how far it is, and what stops it. */
#ifndef LIBBRAKE_PYTHON_WATCH_H
#define LIBBRAKE_PYTHON_WATCH_H

#include <Python.h>
#include <stdbool.h>

#include "brake/watch.h"

/* A watch, and whom it tells. */
struct watching {
    struct brake_watch watch;
    PyObject *progress;         /* a callable of (done, total), borrowed; None: none */
    volatile sig_atomic_t stop; /* an exception is set */
    double asked;               /* [s] when Python was last asked */
};

/* Begins to watch, for a callable or None; false with an exception set for anything else. While the
 * study runs without Python's lock, Python is asked now and then whether a signal has come. */
bool watching_begin(PyObject *progress, struct watching *watching);

#endif
