/* SPDX-License-Identifier: MIT */
#include "letters.h"

#include <string.h>

/* RFC 3629, section 4: longer forms of a letter, halves of UTF-16 pairs and what lies beyond the
 * last letter only look like UTF-8. */
int brake_letter(const char *text, unsigned *code)
{
    static const struct {
        unsigned mask, head;
        unsigned least; /* code of this length */
    } forms[] = {{0x80, 0x00, 0x0}, {0xe0, 0xc0, 0x80}, {0xf0, 0xe0, 0x800}, {0xf8, 0xf0, 0x10000}};
    const unsigned char *at = (const unsigned char *)text;
    int more = 0;
    while (more < 4 && (at[0] & forms[more].mask) != forms[more].head)
        more++;
    if (more == 4)
        return 0;
    *code = at[0] & ~forms[more].mask;
    for (int i = 1; i <= more; i++) {
        if ((at[i] & 0xc0) != 0x80)
            return 0;
        *code = *code << 6 | (at[i] & 0x3f);
    }
    if (*code < forms[more].least || (*code >= 0xd800 && *code <= 0xdfff) || *code > 0x10ffff)
        return 0;
    return more + 1;
}

int brake_letter_small(char letter)
{
    return letter >= 'A' && letter <= 'Z' ? letter - 'A' + 'a' : letter;
}

bool brake_text_alike(const char *one, const char *other, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        if (brake_letter_small(one[i]) != brake_letter_small(other[i]))
            return false;
        if (one[i] == '\0')
            break;
    }
    return true;
}

size_t brake_text_mark(const char *text)
{
    static const char mark[] = "\xef\xbb\xbf";
    const size_t length = sizeof mark - 1;
    return strncmp(text, mark, length) == 0 ? length : 0;
}

bool brake_letter_steers(unsigned code)
{
    static const struct {
        unsigned first, last;
    } steering[] = {{0x00, 0x08},     {0x0a, 0x1f},     {0x7f, 0x9f},    {0x61c, 0x61c},
                    {0x200e, 0x200f}, {0x2028, 0x202e}, {0x2066, 0x2069}};
    for (size_t i = 0; i < sizeof steering / sizeof steering[0]; i++) {
        if (code >= steering[i].first && code <= steering[i].last)
            return true;
    }
    return false;
}

bool brake_text_is_plain(const char *text)
{
    while (*text != '\0') {
        unsigned code;
        const int length = brake_letter(text, &code);
        if (length == 0 || brake_letter_steers(code))
            return false;
        text += length;
    }
    return true;
}

void brake_text_make_plain(char *text)
{
    char *to = text;
    while (*text != '\0') {
        unsigned code;
        const int length = brake_letter(text, &code);
        if (*text == '\t') {
            *to++ = ' ';
        } else if (length == 0 || brake_letter_steers(code)) {
            *to++ = '?';
        } else {
            memmove(to, text, (size_t)length);
            to += length;
        }
        text += length > 0 ? length : 1;
    }
    *to = '\0';
}
