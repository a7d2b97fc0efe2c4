/* SPDX-License-Identifier: MIT */
/* A person's own list of parts: which sizes can be had. */
#include <stdlib.h>
#include <string.h>

#include "brake/file.h"
#include "cells.h"
#include "study/parts.h"
#include "number.h"
#include "value.h"
#include "writer.h"
#include "vehicle/limits.h"
#include "vehicle/sections.h"
#include "vehicle/text.h"

#define REFUSE(c, status, field, ...)                                                              \
    brake_value_refuse((c)->error, status, (c)->line, field, __VA_ARGS__)

static bool is_head(const struct brake_cells *c)
{
    return c->count >= 2 && strcmp(c->cell[0], "part") == 0 && strcmp(c->cell[1], "size") == 0;
}

/* The first row tells what stands between cells. */
static enum brake_status take_head(struct brake_cells *c)
{
    enum brake_status status = brake_cells_next(c);
    for (const char *at = ",;\t"; status == BRAKE_OK && *at != '\0'; at++) {
        status = brake_cells_cut(c, *at);
        if (status == BRAKE_OK && is_head(c))
            return BRAKE_OK;
    }
    return status != BRAKE_OK ? status
                              : REFUSE(c, BRAKE_E_SYNTAX, "",
                                       "a list of parts begins with the row 'part,size'; below it "
                                       "stand rows such as 'master.bore,7/8 in'");
}

/* Every line whose sizes may be listed, with the nearest to a wrong one in front. */
static enum brake_status refuse_part(struct brake_cells *c, const char *name)
{
    struct brake_nearest nearest = brake_nearest_to(name);
    char near[64] = "";
    char all[600] = "";
    for (int i = 0; i < brake_catalogue_count(); i++) {
        char path[64];
        if (!brake_parts_sized(i))
            continue;
        brake_catalogue_path(NULL, i, path, sizeof path);
        if (brake_nearest_is(&nearest, path))
            brake_text_format(near, sizeof near, "; did you mean '%s'? It", path);
        const size_t told = strlen(all);
        brake_text_format(all + told, sizeof all - told, "%s%s", told > 0 ? ", " : "", path);
    }
    return REFUSE(c, BRAKE_E_UNKNOWN, "", "no part '%.60s'%s accepts %s", name,
                  near[0] != '\0' ? near : ";", all);
}

static enum brake_status take_size(struct brake_cells *c, struct brake_own_sizes *own)
{
    const int line = brake_catalogue_find(NULL, c->cell[0]);
    double value;
    if (line < 0 || !brake_parts_sized(line))
        return refuse_part(c, c->cell[0]);
    if (own->count == BRAKE_OWN_SIZES)
        return REFUSE(c, BRAKE_E_SIZE, "", "more than %d sizes", BRAKE_OWN_SIZES);
    const struct brake_quantity *q = brake_quantity_at(line);
    const int row = c->line;
    if (brake_amount_read(c->cell[0], c->cell[1], q->dimension, &value, c->error) != BRAKE_OK) {
        c->error->line = row;
        return c->error->status;
    }
    if (!(value >= q->low && value <= q->high)) {
        const struct brake_unit *unit = brake_unit_of(q->unit, q->dimension);
        return REFUSE(c, BRAKE_E_RANGE, c->cell[0], "got %.30s; accepts %s", c->cell[1],
                      limits_words(unit, q->low, q->high).text);
    }
    own->line[own->count] = line;
    own->value[own->count++] = value;
    return BRAKE_OK;
}

static enum brake_status take_rows(struct brake_cells *c, struct brake_own_sizes *own)
{
    for (;;) {
        enum brake_status status = brake_cells_next(c);
        if (status == BRAKE_OK && c->length > 0)
            status = brake_cells_cut(c, c->separator);
        if (status != BRAKE_OK || c->length == 0)
            return status;
        if (c->count < 2)
            return REFUSE(c, BRAKE_E_SYNTAX, "", "wants a part and a size, 'master.bore,7/8 in'");
        status = take_size(c, own);
        if (status != BRAKE_OK)
            return status;
    }
}

enum brake_status brake_own_sizes_read(FILE *stream, struct brake_own_sizes *own,
                                       struct brake_error *error)
{
    struct brake_cells *cells = calloc(1, sizeof *cells);
    *own = (struct brake_own_sizes){.count = 0};
    *error = (struct brake_error){.status = BRAKE_OK};
    if (cells == NULL)
        return brake_value_refuse(error, BRAKE_E_MEMORY, 0, "", "memory is short");
    cells->stream = stream;
    cells->error = error;
    enum brake_status status = take_head(cells);
    if (status == BRAKE_OK)
        status = take_rows(cells, own);
    if (status == BRAKE_OK && own->count == 0)
        status = REFUSE(cells, BRAKE_E_MISSING, "", "the list of parts has no row below its head");
    free(cells);
    return status;
}

void brake_own_sizes_write(const struct brake_own_sizes *own, FILE *stream)
{
    brake_text_print(stream, "part,size\n");
    for (int i = 0; i < own->count; i++) {
        char path[64];
        char number[BRAKE_NUMBER_SIZE];
        brake_catalogue_path(NULL, own->line[i], path, sizeof path);
        brake_number_write(own->value[i], number);
        brake_text_print(stream, "%s,%s %s\n", path, number,
                         brake_unit_si(brake_quantity_at(own->line[i])->dimension)->name);
    }
}
