/* SPDX-License-Identifier: MIT */
/* The log of a drive, the units of `--columns` on the line before it: read, its stops measured,
 * held against a vehicle and told. */
#include "fuzz.h"

#include <cjson/cJSON.h>

#include "brake/answer.h"

static void tell(const struct brake_log *log, const struct brake_sheet *sheet,
                 const struct brake_drive *drive)
{
    const struct brake_drive_report report = {
        .sheet = sheet, .load = BRAKE_EMPTY, .log = log, .drive = drive};
    struct brake_document *document = brake_document_new(BRAKE_SI_FIRST);
    MUST(document != NULL);
    brake_answer_drive(document, &report);
    char *text = brake_document_text(document, BRAKE_AS_TEXT);
    char *json = brake_document_text(document, BRAKE_AS_COMPACT_JSON);
    MUST(text != NULL && json != NULL);
    cJSON *all = cJSON_Parse(json);
    MUST(cJSON_IsObject(all));
    cJSON_Delete(all);
    free(text);
    free(json);
    brake_document_free(document);
}

static void measure(const struct brake_log *log)
{
    static struct brake_sheet driven;
    static struct brake_drive drive;
    struct brake_error error;
    const struct brake_nominal none = {.count = 0};
    if (!accepted(brake_log_driven(log, heron(), &driven, &error), &error))
        return;
    const struct brake_drive_day day = brake_drive_day_of(&driven);
    if (!accepted(brake_log_measure(log, &none, &day, &drive, &error), &error))
        return;
    MUST(drive.stops > 0 && drive.stops <= BRAKE_DRIVE_STOPS && drive.counted <= drive.stops);
    for (int i = 0; i < drive.stops; i++)
        MUST(drive.stop[i].first < drive.stop[i].last && drive.stop[i].last < log->rows);
    brake_drive_compare(&driven, BRAKE_EMPTY, &drive);
    tell(log, &driven, &drive);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct brake_log log;
    struct brake_error error;
    const struct table table = table_open(data, size);
    if (table.stream != NULL &&
        accepted(brake_log_read(table.stream, table.units, &log, &error), &error)) {
        for (long i = 1; i < log.rows; i++)
            MUST(log.row[i].value[BRAKE_LOG_TIME] > log.row[i - 1].value[BRAKE_LOG_TIME]);
        measure(&log);
        brake_log_free(&log);
    }
    table_close(&table);
    return 0;
}
