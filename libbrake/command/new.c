#include <stdio.h>

#include "command.h"

int command_new(int count, char **words)
{
    struct brake_sheet sheet;
    if (count > 2)
        return command_misused("new takes no more than one file");
    if (count == 2) {
        const int status = command_read(words[1], NULL, &sheet);
        if (status != 0)
            return status;
    } else {
        brake_sheet_clear(&sheet);
    }
    brake_file_write(&sheet, stdout);
    return 0;
}
