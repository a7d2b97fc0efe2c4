/* SPDX-License-Identifier: MIT */
/* Customary parts that may mend the brakes of a vehicle; private to the library. */
#ifndef BRAKE_STUDY_PARTS_H
#define BRAKE_STUDY_PARTS_H

#include "brake/repair.h"

enum { BRAKE_PARTS_OFFERED = 128 };

/** A part that may be changed. */
struct brake_part_offer {
    struct brake_repair_change change;
    int place;  /**< offers of one place exclude each other */
    double far; /**< [-] how far it is from what is fitted */
};

/** Whether parts of a line are offered by their size, so that a list of sizes may name it.
 * @param line  of the catalogue
 * @return      true when they are
 */
bool brake_parts_sized(int line);

/** List what may be changed on a vehicle.
 * @param sheet  complete
 * @param offer  filled, room for BRAKE_PARTS_OFFERED
 * @return       how many there are
 */
int brake_parts_offered(const struct brake_sheet *sheet,
                        struct brake_part_offer offer[BRAKE_PARTS_OFFERED]);

/** The fluid that boils last among what may be changed.
 * @param offer   listed
 * @param offers  of them
 * @return        its number; -1: the fluid is as good as any
 */
int brake_parts_best_fluid(const struct brake_part_offer *offer, int offers);

/** Fit a repair.
 * @param sheet   complete; afterwards complete with the changed lines
 * @param change  the parts
 * @param count   of them
 * @return        OK, or why the vehicle would be refused
 */
enum brake_status brake_repair_fit(struct brake_sheet *sheet,
                                   const struct brake_repair_change *change, int count);

#endif
