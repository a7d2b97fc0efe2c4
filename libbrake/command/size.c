/* SPDX-License-Identifier: MIT */
#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "progress.h"
#include "study/target.h"
#include "verbs.h"
#include "vehicle/text.h"

enum { SIZES = 64, TYRES = 64, COMBINATIONS = 10000, KEPT = 1000, WORD = 160 };

static const char DECEL_AT[] = "decel at ";

struct options {
    enum brake_systems units;
    char *file;
    char *before;
    char *parts;
    unsigned rules;
    struct command_list set;
    struct command_list by;
    struct command_list wanted;
    char *within;
    char force[WORD]; /* the setting that "decel at FORCE" stands for */
    bool json;
};

/* What the words say, once the vehicle is known. */
struct task {
    struct brake_sheet sheet;
    struct brake_sheet before; /* when a target asks for it */
    struct brake_target target[BRAKE_TARGETS];
    struct brake_size_list list[BRAKE_SIZE_LISTS];
    double size[BRAKE_SIZE_LISTS][SIZES];
    char tyre_words[1024];
    const char *marking[TYRES];
    int tyres;
    double low, high;
};

/* Copies what stands before `end` without the blanks around it; false when it is too long. */
static bool trimmed(const char *text, const char *end, char *word, size_t size)
{
    while (text < end && isspace((unsigned char)*text))
        text++;
    while (end > text && isspace((unsigned char)end[-1]))
        end--;
    brake_text_format(word, size, "%.*s", (int)(end - text), text);
    return (size_t)(end - text) < size;
}

/* ---- --for ---------------------------------------------------------------------------------- */

/* Where the relation of `NAME >= VALUE` begins, and behind it; its end where there is none. */
static const char *relation_of(const char *text, enum brake_relation *relation, const char **value)
{
    const char *equals = strchr(text, '=');
    *relation = BRAKE_EQUAL;
    *value = NULL;
    if (equals == NULL)
        return text + strlen(text);
    *value = equals + 1;
    if (equals > text && (equals[-1] == '>' || equals[-1] == '<')) {
        *relation = equals[-1] == '>' ? BRAKE_AT_LEAST : BRAKE_AT_MOST;
        return equals - 1;
    }
    return equals;
}

/* "decel at 300 N" sets the driver's force; two of them must be of one force. */
static int take_force(struct options *o, const char *name)
{
    char setting[WORD];
    double force;
    struct brake_error error;
    if (brake_amount_read("decel at", name + strlen(DECEL_AT), BRAKE_FORCE, &force, &error) !=
        BRAKE_OK)
        return command_refuse_value("--for", &error);
    brake_text_format(setting, sizeof setting, "driver.pedal_force=%.100s",
                      name + strlen(DECEL_AT));
    if (o->force[0] != '\0' && strcmp(o->force, setting) != 0)
        return command_misused("--for: 'decel at' takes one force; got %s and %s",
                               strchr(o->force, '=') + 1, name + strlen(DECEL_AT));
    brake_text_format(o->force, sizeof o->force, "%s", setting);
    return 0;
}

static enum brake_wish wish_of(const char *name)
{
    if (strcmp(name, "regained") == 0)
        return BRAKE_WISH_REGAINED;
    return strcmp(name, "all") == 0 ? BRAKE_WISH_ALL : BRAKE_WISH_OUTPUT;
}

