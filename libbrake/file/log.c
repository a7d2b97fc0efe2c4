#include "brake/log.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "brake/file.h"
#include "value.h"
#include "vehicle/letters.h"
#include "vehicle/text.h"

enum {
    CELLS = 64,           /* most columns of a file */
    FIRST_ROOM = 1 << 16, /* bytes held at a time; more where a line is longer */
    MOST_BYTES = 1 << 28, /* of a file */
    LEFT_ASIDE = -1
};

/* One column that the library knows. */
static const struct {
    const char *name;
    enum brake_dimension dimension;
    const char *unit; /* in which the limits are told */
    double low, high; /* keeps out slips of unit */
} known[BRAKE_LOG_COLUMNS] = {
    [BRAKE_LOG_TIME] = {"time", BRAKE_TIME, "s", -1e11, 1e11},
    [BRAKE_LOG_SPEED] = {"speed", BRAKE_SPEED, "m/s", -2.0, 150.0},
    [BRAKE_LOG_PEDAL_FORCE] = {"pedal_force", BRAKE_FORCE, "N", -100.0, 5000.0},
    [BRAKE_LOG_PRESSURE] = {"pressure", BRAKE_PRESSURE, "bar", -5e5, 5e7},
    [BRAKE_LOG_DECELERATION] = {"deceleration", BRAKE_ACCELERATION, "m/s2", -50.0, 50.0},
    [BRAKE_LOG_FRONT_TEMPERATURE] = {"front_temperature", BRAKE_TEMPERATURE, "degC", 200.0, 1800.0},
    [BRAKE_LOG_REAR_TEMPERATURE] = {"rear_temperature", BRAKE_TEMPERATURE, "degC", 200.0, 1800.0},
};

const char *brake_log_column_name(enum brake_log_column column)
{
    return known[column].name;
}

/* A stretch of the file in memory: lines are cut off its front. */
struct stretch {
    FILE *stream;
    char *text;
    size_t room;
    size_t begin, end; /* of what is not cut off yet */
    size_t bytes;      /* read in all */
};

/* A log on its way in. */
struct reading {
    struct stretch from;
    struct brake_log *log;
    struct brake_error *error;
    int line;
    int cells;                                        /* of the header */
    int column[CELLS];                                /* which column a cell is, or LEFT_ASIDE */
    const struct brake_unit *unit[BRAKE_LOG_COLUMNS]; /* NULL: not told yet */
    long room;                                        /* rows that there is room for */
};

#define REFUSE(r, status, field, ...)                                                              \
    brake_value_refuse((r)->error, status, (r)->line, field, __VA_ARGS__)

/* Room for a note; NULL when all of it is taken. */
static char *next_note(struct reading *r)
{
    struct brake_log *log = r->log;
    if (log->notes == BRAKE_LOG_NOTES) {
        log->more++;
        return NULL;
    }
    return log->note[log->notes++];
}

static void note(struct reading *r, const char *format, const char *what)
{
    char *place = next_note(r);
    if (place == NULL)
        return;
    const int used = brake_text_format(place, BRAKE_LOG_NOTE, "line %d: ", r->line);
    /* every format is a literal of this file with one %s */
    brake_text_format(place + used, BRAKE_LOG_NOTE - (size_t)used, format, what);
}

/* ---- lines ---------------------------------------------------------------------------------- */

/* Room behind what is held, which moves to the front. */
static enum brake_status clear_room(struct reading *r)
{
    struct stretch *from = &r->from;
    const size_t held = from->end - from->begin;
    if (from->text != NULL)
        memmove(from->text, from->text + from->begin, held);
    from->begin = 0;
    from->end = held;
    if (held + 1 < from->room)
        return BRAKE_OK;
    const size_t room = from->room > 0 ? 2 * from->room : FIRST_ROOM;
    char *more = realloc(from->text, room);
    if (more == NULL)
        return REFUSE(r, BRAKE_E_MEMORY, "", "memory is short");
    from->text = more;
    from->room = room;
    return BRAKE_OK;
}

