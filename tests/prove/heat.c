/* SPDX-License-Identifier: MIT */
/* Entry point of the last parts of `make prove`: heat over time, for a wall of CELLS cells and a
 * material of POINTS points, with any numbers at all. By one brake at a time: several side by side
 * go through the same source, written with the types of wide registers, which the analysis cannot
 * read. */
#include "any.h"

#include "brake/thermal.h"
#include "model/advance_at.h"

#ifndef CELLS
#define CELLS BRAKE_WALL_CELLS
#define POINTS BRAKE_WALL_POINTS
#endif

/* Two side by side: as one, and then the other. */
void brake_advance_pair(struct brake_thermal_task *const *task, int count)
{
    for (int i = 0; i < count && i < 2; i++)
        brake_advance_alone(task + i, 1);
}

/* Any other is refused: brake_cooling_usable, which is asked for all of them. */
static enum brake_cooling_law law(void)
{
    return (enum brake_cooling_law)whole(0, BRAKE_COOLING_LAWS - 1);
}

static struct brake_thermal_spec spec;
static struct brake_thermal brake;
static struct brake_thermal_state state;

static void advance_once(void)
{
    const struct brake_thermal_drive drive = {any(), any(), any(), any(), any()};
    brake_thermal_advance(&brake, &drive, any(), &state);
}

int main(void)
{
    Frama_C_make_unknown((char *)&spec, sizeof spec);
    spec.cells = CELLS;
    spec.material.points = POINTS;
    spec.front.law = law();
    spec.back.law = law();
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++)
        spec.part[i].cooling.law = law();
    if (brake_thermal_build(&spec, &brake) != BRAKE_OK)
        return 0;
    brake_thermal_start(&brake, any(), &state);
    advance_once();
    brake_thermal_stored(&brake, &state);
    brake_thermal_residual(&brake, &state);
    brake_thermal_face(&brake, &state);
    brake_thermal_face_under(&brake, &state, any(), any(), any());
    brake_thermal_mean(&brake, &state);
    brake_thermal_cell(&brake, &state, whole(-1, CELLS));
    brake_material_at(&spec.material, any());
    const enum brake_fluid_kind fluid = (enum brake_fluid_kind)whole(0, BRAKE_FLUID_KINDS - 1);
    brake_thermal_fluid_margin(&brake, &state, brake_fluid_boiling(fluid, whole(0, 1)));
    brake_thermal_part(&brake, &state, (enum brake_part)whole(-1, 9));
    return 0;
}
