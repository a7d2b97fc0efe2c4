/* SPDX-License-Identifier: MIT */
/* What Python reaches of the library: the vehicle, its studies, the loops over the model.
 *
 * A vehicle is a buffer that holds a struct brake_sheet: Python copies, compares and stores it as
 * the bytes that it is. A refusal becomes an exception of libbrake.errors. */
%module(package="libbrake", threads="1") core

%{
#include "call.h"
#include "bridge.h"
#include "answers.h"
#include "heats.h"
#include "study.h"
#include "watch.h"
%}

/* GNU OpenMP's threads do not live on in a child, and its next study would wait for them for ever:
 * they are ended before any fork, of Python or of C, and begun again when they are needed. */
%{
#include <omp.h>
#include <pthread.h>

static void end_threads(void)
{
    omp_pause_resource_all(omp_pause_hard);
}
%}
%init %{
    pthread_atfork(end_threads, NULL, NULL);
%}

/* A text is a str without a NUL, or is refused. */
%typemap(in) const char * {
    $1 = (char *)(uintptr_t)text_take($input);
    if ($1 == NULL)
        SWIG_fail;
}
%typemap(freearg) const char * "";

/* Nothing but what runs long lets other threads go on. */
%nothread;

/* A buffer of Python held until after the call. */
%define HELD(PATTERN, FLAGS, CHECK)
%typemap(in) PATTERN (Py_buffer view = {0}) {
    if (PyObject_GetBuffer($input, &view, FLAGS) != 0)
        SWIG_fail;
    if (!(CHECK)) {
        PyErr_SetString(PyExc_ValueError, "the buffer is not of the size or kind that is wanted");
        PyBuffer_Release(&view);
        SWIG_fail;
    }
    $1 = view.buf;
}
%typemap(freearg) PATTERN { PyBuffer_Release(&view$argnum); }
%enddef

HELD(struct brake_sheet *sheet, PyBUF_WRITABLE, view.len == sizeof(struct brake_sheet))
HELD(const struct brake_sheet *sheet, PyBUF_SIMPLE, view.len == sizeof(struct brake_sheet))
HELD(const struct brake_sheet *other, PyBUF_SIMPLE, view.len == sizeof(struct brake_sheet))
HELD(double pair[BRAKE_PAIR_NUMBERS], PyBUF_WRITABLE,
     view.len == BRAKE_PAIR_NUMBERS * sizeof(double))

/* The vehicle before, or None. */
%typemap(in) const struct brake_sheet *before (Py_buffer view = {0}) {
    if ($input != Py_None && PyObject_GetBuffer($input, &view, PyBUF_SIMPLE) != 0)
        SWIG_fail;
    if (view.obj != NULL && view.len != sizeof(struct brake_sheet)) {
        PyErr_SetString(PyExc_ValueError, "the buffer is no vehicle");
        PyBuffer_Release(&view);
        SWIG_fail;
    }
    $1 = view.buf;
}
%typemap(freearg) const struct brake_sheet *before { PyBuffer_Release(&view$argnum); }

/* Columns: a sequence of numbers and of contiguous buffers of doubles. */
%typemap(in) (const struct columns *) (struct columns columns = {0}) {
    if (!columns_take($input, false, &columns))
        SWIG_fail;
    $1 = &columns;
}
%typemap(freearg) (const struct columns *) { columns_release(&columns$argnum); }
%typemap(in) (const struct columns *out) (struct columns columns = {0}) {
    if (!columns_take($input, true, &columns))
        SWIG_fail;
    $1 = &columns;
}
%typemap(freearg) (const struct columns *out) { columns_release(&columns$argnum); }

/* Why an input was refused. */
%typemap(in, numinputs=0) struct brake_error *error (struct brake_error error) {
    memset(&error, 0, sizeof error);
    $1 = &error;
}
%typemap(argout) struct brake_error *error {
    if ($1->status < 0) {
        call_refuse($1);
        SWIG_fail;
    }
}
%typemap(out) enum brake_status { (void)$1; $result = SWIG_Py_Void(); }