static enum brake_status read_on(struct reading *r)
{
    struct stretch *from = &r->from;
    const enum brake_status status = clear_room(r);
    if (status != BRAKE_OK)
        return status;
    const size_t more = fread(from->text + from->end, 1, from->room - 1 - from->end, from->stream);
    from->end += more;
    from->bytes += more;
    if (ferror(from->stream)) {
        r->line = 0;
        return REFUSE(r, BRAKE_E_READ, "", "cannot be read: %s", strerror(errno));
    }
    if (from->bytes >= MOST_BYTES) {
        r->line = 0;
        return REFUSE(r, BRAKE_E_SIZE, "", "the file is larger than %d MB", MOST_BYTES >> 20);
    }
    return BRAKE_OK;
}

/* The next line, ended by NUL; NULL past the last. */
static enum brake_status next_line(struct reading *r, char **line)
{
    struct stretch *from = &r->from;
    const char *end = NULL;
    size_t length = 0;
    while (end == NULL) {
        const size_t held = from->end - from->begin;
        if (held > length)
            end = memchr(from->text + from->begin + length, '\n', held - length);
        length = end != NULL ? (size_t)(end - from->text) - from->begin : held;
        if (end != NULL || feof(from->stream))
            break;
        const enum brake_status status = read_on(r);
        if (status != BRAKE_OK)
            return status;
    }
    r->line++;
    *line = NULL;
    if (end == NULL && length == 0)
        return BRAKE_OK;
    *line = from->text + from->begin;
    (*line)[length] = '\0';
    from->begin += length + (end != NULL);
    if (strlen(*line) < length)
        return REFUSE(r, BRAKE_E_SYNTAX, "", "a NUL byte; a log is plain text in UTF-8");
    return BRAKE_OK;
}

/* ---- cells ---------------------------------------------------------------------------------- */

static bool quoted(const char *cell, const char *end)
{
    return end - cell >= 2 && *cell == '"' && end[-1] == '"';
}

/* Cuts the next cell off a line, blanks and quotes around it too; NULL past the last. */
static char *take_cell(char **line)
{
    char *cell = *line;
    if (cell == NULL)
        return NULL;
    char *comma = strchr(cell, ',');
    char *end = comma != NULL ? comma : cell + strlen(cell);
    *line = comma != NULL ? comma + 1 : NULL;
    while (*cell == ' ' || *cell == '\t')
        cell++;
    while (end > cell && (end[-1] == ' ' || end[-1] == '\t'))
        end--;
    if (quoted(cell, end)) {
        cell++;
        end--;
    }
    *end = '\0';
    return cell;
}

/* A cell as it may stand in a message: its first 40 bytes, a question mark for each that is not plain
 * ASCII. */
struct excerpt {
    char text[41];
};

static struct excerpt excerpt_of(const char *cell)
{
    struct excerpt excerpt = {""};
    for (int i = 0; i < 40 && cell[i] != '\0'; i++)
        excerpt.text[i] = (char)(cell[i] >= ' ' && cell[i] <= '~' ? cell[i] : '?');
    return excerpt;
}

/* Number of a plain decimal; false when the text is anything else. Up to 15 digits and 10^22 the
 * quotient of two exact numbers is the nearest one, and much quicker than strtod. */
static bool quick_number(const char *text, double *number)
{
    static const double power[] = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                   1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
    const bool minus = *text == '-';
    const char *at = text + (minus ? 1 : 0);
    long long digits = 0;
    int count = 0;
    int decimals = 0;
    bool point = false;
    for (; (*at >= '0' && *at <= '9') || (*at == '.' && !point); at++) {
        if (*at == '.') {
            point = true;
            continue;
        }
        digits = digits * 10 + (*at - '0');
        decimals += point;
        if (++count > 15)
            return false;
    }
    *number = (minus ? -1.0 : 1.0) * (double)digits / power[decimals];
    return *at == '\0' && count > 0;
}

