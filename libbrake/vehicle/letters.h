/* SPDX-License-Identifier: MIT */
/* Letters of a text that somebody else wrote: UTF-8, and nothing that steers what shows it. Private
 * to the library. */
#ifndef BRAKE_LETTERS_H
#define BRAKE_LETTERS_H

#include <stdbool.h>
#include <stddef.h>

/* Bytes of the UTF-8 letter that begins here, and its code; 0: none does. */
int brake_letter(const char *text, unsigned *code);

/* A letter of the English alphabet in small; any other stays. */
int brake_letter_small(char letter);

/* Whether the first `length` bytes of two texts are the same, large letters or small. */
bool brake_text_alike(const char *one, const char *other, size_t length);

/* Bytes of the mark that some editors and spreadsheets put before a text in UTF-8; 0: there is
 * none. */
size_t brake_text_mark(const char *text);

/* Whether a letter could steer a terminal or turn the letters around it: controls but the tab, ends
 * of lines, marks of direction. */
bool brake_letter_steers(unsigned code);

/* Whether all of a text may be shown: UTF-8, without a letter that steers. */
bool brake_text_is_plain(const char *text);

/* Makes a text one that may be shown on a line: ? for each letter that steers and each byte that is
 * no letter, a blank for a tab. */
void brake_text_make_plain(char *text);

#endif
