/* SPDX-License-Identifier: MIT */
/* Names that somebody else wrote, any bytes at all: JSON is still JSON and says them, a page has no
 * tag more, a table no row more, a terminal is steered by nothing. Now and then in the whole answer
 * of `check`, which takes longer. */
#include "fuzz.h"

#include <cjson/cJSON.h>

#include "answer/document.h"
#include "brake/answer.h"
#include "study/assess.h"
#include "vehicle/letters.h"

enum { NAME = 400 /* most bytes of one */ };

static struct brake_assessment assessment;
static struct brake_sheet sheet;
static bool whole;

static char *told(const char *name, enum brake_format format)
{
    static const struct brake_column column[] = {{"name", "Name", BRAKE_COLUMN},
                                                 {"rest", "Rest", BRAKE_NOTE}};
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    snprintf(sheet.vehicle.general.name, sizeof sheet.vehicle.general.name, "%s", name);
    if (whole)
        brake_answer_check(d, &sheet, &assessment);
    else
        brake_document_head(d, "Names", name);
    brake_document_fact(d, "told", "Told", brake_cell_text(name));
    brake_document_table(d, &(struct brake_table){"names", .column = column, .columns = 2});
    brake_document_row(d, (const struct brake_cell[]){brake_cell_text(name), brake_cell_text("")});
    char *text = brake_document_text(d, format);
    MUST(text != NULL);
    brake_document_free(d);
    return text;
}

static long count(const char *text, char letter)
{
    long found = 0;
    for (; *text != '\0'; text++)
        found += *text == letter;
    return found;
}

static void look_at_json(const char *name)
{
    char *text = told(name, BRAKE_AS_COMPACT_JSON);
    cJSON *all = cJSON_Parse(text);
    MUST(cJSON_IsObject(all));
    const char *said = cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(all, "told"));
    char plain[NAME + 1];
    snprintf(plain, sizeof plain, "%s", name);
    brake_text_make_plain(plain); /* a document holds no other text */
    MUST(said != NULL && strcmp(said, plain) == 0);
    cJSON_Delete(all);
    free(text);
}

/* As many tags, and quotes of attributes, as with a name of plain letters. */
static void look_at_page(const char *name)
{
    static const char marks[] = "<>\"";
    static long usual[2][sizeof marks];
    for (int plain = usual[whole][0] == 0; plain >= 0; plain--) {
        char *text = told(plain ? "plain" : name, BRAKE_AS_HTML);
        for (int i = 0; marks[i] != '\0'; i++) {
            const long found = count(text, marks[i]);
            if (plain)
                usual[whole][i] = found;
            MUST(found == usual[whole][i]);
        }
        free(text);
    }
}

static void look_at_text(const char *name)
{
    char *text = told(name, BRAKE_AS_TEXT);
    for (const char *at = text; *at != '\0';) {
        unsigned code = 0;
        const int length = brake_letter(at, &code);
        MUST(length > 0 && (code == '\n' || !brake_letter_steers(code)));
        at += length;
    }
    free(text);
}

/* Quotes of a cell, and those within it, come in pairs. */
static void look_at_csv(const char *name)
{
    char *text = told(name, BRAKE_AS_CSV);
    MUST(count(text, '"') % 2 == 0);
    free(text);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static bool ready;
    char *name = text_of(data, size < NAME ? size : NAME);
    if (!ready) {
        sheet = *heron();
        brake_assess(&sheet, BRAKE_RULES_OWN, &assessment);
        ready = true;
    }
    whole = size % 16 == 0;
    look_at_json(name);
    look_at_text(name);
    if (name[0] != '\0') {
        look_at_page(name);
        look_at_csv(name);
    }
    free(name);
    return 0;
}
