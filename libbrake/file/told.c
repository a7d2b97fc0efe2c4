/* SPDX-License-Identifier: MIT */
/* A line for the drive, and one for each score: by name, since numbers change between versions.
 *
 *     drive,word,forces,stops,bounds,left out,another,ratio,low,high,likely,effective
 *     line,path                                  of a line in conflict with it
 *     front.disc.pads.mu,shift,along,along,along */
#include "told.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "number.h"
#include "study/inputs.h"
#include "study/known.h"
#include "value.h"
#include "vehicle/text.h"
#include "writer.h"

enum { HEAD = 11, ROW = 1 + BRAKE_KNOWN_DIRECTIONS, BYTES = 512 };

static const double MOST = 1e6; /* no number of them is larger */

static void write_numbers(FILE *stream, const char *name, const double *value, int count)
{
    brake_text_print(stream, "%s", name);
    for (int i = 0; i < count; i++) {
        char number[BRAKE_NUMBER_SIZE];
        brake_number_write(isfinite(value[i]) ? value[i] : 0.0, number);
        brake_text_print(stream, ",%s", number);
    }
    brake_text_print(stream, "\n");
}

static void write_lines(const struct brake_sheet *sheet, FILE *stream)
{
    for (int i = 0; i < BRAKE_DRIVE_LINES && sheet->known.line[i] >= 0; i++) {
        char path[160];
        brake_catalogue_path(&sheet->vehicle, sheet->known.line[i], path, sizeof path);
        brake_text_print(stream, "line,%s\n", path);
    }
}

static void write_scores(const struct brake_inputs *inputs, FILE *stream)
{
    const struct brake_learned *l = &inputs->learned;
    for (int i = 0; i < l->count; i++) {
        char name[160];
        double value[ROW] = {l->shift[i]};
        memcpy(value + 1, l->along[i], sizeof l->along[i]);
        brake_inputs_name(inputs, l->share[i], name, sizeof name);
        write_numbers(stream, name, value, ROW);
    }
}

void brake_told_write(const struct brake_sheet *sheet, FILE *stream)
{
    const struct brake_knowledge *k = &sheet->known;
    struct brake_inputs *inputs = k->stops + k->forces > 0 ? malloc(sizeof *inputs) : NULL;
    if (inputs == NULL)
        return;
    write_numbers(stream, "drive",
                  (const double[HEAD]){k->word, k->forces, k->stops, k->bounds, k->left_out,
                                       k->another, k->ratio, k->low, k->high, k->likely,
                                       k->effective},
                  HEAD);
    write_lines(sheet, stream);
    brake_inputs_list(sheet, NULL, inputs);
    write_scores(inputs, stream);
    free(inputs);
}

/* ---- reading --------------------------------------------------------------------------------- */

/* Cuts a line into its name and so many numbers. */
static bool take_numbers(char *line, double *value, int count)
{
    char *at = line + strcspn(line, ",\n");
    for (int i = 0; i < count; i++) {
        if (*at != ',')
            return false;
        *at++ = '\0';
        const size_t length = brake_text_number_length(at);
        if (length == 0 || !brake_text_number(at, length, &value[i]) || fabs(value[i]) > MOST)
            return false;
        at += length;
    }
    return *at == '\n';
}

static bool read_drive(char *line, struct brake_knowledge *k)
{
    double value[HEAD];
    if (!take_numbers(line, value, HEAD) || value[0] < BRAKE_DRIVE_NONE ||
        value[0] > BRAKE_DRIVE_MORE)
        return false;
    k->word = (int)value[0];
    k->forces = (int)value[1];
    k->stops = (int)value[2];
    k->bounds = (int)value[3];
    k->left_out = (int)value[4];
    k->another = value[5] > 0.0;
    k->ratio = value[6];
    k->low = value[7];
    k->high = value[8];
    k->likely = value[9];
    k->effective = value[10];
    for (int i = 0; i < BRAKE_DRIVE_LINES; i++)
        k->line[i] = -1;
    return true;
}

static bool read_line(const struct brake_sheet *sheet, char *path, struct brake_knowledge *k)
{
    int at = 0;
    path[strcspn(path, "\n")] = '\0';
    while (at < BRAKE_DRIVE_LINES && k->line[at] >= 0)
        at++;
    if (at == BRAKE_DRIVE_LINES)
        return false;
    k->line[at] = brake_catalogue_find(&sheet->vehicle, path);
    return true;
}

static bool read_score(const struct brake_inputs *inputs, char *line, struct brake_knowledge *k)
{
    double value[ROW];
    if (!take_numbers(line, value, ROW) || k->count == BRAKE_KNOWN)
        return false;
    for (int share = 0; share < brake_inputs_count(inputs); share++) {
        char name[160];
        brake_inputs_name(inputs, share, name, sizeof name);
        if (strcmp(name, line) != 0)
            continue;
        struct brake_known *one = &k->of[k->count++];
        *one = known_of(inputs, share);
        one->shift = value[0];
        memcpy(one->along, value + 1, sizeof one->along);
        return true;
    }
    return true;
}

static bool read_all(FILE *stream, const struct brake_inputs *inputs, struct brake_knowledge *k)
{
    char line[BYTES];
    bool good = true;
    for (bool first = true; good && fgets(line, sizeof line, stream) != NULL; first = false) {
        if (first)
            good = strncmp(line, "drive,", 6) == 0 && read_drive(line, k);
        else if (strncmp(line, "line,", 5) == 0)
            good = read_line(inputs->sheet, line + 5, k);
        else
            good = read_score(inputs, line, k);
    }
    return good;
}

enum brake_status brake_told_read(FILE *stream, struct brake_sheet *sheet,
                                  struct brake_error *error)
{
    struct brake_inputs *inputs = malloc(sizeof *inputs);
    struct brake_knowledge known = {.count = 0};
    *error = (struct brake_error){.status = BRAKE_OK};
    if (inputs == NULL)
        return brake_value_refuse(error, BRAKE_E_MEMORY, 0, "", "memory is short");
    brake_inputs_list(sheet, NULL, inputs);
    if (read_all(stream, inputs, &known))
        sheet->known = known;
    else
        brake_value_refuse(error, BRAKE_E_SYNTAX, 0, "", "what a drive told cannot be read");
    free(inputs);
    return error->status;
}
