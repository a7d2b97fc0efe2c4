/** @file warnings.h
 * What a good engineer would say unasked, each with its number.
 */
#ifndef BRAKE_WARNINGS_H
#define BRAKE_WARNINGS_H

#include "brake/evaluate.h"

#ifdef __cplusplus
extern "C" {
#endif

enum { BRAKE_WARNINGS = 56 /**< room for every warning, 12 of heat among them */ };

/** The caution that stands in every output; no option removes it. */
#define BRAKE_CAUTION                                                                              \
    "A calculation is not an approval. Local codes rule, and road brakes must be checked by a "    \
    "qualified inspector before the vehicle is driven on the road."

/** Its first words, for the line above a verdict; the whole stands below. */
#define BRAKE_CAUTION_LINE "CAUTION: a calculation is not an approval; an inspector must check the brakes."

/** One warning. */
struct brake_warning {
    const char *id; /**< ours, e.g. "rear_locks_first" */
    char text[240]; /**< one or two sentences with the figures */
};

/** Warnings of a vehicle.
 * @param vehicle   complete
 * @param results   of that vehicle
 * @param warnings  room for BRAKE_WARNINGS, filled from the start
 * @return          number of warnings
 */
int brake_warnings(const struct brake_vehicle *vehicle, const struct brake_results *results,
                   struct brake_warning *warnings);

#ifdef __cplusplus
}
#endif

#endif
