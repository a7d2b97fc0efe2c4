/* SPDX-License-Identifier: MIT */
/* The answer to a vehicle: the first screen for the page, and what the command prints of it. */
#include <stdlib.h>

#include "answer/document.h"
#include "face.h"
#include "vehicle.h"
#include "vehicle/sections.h"

/* The sentences of a document, each with its label. */
static void sentences(struct brake_document *d, const struct brake_document *screen)
{
    static const struct brake_column column[] = {{"label", NULL, BRAKE_COLUMN},
                                                 {"text", NULL, BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){"screen", .column = column, .columns = 2});
    for (long i = 0; i < screen->nodes; i++) {
        const struct brake_node *node = &screen->node[i];
        if (node->kind == BRAKE_NODE_SENTENCE && node->cell.text != NULL)
            brake_document_row(d, (const struct brake_cell[]){brake_cell_text(node->head),
                                                              brake_cell_text(node->cell.text)});
    }
}

/* What to measure next, the first first. */
static void next_lines(struct brake_document *d, const struct vehicle *v)
{
    static const struct brake_column column[] = {{"path", NULL, BRAKE_COLUMN}};
    const struct brake_measuring *settle = &v->assessment.conformance.settle;
    brake_document_table(d, &(struct brake_table){"next", .column = column, .columns = 1});
    for (int i = 0; i < settle->lines; i++) {
        char path[160];
        brake_catalogue_path(&v->sheet.vehicle, settle->line[i], path, sizeof path);
        brake_document_row(d, (const struct brake_cell[]){brake_cell_text(path)});
    }
}

static struct brake_document *screen_of(const struct vehicle *v)
{
    struct brake_document *screen = vehicle_document(v);
    if (screen != NULL)
        brake_answer_first_screen(screen, &v->sheet, &v->assessment);
    return screen;
}

FACE(face_check)
char *face_check(const char *text, const char *before, enum face_rows rows, const char *drive)
{
    struct vehicle *v = vehicle_read(text, before, drive);
    if (v == NULL || v->error.status != BRAKE_OK) {
        char *refused = v != NULL ? vehicle_refused(v) : NULL;
        free(v);
        return refused;
    }
    if (!(rows == FACE_COLD ? vehicle_assess_cold(v) : vehicle_assess(v))) {
        free(v);
        return NULL;
    }
    struct brake_document *screen = screen_of(v);
    struct brake_document *d = vehicle_document(v);
    if (screen != NULL && d != NULL) {
        brake_document_fact(
            d, "verdict", NULL,
            brake_cell_text(brake_verdict_words(brake_assessment_verdict(&v->assessment))));
        sentences(d, screen);
        next_lines(d, v);
    }
    brake_document_free(screen);
    return vehicle_give(v, d, BRAKE_AS_COMPACT_JSON);
}

/* ---- what the command prints ------------------------------------------------------------ */

static char *print(const char *text, const char *before, const char *drive,
                   enum brake_format format)
{
    struct vehicle *v = vehicle_read(text, before, drive);
    if (v == NULL || v->error.status != BRAKE_OK || !vehicle_assess(v)) {
        char *refused = v != NULL && v->error.status != BRAKE_OK ? vehicle_refused(v) : NULL;
        free(v);
        return refused;
    }
    if (format == BRAKE_AS_TEXT)
        return vehicle_give(v, screen_of(v), format);
    struct brake_document *d =
        format == BRAKE_AS_JSON ? brake_document_new(BRAKE_SI_FIRST) : vehicle_document(v);
    if (d != NULL)
        brake_answer_check(d, &v->sheet, &v->assessment);
    return vehicle_give(v, d, format);
}

FACE(face_check_text)
char *face_check_text(const char *text, const char *before, const char *drive)
{
    return print(text, before, drive, BRAKE_AS_TEXT);
}

FACE(face_check_json)
char *face_check_json(const char *text, const char *before, const char *drive)
{
    return print(text, before, drive, BRAKE_AS_JSON);
}

FACE(face_check_page)
char *face_check_page(const char *text, const char *before, const char *drive)
{
    return print(text, before, drive, BRAKE_AS_HTML);
}
