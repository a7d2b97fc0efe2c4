/* SPDX-License-Identifier: MIT */
/* Groups of changes, and vehicles with only some of them made. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "brake/compare.h"
#include "brake/system.h"
#include "mixing.h"
#include "vehicle/sections.h"
#include "change.h"
#include "vehicle/system.h"

/* Group of every quantity: the first row that fits, of a section without "front." and "rear.". */
static const struct {
    const char *section;
    const char *name; /* NULL: all others of the section */
    enum brake_change change;
} members[] = {
    {"vehicle", "mass", BRAKE_CHANGE_MASS},
    {"vehicle", "front_share", BRAKE_CHANGE_CG},
    {"vehicle", "cg_height", BRAKE_CHANGE_CG},
    {"vehicle", "roof_height", BRAKE_CHANGE_CG},
    {"vehicle", "tyres", BRAKE_CHANGE_TYRE},
    {"vehicle", "tyre_grip", BRAKE_CHANGE_TYRE},
    {"vehicle", "unsprung_mass", BRAKE_CHANGE_CG}, /* counts in the rise of the centre only */
    {"vehicle", "wheelbase", BRAKE_CHANGE_GEOMETRY},
    {"vehicle", "rolling_resistance", BRAKE_CHANGE_TYRE},
    {"vehicle", "antilock", BRAKE_CHANGE_HYDRAULICS},
    {"vehicle", "antilock_efficiency", BRAKE_CHANGE_HYDRAULICS},
    {"vehicle", NULL, BRAKE_CHANGE_CONDITIONS},
    {"lift", NULL, BRAKE_CHANGE_CG},
    {"scales", NULL, BRAKE_CHANGE_MASS},
    {"tilt", NULL, BRAKE_CHANGE_CG},
    {"tester", NULL, BRAKE_CHANGE_CONDITIONS},
    {"axle", "brake", BRAKE_CHANGE_DRUM},
    {"axle", "wheels", BRAKE_CHANGE_TYRE},
    {"axle", "scrub_radius", BRAKE_CHANGE_GEOMETRY},
    {"axle", "track", BRAKE_CHANGE_GEOMETRY},
    {"axle", NULL, BRAKE_CHANGE_CONDITIONS},
    {"tyre", NULL, BRAKE_CHANGE_TYRE},
    {"disc", "effective_radius", BRAKE_CHANGE_ROTOR},
    {"disc", "rotor_mass", BRAKE_CHANGE_ROTOR},
    {"disc", "rotor", BRAKE_CHANGE_ROTOR},
    {"disc", "rotor_diameter", BRAKE_CHANGE_ROTOR},
    {"disc", "hat_mass", BRAKE_CHANGE_ROTOR},
    {"disc", NULL, BRAKE_CHANGE_CALIPER},
    {"disc.pads", "mu", BRAKE_CHANGE_PAD},
    {"disc.pads", "gap", BRAKE_CHANGE_PAD},
    {"disc.pads", "arc", BRAKE_CHANGE_PAD},
    {"disc.pads", "thickness", BRAKE_CHANGE_PAD},
    {"disc.pads", "friction", BRAKE_CHANGE_PAD},
    {"disc.pads", "fade", BRAKE_CHANGE_PAD},
    {"disc.pads", NULL, BRAKE_CHANGE_ROTOR}, /* they give the effective radius */
    {"drum", NULL, BRAKE_CHANGE_DRUM},
    {"drum.lining", NULL, BRAKE_CHANGE_DRUM}, /* friction and shape decide whether shoes grab */
    {"valve", NULL, BRAKE_CHANGE_HYDRAULICS},
    {"pedal", NULL, BRAKE_CHANGE_HYDRAULICS},
    {"booster", NULL, BRAKE_CHANGE_HYDRAULICS},
    {"master", NULL, BRAKE_CHANGE_HYDRAULICS},
    {"circuits", NULL, BRAKE_CHANGE_HYDRAULICS},
    {"parking", NULL, BRAKE_CHANGE_PARKING},
    {"driveline", NULL, BRAKE_CHANGE_DRIVELINE},
    {"speedometer", NULL, BRAKE_CHANGE_DRIVELINE},
    {"trailer", NULL, BRAKE_CHANGE_CONDITIONS},
    {"road", NULL, BRAKE_CHANGE_CONDITIONS},
    {"stop", NULL, BRAKE_CHANGE_CONDITIONS},
    {"drive", NULL, BRAKE_CHANGE_CONDITIONS},
    {"driver", NULL, BRAKE_CHANGE_CONDITIONS},
    {"heat", NULL, BRAKE_CHANGE_CONDITIONS},
    {"load.empty", "mass", BRAKE_CHANGE_MASS},
    {"load.empty", NULL, BRAKE_CHANGE_CG},
    {"load.full", "mass", BRAKE_CHANGE_MASS},
    {"load.full", NULL, BRAKE_CHANGE_CG},
    {"part", "mass", BRAKE_CHANGE_MASS},
    {"part", NULL, BRAKE_CHANGE_CG},
};

