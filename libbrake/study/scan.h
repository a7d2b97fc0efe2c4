/* SPDX-License-Identifier: MIT */
/* Scanning a function of one number for zeros; private to the library. */
#ifndef BRAKE_STUDY_SCAN_H
#define BRAKE_STUDY_SCAN_H

#include "brake/roots.h"

/** Place of a point of a scan.
 * @param scan  the range
 * @param i     0 to points - 1
 * @return      [x]
 */
double brake_scan_at(const struct brake_scan *scan, int i);

/** Find every place at which a function meets zero, and where it comes nearest.
 *
 * A bracket is narrowed to a few units in the last place of the range. Where the function still
 * differs by a millionth of what it did at the start of the bracket, and by more than the noise, it
 * is a jump; where it turns
 * within 1e-9 of its whole span from zero, a touch.
 * @param scan   function and range
 * @param watch  told of every point of the grid; NULL: nobody
 * @param roots  filled
 * @source       T. R. Chandrupatla, A new hybrid quadratic/bisection algorithm for finding the zero
 *               of a nonlinear function without using derivatives, Advances in Engineering Software
 *               28 (1997) 145-149, from memory; golden section: J. Kiefer, Sequential minimax
 *               search for a maximum, Proc. Amer. Math. Soc. 4 (1953) 502-506, from memory
 */
void brake_roots_find(const struct brake_scan *scan, const struct brake_watch *watch,
                      struct brake_roots *roots);

#endif
