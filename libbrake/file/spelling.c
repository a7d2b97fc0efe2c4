/* SPDX-License-Identifier: MIT */
#include "spelling.h"

#include <string.h>

#include "vehicle/letters.h"

/* ---- units ---------------------------------------------------------------------------------- */

/* What is not the name of a unit, and can be nothing else where its dimension is wanted. */
static const struct {
    const char *written;
    enum brake_dimension dimension;
    const char *name;
} others[] = {
    {":1", BRAKE_RATIO, ""},
    {"\"", BRAKE_LENGTH, "in"},
    {"''", BRAKE_LENGTH, "in"},
    {"\xe2\x80\x9d", BRAKE_LENGTH, "in"}, /* a closing quotation mark, a double prime */
    {"\xe2\x80\xb3", BRAKE_LENGTH, "in"},
    {"in.", BRAKE_LENGTH, "in"},
    {"inch", BRAKE_LENGTH, "in"},
    {"inches", BRAKE_LENGTH, "in"},
    {"'", BRAKE_LENGTH, "ft"},
    {"\xe2\x80\x99", BRAKE_LENGTH, "ft"}, /* an apostrophe, a prime */
    {"\xe2\x80\xb2", BRAKE_LENGTH, "ft"},
    {"ft.", BRAKE_LENGTH, "ft"},
    {"foot", BRAKE_LENGTH, "ft"},
    {"feet", BRAKE_LENGTH, "ft"},
    {"mile", BRAKE_LENGTH, "mi"},
    {"miles", BRAKE_LENGTH, "mi"},
    {"m\xc2\xb2", BRAKE_AREA, "m2"}, /* raised 2 and 3 */
    {"cm\xc2\xb2", BRAKE_AREA, "cm2"},
    {"sq in", BRAKE_AREA, "in2"},
    {"sq ft", BRAKE_AREA, "ft2"},
    {"cm\xc2\xb3", BRAKE_VOLUME, "cm3"},
    {"cc", BRAKE_VOLUME, "cm3"},
    {"cu in", BRAKE_VOLUME, "in3"},
    {"\xc2\xb0", BRAKE_ANGLE, "deg"}, /* a degree sign */
    {"degree", BRAKE_ANGLE, "deg"},
    {"degrees", BRAKE_ANGLE, "deg"},
    {"sec", BRAKE_TIME, "s"},
    {"seconds", BRAKE_TIME, "s"},
    {"kph", BRAKE_SPEED, "km/h"},
    {"kmh", BRAKE_SPEED, "km/h"},
    {"g", BRAKE_ACCELERATION, "g0"},
    {"m/s^2", BRAKE_ACCELERATION, "m/s2"},
    {"m/s\xc2\xb2", BRAKE_ACCELERATION, "m/s2"},
    {"kgs", BRAKE_MASS, "kg"},
    {"lbs", BRAKE_MASS, "lb"},
    {"lbs.", BRAKE_MASS, "lb"},
    {"lb.", BRAKE_MASS, "lb"},
    {"pound", BRAKE_MASS, "lb"},
    {"pounds", BRAKE_MASS, "lb"},
    {"in Hg", BRAKE_PRESSURE, "inHg"},
    {"in. Hg", BRAKE_PRESSURE, "inHg"},
    {"inches Hg", BRAKE_PRESSURE, "inHg"},
    {"\" Hg", BRAKE_PRESSURE, "inHg"},
    {"\"Hg", BRAKE_PRESSURE, "inHg"},
    {"Nm", BRAKE_TORQUE, "N*m"},
    {"N m", BRAKE_TORQUE, "N*m"},
    {"N\xc2\xb7m", BRAKE_TORQUE, "N*m"}, /* a raised dot */
    {"ft*lbf", BRAKE_TORQUE, "lbf*ft"},
    {"ft lb", BRAKE_TORQUE, "lbf*ft"},
    {"ft-lb", BRAKE_TORQUE, "lbf*ft"},
    {"ft-lbs", BRAKE_TORQUE, "lbf*ft"},
    {"lb-ft", BRAKE_TORQUE, "lbf*ft"},
    {"lb ft", BRAKE_TORQUE, "lbf*ft"},
    {"lb/in", BRAKE_STIFFNESS, "lbf/in"},
    {"lbs/in", BRAKE_STIFFNESS, "lbf/in"},
    {"\xc2\xb0"
     "C",
     BRAKE_TEMPERATURE, "degC"},
    {"deg C", BRAKE_TEMPERATURE, "degC"},
    {"C", BRAKE_TEMPERATURE, "degC"},
    {"\xc2\xb0"
     "F",
     BRAKE_TEMPERATURE, "degF"},
    {"deg F", BRAKE_TEMPERATURE, "degF"},
    {"F", BRAKE_TEMPERATURE, "degF"},
};

