/* The vehicle file, by way of inih. inih cuts long lines and skips what it does not understand; so
 * every line is looked at before inih gets it, and nothing is lost. */
#include <ini.h>
#include <stdbool.h>
#include <string.h>

#include "brake/file.h"
#include "value.h"
#include "vehicle/sections.h"
#include "vehicle/text.h"

enum {
    LINE_BYTES = 198,   /* inih's buffer is 200, with line end and NUL */
    SECTION_BYTES = 49, /* inih cuts longer ones */
    PART_NAME_BYTES = 40,
    FILE_BYTES = 1000000
};

/* A file being read, from a stream or from a text. */
struct input {
    FILE *stream;
    const char *text;
    struct brake_sheet *sheet;
    struct brake_error *error;
    long bytes;
    int line;
    bool more;   /* the line goes on with a curve */
    int section; /* -1: before the first */
    int part;    /* slot, in the section of the parts */
};

#define REFUSE(in, status, field, ...)                                                             \
    brake_value_refuse((in)->error, status, (in)->line, field, __VA_ARGS__)

static int next_byte(struct input *in)
{
    in->bytes++;
    if (in->stream != NULL)
        return getc(in->stream);
    return *in->text != '\0' ? (unsigned char)*in->text++ : EOF;
}

/* Number of bytes of the UTF-8 letter that begins here; 0: none does. Two of the first bytes allow
 * only a part of the second ones: the rest are longer forms of other letters, halves of UTF-16
 * pairs, or beyond the last letter (RFC 3629, section 4). */
static int utf8_length(const unsigned char *at)
{
    const int length = at[0] < 0x80   ? 1
                       : at[0] < 0xc2 ? 0
                       : at[0] < 0xe0 ? 2
                       : at[0] < 0xf0 ? 3
                       : at[0] < 0xf5 ? 4
                                      : 0;
    for (int i = 1; i < length; i++) {
        if ((at[i] & 0xc0) != 0x80)
            return 0;
    }
    if ((at[0] == 0xe0 && at[1] < 0xa0) || (at[0] == 0xed && at[1] > 0x9f) ||
        (at[0] == 0xf0 && at[1] < 0x90) || (at[0] == 0xf4 && at[1] > 0x8f))
        return 0;
    return length;
}

/* A control character could steer the terminal that shows it; U+0080 to U+009F are such too. */
static bool is_control(const unsigned char *at)
{
    return (at[0] < 0x20 && at[0] != '\t') || at[0] == 0x7f || (at[0] == 0xc2 && at[1] < 0xa0);
}

static bool is_text(const char *line)
{
    const unsigned char *at = (const unsigned char *)line;
    while (*at != '\0') {
        const int length = utf8_length(at);
        if (length == 0 || is_control(at))
            return false;
        at += length;
    }
    return true;
}

/* One line without its end. Returns its length, -1 at the end of the file or on refusal. */
static int take_line(struct input *in, char line[LINE_BYTES + 2])
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
        if (length > LINE_BYTES) {
            REFUSE(in, BRAKE_E_SIZE, "", "is longer than %d bytes", LINE_BYTES);
            return -1;
        }
        line[length++] = (char)byte;
    }
    if (length > 0 && line[length - 1] == '\r')
        length--;
    line[length] = '\0';
    if (length > LINE_BYTES)
        REFUSE(in, BRAKE_E_SIZE, "", "is longer than %d bytes", LINE_BYTES);
    else if (in->bytes > FILE_BYTES)
        REFUSE(in, BRAKE_E_SIZE, "", "the file is larger than %d bytes", FILE_BYTES);
    else if (!is_text(line))
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
    const int near = brake_section_nearest(name);
    const int parts = brake_section_count() - 1;
    REFUSE(in, BRAKE_E_UNKNOWN, name, "unknown section%s%s%s%s",
           near >= 0 ? "; did you mean [" : "", near >= 0 ? brake_section_at(near)->path : "",
           near == parts ? ".NAME" : "", near >= 0 ? "]?" : "");
}

