/* SPDX-License-Identifier: MIT */
/* Of `make prove`: a braking over time, each of its functions from any state that the one before
 * may have left, by one vehicle at a time. Heat is looked at by itself: here it answers anything.
 * The source is read as a part of this file, since what is asked is static. */
#include "any.h"

#include "model/braking.c"

/* The analyser wants them as numbers: tests/prove/sizes. */
_Static_assert(BRAKE_AXLES == 2 && CORNERS == 16 && BRAKE_TOGETHER == 8, "as they stand in sizes");
_Static_assert(PIECES == 6 && EVEN_PIECES == 4, "as they stand in sizes");

void brake_thermal_advance_all(struct brake_thermal_task *task, int count)
{
    for (int i = 0; i < count; i++) {
        task[i].state->face = any();
        task[i].status = whole(0, 1) ? BRAKE_OK : BRAKE_E_RANGE;
    }
}

double brake_thermal_face_under(const struct brake_thermal *brake,
                                const struct brake_thermal_state *state, double power, double speed,
                                double air)
{
    (void)brake, (void)state, (void)power, (void)speed, (void)air;
    return any();
}

double brake_thermal_part(const struct brake_thermal *brake,
                          const struct brake_thermal_state *state, enum brake_part part)
{
    (void)brake, (void)state, (void)part;
    return any();
}

double brake_thermal_mean(const struct brake_thermal *brake,
                          const struct brake_thermal_state *state)
{
    (void)brake, (void)state;
    return any();
}

static struct brake_rig rig;
static struct brake_friction friction;
static struct brake_thermal thermal;
static struct brake_braking braking;
static struct brake_outcome outcome;
static struct lane lane;

static void any_friction(void)
{
    Frama_C_make_unknown((char *)&friction, sizeof friction);
    friction.temperature.points = whole(0, BRAKE_CURVE_POINTS);
    friction.speed.points = whole(0, BRAKE_CURVE_POINTS);
    friction.pressure.points = whole(0, BRAKE_CURVE_POINTS);
}

/* A rig of which some axles have heat, and of some the friction follows it. */
static void any_rig(bool hot, bool follows, bool shaped)
{
    Frama_C_make_unknown((char *)&rig, sizeof rig);
    rig.balance.locked = whole(0, 1);
    rig.balance.regulated = whole(0, 1);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        rig.friction[i] = follows ? &friction : NULL;
        rig.thermal[i] = hot ? &thermal : NULL;
        rig.law[i].shaped = shaped;
        rig.law[i].shoes = (enum brake_shoes)whole(0, 2);
    }
}

/* Whatever a step before left in a lane. */
static void any_lane(struct brake_braking_task *task)
{
    struct course *c = &lane.course;
    Frama_C_make_unknown((char *)&lane, sizeof lane);
    lane.task = task;
    lane.outcome.steps = whole(0, 1000000);
    c->rig = &rig;
    c->application = task->application;
    c->outcome = &lane.outcome;
    c->lines = c->still = force_lines_of(&rig.balance);
    unit_pieces_of(&c->still, &c->pieces);
    for (int i = 0; i < BRAKE_AXLES; i++)
        (void)brake_gain_prepare(&rig.law[i], &c->law[i]);
    c->limited = whole(0, 1);
    c->lags = whole(0, 1);
    task->status = BRAKE_OK;
}

static void step(struct brake_braking_task *task)
{
    const struct lanes alone = {{&lane}, 1};
    any_lane(task);
    begins_step(&lane);
    any_lane(task);
    pass(&alone);
    any_lane(task);
    misses_far(&lane);
    wants_corrector(&lane);
    any_lane(task);
    guess(&lane.braking, any(), &lane.course);
    end_step(&lane);
}

static void over_time(bool hot, bool follows, bool shaped)
{
    const struct brake_application application = {(enum brake_manner)whole(0, 2), any(), any(),
                                                  any(), any()};
    struct brake_braking_task task = {&rig, &application, any(), &braking, &outcome, BRAKE_OK};
    any_rig(hot, follows, shaped);
    Frama_C_make_unknown((char *)&braking, sizeof braking);
    brake_braking_begin(&rig, &application, &braking, &outcome);
    begin_lane(&task, &lane);
    step(&task);
}

int main(void)
{
    any_friction();
    over_time(false, false, false);
    over_time(true, true, false);
    over_time(true, true, true);
    return 0;
}
