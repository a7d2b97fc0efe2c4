/* SPDX-License-Identifier: MIT */
/* Customary sizes: common practice, no source, where nothing else is said. */
#include "parts.h"

#include <math.h>
#include <string.h>

#include "brake/thermal.h"
#include "vehicle/sections.h"
#include "vehicle/text.h"

#define INCH 0.0254

/* What a part is, and the line that its size stands in. */
struct part_row {
    enum brake_repair_class takes;
    const char *path;
    const char *words; /* with one %s for the size */
    const double *size;
    int sizes;
    bool of_now;        /* sizes are multiples of what is fitted */
    double least, most; /* [-] of what is fitted, between which a size goes onto the same part */
    const char *also[BRAKE_REPAIR_SETTINGS - 1]; /* lines that grow with it: all pistons of a
                                                    caliper, a rotor with its pads */
};

/* 5/8 to 1 1/4 in. */
static const double bores[] = {10.0 / 16.0 * INCH, 11.0 / 16.0 * INCH, 12.0 / 16.0 * INCH,
                               13.0 / 16.0 * INCH, 14.0 / 16.0 * INCH, 15.0 / 16.0 * INCH,
                               16.0 / 16.0 * INCH, 17.0 / 16.0 * INCH, 18.0 / 16.0 * INCH,
                               20.0 / 16.0 * INCH};
static const double pistons[] = {0.034, 0.036, 0.038, 0.0405, 0.043, 0.045, 0.048, 0.051,
                                 0.054, 0.057, 0.060, 0.0635, 0.066, 0.070, 0.073};
static const double frictions[] = {0.40, 0.45, 0.50}; /* middles of codes FF, FF to GG, GG */
static const double further[] = {1.05, 1.10, 1.15};
static const double knees[] = {15e5, 20e5, 30e5, 40e5, 50e5, 60e5, 80e5};
static const double assists[] = {1.25, 1.5};
static const double leverages[] = {1.15, 1.3, 1.5, 1.75};
static const double pedals[] = {4.0, 5.0, 6.0};
static const double adjusted[] = {0.0008};

#define LIST(values) (values), (int)(sizeof(values) / sizeof((values)[0]))

static const struct part_row parts[] = {
    {.takes = BRAKE_REPAIR_ADJUST,
     "front.drum.piston_travel",
     "front shoes set to %s of piston travel",
     LIST(adjusted),
     false,
     0.0,
     0.95},
    {.takes = BRAKE_REPAIR_ADJUST,
     "rear.drum.piston_travel",
     "rear shoes set to %s of piston travel",
     LIST(adjusted),
     false,
     0.0,
     0.95},
    {.takes = BRAKE_REPAIR_WEARING,
     "front.disc.pads.mu",
     "front pads of friction %s",
     LIST(frictions),
     false,
     1.02,
     1.6},
    {.takes = BRAKE_REPAIR_WEARING,
     "rear.disc.pads.mu",
     "rear pads of friction %s",
     LIST(frictions),
     false,
     1.02,
     1.6},
    {.takes = BRAKE_REPAIR_BORE,
     "front.drum.cylinder_diameter",
     "%s front wheel cylinders",
     LIST(bores),
     false,
     0.75,
     1.35},
    {.takes = BRAKE_REPAIR_BORE,
     "rear.drum.cylinder_diameter",
     "%s rear wheel cylinders",
     LIST(bores),
     false,
     0.75,
     1.35},
    {.takes = BRAKE_REPAIR_BORE,
     "master.bore",
     "a %s master cylinder",
     LIST(bores),
     false,
     0.75,
     1.35},
    {.takes = BRAKE_REPAIR_BORE,
     "pedal.ratio",
     "a pedal of ratio %s",
     LIST(pedals),
     false,
     1.05,
     4.0},
    {.takes = BRAKE_REPAIR_BORE,
     "booster.assist",
     "a booster of %s the assist",
     LIST(assists),
     true,
     1.0,
     2.0},
    {.takes = BRAKE_REPAIR_BORE,
     "parking.ratio",
     "a parking lever and arms of %s the ratio",
     LIST(leverages),
     true,
     1.0,
     2.0},
    {.takes = BRAKE_REPAIR_BORE,
     "parking.torque",
     "a parking lever and arms of %s the ratio",
     LIST(leverages),
     true,
     1.0,
     2.0},
    {.takes = BRAKE_REPAIR_BORE,
     "valve.knee",
     "a rear valve that opens at %s",
     LIST(knees),
     false,
     0.1,
     10.0},
    {BRAKE_REPAIR_BRAKE,
     "front.disc.piston_diameter",
     "front calipers with %s pistons",
     LIST(pistons),
     false,
     0.6,
     1.5,
     {"front.disc.piston_diameter_2", "front.disc.piston_diameter_3"}},
    {BRAKE_REPAIR_BRAKE,
     "rear.disc.piston_diameter",
     "rear calipers with %s pistons",
     LIST(pistons),
     false,
     0.6,
     1.5,
     {"rear.disc.piston_diameter_2", "rear.disc.piston_diameter_3"}},
    {BRAKE_REPAIR_BRAKE,
     "front.disc.effective_radius",
     "front rotors that put the pads %s as far out",
     LIST(further),
     true,
     1.0,
     1.2,
     {"front.disc.rotor_diameter"}},
    {BRAKE_REPAIR_BRAKE,
     "rear.disc.effective_radius",
     "rear rotors that put the pads %s as far out",
     LIST(further),
     true,
     1.0,
     1.2,
     {"rear.disc.rotor_diameter"}}};

