/* Parts of the plain text that several reports have; private to this folder. */
#ifndef BRAKE_TEXT_H
#define BRAKE_TEXT_H

#include <stdio.h>

#include "brake/report.h"

/* Name, verdict, limiting requirement, next measurement, caution. */
void brake_text_head(const struct brake_sheet *sheet, const struct brake_assessment *assessment,
                     FILE *stream);

/* Requirements, warnings, numbers, defaults, what only an inspector can judge. */
void brake_text_body(const struct brake_sheet *sheet, const struct brake_assessment *assessment,
                     FILE *stream);

/* A duty: whether the brakes stand it, and what it is; then how hot they get, what the driver does, a
 * chart, its warnings. */
void brake_text_duty_head(const struct brake_duty_report *report, FILE *stream);
void brake_text_duty_body(const struct brake_duty_report *report, FILE *stream);

/* A drive: whether it agrees with the prediction, and what was driven; then stop by stop, how the
 * stops are alike, fade, friction, what of the log was left aside. */
void brake_text_drive_head(const struct brake_drive_report *report, FILE *stream);
void brake_text_drive_body(const struct brake_drive_report *report, FILE *stream);

/* Caution and version. */
void brake_text_end(FILE *stream);

#endif
