/* SPDX-License-Identifier: MIT */
#include "brake/catalogue.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "letters.h"
#include "sections.h"
#include "text.h"
#include "trade.h"

/* An index of nothing. */
enum { NONE = -1 };

/* A quantity taken apart: its section, the part it belongs to, its row. */
struct place {
    const struct brake_section *section;
    int slot;
    int row;
};

static const struct brake_section *parts_section(void)
{
    return &brake_sections[BRAKE_SECTION_OF_PARTS];
}

int brake_section_count(void)
{
    return BRAKE_SECTION_COUNT;
}

const struct brake_section *brake_section_at(int section)
{
    return &brake_sections[section];
}

/* Index of the first row of the parts, which come last. */
static int first_part_row(void)
{
    return brake_section_first(BRAKE_SECTION_OF_PARTS);
}

int brake_catalogue_count(void)
{
    return first_part_row() + BRAKE_PARTS * parts_section()->count;
}

static struct place place_of(int index)
{
    const struct brake_section *section = brake_sections;
    const struct brake_section *parts = parts_section();
    while (section != parts && index >= section->count) {
        index -= section->count;
        section++;
    }
    const struct place place = {section, index / section->count, index % section->count};
    return place;
}

const struct brake_quantity *brake_quantity_at(int index)
{
    const struct place place = place_of(index);
    return &place.section->rows[place.row];
}

const struct brake_unit *brake_quantity_unit(const struct brake_quantity *quantity, bool us)
{
    const struct brake_unit *unit = brake_unit_of(quantity->unit, quantity->dimension);
    if (us && quantity->dimension == BRAKE_LENGTH)
        return brake_unit_us(BRAKE_LENGTH); /* a rollout too is read off a tape in inches */
    return us ? brake_unit_beside(unit) : unit;
}

const char *brake_means_word(enum brake_means means)
{
    static const char *const words[] = {
        [BRAKE_BY_LOOK] = "look",   [BRAKE_BY_PAPERS] = "papers", [BRAKE_BY_TAPE] = "tape",
        [BRAKE_BY_SCALE] = "scale", [BRAKE_BY_GAUGE] = "gauge",   [BRAKE_BY_WORKSHOP] = "workshop",
        [BRAKE_BY_MAKER] = "maker"};
    return words[means];
}

const struct brake_section *brake_quantity_section(int index)
{
    return place_of(index).section;
}

int brake_section_first(int section)
{
    int first = 0;
    for (int i = 0; i < section; i++)
        first += brake_sections[i].count;
    return first;
}

static int row_named(const struct brake_section *section, const char *name)
{
    for (int row = 0; row < section->count; row++) {
        if (brake_text_alike(section->rows[row].name, name, BRAKE_LONGEST_PATH))
            return row;
    }
    return NONE;
}

int brake_section_named(const char *path, size_t length)
{
    for (int i = 0; i < BRAKE_SECTION_COUNT; i++) {
        if (strlen(brake_sections[i].path) == length &&
            brake_text_alike(brake_sections[i].path, path, length))
            return i;
    }
    return NONE;
}

int brake_part_named(const struct brake_vehicle *vehicle, const char *name, size_t length)
{
    for (int i = 0; i < vehicle->parts; i++) {
        if (strlen(vehicle->part[i].name) == length &&
            strncmp(vehicle->part[i].name, name, length) == 0)
            return i;
    }
    return NONE;
}

int brake_catalogue_find(const struct brake_vehicle *vehicle, const char *path)
{
    const char *dot = strrchr(path, '.');
    if (dot == NULL)
        return NONE;
    const size_t length = (size_t)(dot - path);
    const struct brake_section *parts = parts_section();
    const size_t stem = strlen(parts->path) + 1;
    if (vehicle != NULL && brake_text_alike(path, "part.", stem) && length > stem) {
        const int slot = brake_part_named(vehicle, path + stem, length - stem);
        const int row = row_named(parts, dot + 1);
        return slot < 0 || row < 0 ? NONE : first_part_row() + slot * parts->count + row;
    }
    const int section = brake_section_named(path, length);
    if (section < 0 || &brake_sections[section] == parts)
        return NONE;
    const int row = row_named(&brake_sections[section], dot + 1);
    return row < 0 ? NONE : brake_section_first(section) + row;
}

