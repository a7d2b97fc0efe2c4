/* SPDX-License-Identifier: MIT */
#include "text.h"

#include <stdlib.h>
#include <string.h>

/* ---- writing -------------------------------------------------------------------------------- */

enum { NUMBER = 512 /* bytes: the largest double in %f, with some decimals */ };

/* Where a text goes: into a room, or a stream. */
struct sink {
    char *text;
    size_t size;
    FILE *stream;
    size_t used;
};

/* One conversion of a format: "%-8.3f". */
struct conversion {
    char flags[6]; /* each once */
    bool left;     /* blanks behind it, not before */
    int width;
    int precision; /* -1: none */
    char length;   /* 0, 'l', 'L' for ll, 'z' */
    char letter;
};

static void put(struct sink *sink, const char *bytes, size_t count)
{
    if (sink->stream != NULL) {
        fwrite(bytes, 1, count, sink->stream);
    } else if (sink->used + 1 < sink->size) {
        const size_t room = sink->size - sink->used - 1;
        memcpy(sink->text + sink->used, bytes, count < room ? count : room);
    }
    sink->used += count;
}

static void put_blanks(struct sink *sink, size_t count)
{
    for (; count > 0; count--)
        put(sink, " ", 1);
}

static void put_padded(struct sink *sink, const struct conversion *c, const char *bytes,
                       size_t count)
{
    const size_t width = (size_t)c->width;
    const size_t blanks = width > count ? width - count : 0;
    put_blanks(sink, c->left ? 0 : blanks);
    put(sink, bytes, count);
    put_blanks(sink, c->left ? blanks : 0);
}

static int take_count(const char **at, va_list *list)
{
    int count = 0;
    if (**at == '*') {
        (*at)++;
        return va_arg(*list, int);
    }
    for (; **at >= '0' && **at <= '9'; (*at)++)
        count = 10 * count + (**at - '0');
    return count;
}

/* `at` stands behind the percent sign, then behind the letter. */
static struct conversion take_conversion(const char **at, va_list *list)
{
    struct conversion c = {.precision = -1};
    size_t kept = 0;
    for (size_t left = strspn(*at, "-+ #0"); left > 0; left--, (*at)++) {
        if (strchr(c.flags, **at) == NULL)
            c.flags[kept++] = **at;
    }
    c.width = take_count(at, list);
    c.left = c.width < 0 || strchr(c.flags, '-') != NULL;
    c.width = abs(c.width);
    if (**at == '.') {
        (*at)++;
        c.precision = take_count(at, list);
    }
    for (; **at == 'l' || **at == 'z'; (*at)++) {
        if (**at == 'l' && c.length == 'l')
            c.length = 'L';
        else
            c.length = **at;
    }
    c.letter = **at;
    *at += c.letter != '\0';
    return c;
}

/* Zeros fill the width of a number within it; blanks are put around it. */
static int width_within(const struct conversion *c)
{
    return !c->left && strchr(c->flags, '0') != NULL ? c->width : 0;
}

/* Whatever stands for the point in this locale, of one byte or several, becomes a point. */
static size_t point(char *number)
{
    size_t used = 0;
    bool other = false;
    for (const char *at = number; *at != '\0'; at++) {
        const bool plain = strchr("0123456789+-einfa ", *at) != NULL;
        if (plain)
            number[used++] = *at;
        else if (!other)
            number[used++] = '.';
        other = !plain;
    }
    number[used] = '\0';
    return used;
}

static void put_real(struct sink *sink, const struct conversion *c, double value)
{
    char form[16];
    char number[NUMBER];
    snprintf(form, sizeof form, "%%%s*.*%c", c->flags, c->letter);
    snprintf(number, sizeof number, form, width_within(c), c->precision, value);
    put_padded(sink, c, number, point(number));
}

static void put_signed(struct sink *sink, const struct conversion *c, long long value)
{
    char form[16];
    char number[NUMBER];
    snprintf(form, sizeof form, "%%%s*.*lld", c->flags);
    const int length = snprintf(number, sizeof number, form, width_within(c), c->precision, value);
    put_padded(sink, c, number, (size_t)length);
}

static void put_unsigned(struct sink *sink, const struct conversion *c, unsigned long long value)
{
    char form[16];
    char number[NUMBER];
    snprintf(form, sizeof form, "%%%s*.*ll%c", c->flags, c->letter);
    const int length = snprintf(number, sizeof number, form, width_within(c), c->precision, value);
    put_padded(sink, c, number, (size_t)length);
}

static void put_text(struct sink *sink, const struct conversion *c, const char *text)
{
    size_t length = 0;
    const size_t most = c->precision >= 0 ? (size_t)c->precision : (size_t)-1;
    while (length < most && text[length] != '\0')
        length++;
    put_padded(sink, c, text, length);
}

