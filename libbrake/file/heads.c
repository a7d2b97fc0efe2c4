/* SPDX-License-Identifier: MIT */
#include "heads.h"

#include <stdbool.h>
#include <string.h>

#include "vehicle/text.h"

static int small(char letter)
{
    return letter >= 'A' && letter <= 'Z' ? letter - 'A' + 'a' : letter;
}

/* Length of a name at the begin of a text, in either case, a blank counting as an underscore; 0: it
 * does not begin so. */
static size_t begins(const char *text, const char *name)
{
    size_t same = 0;
    for (; name[same] != '\0'; same++) {
        const bool blank = text[same] == ' ' && name[same] == '_';
        if (!blank && small(text[same]) != small(name[same]))
            return 0;
    }
    return same;
}

/* ---- units ---------------------------------------------------------------------------------- */

/* What loggers and telephones write for units of the trade; case does not count here. */
static const struct {
    const char *written, *unit;
} habits[] = {
    {"sec", "s"},
    {"secs", "s"},
    {"second", "s"},
    {"seconds", "s"},
    {"msec", "ms"},
    {"minutes", "min"},
    {"hours", "h"},
    {"s", "s"},
    {"ms", "ms"},
    {"min", "min"},
    {"km/h", "km/h"},
    {"kmh", "km/h"},
    {"kph", "km/h"},
    {"km/hr", "km/h"},
    {"mph", "mph"},
    {"mi/h", "mph"},
    {"m/s", "m/s"},
    {"ms-1", "m/s"},
    {"ft/s", "ft/s"},
    {"fps", "ft/s"},
    {"m/s^2", "m/s2"},
    {"m/s2", "m/s2"},
    {"m/s\xc2\xb2", "m/s2"},
    {"g", "g0"},
    {"n", "N"},
    {"kn", "kN"},
    {"lbf", "lbf"},
    {"kgf", "kgf"},
    {"psi", "psi"},
    {"bar", "bar"},
    {"kpa", "kPa"},
    {"c", "degC"},
    {"\xc2\xb0"
     "c",
     "degC"},
    {"degc", "degC"},
    {"deg_c", "degC"},
    {"f", "degF"},
    {"\xc2\xb0"
     "f",
     "degF"},
    {"degf", "degF"},
    {"deg_f", "degF"},
    {"percent", "%"},
};

const struct brake_unit *brake_head_unit(const char *name, enum brake_dimension dimension)
{
    const struct brake_unit *unit = brake_unit_of(name, dimension);
    for (size_t i = 0; unit == NULL && i < sizeof habits / sizeof habits[0]; i++) {
        const size_t length = begins(name, habits[i].written);
        if (length > 0 && name[length] == '\0')
            unit = brake_unit_of(habits[i].unit, dimension);
    }
    return unit;
}

/* ---- names ---------------------------------------------------------------------------------- */

int brake_head_column(const struct brake_table_kind *kind, const char *name, size_t length)
{
    for (int i = 0; i < kind->columns; i++) {
        if (begins(name, kind->column[i].name) == length && length > 0)
            return i;
    }
    return -1;
}

/* A head of a name, blanks, and a unit in brackets, which end it. */
static int bracketed(const struct brake_table_kind *kind, const char *head, const char *open,
                     char unit[BRAKE_HEAD_UNIT])
{
    const char *from = open + 1;
    size_t name = (size_t)(open - head);
    size_t length = strlen(from) - 1;
    while (name > 0 && (head[name - 1] == ' ' || head[name - 1] == '_'))
        name--;
    for (; length > 0 && *from == ' '; from++)
        length--;
    while (length > 0 && from[length - 1] == ' ')
        length--;
    brake_text_format(unit, BRAKE_HEAD_UNIT, "%.*s", (int)(length < 23 ? length : 23), from);
    return brake_head_column(kind, head, name);
}

/* A head of a name, an underscore or a blank, and a unit that the column can have. */
static int suffixed(const struct brake_table_kind *kind, const char *head,
                    char unit[BRAKE_HEAD_UNIT])
{
    for (int i = 0; i < kind->columns; i++) {
        const size_t name = begins(head, kind->column[i].name);
        if (name == 0 || (head[name] != '_' && head[name] != ' ') ||
            brake_head_unit(head + name + 1, kind->column[i].dimension) == NULL)
            continue;
        brake_text_format(unit, BRAKE_HEAD_UNIT, "%.23s", head + name + 1);
        return i;
    }
    return -1;
}

int brake_head_read(const struct brake_table_kind *kind, const char *head,
                    char unit[BRAKE_HEAD_UNIT])
{
    const size_t length = strlen(head);
    const char last = head[length > 0 ? length - 1 : 0];
    const char *open = last == ']' ? strrchr(head, '[') : last == ')' ? strrchr(head, '(') : NULL;
    unit[0] = '\0';
    if (open != NULL)
        return bracketed(kind, head, open, unit);
    const int column = brake_head_column(kind, head, length);
    return column >= 0 ? column : suffixed(kind, head, unit);
}
