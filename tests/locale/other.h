/* SPDX-License-Identifier: MIT */
/* Locales with another decimal point than C's, made here: no machine has to have any. */
#ifndef TESTS_LOCALE_OTHER_H
#define TESTS_LOCALE_OTHER_H

#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Sets every category to a locale whose source stands in this folder; `point` is how it writes the
 * point of 1.5. localedef complains of the categories that the source leaves out, and ends with
 * 1. */
static inline void enter_locale(const char *name, const char *point)
{
    char folder[] = "/tmp/locale-XXXXXX";
    char command[600];
    char number[16];
    assert_non_null(mkdtemp(folder));
    snprintf(command, sizeof command,
             "localedef -c -f UTF-8 -i '%s/tests/locale/%s' %s/%s 2>/dev/null", SOURCE_ROOT, name,
             folder, name);
    (void)!system(command);
    assert_int_equal(setenv("LOCPATH", folder, 1), 0);
    assert_non_null(setlocale(LC_ALL, name));
    snprintf(command, sizeof command, "rm -r %s", folder);
    assert_int_equal(system(command), 0);
    assert_string_equal(localeconv()->decimal_point, point);
    snprintf(number, sizeof number, "%.1f", 1.5);
    assert_null(strchr(number, '.'));
}

#endif
