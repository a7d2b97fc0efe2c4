/* SPDX-License-Identifier: MIT */
#include <stdlib.h>

#include "answers.h"

static void print(struct brake_paper *paper, const struct wanted *wanted, char **report,
                  char **html, struct brake_error *error)
{
    struct brake_paper_room *room = answer_memory(sizeof *room, error);
    const enum brake_load load = wanted->full ? BRAKE_FULL : BRAKE_EMPTY;
    if (room == NULL)
        return;
    if (brake_paper_fill(paper, wanted->rules, load, room) == BRAKE_OK) {
        struct brake_document *d = brake_document_new(brake_answer_systems(paper->sheet));
        if (d != NULL)
            brake_answer_report(d, paper);
        *report = brake_document_text(d, BRAKE_AS_TEXT);
        *html = brake_document_text(d, BRAKE_AS_HTML);
        brake_document_free(d);
    } else {
        (void)answer_refuse(error, BRAKE_E_MEMORY, "memory is short");
    }
    brake_paper_free(room);
    free(room);
}

enum brake_status report_run(const struct brake_sheet *sheet, const struct brake_sheet *before,
                             const struct wanted *wanted, const struct driven *driven,
                             char **report, char **html, struct brake_error *error)
{
    const struct brake_nominal nominal = {.count = 0};
    struct held *held = answer_memory(sizeof *held, error);
    if (held != NULL && drive_hold(sheet, driven, &nominal, held, error) == BRAKE_OK) {
        struct brake_paper paper = {.sheet = sheet,
                                    .before = before,
                                    .drive = held->report.drive != NULL ? &held->report : NULL,
                                    .file = wanted->file,
                                    .before_file = wanted->before_file,
                                    .drive_file = wanted->drive_file,
                                    .date = wanted->date};
        print(&paper, wanted, report, html, error);
    }
    drive_free(held);
    return error->status;
}