enum { PARTS = sizeof parts / sizeof parts[0], FLUID = PARTS, VALVE, BYPASS, BOOSTER, CIRCUITS };

/* Room for what is chosen: valves, or a bypass; circuits, a booster. */
enum { CHOSEN = sizeof knees / sizeof knees[0] + 2 };

/* ---- one offer ------------------------------------------------------------------------------ */

static void set(struct brake_repair_change *change, const char *path, double value)
{
    change->line[change->settings] = brake_catalogue_find(NULL, path);
    change->value[change->settings++] = value;
}

static void name_size(const struct part_row *part, double size, char *words, size_t room)
{
    char told[32];
    const int line = brake_catalogue_find(NULL, part->path);
    const enum brake_dimension dimension = brake_quantity_at(line)->dimension;
    if (part->of_now)
        brake_text_format(told, sizeof told, "%.2f times", size);
    else if (dimension == BRAKE_LENGTH)
        brake_text_format(told, sizeof told, "%.1f mm", 1000.0 * size);
    else if (dimension == BRAKE_PRESSURE)
        brake_text_format(told, sizeof told, "%.0f bar", 1e-5 * size);
    else
        brake_text_format(told, sizeof told, "%.2f", size);
    const char *gap = part->words;
    while (gap[0] != '%')
        gap++;
    brake_text_format(words, room, "%.*s%s%s", (int)(gap - part->words), part->words, told,
                      gap + 2);
}

static void follow(const struct brake_vehicle *vehicle, const struct part_row *part, double ratio,
                   struct brake_repair_change *change)
{
    for (int i = 0; i < BRAKE_REPAIR_SETTINGS - 1 && part->also[i] != NULL; i++) {
        const double now = brake_quantity_value(vehicle, brake_catalogue_find(NULL, part->also[i]));
        if (now > 0.0)
            set(change, part->also[i], ratio * now);
    }
}

/* The sizes of a part: those of the person's own list, else the customary ones. */
static int sizes_of(const struct brake_sheet *sheet, const struct part_row *part,
                    double size[BRAKE_OWN_SIZES])
{
    const int line = brake_catalogue_find(NULL, part->path);
    int own = 0;
    for (int i = 0; i < sheet->own.count; i++) {
        if (sheet->own.line[i] == line)
            size[own++] = sheet->own.value[i];
    }
    for (int i = 0; own == 0 && i < part->sizes; i++)
        size[i] = part->size[i];
    return own > 0 ? own : part->sizes;
}

static int add_sizes(const struct brake_sheet *sheet, int place,
                     struct brake_part_offer offer[BRAKE_PARTS_OFFERED], int count)
{
    const struct brake_vehicle *vehicle = &sheet->vehicle;
    const struct part_row *part = &parts[place];
    const double now = brake_quantity_value(vehicle, brake_catalogue_find(NULL, part->path));
    double listed[BRAKE_OWN_SIZES];
    const int sizes = sizes_of(sheet, part, listed);
    for (int i = 0; i < sizes && count < BRAKE_PARTS_OFFERED - CHOSEN; i++) {
        const double size = part->of_now ? listed[i] * now : listed[i];
        const double ratio = size / now;
        if (!(ratio >= part->least && ratio <= part->most) || fabs(ratio - 1.0) < 0.01)
            continue;
        struct brake_part_offer *one = &offer[count++];
        *one = (struct brake_part_offer){
            .change.takes = part->takes, .place = place, .far = fabs(log(ratio))};
        name_size(part, listed[i], one->change.words, sizeof one->change.words);
        set(&one->change, part->path, size);
        follow(vehicle, part, ratio, &one->change);
    }
    return count;
}

/* ---- parts that are chosen ------------------------------------------------------------------ */

