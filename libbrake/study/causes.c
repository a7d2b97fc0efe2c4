/* SPDX-License-Identifier: MIT */
/* Why toleranced numbers are off together. Only what physics or one instrument ties; that one
 * instrument correlates its readings: JCGM 100 (GUM), F.1.2.3, from memory. */
#include "inputs.h"

#define NO_SOURCE "common practice, no source"

/* clang-format off */
static const struct brake_cause causes[] = {
    {"shared.scales", "the calibration of the scales, in every reading of them", 0.5, false, NO_SOURCE,
     {"scales.front_left", "scales.front_right", "scales.rear_left", "scales.rear_right",
      "scales.front_axle", "scales.rear_axle", "tilt.ground_axle_level",
      "tilt.ground_axle_tilted"}},
    {"shared.tester", "the calibration of the tester, in every force that it reads", 0.5, false, NO_SOURCE,
     {"tester.front_left", "tester.front_right", "tester.rear_left", "tester.rear_right",
      "tester.parking_left", "tester.parking_right"}},
    {"shared.weighing_empty", "the calibration of the weighbridge, load empty", 0.5, false, NO_SOURCE,
     {"load.empty.front_axle", "load.empty.rear_axle"}},
    {"shared.weighing_full", "the calibration of the weighbridge, load full", 0.5, false, NO_SOURCE,
     {"load.full.front_axle", "load.full.rear_axle"}},
    {"shared.friction", "maker, heat, wet and bedding, which front and rear go through together", 0.5,
     true, NO_SOURCE,
     {"front.disc.pads.mu", "front.drum.lining.mu", "rear.disc.pads.mu", "rear.drum.lining.mu"}},
    {"shared.brake_factor", "shoes of one make and age, front and rear", 0.5, true, NO_SOURCE,
     {"front.drum.brake_factor", "rear.drum.brake_factor"}},
    {"shared.efficiency", "care and age of the brakes, front and rear", 0.5, true, NO_SOURCE,
     {"front.disc.efficiency", "front.drum.efficiency", "rear.disc.efficiency",
      "rear.drum.efficiency"}},
    {"shared.fade", "pads and linings of one class, front and rear", 0.5, false, NO_SOURCE,
     {"front.disc.pads.fade", "front.drum.lining.fade", "rear.disc.pads.fade",
      "rear.drum.lining.fade"}},
    {"shared.gap", "seals, run-out and bearings of one age", 0.7, false, NO_SOURCE,
     {"front.disc.pads.gap", "rear.disc.pads.gap"}},
    {"shared.piston_travel", "adjusters of one age", 0.5, false, NO_SOURCE,
     {"front.drum.piston_travel", "rear.drum.piston_travel"}},
    {"shared.compliance", "how far the rules for giving way hold", 0.5, false, NO_SOURCE,
     {"front.disc.compliance", "front.drum.compliance", "rear.disc.compliance",
      "rear.drum.compliance"}},
    {"shared.rollout", "tape, floor and pressure gauge of the rollouts", 0.5, false, NO_SOURCE,
     {"front.tyre.rollout", "rear.tyre.rollout"}},
    {"shared.tyre_size", "how tyres differ from their nominal size, where a marking is all there is", 0.5,
     false, NO_SOURCE,
     {"front.tyre.rolling_radius", "rear.tyre.rolling_radius", "front.tyre.overall_diameter",
      "rear.tyre.overall_diameter"}},
    {"shared.inertia", "how far the rule for the inertia of a wheel holds", 0.7, false, NO_SOURCE,
     {"front.tyre.inertia_fraction", "rear.tyre.inertia_fraction"}},
    {"shared.vacuum", "the calibration of the vacuum gauge", 0.5, false, NO_SOURCE,
     {"booster.vacuum", "booster.vacuum_low"}},
};
/* clang-format on */

const struct brake_cause *brake_cause_at(int number)
{
    const int count = (int)(sizeof causes / sizeof causes[0]);
    return number >= 0 && number < count ? &causes[number] : NULL;
}
