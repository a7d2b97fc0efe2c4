/* SPDX-License-Identifier: MIT */
/* Puts many vehicle files through the library and prints one line of JSON for each, for the oracle
 * to be held against. Standard input: vehicle files, each behind a line `=== number`. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "brake/brake.h"
#include "study/assess.h"

enum { TEXT_BYTES = 65536 };

static void print_refused(const char *number, const struct brake_error *error)
{
    printf("{\"case\": %s, \"error\": \"%d: %s: ", number, error->line, error->field);
    for (const char *at = error->text; *at != '\0'; at++) {
        if (*at != '"' && *at != '\\')
            putchar(*at);
    }
    puts("\"}");
}

static void print_assessed(const char *number, const struct brake_sheet *sheet)
{
    static struct brake_assessment assessment;
    brake_assess(sheet, BRAKE_RULES_ALL, &assessment);
    struct brake_document *document = brake_document_new(BRAKE_SI_FIRST);
    if (document == NULL)
        exit(EXIT_FAILURE);
    brake_answer_check(document, sheet, &assessment);
    char *json = brake_document_text(document, BRAKE_AS_COMPACT_JSON);
    brake_document_free(document);
    if (json == NULL)
        exit(EXIT_FAILURE);
    printf("{\"case\": %s, \"error\": null, %s\n", number, json + 1);
    free(json);
}

static void answer(const char *number, const char *text)
{
    struct brake_sheet sheet;
    struct brake_error error;
    if (brake_file_read_text(text, &sheet, &error) != BRAKE_OK ||
        brake_sheet_complete(&sheet, &error) != BRAKE_OK)
        print_refused(number, &error);
    else
        print_assessed(number, &sheet);
}

int main(void)
{
    static char text[TEXT_BYTES];
    static char line[512];
    static char number[32];
    size_t used = 0;
    while (fgets(line, sizeof line, stdin) != NULL) {
        if (strncmp(line, "=== ", 4) != 0) {
            used += (size_t)snprintf(text + used, sizeof text - used, "%s", line);
            if (used >= sizeof text)
                return EXIT_FAILURE;
            continue;
        }
        if (number[0] != '\0')
            answer(number, text);
        line[strcspn(line, "\r\n")] = '\0';
        snprintf(number, sizeof number, "%.31s", line + 4);
        used = 0;
        text[0] = '\0';
    }
    if (number[0] != '\0')
        answer(number, text);
    return EXIT_SUCCESS;
}
