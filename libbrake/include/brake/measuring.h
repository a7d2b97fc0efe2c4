/* SPDX-License-Identifier: MIT */
/** @file measuring.h
 * What to measure, so that requirements which could stand either way are settled: the shortest list
 * of lines, those first that are cheap to get.
 */
#ifndef BRAKE_MEASURING_H
#define BRAKE_MEASURING_H

#include "brake/criteria.h"

#ifdef __cplusplus
extern "C" {
#endif

enum { BRAKE_MEASURINGS = 6 /**< lines on a list */ };

/** A list of lines to measure. */
struct brake_measuring {
    int lines;                          /**< on the list */
    int line[BRAKE_MEASURINGS];         /**< of the catalogue, the cheaper to get first */
    double sum[BRAKE_MEASURINGS];       /**< [-] requirements that are expected to change their word
                                           once this line and those before it are known */
    double probability[BRAKE_CRITERIA]; /**< [-] that the word of a requirement changes once all of
                                           them are known; NaN: it is not looked at */
    double whatever[BRAKE_CRITERIA];    /**< [-] the same once every line that can be measured is */
};

#ifdef __cplusplus
}
#endif

#endif
