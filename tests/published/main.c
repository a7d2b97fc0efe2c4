/* SPDX-License-Identifier: MIT */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "published.h"

int main(void)
{
    const struct CMUnitTest tests[] = {
#define PUBLISHED_ENTRY(name) cmocka_unit_test(name),
        PUBLISHED_CASES(PUBLISHED_ENTRY)
#undef PUBLISHED_ENTRY
        /* Last: it counts what the others checked. */
        cmocka_unit_test(every_row_is_checked_once),
    };
    return cmocka_run_group_tests(tests, read_check_values, drop_check_values);
}
