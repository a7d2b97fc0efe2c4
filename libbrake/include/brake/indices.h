/** @file indices.h
 * Whose doubt a result's doubt is: first-order and total Sobol indices of any model of independent
 * shares.
 *
 * The first-order index of an input is the part of the variance that vanishes, on average, once
 * this input alone is known; the total index is the part that stays while it alone is not known.
 * They differ by what the input does together with others.
 */
#ifndef BRAKE_INDICES_H
#define BRAKE_INDICES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "brake/watch.h"

#ifdef __cplusplus
extern "C" {
#endif

enum {
    BRAKE_REPLICATES = 16,   /**< independent scrambles of every study by samples */
    BRAKE_MODEL_INPUTS = 256 /**< most inputs: two dimensions of the sequence each */
};

/** Indices of one input for one output; NaN when they cannot be given. */
struct brake_index {
    double first;       /**< [-] first order; noise may take it below 0 */
    double first_error; /**< [-] half width that holds the exact one in 95 of 100 */
    double total;       /**< [-] total, 0 and up */
    double total_error; /**< [-] half width of it */
};

#ifdef __cplusplus
}
#endif

#endif
