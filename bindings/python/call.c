/* SPDX-License-Identifier: MIT */
#include "call.h"

#include <math.h>
#include <string.h>

enum { LONG_LOOP = 256 /* from here on other threads may go on meanwhile */ };

void call_refuse(const struct brake_error *error)
{
    PyObject *errors = PyImport_ImportModule("libbrake.errors");
    PyObject *refusal = errors == NULL
                            ? NULL
                            : PyObject_CallMethod(errors, "refusal", "iiss", (int)error->status,
                                                  error->line, error->field, error->text);
    if (refusal != NULL)
        PyErr_SetObject((PyObject *)Py_TYPE(refusal), refusal);
    Py_XDECREF(refusal);
    Py_XDECREF(errors);
}

const char *text_take(PyObject *item)
{
    Py_ssize_t size = 0;
    if (!PyUnicode_Check(item)) {
        PyErr_Format(PyExc_TypeError, "got %.100R; accepts a text", item);
        return NULL;
    }
    const char *text = PyUnicode_AsUTF8AndSize(item, &size);
    if (text != NULL && strlen(text) != (size_t)size) {
        PyErr_Format(PyExc_ValueError, "got %.100R, with a NUL character; accepts text without",
                     item);
        return NULL;
    }
    return text;
}

/* ---- columns -------------------------------------------------------------------------------- */

static bool is_double(const Py_buffer *view)
{
    const char *format = view->format;
    if (format != NULL && (*format == '@' || *format == '='))
        format++;
    return format != NULL && format[0] == 'd' && format[1] == '\0';
}

bool doubles_take(PyObject *item, bool writable, Py_buffer *view)
{
    const int flags = PyBUF_C_CONTIGUOUS | PyBUF_FORMAT | (writable ? PyBUF_WRITABLE : 0);
    if (PyObject_GetBuffer(item, view, flags) != 0) {
        view->obj = NULL;
        return false;
    }
    if (!is_double(view)) {
        PyErr_Format(PyExc_TypeError, "got items of format '%s'; accepts doubles ('d')",
                     view->format);
        PyBuffer_Release(view);
        return false;
    }
    return true;
}

static bool take_buffer(PyObject *item, bool writable, struct columns *columns, int at)
{
    Py_buffer *view = &columns->view[at];
    if (!doubles_take(item, writable, view))
        return false;
    columns->column[at] = (struct column){view->buf, 1, view->len / (long)sizeof(double)};
    return true;
}

static bool take_item(PyObject *item, bool writable, struct columns *columns, int at)
{
    columns->view[at].obj = NULL;
    if (writable || PyObject_CheckBuffer(item) > PyFloat_Check(item))
        return take_buffer(item, writable, columns, at);
    columns->number[at] = PyFloat_AsDouble(item);
    columns->column[at] = (struct column){&columns->number[at], 0, 1};
    return !(columns->number[at] == -1.0 && PyErr_Occurred());
}

bool columns_take(PyObject *sequence, bool writable, struct columns *columns)
{
    PyObject *items = PySequence_Fast(sequence, "accepts a sequence of numbers and buffers");
    bool good = items != NULL;
    columns->count = 0;
    if (good && PySequence_Fast_GET_SIZE(items) > COLUMNS) {
        PyErr_Format(PyExc_ValueError, "accepts up to %d columns", COLUMNS);
        good = false;
    }
    for (int i = 0; good && i < PySequence_Fast_GET_SIZE(items); i++) {
        good = take_item(PySequence_Fast_GET_ITEM(items, i), writable, columns, i);
        columns->count += good;
    }
    Py_XDECREF(items);
    if (!good)
        columns_release(columns);
    return good;
}

void columns_release(struct columns *columns)
{
    for (int i = 0; i < columns->count; i++) {
        if (columns->view[i].obj != NULL)
            PyBuffer_Release(&columns->view[i]);
    }
    columns->count = 0;
}

double *columns_writable(const struct columns *columns, int at)
{
    return columns->view[at].buf;
}

/* ---- one call ------------------------------------------------------------------------------- */

static bool is_whole(double number)
{
    return fabs(number) < 2147483648.0 && number == floor(number);
}

static bool are_whole(const struct kernel *kernel, const struct column *column)
{
    for (int k = 0; k < kernel->inputs; k++) {
        for (long i = 0; (kernel->whole >> k & 1) != 0 && i < column[k].count; i++) {
            if (!is_whole(column[k].at[i])) {
                PyErr_SetString(PyExc_ValueError,
                                "an argument that chooses or counts must be a whole number");
                return false;
            }
        }
    }
    return true;
}

static const struct kernel *kernel_at(int function)
{
    if (function >= 0 && function < kernels_count)
        return &kernels[function];
    PyErr_SetString(PyExc_ValueError, "there is no such function");
    return NULL;
}

int model_outputs(int function)
{
    const struct kernel *kernel = kernel_at(function);
    return kernel != NULL ? kernel->outputs : 0;
}

static PyObject *broadcast(int function, PyObject *arguments)
{
    PyObject *arrays = PyImport_ImportModule("libbrake.arrays");
    PyObject *found =
        arrays == NULL ? NULL : PyObject_CallMethod(arrays, "broadcast", "iO", function, arguments);
    Py_XDECREF(arrays);
    return found;
}

