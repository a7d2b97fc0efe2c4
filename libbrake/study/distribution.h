/* SPDX-License-Identifier: MIT */
/* An uncertain number: how likely each of its values is; private to the library. */
#ifndef BRAKE_STUDY_DISTRIBUTION_H
#define BRAKE_STUDY_DISTRIBUTION_H

#include "brake/distribution.h"
#include "tolerance.h"

/** An uncertain number; fields as brake_distribution_of works them out. */
struct brake_distribution {
    enum brake_shape shape;
    double middle; /**< [SI] */
    double below;  /**< [SI] sigma, or half width, of the half below it, before values are left
                        out */
    double above;  /**< [SI] the same of the half above it */
    double from;   /**< [-] share of the whole shape that lies below what is accepted */
    double to;     /**< [-] share that lies below the upper end of it */
};

/** Share of a standard normal distribution below a value.
 * @param value  [-] in standard deviations
 * @return       [-] 0 to 1
 * @source       Abramowitz and Stegun, 26.2.29, by the complementary error function
 */
double brake_normal_share(double value);

/** Value of a standard normal distribution below which a share lies. Within 1e-15 of the value, or
 * of 1 when that is more, over 1e-300 to 1 - 1e-16.
 * @param share  [-] above 0, below 1
 * @return       [-] in standard deviations; -infinity at 0, infinity at 1, NaN outside
 * @source       M. J. Wichura, Algorithm AS 241 (PPND16), Appl. Statist. 37, 477-484 (1988)
 */
double brake_normal_value(double share);

/** An uncertain number from what a file says of it.
 * @param shape      how its values lie
 * @param middle     [SI] its value
 * @param tolerance  [SI] half width that holds 95 of 100; above 0
 * @param lean       [-] above -1, below 1: it reaches from (1 - lean) tolerance below the middle to
 *                   (1 + lean) tolerance above it; as many lie below the middle as above
 * @param low        [SI] least value accepted
 * @param high       [SI] largest value accepted
 * @return           the number; where the value itself is out of range, that end is open up to it
 */
struct brake_distribution brake_distribution_of(enum brake_shape shape, double middle,
                                                double tolerance, double lean, double low,
                                                double high);

/** Value of an uncertain number below which a share of its values lies.
 * @param distribution  the number
 * @param share         [-] above 0, below 1
 * @return              [SI] inside the accepted range
 */
double brake_distribution_value(const struct brake_distribution *distribution, double share);

#endif
