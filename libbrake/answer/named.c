/* SPDX-License-Identifier: MIT */
/* What a name stands for. */
#include <string.h>

#include "brake/warnings.h"
#include "criteria/meanings.h"
#include "explain.h"
#include "vehicle/sections.h"
#include "vehicle/text.h"
#include "vehicle/trade.h"

/* The lines of a part are the same for every part. */
static struct brake_named line_of_part(const char *name)
{
    const int parts = brake_section_count() - 1;
    const struct brake_section *section = brake_section_at(parts);
    const char *last = strrchr(name, '.');
    for (int i = 0; strncmp(name, "part.", 5) == 0 && i < section->count; i++) {
        if (strcmp(section->rows[i].name, last + 1) == 0)
            return (struct brake_named){BRAKE_NAMED_LINE, name, -1, &section->rows[i], parts};
    }
    return (struct brake_named){.kind = BRAKE_NAMED_NOTHING};
}

static int section_of(const char *name)
{
    for (int i = 0; i < brake_section_count(); i++) {
        if (strcmp(brake_section_at(i)->path, name) == 0)
            return i;
    }
    return -1;
}

static struct brake_named line(const struct brake_vehicle *vehicle, const char *name)
{
    const int index = brake_catalogue_find(vehicle, name);
    if (index < 0)
        return line_of_part(name);
    return (struct brake_named){BRAKE_NAMED_LINE, name, index, brake_quantity_at(index),
                                section_of(brake_quantity_section(index)->path)};
}

static int result_of(const char *name)
{
    char with_case[120];
    const int index = brake_result_find(name);
    if (index >= 0)
        return index;
    brake_text_format(with_case, sizeof with_case, "empty.%.100s", name);
    return brake_result_find(with_case);
}

static int criterion_of(const char *name)
{
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (strcmp(brake_criterion_at(i)->id, name) == 0)
            return i;
    }
    return -1;
}

static int warning_of(const char *name)
{
    for (int i = 0; i < BRAKE_WARNED; i++) {
        if (strcmp(brake_warning_id((enum brake_warned)i), name) == 0)
            return i;
    }
    return -1;
}

/* Verdicts: of requirements, then these of a drive and of a comparison. */
static const struct brake_word verdicts[] = {
    {"agrees",
     "Measured and predicted deceleration of a drive lie within each other's uncertainty."},
    {"below",
     "The measured deceleration of a drive is below the prediction by more than the uncertainty."},
    {"above",
     "The measured deceleration of a drive is above the prediction by more than the uncertainty."},
    {"regained", "Brake torque over torque needed is less than before by more than 3 % in no more "
                 "than 5 of 100 samples."},
    {"not regained", "Brake torque over torque needed is less than before by more than 3 % "
                     "in 95 of 100 samples and more."},
};

enum {
    OF_REQUIREMENTS = BRAKE_CANNOT_SAY + 1,
    OF_OTHERS = sizeof verdicts / sizeof verdicts[0],
    VERDICTS = OF_REQUIREMENTS + OF_OTHERS
};

int brake_verdict_count(void)
{
    return VERDICTS;
}

struct brake_word brake_verdict_at(int index)
{
    const enum brake_verdict verdict = (enum brake_verdict)index;
    if (index >= OF_REQUIREMENTS)
        return verdicts[index - OF_REQUIREMENTS];
    return (struct brake_word){brake_verdict_words(verdict), brake_verdict_meaning(verdict)};
}

static int verdict_of(const char *name)
{
    for (int i = 0; i < VERDICTS; i++) {
        if (strcmp(brake_verdict_at(i).word, name) == 0)
            return i;
    }
    return -1;
}

struct brake_named brake_named_find(const struct brake_vehicle *vehicle, const char *name)
{
    const struct {
        enum brake_named_kind kind;
        int index;
    } found[] = {{BRAKE_NAMED_SECTION, section_of(name)},
                 {BRAKE_NAMED_RESULT, result_of(name)},
                 {BRAKE_NAMED_CRITERION, criterion_of(name)},
                 {BRAKE_NAMED_WARNING, warning_of(name)},
                 {BRAKE_NAMED_VERDICT, verdict_of(name)}};
    const struct brake_named of_line = line(vehicle, name);
    if (of_line.kind == BRAKE_NAMED_LINE)
        return of_line;
    for (size_t i = 0; i < sizeof found / sizeof found[0]; i++) {
        if (found[i].index >= 0)
            return (struct brake_named){found[i].kind, name, found[i].index, NULL, found[i].index};
    }
    if (brake_trade_says(name) != NULL)
        return (struct brake_named){BRAKE_NAMED_IN_TRADE, name, 0, NULL, 0};
    return of_line;
}

static void hold_against(struct brake_nearest *nearest, const char *known, char *near, size_t size)
{
    if (brake_nearest_is(nearest, known))
        brake_text_format(near, size, "%s", known);
}

bool brake_named_nearest(const char *name, char *near, size_t size)
{
    struct brake_nearest nearest = brake_nearest_to(name);
    near[0] = '\0';
    for (int i = 0; i < brake_result_all(); i++) {
        char path[80];
        brake_result_path(i, path, sizeof path);
        hold_against(&nearest, path, near, size);
    }
    for (int i = 0; i < brake_criterion_count(); i++)
        hold_against(&nearest, brake_criterion_at(i)->id, near, size);
    for (int i = 0; i < BRAKE_WARNED; i++)
        hold_against(&nearest, brake_warning_id((enum brake_warned)i), near, size);
    for (int i = 0; i < VERDICTS; i++)
        hold_against(&nearest, brake_verdict_at(i).word, near, size);
    return near[0] != '\0';
}
