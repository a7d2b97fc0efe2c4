/* SPDX-License-Identifier: MIT */
/* A vehicle, what it was before and how it was driven, read from texts. */
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

/* Reads a vehicle, what it was before and the log of a drive that it learns of; both may be empty
 * or NULL. NULL: memory is short. Look at its error. */
struct vehicle *vehicle_read(const char *text, const char *before, const char *drive);

/* Reads a log; to be freed by brake_log_free when OK. */
enum brake_status vehicle_log(const char *text, struct brake_log *log, struct brake_error *error);

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
