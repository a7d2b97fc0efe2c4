/* SPDX-License-Identifier: MIT */
/* Text of 80 columns; private to the library and its command. */
#ifndef BRAKE_PARAGRAPH_H
#define BRAKE_PARAGRAPH_H

#include <stdio.h>

enum { BRAKE_TEXT_COLUMNS = 80 };

/* Letters of a text, which may have several bytes each. */
int brake_letters(const char *text);

/* Text broken at blanks, later lines under the first, which begins with `head`. */
void brake_paragraph(FILE *stream, const char *head, const char *text);

/* Lines that such a text takes. */
int brake_paragraph_lines(const char *head, const char *text);

#endif
