/* SPDX-License-Identifier: MIT */
/* The writer of numbers: whatever finite number it writes reads back as itself, by our reader and
 * by another's. */
#include "fuzz.h"

#include "file/number.h"
#include "vehicle/text.h"

static void write_back(double number)
{
    char text[BRAKE_NUMBER_SIZE];
    double read;
    const int length = brake_number_write(number, text);
    MUST(length > 0 && length < BRAKE_NUMBER_SIZE && text[length] == '\0');
    MUST(strtod(text, NULL) == number);
    MUST(brake_text_number(text, (size_t)length, &read) && read == number);
}

/* Cut to its room, however little that is. */
static void format(double number, unsigned char shape)
{
    static const char *const formats[] = {"%.4g", "%+.3f", "%.10g", "%.17g", "%.0f", "%.3e"};
    char text[64];
    const size_t room = 1 + shape / 6 % sizeof text;
    memset(text, 1, sizeof text);
    MUST(brake_text_format(text, room, formats[shape % 6], number) > 0);
    MUST(memchr(text, '\0', room) != NULL);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    for (; size > sizeof(double); size -= sizeof(double), data += sizeof(double)) {
        double number;
        memcpy(&number, data, sizeof number);
        if (isfinite(number))
            write_back(number);
        format(number, data[sizeof number]);
    }
    return 0;
}