static const struct {
    const char *word, *meaning;
    const char *name; /* for people, where it is not the word itself */
} words[BRAKE_CHANGES] = {
    [BRAKE_CHANGE_TYRE] = {"tyre", "tyres and wheels", NULL},
    [BRAKE_CHANGE_MASS] = {"mass", "mass, that of parts and loads with it", NULL},
    [BRAKE_CHANGE_CG] = {"centre_of_gravity", "where the mass sits: lift, parts and loads with it",
                         "centre of gravity"},
    [BRAKE_CHANGE_GEOMETRY] = {"geometry", "wheelbase, track and scrub radius", NULL},
    [BRAKE_CHANGE_CALIPER] = {"caliper", "calipers and pistons", NULL},
    [BRAKE_CHANGE_ROTOR] = {"rotor", "rotors, and the radius at which the pads rub", NULL},
    [BRAKE_CHANGE_PAD] = {"pad", "friction, gap and thickness of the pads", NULL},
    [BRAKE_CHANGE_DRUM] = {"drum", "drums and shoes; all of an axle that changes disc for drum",
                           NULL},
    [BRAKE_CHANGE_HYDRAULICS] = {"hydraulics", "pedal, booster, master cylinder, valve, anti-lock",
                                 NULL},
    [BRAKE_CHANGE_PARKING] = {"parking", "parking brake", NULL},
    [BRAKE_CHANGE_DRIVELINE] = {"driveline", "axle gears, centre drive, speedometer", NULL},
    [BRAKE_CHANGE_CONDITIONS] = {"conditions", "driver, road, stop, ratings, rules, trailer", NULL},
};

const char *brake_change_word(enum brake_change change)
{
    return words[change].word;
}

const char *brake_change_name(enum brake_change change)
{
    return words[change].name != NULL ? words[change].name : words[change].word;
}

const char *brake_change_meaning(enum brake_change change)
{
    return words[change].meaning;
}

static const char *without_axle(const char *path)
{
    if (strncmp(path, "front.", 6) == 0)
        return path + 6;
    return strncmp(path, "rear.", 5) == 0 ? path + 5 : path;
}

enum brake_change brake_change_of(int index)
{
    const char *section = without_axle(brake_quantity_section(index)->path);
    const char *name = brake_quantity_at(index)->name;
    for (size_t i = 0; i < sizeof members / sizeof members[0]; i++) {
        if (strcmp(members[i].section, section) == 0 &&
            (members[i].name == NULL || strcmp(members[i].name, name) == 0))
            return members[i].change;
    }
    return BRAKE_CHANGES;
}

/* Where an axle changes disc for drum, a caliper without its rotor is no brake: all of it moves as
 * one. */
static enum brake_change moves_with(const struct brake_vehicle *before,
                                    const struct brake_vehicle *after, int index)
{
    const enum brake_belongs to = brake_quantity_section(index)->belongs;
    const int axle = to == BRAKE_REAR_DISC || to == BRAKE_REAR_DRUM;
    const bool other = before->axle[axle].axle.brake != after->axle[axle].axle.brake;
    return to != BRAKE_ALWAYS && other ? BRAKE_CHANGE_DRUM : brake_change_of(index);
}

