/* Words that every report of an assessment says alike; private to this folder. A text that does not
 * fit its room is cut. */
#ifndef BRAKE_WORDS_H
#define BRAKE_WORDS_H

#include <stdbool.h>
#include <stddef.h>

#include "brake/assessment.h"
#include "brake/compare.h"
#include "brake/report.h"

/* The US unit that goes with a trade unit; the unit itself where both trades use the same. */
const struct brake_unit *brake_unit_beside(const struct brake_unit *unit);

/* Number and unit, the US one in brackets: "2.189 m/s2 (7.18 ft/s2)". */
void brake_words_amount(const struct brake_unit *unit, double value, char *text, size_t size);

/* The vehicle's name, or that it has none. */
const char *brake_words_name(const struct brake_sheet *sheet);

/* How many requirements are met, and how many not. */
void brake_words_verdict(const struct brake_assessment *a, char *text, size_t size);

/* The limiting requirement in a sentence; empty when there is none. */
void brake_words_limiting(const struct brake_assessment *a, char *text, size_t size);

/* What to measure next; empty when nothing. */
void brake_words_next(const struct brake_sheet *sheet, const struct brake_assessment *a, char *text,
                      size_t size);

/* Of one criterion: load case and state of failure; value; limit; margin; range of the margin,
 * empty when it is not known. */
void brake_words_state(const struct brake_judgement *j, char *text, size_t size);
void brake_words_value(const struct brake_assessment *a, int criterion, char *text, size_t size);
void brake_words_limit(const struct brake_assessment *a, int criterion, char *text, size_t size);
void brake_words_margin(const struct brake_assessment *a, int criterion, char *text, size_t size);
void brake_words_range(const struct brake_assessment *a, int criterion, char *text, size_t size);

/* All of these in one sentence, without its full stop. */
void brake_words_judged(const struct brake_assessment *a, int criterion, char *text, size_t size);

/* Criteria that apply, in the order to read them: what falls short first, then by margin. Returns
 * how many. */
int brake_words_order(const struct brake_assessment *a, int order[BRAKE_CRITERIA]);

/* A signed difference; the US one in brackets. */
void brake_words_difference(char *text, size_t size, const struct brake_unit *unit,
                            double difference);

/* Whether a group of changes moved a number by more than rounding. */
bool brake_change_moves(const struct brake_compared *one, int change);

/* Shares of the groups that moved a number, the largest first, or why there are none. */
enum { BRAKE_SHARES_TEXT = 1200 };
void brake_words_shares(const struct brake_compared *one, const struct brake_unit *unit, char *text,
                        size_t size);

/* A result; a dash when it is not known. */
void brake_words_result(const struct brake_results *results, int index, char *text, size_t size);

/* Whether a line is there only because its section, left out, repeats another. */
bool brake_words_repeats(const struct brake_sheet *sheet, int index);

/* Whether a line was given, or worked out from what was: neither absent nor a default. */
bool brake_words_given(const struct brake_sheet *sheet, int index);

/* How many lines there are of each origin, in words. */
void brake_words_origins(const struct brake_sheet *sheet, char *text, size_t size);

/* A line left at its default and why, or the section that repeats another, at its first line.
 * Returns false when there is nothing to be said at this line. */
bool brake_words_default(const struct brake_sheet *sheet, int index, char *text, size_t size);

/* Of one line: its value in both units; what it may be off by, empty when nothing is said; where it
 * came from; its place in the file. */
void brake_words_input(const struct brake_sheet *sheet, int index, char *text, size_t size);
void brake_words_tolerance(const struct brake_sheet *sheet, int index, char *text, size_t size);
void brake_words_origin(const struct brake_sheet *sheet, int index, char *text, size_t size);
void brake_words_place(const struct brake_sheet *sheet, int index, char *text, size_t size);

/* What the brakes go through. */
void brake_words_duty(const struct brake_duty_report *report, char *text, size_t size);

#endif
