/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L /* strdup, strtok_r */
#include "answers.h"

#include <stdlib.h>
#include <string.h>

enum { TYRES = 64, KEPT = 1000 };

void *answer_memory(size_t size, struct brake_error *error)
{
    void *room = calloc(1, size);
    if (room == NULL)
        (void)answer_refuse(error, BRAKE_E_MEMORY, "memory is short");
    return room;
}

enum brake_status answer_refuse(struct brake_error *error, enum brake_status status,
                                const char *text)
{
    error->status = status;
    snprintf(error->text, sizeof error->text, "%s", text);
    return status;
}

enum brake_status answer_refuse_samples(struct brake_error *error, long samples)
{
    snprintf(error->field, sizeof error->field, "samples");
    return answer_refuse(error, BRAKE_E_RANGE, brake_spread_wrong(samples));
}

char *answer_give(struct brake_document *document, char **report)
{
    *report = brake_document_text(document, BRAKE_AS_TEXT);
    char *json = brake_document_text(document, BRAKE_AS_COMPACT_JSON);
    brake_document_free(document);
    if (*report != NULL)
        return json;
    free(json);
    return NULL;
}

/* ---- spread --------------------------------------------------------------------------------- */

const char *shape_word(int number)
{
    return number >= 0 && number < BRAKE_SHAPES ? brake_shape_word((enum brake_shape)number) : "";
}

static char *draw(struct brake_spread *spread, const struct brake_watch *watch, char **report)
{
    if (!brake_spread_draw(spread, watch) || *watch->stop != 0)
        return NULL;
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    if (d != NULL)
        brake_answer_spread(d, spread);
    return answer_give(d, report);
}

char *spread_run(const struct brake_sheet *sheet, unsigned rules, long samples,
                 unsigned long long seed, struct numbers shapes, bool fade,
                 const struct brake_watch *watch, char **report, struct brake_error *error)
{
    struct brake_spread_options options = {
        .rules = rules, .samples = samples, .seed = seed, .faded = fade};
    enum brake_status status;
    for (int i = 0; i < shapes.count && i < BRAKE_ROWS; i++)
        options.shape[i] = (enum brake_shape)shapes.at[i];
    struct brake_spread *spread = brake_spread_new(sheet, &options, &status);
    if (brake_spread_wrong(samples) != NULL)
        answer_refuse_samples(error, samples);
    else if (spread == NULL)
        answer_refuse(error, status, brake_status_message(status));
    char *text = spread != NULL ? draw(spread, watch, report) : NULL;
    brake_spread_free(spread);
    return text;
}

/* ---- compare -------------------------------------------------------------------------------- */

/* Hot performance where it is wanted, and the words. Returns false when stopped or short of
 * memory. */
static bool look_at_both(struct brake_comparison *comparison, bool fade,
                         const struct brake_watch *watch, struct brake_error *error)
{
    struct brake_conformance_room *room = brake_conformance_room_new();
    if (room == NULL)
        answer_refuse(error, BRAKE_E_MEMORY, brake_status_message(BRAKE_E_MEMORY));
    const bool all = room != NULL && (!fade || brake_compare_fade(comparison, watch)) &&
                     brake_compare_conformance(comparison, watch, room);
    brake_conformance_room_free(room);
    return all;
}

char *compare_run(const struct brake_sheet *sheet, const struct brake_sheet *other, unsigned rules,
                  bool fade, const struct brake_watch *watch, char **report,
                  struct brake_error *error)
{
    struct brake_comparison *comparison = answer_memory(sizeof *comparison, error);
    char *text = NULL;
    if (comparison == NULL)
        return NULL;
    brake_compare(sheet, other, rules, comparison);
    double *room = NULL;
    if (look_at_both(comparison, fade, watch, error))
        room = answer_memory((brake_compare_room(comparison) + 1) * sizeof *room, error);
    if (room != NULL && brake_compare_share(comparison, watch, room) && *watch->stop == 0) {
        struct brake_before before;
        const enum brake_status drawn = brake_before_of(comparison, &before);
        struct brake_document *d = drawn == BRAKE_OK ? brake_document_new(BRAKE_SI_FIRST) : NULL;
        if (d != NULL)
            brake_answer_comparison(d, comparison, &before);
        if (drawn != BRAKE_OK)
            answer_refuse(error, drawn, brake_status_message(drawn));
        else
            text = answer_give(d, report);
    }
    free(room);
    free(comparison);
    return text;
}

