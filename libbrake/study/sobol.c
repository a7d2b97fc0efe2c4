/* SPDX-License-Identifier: MIT */
/* The Sobol sequence. In each dimension point i is the exclusive or of the direction numbers of the
 * ones in the Gray code of i; they follow from the first ones by the recurrence of the primitive
 * polynomial. A scramble is linear, so it is put into the direction numbers once and costs nothing
 * a point. */
#include "sobol.h"

#include "directions.h"

/* Direction numbers as fractions of 2^32. */
static void extend(const struct direction *d, uint32_t v[BRAKE_SOBOL_BITS])
{
    const int s = d->degree;
    for (int k = 0; k < BRAKE_SOBOL_BITS; k++) {
        if (k < s) {
            v[k] = (uint32_t)d->first[k] << (31 - k);
            continue;
        }
        v[k] = v[k - s] ^ (v[k - s] >> s);
        for (int j = 1; j < s; j++) {
            if ((d->coefficients >> (s - 1 - j) & 1) != 0)
                v[k] ^= v[k - j];
        }
    }
}

enum brake_status brake_sobol_plain(int dimensions, struct brake_sobol *sobol)
{
    if (dimensions < 0 || dimensions > BRAKE_SOBOL_DIMENSIONS)
        return BRAKE_E_RANGE;
    sobol->dimensions = dimensions;
    for (int k = 0; k < BRAKE_SOBOL_BITS; k++)
        sobol->direction[0][k] = UINT32_C(1) << (31 - k);
    for (int i = 1; i < dimensions; i++)
        extend(&brake_directions[i - 1], sobol->direction[i]);
    for (int i = 0; i < dimensions; i++)
        sobol->shift[i] = 0;
    return BRAKE_OK;
}

/* SplitMix64. */
static uint64_t draw(uint64_t *state)
{
    uint64_t z = *state += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

static uint32_t draw_word(uint64_t *state)
{
    return (uint32_t)(draw(state) >> 32);
}

/* Column k of the matrix has its one in row k and random digits below it. */
static void draw_matrix(uint64_t *state, uint32_t column[BRAKE_SOBOL_BITS])
{
    for (int k = 0; k < BRAKE_SOBOL_BITS; k++) {
        const uint32_t one = UINT32_C(1) << (31 - k);
        column[k] = one | (draw_word(state) & (one - 1));
    }
}

static uint32_t multiply(const uint32_t column[BRAKE_SOBOL_BITS], uint32_t digits)
{
    uint32_t product = 0;
    for (int k = 0; k < BRAKE_SOBOL_BITS; k++) {
        if ((digits >> (31 - k) & 1) != 0)
            product ^= column[k];
    }
    return product;
}

enum brake_status brake_sobol_scrambled(int dimensions, uint64_t seed, struct brake_sobol *sobol)
{
    uint64_t state = seed;
    uint32_t column[BRAKE_SOBOL_BITS];
    const enum brake_status status = brake_sobol_plain(dimensions, sobol);
    for (int i = 0; i < dimensions && status == BRAKE_OK; i++) {
        draw_matrix(&state, column);
        for (int k = 0; k < BRAKE_SOBOL_BITS; k++)
            sobol->direction[i][k] = multiply(column, sobol->direction[i][k]);
        sobol->shift[i] = draw_word(&state);
    }
    return status;
}

void brake_sobol_point(const struct brake_sobol *sobol, uint32_t index, double *point)
{
    const uint32_t gray = index ^ (index >> 1);
    for (int i = 0; i < sobol->dimensions; i++) {
        uint32_t digits = sobol->shift[i];
        for (int k = 0; k < BRAKE_SOBOL_BITS && gray >> k != 0; k++) {
            if ((gray >> k & 1) != 0)
                digits ^= sobol->direction[i][k];
        }
        point[i] = (double)digits * 0x1p-32;
    }
}

void brake_sobol_middle(const struct brake_sobol *sobol, uint32_t index, double *middle)
{
    brake_sobol_point(sobol, index, middle);
    for (int i = 0; i < sobol->dimensions; i++)
        middle[i] += 0x1p-33;
}
