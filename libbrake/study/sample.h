/* SPDX-License-Identifier: MIT */
/* Margins of one sample of a vehicle: how every study that draws judges; private to this folder. */
#ifndef BRAKE_STUDY_SAMPLE_H
#define BRAKE_STUDY_SAMPLE_H

#include "inputs.h"
#include "model/braking_lanes.h"
#include "sobol.h"

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

/* What is drawn of the samples of a sequence. */
struct sample_draw {
    const struct brake_inputs *inputs;
    const struct brake_sobol *sobol; /* of each replicate */
    long each;                       /* samples of a replicate */
    unsigned rules;
    bool margins; /* wanted, those of hot performance aside */
    bool hot;     /* those of hot performance wanted */
};

/* A few samples: their shares, and of their margins those that are wanted. */
struct sample_few {
    double share[BRAKE_TOGETHER][BRAKE_INPUTS];
    double margin[BRAKE_TOGETHER][BRAKE_CRITERIA];
};

/* Draws BRAKE_TOGETHER samples from the first on; their hot performance is judged side by side. */
void sample_draw_few(const struct sample_draw *draw, long first, struct sample_few *few);

#endif
