/* SPDX-License-Identifier: MIT */
/** @file knowledge.h
 * What a drive, or a brake tester, has told of a vehicle besides its lines.
 *
 * Scores are what every study draws: independent, normal, one for a line, a shared cause or an
 * error of the model. A drive moves their middle by `shift` and takes away their scatter along a
 * few directions: covariance I - W W', W the columns of `along`. It is kept as plain numbers with
 * the vehicle, so that whoever draws the vehicle draws it as it was driven. A line that has another
 * value since, or belongs to a part that has, loses what was told of it and nothing else.
 */
#ifndef BRAKE_KNOWLEDGE_H
#define BRAKE_KNOWLEDGE_H

#include <stdbool.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

enum {
    BRAKE_KNOWN = 40,          /**< most scores that a drive tells of */
    BRAKE_KNOWN_DIRECTIONS = 3 /**< most directions in which they are known better */
};

/** What has a score. */
enum brake_known_of { BRAKE_KNOWN_LINE, BRAKE_KNOWN_CAUSE, BRAKE_KNOWN_MODEL };

/** What is known of a score. */
struct brake_known {
    int of;                               /**< one of enum brake_known_of */
    int number;                           /**< index of the line, number of the cause or error */
    double value, tolerance, lean;        /**< [SI] that the line had; 0 for the others */
    uint64_t part;                        /**< mark of the lines of its part; 0: none */
    double shift;                         /**< [-] */
    double along[BRAKE_KNOWN_DIRECTIONS]; /**< [-] its row of W */
};

/** What the brakes measured, against what the lines say. */
enum brake_drive_word {
    BRAKE_DRIVE_NONE,   /**< no drive, or nothing that could be held against the lines */
    BRAKE_DRIVE_AGREES, /**< within what the lines allow */
    BRAKE_DRIVE_LESS,   /**< the lines allow so little in less than 1 of 100 */
    BRAKE_DRIVE_MORE    /**< so much likewise */
};

enum { BRAKE_DRIVE_LINES = 3 /**< lines named as in conflict, at most */ };

/** What is known from a drive and a tester; all 0: nothing. */
struct brake_knowledge {
    int count;
    struct brake_known of[BRAKE_KNOWN];
    int word;         /**< one of enum brake_drive_word */
    int forces;       /**< of axles on a tester */
    int stops;        /**< that count */
    int bounds;       /**< of them, those that the tyres limited */
    int left_out;     /**< that do not count, or have neither pedal force nor pressure */
    bool another;     /**< it was the vehicle before that was driven */
    double ratio;     /**< [-] measured over the middle of what the lines say */
    double low, high; /**< [-] between which 90 of 100 of the same ratio lie by the lines alone */
    double likely;    /**< [-] share of what the lines allow that is as little, or less */
    double effective; /**< [-] samples that the identification rests on, weighed */
    int line[BRAKE_DRIVE_LINES]; /**< lines that are off most; -1: no more */
};

/** [-] Samples that what is known must rest on before anything may be said to be met. */
#define BRAKE_KNOWN_EFFECTIVE 1024.0

#ifdef __cplusplus
}
#endif

#endif
