/* Margins of one sample of a vehicle: how every study that draws judges; private to this folder. */
#ifndef BRAKE_STUDY_SAMPLE_H
#define BRAKE_STUDY_SAMPLE_H

#include "inputs.h"

/* Margins of all criteria but those of hot performance, the model's own error in them: NaN where it
 * cannot be worked out, infinite where this sample is of a class that the criterion does not apply
 * to. */
void sample_margins(const struct brake_inputs *inputs, unsigned rules, const double *share,
                    double margin[BRAKE_CRITERIA]);

/* Margins of hot performance, likewise; the others are left as they are. */
void sample_hot_margins(const struct brake_inputs *inputs, unsigned rules, const double *share,
                        double margin[BRAKE_CRITERIA]);

#endif
