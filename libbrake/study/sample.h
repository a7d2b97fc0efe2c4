/* Margins of one sample of a vehicle: how every study that draws judges; private to this folder. */
#ifndef BRAKE_STUDY_SAMPLE_H
#define BRAKE_STUDY_SAMPLE_H

#include "inputs.h"
#include "model/braking_lanes.h"

/* Margins of all criteria but those of hot performance, the model's own error in them: NaN where it
 * cannot be worked out, infinite where this sample is of a class that the criterion does not apply
 * to. */
void sample_margins(const struct brake_inputs *inputs, unsigned rules, const double *share,
                    double margin[BRAKE_CRITERIA]);

/* A sample to be judged by hot performance. */
struct sample_hot {
    const double *share;
    double *margin; /* of all criteria, the others are left as they are */
};

/* Margins of hot performance, likewise, of up to BRAKE_TOGETHER samples side by side: those of one
 * do not depend on the others. */
void sample_hot_margins(const struct brake_inputs *inputs, unsigned rules,
                        struct sample_hot *sample, int count);

#endif
