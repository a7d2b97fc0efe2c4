#include "meanings.h"

#include <stddef.h>

const char *brake_measure_meaning(enum brake_measure measure)
{
    static const char *const meanings[] = {
        [BRAKE_STOP_DISTANCE] = "Stopping distance from the speed of the clause.",
        [BRAKE_STOP_DECELERATION] = "Mean fully developed deceleration.",
        [BRAKE_STOP_RATIO] = "Brake force over the vehicle's weight.",
        [BRAKE_TOW_DECELERATION] = "Deceleration with an unbraked trailer.",
        [BRAKE_PARKING_GRADE] = "Grade that the parking brake holds, the lesser of up and down.",
        [BRAKE_PARKING_TOW_GRADE] = "Grade that the parking brake holds with an unbraked trailer.",
        [BRAKE_PARKING_DECELERATION] = "Deceleration by the parking brake alone.",
        [BRAKE_PARKING_RATIO] = "Force of the parking brake over the vehicle's weight.",
        [BRAKE_PARKING_TOW_RATIO] =
            "Force of the parking brake over the weight of vehicle and trailer.",
        [BRAKE_REAR_FIRST] = "Deceleration in g above which the rear wheels lock first.",
        [BRAKE_REAR_CURVE] = "Adhesion used at the rear over what the curve allows.",
        [BRAKE_ADHESION_CURVE] = "Deceleration in g at first lock over what the curve asks for.",
        [BRAKE_SIDE_DIFFERENCE] = "Difference of brake force from left to right on an axle.",
        [BRAKE_PEDAL_TRAVEL] = "Pedal travel over the travel to the floor.",
        [BRAKE_HOT_DISTANCE] = "Stopping distance after the fade procedure, better of two stops.",
        [BRAKE_HOT_LENGTHENING] =
            "Stopping distance of the first hot stop, against that of the cold stop.",
        [BRAKE_HOT_DECELERATION] =
            "Mean fully developed deceleration after the fade procedure, better of two stops.",
        [BRAKE_HOT_KEPT] =
            "Mean fully developed deceleration of the first hot stop over that of the cold stop.",
        [BRAKE_RECOVERY_LEAST] =
            "Mean fully developed deceleration after cooling over that of the cold stop.",
        [BRAKE_RECOVERY_MOST] =
            "Mean fully developed deceleration after cooling over that of the cold stop.",
    };
    return meanings[measure];
}

const char *brake_verdict_meaning(enum brake_verdict verdict)
{
    static const char *const meanings[] = {
        [BRAKE_MEETS] =
            "The calculated value is on the right side of the limit; that is no approval.",
        [BRAKE_FALLS_SHORT] = "The calculated value is on the wrong side of the limit.",
        [BRAKE_CANNOT_SAY] =
            "The requirement does not apply, or a line that it needs is left out of the file.",
    };
    return meanings[verdict];
}

const char *brake_applies_words(int bit)
{
    static const char *const words[] = {
        "M1 vehicles",
        "N1 vehicles",
        "a rated mass up to 3,500 kg",
        "a rated mass up to 10,000 lb (4,536 kg)",
        "the chassis of a car",
        "the chassis of a truck",
        "vehicles first registered in 2012 or later",
        "vehicles first registered before 2012",
        "vehicles with anti-lock",
        "vehicles without anti-lock",
        "vehicles with a booster",
        "a valve that senses load or height",
        "vehicles with a trailer",
        "a top speed above 125 km/h",
    };
    return bit < (int)(sizeof words / sizeof words[0]) ? words[bit] : NULL;
}
