/* SPDX-License-Identifier: MIT */
/** @file fit.h
 * What measured pairs say: straight line, proportioning valve, booster.
 *
 * Least squares throughout. Source: Press et al., Numerical Recipes, sec. 15.2 (straight line).
 */
#ifndef BRAKE_FIT_H
#define BRAKE_FIT_H

#include "brake/disc.h"
#include "brake/pedal.h"
#include "brake/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Straight line through points.
 * @param point      the points, x and y in any units
 * @param count      number of points, 2 or more with different x
 * @param slope      [-] filled, y per x; NaN when refused
 * @param intercept  [-] filled, y at x = 0; NaN when refused
 * @return           OK or E_FIT
 * @source           Press et al., Numerical Recipes, sec. 15.2
 */
enum brake_status brake_fit_line(const struct brake_point *point, int count, double *slope,
                                 double *intercept);

/** Knee and slope of a proportioning valve from pairs of gauge readings. Pairs whose rear pressure
 * is within 3 % of the front one count as ahead of the knee.
 * @param point  x front and y rear pressure [Pa]
 * @param count  number of pairs, up to 64, 2 or more of them past the knee
 * @param valve  filled; NaN when refused
 * @return       OK or E_FIT
 * @source       brake_valve_pressure, line through the pairs past the knee
 */
enum brake_status brake_fit_valve(const struct brake_point *point, int count,
                                  struct brake_valve *valve);

/** Gain and largest assist of a booster from pedal forces and line pressures. The pairs are split
 * where the sum of squares of the two-slope law is least.
 * @param point  x pedal force [N], in rising order, and y line pressure [Pa]
 * @param count  number of pairs, up to 64, at least one on either side of the knee
 * @param pedal  ratio, efficiencies and master area given; gain and assist filled, NaN when refused
 * @return       OK or E_FIT
 * @source       brake_booster_output: slope i below the knee, slope 1 past it
 */
enum brake_status brake_fit_booster(const struct brake_point *point, int count,
                                    struct brake_pedal *pedal);

#ifdef __cplusplus
}
#endif

#endif