/* Numbers of a tuple; false without an exception when one is something else. */
static bool take_numbers(PyObject *arguments, double *number)
{
    for (Py_ssize_t i = 0; i < PyTuple_GET_SIZE(arguments); i++) {
        PyObject *item = PyTuple_GET_ITEM(arguments, i);
        if (PyFloat_Check(item))
            number[i] = PyFloat_AS_DOUBLE(item);
        else if (PyLong_Check(item))
            number[i] = PyLong_AsDouble(item);
        else
            return false;
        if (number[i] == -1.0 && PyErr_Occurred())
            return false;
    }
    return true;
}

static PyObject *give(const double *result, int count)
{
    if (count == 1)
        return PyFloat_FromDouble(result[0]);
    PyObject *tuple = PyTuple_New(count);
    for (int i = 0; tuple != NULL && i < count; i++)
        PyTuple_SET_ITEM(tuple, i, PyFloat_FromDouble(result[i]));
    return tuple;
}

PyObject *model_call(int function, PyObject *arguments)
{
    const struct kernel *kernel = kernel_at(function);
    double number[COLUMNS];
    double result[COLUMNS];
    double *out[COLUMNS];
    struct column column[COLUMNS];
    if (kernel == NULL)
        return NULL;
    if (kernel->series > 0) {
        PyErr_SetString(PyExc_TypeError, "the function wants more than numbers");
        return NULL;
    }
    if (!PyTuple_Check(arguments) || PyTuple_GET_SIZE(arguments) != kernel->inputs) {
        PyErr_Format(PyExc_TypeError, "got %zd numbers; accepts a tuple of %d: %s",
                     PyTuple_Check(arguments) ? PyTuple_GET_SIZE(arguments) : 0, kernel->inputs,
                     kernel->names);
        return NULL;
    }
    if (!take_numbers(arguments, number))
        return PyErr_Occurred() ? NULL : broadcast(function, arguments);
    for (int i = 0; i < kernel->inputs; i++)
        column[i] = (struct column){&number[i], 0, 1};
    for (int i = 0; i < kernel->outputs; i++)
        out[i] = &result[i];
    if (!are_whole(kernel, column))
        return NULL;
    const enum brake_status status = kernel->loop(NULL, column, out, 1);
    if (status < 0) {
        struct brake_error error = {.status = status};
        snprintf(error.text, sizeof error.text, "%s", brake_status_message(status));
        call_refuse(&error);
        return NULL;
    }
    return give(result, kernel->outputs);
}

/* ---- a loop --------------------------------------------------------------------------------- */

/* Cases of a loop; -1 with an exception set when the columns do not fit. */
static long cases(const struct kernel *kernel, const struct columns *in, const struct columns *out)
{
    const long count = out->count > 0 ? out->column[0].count : 1;
    bool fit = in->count == kernel->inputs && out->count == kernel->outputs;
    for (int i = 0; fit && i < in->count; i++)
        fit = in->column[i].step == 0 || in->column[i].count == count;
    for (int i = 0; fit && i < out->count; i++)
        fit = out->column[i].count == count;
    if (!fit)
        PyErr_SetString(PyExc_ValueError, "the columns are not of one length, or not as many as "
                                          "the function has");
    return fit ? count : -1;
}

/* Series with the buffers that they stand in. */
struct held {
    int count;
    Py_buffer view[SERIES];
    struct series series[SERIES];
};

static void release_series(struct held *held)
{
    for (int i = 0; i < held->count; i++)
        PyBuffer_Release(&held->view[i]);
}

static bool take_series(const struct kernel *kernel, PyObject *series, struct held *held)
{
    held->count = 0;
    if (!PyTuple_Check(series) || PyTuple_GET_SIZE(series) != kernel->series) {
        PyErr_Format(PyExc_TypeError, "accepts a tuple of %d series", kernel->series);
        return false;
    }
    for (int i = 0; i < kernel->series; i++) {
        Py_buffer *view = &held->view[i];
        const int flags = (kernel->written >> i & 1) != 0 ? PyBUF_WRITABLE : PyBUF_SIMPLE;
        if (PyObject_GetBuffer(PyTuple_GET_ITEM(series, i), view, flags) != 0)
            break;
        held->series[i] = (struct series){view->buf, (long)view->len};
        held->count++;
        if (kernel->size[i] != 0 && kernel->size[i] != (long)view->len) {
            PyErr_Format(PyExc_ValueError, "got %zd bytes; accepts %ld", view->len,
                         kernel->size[i]);
            break;
        }
    }
    if (PyErr_Occurred())
        release_series(held);
    return !PyErr_Occurred();
}

PyObject *model_loop(int function, PyObject *series, const struct columns *in,
                     const struct columns *out)
{
    const struct kernel *kernel = kernel_at(function);
    const long count = kernel != NULL ? cases(kernel, in, out) : -1;
    double *result[COLUMNS];
    struct held held;
    enum brake_status status;
    if (count < 0 || !are_whole(kernel, in->column) || !take_series(kernel, series, &held))
        return NULL;
    for (int i = 0; i < out->count; i++)
        result[i] = columns_writable(out, i);
    if (count < LONG_LOOP) {
        status = kernel->loop(held.series, in->column, result, count);
    } else {
        Py_BEGIN_ALLOW_THREADS status = kernel->loop(held.series, in->column, result, count);
        Py_END_ALLOW_THREADS
    }
    release_series(&held);
    return PyLong_FromLong(status);
}
