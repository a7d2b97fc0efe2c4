/* SPDX-License-Identifier: MIT */
#include "standing.h"

#include <stddef.h>

static const struct brake_blank blanks[] = {
    {"Mass on the scales, full", "full.mass.total", NULL},
    {"Front axle, full", "full.mass.front_axle", "load.full.front_axle"},
    {"Rear axle, full", "full.mass.rear_axle", "load.full.rear_axle"},
    {"Pedal travel at the target deceleration, empty", "empty.pedal.travel", NULL},
    {"Pedal force for the target deceleration, full", "full.pedal.force_for_target", NULL},
    {"Line pressure for the target deceleration, full", "full.pedal.pressure_for_target", NULL},
    {"Deceleration at the usual pedal force, full", "full.deceleration.at_pedal_force", NULL},
    {"Largest deceleration, wheels not locked, full", "full.deceleration.most", NULL},
    {"Stopping distance from the stated speed, full", "full.stop.distance", NULL},
    {"Deceleration without assist, full", "full.failed.no_assist", NULL},
    {"Parking brake holds nose up, full", "full.parking.grade_up", NULL},
    {"Parking brake holds nose down, full", "full.parking.grade_down", NULL},
    {"True speed over shown speed", "speedometer.true_over_shown", NULL},
    {"Tester, pedal force", NULL, "tester.pedal_force"},
    {"Tester, front", NULL, "tester.front_left, _right"},
    {"Tester, rear", NULL, "tester.rear_left, _right"},
    {"Tester, parking brake", NULL, "tester.parking_left, _right"},
    {"Tester, force on the lever", NULL, "tester.lever_force"},
    {"Difference, front", NULL, "front.axle.side_difference"},
    {"Difference, rear", NULL, "rear.axle.side_difference"},
    {"Lining left, front and rear", NULL, NULL},
    {"Rotor or drum: size now, and its wear limit", NULL, NULL},
    {"Boiling point or water content of the fluid", NULL, NULL},
    {"Vacuum at idle", NULL, "booster.vacuum"},
    {"Tyre pressures, front and rear", NULL, NULL},
};

const struct brake_blank *brake_blank_at(int index)
{
    return index < (int)(sizeof blanks / sizeof blanks[0]) ? &blanks[index] : NULL;
}

const char *brake_signature_at(int index)
{
    static const char *const signatures[] = {"Built by (name, date, signature)",
                                             "Measured by (name, date, signature)",
                                             "Inspector (name, number)",
                                             "Place and date",
                                             "Findings; what must be changed before the road",
                                             "Signature of the inspector",
                                             NULL};
    return signatures[index];
}

const char *brake_method_at(int index)
{
    static const char *const paragraphs[] = {
        "Inputs come from one vehicle file. What was read raw (scales, tilt, rollout, gauge pairs) "
        "is reduced, and its tolerance carried through; what was left out stands at its usual "
        "value, with the interval that holds 95 of 100 vehicles, and is named above.",
        "Torque follows from piston area, friction and effective radius: the integral over the "
        "pad, of a bedded circular one the table of handbooks; disc.pads.contact says which "
        "pressure is assumed. A drum's brake factor follows from the geometry of its shoes. The "
        "balance of the axles is solved exactly, piece by "
        "piece, with load transfer, the inertia of the wheels and the rear valve. Sources: "
        "Limpert, Brake Design and Safety; Wong, Theory of Ground Vehicles; Gillespie, "
        "Fundamentals of Vehicle Dynamics.",
        "Heat over time is conduction through rotor or drum wall in one dimension, with "
        "convection, radiation, pad and fluid; friction follows the temperature of the rubbed "
        "face. Sources: Carslaw and Jaeger, Conduction of Heat in Solids; Limpert, ch. 3.",
        "How sure a verdict is: everything uncertain is drawn at once, what lines share and what "
        "the model itself may be off by too. A requirement is met where at least 95 of 100 samples "
        "meet it, missed below 50, and cannot be said between (guarded acceptance: JCGM 106, ISO "
        "14253-1). 90 of 100 are from the 5th to the 95th.",
        "Requirements are restated from the texts that each row names. The wording that binds is "
        "that of the current text: check each clause against it.",
        "Every formula with its source stands in reference/method.md and in the headers of "
        "libbrake; which texts were read, and which were put down from memory, in "
        "reference/sources.md.",
        NULL};
    return paragraphs[index];
}
