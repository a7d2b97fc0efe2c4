/* SPDX-License-Identifier: MIT */
/* Studies over arrays, as Python asks for them. */
#ifndef LIBBRAKE_PYTHON_STUDY_H
#define LIBBRAKE_PYTHON_STUDY_H

#include "bridge.h"
#include "call.h"

/* Number of a result path or a criterion; -1: there is none. Its name, and its SI unit. */
int output_number(const char *name);
void output_name(int number, char *text, size_t size);
const char *output_unit(int number);

/* A number of a text with its unit, in SI, of what an output measures; -1: a margin. */
double output_amount(int number, const char *name, const char *text, struct brake_error *error);

/* Path of a line by its index. */
void line_path(const struct brake_sheet *sheet, int index, char *text, size_t size);

/* Outputs of a vehicle, given by their numbers. */
enum brake_status outputs_of(const struct brake_sheet *sheet, struct numbers outputs,
                             const struct columns *out, struct brake_error *error);

#ifndef SWIG
/* Axes of lines and their values; false when there are not as many of both. */
bool study_axes(struct numbers lines, const struct columns *values, struct brake_axis *axis);
#endif

/* Whether all values are in the range of a quantity. */
bool quantity_takes(int index, struct numbers values);

/* Outputs of a vehicle at every combination of values of some lines, the last axis fastest, or at
 * values that go together; case by case, NaN where the vehicle refuses one. */
enum brake_status sweep_run(const struct brake_sheet *sheet, struct numbers lines,
                            const struct columns *values, bool together, struct numbers outputs,
                            int threads, const struct brake_watch *watch, const struct columns *out,
                            struct brake_error *error);

/* The thread that calls works alone from now on. */
void threads_alone(void);

/* Why cases of a sweep are refused, by their numbers, one a line; empty where they are not. */
char *sweep_notes(const struct brake_sheet *sheet, struct numbers lines,
                  const struct columns *values, bool together, struct numbers cases,
                  struct brake_error *error);

/* Curves along pedal force, or else along deceleration: `out` is one column of points, the members
 * of struct brake_curve_point after each other. */
enum brake_status curves_of(const struct brake_sheet *sheet, int load, int failure, bool by_force,
                            struct numbers along, const struct columns *out,
                            struct brake_error *error);

/* Derivatives of outputs by lines, output by output: values, errors, and 1 for a kink. */
enum brake_status gradient_run(const struct brake_sheet *sheet, struct numbers outputs,
                               struct numbers lines, const struct columns *out,
                               struct brake_error *error);

/* Indices of the lines that are uncertain, put at the begin of a column; -1 behind the last. */
enum brake_status samples_lines(const struct brake_sheet *sheet, const struct columns *out,
                                struct brake_error *error);

/* Samples of the lines that are uncertain and of outputs, sample by sample. */
enum brake_status samples_run(const struct brake_sheet *sheet, unsigned rules,
                              unsigned long long seed, struct numbers shapes,
                              struct numbers outputs, const struct brake_watch *watch,
                              const struct columns *out, struct brake_error *error);

#endif
