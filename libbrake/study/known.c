/* SPDX-License-Identifier: MIT */
/* Samples as a drive makes them likely. Equations: reference/method.md, section 11. */
#include "known.h"

#include <math.h>
#include <string.h>

#include "change.h"
#include "distribution.h"
#include "eigen.h"
#include "vehicle/sections.h"

/* ---- which of it still holds ----------------------------------------------------------------- */

uint64_t known_mark(const struct brake_sheet *sheet, int index)
{
    const char *part = brake_part_of(index);
    uint64_t mark = UINT64_C(0xcbf29ce484222325); /* FNV-1a */
    for (int i = 0; i < brake_catalogue_count() && part != NULL; i++) {
        const char *of = brake_part_of(i);
        const double value = brake_quantity_value(&sheet->vehicle, i);
        uint64_t bits = 0;
        if (of == NULL || strcmp(of, part) != 0 || isnan(value))
            continue;
        memcpy(&bits, &value, sizeof bits);
        mark = (mark ^ (bits + (uint64_t)i)) * UINT64_C(0x100000001b3);
    }
    return part != NULL ? mark : 0;
}

struct brake_known known_of(const struct brake_inputs *inputs, int share)
{
    const struct brake_sheet *sheet = inputs->sheet;
    if (share >= inputs->count + inputs->causes)
        return (struct brake_known){.of = BRAKE_KNOWN_MODEL,
                                    .number = share - inputs->count - inputs->causes};
    if (share >= inputs->count)
        return (struct brake_known){.of = BRAKE_KNOWN_CAUSE,
                                    .number = inputs->cause[share - inputs->count]};
    const int index = inputs->input[share].index;
    return (struct brake_known){.of = BRAKE_KNOWN_LINE,
                                .number = index,
                                .value = brake_quantity_value(&sheet->vehicle, index),
                                .tolerance = sheet->record[index].tolerance,
                                .lean = sheet->record[index].lean,
                                .part = known_mark(sheet, index)};
}

enum { FORGOTTEN = -1 }; /* number of a share that nothing is known of any more */

static int share_of_line(const struct brake_inputs *inputs, const struct brake_known *known)
{
    const struct brake_record *record = &inputs->sheet->record[known->number];
    const double value = brake_quantity_value(&inputs->sheet->vehicle, known->number);
    if (!brake_same_number(value, known->value) ||
        !brake_same_number(record->tolerance, known->tolerance) ||
        !brake_same_number(record->lean, known->lean) ||
        (!record->same && known_mark(inputs->sheet, known->number) != known->part))
        return FORGOTTEN;
    for (int i = 0; i < inputs->count; i++) {
        if (inputs->input[i].index == known->number)
            return i;
    }
    return FORGOTTEN;
}

/* Number of the share that it was told of. */
static int share_of(const struct brake_inputs *inputs, const struct brake_known *known)
{
    if (known->of == BRAKE_KNOWN_LINE)
        return share_of_line(inputs, known);
    if (known->of == BRAKE_KNOWN_MODEL)
        return known->number < BRAKE_MODEL_ERRORS - 1
                   ? inputs->count + inputs->causes + known->number
                   : FORGOTTEN;
    for (int i = 0; i < inputs->causes; i++) {
        if (inputs->cause[i] == known->number)
            return inputs->count + i;
    }
    return FORGOTTEN;
}

/* P of I - W P W' = (I - W W')^(1/2): of the eigenvalues g of W' W, 1 / (1 + (1 - g)^(1/2)). */
static void find_pull(struct brake_learned *l)
{
    double gram[KNOWN_SIZE][KNOWN_SIZE] = {{0.0}};
    double value[KNOWN_SIZE];
    double vector[KNOWN_SIZE][KNOWN_SIZE];
    for (int i = 0; i < l->count; i++)
        for (int a = 0; a < KNOWN_SIZE; a++)
            for (int b = 0; b < KNOWN_SIZE; b++)
                gram[a][b] += l->along[i][a] * l->along[i][b];
    eigen_symmetric(KNOWN_SIZE, gram[0], value, vector[0]);
    memset(l->pull, 0, sizeof l->pull);
    for (int e = 0; e < KNOWN_SIZE; e++) {
        const double of = 1.0 / (1.0 + sqrt(fmax(0.0, 1.0 - value[e])));
        for (int a = 0; a < KNOWN_SIZE; a++)
            for (int b = 0; b < KNOWN_SIZE; b++)
                l->pull[a][b] += vector[a][e] * of * vector[b][e];
    }
}

void known_list(struct brake_inputs *inputs)
{
    const struct brake_knowledge *known = &inputs->sheet->known;
    struct brake_learned *l = &inputs->learned;
    l->count = 0;
    for (int i = 0; i < known->count; i++) {
        const int share = share_of(inputs, &known->of[i]);
        if (share < 0)
            continue;
        l->share[l->count] = share;
        l->shift[l->count] = known->of[i].shift;
        memcpy(l->along[l->count++], known->of[i].along, sizeof known->of[i].along);
    }
    find_pull(l);
}

/* ---- shares --------------------------------------------------------------------------------- */

double known_shift(const struct brake_learned *learned, int share)
{
    for (int i = 0; i < learned->count; i++) {
        if (learned->share[i] == share)
            return learned->shift[i];
    }
    return 0.0;
}

const double *known_shares(const struct brake_inputs *inputs, const double *share, double *told)
{
    const struct brake_learned *l = &inputs->learned;
    double score[BRAKE_KNOWN];
    double along[KNOWN_SIZE] = {0.0};
    if (l->count == 0)
        return share;
    memcpy(told, share, (size_t)brake_inputs_count(inputs) * sizeof *told);
    for (int i = 0; i < l->count; i++) {
        score[i] = brake_normal_value(share[l->share[i]]);
        for (int a = 0; a < KNOWN_SIZE; a++)
            along[a] += l->along[i][a] * score[i];
    }
    for (int i = 0; i < l->count; i++) {
        for (int a = 0; a < KNOWN_SIZE; a++)
            for (int b = 0; b < KNOWN_SIZE; b++)
                score[i] -= l->along[i][a] * l->pull[a][b] * along[b];
        const double one = brake_normal_share(score[i] + l->shift[i]);
        told[l->share[i]] = fmin(fmax(one, 0x1p-60), 1.0 - 0x1p-50);
    }
    return told;
}

/* ---- words ---------------------------------------------------------------------------------- */

bool known_thin(const struct brake_knowledge *known)
{
    return known->stops + known->forces > 0 && known->effective < BRAKE_KNOWN_EFFECTIVE;
}

enum brake_verdict known_verdict(const struct brake_knowledge *known)
{
    if (known->word == BRAKE_DRIVE_LESS)
        return BRAKE_FALLS_SHORT;
    return known->word == BRAKE_DRIVE_MORE ? BRAKE_CANNOT_SAY : BRAKE_MEETS;
}