static int take_target(const char *text, struct brake_target *target)
{
    const char *value;
    const char *end = relation_of(text, &target->relation, &value);
    char name[WORD];
    struct brake_error error;
    if (!trimmed(text, end, name, sizeof name))
        return command_misused("--for '%.40s...' is too long", text);
    if (strncmp(name, DECEL_AT, strlen(DECEL_AT)) == 0)
        brake_text_format(name, sizeof name, "full.deceleration.at_pedal_force");
    target->wish = wish_of(name);
    if (target->wish == BRAKE_WISH_OUTPUT && brake_output_find(name, &target->output) != BRAKE_OK)
        return words_unknown_output("--for: ", name);
    if (value == NULL && !brake_target_of_margin(target))
        return command_misused("--for %s: a result wants a value, such as '%s = 7 m/s2'; >= and <= "
                               "are accepted too",
                               name, name);
    if (value == NULL) {
        target->relation = BRAKE_AT_LEAST;
        target->value = 0.0;
        return 0;
    }
    const enum brake_dimension dimension =
        target->wish == BRAKE_WISH_OUTPUT ? brake_output_dimension(target->output) : BRAKE_RATIO;
    return brake_amount_read(name, value, dimension, &target->value, &error) == BRAKE_OK
               ? 0
               : command_refuse_value("--for", &error);
}

static int take_targets(const struct options *o, struct task *task)
{
    bool told = false;
    for (int i = 0; i < o->wanted.count; i++) {
        struct brake_target *target = &task->target[i];
        target->rules = o->rules;
        target->before = &task->before;
        int status = take_target(o->wanted.word[i], target);
        if (status == 0 && target->wish == BRAKE_WISH_REGAINED && !told)
            status = command_before(o->before, o->file, &task->sheet, &task->before, &told);
        if (status != 0)
            return status;
        if (target->wish == BRAKE_WISH_REGAINED && !told)
            return command_misused("--for regained wants the vehicle as it was before the change: "
                                   "--before FILE, or [vehicle] before = FILE in %s",
                                   command_name(o->file));
    }
    return 0;
}

/* ---- --by and --within ---------------------------------------------------------------------- */

static int take_quantity(const struct brake_vehicle *vehicle, const char *path, int *index)
{
    *index = brake_catalogue_find(vehicle, path);
    if (*index >= 0 && brake_quantity_at(*index)->kind == BRAKE_REAL)
        return 0;
    if (*index >= 0 && brake_quantity_at(*index)->kind == BRAKE_PISTONS)
        return command_misused("--by %s: not one number; accepts %.*s.piston_diameter", path,
                               (int)(strrchr(path, '.') - path), path);
    if (*index >= 0)
        return command_misused("--by %s: not a number", path);
    return words_unknown_path("--by: ", vehicle, path);
}

static int in_range(const char *option, const char *path, const struct brake_quantity *q,
                    double value)
{
    const struct brake_unit *unit = brake_unit_of(q->unit, q->dimension);
    if (value >= q->low && value <= q->high)
        return 0;
    return command_misused("%s: %s: got %.4g %s; accepts %.4g to %.4g %s", option, path,
                           brake_unit_from_si(unit, value), q->unit,
                           brake_unit_from_si(unit, q->low), brake_unit_from_si(unit, q->high),
                           q->unit);
}

/* Numbers with their units between commas. */
static int take_sizes(const char *option, const char *path, int index, const char *text,
                      struct brake_size_list *list, double size[SIZES])
{
    const struct brake_quantity *q = brake_quantity_at(index);
    struct brake_error error;
    *list = (struct brake_size_list){index, size, 0};
    for (bool more = true; more;) {
        const size_t length = strcspn(text, ",");
        char one[64];
        if (list->count == SIZES)
            return command_misused("%s: %s: accepts up to %d values", option, path, SIZES);
        (void)trimmed(text, text + length, one, sizeof one);
        if (brake_amount_read(path, one, q->dimension, &size[list->count], &error) != BRAKE_OK)
            return command_refuse_value(option, &error);
        const int status = in_range(option, path, q, size[list->count++]);
        if (status != 0)
            return status;
        more = text[length] == ',';
        text += length + (more ? 1 : 0);
    }
    return 0;
}

/* The sizes that the person's own list has of a line. */
static int take_own(const char *path, int index, const struct brake_own_sizes *own,
                    struct brake_size_list *list, double size[SIZES])
{
    *list = (struct brake_size_list){index, size, 0};
    for (int i = 0; i < own->count; i++) {
        if (own->line[i] == index)
            size[list->count++] = own->value[i];
    }
    return list->count > 0 ? 0 : command_misused("--by %s: --parts has no size of it", path);
}

