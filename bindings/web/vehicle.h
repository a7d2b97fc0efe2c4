/* SPDX-License-Identifier: MIT */
/* A vehicle, and what it was before, read from texts. */
#ifndef BRAKE_FACE_VEHICLE_H
#define BRAKE_FACE_VEHICLE_H

#include "brake/brake.h"

/* Large: made on the heap. */
struct vehicle {
    struct brake_sheet sheet;
    struct brake_sheet before;
    bool told; /* there is one before */
    struct brake_assessment assessment;
    struct brake_before loss;
    struct brake_repair repair;
    struct brake_error error;
    bool of_before; /* the error is of that file */
};

/* Reads both, the second may be empty; NULL: memory is short. Look at its error. */
struct vehicle *vehicle_read(const char *text, const char *before);

/* Everything that is said of it; false: memory is short. */
bool vehicle_assess_cold(struct vehicle *v);
bool vehicle_assess(struct vehicle *v);

/* Its refusal as JSON. */
char *vehicle_refused(const struct vehicle *v);

/* A document in the units of its file. */
struct brake_document *vehicle_document(const struct vehicle *v);

/* Prints a document and frees it and the vehicle. */
char *vehicle_give(struct vehicle *v, struct brake_document *d, enum brake_format format);

#endif
