/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L /* fmemopen */
#include "vehicle.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "answer/document.h"
#include "criteria/judge.h"
#include "criteria/scope.h"
#include "study/assess.h"

static bool there_is(const char *text)
{
    return text != NULL && text[0] != '\0';
}

static bool read_one(const char *text, struct brake_sheet *sheet, struct brake_error *error)
{
    return brake_file_read_text(text, sheet, error) == BRAKE_OK &&
           brake_sheet_complete(sheet, error) == BRAKE_OK && brake_tester_learn(sheet) == BRAKE_OK;
}

enum brake_status vehicle_log(const char *text, struct brake_log *log, struct brake_error *error)
{
    FILE *stream = fmemopen((void *)(uintptr_t)text, strlen(text), "rb");
    if (stream == NULL)
        return error->status = BRAKE_E_MEMORY;
    const enum brake_status status = brake_log_read(stream, NULL, log, error);
    fclose(stream);
    return status;
}

static bool learn(const char *drive, struct vehicle *v)
{
    struct brake_log log;
    if (vehicle_log(drive, &log, &v->error) != BRAKE_OK)
        return false;
    const enum brake_status learned = brake_log_learn(&log, &v->sheet, &v->error);
    brake_log_free(&log);
    return learned == BRAKE_OK;
}

static bool read_before(const char *text, struct vehicle *v)
{
    v->of_before = true;
    if (!read_one(text, &v->before, &v->error) ||
        brake_before_fits(&v->before, &v->sheet, &v->error) != BRAKE_OK)
        return false;
    (void)brake_before_carry(&v->before, &v->sheet);
    brake_drive_carry(&v->before, &v->sheet);
    v->told = true;
    return true;
}

struct vehicle *vehicle_read(const char *text, const char *before, const char *drive)
{
    struct vehicle *v = calloc(1, sizeof *v);
    if (v != NULL && read_one(text, &v->sheet, &v->error) &&
        (!there_is(drive) || learn(drive, v)) && there_is(before))
        (void)read_before(before, v);
    return v;
}

/* ---- assessing ------------------------------------------------------------------------- */

static bool look_back(struct vehicle *v)
{
    if (!v->told)
        return true;
    if (brake_before_draw(&v->before, &v->sheet, &v->loss) != BRAKE_OK)
        return false;
    brake_assess_before(&v->assessment, &v->loss);
    return true;
}

/* Heat comes later: its rows are not lacking anything. */
static void pass_over_heat(struct vehicle *v)
{
    struct brake_assessment *a = &v->assessment;
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (brake_measure_hot(brake_criterion_at(i)->measure))
            a->judgement[i].reason = "heat is being worked out";
    }
}

bool vehicle_assess_cold(struct vehicle *v)
{
    if (!brake_assess_cold(&v->sheet, BRAKE_RULES_OWN, &v->assessment))
        return false;
    pass_over_heat(v);
    return look_back(v);
}

bool vehicle_assess(struct vehicle *v)
{
    if (!brake_assess_whole(&v->sheet, BRAKE_RULES_OWN, NULL, &v->assessment) || !look_back(v) ||
        !brake_repair_find(&v->sheet, &v->assessment, &v->repair))
        return false;
    v->assessment.repair = &v->repair;
    return true;
}

/* ---- giving ---------------------------------------------------------------------------- */

char *vehicle_refused(const struct vehicle *v)
{
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    if (d == NULL)
        return NULL;
    brake_document_section(d, "refused", NULL);
    brake_document_fact(d, "before", NULL, brake_cell_truth(v->of_before));
    brake_document_fact(d, "line", NULL, brake_cell_count(v->error.line));
    brake_document_fact(d, "field", NULL, brake_cell_text(v->error.field));
    brake_document_fact(d, "text", NULL, brake_cell_text(v->error.text));
    brake_document_end(d);
    char *text = brake_document_text(d, BRAKE_AS_COMPACT_JSON);
    brake_document_free(d);
    return text;
}

struct brake_document *vehicle_document(const struct vehicle *v)
{
    return brake_document_new(brake_answer_systems(&v->sheet));
}

char *vehicle_give(struct vehicle *v, struct brake_document *d, enum brake_format format)
{
    char *text = brake_document_text(d, format);
    brake_document_free(d);
    free(v);
    return text;
}
