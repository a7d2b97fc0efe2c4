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

/* Outputs of a vehicle, given by their numbers. */
enum brake_status outputs_of(const struct brake_sheet *sheet, struct numbers outputs,
                             const struct columns *out, struct brake_error *error);

/* Whether all values are in the range of a quantity. */
bool quantity_takes(int index, struct numbers values);

/* Outputs of a vehicle at every combination of values of some lines, case by case, the last axis
 * fastest; NaN where the vehicle refuses a case. */
enum brake_status sweep_run(const struct brake_sheet *sheet, struct numbers lines,
                            const struct columns *values, struct numbers outputs, int threads,
                            const struct brake_watch *watch, const struct columns *out,
                            struct brake_error *error);

#endif