static long long next_signed(const struct conversion *c, va_list *list)
{
    switch (c->length) {
    case 'l':
        return va_arg(*list, long);
    case 'L':
        return va_arg(*list, long long);
    case 'z':
        return (long long)va_arg(*list, size_t);
    default:
        return va_arg(*list, int);
    }
}

static unsigned long long next_unsigned(const struct conversion *c, va_list *list)
{
    switch (c->length) {
    case 'l':
        return va_arg(*list, unsigned long);
    case 'L':
        return va_arg(*list, unsigned long long);
    case 'z':
        return (unsigned long long)va_arg(*list, size_t);
    default:
        return va_arg(*list, unsigned);
    }
}

static void put_conversion(struct sink *sink, const struct conversion *c, va_list *list)
{
    const char letter = c->letter;
    if (letter == 's') {
        put_text(sink, c, va_arg(*list, const char *));
    } else if (letter == 'c') {
        put_padded(sink, c, (const char[]){(char)va_arg(*list, int)}, 1);
    } else if (letter == 'd' || letter == 'i') {
        put_signed(sink, c, next_signed(c, list));
    } else if (letter == 'u' || letter == 'x') {
        put_unsigned(sink, c, next_unsigned(c, list));
    } else if (letter == 'f' || letter == 'e' || letter == 'g') {
        put_real(sink, c, va_arg(*list, double));
    } else {
        put(sink, &letter, letter != '\0'); /* %% */
    }
}

static void write_all(struct sink *sink, const char *format, va_list *list)
{
    while (*format != '\0') {
        const size_t plain = strcspn(format, "%");
        put(sink, format, plain);
        format += plain;
        if (*format == '\0')
            return;
        format++;
        const struct conversion c = take_conversion(&format, list);
        put_conversion(sink, &c, list);
    }
}

int brake_text_format_list(char *text, size_t size, const char *format, va_list list)
{
    struct sink sink = {.text = text, .size = size};
    va_list copy;
    va_copy(copy, list);
    write_all(&sink, format, &copy);
    va_end(copy);
    if (size > 0)
        text[sink.used < size ? sink.used : size - 1] = '\0';
    return (int)sink.used;
}

int brake_text_format(char *text, size_t size, const char *format, ...)
{
    va_list list;
    va_start(list, format);
    const int length = brake_text_format_list(text, size, format, list);
    va_end(list);
    return length;
}

int brake_text_print_list(FILE *stream, const char *format, va_list list)
{
    struct sink sink = {.stream = stream};
    va_list copy;
    va_copy(copy, list);
    write_all(&sink, format, &copy);
    va_end(copy);
    return (int)sink.used;
}

int brake_text_print(FILE *stream, const char *format, ...)
{
    va_list list;
    va_start(list, format);
    const int length = brake_text_print_list(stream, format, list);
    va_end(list);
    return length;
}

/* ---- reading -------------------------------------------------------------------------------- */

enum {
    DIGITS = 300,
    ROOM = DIGITS + 32, /* for an exponent too */
    EXPONENT = 100000   /* beyond any double, with room for the digits */
};

size_t brake_text_number_length(const char *text)
{
    const char *at = text;
    at += *at == '+' || *at == '-';
    const size_t digits = strspn(at, "0123456789.");
    if (strspn(at, ".") == digits)
        return 0;
    at += digits;
    if (*at == 'e' || *at == 'E') {
        const size_t sign = at[1] == '+' || at[1] == '-';
        const size_t more = strspn(at + 1 + sign, "0123456789");
        at += more > 0 ? 1 + sign + more : 0;
    }
    return (size_t)(at - text);
}

static int exponent_of(const char *text, const char *end)
{
    const bool minus = *text == '-';
    int exponent = 0;
    for (text += *text == '+' || *text == '-'; text < end && exponent < EXPONENT; text++)
        exponent = 10 * exponent + (*text - '0');
    return minus ? -exponent : exponent;
}

/* strtod follows the locale at the point only: it gets the digits without one, the place of the
 * point in their exponent. */
bool brake_text_number(const char *text, size_t length, double *number)
{
    char digits[ROOM];
    const char *const end = text + length;
    size_t used = 0;
    int decimals = 0;
    int points = 0;
    if (length == 0 || length > DIGITS || brake_text_number_length(text) != length)
        return false;
    for (; text < end && *text != 'e' && *text != 'E'; text++) {
        decimals += points > 0 && *text != '.';
        points += *text == '.';
        if (*text != '.')
            digits[used++] = *text;
    }
    const int exponent = text < end ? exponent_of(text + 1, end) : 0;
    snprintf(digits + used, sizeof digits - used, "e%d", exponent - decimals);
    *number = strtod(digits, NULL);
    return points <= 1;
}