/* With an exponent or more digits. */
static bool slow_number(const char *text, double *number)
{
    return brake_text_number(text, strlen(text), number) && isfinite(*number);
}

static enum brake_status take_value(struct reading *r, enum brake_log_column column,
                                    const char *cell, double *value)
{
    const char *name = known[column].name;
    double number;
    if (*cell == '\0') {
        *value = BRAKE_NAN;
        return BRAKE_OK;
    }
    if (!quick_number(cell, &number) && !slow_number(cell, &number))
        return REFUSE(r, BRAKE_E_SYNTAX, name,
                      "got '%s'; accepts a plain number, or nothing where a reading is missing",
                      excerpt_of(cell).text);
    *value = brake_unit_to_si(r->unit[column], number);
    if (*value >= known[column].low && *value <= known[column].high)
        return BRAKE_OK;
    const struct brake_unit *unit = brake_unit_find(known[column].unit);
    return REFUSE(r, BRAKE_E_RANGE, name, "got %s %s; accepts %.4g to %.4g %s: is the unit right?",
                  excerpt_of(cell).text, r->unit[column]->name,
                  brake_unit_from_si(unit, known[column].low),
                  brake_unit_from_si(unit, known[column].high), unit->name);
}

/* ---- header --------------------------------------------------------------------------------- */

/* Column of a name, in which a blank counts as an underscore; LEFT_ASIDE: not known. */
static int find_column(const char *name, size_t length)
{
    for (int column = 0; column < BRAKE_LOG_COLUMNS; column++) {
        const char *one = known[column].name;
        size_t same = 0;
        while (same < length && one[same] != '\0' &&
               (name[same] == one[same] || (name[same] == ' ' && one[same] == '_')))
            same++;
        if (same == length && one[same] == '\0')
            return column;
    }
    return LEFT_ASIDE;
}

static enum brake_status set_unit(struct reading *r, int column, const char *name)
{
    const struct brake_unit *unit = NULL;
    /* a name may belong to two dimensions, as K does */
    for (int i = 0; unit == NULL && brake_unit_at(i) != NULL; i++) {
        if (brake_unit_at(i)->dimension == known[column].dimension &&
            strcmp(brake_unit_at(i)->name, name) == 0)
            unit = brake_unit_at(i);
    }
    if (unit == NULL) {
        char names[200];
        brake_unit_names(known[column].dimension, names, sizeof names);
        return REFUSE(r, BRAKE_E_UNIT, known[column].name, "got the unit '%s'; accepts %s",
                      excerpt_of(name).text, names);
    }
    if (r->unit[column] != NULL && r->unit[column] != unit)
        return REFUSE(r, BRAKE_E_CONFLICT, known[column].name,
                      "the header says %s, --columns says %s", unit->name, r->unit[column]->name);
    r->unit[column] = unit;
    return BRAKE_OK;
}

/* "time=s,speed=mph" */
static enum brake_status take_units(struct reading *r, const char *units)
{
    while (units != NULL && *units != '\0') {
        const size_t length = strcspn(units, ",");
        const size_t name = strcspn(units, "=,");
        const int column = find_column(units, name);
        char unit[24];
        if (name == length)
            return REFUSE(r, BRAKE_E_SYNTAX, "--columns",
                          "got '%s'; accepts such as time=s,speed=mph", excerpt_of(units).text);
        if (column == LEFT_ASIDE)
            return REFUSE(r, BRAKE_E_UNKNOWN, "--columns",
                          "got '%.*s'; accepts time, speed, pedal_force, pressure, deceleration, "
                          "front_temperature, rear_temperature",
                          (int)(name < 40 ? name : 40), units);
        const size_t rest = length - name - 1;
        brake_text_format(unit, sizeof unit, "%.*s", (int)(rest < 23 ? rest : 23),
                          units + name + 1);
        const enum brake_status status = set_unit(r, column, unit);
        if (status != BRAKE_OK)
            return status;
        units += length + (units[length] == ',');
    }
    return BRAKE_OK;
}

