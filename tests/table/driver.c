/* SPDX-License-Identifier: MIT */
/* Reads the log of a drive from standard input, units for it as the argument, and prints what it
 * holds: each row with its line, each note; or why it is refused. */
#include <stdio.h>

#include "brake/log.h"

static int print(const struct brake_log *log)
{
    for (long i = 0; i < log->rows; i++) {
        printf("row\t%d", log->row[i].line);
        for (int c = 0; c < BRAKE_LOG_COLUMNS; c++)
            printf("\t%.17g", log->row[i].value[c]);
        putchar('\n');
    }
    for (int i = 0; i < log->aside.count; i++)
        printf("note\t%s\n", log->aside.note[i]);
    return 0;
}

int main(int count, char **words)
{
    struct brake_log log;
    struct brake_error error;
    if (brake_log_read(stdin, count > 1 ? words[1] : NULL, &log, &error) != BRAKE_OK) {
        printf("refused\t%d\t%s\t%s\n", error.line, error.field, error.text);
        return 0;
    }
    const int status = print(&log);
    brake_log_free(&log);
    return status;
}
