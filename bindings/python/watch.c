/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L /* clock_gettime */
#include "watch.h"

#include <time.h>

static const double EVERY = 0.05; /* [s] */

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

static bool is_told(PyObject *progress, double done, double total)
{
    if (progress == Py_None)
        return true;
    PyObject *answer = PyObject_CallFunction(progress, "dd", done, total);
    Py_XDECREF(answer);
    return answer != NULL;
}

static void ask_python(void *context, double done, double total)
{
    struct watching *watching = context;
    if (watching->stop != 0 || (now() - watching->asked < EVERY && done < total))
        return;
    const PyGILState_STATE lock = PyGILState_Ensure();
    watching->stop = PyErr_CheckSignals() != 0 || !is_told(watching->progress, done, total);
    PyGILState_Release(lock);
    watching->asked = now(); /* however long Python took */
}

bool watching_begin(PyObject *progress, struct watching *watching)
{
    if (progress != Py_None && !PyCallable_Check(progress)) {
        PyErr_SetString(PyExc_TypeError, "progress: accepts a callable of (done, total), or None");
        return false;
    }
    *watching = (struct watching){.progress = progress, .asked = now()};
    watching->watch = (struct brake_watch){ask_python, watching, &watching->stop};
    return true;
}
