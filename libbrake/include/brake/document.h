/* SPDX-License-Identifier: MIT */
/** @file document.h
 * An answer as data: sections, sentences, facts, tables, pictures. One document, four printers.
 */
#ifndef BRAKE_DOCUMENT_H
#define BRAKE_DOCUMENT_H

#include <stdio.h>

#include "brake/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Units that people read numbers in; programs read SI. */
enum brake_systems {
    BRAKE_SI_FIRST, /**< the SI trade's, the US trade's beside it */
    BRAKE_US_FIRST, /**< the other way round */
    BRAKE_SI_ONLY,
    BRAKE_US_ONLY
};

/** How a document is printed. */
enum brake_format {
    BRAKE_AS_TEXT,         /**< 80 columns */
    BRAKE_AS_JSON,         /**< one object, SI, what is not known is null */
    BRAKE_AS_COMPACT_JSON, /**< the same on one line */
    BRAKE_AS_HTML,         /**< one page without script or network, for screen, phone and paper */
    BRAKE_AS_CSV           /**< its tables, units in their headers */
};

/** An answer; made by the functions of answer.h. */
struct brake_document;

/** A new document without content.
 * @param systems  units that people read its numbers in
 * @return         the document, to be freed by brake_document_free; NULL when memory is short
 */
struct brake_document *brake_document_new(enum brake_systems systems);

/** Free a document.
 * @param document  NULL does nothing
 */
void brake_document_free(struct brake_document *document);

/** Whether a document is whole.
 * @param document  filled; NULL is one for which there was no memory
 * @return          OK; E_MEMORY when it could not be filled for want of memory
 */
enum brake_status brake_document_status(const struct brake_document *document);

/** Print a document. The caution stands in every format.
 * @param document  filled
 * @param format    how
 * @param stream    open for writing; an error of it stays with it
 * @return          OK; E_MEMORY when it could not be filled for want of memory: nothing is printed
 */
enum brake_status brake_document_print(const struct brake_document *document,
                                       enum brake_format format, FILE *stream);

/** Print a document into memory.
 * @param document  filled
 * @param format    how
 * @return          text to be freed by the caller; NULL when memory is short
 */
char *brake_document_text(const struct brake_document *document, enum brake_format format);

#ifdef __cplusplus
}
#endif

#endif
