/* SPDX-License-Identifier: MIT */
/** @file warnings.h
 * What a good engineer would say unasked, each with its number.
 */
#ifndef BRAKE_WARNINGS_H
#define BRAKE_WARNINGS_H

#include "brake/evaluate.h"

#ifdef __cplusplus
extern "C" {
#endif

enum { BRAKE_WARNINGS = 72 /**< room for every warning, 12 of heat among them */ };

/** The caution that stands in every output; no option removes it. */
#define BRAKE_CAUTION                                                                              \
    "A calculation is not an approval. Local codes rule, and road brakes must be checked by a "    \
    "qualified inspector before the vehicle is driven on the road."

/** Its first words, for the line above a verdict; the whole stands below. */
#define BRAKE_CAUTION_LINE                                                                         \
    "CAUTION: a calculation is not an approval; an inspector must check the brakes."

/* The warnings. W(name, id, meaning): a meaning stands by itself. */
/* clang-format off */
#define BRAKE_WARNING_LIST(W) \
    W(SPEEDOMETER_LOW, "speedometer_low", \
      "The speedometer reads low: the vehicle is faster than it shows.") \
    W(SPEEDOMETER_HIGH, "speedometer_high", \
      "The speedometer shows more than a tenth and 4 km/h above the speed.") \
    W(ANTILOCK_TYRES, "antilock_tyres", \
      "The tyres roll otherwise than anti-lock and stability control were set for.") \
    W(MASTER_TOO_SMALL, "master_too_small", \
      "A chamber of the master cylinder uses more than 80 % of its stroke at driver.target.") \
    W(PEDAL_LONG, "pedal_long", \
      "The pedal uses more than 80 % of its travel to the floor at driver.target.") \
    W(END_OF_TRAVEL, "end_of_travel", \
      "The pedal or a master-cylinder chamber bottoms out before full pressure.") \
    W(REAR_LOCKS_FIRST, "rear_locks_first", \
      "The rear wheels lock first below the deceleration that the standards name.") \
    W(SHOE_MAY_LOCK, "shoe_may_lock", \
      "Within what is known of its lining a shoe may lock itself.") \
    W(VALVE_UPSET, "valve_upset", "A valve that senses height is moved by the lift of the body.") \
    W(DISTRIBUTION_FAILED, "distribution_failed", \
      "Once its electronic brake-force distribution has failed the rear locks first.") \
    W(AXLE_RATING, "axle_rating", "An axle carries more than its rating.") \
    W(TYRE_RATING, "tyre_rating", "The tyres of an axle carry more than their load index.") \
    W(MASS_RATING, "mass_rating", "The vehicle weighs more than its rated mass.") \
    W(TYRE_SPEED, "tyre_speed", "The vehicle is faster than its tyres are rated for.") \
    W(PISTONS_BOTH_SIDES, "pistons_both_sides", \
      "More piston on one side of a rotor than calipers have: were both sides counted?") \
    W(BOOSTER_RUNS_OUT, "booster_runs_out", \
      "The booster runs out before driver.target is reached.") \
    W(PARKING_SHORT, "parking_short", "The parking brake holds less than 20 %.") \
    W(HOSES_AT_DROOP, "hoses_at_droop", "The body sits higher: a brake hose may be too short.") \
    W(CENTRE_LOCKED, "centre_locked", "With the centre drive locked all wheels lock together.") \
    W(RADIUS_FROM_BOOKS, "radius_from_books", \
      "A rolling radius is the nominal one of its marking, not a measured one.") \
    W(PADS_BEYOND_ROTOR, "pads_beyond_rotor", \
      "The pads reach past the edge of the rotor: was a diameter given as a radius?") \
    W(PADS_TOO_TALL, "pads_too_tall", \
      "The pads are taller along the radius than pads are: were diameters given as radii?") \
    W(BRAKE_BEYOND_RIM, "brake_beyond_rim", "A rotor or drum does not fit into the wheel.") \
    W(CENTRE_TOO_HIGH, "centre_too_high", \
      "The centre of gravity is higher over the ground than vehicles have it for their roof.") \
    W(WHEEL_TOO_HEAVY, "wheel_too_heavy", \
      "A wheel weighs more than wheels of that size do: were pounds given as kilograms?") \
    W(WHEEL_TOO_LIGHT, "wheel_too_light", \
      "A wheel weighs less than wheels of that size do: were kilograms given as pounds?") \
    W(ROLLOUT_OF_OTHER_TYRE, "rollout_of_other_tyre", \
      "A rollout is not that of the tyre as marked: was it measured on another tyre?") \
    W(WHEEL_RISE_MISSING, "wheel_rise_missing", \
      "The tyres raise the vehicle, and [lift] tells of the suspension alone.") \
    W(FRICTION_TOO_HIGH, "friction_too_high", "Friction is higher than pads and linings have it.") \
    W(TRAILER_UNBRAKED, "trailer_unbraked", "A trailer without brakes is heavier than laws allow.") \
    W(HEAT_NOT_HELD, "heat.not_held", "The pedal force does not hold what a duty asks for.") \
    W(HEAT_NOT_SLOWED, "heat.not_slowed", "The vehicle is not slowed in time in a duty.") \
    W(HEAT_FADE, "heat.fade", "Fade raises the pedal force of a duty by more than a fifth.") \
    W(HEAT_FLUID_BOILS, "heat.fluid_boils", \
      "The fluid gets hotter than its wet boiling point in a duty.") \
    W(HEAT_FLUID_NEAR_BOILING, "heat.fluid_near_boiling", \
      "The fluid comes within 30 K of its wet boiling point in a duty.") \
    W(HEAT_FLUID_RISING, "heat.fluid_rising", \
      "The fluid is still getting hotter at the end of the rest after a duty.") \
    W(HEAT_PAD_BEYOND_CURVE, "heat.pad_beyond_curve", \
      "A face gets hotter than its friction curve goes.") \
    W(HEAT_FRICTION_ASSUMED, "heat.friction_assumed", \
      "A face gets hot enough for fade and has no friction curve of its own.") \
    W(HEAT_IRON_TRANSFORMS, "heat.iron_transforms", \
      "A face gets hot enough for grey iron to transform: hard spots, judder, cracks.") \
    W(HEAT_STRESS, "heat.stress", \
      "The heat stresses a face past the tensile strength of its iron.") \
    W(HEAT_BOILED, "heat.boiled", \
      "A stop of the fade procedure ends with the fluid past its wet boiling point.") \
    W(HEAT_MISSING, "heat.missing", \
      "The fade procedure cannot be run: a line that heat needs is missing.")
/* clang-format on */

/** What is warned of. */
#define BRAKE_WARNING_NUMBER(name, id, meaning) BRAKE_WARNS_##name,
enum brake_warned { BRAKE_WARNING_LIST(BRAKE_WARNING_NUMBER) BRAKE_WARNED };
#undef BRAKE_WARNING_NUMBER

/** Id of a kind of warning.
 * @param of  what is warned of
 * @return    such as "rear_locks_first"
 */
const char *brake_warning_id(enum brake_warned of);

/** What a kind of warning says.
 * @param of  what is warned of
 * @return    one line, which stands by itself
 */
const char *brake_warning_meaning(enum brake_warned of);

/** One warning. */
struct brake_warning {
    const char *id; /**< ours, e.g. "rear_locks_first" */
    char text[240]; /**< one or two sentences with the figures */
};

#ifdef __cplusplus
}
#endif

#endif
