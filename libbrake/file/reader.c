/* SPDX-License-Identifier: MIT */
/* The vehicle file, line by line. */
#include <errno.h>
#include <stdbool.h>
#include <string.h>

#include "brake/file.h"
#include "carried.h"
#include "value.h"
#include "vehicle/letters.h"
#include "vehicle/sections.h"
#include "vehicle/text.h"
#include "vehicle/trade.h"

enum { SECTION_BYTES = 49, PART_NAME_BYTES = 40 };

/* A file being read, from a stream or from a text. */
struct input {
    FILE *stream;
    const char *text;
    const char *carried; /* element of a page that holds the vehicle, or what belongs to it */
    long most;           /* bytes of it; 0: as of a vehicle file */
    struct brake_sheet *sheet;
    struct brake_error *error;
    long bytes;
    int line;
    int section;  /* -1: before the first */
    int part;     /* slot, in the section of the parts */
    int quantity; /* of the last line of this section, which may go on; -1: none */
};

#define REFUSE(in, status, field, ...)                                                             \
    brake_value_refuse((in)->error, status, (in)->line, field, __VA_ARGS__)

static long most_of(const struct input *in)
{
    return in->most > 0 ? in->most : BRAKE_FILE_BYTES;
}

static int next_byte(struct input *in)
{
    in->bytes++;
    if (in->stream != NULL)
        return getc(in->stream);
    return *in->text != '\0' ? (unsigned char)*in->text++ : EOF;
}

/* One line without its end. Returns its length, -1 at the end of the file or on refusal. */
static int take_line(struct input *in, char line[BRAKE_LINE_BYTES + 2])
{
    int length = 0;
    int byte = next_byte(in);
    if (byte == EOF)
        return -1;
    in->line++;
    for (; byte != EOF && byte != '\n'; byte = next_byte(in)) {
        if (byte == '\0') {
            REFUSE(in, BRAKE_E_SYNTAX, "",
                   "is not text: it holds a byte of value 0; save the file as UTF-8");
            return -1;
        }
        if (length > 0 && line[length - 1] == '\r') {
            REFUSE(in, BRAKE_E_SYNTAX, "",
                   "lines end with CR alone; save the file with LF or CR LF");
            return -1;
        }
        if (length > BRAKE_LINE_BYTES) {
            REFUSE(in, BRAKE_E_SIZE, "", "is longer than %d bytes", BRAKE_LINE_BYTES);
            return -1;
        }
        line[length++] = (char)byte;
    }
    if (length > 0 && line[length - 1] == '\r')
        length--;
    line[length] = '\0';
    if (length > BRAKE_LINE_BYTES)
        REFUSE(in, BRAKE_E_SIZE, "", "is longer than %d bytes", BRAKE_LINE_BYTES);
    else if (in->bytes > most_of(in))
        REFUSE(in, BRAKE_E_SIZE, "", "the file is larger than %ld bytes", most_of(in));
    else if (!brake_text_is_plain(line))
        REFUSE(in, BRAKE_E_SYNTAX, "", "is not UTF-8 text, or holds a control character");
    return in->error->status == BRAKE_OK ? length : -1;
}

