/* SPDX-License-Identifier: MIT */
/* Source: FIPS 180-4, Secure Hash Standard, sections 4.1.2, 4.2.2, 5.1.1, 5.3.3, 6.2. */
#include "digest.h"

#include <string.h>

#include "brake/file.h"
#include "vehicle/sections.h"
#include "vehicle/text.h"

/* Section 4.2.2: fractions of the cube roots of the first 64 primes. */
static const uint32_t constant[64] = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

static uint32_t turn(uint32_t word, int places)
{
    return word >> places | word << (32 - places);
}

/* Section 6.2.2. */
static void take_block(struct brake_digest *digest)
{
    uint32_t w[64];
    uint32_t s[8];
    memcpy(s, digest->state, sizeof s);
    for (size_t t = 0; t < 16; t++) {
        const unsigned char *at = digest->block + 4 * t;
        w[t] = (uint32_t)at[0] << 24 | (uint32_t)at[1] << 16 | (uint32_t)at[2] << 8 | at[3];
    }
    for (size_t t = 16; t < 64; t++) {
        const uint32_t low = turn(w[t - 15], 7) ^ turn(w[t - 15], 18) ^ w[t - 15] >> 3;
        const uint32_t high = turn(w[t - 2], 17) ^ turn(w[t - 2], 19) ^ w[t - 2] >> 10;
        w[t] = high + w[t - 7] + low + w[t - 16];
    }
    for (size_t t = 0; t < 64; t++) {
        const uint32_t choice = (s[4] & s[5]) ^ (~s[4] & s[6]);
        const uint32_t majority = (s[0] & s[1]) ^ (s[0] & s[2]) ^ (s[1] & s[2]);
        const uint32_t high = turn(s[4], 6) ^ turn(s[4], 11) ^ turn(s[4], 25);
        const uint32_t low = turn(s[0], 2) ^ turn(s[0], 13) ^ turn(s[0], 22);
        const uint32_t first = s[7] + high + choice + constant[t] + w[t];
        memmove(s + 1, s, 7 * sizeof *s);
        s[4] += first;
        s[0] = first + low + majority;
    }
    for (size_t i = 0; i < 8; i++)
        digest->state[i] += s[i];
}

void brake_digest_begin(struct brake_digest *digest)
{
    *digest = (struct brake_digest){.state = {0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                                              0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19}};
}

void brake_digest_add(struct brake_digest *digest, const void *bytes, size_t count)
{
    const unsigned char *at = bytes;
    for (; count > 0; count--) {
        digest->block[digest->bytes++ % sizeof digest->block] = *at++;
        if (digest->bytes % sizeof digest->block == 0)
            take_block(digest);
    }
}

void brake_digest_add_text(struct brake_digest *digest, const char *text)
{
    brake_digest_add(digest, text, strlen(text) + 1);
}

void brake_digest_add_vehicle(struct brake_digest *digest, const struct brake_sheet *sheet)
{
    for (int i = 0; i < brake_catalogue_count(); i++) {
        char path[160];
        char value[2048];
        if (sheet->record[i].from == BRAKE_ABSENT)
            continue;
        brake_catalogue_path(&sheet->vehicle, i, path, sizeof path);
        brake_value_write(&sheet->vehicle, i, value, sizeof value);
        brake_digest_add_text(digest, path);
        brake_digest_add_text(digest, value);
    }
}

/* Section 5.1.1: a bit of 1, zeros, and the length in bits fill the last block. */
void brake_digest_end(struct brake_digest *digest, char text[BRAKE_DIGEST_TEXT])
{
    const uint64_t bits = 8 * digest->bytes;
    unsigned char length[8];
    brake_digest_add(digest, "\x80", 1);
    while (digest->bytes % sizeof digest->block != sizeof digest->block - sizeof length)
        brake_digest_add(digest, "", 1);
    for (size_t i = 0; i < 8; i++)
        length[i] = (unsigned char)(bits >> (56 - 8 * i));
    brake_digest_add(digest, length, sizeof length);
    for (size_t i = 0; i < 8; i++)
        brake_text_format(text + 8 * i, 9, "%08x", (unsigned)digest->state[i]);
}

static void add_number(struct brake_digest *digest, double number)
{
    char text[32];
    brake_text_format(text, sizeof text, "%.12g", number);
    brake_digest_add_text(digest, text);
}

/* What was typed in other units is off by a last bit when it is written and read again. */
static void add_rounded(struct brake_digest *digest, const struct brake_vehicle *vehicle, int index)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    const void *at = brake_quantity_seen(vehicle, index);
    const struct brake_points *points = at;
    char value[2048];
    if (q->kind == BRAKE_REAL) {
        add_number(digest, *(const double *)at);
    } else if (q->kind == BRAKE_CURVE) {
        for (int i = 0; i < points->count; i++) {
            add_number(digest, points->at[i].x);
            add_number(digest, points->at[i].y);
        }
    } else if (q->kind != BRAKE_PISTONS) { /* whose numbers are lines of their own */
        brake_value_write(vehicle, index, value, sizeof value);
        brake_digest_add_text(digest, value);
    }
}

void brake_digest_vehicle(const struct brake_sheet *sheet, char text[BRAKE_DIGEST_TEXT])
{
    struct brake_digest digest;
    brake_digest_begin(&digest);
    for (int i = 0; i < brake_catalogue_count(); i++) {
        char path[160];
        if (sheet->record[i].from == BRAKE_ABSENT)
            continue;
        brake_catalogue_path(&sheet->vehicle, i, path, sizeof path);
        brake_digest_add_text(&digest, path);
        add_rounded(&digest, &sheet->vehicle, i);
    }
    brake_digest_end(&digest, text);
}
