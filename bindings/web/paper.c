/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L /* open_memstream */
/* The papers: report for inspection, plan of the first drive, log of a drive. */
#include <stdlib.h>
#include <string.h>

#include "answer/document.h"
#include "answer/picture.h"
#include "face.h"
#include "study/assess.h"
#include "vehicle.h"
#include "vehicle/text.h"

/* A vehicle that can be used; NULL: `refused` holds why, NULL there: memory is short. */
static struct vehicle *usable(const char *text, const char *before, const char *drive,
                              char **refused)
{
    struct vehicle *v = vehicle_read(text, before, drive);
    if (v != NULL && v->error.status == BRAKE_OK)
        return v;
    *refused = v != NULL ? vehicle_refused(v) : NULL;
    free(v);
    return NULL;
}

/* Gives back what was refused, in words, and frees the vehicle. */
static char *refuse(struct vehicle *v)
{
    char *refused = vehicle_refused(v);
    free(v);
    return refused;
}

FACE(face_report)
char *face_report(const char *text, const char *before, const char *date, const char *drive)
{
    char *given = NULL;
    struct vehicle *v = usable(text, before, drive, &given);
    struct brake_paper_room *room = calloc(1, sizeof *room);
    if (v != NULL && room != NULL) {
        struct brake_paper paper = {
            .sheet = &v->sheet, .before = v->told ? &v->before : NULL, .date = date};
        struct brake_document *d = NULL;
        if (brake_paper_fill(&paper, BRAKE_RULES_OWN, BRAKE_FULL, room) == BRAKE_OK)
            d = vehicle_document(v);
        if (d != NULL)
            brake_answer_report(d, &paper);
        given = vehicle_give(v, d, BRAKE_AS_HTML);
        brake_paper_free(room);
    }
    free(room);
    return given;
}

FACE(face_pedal) char *face_pedal(const char *text)
{
    char *svg = NULL;
    size_t size = 0;
    struct vehicle *v = vehicle_read(text, NULL, NULL);
    FILE *stream = open_memstream(&svg, &size);
    if (v != NULL && stream != NULL && v->error.status == BRAKE_OK) {
        const struct brake_paper paper = {.sheet = &v->sheet, .assessment = &v->assessment};
        brake_assess(&v->sheet, BRAKE_RULES_OWN, &v->assessment);
        brake_picture_pedal(&paper, brake_answer_systems(&v->sheet), stream);
    }
    if (stream != NULL)
        fclose(stream);
    free(v);
    return svg;
}

/* ---- the first drive ------------------------------------------------------------------- */

/* Obstacles whose words a person said: "no-reserve,rear-first". */
static unsigned said_despite(const char *despite)
{
    const char *text;
    const char *word;
    unsigned bit;
    unsigned said = 0;
    for (int i = 0; (word = brake_obstacle_at(i, &bit, &text)) != NULL; i++)
        said |= strstr(despite, word) != NULL ? bit : 0;
    return said;
}

/* What keeps the vehicle from being driven, each with the word to say; frees the vehicle. */
static char *obstructed(struct vehicle *v, unsigned obstacles)
{
    static const struct brake_column column[] = {{"word", NULL, BRAKE_COLUMN},
                                                 {"text", NULL, BRAKE_COLUMN}};
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    const char *text;
    const char *word;
    unsigned bit;
    if (d != NULL)
        brake_document_table(d, &(struct brake_table){"obstacles", .column = column, .columns = 2});
    for (int i = 0; d != NULL && (word = brake_obstacle_at(i, &bit, &text)) != NULL; i++) {
        if ((obstacles & bit) != 0)
            brake_document_row(
                d, (const struct brake_cell[]){brake_cell_text(word), brake_cell_text(text)});
    }
    return vehicle_give(v, d, BRAKE_AS_COMPACT_JSON);
}

/* A plan of no stage is none. */
static char *no_deceleration(struct vehicle *v)
{
    v->error.status = BRAKE_E_RANGE;
    brake_text_format(v->error.text, sizeof v->error.text, "%s",
                      "the brakes of this file give no deceleration");
    return refuse(v);
}

FACE(face_plan) char *face_plan(const char *text, const char *despite, const char *drive)
{
    char *refused = NULL;
    struct brake_shakedown plan;
    struct vehicle *v = usable(text, NULL, drive, &refused);
    if (v == NULL)
        return refused;
    if (!brake_assess_whole(&v->sheet, BRAKE_RULES_OWN, NULL, &v->assessment)) {
        free(v);
        return NULL;
    }
    brake_shakedown_plan(&v->sheet, BRAKE_EMPTY, &v->assessment, &plan);
    const unsigned unsaid = plan.obstacles & ~said_despite(despite);
    if (unsaid != 0)
        return obstructed(v, unsaid);
    if (plan.stages == 0)
        return no_deceleration(v);
    struct brake_document *d = vehicle_document(v);
    if (d != NULL)
        brake_answer_shakedown(d, &v->sheet, &v->assessment, &plan);
    return vehicle_give(v, d, BRAKE_AS_HTML);
}

/* ---- a drive that was driven ------------------------------------------------------------ */

/* A drive, and the vehicle as it was driven. */
struct drive {
    struct brake_log log;
    struct brake_sheet driven;
    struct brake_drive stops;
};

static enum brake_status measure(const char *text, const struct brake_sheet *sheet,
                                 struct drive *drive, struct brake_error *error)
{
    const struct brake_nominal none = {.count = 0};
    enum brake_status status = vehicle_log(text, &drive->log, error);
    if (status == BRAKE_OK)
        status = brake_log_driven(&drive->log, sheet, &drive->driven, error);
    const struct brake_drive_day day = brake_drive_day_of(&drive->driven);
    if (status == BRAKE_OK)
        status = brake_log_measure(&drive->log, &none, &day, &drive->stops, error);
    return status;
}

FACE(face_drive) char *face_drive(const char *text, const char *log_text)
{
    char *given = NULL;
    struct vehicle *v = usable(text, NULL, NULL, &given);
    struct drive *drive = calloc(1, sizeof *drive);
    if (v != NULL && drive != NULL && measure(log_text, &v->sheet, drive, &v->error) == BRAKE_OK &&
        brake_assess_cold(&v->sheet, BRAKE_RULES_OWN, &v->assessment)) {
        const enum brake_load load = (enum brake_load)drive->driven.vehicle.drive.load;
        brake_drive_compare(&drive->driven, load, &drive->stops);
        struct brake_document *d = vehicle_document(v);
        if (d != NULL)
            brake_answer_drive(d,
                               &(struct brake_drive_report){&drive->driven, load, &drive->log,
                                                            &drive->stops, &v->assessment.ruling});
        given = vehicle_give(v, d, BRAKE_AS_HTML);
    } else if (v != NULL) {
        given = refuse(v);
    }
    if (drive != NULL)
        brake_log_free(&drive->log);
    free(drive);
    return given;
}
