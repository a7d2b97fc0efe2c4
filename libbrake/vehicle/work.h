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

struct work {
    struct brake_sheet *sheet;
    struct brake_vehicle *vehicle; /* that of the sheet */
    struct brake_error *error;     /* NULL: do not judge, only work out */
};

/* [-] by which two measurements of one thing may differ. */
extern const double work_agreement;

/* Index of the quantity of a member; of an axle and of a load case by number. */
int work_axle_index(size_t offset_in_axle, int axle);
int work_load_index(size_t offset_in_load, int load);

#define INDEX(member) brake_catalogue_index(offsetof(struct brake_vehicle, member))
#define AXLE_INDEX(member, axle)                                                                   \
    work_axle_index(offsetof(struct brake_axle_of_vehicle, member), axle)
#define LOAD_INDEX(member, load) work_load_index(offsetof(struct brake_load_lines, member), load)

/* Tells a fault; the first one found is kept. */
__attribute__((format(printf, 4, 5))) void work_refuse(struct work *w, enum brake_status status,
                                                       int index, const char *format, ...);

/* Where a real quantity is. */
double *work_real(struct work *w, int index);

/* There, from whatever source; given by file or --set; there by itself, not worked out. */
bool work_given(const struct work *w, int index);
bool work_stated(const struct work *w, int index);
bool work_held(const struct work *w, int index);

/* An SI value in the unit that its quantity is shown in. */
double work_shown(int index, double value);

/* The first of two that is known. */
double work_or_else(double value, double other);

/* A value for `target` worked out from `sources`, the first of them the one to name. */
void work_offer(struct work *w, int target, double value, const int *sources, int count);

/* A rule of last resort, where no reading gives the quantity: a default that follows others. */
void work_offer_default(struct work *w, int target, double value);

/* Whether the brake that a section describes is the one fitted. */
bool work_belongs(const struct brake_vehicle *vehicle, const struct brake_section *section);

/* Every rule once: raw readings are reduced, defaults that follow others filled in. */
void work_reduce(struct work *w);

/* Needs and contradictions. */
void work_verify(struct work *w);

#endif
