/* SPDX-License-Identifier: MIT */
/* Filling a document; private to the library. What has a key is for programs, what has a head for
 * people: most things have both. A text that is given is copied.
 *
 * Memory that is short is remembered by the document, which then is not printed. */
#ifndef BRAKE_ANSWER_DOCUMENT_H
#define BRAKE_ANSWER_DOCUMENT_H

#include "brake/document.h"
#include "cell.h"

/* Where a column stands: beside the one before it; small and below it where there is room for that;
 * or below the whole row wherever that is. */
enum brake_place { BRAKE_COLUMN, BRAKE_DETAIL, BRAKE_NOTE };

/* A column of a table. */
struct brake_column {
    const char *key;  /* in JSON and CSV; NULL: for people only; "a.b": member b of an object a */
    const char *head; /* for people; NULL: for programs only */
    enum brake_place place;
};

/* How the rows of a table look to people. */
enum brake_rows {
    BRAKE_ROWS_PLAIN,
    BRAKE_ROWS_LISTED, /* a list of what the first column says */
    BRAKE_ROWS_ALERTS, /* the same, of what is to be looked at first */
    BRAKE_ROWS_TICKED  /* the same, to be ticked off by hand */
};

struct brake_table {
    const char *key;
    const char *caption; /* NULL: none */
    const char *none;    /* what people read when there is no row; NULL: nothing */
    enum brake_rows rows;
    bool keyed; /* in JSON an object, its members named by the first column */
    int lead;   /* column that names a row on a page, where it comes first */
    const struct brake_column *column;
    int columns;
};

/* A picture: drawn as SVG for a page, sketched with letters for a terminal; either may be NULL.
 * What it is drawn from has to last as long as the document. */
struct brake_figure_of {
    void (*draw)(const void *context, enum brake_systems systems, FILE *stream);
    void (*sketch)(const void *context, enum brake_systems systems, FILE *stream);
    const void *context;
};

enum brake_node_kind {
    BRAKE_NODE_SECTION,
    BRAKE_NODE_END, /* of a section */
    BRAKE_NODE_SENTENCE,
    BRAKE_NODE_FACT,
    BRAKE_NODE_TABLE,
    BRAKE_NODE_FIGURE,
    BRAKE_NODE_CARRIED, /* a text that a page carries along, out of sight */
    BRAKE_NODE_ANNEX    /* what follows is for who wants to know more: set small on paper */
};

struct brake_node {
    enum brake_node_kind kind;
    const char *key;
    const char *head;         /* heading, label */
    struct brake_cell cell;   /* of a sentence or a fact */
    struct brake_table table; /* its cells begin at `first`, row by row */
    long first;
    long count; /* of rows */
    struct brake_figure_of figure;
};

/* What a document holds: for its printers. */
struct brake_document {
    enum brake_systems systems;
    const char *title;   /* what kind of answer */
    const char *subject; /* the vehicle */
    struct brake_node *node;
    long nodes;
    long node_room;
    struct brake_cell *cell;
    long cells;
    long cell_room;
    struct brake_chunk *chunk; /* texts and lists */
    bool short_of_memory;
    bool brief; /* for one screen: what is not needed there is left out, the caution never */
};

void brake_document_head(struct brake_document *d, const char *title, const char *subject);

/* It is for one screen. */
void brake_document_brief(struct brake_document *d);

/* A part with its heading; key NULL: its members belong to the part around it. */
void brake_document_section(struct brake_document *d, const char *key, const char *heading);
void brake_document_end(struct brake_document *d);

/* A sentence, its label in front of it (NULL: none). An empty one is left out for people. */
void brake_document_say(struct brake_document *d, const char *key, const char *label,
                        const char *text);
__attribute__((format(printf, 4, 5))) void brake_document_say_in(struct brake_document *d,
                                                                 const char *key, const char *label,
                                                                 const char *format, ...);

/* One value with its label. */
void brake_document_fact(struct brake_document *d, const char *key, const char *label,
                         struct brake_cell value);

/* A table; then its rows, as many cells as columns. */
void brake_document_table(struct brake_document *d, const struct brake_table *table);
void brake_document_row(struct brake_document *d, const struct brake_cell *cells);

/* From here on it is an annex, to the end. */
void brake_document_annex(struct brake_document *d);

/* A text that a page carries in an element of this name, out of sight, to be read again. */
void brake_document_carry(struct brake_document *d, const char *name, const char *text);

void brake_document_figure(struct brake_document *d, struct brake_figure_of figure);

/* A text with a format, kept by the document; "" when memory is short. */
__attribute__((format(printf, 2, 3))) const char *brake_document_words(struct brake_document *d,
                                                                       const char *format, ...);

/* A text and one more behind it, NULL: there is none so far. */
const char *brake_document_join(struct brake_document *d, const char *all, const char *glue,
                                const char *more);

/* Numbers, kept by the document. */
const double *brake_document_numbers(struct brake_document *d, const double *list, int count);

/* A text with amounts of the SI trade, with them in the document's units, kept by it. */
const char *brake_document_told(struct brake_document *d, const char *text);

/* A value in words, in the document's units, kept by it: for sentences. */
const char *brake_document_amount(struct brake_document *d, struct brake_cell value);

/* The cells of a row of a table. */
const struct brake_cell *brake_node_row(const struct brake_document *d,
                                        const struct brake_node *table, long row);

/* The printers. */
void brake_print_text(const struct brake_document *d, FILE *stream);
void brake_print_json(const struct brake_document *d, bool compact, FILE *stream);
void brake_print_html(const struct brake_document *d, FILE *stream);
void brake_print_csv(const struct brake_document *d, FILE *stream);

#endif