enum { OTHERS = sizeof others / sizeof others[0] };

static const char plus_or_minus[] = "\xc2\xb1";
static const char times[] = "\xc3\x97";
static const char dash[] = "\xe2\x80\x93";

static bool begins(const char *text, const char *head)
{
    return strncmp(text, head, strlen(head)) == 0;
}

static bool is_mark(char letter)
{
    const int small = brake_letter_small(letter);
    return !(small >= 'a' && small <= 'z') && !(letter >= '0' && letter <= '9');
}

/* A name ends before what is no part of a name; a mark, such as that of inches, ends by itself. */
static bool is_whole(const char *name, const char *rest)
{
    const size_t length = strlen(name);
    if (length > 0 && is_mark(name[length - 1]) && name[length - 1] != '.')
        return true;
    return strchr(" \t(),+-;", *rest) != NULL || begins(rest, plus_or_minus) || begins(rest, dash);
}

/* m for milli and M for mega are told apart, where the rest is a unit that takes them. */
static bool is_other_prefix(const char *name, const char *text)
{
    if (name[0] == text[0] || brake_letter_small(name[0]) != 'm' || name[1] == '\0')
        return false;
    return begins(text + 1, name + 1) && brake_unit_find(name + 1) != NULL;
}

static void take_longer(struct spelling *found, const char *name, const struct brake_unit *unit,
                        const char *text)
{
    const size_t length = strlen(name);
    if ((found->unit == NULL || length > found->length) && brake_text_alike(name, text, length) &&
        is_whole(name, text + length) && !is_other_prefix(name, text))
        *found = (struct spelling){unit, length};
}

struct spelling spelling_at(const char *text, enum brake_dimension dimension)
{
    struct spelling found = {NULL, 0};
    const struct brake_unit *unit;
    for (int i = 0; (unit = brake_unit_at(i)) != NULL; i++) {
        if (unit->dimension == dimension)
            take_longer(&found, unit->name, unit, text);
    }
    for (int i = 0; i < OTHERS; i++) {
        if (others[i].dimension == dimension)
            take_longer(&found, others[i].written, brake_unit_of(others[i].name, dimension), text);
    }
    return found;
}

struct spelling spelling_of_any(const char *text)
{
    struct spelling longest = {NULL, 0};
    for (int d = 0; d < BRAKE_DIMENSIONS; d++) {
        const struct spelling found = spelling_at(text, (enum brake_dimension)d);
        if (found.length > longest.length)
            longest = found;
    }
    return longest;
}

/* J/(kg*K) has brackets. */
size_t spelling_length(const char *text)
{
    size_t length = strcspn(text, " \t(),+");
    if (text[length] == '(' && length > 0)
        length += strcspn(text + length, ")") + 1;
    const char *sign = strstr(text, plus_or_minus);
    return sign != NULL && (size_t)(sign - text) < length ? (size_t)(sign - text) : length;
}

/* ---- signs ---------------------------------------------------------------------------------- */

static size_t sign_of(const char *text, const char *const *signs)
{
    const size_t blanks = strspn(text, " \t");
    for (; *signs != NULL; signs++) {
        if (begins(text + blanks, *signs))
            return blanks + strlen(*signs);
    }
    return 0;
}

size_t spelling_plus_minus(const char *text)
{
    static const char *const signs[] = {"+-", "+/-", plus_or_minus, NULL};
    return sign_of(text, signs);
}

size_t spelling_times(const char *text)
{
    static const char *const signs[] = {"x", "X", times, NULL};
    return sign_of(text, signs);
}

size_t spelling_to(const char *text)
{
    static const char *const signs[] = {"-", dash, "to ", "TO ", NULL};
    return sign_of(text, signs);
}
