/* SPDX-License-Identifier: MIT */
/* A function of the model called from Python. */
#ifndef LIBBRAKE_PYTHON_CALL_H
#define LIBBRAKE_PYTHON_CALL_H

#include <Python.h>

#include "columns.h"

#ifndef SWIG
/* Columns with the buffers that they stand in. */
struct columns {
    int count;
    struct column column[COLUMNS];
    double number[COLUMNS];
    Py_buffer view[COLUMNS]; /* obj NULL: a number */
};

/* Takes an object's buffer of doubles in C order; false with an exception set when it has none, and
 * then there is nothing to release. */
bool doubles_take(PyObject *item, bool writable, Py_buffer *view);

/* Takes the columns of a sequence; false with an exception set when it holds something else. */
bool columns_take(PyObject *sequence, bool writable, struct columns *columns);
void columns_release(struct columns *columns);

/* The numbers of a column that was taken as writable. */
double *columns_writable(const struct columns *columns, int at);

/* The bytes of a text without a NUL; NULL with an exception set for anything else. */
const char *text_take(PyObject *item);

/* Sets the exception of a refusal. */
void call_refuse(const struct brake_error *error);
#endif

/* Calls a function of the model with a tuple of numbers; anything else in the tuple is handed on to
 * libbrake.arrays.broadcast. Gives a number, or a tuple when there are several. */
PyObject *model_call(int function, PyObject *arguments);

/* Runs a function of the model over columns; `series` is a tuple of buffers. Gives the status of
 * the last call. */
PyObject *model_loop(int function, PyObject *series, const struct columns *in,
                     const struct columns *out);

/* Columns of results that a function has. */
int model_outputs(int function);

#endif