/* ---- size ----------------------------------------------------------------------------------- */

static char *say(const struct brake_size_report *said, char **report)
{
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    if (d != NULL)
        brake_answer_size(d, said);
    return answer_give(d, report);
}

static enum brake_wish wish_of(double number)
{
    return number >= 0.0 ? BRAKE_WISH_OUTPUT : number > -2.0 ? BRAKE_WISH_ALL : BRAKE_WISH_REGAINED;
}

/* Number of targets taken. */
static int take_targets(struct numbers numbers, const struct brake_sheet *before,
                        struct brake_target target[BRAKE_TARGETS])
{
    const int count = (int)(numbers.count / 4);
    for (int i = 0; i < count && i < BRAKE_TARGETS; i++) {
        const double *n = numbers.at + 4 * i;
        target[i] = (struct brake_target){.wish = wish_of(n[0]),
                                          .before = before,
                                          .rules = (unsigned)n[3],
                                          .relation = (enum brake_relation)n[1],
                                          .value = n[2]};
        if (n[0] >= 0.0)
            target[i].output = brake_output_at((int)n[0]);
    }
    return count < BRAKE_TARGETS ? count : BRAKE_TARGETS;
}

char *size_range(const struct brake_sheet *sheet, int line, double low, double high,
                 struct numbers targets, const struct brake_sheet *before,
                 const struct brake_watch *watch, char **report, struct brake_error *error)
{
    struct brake_target target[BRAKE_TARGETS];
    const int count = take_targets(targets, before, target);
    const struct brake_size_question question = {sheet, line, low, high, target[0]};
    struct brake_size size;
    if (brake_size_find(&question, watch, &size, error) != BRAKE_OK || *watch->stop != 0)
        return NULL;
    return say(&(struct brake_size_report){.sheet = sheet,
                                           .target = target,
                                           .targets = count,
                                           .question = &question,
                                           .size = &size},
               report);
}

char *size_lists(const struct brake_sheet *sheet, struct numbers lines, const struct columns *sizes,
                 struct numbers targets, const struct brake_sheet *before,
                 const struct brake_watch *watch, char **report, struct brake_error *error)
{
    struct brake_size_list list[BRAKE_SIZE_LISTS];
    struct brake_target target[BRAKE_TARGETS];
    struct brake_choice_count count;
    struct brake_choice *choice = answer_memory(KEPT * sizeof *choice, error);
    if (choice == NULL)
        return NULL;
    for (int i = 0; i < sizes->count && i < BRAKE_SIZE_LISTS; i++)
        list[i] = (struct brake_size_list){(int)lines.at[i], sizes->column[i].at,
                                           (int)sizes->column[i].count};
    const struct brake_choice_question question = {sheet, list, sizes->count, target,
                                                   take_targets(targets, before, target)};
    struct brake_size_report said = {.sheet = sheet,
                                     .target = target,
                                     .targets = question.targets,
                                     .lists = &question,
                                     .choice = choice,
                                     .count = &count};
    said.choices = brake_choose(&question, watch, choice, KEPT, &count);
    char *text = *watch->stop != 0 ? NULL : say(&said, report);
    free(choice);
    return text;
}

char *size_tyres(const struct brake_sheet *sheet, const char *markings, struct numbers targets,
                 const struct brake_sheet *before, const struct brake_watch *watch, char **report,
                 struct brake_error *error)
{
    const char *marking[TYRES];
    struct brake_tyre_choice tyre[TYRES];
    struct brake_target target[BRAKE_TARGETS];
    char *rest = NULL;
    char *words = strdup(markings);
    int count = 0;
    if (words == NULL) {
        answer_refuse(error, BRAKE_E_MEMORY, "memory is short");
        return NULL;
    }
    for (char *at = strtok_r(words, "\n", &rest); at != NULL && count < TYRES;
         at = strtok_r(NULL, "\n", &rest))
        marking[count++] = at;
    const struct brake_choice_question question = {
        .sheet = sheet, .target = target, .targets = take_targets(targets, before, target)};
    const struct brake_size_report said = {.sheet = sheet,
                                           .target = target,
                                           .targets = question.targets,
                                           .tyre = tyre,
                                           .tyres = count};
    char *text = NULL;
    if (brake_choose_tyres(&question, marking, count, watch, tyre) && *watch->stop == 0)
        text = say(&said, report);
    free(words);
    return text;
}
