/* SPDX-License-Identifier: MIT */
/** @file gradient.h
 * How fast outputs change with lines of a vehicle file: the derivative of each by each.
 *
 * A line is given other numbers as brake_sheet_set and brake_sheet_complete do: what follows from
 * it is worked out anew. Central differences at steps that halve, from a hundredth of the number
 * down, are extrapolated to none; what the last orders differ by is the error (C. J. F. Ridders,
 * Accurate computation of F'(x) and F'(x)F''(x), Advances in Engineering Software 4 (1982), from
 * memory).
 * Where the slopes to the left and to the right differ there is a kink: a booster that runs out, a
 * valve that opens, an axle that locks.
 */
#ifndef BRAKE_GRADIENT_H
#define BRAKE_GRADIENT_H

#include <stdbool.h>

#include "brake/catalogue.h"
#include "brake/output.h"

#ifdef __cplusplus
extern "C" {
#endif

/** The derivative of one output by one line. */
struct brake_derivative {
    double value; /**< [SI of the output over SI of the line] NaN where there is none: the output
                       cannot be said, or the vehicle refuses other numbers of the line */
    double
        error; /**< [as value] what it may be off by; at a kink half of what the slopes differ by */
    bool kink; /**< the slopes differ; the value is their mean */
};

/** Derivatives of outputs by lines. Results of hot performance are good to their steps in time
 * only: look at the error.
 * @param sheet       complete
 * @param output      results, or criteria for their margin
 * @param outputs     of them, 1 to BRAKE_OUTPUTS
 * @param line        indices of real quantities
 * @param lines       of them, 1 and up
 * @param derivative  room for outputs * lines, output by output, filled
 * @return            OK; E_UNKNOWN: a line is no number, or has none; E_SIZE; E_MEMORY
 */
enum brake_status brake_gradient(const struct brake_sheet *sheet, const struct brake_output *output,
                                 int outputs, const int *line, int lines,
                                 struct brake_derivative *derivative);

#ifdef __cplusplus
}
#endif

#endif
