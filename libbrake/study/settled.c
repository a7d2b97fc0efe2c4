/* SPDX-License-Identifier: MIT */
/* A vehicle at the middle of what its drive makes likely. */
#include "settled.h"

#include <stdlib.h>

#include "inputs.h"
#include "known.h"

/* Whether a drive told of an input, or of what it shares with others. */
static bool is_told(const struct brake_inputs *inputs, int i)
{
    const int cause = inputs->input[i].cause;
    return known_shift(&inputs->learned, i) != 0.0 ||
           (cause >= 0 && known_shift(&inputs->learned, inputs->count + cause) != 0.0);
}

static enum brake_status settle(const struct brake_sheet *sheet, struct brake_inputs *inputs,
                                struct brake_sheet *settled)
{
    double share[BRAKE_INPUTS];
    double value[BRAKE_INPUTS];
    struct brake_error error = {0};
    brake_inputs_list(sheet, NULL, inputs);
    for (int i = 0; i < brake_inputs_count(inputs); i++)
        share[i] = 0.5;
    brake_inputs_values(inputs, share, value);
    for (int i = 0; i < inputs->count; i++) {
        if (is_told(inputs, i) && !inputs->input[i].choice)
            (void)brake_sheet_set(settled, inputs->input[i].index, value[i]);
    }
    return brake_sheet_complete(settled, &error);
}

void brake_settle(const struct brake_sheet *sheet, struct brake_sheet *settled)
{
    struct brake_inputs *inputs = sheet->known.count > 0 ? malloc(sizeof *inputs) : NULL;
    *settled = *sheet;
    if (inputs != NULL && settle(sheet, inputs, settled) < BRAKE_OK)
        *settled = *sheet;
    free(inputs);
}
