/* SPDX-License-Identifier: MIT */
#include "meanings.h"

#include <stddef.h>

const char *brake_verdict_meaning(enum brake_verdict verdict)
{
    static const char *const meanings[] = {
        [BRAKE_MEETS] = "At least 95 of 100 of what may be behind the numbers meet the limit; that "
                        "is no approval.",
        [BRAKE_FALLS_SHORT] =
            "Fewer than 50 of 100 of what may be behind the numbers meet the limit.",
        [BRAKE_CANNOT_SAY] = "Between 50 and 95 of 100 meet the limit, or a line that it needs is "
                             "left out of the file.",
    };
    return meanings[verdict];
}

const char *brake_severity_word(const struct brake_criterion *criterion,
                                const struct brake_judgement *judgement)
{
    if (!criterion->graded || judgement->verdict != BRAKE_FALLS_SHORT)
        return NULL;
    return judgement->dangerous ? "dangerous" : "major";
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
        "vehicles with anti-lock",
        "vehicles without anti-lock",
        "vehicles with a booster",
        "a valve that senses load or height",
        "vehicles with a trailer",
        "a top speed above 125 km/h",
        "drums whose shoes are known by their geometry",
        "commercial vehicles",
        "vehicles with a secondary brake of its own",
        "a rated mass above 3,500 kg",
        "a rated mass up to 4,500 kg",
        "classes 3 and 4 of the DVSA: no goods vehicles above 3,000 kg",
        "class 7 of the DVSA: goods vehicles of 3,000 to 3,500 kg",
        "vehicles with a valve before the rear brakes",
        "vehicles with a circuit to each axle",
        "vehicles with a trailer without brakes",
    };
    return bit < (int)(sizeof words / sizeof words[0]) ? words[bit] : NULL;
}