/* ---- lift, parts and loads as mass and centre of gravity ------------------------------------- */

/* The centre of a load's lines is that of the whole load case here, so that one of a mixture lies
 * where that of one of the two vehicles does. */
static void fold(const struct brake_vehicle *vehicle, struct brake_vehicle *folded)
{
    const struct brake_body bare = brake_vehicle_bare(vehicle);
    struct brake_general_lines *g = &folded->general;
    *folded = *vehicle;
    folded->parts = 0;
    folded->lift.suspension = 0.0;
    folded->lift.wheel_rise = 0.0;
    g->mass = bare.mass;
    g->front_share = 1.0 - bare.behind / g->wheelbase;
    g->cg_height = bare.height;
    for (int load = 0; load < BRAKE_LOADS; load++) {
        const struct brake_body body = brake_vehicle_body(vehicle, (enum brake_load)load);
        folded->load[load].behind_front_axle = body.behind / g->wheelbase;
        folded->load[load].height = body.height;
    }
}

/* The load's own place again: with it the load case has its centre. */
static void unfold(struct brake_vehicle *vehicle)
{
    const struct brake_body bare = brake_vehicle_bare(vehicle);
    for (int i = 0; i < BRAKE_LOADS; i++) {
        struct brake_load_lines *load = &vehicle->load[i];
        const double mass = bare.mass + load->mass;
        const double behind = load->behind_front_axle * vehicle->general.wheelbase;
        if (!(load->mass > 0.0))
            continue;
        load->behind_front_axle = (mass * behind - bare.mass * bare.behind) / load->mass;
        load->height = (mass * load->height - bare.mass * bare.height) / load->mass;
    }
}

/* ---- what differs ---------------------------------------------------------------------------- */

/* Two ways to one number differ by rounding. */
bool brake_same_number(double a, double b)
{
    return (isnan(a) && isnan(b)) || fabs(a - b) <= 1e-12 * fmax(fabs(a), fabs(b));
}

static bool same_points(const struct brake_points *a, const struct brake_points *b)
{
    bool equal = a->count == b->count;
    for (int i = 0; i < a->count && equal; i++)
        equal =
            brake_same_number(a->at[i].x, b->at[i].x) && brake_same_number(a->at[i].y, b->at[i].y);
    return equal;
}

static bool same(const struct brake_vehicle *a, int at_a, const struct brake_vehicle *b, int at_b)
{
    const void *one = brake_quantity_seen(a, at_a);
    const void *other = brake_quantity_seen(b, at_b);
    switch (brake_quantity_at(at_a)->kind) {
    case BRAKE_REAL:
        return brake_same_number(*(const double *)one, *(const double *)other);
    case BRAKE_CURVE:
        return same_points(one, other);
    case BRAKE_TEXT:
        return strcmp(one, other) == 0;
    case BRAKE_CHOICE:
    case BRAKE_PISTONS:
        break;
    }
    return memcmp(one, other, brake_quantity_size(at_a)) == 0;
}

/* The first quantity of the parts, which come last. */
static int first_of_parts(void)
{
    return brake_catalogue_count() -
           BRAKE_PARTS * brake_section_at(brake_section_count() - 1)->count;
}

/* The model works with neither words nor raw readings. */
static bool works(int index)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    return q->kind != BRAKE_TEXT && q->role != BRAKE_RAW;
}

int brake_changes(const struct brake_vehicle *before, const struct brake_vehicle *after,
                  enum brake_change *change)
{
    struct brake_vehicle one;
    struct brake_vehicle other;
    bool differs[BRAKE_CHANGES] = {false};
    int count = 0;
    fold(before, &one);
    fold(after, &other);
    for (int line = 0; line < first_of_parts(); line++) {
        if (works(line) && !same(&one, line, &other, line))
            differs[moves_with(before, after, line)] = true;
    }
    for (int i = 0; i < BRAKE_CHANGES; i++) {
        if (differs[i])
            change[count++] = (enum brake_change)i;
    }
    return count;
}