/* A section line: its name is looked up here, as inih tells of a section only with its lines. */
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
    rest += strspn(rest, " \t");
    memcpy(copy, name, length);
    copy[length] = '\0';
    if (*rest != '\0' && *rest != ';' && *rest != '#') {
        REFUSE(in, BRAKE_E_SYNTAX, copy, "has '%.40s' behind its bracket", rest);
    } else if (strncmp(name, "part.", 5) == 0) {
        open_part(in, name + 5, length - 5);
    } else {
        in->section = brake_section_named(name, length);
        if (in->section < 0 || in->section == brake_section_count() - 1)
            refuse_section(in, copy);
    }
}

/* inih keeps the comment of a line that goes on. */
static void cut_comment(char *line)
{
    for (char *at = strchr(line, ';'); at != NULL; at = strchr(at + 1, ';')) {
        if (at > line && (at[-1] == ' ' || at[-1] == '\t')) {
            *at = '\0';
            return;
        }
    }
}

/* inih takes a colon for an equals sign; the grammar does not. */
static void refuse_colon(struct input *in, const char *line)
{
    const size_t length = strcspn(line, "=:");
    if (line[length] == ':' && *line != '[' && *line != ';' && *line != '#' && *line != '(')
        REFUSE(in, BRAKE_E_SYNTAX, "", "has a colon where '=' is wanted: name = value");
}

/* inih asks for lines as from fgets. Blanks ahead would join a line to the one above it: they go,
 * but before a bracket, where a curve goes on. */
static char *give_line(char *buffer, int size, void *user)
{
    struct input *in = user;
    char line[LINE_BYTES + 2];
    if (in->error->status != BRAKE_OK || take_line(in, line) < 0)
        return NULL;
    const char *start = line;
    if (in->line == 1 && strncmp(start, "\xef\xbb\xbf", 3) == 0)
        start += 3;
    start += strspn(start, " \t");
    in->more = *start == '(';
    if (in->more)
        cut_comment(line);
    if (*start == '[')
        open_section(in, start);
    else
        refuse_colon(in, start);
    if (in->error->status != BRAKE_OK)
        return NULL;
    brake_text_format(buffer, (size_t)size, "%s%s\n", in->more ? " " : "", start);
    return buffer;
}

static int unknown_name(struct input *in, const char *name)
{
    char path[160];
    char near_path[160];
    brake_text_format(path, sizeof path, "%s%s%s.%.60s", brake_section_at(in->section)->path,
                      in->part >= 0 ? "." : "",
                      in->part >= 0 ? in->sheet->vehicle.part[in->part].name : "", name);
    const int near = in->part >= 0 ? -1 : brake_catalogue_nearest(path);
    if (near >= 0)
        brake_catalogue_path(&in->sheet->vehicle, near, near_path, sizeof near_path);
    REFUSE(in, BRAKE_E_UNKNOWN, path, "unknown name%s%s%s",
           near >= 0       ? "; did you mean "
           : in->part >= 0 ? "; accepts mass, behind_front_axle, height"
                           : "",
           near >= 0 ? near_path : "", near >= 0 ? "?" : "");
    return 0;
}

static int index_of(const struct input *in, const char *name)
{
    char path[260];
    if (in->part >= 0)
        brake_text_format(path, sizeof path, "part.%s.%s", in->sheet->vehicle.part[in->part].name,
                          name);
    else
        brake_text_format(path, sizeof path, "%s.%s", brake_section_at(in->section)->path, name);
    return strchr(name, '.') != NULL ? -1 : brake_catalogue_find(&in->sheet->vehicle, path);
}

