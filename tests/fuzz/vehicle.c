/* SPDX-License-Identifier: MIT */
/* A vehicle file, or the page of a report that carries one: read, completed, judged at face value,
 * told in every format. Written out and read again it gives the same results. */
#include "fuzz.h"

#include <cjson/cJSON.h>

#include "brake/answer.h"
#include "study/assess.h"

static struct brake_sheet sheet, again;
static struct brake_assessment assessment;

static void tell(enum brake_format format)
{
    struct brake_document *document = brake_document_new(BRAKE_US_FIRST);
    brake_answer_check(document, &sheet, &assessment);
    char *text = brake_document_text(document, format);
    MUST(text != NULL);
    if (format == BRAKE_AS_COMPACT_JSON) {
        cJSON *all = cJSON_Parse(text);
        MUST(cJSON_IsObject(all));
        cJSON_Delete(all);
    }
    free(text);
    brake_document_free(document);
}

/* Equal, or both not to be given. */
static bool same(double a, double b)
{
    return isfinite(a) ? fabs(a - b) <= 1e-9 * fmax(fabs(a), 1e-3)
                       : isnan(a) == isnan(b) && !(a < 0.0) && !isfinite(b);
}

static void write_and_read(void)
{
    struct brake_error error;
    struct brake_results results;
    char *text = NULL;
    size_t size = 0;
    FILE *stream = open_memstream(&text, &size);
    MUST(stream != NULL);
    brake_file_write(&sheet, stream);
    fclose(stream);
    MUST(brake_file_read_text(text, &again, &error) == BRAKE_OK);
    MUST(brake_sheet_complete(&again, &error) == BRAKE_OK);
    brake_evaluate(&again.vehicle, &results);
    for (int i = 0; i < brake_result_all(); i++) {
        const double before = brake_result_value(&assessment.results, i);
        MUST(same(before, brake_result_value(&results, i)));
    }
    free(text);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct brake_error error;
    char *text = text_of(data, size);
    FILE *stream = size > 0 ? fmemopen(text, size, "rb") : NULL;
    if (stream != NULL && accepted(brake_file_read(stream, &sheet, &error), &error) &&
        accepted(brake_sheet_complete(&sheet, &error), &error)) {
        MUST(brake_sheet_valid(&sheet, &error) == BRAKE_OK);
        brake_assess(&sheet, BRAKE_RULES_OWN, &assessment);
        tell(BRAKE_AS_TEXT);
        tell(BRAKE_AS_COMPACT_JSON);
        tell(BRAKE_AS_HTML);
        write_and_read();
    }
    if (stream != NULL)
        fclose(stream);
    free(text);
    return 0;
}