/* One cell of the header: `speed [km/h]`. */
static enum brake_status take_name(struct reading *r, char *cell)
{
    char *open = strchr(cell, '[');
    char *close = open != NULL ? strchr(open, ']') : NULL;
    size_t length = open != NULL ? (size_t)(open - cell) : strlen(cell);
    while (length > 0 && cell[length - 1] == ' ')
        length--;
    const int column = find_column(cell, length);
    if (r->cells == CELLS)
        return REFUSE(r, BRAKE_E_SIZE, "", "more than %d columns", CELLS);
    r->column[r->cells++] = column;
    if (column == LEFT_ASIDE) {
        note(r, "column '%s' is not known and left aside", excerpt_of(cell).text);
        return BRAKE_OK;
    }
    if (r->log->has[column])
        return REFUSE(r, BRAKE_E_DUPLICATE, known[column].name, "two columns of that name");
    r->log->has[column] = true;
    if (close != NULL) {
        *close = '\0';
        return set_unit(r, column, open + 1);
    }
    if (r->unit[column] != NULL)
        return BRAKE_OK;
    return REFUSE(r, BRAKE_E_UNIT, known[column].name,
                  "has no unit; write %s [%s] in the header, or --columns %s=%s",
                  known[column].name, known[column].unit, known[column].name, known[column].unit);
}

static enum brake_status take_header(struct reading *r, char *line)
{
    const int begins = r->line;
    if (strchr(line, ';') != NULL || strchr(line, '\t') != NULL)
        return REFUSE(r, BRAKE_E_SYNTAX, "",
                      "columns are parted by %s; accepts commas between columns, and a point in "
                      "decimals",
                      strchr(line, ';') != NULL ? "semicolons" : "tabs");
    for (char *cell = take_cell(&line); cell != NULL; cell = take_cell(&line)) {
        const enum brake_status status = take_name(r, cell);
        if (status != BRAKE_OK)
            return status;
    }
    for (int needed = BRAKE_LOG_TIME; needed <= BRAKE_LOG_SPEED; needed++) {
        if (!r->log->has[needed])
            return REFUSE(r, BRAKE_E_MISSING, known[needed].name,
                          "no such column; line %d must be a header such as time [s],speed "
                          "[km/h],pedal_force [N]",
                          begins);
    }
    return BRAKE_OK;
}

/* ---- rows ----------------------------------------------------------------------------------- */

static bool same_rows(const struct brake_log_row *one, const struct brake_log_row *other)
{
    for (int c = 0; c < BRAKE_LOG_COLUMNS; c++) {
        const bool missing = isnan(one->value[c]) && isnan(other->value[c]);
        if (!missing && !(one->value[c] == other->value[c]))
            return false;
    }
    return true;
}

/* What a row is to the one before it. */
static enum brake_status keep_row(struct reading *r)
{
    struct brake_log *log = r->log;
    const struct brake_log_row *row = &log->row[log->rows];
    if (isnan(row->value[BRAKE_LOG_TIME]) || isnan(row->value[BRAKE_LOG_SPEED])) {
        note(r, "no %s; the row is left out", isnan(row->value[BRAKE_LOG_TIME]) ? "time" : "speed");
        return BRAKE_OK;
    }
    if (log->rows > 0 && !(row->value[BRAKE_LOG_TIME] > row[-1].value[BRAKE_LOG_TIME])) {
        const bool same = row->value[BRAKE_LOG_TIME] == row[-1].value[BRAKE_LOG_TIME];
        if (same && same_rows(row, &row[-1])) {
            note(r, "repeats the row before it%s", "");
            return BRAKE_OK;
        }
        return REFUSE(r, BRAKE_E_CONFLICT, known[BRAKE_LOG_TIME].name,
                      same ? "%.9g s stands in line %d too, with other numbers"
                           : "%.9g s, less than in line %d; time must rise",
                      row->value[BRAKE_LOG_TIME], row[-1].line);
    }
    log->rows++;
    return BRAKE_OK;
}