static int take_tyres(const char *text, struct task *task)
{
    brake_text_format(task->tyre_words, sizeof task->tyre_words, "%s", text);
    if (strlen(text) >= sizeof task->tyre_words)
        return command_misused("--by tyre: the list is longer than %zu bytes",
                               sizeof task->tyre_words - 1);
    for (char *at = task->tyre_words; at != NULL;) {
        char *comma = strchr(at, ',');
        struct brake_marking marking;
        if (comma != NULL)
            *comma = '\0';
        at += strspn(at, " ");
        if (task->tyres == TYRES)
            return command_misused("--by tyre: accepts up to %d markings", TYRES);
        if (strlen(at) >= BRAKE_TEXT_SIZE || brake_marking_read(at, &marking) < 0)
            return command_misused("--by tyre: got '%.60s'; accepts markings such as LT305/70R17, "
                                   "35x12.50R17LT, 7.50R16",
                                   at);
        task->marking[task->tyres++] = at;
        at = comma != NULL ? comma + 1 : NULL;
    }
    return 0;
}

static int take_within(const struct options *o, struct task *task)
{
    const struct brake_size_list *by = &task->list[0];
    const struct brake_quantity *q = brake_quantity_at(by->by);
    struct brake_size_list ends;
    double end[SIZES];
    task->low = q->low;
    task->high = q->high;
    if (o->within == NULL)
        return 0;
    const int status = take_sizes("--within", o->by.word[0], by->by, o->within, &ends, end);
    if (status != 0)
        return status;
    if (ends.count != 2 || !(end[0] < end[1]))
        return command_misused("--within '%s'; accepts LOW,HIGH with LOW below HIGH", o->within);
    task->low = end[0];
    task->high = end[1];
    return 0;
}

/* ---- what belongs together ------------------------------------------------------------------ */

static bool of_tyres(const char *by)
{
    return strcmp(by, "tyre") == 0 || strncmp(by, "tyre=", 5) == 0;
}

static int fits_lists(const struct options *o, const struct task *task)
{
    long cases = 1;
    for (int i = 0; i < o->by.count; i++) {
        cases *= task->list[i].count;
        for (int j = 0; j < i; j++) {
            if (task->list[i].by == task->list[j].by)
                return command_misused("--by: the same quantity twice");
        }
    }
    if (o->within != NULL)
        return command_misused("--within goes with one --by PATH, without a list");
    if (cases > COMBINATIONS)
        return command_misused("%ld combinations; accepts up to %d", cases, COMBINATIONS);
    return 0;
}

static int none_equal(const struct options *o, const struct task *task)
{
    for (int i = 0; i < o->wanted.count; i++) {
        if (task->target[i].relation == BRAKE_EQUAL)
            return command_misused("--for '%s': no size of a list gives exactly that; accepts >= "
                                   "and <=",
                                   o->wanted.word[i]);
    }
    return 0;
}