void brake_catalogue_path(const struct brake_vehicle *vehicle, int index, char *path, size_t size)
{
    const struct place place = place_of(index);
    const char *name = place.section->rows[place.row].name;
    if (place.section == parts_section())
        brake_text_format(path, size, "part.%s.%s", vehicle->part[place.slot].name, name);
    else
        brake_text_format(path, size, "%s.%s", place.section->path, name);
}

/* Number of single-letter edits between two words (Levenshtein); KG is kg. */
static int edits(const char *a, const char *b)
{
    enum { COLUMNS = BRAKE_LONGEST_PATH + 1 };
    int line[COLUMNS];
    const int columns = (int)strlen(b);
    for (int j = 0; j <= columns; j++)
        line[j] = j;
    for (int i = 1; a[i - 1] != '\0'; i++) {
        int diagonal = line[0];
        line[0] = i;
        for (int j = 1; j <= columns; j++) {
            const int swap =
                diagonal + (brake_letter_small(a[i - 1]) != brake_letter_small(b[j - 1]));
            const int gap = (line[j] < line[j - 1] ? line[j] : line[j - 1]) + 1;
            diagonal = line[j];
            line[j] = swap < gap ? swap : gap;
        }
    }
    return line[columns];
}

struct brake_nearest brake_nearest_to(const char *word)
{
    const char *end = memchr(word, '\0', BRAKE_LONGEST_PATH);
    const int length = end != NULL ? (int)(end - word) : BRAKE_LONGEST_PATH;
    const int half = length / 2;
    const int allowed = half < 5 ? half : 5;
    return (struct brake_nearest){word, length, length < BRAKE_LONGEST_PATH ? allowed + 1 : 0};
}

bool brake_nearest_is(struct brake_nearest *nearest, const char *known)
{
    const int apart = abs(nearest->length - (int)strlen(known)); /* no fewer edits */
    const int off = apart < nearest->least ? edits(nearest->word, known) : apart;
    if (off >= nearest->least)
        return false;
    nearest->least = off;
    return true;
}

/* In a section that is there only the name can be wrong. */
static int nearest_in(int section, const char *name)
{
    struct brake_nearest nearest = brake_nearest_to(name);
    int best = NONE;
    for (int row = 0; row < brake_sections[section].count; row++) {
        if (brake_nearest_is(&nearest, brake_sections[section].rows[row].name))
            best = brake_section_first(section) + row;
    }
    return best;
}

int brake_catalogue_nearest(const char *path)
{
    static const struct brake_vehicle no_parts;
    const char *dot = strrchr(path, '.');
    const int section = dot != NULL ? brake_section_named(path, (size_t)(dot - path)) : NONE;
    struct brake_nearest nearest = brake_nearest_to(path);
    int best = NONE;
    if (section >= 0)
        return nearest_in(section, dot + 1);
    for (int i = 0; i < first_part_row(); i++) {
        char known[160];
        brake_catalogue_path(&no_parts, i, known, sizeof known);
        if (brake_nearest_is(&nearest, known))
            best = i;
    }
    return best;
}

int brake_section_nearest(const char *path)
{
    struct brake_nearest nearest = brake_nearest_to(path);
    int best = NONE;
    for (int i = 0; i < BRAKE_SECTION_COUNT; i++) {
        if (brake_nearest_is(&nearest, brake_sections[i].path))
            best = i;
    }
    return best;
}

/* The section that a path, or a section itself, belongs to; NULL: to none that is known. */
static const struct brake_section *section_of(const char *path)
{
    const char *dot = strrchr(path, '.');
    const size_t length = dot != NULL ? (size_t)(dot - path) : strlen(path);
    const size_t stem = strlen(parts_section()->path);
    int section = brake_section_named(path, strlen(path));
    if (strncmp(path, parts_section()->path, stem) == 0 && path[stem] == '.')
        return parts_section();
    if (section < 0)
        section = brake_section_named(path, length);
    return section >= 0 ? &brake_sections[section] : NULL;
}