static enum brake_status make_room(struct reading *r)
{
    struct brake_log *log = r->log;
    if (log->rows < r->room)
        return BRAKE_OK;
    r->room = r->room > 0 ? 2 * r->room : 1024;
    struct brake_log_row *more = realloc(log->row, (size_t)r->room * sizeof *more);
    if (more == NULL)
        return REFUSE(r, BRAKE_E_MEMORY, "", "memory is short");
    log->row = more;
    return BRAKE_OK;
}

static enum brake_status take_row(struct reading *r, char *line)
{
    enum brake_status status = make_room(r);
    int cells = 0;
    if (status != BRAKE_OK)
        return status;
    struct brake_log_row *row = &r->log->row[r->log->rows];
    row->line = r->line;
    for (int c = 0; c < BRAKE_LOG_COLUMNS; c++)
        row->value[c] = BRAKE_NAN;
    for (char *cell = take_cell(&line); cell != NULL; cell = take_cell(&line)) {
        const int column = cells < r->cells ? r->column[cells] : LEFT_ASIDE;
        cells++;
        if (column != LEFT_ASIDE)
            status = take_value(r, (enum brake_log_column)column, cell, &row->value[column]);
        if (status != BRAKE_OK)
            return status;
    }
    if (cells != r->cells)
        return REFUSE(r, BRAKE_E_SYNTAX, "",
                      "has %d cells, the header has %d; decimals take a point, not a comma", cells,
                      r->cells);
    return keep_row(r);
}

static enum brake_status take_line(struct reading *r, char *line)
{
    const size_t length = strlen(line);
    if (length > 0 && line[length - 1] == '\r')
        line[length - 1] = '\0';
    if (line[strspn(line, " \t")] == '\0' || *line == '#')
        return BRAKE_OK;
    return r->cells == 0 ? take_header(r, line) : take_row(r, line);
}

static enum brake_status take_lines(struct reading *r)
{
    char *line;
    enum brake_status status = next_line(r, &line);
    if (status == BRAKE_OK && line != NULL)
        line += brake_text_mark(line);
    while (status == BRAKE_OK && line != NULL) {
        status = take_line(r, line);
        if (status == BRAKE_OK)
            status = next_line(r, &line);
    }
    return status;
}

static enum brake_status look_at_whole(struct reading *r)
{
    r->line = 0;
    if (r->cells == 0)
        return REFUSE(r, BRAKE_E_MISSING, "",
                      "the log is empty; it begins with a header such as "
                      "time [s],speed [km/h],pedal_force [N]");
    if (r->log->rows < 2)
        return REFUSE(r, BRAKE_E_MISSING, "", "a log needs two rows or more; this one has %ld",
                      r->log->rows);
    return BRAKE_OK;
}

enum brake_status brake_log_read(FILE *stream, const char *units, struct brake_log *log,
                                 struct brake_error *error)
{
    struct reading r = {.from = {.stream = stream}, .log = log, .error = error};
    memset(log, 0, sizeof *log);
    memset(error, 0, sizeof *error);
    enum brake_status status = take_units(&r, units);
    if (status == BRAKE_OK)
        status = take_lines(&r);
    if (status == BRAKE_OK)
        status = look_at_whole(&r);
    free(r.from.text);
    if (status != BRAKE_OK)
        brake_log_free(log);
    return status;
}

void brake_log_free(struct brake_log *log)
{
    free(log->row);
    log->row = NULL;
    log->rows = 0;
}
