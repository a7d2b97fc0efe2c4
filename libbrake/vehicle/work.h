/* SPDX-License-Identifier: MIT */
/* What completing a vehicle works with; private to this folder.
 *
 * A rule offers a value for a quantity. It is taken when the file leaves the quantity out, or when
 * a reading it comes from was set afterwards; when the file gives both they must agree. */
#ifndef BRAKE_WORK_H
#define BRAKE_WORK_H

#include <stdbool.h>
#include <stddef.h>

#include "brake/catalogue.h"
#include "sections.h"
#include "recalculation.h"

struct work {
    struct brake_sheet *sheet;
    struct brake_vehicle *vehicle; /* that of the sheet */
    struct brake_error *error;     /* NULL: do not judge, only work out */
    const struct brake_places *places;
    bool *missing; /* NULL: refuse what is missing; else only note it, by index */
};

/* [-] by which two measurements of one thing may differ. */
extern const double work_agreement;

/* Index of the quantity at an offset in struct brake_vehicle. */
static inline int work_index(const struct work *w, size_t offset)
{
    return w->places->index[offset / sizeof(int)];
}

/* Index of the quantity of a member, with a `w` at hand; of an axle and of a load case by
 * number. */
#define INDEX(member) work_index(w, offsetof(struct brake_vehicle, member))
#define AXLE_INDEX(member, number)                                                                 \
    work_index(w, offsetof(struct brake_vehicle, axle) +                                           \
                      (size_t)(number) * sizeof(struct brake_axle_of_vehicle) +                    \
                      offsetof(struct brake_axle_of_vehicle, member))
#define LOAD_INDEX(member, number)                                                                 \
    work_index(w, offsetof(struct brake_vehicle, load) +                                           \
                      (size_t)(number) * sizeof(struct brake_load_lines) +                         \
                      offsetof(struct brake_load_lines, member))

/* Tells a fault; the first one found is kept. */
__attribute__((format(printf, 4, 5))) void work_refuse(struct work *w, enum brake_status status,
                                                       int index, const char *format, ...);

/* Row and place of a quantity. */
static inline const struct brake_quantity *work_row(const struct work *w, int index)
{
    return w->places->of[index].row;
}

static inline void *work_in(const struct work *w, int index)
{
    return (char *)w->vehicle + w->places->of[index].offset;
}

/* Where a real quantity is. */
static inline double *work_real(const struct work *w, int index)
{
    return work_in(w, index);
}

/* There, from whatever source; given by file or --set; there by itself, not worked out. */
bool work_given(const struct work *w, int index);
bool work_stated(const struct work *w, int index);
bool work_held(const struct work *w, int index);

/* A value [SI] of a quantity in words, with the unit of who wrote its line: inches for inches. */
struct work_words {
    char text[40];
};
struct work_words work_words(const struct work *w, int index, double value);

/* The first of two that is known. */
double work_or_else(double value, double other);

/* A value for `target` worked out from `sources`, the first of them the one to name. */
void work_offer(struct work *w, int target, double value, const int *sources, int count);

/* The same from all of an array of sources, with a `w` at hand. */
#define OFFER(target, value, sources) work_offer(w, target, value, sources, COUNT_OF(sources))

/* A rule of last resort, where no reading gives the quantity: a default that follows others. Where
 * its row has an interval, what the rule gives is uncertain by itself. */
void work_offer_default(struct work *w, int target, double value);

/* The uncertainty of a usual value, as its row has it. */
void work_tolerance_usual(const struct brake_quantity *row, double value,
                          struct brake_record *record);

/* A section that is left out repeats another. */
void work_repeat(struct work *w, int unused);

/* A stretch of struct brake_vehicle; of no size: none. */
struct work_stretch {
    size_t from;
    size_t size;
};

#define WORK_OF(member)                                                                            \
    {                                                                                              \
        offsetof(struct brake_vehicle, member), sizeof(((struct brake_vehicle *)0)->member)        \
    }

/* Sections, as bits, that begin in any of some stretches. */
unsigned long long work_sections(const struct work_stretch *at, int count);

/* Fills which sections each rule touches and writes to. */
void work_fill_rules(struct brake_places *places);

/* Sections, as bits, that may change when those change. */
unsigned long long work_following(const struct work *w, unsigned long long changed);

/* Sections, as bits, that may change with a quantity of the sheet that is made ready. */
unsigned long long work_reached(const struct brake_recalculation *recalculation, int index);

/* Every rule that touches sections that change: raw readings are reduced, defaults that follow
 * others filled in. */
void work_out(struct work *w, unsigned long long changed);

#define WORK_ALL (~0ULL)

/* Lines that have no place, or not without others: what does not change with a number. */
void work_verify_lines(struct work *w);

/* Lines that must be there. */
void work_verify_needs(struct work *w);

/* Numbers that contradict each other, in sections that changed. */
void work_verify_values(struct work *w, unsigned long long changed);

/* Fills which sections each verification of numbers looks at. */
void work_fill_verifications(struct brake_places *places);

#endif
