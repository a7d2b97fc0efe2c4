#include "differences.h"

#include <math.h>
#include <string.h>

#include "words.h"
#include "vehicle/text.h"

/* Index of a line; -1 when it is not there. */
static int find(const struct brake_sheet *sheet, const char *path)
{
    const int index = brake_catalogue_find(&sheet->vehicle, path);
    return index >= 0 && sheet->record[index].from != BRAKE_ABSENT ? index : -1;
}

/* Value of a line as it is said. */
static void say(const struct brake_sheet *sheet, int index, char text[BRAKE_DIFFERENCE_TEXT])
{
    brake_text_format(text, BRAKE_DIFFERENCE_TEXT, "not there");
    if (index >= 0)
        brake_words_input(sheet, index, text, BRAKE_DIFFERENCE_TEXT);
}

/* What is worked out, or repeats another section, follows from other lines. */
static bool follows(const struct brake_sheet *sheet, int index)
{
    return index >= 0 && (sheet->record[index].worked || brake_words_repeats(sheet, index));
}

/* Lines of now come first, then those of before that are gone. */
bool brake_differing_line(const struct brake_paper *paper, int *at, struct brake_difference *change)
{
    const int count = brake_catalogue_count();
    change->given[0] = '\0';
    change->shares[0] = '\0';
    for (; *at < 2 * count;) {
        const bool gone = *at >= count;
        const struct brake_sheet *sheet = gone ? paper->before : paper->sheet;
        const int index = *at % count;
        ++*at;
        if (sheet->record[index].from == BRAKE_ABSENT)
            continue;
        brake_catalogue_path(&sheet->vehicle, index, change->what, sizeof change->what);
        const int then = find(paper->before, change->what);
        const int now = find(paper->sheet, change->what);
        const bool counted = gone && now >= 0;
        if (counted || (follows(paper->before, then) && follows(paper->sheet, now)))
            continue;
        say(paper->before, then, change->before);
        say(paper->sheet, now, change->after);
        if (strcmp(change->before, change->after) != 0)
            return true;
    }
    return false;
}

/* Those of hot performance are not among the margins that were compared. */
static void say_shares(const struct brake_comparison *comparison, int criterion, char *text,
                       size_t size)
{
    text[0] = '\0';
    for (int i = 0; i < comparison->margins; i++) {
        if (comparison->output[i].criterion && comparison->output[i].index == criterion)
            brake_words_shares(&comparison->margin[i], brake_unit_find("%"), text, size);
    }
}

bool brake_differing_margin(const struct brake_paper *paper, int *at,
                            struct brake_difference *change)
{
    const struct brake_assessment *now = paper->assessment;
    const struct brake_assessment *then = paper->before_assessment;
    int order[BRAKE_CRITERIA];
    const int count = brake_words_order(now, order);
    while (*at < count) {
        const int criterion = order[(*at)++];
        const double gain = now->judgement[criterion].margin - then->judgement[criterion].margin;
        if (!isfinite(gain))
            continue;
        brake_text_format(change->what, sizeof change->what, "%s [%s]",
                          brake_criterion_at(criterion)->title, brake_criterion_at(criterion)->id);
        brake_words_margin(then, criterion, change->before, sizeof change->before);
        brake_words_margin(now, criterion, change->after, sizeof change->after);
        brake_text_format(change->given, sizeof change->given, "%+.1f points", 100.0 * gain);
        say_shares(paper->comparison, criterion, change->shares, sizeof change->shares);
        if (fabs(gain) >= 0.0005)
            return true;
    }
    return false;
}
