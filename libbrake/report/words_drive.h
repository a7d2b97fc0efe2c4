/* Words that every report of a drive says alike; private to this folder. A text that does not fit its
 * room is cut. */
#ifndef BRAKE_WORDS_DRIVE_H
#define BRAKE_WORDS_DRIVE_H

#include <stddef.h>

#include "brake/report.h"

/* What marks a stop. */
struct brake_stop_mark {
    unsigned flag; /* of enum brake_stop_flag */
    const char *id;
    const char *words;
};

/* NULL past the last. */
const struct brake_stop_mark *brake_stop_mark_at(int index);

/* Whether the drive agrees with the prediction, with both numbers. */
void brake_words_drive_verdict(const struct brake_drive_report *report, char *text, size_t size);

/* Rows, stops, and the load that was driven. */
void brake_words_drive_log(const struct brake_drive_report *report, char *text, size_t size);

/* What the figures of a stop are. NULL past the last. */
const char *brake_words_drive_method(const struct brake_drive *drive, int index);

/* How the stops from one nominal speed are alike. */
void brake_words_drive_repeat(const struct brake_repeat *repeat, char *text, size_t size);

/* How measured over predicted is alike over the stops; nothing when it is not known. */
void brake_words_drive_scatter(const struct brake_drive *drive, char *text, size_t size);

/* Change from the first stop to the last. */
void brake_words_drive_fade(const struct brake_drive *drive, char *text, size_t size);

/* The friction that would explain what was measured. */
void brake_words_drive_friction(const struct brake_drive_report *report, char *text, size_t size);

#endif
