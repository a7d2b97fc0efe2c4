/* SPDX-License-Identifier: MIT */
/** @file distribution.h
 * An uncertain number: how likely each of its values is.
 *
 * Whatever its shape, 95 of 100 values are within the tolerance, as the tolerance of a vehicle file
 * says. Values that the catalogue does not accept are left out and the rest counts as the whole;
 * none is moved to the edge.
 */
#ifndef BRAKE_DISTRIBUTION_H
#define BRAKE_DISTRIBUTION_H

#ifdef __cplusplus
extern "C" {
#endif

/** How the values of a number lie about its middle. */
enum brake_shape {
    BRAKE_NORMAL,     /**< sigma = tolerance / 1.96 */
    BRAKE_UNIFORM,    /**< all alike, within tolerance / 0.95 */
    BRAKE_TRIANGULAR, /**< falling in straight lines to nothing at tolerance / (1 - sqrt(0.05)) */
    BRAKE_SHAPES      /**< how many there are */
};

/** Word of a shape.
 * @param shape  below BRAKE_SHAPES
 * @return       "normal", "uniform" or "triangular"
 */
const char *brake_shape_word(enum brake_shape shape);

#ifdef __cplusplus
}
#endif

#endif