static int take_by(const struct options *o, struct task *task)
{
    int lists = 0;
    if (of_tyres(o->by.word[0])) {
        const char *list = o->by.word[0][4] == '=' ? o->by.word[0] + 5 : o->within;
        if (o->by.count > 1 || list == NULL || (o->by.word[0][4] == '=' && o->within != NULL))
            return command_misused("--by tyre wants one list of markings, and nothing beside it: "
                                   "--by tyre=LT285/75R16,LT305/70R17");
        return take_tyres(list, task);
    }
    for (int i = 0; i < o->by.count; i++) {
        const char *end = strchr(o->by.word[i], '=');
        char path[WORD];
        int index;
        (void)trimmed(o->by.word[i], end != NULL ? end : o->by.word[i] + strlen(o->by.word[i]),
                      path, sizeof path);
        int status = take_quantity(&task->sheet.vehicle, path, &index);
        task->list[i].by = index;
        if (status == 0 && end != NULL)
            status = take_sizes("--by", path, index, end + 1, &task->list[i], task->size[i]);
        else if (status == 0 && o->parts != NULL)
            status = take_own(path, index, &task->sheet.own, &task->list[i], task->size[i]);
        if (status != 0)
            return status;
        lists += task->list[i].count > 0;
    }
    if (lists > 0 && lists < o->by.count)
        return command_misused("--by: with more than one quantity each wants a list of sizes, "
                               "PATH=VALUE,VALUE");
    if (lists == 0 && o->by.count > 1)
        return command_misused("--by: more than one quantity wants a list of sizes for each, "
                               "PATH=VALUE,VALUE");
    if (lists == 0 && o->wanted.count > 1)
        return command_misused("--for: one target for one --by PATH; lists of sizes take several");
    return lists > 0 ? fits_lists(o, task) : take_within(o, task);
}

/* ---- words of the command line -------------------------------------------------------------- */

static int take_wanted(void *into, const struct words_option *option, char *text)
{
    struct options *o = into;
    enum brake_relation relation;
    const char *value;
    char name[WORD];
    const int status = words_keep(&o->wanted, option, text);
    if (status != 0)
        return status;
    (void)trimmed(text, relation_of(text, &relation, &value), name, sizeof name);
    return strncmp(name, DECEL_AT, strlen(DECEL_AT)) == 0 ? take_force(o, name) : 0;
}

static const struct words_option options[] = {
    {"--by", "PATH", words_keep, offsetof(struct options, by),
     "the line to change; PATH=SIZE,SIZE,... sizes to choose from, several --by: their "
     "combinations; tyre=MARKING,... the largest tyre that the brakes carry"},
    {"--for", "CRITERION", take_wanted, 0,
     "met, or 'CRITERION=10%' over; all: every one; regained: the brake torque per need of the "
     "vehicle before; 'RESULT=VALUE', or >= or <=, such as "
     "'full.deceleration.at_pedal_force=7m/s2'; 'decel at 300 N = 7 m/s2' is that one, with "
     "driver.pedal_force set to 300 N. May be repeated with lists of sizes"},
    {"--within", "LOW,HIGH", words_take_text, offsetof(struct options, within),
     "where to look (the range of the line)"},
    {"--before", "FILE", words_take_text, offsetof(struct options, before), words_help_before},
    {"--parts", "LIST.csv", words_take_text, offsetof(struct options, parts), words_help_parts},
    {"--set", "PATH=VALUE", words_keep, offsetof(struct options, set), words_help_set},
    {"--rules", WORDS_RULES, words_take_rules, offsetof(struct options, rules), words_help_rules},
    {"--units", "us|si|both", words_take_units, offsetof(struct options, units), words_help_units},
    {"--json", "", NULL, offsetof(struct options, json), words_help_json},
    {NULL, "FILE", words_take_file, offsetof(struct options, file), words_help_file}};

static int take_words(char **words, struct options *o)
{
    const int status = words_take(words, options, o);
    if (status != 0)
        return status;
    if (o->file == NULL)
        return command_misused("size wants a vehicle file");
    if (o->by.count == 0)
        return command_misused("size wants --by, the quantity to change");
    if (o->wanted.count == 0)
        return command_misused("size wants --for, a criterion or 'RESULT = VALUE'");
    if (o->force[0] != '\0')
        o->set.word[o->set.count++] = o->force;
    return 0;
}

/* ---- the run -------------------------------------------------------------------------------- */

static int print(const struct options *o, const struct brake_size_report *report)
{
    const enum brake_format format = o->json ? BRAKE_AS_JSON : BRAKE_AS_TEXT;
    struct brake_document *d = command_document(o->units, format);
    if (d != NULL)
        brake_answer_size(d, report);
    const int status = command_print(d, format, stdout);
    return status != 0 ? status : brake_size_report_exit(report);
}

