/* SPDX-License-Identifier: MIT */
/* Parts that several answers have; private to this folder. */
#ifndef BRAKE_ANSWER_PARTS_H
#define BRAKE_ANSWER_PARTS_H

#include "brake/answer.h"
#include "document.h"

/* The vehicle's name, or that it has none. */
const char *brake_part_name(const struct brake_sheet *sheet);

/* Path of a line, kept by the document. */
const char *brake_part_path(struct brake_document *d, const struct brake_vehicle *vehicle,
                            int index);

/* The unit that the trade shows a measure in. */
const struct brake_unit *brake_part_unit(enum brake_measure measure);

/* The unit that a result, an output (a margin in percent) and a line are told in. */
const struct brake_unit *brake_part_result_unit(int index);
const struct brake_unit *brake_part_output_unit(struct brake_output output);
const struct brake_unit *brake_part_line_unit(int index);

/* Name of the SI unit, for programs. */
struct brake_cell brake_part_si(enum brake_dimension dimension);

/* Value of a result: of an evaluation; of a duty, a drive or a comparison. */
struct brake_cell brake_part_result(const struct brake_results *results, int index);
struct brake_cell brake_part_study(const struct brake_study_results *results, int index);

/* A measured or predicted figure and the range in which 90 of 100 lie. */
struct brake_cell brake_part_measured(const struct brake_measured *m, const struct brake_unit *unit,
                                      enum brake_form form);

/* For programs: begins the results under their names, and puts one there. */
void brake_part_numbers(struct brake_document *d);
void brake_part_number(struct brake_document *d, const char *name, struct brake_cell value);

/* Value of a line, whatever its kind. */
struct brake_cell brake_part_value(struct brake_document *d, const struct brake_vehicle *vehicle,
                                   int index);

/* The same of a vehicle that may not have the line (-1: no such line): people read "not given". */
struct brake_cell brake_part_given(struct brake_document *d, const struct brake_sheet *sheet,
                                   int index);

/* Words of a choice, with what stands between two; "" where it is none. */
const char *brake_part_choices(struct brake_document *d, const struct brake_quantity *quantity,
                               const char *glue);

/* The lines that are known, which people see as a table only when they are to; what was left at its
 * default, and why. */
void brake_part_lines(struct brake_document *d, const struct brake_sheet *sheet, bool seen);

/* The known lines alone, for programs. */
void brake_part_known(struct brake_document *d, const struct brake_sheet *sheet);

/* Words of a file or of the catalogue: not filled up with numbers of the other trade, but told in
 * US units where they alone are read. */
const char *brake_part_as_given(struct brake_document *d, const char *text);

/* Warnings, in a section of their own. */
void brake_part_warnings(struct brake_document *d, const struct brake_warning *warning, int count);

/* Whether a line is there only because its section, left out, repeats another. */
bool brake_part_repeats(const struct brake_sheet *sheet, int index);

/* The criteria in the order to read them, those that do not apply last. Returns how many. */
int brake_part_order(const struct brake_assessment *a, int order[BRAKE_CRITERIA]);

/* Puts one more of them where it belongs in an order, `before` telling what stands before what.
 * Returns how many there are then. */
int brake_part_insert(int *order, int count, int one,
                      bool (*before)(const void *context, int x, int y), const void *context);

/* Whether a group of changes moved a number by more than rounding. */
bool brake_part_moves(const struct brake_compared *one, int change);

/* Groups of changes whose share is larger than the least, the largest first. Returns how many. */
int brake_part_largest(const double share[BRAKE_CHANGES], double least, int order[BRAKE_CHANGES]);

/* What each group of changes gave or took of a number, the largest share first, or why that is not
 * known; NULL when none did. */
const char *brake_part_shares(struct brake_document *d, const struct brake_compared *one,
                              const struct brake_unit *unit);

enum { BRAKE_DUTY_WORDS = 600 };

/* What the brakes go through, in words. */
void brake_part_duty(const struct brake_duty_report *r, enum brake_systems systems,
                     char text[BRAKE_DUTY_WORDS]);

/* What the verdicts come to, the word first; and what the yardsticks say, NULL when there are
 * none. */
const char *brake_part_ruling(struct brake_document *d, const struct brake_vehicle *vehicle,
                              const struct brake_ruling *r);
const char *brake_part_yardsticks(struct brake_document *d, const struct brake_ruling *r);

/* The verdict of the first screen: the same, and how many samples meet all of it at once. */
const char *brake_part_stands(struct brake_document *d, const struct brake_vehicle *vehicle,
                              const struct brake_assessment *a);

/* The same after another answer: whatever that said, the vehicle may fall short nonetheless. */
const char *brake_part_now(struct brake_document *d, const struct brake_vehicle *vehicle,
                           const struct brake_ruling *r, bool hot);

/* What the changes did to the torque per need: a sentence, and a section with its numbers. */
const char *brake_part_changes(struct brake_document *d, const struct brake_before *b);
void brake_part_before(struct brake_document *d, const struct brake_before *b);

/* The hazard of losing torque per need, among requirements: its name, and what it says where it is
 * what limits (NULL: it is not). */
extern const char brake_part_loss_name[];
const char *brake_part_loss(struct brake_document *d, const struct brake_assessment *a);

/* What a drive told: a sentence, NULL without one, and a section with its numbers, if there is
 * one. */
const char *brake_part_driven(struct brake_document *d, const struct brake_sheet *sheet);
void brake_part_told(struct brake_document *d, const struct brake_sheet *sheet);

/* What limits, in a sentence (NULL: nothing that is known); how many samples meet one, and why
 * some could not be worked out; its margin. */
const char *brake_part_limits(struct brake_document *d, const struct brake_assessment *a);
const char *brake_part_met(struct brake_document *d, const struct brake_conformance *conformance);

/* A share in whole hundredths; never all or none while some differ. */
const char *brake_part_share(struct brake_document *d, double met);
struct brake_cell brake_part_margin(double margin);

/* What to do, and what to measure (NULL: nothing), in a sentence each; and their tables. */
const char *brake_part_do(struct brake_document *d, const struct brake_assessment *a);
const char *brake_part_measure(struct brake_document *d, const struct brake_sheet *sheet,
                               const struct brake_assessment *a);
void brake_part_advice(struct brake_document *d, const struct brake_sheet *sheet,
                       const struct brake_assessment *a);

/* A vehicle in the page, in an element of that name, with the name of its file (NULL: none); the
 * log of its drive (NULL: none), its list of parts; and the first letters of its digest. */
void brake_part_carry(struct brake_document *d, const char *name, const struct brake_sheet *sheet,
                      const char *file);
void brake_part_carry_log(struct brake_document *d, const char *name, const struct brake_log *log);
void brake_part_carry_parts(struct brake_document *d, const struct brake_own_sizes *own);
const char *brake_part_digest(struct brake_document *d, const struct brake_sheet *sheet);

/* Parts of answers that the report for inspection has too. */
void brake_part_verdict(struct brake_document *d, const struct brake_sheet *sheet,
                        const struct brake_assessment *a);
void brake_part_criteria(struct brake_document *d, const struct brake_assessment *a);
void brake_part_results(struct brake_document *d, const struct brake_results *results);
void brake_part_duty_of(struct brake_document *d, const struct brake_duty_report *r);
void brake_part_heat(struct brake_document *d, const struct brake_duty_report *r);
void brake_part_drive(struct brake_document *d, const struct brake_drive_report *r);
void brake_part_notes(struct brake_document *d, const struct brake_notes *aside);
void brake_part_inspector(struct brake_document *d);

#endif
