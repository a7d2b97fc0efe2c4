/* SPDX-License-Identifier: MIT */
/* Heat of many cases, as Python asks for it. */
#ifndef LIBBRAKE_PYTHON_HEATS_H
#define LIBBRAKE_PYTHON_HEATS_H

#include "bridge.h"
#include "call.h"

#ifndef SWIG
enum { DUTY_FIELDS = 14 /* numbers that make a duty, of duty_fields() */ };

/* One duty of its fields, as duty_run takes it. */
enum brake_status duty_take(const struct brake_vehicle *vehicle, struct numbers fields,
                            struct numbers points, const char *sequence, struct brake_duty *duty,
                            struct brake_error *error);
#endif

/* Every combination of the values of some lines, each through every duty: `out` gets results,
 * histories and the status of each case. `asked` holds six columns: indices of the lines; fields of
 * each duty, as duty_fields() names them, the force NaN for the vehicle's own most; points and
 * `sequence` as duty_run has them; results by their index; columns of the history; its times. */
enum brake_status heats_run(const struct brake_sheet *sheet, bool full, const char *sequence,
                            const struct columns *asked, const struct columns *values, int threads,
                            const struct brake_watch *watch, const struct columns *out,
                            struct brake_error *error);

/* Refuses as a case of them was. */
enum brake_status heats_refusal(const struct brake_sheet *sheet, bool full, const char *sequence,
                                const struct columns *asked, const struct columns *values,
                                double number, struct brake_error *error);

#endif
