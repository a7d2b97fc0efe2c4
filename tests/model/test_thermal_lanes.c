/* SPDX-License-Identifier: MIT */
/* Heat in brakes side by side: to the bit what it is alone, whoever is beside. */
#include "near.h"

#include <stdbool.h>
#include <string.h>

#include "model/thermal_lanes.h"

enum { BRAKES = 11, DRIVES = 40 };

static const double START = 330.0;

static struct brake_cooling any_cooling(struct cases *cases, double area)
{
    const enum brake_cooling_law law =
        (enum brake_cooling_law)any_between(cases, 0.0, BRAKE_COOLING_LAWS);
    const bool none = any_between(cases, 0.0, 1.0) < 0.2;
    return (struct brake_cooling){.law = law,
                                  .area = none ? 0.0 : any_between(cases, 0.5, 1.5) * area,
                                  .emissivity = any_between(cases, 0.0, 1.0),
                                  .still = any_between(cases, 0.0, 1.0) < 0.5 ? 0.0 : 3.0,
                                  .factor = any_between(cases, 0.3, 1.0),
                                  .exponent = any_between(cases, 0.5, 1.0),
                                  .diameter = any_between(cases, 0.1, 0.35),
                                  .rolling_radius = any_between(cases, 0.25, 0.4),
                                  .vanes = {0.09, any_between(cases, 0.12, 0.17), 0.006, 0.009,
                                            any_between(cases, 0.01, 0.02)}};
}

static struct brake_material any_material(struct cases *cases)
{
    struct brake_material material = {.points = (int)any_between(cases, 1.0, 9.0),
                                      .density = any_between(cases, 6500.0, 7800.0)};
    for (int i = 0; i < material.points; i++) {
        material.temperature[i] = 310.0 + 60.0 * i + any_between(cases, 0.0, 20.0);
        material.conductivity[i] = any_between(cases, 35.0, 60.0);
        material.heat_capacity[i] = 420.0 + 40.0 * i + any_between(cases, 0.0, 20.0);
    }
    return material;
}

static void any_brake(struct cases *cases, int cells, struct brake_thermal *brake)
{
    struct brake_thermal_spec spec = {.material = any_material(cases),
                                      .area = any_between(cases, 0.04, 0.12),
                                      .thickness = any_between(cases, 0.006, 0.014),
                                      .cells = cells,
                                      .ratio = any_between(cases, 1.0, 1.3),
                                      .share = 1.0,
                                      .contact = any_between(cases, 10.0, 100.0),
                                      .front = any_cooling(cases, 0.08),
                                      .back = any_cooling(cases, 0.15),
                                      .pressure = BRAKE_ATMOSPHERE,
                                      .tolerance = any_between(cases, 0.01, 0.5)};
    for (int i = 0; i < BRAKE_THERMAL_PARTS; i++)
        spec.part[i] = (struct brake_lump){any_between(cases, 80.0, 4000.0),
                                           any_between(cases, 0.2, 12.0), any_cooling(cases, 0.02)};
    if (any_between(cases, 0.0, 1.0) < 0.3)
        spec.part[BRAKE_PART_PISTON].capacity = 0.0;
    assert_int_equal(brake_thermal_build(&spec, brake), BRAKE_OK);
}

/* Snubs and ways between them, some of no length; few melt the wall, and are refused. */
static void any_task(struct cases *cases, struct brake_thermal_task *task)
{
    const bool braked = any_between(cases, 0.0, 1.0) < 0.5;
    const double power = braked ? any_between(cases, 1e3, 4e4) : 0.0;
    const double kind = any_between(cases, 0.0, 1.0);
    task->drive = (struct brake_thermal_drive){.power_begin = power,
                                               .power_end = 0.5 * power,
                                               .speed_begin = any_between(cases, 0.0, 40.0),
                                               .speed_end = any_between(cases, 0.0, 40.0),
                                               .air = any_between(cases, 270.0, 310.0)};
    task->duration = any_between(cases, 0.01, braked ? 4.0 : 60.0);
    if (kind < 0.05)
        task->duration = 0.0;
    else if (kind < 0.1)
        task->drive.power_begin = 1e9;
    else if (kind < 0.15)
        task->drive.air = BRAKE_NAN;
}

static void start(struct cases *cases, int cells, struct brake_thermal brake[BRAKES],
                  struct brake_thermal_state state[BRAKES])
{
    for (int i = 0; i < BRAKES; i++) {
        any_brake(cases, cells > 0 ? cells : 5 + i / 3, &brake[i]);
        assert_int_equal(brake_thermal_start(&brake[i], START, &state[i]), BRAKE_OK);
    }
}

static void alone(const struct brake_thermal_task *task, struct brake_thermal_state *state,
                  enum brake_status *status)
{
    *status = brake_thermal_advance(task->brake, &task->drive, task->duration, state);
}

/* `count` of the brakes side by side, in an order that changes with `turn`, and each alone. */
static void hold_together(struct cases *cases, int count, int turn,
                          const struct brake_thermal brake[BRAKES],
                          struct brake_thermal_state state[BRAKES])
{
    struct brake_thermal_state single[BRAKES];
    struct brake_thermal_task task[BRAKES];
    memcpy(single, state, sizeof single);
    for (int i = 0; i < count; i++) {
        const int which = (turn + 3 * i) % BRAKES; /* 3 and 11 have no common factor */
        task[i] = (struct brake_thermal_task){.brake = &brake[which], .state = &state[which]};
        any_task(cases, &task[i]);
    }
    brake_thermal_advance_all(task, count);
    for (int i = 0; i < count; i++) {
        enum brake_status status;
        const int which = (turn + 3 * i) % BRAKES;
        alone(&task[i], &single[which], &status);
        assert_int_equal(task[i].status, status);
    }
    assert_memory_equal(single, state, sizeof single);
}

static void hold_with(int cells, uint64_t seed)
{
    static struct brake_thermal brake[BRAKES];
    static struct brake_thermal_state state[BRAKES];
    struct cases cases = {seed};
    start(&cases, cells, brake, state);
    for (int turn = 0; turn < DRIVES; turn++)
        hold_together(&cases, 1 + turn % BRAKES, turn, brake, state);
    for (int i = 0; i < BRAKES; i++)
        assert_true(state[i].steps > 0 && state[i].face > 270.0);
}

static void company_does_not_change_a_bit(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= 10; seed++)
        hold_with(24, seed);
    hold_with(1, 11);
    hold_with(2, 12);
    hold_with(64, 13);
}

static void brakes_of_different_walls_go_together(void **state)
{
    (void)state;
    hold_with(0, 14);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(company_does_not_change_a_bit),
        cmocka_unit_test(brakes_of_different_walls_go_together),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