/* An array of doubles, and the rows of a history. */
%typemap(in) struct numbers (Py_buffer view = {0}) {
    if (!doubles_take($input, false, &view))
        SWIG_fail;
    $1.at = view.buf;
    $1.count = (long)(view.len / (long)sizeof(double));
}
%typemap(freearg) struct numbers { PyBuffer_Release(&view$argnum); }
%typemap(in, numinputs=0) struct brake_history *history (struct brake_history history = {0}) {
    $1 = &history;
}
%typemap(argout) struct brake_history *history {
    $result = SWIG_Python_AppendOutput($result, PyBytes_FromStringAndSize(
        (const char *)$1->row, (Py_ssize_t)$1->rows * (Py_ssize_t)sizeof *$1->row));
}
%typemap(freearg) struct brake_history *history { free($1->row); }

/* The log of a drive: (bytes, units of columns, 1 when it was driven full, 0 empty, -1 as it says
 * itself, grade, lag, gauge), of the last three value and half, NaN for what is usual. */
%typemap(in) const struct driven *driven (struct driven driven) {
    struct brake_drive_day *const day = &driven.day;
    if (!PyArg_ParseTuple($input, "z#zi(dd)(dd)(dd)", &driven.bytes, &driven.size, &driven.columns,
                          &driven.full, &day->grade.value, &day->grade.half, &day->lag.value,
                          &day->lag.half, &day->gauge.value, &day->gauge.half))
        SWIG_fail;
    $1 = &driven;
}

/* Logs of drives: a tuple of bytes, which holds them until after the call. */
%typemap(in) const struct logs *logs (struct logs logs) {
    if (!logs_take($input, &logs))
        SWIG_fail;
    $1 = &logs;
}

/* What a report is asked for: (file, file before, file of the log, date, rules, whether full). */
%typemap(in) const struct wanted *wanted (struct wanted wanted) {
    if (!PyArg_ParseTuple($input, "zzzsIp", &wanted.file, &wanted.before_file, &wanted.drive_file,
                          &wanted.date, &wanted.rules, &wanted.full))
        SWIG_fail;
    $1 = &wanted;
}

/* Who watches a study: a callable, or None. What it raises, and a signal, end the study. */
%typemap(in) const struct brake_watch *watch (struct watching watching) {
    if (!watching_begin($input, &watching))
        SWIG_fail;
    $1 = &watching.watch;
}
%define WATCHED(FUNCTION)
%exception FUNCTION {
    $action
    if (PyErr_Occurred())
        SWIG_fail;
}
%enddef
WATCHED(sweep_run)
WATCHED(samples_run)
WATCHED(spread_run)
WATCHED(compare_run)
WATCHED(size_range)
WATCHED(size_lists)
WATCHED(size_tyres)
WATCHED(duty_run)
WATCHED(heats_run)

/* A short text that is filled. */
%typemap(in, numinputs=0) (char *text, size_t size) (char text[512]) {
    text[0] = '\0';
    $1 = text;
    $2 = sizeof text;
}
%typemap(argout) (char *text, size_t size) { $result = PyUnicode_FromString($1); }

/* A report that comes with an answer, for the screen and for print. */
%include <cstring.i>
%cstring_output_allocate(char **report, free(*$1));
%cstring_output_allocate(char **html, free(*$1));

/* Bytes of a file. */
%include <pybuffer.i>
%pybuffer_binary(const char *bytes, size_t size);

%newobject sheet_json;
%newobject page_table;
%newobject sheet_check_json;
%newobject sheet_report;
%newobject catalogue_json;
%newobject sheet_file;
%newobject sheet_told;
%newobject sheet_sizes;
%newobject sweep_notes;
%newobject duty_run;
%newobject spread_run;
%newobject compare_run;
%newobject size_range;
%newobject size_lists;
%newobject size_tyres;
%newobject drive_run;
%newobject cooldown_run;
%newobject shakedown_run;
%ignore numbers;

%include "call.h"
%thread;
%include "bridge.h"
%include "study.h"
%include "heats.h"
%include "answers.h"
