/* SPDX-License-Identifier: MIT */
#include "trade.h"

#include <stdbool.h>
#include <string.h>

#include "letters.h"

enum { WORD = 40 /* no key is longer */ };

/* Keys as they are spelt without blanks and dashes. */
static const struct {
    const char *keys;
    const char *says;
} words[] = {
    {"hydraulic hydraulicassist hydraulicbooster hydraulicboost",
     "that is the line booster = hydraulic of [booster], with piston_diameter and pressure, or "
     "force_pairs (pedal force, line pressure); what its accumulator holds without the pump is "
     "the line reserve"},
    {"ebd ebv ebfd brakeforcedistribution electronicbrakeforcedistribution",
     "electronic brake-force distribution (EBD) is the line kind = ebd of [valve]; anti-lock, "
     "which "
     "mostly comes with it, is vehicle.antilock = fitted"},
    {"dually duallies dual duals dualwheels dualwheel dualrearwheels dualtyres dualtires drw "
     "twinwheels twintyres twintires twin twins",
     "dual (twin) wheels are the line wheels = dual of [rear.axle]; [rear.tyre] is then of one of "
     "the "
     "four wheels, its load_capacity that for dual mounting: the second load index of the marking"},
    {"gvwr gvm grossweight grossvehicleweight", "that is the line vehicle.rated_mass"},
    {"gawr axlerating", "that is the line rated_mass of [front.axle] or [rear.axle]"},
    {"curbweight kerbweight curbmass kerbmass vehicleweight",
     "that is the line vehicle.mass, or front_axle and rear_axle of [scales]"},
    {"caliper calipers",
     "calipers are told in [front.disc] and [rear.disc]: mounting, pistons, effective_radius"},
    {"handbrake ebrake emergencybrake parkingbrake", "that is the section [parking]"},
    {"proportioningvalve proportioning combinationvalve lspv", "that is the section [valve]"},
    {"servo powerbrakes brakebooster", "that is the section [booster]"},
    {"edgecode frictioncode",
     "an edge code is given as the friction, such as mu = FF, in [front.disc.pads] or "
     "[rear.drum.lining]"},
};

enum { WORDS = sizeof words / sizeof words[0] };

/* The word without blanks, dashes and capitals. Longer ones are no word of the trade. */
static bool squeeze(const char *word, char squeezed[WORD])
{
    size_t used = 0;
    for (; *word != '\0'; word++) {
        if (strchr(" \t-_", *word) != NULL)
            continue;
        if (used + 1 == WORD)
            return false;
        squeezed[used++] = (char)brake_letter_small(*word);
    }
    squeezed[used] = '\0';
    return true;
}

/* Any part of a path may be such a word: rear.tyre.dually, front.caliper.pistons. */
static bool has_part(const char *word, const char *key, size_t length)
{
    for (size_t part; *word != '\0'; word += part + (word[part] == '.')) {
        part = strcspn(word, ".");
        if (part == length && strncmp(word, key, length) == 0)
            return true;
    }
    return false;
}

static bool is_among(const char *keys, const char *word)
{
    for (size_t length; *keys != '\0'; keys += length + strspn(keys + length, " ")) {
        length = strcspn(keys, " ");
        if (has_part(word, keys, length))
            return true;
    }
    return false;
}

const char *brake_trade_says(const char *word)
{
    char squeezed[WORD];
    if (!squeeze(word, squeezed))
        return NULL;
    for (int i = 0; i < WORDS; i++) {
        if (is_among(words[i].keys, squeezed))
            return words[i].says;
    }
    return NULL;
}