/* There is room: sizes leave it. */
static struct brake_repair_change *add(struct brake_part_offer *offer, int *count, int place,
                                       enum brake_repair_class takes, const char *words)
{
    struct brake_part_offer *one = &offer[(*count)++];
    *one = (struct brake_part_offer){.change.takes = takes, .place = place, .far = 0.5};
    brake_text_format(one->change.words, sizeof one->change.words, "%s", words);
    return &one->change;
}

static void add_fluid(const struct brake_vehicle *vehicle, struct brake_part_offer *offer,
                      int *count)
{
    const enum brake_repair_class takes = BRAKE_REPAIR_WEARING;
    if (vehicle->heat.fluid == BRAKE_DOT_3)
        set(add(offer, count, FLUID, takes, "DOT 4 fluid"), "heat.fluid", BRAKE_DOT_4);
    if (vehicle->heat.fluid == BRAKE_DOT_3 || vehicle->heat.fluid == BRAKE_DOT_4)
        set(add(offer, count, FLUID, takes, "DOT 5.1 fluid"), "heat.fluid", BRAKE_DOT_5_1);
}

/* Valves that let a third through above their knee, where none is fitted. */
static void add_valves(struct brake_part_offer *offer, int *count)
{
    for (size_t i = 0; i < sizeof knees / sizeof knees[0]; i++) {
        char words[BRAKE_REPAIR_WORDS];
        brake_text_format(words, sizeof words, "a rear valve that opens at %.0f bar",
                          1e-5 * knees[i]);
        struct brake_repair_change *change = add(offer, count, VALVE, BRAKE_REPAIR_BORE, words);
        set(change, "valve.kind", BRAKE_VALVE_FIXED);
        set(change, "valve.knee", knees[i]);
        set(change, "valve.slope", 0.35);
    }
}

/* An 8 in diaphragm less its rim, at 63 kPa, gives 1500 N. */
static void add_booster(struct brake_part_offer *offer, int *count)
{
    struct brake_repair_change *change =
        add(offer, count, BOOSTER, BRAKE_REPAIR_BORE, "an 8 in vacuum booster");
    set(change, "booster.booster", BRAKE_BOOSTER_VACUUM);
    set(change, "booster.gain", 4.0);
    set(change, "booster.assist", 1500.0);
}

static void add_hydraulics(const struct brake_vehicle *vehicle, struct brake_part_offer *offer,
                           int *count)
{
    const enum brake_repair_class takes = BRAKE_REPAIR_BORE;
    if (vehicle->valve.kind == BRAKE_VALVE_NONE)
        add_valves(offer, count);
    else if (vehicle->valve.kind != BRAKE_VALVE_EBD && vehicle->valve.bypass == BRAKE_NONE)
        set(add(offer, count, BYPASS, takes, "a rear valve with a bypass"), "valve.bypass",
            BRAKE_FITTED);
    if (vehicle->circuits.split == BRAKE_SPLIT_ONE)
        set(add(offer, count, CIRCUITS, takes, "a second circuit (tandem master cylinder)"),
            "circuits.split", BRAKE_SPLIT_II);
    if (vehicle->booster.booster == BRAKE_BOOSTER_NONE)
        add_booster(offer, count);
}

/* ---- all ------------------------------------------------------------------------------------ */

/* A parking brake of known levers has its ratio changed, one known by its pull its torque. */
static bool is_told_otherwise(const struct brake_vehicle *vehicle, const char *path)
{
    return strcmp(path, "parking.torque") == 0 && isfinite(vehicle->parking.ratio);
}

static bool is_fitted(const struct brake_vehicle *vehicle, const char *path)
{
    const int line = brake_catalogue_find(NULL, path);
    return brake_section_belongs(vehicle, brake_quantity_section(line)) &&
           isfinite(brake_quantity_value(vehicle, line));
}

bool brake_parts_sized(int line)
{
    for (int i = 0; i < PARTS; i++) {
        if (!parts[i].of_now && brake_catalogue_find(NULL, parts[i].path) == line)
            return true;
    }
    return false;
}

int brake_parts_offered(const struct brake_sheet *sheet,
                        struct brake_part_offer offer[BRAKE_PARTS_OFFERED])
{
    const struct brake_vehicle *vehicle = &sheet->vehicle;
    int count = 0;
    add_fluid(vehicle, offer, &count);
    for (int i = 0; i < PARTS; i++) {
        if (is_fitted(vehicle, parts[i].path) && !is_told_otherwise(vehicle, parts[i].path))
            count = add_sizes(sheet, i, offer, count);
    }
    add_hydraulics(vehicle, offer, &count);
    return count;
}

int brake_parts_best_fluid(const struct brake_part_offer *offer, int offers)
{
    int best = -1;
    for (int i = 0; i < offers; i++)
        best = offer[i].place == FLUID ? i : best;
    return best;
}
