/* SPDX-License-Identifier: MIT */
/* Numbers to and from text, the same in every locale and thread; private to the library. A program
 * may have set a locale with a decimal comma: printf and strtod would follow it, a vehicle file,
 * a table or a drawing must not. */
#ifndef BRAKE_TEXT_NUMBERS_H
#define BRAKE_TEXT_NUMBERS_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

/* Like snprintf and vsnprintf, with a decimal point. Conversions: s c d i u x f e g, with the
 * length modifiers l, ll and z. Return the length of the whole text, which is cut to its room. */
__attribute__((format(printf, 3, 4))) int brake_text_format(char *text, size_t size,
                                                            const char *format, ...);
__attribute__((format(printf, 3, 0))) int brake_text_format_list(char *text, size_t size,
                                                                 const char *format, va_list list);

/* Like fprintf and vfprintf; the stream remembers what failed. Returns the length of the text. */
__attribute__((format(printf, 2, 3))) int brake_text_print(FILE *stream, const char *format, ...);

__attribute__((format(printf, 2, 0))) int brake_text_print_list(FILE *stream, const char *format,
                                                                va_list list);

/* Length of the plain decimal number that begins here, such as -1.5e3; 0: none does. */
size_t brake_text_number_length(const char *text);

/* Reads that number. False: there is none, or one of more than 300 digits. */
bool brake_text_number(const char *text, size_t length, double *number);

#endif
