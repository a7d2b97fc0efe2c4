/* SPDX-License-Identifier: MIT */
/* Messages of a status. */
#include <string.h>

#include "near.h"

#include "brake/status.h"

static void each_status_has_its_own_message(void **state)
{
    (void)state;
#define MESSAGE_IS_ITS_OWN(name, number, text)                                                     \
    assert_string_equal(brake_status_message(BRAKE_##name), text);
    BRAKE_STATUS_LIST(MESSAGE_IS_ITS_OWN)
#undef MESSAGE_IS_ITS_OWN
}

static void only_ok_is_zero_and_only_warnings_are_positive(void **state)
{
    (void)state;
#define SIGN_FOLLOWS_NAME(name, number, text)                                                      \
    assert_int_equal((number) > 0, #name[0] == 'W');                                               \
    assert_int_equal((number) < 0, #name[0] == 'E');
    BRAKE_STATUS_LIST(SIGN_FOLLOWS_NAME)
#undef SIGN_FOLLOWS_NAME
}

static void warnings_together_give_the_message_of_the_lowest_bit(void **state)
{
    (void)state;
    const int both = BRAKE_W_NOMINAL | BRAKE_W_ASSUMED;
    assert_string_equal(brake_status_message((enum brake_status)both),
                        brake_status_message(BRAKE_W_NOMINAL));
}

static void a_number_outside_the_list_is_called_unknown(void **state)
{
    (void)state;
    const char *unknown = brake_status_message((enum brake_status) - 1000);
    assert_string_equal(unknown, "unknown status");
    /* A bit that no warning uses. */
    assert_string_equal(brake_status_message((enum brake_status)(1 << 20)), unknown);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_status_has_its_own_message),
        cmocka_unit_test(only_ok_is_zero_and_only_warnings_are_positive),
        cmocka_unit_test(warnings_together_give_the_message_of_the_lowest_bit),
        cmocka_unit_test(a_number_outside_the_list_is_called_unknown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