static int run_range(const struct options *o, const struct task *task,
                     const struct brake_size_report *asked)
{
    struct brake_size_report report = *asked;
    const struct brake_size_question question = {&task->sheet, task->list[0].by, task->low,
                                                 task->high, task->target[0]};
    struct brake_size size;
    struct brake_error error;
    struct progress progress;
    const struct brake_watch watch = progress_begin_study(&progress, "values", 0.0);
    const enum brake_status status = brake_size_find(&question, &watch, &size, &error);
    progress_end(&progress);
    if (status != BRAKE_OK) {
        command_tell("stopmargin: --by %s: %s: %s\n", o->by.word[0], error.field, error.text);
        return EXIT_REFUSED;
    }
    report.question = &question;
    report.size = &size;
    return size.roots.stopped ? progress_stopped() : print(o, &report);
}

static int run_lists(const struct options *o, const struct task *task,
                     const struct brake_size_report *asked)
{
    struct brake_size_report report = *asked;
    static struct brake_choice choice[KEPT];
    struct brake_choice_count count;
    const struct brake_choice_question question = {&task->sheet, task->list, o->by.count,
                                                   task->target, o->wanted.count};
    report.lists = &question;
    report.choice = choice;
    struct progress progress;
    const struct brake_watch watch = progress_begin_study(&progress, "combinations", 0.0);
    report.choices = brake_choose(&question, &watch, choice, KEPT, &count);
    progress_end(&progress);
    report.count = &count;
    return count.stopped ? progress_stopped() : print(o, &report);
}

static int run_tyres(const struct options *o, const struct task *task,
                     const struct brake_size_report *asked)
{
    struct brake_size_report report = *asked;
    struct brake_tyre_choice tyre[TYRES];
    const struct brake_choice_question question = {
        .sheet = &task->sheet, .target = task->target, .targets = o->wanted.count};
    struct progress progress;
    const struct brake_watch watch = progress_begin_study(&progress, "tyres", 0.0);
    const bool all = brake_choose_tyres(&question, task->marking, task->tyres, &watch, tyre);
    progress_end(&progress);
    report.tyre = tyre;
    report.tyres = task->tyres;
    return all ? print(o, &report) : progress_stopped();
}

static int run_size(char **words)
{
    static struct task task; /* it is large, and its lists are empty */
    /* one setting is kept for that of "decel at" */
    struct options o = {.rules = BRAKE_RULES_OWN,
                        .set = {.most = COMMAND_SETTINGS - 1},
                        .by = {.most = BRAKE_SIZE_LISTS},
                        .wanted = {.most = BRAKE_TARGETS}};
    int status = take_words(words, &o);
    if (status == 0)
        status = command_read(o.file, &o.set, &o.units, &task.sheet);
    if (status == 0 && o.parts != NULL)
        status = command_parts(o.parts, &task.sheet);
    if (status == 0)
        status = take_targets(&o, &task);
    if (status == 0)
        status = take_by(&o, &task);
    const bool range = status == 0 && task.tyres == 0 && task.list[0].count == 0;
    if (status == 0 && !range)
        status = none_equal(&o, &task);
    if (status != 0)
        return status;
    struct brake_size_report report = {
        .sheet = &task.sheet, .target = task.target, .targets = o.wanted.count};
    if (range)
        return run_range(&o, &task, &report);
    return task.tyres > 0 ? run_tyres(&o, &task, &report) : run_lists(&o, &task, &report);
}

const struct words_verb verb_size = {
    "size",
    "--by PATH --for CRITERION",
    "what must be fitted",
    "Says what must be fitted: every value of a line that meets a criterion or gives a result, and "
    "which verdicts change there; without an answer, the nearest value and what limits.",
    "0 there is an answer; 1 there is none; 3 it could not be said.",
    options,
    run_size};