static bool is_part_name(const char *name, size_t length)
{
    static const char letters[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                  "0123456789_-";
    return length > 0 && length <= PART_NAME_BYTES && strspn(name, letters) >= length;
}

static void open_part(struct input *in, const char *name, size_t length)
{
    struct brake_vehicle *vehicle = &in->sheet->vehicle;
    in->section = brake_section_count() - 1;
    in->part = brake_part_named(vehicle, name, length);
    if (in->part >= 0)
        return;
    if (!is_part_name(name, length)) {
        REFUSE(in, BRAKE_E_SYNTAX, "part", "accepts names of 1 to %d letters, digits, _ and -",
               PART_NAME_BYTES);
    } else if (vehicle->parts == BRAKE_PARTS) {
        REFUSE(in, BRAKE_E_SIZE, "part", "accepts up to %d parts", BRAKE_PARTS);
    } else {
        in->part = vehicle->parts++;
        memcpy(vehicle->part[in->part].name, name, length);
        vehicle->part[in->part].name[length] = '\0';
    }
}

static void refuse_section(struct input *in, const char *name)
{
    const char *says = brake_trade_says(name);
    const int near = says == NULL ? brake_section_nearest(name) : -1;
    const int parts = brake_section_count() - 1;
    REFUSE(in, BRAKE_E_UNKNOWN, name, "unknown section%s%s%s%s%s%s", says != NULL ? "; " : "",
           says != NULL ? says : "", near >= 0 ? "; did you mean [" : "",
           near >= 0 ? brake_section_at(near)->path : "", near == parts ? ".NAME" : "",
           near >= 0 ? "]?" : "");
}

static void open_section(struct input *in, const char *line)
{
    const char *name = line + 1;
    const size_t length = strcspn(name, "]");
    const char *rest = name + length + 1;
    char copy[SECTION_BYTES + 1];
    if (length == 0 || name[length] == '\0' || length > SECTION_BYTES) {
        REFUSE(in, BRAKE_E_SYNTAX, "", "is not a section: accepts [name], up to %d bytes",
               SECTION_BYTES);
        return;
    }
    in->part = -1;
    in->quantity = -1;
    rest += strspn(rest, " \t");
    memcpy(copy, name, length);
    copy[length] = '\0';
    if (*rest != '\0' && *rest != ';' && *rest != '#') {
        REFUSE(in, BRAKE_E_SYNTAX, copy, "has '%.40s' behind its bracket", rest);
    } else if (length > 4 && brake_text_alike(name, "part.", 5)) {
        open_part(in, name + 5, length - 5);
    } else {
        in->section = brake_section_named(name, length);
        if (in->section < 0 || in->section == brake_section_count() - 1)
            refuse_section(in, copy);
    }
}

/* Path of a name in this section, and its number; -1: unknown. */
static int find_name(const struct input *in, const char *name, char *path, size_t size)
{
    const bool part = in->part >= 0;
    brake_text_format(path, size, "%s%s%s.%.60s", brake_section_at(in->section)->path,
                      part ? "." : "", part ? in->sheet->vehicle.part[in->part].name : "", name);
    return strchr(name, '.') != NULL ? -1 : brake_catalogue_find(&in->sheet->vehicle, path);
}

static void refuse_name(struct input *in, const char *path)
{
    char hint[BRAKE_HINT_BYTES];
    brake_catalogue_hint(&in->sheet->vehicle, path, hint, sizeof hint);
    REFUSE(in, BRAKE_E_UNKNOWN, path, "unknown name%s", hint);
}

/* Cuts off what begins with a mark behind a blank. */
static void cut_comment(char *line, char mark)
{
    for (char *at = strchr(line, mark); at != NULL; at = strchr(at + 1, mark)) {
        if (at > line && (at[-1] == ' ' || at[-1] == '\t')) {
            *at = '\0';
            return;
        }
    }
}

/* Words of the builder's own may hold a #, as in "Truck # 2". */
static bool is_own_words(const struct brake_quantity *quantity)
{
    return quantity->kind == BRAKE_TEXT && quantity->role == BRAKE_USED;
}

/* A line that is still to be filled in: as if it were left out. */
static bool is_blank(const char *value)
{
    value += strspn(value, " \t");
    return strncmp(value, "...", 3) == 0 || strncmp(value, "\xe2\x80\xa6", 3) == 0;
}

/* What stands behind the name, or on a line of its own with which a curve goes on. */
static void take_value(struct input *in, const char *path, char *value, bool more)
{
    const struct brake_quantity *quantity = brake_quantity_at(in->quantity);
    const struct brake_record *record = &in->sheet->record[in->quantity];
    const struct brake_source source = {in->line, more, false};
    if (!is_own_words(quantity))
        cut_comment(value, '#');
    if (quantity->role == BRAKE_PART_OF)
        REFUSE(in, BRAKE_E_UNKNOWN, path, "is given by the line pistons = number x diameter");
    else if (more && quantity->kind != BRAKE_CURVE)
        REFUSE(in, BRAKE_E_SYNTAX, path, "goes on in a second line; only curves may");
    else if (!more && record->from != BRAKE_ABSENT)
        REFUSE(in, BRAKE_E_DUPLICATE, path, "is given twice; first in line %d", record->line);
    else if (!is_blank(value))
        (void)brake_value_read(in->sheet, in->quantity, value, source, in->error);
}

static void refuse_line(struct input *in)
{
    REFUSE(in, BRAKE_E_SYNTAX, "", "is none of [section], name = value, and comment (; or #)");
}

static void go_on(struct input *in, char *line)
{
    char path[160];
    if (in->quantity < 0) {
        refuse_line(in);
        return;
    }
    brake_catalogue_path(&in->sheet->vehicle, in->quantity, path, sizeof path);
    take_value(in, path, line, true);
}

static void trim_end(char *line, size_t length)
{
    while (length > 0 && (line[length - 1] == ' ' || line[length - 1] == '\t'))
        length--;
    line[length] = '\0';
}

static void take_named(struct input *in, char *line)
{
    char path[160];
    const size_t length = strcspn(line, "=:");
    const char sign = line[length];
    trim_end(line, length);
    if (sign == ':') {
        REFUSE(in, BRAKE_E_SYNTAX, "", "has a colon where '=' is wanted: name = value");
    } else if (sign == '\0') {
        refuse_line(in);
    } else if (line[0] == '\0') {
        REFUSE(in, BRAKE_E_SYNTAX, "", "has no name before the =");
    } else if (in->section < 0) {
        REFUSE(in, BRAKE_E_SYNTAX, line, "stands before the first [section]");
    } else {
        in->quantity = find_name(in, line, path, sizeof path);
        if (in->quantity < 0)
            refuse_name(in, path);
        else
            take_value(in, path, line + length + 1, false);
    }
}

static void understand(struct input *in, char *line)
{
    line += in->line == 1 ? brake_text_mark(line) : 0;
    cut_comment(line, ';');
    trim_end(line, strlen(line));
    line += strspn(line, " \t");
    if (*line == '[')
        open_section(in, line);
    else if (*line == '(')
        go_on(in, line);
    else if (*line != '\0' && *line != ';' && *line != '#')
        take_named(in, line);
}

/* Whether the machine could not read on; says so. */
static bool is_broken(struct input *in)
{
    if (in->stream == NULL || !ferror(in->stream))
        return false;
    REFUSE(in, BRAKE_E_READ, "", "cannot be read: %s", strerror(errno));
    return true;
}

/* ---- a page that carries a vehicle ----------------------------------------------------------- */

/* Goes on behind a mark, whose first letter comes in it once. Returns whether it came. */
static bool pass(struct input *in, const char *mark)
{
    const char *next = mark;
    int byte;
    while (*next != '\0' && in->bytes < most_of(in) && (byte = next_byte(in)) != EOF) {
        in->line += byte == '\n' ? 1 : 0;
        next = byte == *next ? next + 1 : byte == *mark ? mark + 1 : mark;
    }
    return *next == '\0';
}

/* Goes on behind the tag of the element that carries the vehicle, within a line. */
static bool enter(struct input *in)
{
    in->line++;
    if (!pass(in, in->carried) || !pass(in, ">"))
        return false;
    in->line--; /* what is left of it counts as a line when it is taken */
    return true;
}

static enum brake_status read_page(struct input *in, char line[BRAKE_LINE_BYTES + 2])
{
    bool more = enter(in);
    if (!more)
        return REFUSE(in, BRAKE_E_MISSING, "",
                      "is a page that carries no vehicle; give a vehicle file, or the page that "
                      "`stopmargin report` writes");
    while (more && in->error->status == BRAKE_OK) {
        if (take_line(in, line) < 0)
            break;
        more = brake_carried_line(line);
        understand(in, line);
    }
    if (more && in->error->status == BRAKE_OK && !is_broken(in))
        REFUSE(in, BRAKE_E_SYNTAX, "",
               "ends within its vehicle; the page was cut off, save it anew");
    return in->error->status;
}

/* ---- all ------------------------------------------------------------------------------------- */

static enum brake_status read_all(struct input *in)
{
    static const struct brake_error none = {0};
    char line[BRAKE_LINE_BYTES + 2];
    *in->error = none;
    in->section = -1;
    in->part = -1;
    in->quantity = -1;
    brake_sheet_clear(in->sheet);
    while (in->error->status == BRAKE_OK && take_line(in, line) >= 0) {
        if (in->line == 1 && brake_carried_page(line))
            return read_page(in, line);
        understand(in, line);
    }
    if (is_broken(in))
        return in->error->status;
    if (in->error->status == BRAKE_OK && in->section < 0) {
        in->line = in->line > 0 ? in->line : 1;
        return REFUSE(in, BRAKE_E_MISSING, "",
                      "the file holds no [section]; `stopmargin new` writes one to start from");
    }
    return in->error->status;
}

enum brake_status brake_file_read(FILE *stream, struct brake_sheet *sheet,
                                  struct brake_error *error)
{
    struct input in = {
        .stream = stream, .carried = BRAKE_CARRIED_VEHICLE, .sheet = sheet, .error = error};
    return read_all(&in);
}

enum brake_status brake_file_read_before(FILE *stream, struct brake_sheet *sheet,
                                         struct brake_error *error)
{
    struct input in = {
        .stream = stream, .carried = BRAKE_CARRIED_BEFORE, .sheet = sheet, .error = error};
    return read_all(&in);
}

bool brake_file_mark(FILE *stream, struct brake_mark *mark)
{
    char line[BRAKE_LINE_BYTES + 2] = "";
    struct brake_error error = {.status = BRAKE_OK};
    struct input in = {.stream = stream, .carried = BRAKE_CARRIED_VEHICLE, .error = &error};
    bool more = take_line(&in, line) >= 0 && brake_carried_page(line) && enter(&in);
    for (line[0] = '\0'; more && line[0] == '\0';)
        more = take_line(&in, line) >= 0 && brake_carried_line(line);
    return more && brake_carried_read(line, mark);
}

/* Lines of an element up to its end; false when the page ends before. */
static bool copy_lines(struct input *in, FILE *to)
{
    char line[BRAKE_LINE_BYTES + 2];
    for (bool more = true; more;) {
        if (take_line(in, line) < 0)
            return false;
        more = brake_carried_line(line);
        brake_text_print(to, "%s\n", line);
    }
    return true;
}

enum brake_status brake_carried_copy(FILE *stream, const char *element, FILE *to,
                                     struct brake_error *error)
{
    struct input in = {
        .stream = stream, .carried = element, .error = error, .most = BRAKE_CARRIED_BYTES};
    *error = (struct brake_error){.status = BRAKE_OK};
    if (!enter(&in))
        return REFUSE(&in, BRAKE_E_MISSING, "", "is a page that carries no such table");
    if (!copy_lines(&in, to) && error->status == BRAKE_OK)
        REFUSE(&in, BRAKE_E_SYNTAX, "", "ends within a table; the page was cut off, save it anew");
    return error->status;
}

enum brake_status brake_file_part(struct brake_sheet *sheet, const char *name,
                                  struct brake_error *error)
{
    struct input in = {.sheet = sheet, .error = error};
    *error = (struct brake_error){.status = BRAKE_OK};
    open_part(&in, name, strlen(name));
    return error->status;
}

enum brake_status brake_file_read_text(const char *text, struct brake_sheet *sheet,
                                       struct brake_error *error)
{
    struct input in = {
        .text = text, .carried = BRAKE_CARRIED_VEHICLE, .sheet = sheet, .error = error};
    return read_all(&in);
}
