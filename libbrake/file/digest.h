/* SPDX-License-Identifier: MIT */
/* A digest tells whether two inputs are the same: SHA-256 of FIPS 180-4. Private to the library. */
#ifndef BRAKE_DIGEST_H
#define BRAKE_DIGEST_H

#include <stddef.h>
#include <stdint.h>

#include "brake/catalogue.h"

enum { BRAKE_DIGEST_TEXT = 65 /* bytes of a digest in words, with its end */ };

struct brake_digest {
    uint32_t state[8];
    unsigned char block[64];
    uint64_t bytes;
};

void brake_digest_begin(struct brake_digest *digest);
void brake_digest_add(struct brake_digest *digest, const void *bytes, size_t count);

/* A text with its end, so that "ab" and "c" are not "a" and "bc". */
void brake_digest_add_text(struct brake_digest *digest, const char *text);

/* Every value of a vehicle that is known, by its path, as it is written. */
void brake_digest_add_vehicle(struct brake_digest *digest, const struct brake_sheet *sheet);

/* The digest of a vehicle alone, of its values in 12 digits. */
void brake_digest_vehicle(const struct brake_sheet *sheet, char text[BRAKE_DIGEST_TEXT]);

/* Ends it; fills its 64 hexadecimal digits. */
void brake_digest_end(struct brake_digest *digest, char text[BRAKE_DIGEST_TEXT]);

#endif
