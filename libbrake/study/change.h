/* SPDX-License-Identifier: MIT */
/* Which group of changes a quantity belongs to, and mixtures of two vehicles; private to the
 * library. */
#ifndef BRAKE_STUDY_CHANGE_H
#define BRAKE_STUDY_CHANGE_H

#include "brake/compare.h"

/** Group of a quantity.
 * @param index  of the quantity
 * @return       its group
 */
enum brake_change brake_change_of(int index);

/** Word of a group, also its key in JSON.
 * @param change  the group
 * @return        e.g. "centre_of_gravity"
 */
const char *brake_change_word(enum brake_change change);

/** Name of a group, for people.
 * @param change  the group
 * @return        e.g. "centre of gravity"
 */
const char *brake_change_name(enum brake_change change);

/** What a group holds.
 * @param change  the group
 * @return        a line
 */
const char *brake_change_meaning(enum brake_change change);

/** Groups in which two vehicles differ.
 * @param before  complete
 * @param after   complete
 * @param change  room for BRAKE_CHANGES, filled
 * @return        how many there are
 */
int brake_changes(const struct brake_vehicle *before, const struct brake_vehicle *after,
                  enum brake_change *change);

/** Vehicle with some groups as after and the others as before.
 * @param before   complete
 * @param after    complete
 * @param changed  groups as after, as bits: 1 << group
 * @param vehicle  filled; fit for evaluation and judging
 */
void brake_vehicle_mix(const struct brake_vehicle *before, const struct brake_vehicle *after,
                       unsigned changed, struct brake_vehicle *vehicle);

/** Whether two numbers are the same but for rounding.
 * @param a  [any] NaN is the same as NaN
 * @param b  [any]
 * @return   true within 1e-12 of the larger
 */
bool brake_same_number(double a, double b);

/** Lines that are not the same, defaults that follow other lines left out.
 * @param before  complete
 * @param after   complete
 * @param line    room for 2 BRAKE_ROWS, filled
 * @return        how many there are
 */
int brake_changed_lines(const struct brake_sheet *before, const struct brake_sheet *after,
                        struct brake_changed_line *line);

/** Part of the vehicle that a line belongs to, whose lines change together.
 * @param index  of the line
 * @return       its name; NULL: the line stands for itself
 */
const char *brake_part_of(int index);

#endif
