/* SPDX-License-Identifier: MIT */
/* A person's own list of parts. */
#include "fuzz.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static struct brake_own_sizes own;
    struct brake_error error;
    char *text = text_of(data, size);
    FILE *stream = size > 0 ? fmemopen(text, size, "rb") : NULL;
    if (stream != NULL && accepted(brake_own_sizes_read(stream, &own, &error), &error)) {
        MUST(own.count >= 0 && own.count <= BRAKE_OWN_SIZES);
        for (int i = 0; i < own.count; i++) {
            const struct brake_quantity *q = brake_quantity_at(own.line[i]);
            MUST(own.value[i] >= q->low && own.value[i] <= q->high);
        }
    }
    if (stream != NULL)
        fclose(stream);
    free(text);
    return 0;
}
