/* SPDX-License-Identifier: MIT */
/** @file output.h
 * What a study asks of a vehicle: a result by its path, or the margin of a criterion by its id.
 */
#ifndef BRAKE_OUTPUT_H
#define BRAKE_OUTPUT_H

#include <stdbool.h>
#include <stddef.h>

#include "brake/criteria.h"
#include "brake/evaluate.h"

#ifdef __cplusplus
extern "C" {
#endif

enum { BRAKE_OUTPUTS = 512 /**< room for every result and every criterion */ };

/** A result, or the margin of a criterion. */
struct brake_output {
    bool criterion; /**< true: a criterion's margin */
    int index;      /**< of the result, or of the criterion */
};

/** Number of outputs: every result, then every criterion.
 * @return  count; at most BRAKE_OUTPUTS
 */
int brake_output_count(void);

/** Output of a number.
 * @param number  0 to brake_output_count() - 1
 * @return        the output
 */
struct brake_output brake_output_at(int number);

/** Output of a name.
 * @param name    `full.stop.distance`, or `us.135.cold` for its margin
 * @param output  filled
 * @return        OK, or E_UNKNOWN
 */
enum brake_status brake_output_find(const char *name, struct brake_output *output);

/** Output whose name is nearest to a wrong one.
 * @param name    as written
 * @param output  filled
 * @return        OK, or E_UNKNOWN when nothing is near
 */
enum brake_status brake_output_nearest(const char *name, struct brake_output *output);

/** Name of an output.
 * @param output  a result or a criterion
 * @param name    filled
 * @param size    of name in bytes, 80 is enough
 */
void brake_output_name(struct brake_output output, char *name, size_t size);

/** What an output is measured in.
 * @param output  a result or a criterion
 * @return        its dimension; of a margin: a ratio
 */
enum brake_dimension brake_output_dimension(struct brake_output output);

/** Values of outputs; only what is asked for is worked out, fade procedures too.
 * @param vehicle  complete
 * @param output   what is asked for
 * @param count    of them
 * @param value    [SI] room for count; NaN where it cannot be said
 */
void brake_outputs(const struct brake_vehicle *vehicle, const struct brake_output *output,
                   int count, double *value);

#ifdef __cplusplus
}
#endif

#endif