static void add_lines(const struct brake_section *section, const char *before, char *text,
                      size_t size)
{
    size_t used = strlen(text);
    const bool part = section == parts_section();
    used += (size_t)brake_text_format(text + used, size - used, "%s[%s%s] takes", before,
                                      section->path, part ? ".NAME" : "");
    for (int row = 0, told = 0; row < section->count && used < size; row++) {
        if (section->rows[row].role == BRAKE_PART_OF)
            continue;
        used += (size_t)brake_text_format(text + used, size - used, "%s %s", told++ > 0 ? "," : "",
                                          section->rows[row].name);
    }
}

void brake_catalogue_hint(const struct brake_vehicle *vehicle, const char *path, char *text,
                          size_t size)
{
    const struct brake_section *section = section_of(path);
    const char *says = brake_trade_says(path);
    const int near = brake_catalogue_nearest(path);
    text[0] = '\0';
    if (says != NULL) {
        brake_text_format(text, size, "; %s", says);
        return;
    }
    if (near >= 0) {
        char known[160];
        brake_catalogue_path(vehicle, near, known, sizeof known);
        brake_text_format(text, size, "; did you mean %s?", known);
    }
    if (section != NULL)
        add_lines(section, near >= 0 ? " " : "; ", text, size);
}

int brake_catalogue_easiest(int index, int *lines)
{
    const struct place place = place_of(index);
    const char *at = place.section->rows[place.row].instead;
    int count = 0;
    while (at != NULL && *at != '\0' && count < BRAKE_EASIEST) {
        char path[160];
        const int length = (int)strcspn(at, " ");
        const bool whole = memchr(at, '.', (size_t)length) != NULL;
        brake_text_format(path, sizeof path, "%s%s%.*s", whole ? "" : place.section->path,
                          whole ? "" : ".", length, at);
        lines[count++] = brake_catalogue_find(NULL, path);
        at += length;
        at += strspn(at, " ");
    }
    if (count == 0)
        lines[count++] = index;
    return count;
}

static size_t offset_of(int index)
{
    const struct place place = place_of(index);
    return place.section->offset + (size_t)place.slot * sizeof(struct brake_part_lines) +
           place.section->rows[place.row].offset;
}

void *brake_quantity_in(struct brake_vehicle *vehicle, int index)
{
    return (char *)vehicle + offset_of(index);
}

const void *brake_quantity_seen(const struct brake_vehicle *vehicle, int index)
{
    return (const char *)vehicle + offset_of(index);
}

size_t brake_quantity_size(int index)
{
    static const size_t size[] = {[BRAKE_REAL] = sizeof(double),
                                  [BRAKE_CHOICE] = sizeof(int),
                                  [BRAKE_TEXT] = BRAKE_TEXT_SIZE,
                                  [BRAKE_PISTONS] = sizeof(struct brake_pistons),
                                  [BRAKE_CURVE] = sizeof(struct brake_points)};
    return size[brake_quantity_at(index)->kind];
}

double brake_quantity_value(const struct brake_vehicle *vehicle, int index)
{
    const char *at = (const char *)vehicle + offset_of(index);
    double value = BRAKE_NAN;
    int choice;
    switch (brake_quantity_at(index)->kind) {
    case BRAKE_REAL:
        memcpy(&value, at, sizeof value);
        break;
    case BRAKE_CHOICE:
        memcpy(&choice, at, sizeof choice);
        value = choice;
        break;
    case BRAKE_TEXT:
    case BRAKE_PISTONS:
    case BRAKE_CURVE:
        break;
    }
    return value;
}

void brake_row_clear(const struct brake_quantity *row, void *at)
{
    switch (row->kind) {
    case BRAKE_REAL:
        *(double *)at = BRAKE_NAN;
        break;
    case BRAKE_CHOICE:
        *(int *)at = 0;
        break;
    case BRAKE_TEXT:
        *(char *)at = '\0';
        break;
    case BRAKE_PISTONS:
        memset(at, 0, sizeof(struct brake_pistons));
        break;
    case BRAKE_CURVE:
        memset(at, 0, sizeof(struct brake_points));
        break;
    }
}

void brake_quantity_clear(struct brake_sheet *sheet, int index)
{
    static const struct brake_record absent = {0};
    brake_row_clear(brake_quantity_at(index), brake_quantity_in(&sheet->vehicle, index));
    sheet->record[index] = absent;
}

