/* SPDX-License-Identifier: MIT */
/* Of `make prove`: how the axles share force, stops, parking, a trailer; many vehicles side by side
 * by the registers that every processor has. */
#include "any.h"

#include <stddef.h>

#include "brake/balance.h"
#include "brake/parking.h"
#include "brake/stop.h"
#include "brake/tow.h"
#include "model/braked_axles.h"
#include "model/lanes.h"

enum { ROADS = 3 };

static struct brake_balance any_balance(void)
{
    struct brake_balance balance;
    Frama_C_make_unknown((char *)&balance, sizeof balance);
    balance.locked = whole(0, 1);
    balance.regulated = whole(0, 1);
    return balance;
}

static void balances(void)
{
    const struct brake_balance balance = any_balance();
    brake_effective_mass(&balance);
    brake_turning_body(&balance);
    brake_axle_torque(&balance, (enum brake_axle)whole(0, 1), any());
    brake_balance_at(&balance, any());
    brake_balance_pressure(&balance, any());
    brake_balance_rear_first(&balance, any());
    brake_balance_lock(&balance, any());
    brake_balance_kept(&balance, any(), any(), any());
    brake_balance_deceleration(&balance, any(), any(), any());
    brake_balance_sliding(&balance, any(), any(), any());
}

static void several_at_once(void)
{
    const struct brake_balance balance = any_balance();
    const double asked[ROADS] = {any(), any(), any()};
    struct brake_balance_state at[ROADS];
    struct brake_lock lock[ROADS];
    brake_balance_points(&balance, asked, ROADS, at);
    brake_balance_locks(&balance, asked, ROADS, lock);
}

/* Pressure and torque of each axle, its friction that of an instant or that of the law. */
static void at_an_instant(bool shaped)
{
    static struct brake_rig rig;
    static struct brake_braking braking;
    static struct brake_friction friction;
    static struct brake_thermal thermal;
    struct brake_braked_axle axle[BRAKE_AXLES];
    Frama_C_make_unknown((char *)&rig, sizeof rig);
    Frama_C_make_unknown((char *)&braking, sizeof braking);
    rig.balance = any_balance();
    for (int i = 0; i < BRAKE_AXLES; i++) {
        rig.friction[i] = whole(0, 1) ? &friction : NULL;
        rig.thermal[i] = whole(0, 1) ? &thermal : NULL;
        rig.law[i].shaped = shaped;
        rig.law[i].shoes = (enum brake_shoes)whole(0, 2);
    }
    brake_braked_axles(&rig, &braking, axle);
}

static void bodies(void)
{
    const struct brake_body body = {any(), any(), any()};
    brake_ideal_share(body, any(), any());
    brake_lock_ratio(body, any(), any(), any(), any(), (enum brake_axle)whole(0, 1));
    brake_parking_adhesion(body, any(), (enum brake_parking_on)whole(0, 2), any(), any());
    brake_steering_pull(any(), any(), any());
    brake_parking_torque(any(), any(), any(), any(), any(), any());
    brake_parking_needed(any(), any(), any());
    brake_parking_grade(any(), any(), any());
    brake_band_ratio(any(), any());
    brake_tow_deceleration(any(), any(), any(), any(), any());
}

static void stops(void)
{
    brake_stop_distance(any(), any(), any(), any());
    brake_stop_time(any(), any(), any(), any());
    brake_slow_distance(any(), any(), any(), any(), any(), any());
    brake_stop_allowed(any(), any(), any());
    brake_mfdd(any(), any(), any());
    brake_mass_factor(any());
    brake_rolling_resistance(any());
    brake_energy(any(), any());
    brake_bulk_rise(any(), any(), any());
    brake_distance_corrected(any(), any(), any());
}

/* Each question by itself: what one leaves for another is not there where it was not asked. */
static void side_by_side(void)
{
    static struct brake_lane_numbers numbers;
    static struct brake_lane_answers answers;
    Frama_C_make_unknown((char *)&numbers, sizeof numbers);
    brake_lanes_answer(BRAKE_LANES_STOP, &numbers, &answers);
    brake_lanes_answer(BRAKE_LANES_TARGET, &numbers, &answers);
    brake_lanes_answer(BRAKE_LANES_PARKING, &numbers, &answers);
    brake_lanes_answer(BRAKE_LANES_ITSELF, &numbers, &answers);
    brake_lanes_answer(BRAKE_LANES_RATED, &numbers, &answers);
    brake_lanes_answer(BRAKE_LANES_FLUID, &numbers, &answers);
    brake_lanes_answer(BRAKE_LANES_AFTER, &numbers, &answers);
    brake_lanes_answer(BRAKE_LANES_FAILED, &numbers, &answers);
}

int main(void)
{
    balances();
    several_at_once();
    at_an_instant(false);
    at_an_instant(true);
    bodies();
    stops();
    side_by_side();
    return 0;
}
