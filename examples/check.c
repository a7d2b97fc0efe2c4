/* SPDX-License-Identifier: MIT */
/* Are the brakes of a vehicle file still adequate?  check mine.ini */
#include <stdio.h>

#include <brake/brake.h>

int main(int count, char **words)
{
    FILE *file = fopen(count > 1 ? words[1] : "mine.ini", "rb");
    struct brake_sheet *sheet = brake_sheet_new();
    struct brake_assessment *found = brake_assessment_new();
    struct brake_error error;
    if (file == NULL || sheet == NULL || found == NULL)
        return 2;
    if (brake_file_read(file, sheet, &error) != BRAKE_OK || /* words into numbers */
        brake_sheet_complete(sheet, &error) != BRAKE_OK) {  /* what follows from them */
        fprintf(stderr, "line %d: %s: %s\n", error.line, error.field, error.text);
        return 2;
    }
    if (!brake_assess_whole(sheet, BRAKE_RULES_ALL, NULL, found)) /* hot performance included */
        return 4;
    printf("%s: %s\n", sheet->vehicle.general.name,
           brake_verdict_words(brake_assessment_verdict(found)));
    brake_assessment_free(found);
    brake_sheet_free(sheet);
    fclose(file);
    return 0;
}
