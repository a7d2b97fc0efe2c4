/* SPDX-License-Identifier: MIT */
/* A sheet made for many cases, and quantities moved by their uncertainty; private to the
 * library. */
#ifndef BRAKE_VEHICLE_RECALCULATION_H
#define BRAKE_VEHICLE_RECALCULATION_H

#include "brake/catalogue.h"

/** A sheet made for many cases, one after the other. */
struct brake_recalculation {
    struct brake_sheet sheet;
    struct brake_places places;
    bool anew; /**< true: nothing that an earlier case has worked out may stay */
};

/** Lay the catalogue out: the same for every vehicle, so once is enough for many.
 * @param places  filled
 */
void brake_places_fill(struct brake_places *places);

/** Vehicle of a sheet with one number changed, everything worked out anew.
 * @param sheet    complete
 * @param places   filled
 * @param index    of a real quantity
 * @param value    [SI] its new value
 * @param vehicle  filled
 */
void brake_sheet_vary(const struct brake_sheet *sheet, const struct brake_places *places, int index,
                      double value, struct brake_vehicle *vehicle);

/** Vehicle of a sheet with several numbers changed at once, everything worked out anew, once.
 *
 * A number that the sheet has worked out (`record.worked`) is put in place at the end, and nothing
 * follows it. Where others are to follow it, as after --set, call brake_sheet_set and
 * brake_sheet_complete once before: from then on it counts as given.
 * @param sheet    complete
 * @param places   filled
 * @param index    of real quantities, none twice
 * @param value    [SI] their new values
 * @param count    of both, 0 and up
 * @param vehicle  filled
 */
void brake_sheet_vary_many(const struct brake_sheet *sheet, const struct brake_places *places,
                           const int *index, const double *value, int count,
                           struct brake_vehicle *vehicle);

/** Make a sheet ready for many cases of some lines.
 * @param sheet          complete
 * @param index          of real quantities, none twice: the lines that are to change
 * @param value          [SI] of the first case, inside the accepted ranges
 * @param count          of both
 * @param recalculation  filled; may be copied
 * @param error          filled on refusal: a line is of no use to this vehicle, whatever its number
 * @return               OK, or the status of the error
 */
enum brake_status brake_recalculation_begin(const struct brake_sheet *sheet, const int *index,
                                            const double *value, int count,
                                            struct brake_recalculation *recalculation,
                                            struct brake_error *error);

/** Give the lines other numbers: what comes out, refusals included, is what brake_sheet_set and
 * brake_sheet_complete give, but for the tolerances. A refusal does not hinder the next case.
 * @param recalculation  ready; its sheet is worked out for these numbers
 * @param index          as at the beginning
 * @param value          [SI] inside the accepted ranges
 * @param count          of both
 * @param error          filled on refusal
 * @return               OK, or the status of the error
 */
enum brake_status brake_recalculation_case(struct brake_recalculation *recalculation,
                                           const int *index, const double *value, int count,
                                           struct brake_error *error);

#endif
