/* SPDX-License-Identifier: MIT */
/* A tyre marking: what is read of it is finite, what is refused is all zero. */
#include "fuzz.h"

#include "brake/tyre.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct brake_marking m;
    char *text = text_of(data, size);
    const enum brake_status status = brake_marking_read(text, &m);
    const double number[] = {m.section_width, m.aspect,        m.rim_diameter, m.overall_diameter,
                             m.load_capacity, m.dual_capacity, m.speed_limit};
    for (size_t i = 0; i < sizeof number / sizeof *number; i++)
        MUST(isfinite(number[i]) && number[i] >= 0.0 && (status >= 0 || number[i] == 0.0));
    if (status >= 0)
        MUST(m.rim_diameter > 0.0 && m.overall_diameter >= m.rim_diameter && m.aspect > 0.0);
    free(text);
    return 0;
}
