/* What each group of changes gave or took, in words. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "words.h"
#include "vehicle/text.h"

/* A difference has no zero of its own. */
static double in_unit(const struct brake_unit *unit, double difference)
{
    return difference / unit->factor;
}

void brake_words_difference(char *text, size_t size, const struct brake_unit *unit,
                            double difference)
{
    const struct brake_unit *us = brake_unit_beside(unit);
    const int used = brake_text_format(text, size, "%+.3g%s%s", in_unit(unit, difference),
                                       unit->name[0] ? " " : "", unit->name);
    if (us != unit)
        brake_text_format(text + used, size - (size_t)used, " (%+.3g %s)", in_unit(us, difference),
                          us->name);
}

bool brake_change_moves(const struct brake_compared *one, int change)
{
    const double whole = fmax(fabs(one->before), fabs(one->after));
    return fabs(one->share[change]) > 1e-9 * whole; /* less is rounding */
}

/* Groups that moved a number, the largest first. Returns how many. */
static int sorted(const struct brake_compared *one, int order[BRAKE_CHANGES])
{
    int count = 0;
    for (int i = 0; i < BRAKE_CHANGES; i++) {
        if (!brake_change_moves(one, i))
            continue;
        int at = count++;
        for (; at > 0 && fabs(one->share[order[at - 1]]) < fabs(one->share[i]); at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
    return count;
}

void brake_words_shares(const struct brake_compared *one, const struct brake_unit *unit, char *text,
                        size_t size)
{
    int order[BRAKE_CHANGES];
    const int count = one->reason == NULL ? sorted(one, order) : 0;
    text[0] = '\0';
    for (int i = 0; i < count; i++) {
        const size_t used = strlen(text);
        char number[80];
        brake_words_difference(number, sizeof number, unit, one->share[order[i]]);
        brake_text_format(text + used, size - used, "%s%s %s", i > 0 ? "; " : "",
                          brake_change_word((enum brake_change)order[i]), number);
    }
    if (one->reason != NULL)
        brake_text_format(text, size, "no shares: %s", one->reason);
}
