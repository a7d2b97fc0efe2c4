/* SPDX-License-Identifier: MIT */
/* The frame of every page for print: style, caution at both ends, sections; and the one function
 * that puts text into a page. Private to this folder.
 *
 * Text is never written into a page but through brake_page_text or brake_page_words; markup never
 * through them. */
#ifndef BRAKE_PAGE_H
#define BRAKE_PAGE_H

#include <stdio.h>

/* Text as it may stand between tags or in an attribute in double quotes. What is no character of a
 * page, a control, a mark of direction or a broken byte of UTF-8, becomes U+FFFD; the direction of
 * its letters ends with it when it stands in <bdi>. */
void brake_page_text(FILE *stream, const char *text);

/* The same with a format. */
__attribute__((format(printf, 2, 3))) void brake_page_words(FILE *stream, const char *format, ...);

/* An element that holds nothing but text: <element>text</element>. The element may have attributes:
 * `th scope="col"`. */
void brake_page_element(FILE *stream, const char *element, const char *text);

/* Head, style, heading, caution. The subject is a name that the user wrote. */
void brake_page_open(FILE *stream, const char *title, const char *subject);

/* Caution, version, end. */
void brake_page_close(FILE *stream);

/* A part of the page with its heading. */
void brake_page_section(FILE *stream, const char *id, const char *heading);
void brake_page_section_end(FILE *stream);

/* A table: its caption and the heads of its columns, NULL at the end. Rows are the caller's. */
void brake_page_table(FILE *stream, const char *style, const char *caption,
                      const char *const *heads);
void brake_page_table_end(FILE *stream);

/* Lines out of sight, in an element of that name. */
void brake_page_carry(FILE *stream, const char *name, const char *lines);

/* Room to write by hand, with what is to be written there. */
void brake_page_blank(FILE *stream, const char *what);

#endif