/* inih hands over `name = value`. */
static int take_value(void *user, const char *section, const char *name, const char *value)
{
    struct input *in = user;
    (void)section;
    if (in->error->status != BRAKE_OK)
        return 0;
    if (name[0] == '\0') {
        REFUSE(in, BRAKE_E_SYNTAX, "", "has no name before the =");
        return 0;
    }
    if (in->section < 0) {
        REFUSE(in, BRAKE_E_SYNTAX, name, "stands before the first [section]");
        return 0;
    }
    const int index = index_of(in, name);
    if (index < 0)
        return unknown_name(in, name);
    const struct brake_quantity *quantity = brake_quantity_at(index);
    const struct brake_record *record = &in->sheet->record[index];
    char path[160];
    brake_catalogue_path(&in->sheet->vehicle, index, path, sizeof path);
    if (quantity->role == BRAKE_PART_OF) {
        REFUSE(in, BRAKE_E_UNKNOWN, path, "is given by the line pistons = number x diameter");
    } else if (in->more && quantity->kind != BRAKE_CURVE) {
        REFUSE(in, BRAKE_E_SYNTAX, path, "goes on in a second line; only curves may");
    } else if (!in->more && record->from != BRAKE_ABSENT) {
        REFUSE(in, BRAKE_E_DUPLICATE, path, "is given twice; first in line %d", record->line);
    } else {
        const struct brake_source source = {in->line, in->more, false};
        (void)brake_value_read(in->sheet, index, value, source, in->error);
    }
    return in->error->status == BRAKE_OK;
}

static enum brake_status read_all(struct input *in)
{
    static const struct brake_error none = {0};
    *in->error = none;
    in->section = -1;
    in->part = -1;
    brake_sheet_clear(in->sheet);
    const int bad = ini_parse_stream(give_line, in, take_value, in);
    struct brake_error *error = in->error;
    if (in->stream != NULL && ferror(in->stream))
        return REFUSE(in, BRAKE_E_READ, "", "cannot be read");
    if (bad > 0 && (error->status == BRAKE_OK || bad < error->line)) {
        in->line = bad;
        return REFUSE(in, BRAKE_E_SYNTAX, "",
                      "is none of [section], name = value, and comment (; or #)");
    }
    if (error->status == BRAKE_OK && in->section < 0) {
        in->line = in->line > 0 ? in->line : 1;
        return REFUSE(in, BRAKE_E_MISSING, "", "the file holds no [section]");
    }
    return error->status;
}

enum brake_status brake_file_read(FILE *stream, struct brake_sheet *sheet,
                                  struct brake_error *error)
{
    struct input in = {.stream = stream, .sheet = sheet, .error = error};
    return read_all(&in);
}

enum brake_status brake_file_read_text(const char *text, struct brake_sheet *sheet,
                                       struct brake_error *error)
{
    struct input in = {.text = text, .sheet = sheet, .error = error};
    return read_all(&in);
}

enum brake_status brake_file_set(struct brake_sheet *sheet, const char *setting,
                                 struct brake_error *error)
{
    static const struct brake_error none = {0};
    const struct brake_source source = {0, false, true};
    const char *equals = strchr(setting, '=');
    char path[160];
    char near_path[160];
    *error = none;
    if (equals == NULL || equals == setting || (size_t)(equals - setting) >= sizeof path)
        return brake_value_refuse(error, BRAKE_E_SYNTAX, 0, "",
                                  "got '%.60s'; accepts path=value, such as "
                                  "front.tyre.rollout=\"2.70 m\"",
                                  setting);
    if (!is_text(setting))
        return brake_value_refuse(error, BRAKE_E_SYNTAX, 0, "",
                                  "is not UTF-8 text, or holds a control character");
    const char *name = setting + strspn(setting, " \t");
    brake_text_format(path, sizeof path, "%.*s", (int)(equals - name), name);
    path[strcspn(path, " \t")] = '\0';
    const char *rest = name + strlen(path);
    if (rest + strspn(rest, " \t") != equals)
        return brake_value_refuse(error, BRAKE_E_SYNTAX, 0, path,
                                  "has '%.*s' between path and =", (int)(equals - rest), rest);
    const int index = brake_catalogue_find(&sheet->vehicle, path);
    if (index >= 0)
        return brake_value_read(sheet, index, equals + 1, source, error);
    const int near = brake_catalogue_nearest(path);
    if (near >= 0)
        brake_catalogue_path(&sheet->vehicle, near, near_path, sizeof near_path);
    return brake_value_refuse(error, BRAKE_E_UNKNOWN, 0, path, "unknown path%s%s%s",
                              near >= 0 ? "; did you mean " : "", near >= 0 ? near_path : "",
                              near >= 0 ? "?" : "");
}