void brake_sheet_clear(struct brake_sheet *sheet)
{
    memset(sheet, 0, sizeof *sheet);
    for (int i = 0; i < brake_catalogue_count(); i++)
        brake_quantity_clear(sheet, i);
}

/* Index of a line once so many from `first` on are gone; NONE: it is one of them. */
static int index_without(int index, int first, int rows)
{
    return index < first ? index : index < first + rows ? NONE : index - rows;
}

/* What a drive told of the lines of a part goes with it. */
static void forget_part(struct brake_knowledge *known, int first, int rows)
{
    int kept = 0;
    for (int i = 0; i < known->count; i++) {
        struct brake_known one = known->of[i];
        if (one.of == BRAKE_KNOWN_LINE)
            one.number = index_without(one.number, first, rows);
        if (one.number >= 0)
            known->of[kept++] = one;
    }
    known->count = kept;
    for (int i = 0; i < BRAKE_DRIVE_LINES; i++)
        known->line[i] = index_without(known->line[i], first, rows);
}

void brake_part_remove(struct brake_sheet *sheet, int slot)
{
    struct brake_vehicle *vehicle = &sheet->vehicle;
    const int rows = parts_section()->count;
    const int first = first_part_row() + slot * rows;
    const size_t behind = (size_t)(BRAKE_PARTS - 1 - slot);
    memmove(&vehicle->part[slot], &vehicle->part[slot + 1], behind * sizeof *vehicle->part);
    memmove(&sheet->record[first], &sheet->record[first + rows],
            behind * (size_t)rows * sizeof *sheet->record);
    vehicle->parts--;
    memset(&vehicle->part[BRAKE_PARTS - 1], 0, sizeof *vehicle->part);
    for (int i = brake_catalogue_count() - rows; i < brake_catalogue_count(); i++)
        brake_quantity_clear(sheet, i);
    forget_part(&sheet->known, first, rows);
}

bool brake_section_belongs(const struct brake_vehicle *vehicle, const struct brake_section *section)
{
    static const struct {
        int axle, brake;
    } of[] = {[BRAKE_FRONT_DISC] = {BRAKE_FRONT, BRAKE_DISC},
              [BRAKE_FRONT_DRUM] = {BRAKE_FRONT, BRAKE_DRUM},
              [BRAKE_REAR_DISC] = {BRAKE_REAR, BRAKE_DISC},
              [BRAKE_REAR_DRUM] = {BRAKE_REAR, BRAKE_DRUM}};
    return section->belongs == BRAKE_ALWAYS ||
           vehicle->axle[of[section->belongs].axle].axle.brake == of[section->belongs].brake;
}

bool brake_sheet_has(const struct brake_sheet *sheet, int section)
{
    const int first = brake_section_first(section);
    for (int row = 0; row < brake_sections[section].count; row++) {
        if (sheet->record[first + row].from > BRAKE_DEFAULT)
            return true;
    }
    return false;
}

enum brake_status brake_sheet_set(struct brake_sheet *sheet, int index, double value)
{
    const struct brake_quantity *quantity = brake_quantity_at(index);
    if (quantity->kind != BRAKE_REAL)
        return BRAKE_E_UNKNOWN;
    if (!(value >= quantity->low && value <= quantity->high))
        return BRAKE_E_RANGE;
    *(double *)brake_quantity_in(&sheet->vehicle, index) = value;
    struct brake_record *record = &sheet->record[index];
    const struct brake_record fresh = {.from = BRAKE_ESTIMATED,
                                       .tolerance = fabs(value) * quantity->typical,
                                       .typical = quantity->typical > 0.0,
                                       .set = true};
    *record = fresh;
    return BRAKE_OK;
}

enum brake_status brake_sheet_choose(struct brake_sheet *sheet, int index, int choice)
{
    const struct brake_quantity *quantity = brake_quantity_at(index);
    int words = 0;
    if (quantity->kind != BRAKE_CHOICE)
        return BRAKE_E_UNKNOWN;
    while (quantity->choices[words] != NULL)
        words++;
    if (choice < 0 || choice >= words)
        return BRAKE_E_RANGE;
    *(int *)brake_quantity_in(&sheet->vehicle, index) = choice;
    sheet->record[index] = (struct brake_record){.from = BRAKE_ESTIMATED, .set = true};
    return BRAKE_OK;
}
