/* What a spread says, for its answer; private to the library. */
#ifndef BRAKE_STUDY_DRAWN_H
#define BRAKE_STUDY_DRAWN_H

#include "brake/spread.h"

/** Percentiles that are given.
 * @param number  0 to BRAKE_PERCENTILES - 1
 * @return        [-] 0.05, 0.25, 0.50, 0.75, 0.95
 */
double brake_spread_percent(int number);

/** Whether a criterion is drawn: it belongs to the rules, and those of hot performance were asked
 * for. What decides a margin of hot performance is not worked out: it has no indices.
 * @param spread     prepared
 * @param criterion  number of the criterion
 * @return           true when it is
 */
bool brake_spread_draws(const struct brake_spread *spread, int criterion);

/** Criterion least often met; of equals, that of the least median margin.
 * @param spread  drawn
 * @return        number of the criterion; -1 when none could be judged
 */
int brake_spread_limiting(const struct brake_spread *spread);

/** What decides the doubt in a margin: inputs and causes by falling total index.
 * @param spread     drawn
 * @param criterion  number of the criterion
 * @param number     room for most, filled with numbers of shares, see brake_inputs_name
 * @param most       of them
 * @return           how many were filled; those of total index 0 are left out
 */
int brake_spread_leading(const struct brake_spread *spread, int criterion, int *number, int most);

/** Index of one share of the inputs for one criterion.
 * @param spread     drawn
 * @param criterion  number of the criterion
 * @param number     of the share
 * @return           its indices
 */
struct brake_index brake_spread_index(const struct brake_spread *spread, int criterion, int number);

#endif
