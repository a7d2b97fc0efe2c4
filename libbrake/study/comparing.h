/* What of a comparison decides its verdict; private to the library. */
#ifndef BRAKE_STUDY_COMPARING_H
#define BRAKE_STUDY_COMPARING_H

#include "brake/compare.h"

/** Part of a like-for-like figure that is missing.
 * @param like  torque over need, before and after
 * @return      [-] 1 less after over before; 0 when it is regained; NaN when it cannot be said
 */
double brake_like_missing(const struct brake_compared *like);

/** Load case in which most is missing, of both axles together.
 * @param comparison  of brake_compare
 * @return            its number
 */
enum brake_load brake_compare_worst(const struct brake_comparison *comparison);

/** Whether a requirement was met before and falls short now.
 * @param comparison  of brake_compare
 * @param criterion   its number
 * @return            true when it does
 */
bool brake_compare_lost(const struct brake_comparison *comparison, int criterion);

#endif
