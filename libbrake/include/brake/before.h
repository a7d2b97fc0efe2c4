/* SPDX-License-Identifier: MIT */
/** @file before.h
 * The vehicle before it was changed as the yardstick: brake torque per need, now over before, and
 * how sure that is.
 *
 * Torque per need is the torque that both axles have at the driver's most pedal force over what
 * they need for the driver's target (results torque.*_available and torque.*_needed). Both
 * vehicles are drawn at once: a line that means the same unchanged part in both files has one
 * value in a sample, lines of a changed part have two.
 */
#ifndef BRAKE_BEFORE_H
#define BRAKE_BEFORE_H

#include "brake/catalogue.h"
#include "brake/compare.h"

#ifdef __cplusplus
extern "C" {
#endif

/** [-] Loss of torque per need that is still "as before": common practice, no source. */
#define BRAKE_AS_BEFORE 0.03

enum { BRAKE_BEFORE_SAMPLES = 1024 };

/** Torque per need of an axle, or of both, now over before. */
struct brake_regained {
    double ratio;     /**< [-] as the lines stand; NaN when it cannot be said */
    double low, high; /**< [-] between which 90 of 100 samples lie */
    double unlimited; /**< [-] if the pedal had no floor and the master cylinder no end */
    double share[BRAKE_CHANGES]; /**< [-] of each group of changes in ratio - 1; NaN: not known */
};

/** What the changes did. */
struct brake_before {
    const struct brake_sheet *sheet;           /**< the vehicle before */
    enum brake_load load;                      /**< in which most is missing, or least gained */
    struct brake_regained of[BRAKE_AXLES + 1]; /**< front, rear, both */
    double less;                /**< [-] share of samples in which both together lose more than
                                     BRAKE_AS_BEFORE */
    double more;                /**< [-] in which they gain more */
    enum brake_verdict verdict; /**< of the hazard: meets where they lose more than that in no more
                                     than 5 of 100, falls short in 95 and more */
};

/** Whether two files may be held side by side: a reading that belongs to one state of the vehicle
 * must not stand in both.
 * @param before  complete
 * @param after   complete
 * @param error   filled when they may not, with the line of the file before
 * @return        OK; E_CONFLICT: the vehicle before names one itself, or a height measured after a
 *                lift stands beside that lift
 */
enum brake_status brake_before_fits(const struct brake_sheet *before,
                                    const struct brake_sheet *after, struct brake_error *error);

/** A pull on the parked vehicle that stands in both files was measured on one size of tyre, those
 * of now: the vehicle before is given the pull that the same torque made on its own.
 * @param before  complete; its parking.pull, and what follows from it, are put right
 * @param after   complete
 * @return        whether it was
 */
bool brake_before_carry(struct brake_sheet *before, const struct brake_sheet *after);

/** By how much bigger tyres raise the vehicle, where neither file says so: both have one height of
 * the centre of gravity, and the changed one no lift by its wheels.
 * @param before  complete
 * @param after   complete
 * @return        [m] mean of both axles; 0: it is told, or too little to tell
 */
double brake_before_untold_rise(const struct brake_sheet *before, const struct brake_sheet *after);

/** Hold a vehicle against what it was before.
 * @param before  complete; kept
 * @param after   complete
 * @param loss    filled
 * @return        OK; E_SIZE when too much is uncertain; E_MEMORY
 */
enum brake_status brake_before_draw(const struct brake_sheet *before,
                                    const struct brake_sheet *after, struct brake_before *loss);

/** As brake_before_draw, of two vehicles that were compared already.
 * @param comparison  with its shares
 * @param before      filled
 * @return            OK; E_SIZE when too much is uncertain; E_MEMORY
 */
enum brake_status brake_before_of(const struct brake_comparison *comparison,
                                  struct brake_before *before);

/** Exit status of a command that compared.
 * @param comparison  of brake_compare, drawn
 * @param before      of it
 * @return            0 like for like regained with both axles together, and nothing lost; 1 not so;
 *                    3 neither, but that or a requirement that applies cannot be said
 */
int brake_compare_exit(const struct brake_comparison *comparison,
                       const struct brake_before *before);

#ifdef __cplusplus
}
#endif

#endif