void brake_mixing_begin(const struct brake_vehicle *before, const struct brake_vehicle *after,
                        struct brake_mixing *mixing)
{
    struct brake_mixing *m = mixing;
    m->moved = 0;
    fold(before, &m->before);
    fold(after, &m->after);
    for (int i = 0; i < first_of_parts(); i++) {
        const char *one = brake_quantity_in(&m->before, i);
        const char *other = brake_quantity_in(&m->after, i);
        if (memcmp(one, other, brake_quantity_size(i)) == 0)
            continue;
        m->move[m->moved].change = moves_with(before, after, i);
        m->move[m->moved].offset = (size_t)(one - (const char *)&m->before);
        m->move[m->moved].size = brake_quantity_size(i);
        m->moved++;
    }
}

void brake_mixing_make(const struct brake_mixing *mixing, unsigned changed,
                       struct brake_vehicle *vehicle)
{
    *vehicle = mixing->before;
    for (int i = 0; i < mixing->moved; i++) {
        const size_t offset = mixing->move[i].offset;
        if ((changed >> mixing->move[i].change & 1U) != 0)
            memcpy((char *)vehicle + offset, (const char *)&mixing->after + offset,
                   mixing->move[i].size);
    }
    unfold(vehicle);
}

void brake_vehicle_mix(const struct brake_vehicle *before, const struct brake_vehicle *after,
                       unsigned changed, struct brake_vehicle *vehicle)
{
    struct brake_mixing mixing;
    brake_mixing_begin(before, after, &mixing);
    brake_mixing_make(&mixing, changed, vehicle);
}

/* ---- lines of the files ---------------------------------------------------------------------- */

static bool given(const struct brake_sheet *sheet, int index)
{
    return index >= 0 && sheet->record[index].from > BRAKE_DEFAULT;
}

/* The same line of the other sheet; -1: a part that it does not have. */
static int counterpart(const struct brake_sheet *of, int index, const struct brake_sheet *in)
{
    char path[160];
    brake_catalogue_path(&of->vehicle, index, path, sizeof path);
    return index < first_of_parts() ? index : brake_catalogue_find(&in->vehicle, path);
}

int brake_changed_lines(const struct brake_sheet *before, const struct brake_sheet *after,
                        struct brake_changed_line *line)
{
    const struct brake_vehicle *one = &before->vehicle;
    const struct brake_vehicle *other = &after->vehicle;
    int count = 0;
    for (int i = 0; i < brake_catalogue_count(); i++) {
        const bool part = i >= first_of_parts();
        const int there = part && !given(before, i) ? -2 : counterpart(before, i, after);
        if (there == -1 ||
            (there >= 0 && (given(before, i) || given(after, there)) &&
             (given(before, i) != given(after, there) || !same(one, i, other, there))))
            line[count++] = (struct brake_changed_line){i, there};
    }
    for (int i = first_of_parts(); i < brake_catalogue_count(); i++) {
        if (given(after, i) && counterpart(after, i, before) < 0)
            line[count++] = (struct brake_changed_line){-1, i};
    }
    return count;
}

/* Sections that are one part of the vehicle: what holds for the lines of a brake that was changed
 * is not known of its pads either. Of the others each line stands for itself. */
const char *brake_part_of(int index)
{
    static const char *const parts[][2] = {{"front.disc", "front brake"},
                                           {"front.drum", "front brake"},
                                           {"rear.disc", "rear brake"},
                                           {"rear.drum", "rear brake"},
                                           {"front.tyre", "front tyre"},
                                           {"rear.tyre", "rear tyre"},
                                           {"booster", "booster"},
                                           {"master", "master"},
                                           {"pedal", "pedal"},
                                           {"valve", "valve"},
                                           {"parking", "parking"}};
    const char *section = brake_quantity_section(index)->path;
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        if (strncmp(section, parts[i][0], strlen(parts[i][0])) == 0)
            return parts[i][1];
    }
    return NULL;
}
