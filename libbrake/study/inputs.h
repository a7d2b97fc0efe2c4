/* SPDX-License-Identifier: MIT */
/* What is uncertain about a vehicle, as independent shares between 0 and 1: one for every
 * toleranced number, and one for every cause that several of them share.
 *
 * Two numbers with a cause of correlation c in common are each the normal score
 * sqrt(1 - c) (own) + sqrt(c) (cause), so that they correlate by c whatever their shapes (a
 * Gaussian copula of one factor), and the cause can be told from the numbers in every sensitivity.
 *
 * Private to the library. */
#ifndef BRAKE_STUDY_INPUTS_H
#define BRAKE_STUDY_INPUTS_H

#include <stddef.h>

#include "brake/catalogue.h"
#include "brake/distribution.h"
#include "distribution.h"
#include "brake/criteria.h"

enum {
    BRAKE_INPUTS = 416,   /**< room for every quantity, cause and error of the model */
    BRAKE_CAUSE_PATHS = 8 /**< room for the numbers of a cause */
};

/** Why several numbers are off together. */
struct brake_cause {
    const char *id;     /**< ours, e.g. "shared.scales" */
    const char *words;  /**< what is shared */
    double correlation; /**< [-] of any two of the numbers, 0 to 1 */
    bool parts; /**< front and rear may also part by it: what turns on their difference is drawn
                     so */
    const char *source;                  /**< of the correlation */
    const char *path[BRAKE_CAUSE_PATHS]; /**< of the numbers; NULL: no more */
};

/** A toleranced number, or a choice that was left out. */
struct brake_input {
    int index;   /**< of the quantity */
    bool choice; /**< then the uncertainty is its row's odds */
    int cause;   /**< of the used ones; -1: none */
    bool rear;   /**< of a quantity of the rear axle */
    struct brake_distribution distribution;
};

/** What a drive has told of the shares: brake/knowledge.h, those of its scores that still hold. */
struct brake_learned {
    int count;
    int share[BRAKE_KNOWN];
    double shift[BRAKE_KNOWN];
    double along[BRAKE_KNOWN][BRAKE_KNOWN_DIRECTIONS];           /**< W */
    double pull[BRAKE_KNOWN_DIRECTIONS][BRAKE_KNOWN_DIRECTIONS]; /**< P: I - W P W' is the root of
                                                                      I - W W' */
};

/** Everything that is uncertain about a vehicle. */
struct brake_inputs {
    const struct brake_sheet *sheet; /**< stays the caller's */
    struct brake_places places;
    int count;  /**< toleranced numbers */
    int causes; /**< that two or more of them share */
    struct brake_input input[BRAKE_INPUTS];
    int cause[BRAKE_INPUTS]; /**< number in the table of causes */
    struct brake_learned learned;
};

/** A cause of the table.
 * @param number  0 and up
 * @return        the cause; NULL past the last
 */
const struct brake_cause *brake_cause_at(int number);

/** List what is uncertain about a vehicle: numbers with a tolerance that do not come from others
 * with one.
 * @param sheet   complete; must outlive the inputs
 * @param shape   of each quantity, by its index; NULL: all normal
 * @param inputs  filled
 */
void brake_inputs_list(const struct brake_sheet *sheet, const enum brake_shape *shape,
                       struct brake_inputs *inputs);

/** How many independent shares there are: first the numbers in their order, then the causes, then
 * the errors of the model.
 * @param inputs  listed
 * @return        count
 */
int brake_inputs_count(const struct brake_inputs *inputs);

/** Name of a share.
 * @param inputs  listed
 * @param number  0 to brake_inputs_count() - 1
 * @param name    filled: path of the quantity, or id of the cause
 * @param size    of name in bytes, 160 is enough
 */
void brake_inputs_name(const struct brake_inputs *inputs, int number, char *name, size_t size);

/** Values of the toleranced numbers, and numbers of the choices.
 * @param inputs  listed
 * @param share   [-] brake_inputs_count() shares, above 0, below 1
 * @param value   [SI] room for inputs->count, filled
 */
void brake_inputs_values(const struct brake_inputs *inputs, const double *share, double *value);

/** Vehicle with these values of its inputs.
 * @param inputs   listed
 * @param value    [SI] of the toleranced numbers, and numbers of the choices: inputs->count
 * @param vehicle  filled
 */
void brake_inputs_set(const struct brake_inputs *inputs, const double *value,
                      struct brake_vehicle *vehicle);

/** How an input of a share came into the vehicle.
 * @param inputs  listed
 * @param number  0 to brake_inputs_count() - 1
 * @return        from the numbers that share a cause, the weakest; estimated for an error of the
 *                model
 */
enum brake_from brake_inputs_from(const struct brake_inputs *inputs, int number);

/** Factors by which the model is off in one sample, by kind of error; that of an exact one is 1.
 * @param inputs  listed
 * @param share   [-] brake_inputs_count() shares, above 0, below 1
 * @param factor  [-] filled: true over worked-out value, to the good side
 */
void brake_inputs_model(const struct brake_inputs *inputs, const double *share,
                        double factor[BRAKE_MODEL_ERRORS]);

/** Vehicle of one sample in which what may part front and rear does: where a cause that they share
 * makes one of them higher it makes the other lower.
 * @param inputs   listed
 * @param share    [-] brake_inputs_count() shares, above 0, below 1
 * @param vehicle  filled
 */
void brake_inputs_parted(const struct brake_inputs *inputs, const double *share,
                         struct brake_vehicle *vehicle);

/** Vehicle of one sample.
 * @param inputs   listed
 * @param share    [-] brake_inputs_count() shares, above 0, below 1
 * @param vehicle  filled
 */
void brake_inputs_vehicle(const struct brake_inputs *inputs, const double *share,
                          struct brake_vehicle *vehicle);

#endif
