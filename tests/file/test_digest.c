/* SPDX-License-Identifier: MIT */
/* Digests. Source: NIST, Cryptographic Standards and Guidelines, example values for SHA-256 ("abc"
 * and the text of 448 bits); FIPS 180-2, appendix B.3 (a million letters a); all from memory, and
 * the same as hashlib.sha256 of Python 3.11 gives. */
#include "../model/near.h"

#include <string.h>

#include "file/digest.h"

static void assert_digest(const char *text, size_t times, const char *expected)
{
    struct brake_digest digest;
    char found[BRAKE_DIGEST_TEXT];
    brake_digest_begin(&digest);
    for (; times > 0; times--)
        brake_digest_add(&digest, text, strlen(text));
    brake_digest_end(&digest, found);
    assert_string_equal(found, expected);
}

static void published_texts_have_their_digests(void **state)
{
    (void)state;
    assert_digest("abc", 1, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    assert_digest("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", 1,
                  "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    assert_digest("a", 1000000, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
    assert_digest("", 1, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

static void texts_that_are_cut_elsewhere_differ(void **state)
{
    (void)state;
    struct brake_digest one;
    struct brake_digest other;
    char first[BRAKE_DIGEST_TEXT];
    char second[BRAKE_DIGEST_TEXT];
    brake_digest_begin(&one);
    brake_digest_add_text(&one, "ab");
    brake_digest_add_text(&one, "c");
    brake_digest_end(&one, first);
    brake_digest_begin(&other);
    brake_digest_add_text(&other, "a");
    brake_digest_add_text(&other, "bc");
    brake_digest_end(&other, second);
    assert_string_not_equal(first, second);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(published_texts_have_their_digests),
        cmocka_unit_test(texts_that_are_cut_elsewhere_differ),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
