/* SPDX-License-Identifier: MIT */
/** @file roots.h
 * Every place of a range at which a function of one number meets zero.
 *
 * The range is laid out in points; between two neighbours on different sides of zero the place is
 * bracketed and narrowed until the bracket is as narrow as numbers allow; where the function turns
 * towards zero between neighbours, its extreme is sought as well, so that a touch is not missed.
 * What happens twice between two points, without a turn that three points show, is not seen.
 */
#ifndef BRAKE_ROOTS_H
#define BRAKE_ROOTS_H

#include <stdbool.h>

#include "brake/watch.h"

#ifdef __cplusplus
extern "C" {
#endif

enum {
    BRAKE_ROOTS = 32,       /**< room for crossings */
    BRAKE_STRETCHES = 8,    /**< room for stretches without a value */
    BRAKE_SCAN_POINTS = 513 /**< most points of a scan */
};

/** A function of one number and the range it is scanned over. */
struct brake_scan {
    double (*value)(void *context, double x); /**< NaN where there is none */
    void *context;                            /**< handed back to it */
    double low;                               /**< [x] one end */
    double high;                              /**< [x] other end, above low */
    int points;                               /**< 3 to BRAKE_SCAN_POINTS, both ends counted */
    bool logarithmic;                         /**< evenly spaced in the logarithm; low above 0 */
    double
        noise; /**< [-] of the span of the values: what solving in steps makes it leap; 0: exact */
    void (*values)(void *context, const double *x, int count,
                   double *value); /**< the same at several x at once; NULL: one by one */
};

/** How zero is met. */
enum brake_root_kind {
    BRAKE_CROSSING, /**< the function goes through zero */
    BRAKE_TOUCH,    /**< it comes to zero and turns back */
    BRAKE_JUMP      /**< it leaps over zero without taking it */
};

/** A place at which zero is met. */
struct brake_root {
    double x; /**< [x] the end of the last bracket at which the function is 0 or more */
    enum brake_root_kind kind;
    bool rises; /**< above zero beyond it; of a touch: above zero on both sides */
};

/** A stretch without a value. */
struct brake_stretch {
    double low;  /**< [x] its first point */
    double high; /**< [x] its last point */
};

/** What a scan found. */
struct brake_roots {
    struct brake_root root[BRAKE_ROOTS]; /**< in rising order */
    int count;
    bool more;    /**< there are more than there is room for */
    bool stopped; /**< the watch stopped it; nothing else can be used */
    struct brake_stretch stretch[BRAKE_STRETCHES]; /**< points without a value */
    int stretches;
    int known;       /**< points with a value, infinite ones too */
    int finite;      /**< points with a finite one */
    double least;    /**< [f] of the finite ones */
    double most;     /**< [f] of the finite ones */
    double nearest;  /**< [x] at which the function is nearest to zero */
    double shortest; /**< [f] there */
};

#ifdef __cplusplus
}
#endif

#endif
