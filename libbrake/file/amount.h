/* SPDX-License-Identifier: MIT */
/* Numbers with their units, as people write them; private to this folder. Each function reads from
 * the head of a text and moves it on past what it took. */
#ifndef BRAKE_FILE_AMOUNT_H
#define BRAKE_FILE_AMOUNT_H

#include "reading.h"

/* What the line says, SI. */
struct amount {
    double value;
    double tolerance; /* below 0: none stated */
};

/* A number as it was written. */
struct written {
    double number;
    const struct brake_unit *unit;
    bool composed; /* of feet and inches: the number is in inches */
};

/* A plain decimal number. */
enum brake_status amount_number(struct reading *r, const char **text, double *number);

/* A number and its unit: 15/16 in, 8 ft 9 in, 35". */
enum brake_status amount_written(struct reading *r, const char **text,
                                 enum brake_dimension dimension, struct written *written);

/* What a quantity measures, inside its range: a number, one with its tolerance, from here to there,
 * or the edge code of a lining. */
enum brake_status amount_take(struct reading *r, const char **text, struct amount *amount);

/* Refuses a value [SI] outside a range, which is told in the unit of who wrote it. */
enum brake_status amount_in_range(struct reading *r, double value, const struct brake_unit *unit,
                                  double low, double high);

#endif
