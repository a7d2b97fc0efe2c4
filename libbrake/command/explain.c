#include <math.h>
#include <stdio.h>
#include <string.h>

#include "verbs.h"
#include "answer/cell.h"
#include "answer/paragraph.h"
#include "vehicle/text.h"

static void print_range(const struct brake_quantity *q)
{
    const struct brake_unit *unit = brake_unit_of(q->unit, q->dimension);
    const struct brake_unit *us = brake_unit_beside(unit);
    brake_text_print(stdout, "  unit      %s", q->unit[0] ? q->unit : "none");
    if (us != unit)
        brake_text_print(stdout, ", or %s and others of the trade", us->name);
    brake_text_print(stdout, "\n  range     %.4g to %.4g%s%s", brake_unit_from_si(unit, q->low),
                     brake_unit_from_si(unit, q->high), q->unit[0] ? " " : "", q->unit);
    if (us != unit)
        brake_text_print(stdout, " (%.4g to %.4g %s)", brake_unit_from_si(us, q->low),
                         brake_unit_from_si(us, q->high), us->name);
    putchar('\n');
}

static void print_default(const struct brake_quantity *q)
{
    char text[400];
    size_t used;
    if (isnan(q->fallback))
        brake_text_format(text, sizeof text, "%s", q->why != NULL ? "worked out" : "none");
    else if (q->kind == BRAKE_CHOICE)
        brake_text_format(text, sizeof text, "%s", q->choices[(int)q->fallback]);
    else
        brake_text_format(text, sizeof text, "%.4g%s%s",
                          brake_unit_from_si(brake_unit_of(q->unit, q->dimension), q->fallback),
                          q->unit[0] ? " " : "", q->unit);
    used = strlen(text);
    brake_text_format(text + used, sizeof text - used, "%s%s%s", q->why != NULL ? "; " : "",
                      q->why != NULL ? q->why : "",
                      isnan(q->fallback) && q->need == BRAKE_NEEDED
                          ? "; the line, or what gives it, is needed"
                          : "");
    brake_paragraph(stdout, "  default   ", text);
}

static void print_danger(const struct brake_quantity *q)
{
    static const char *const words[] = {
        "either way, depending on the result looked at",
        "when the entry is too low: the real vehicle is worse than the result",
        "when the entry is too high: the real vehicle is worse than the result"};
    brake_text_print(stdout, "  danger    %s\n", words[q->danger]);
}

static void print_choices(const struct brake_quantity *q)
{
    brake_text_print(stdout, "  one of   ");
    for (int i = 0; q->choices[i] != NULL; i++)
        brake_text_print(stdout, "%s %s", i > 0 ? "," : "", q->choices[i]);
    putchar('\n');
}

static void explain_quantity(const char *path, const struct brake_quantity *q)
{
    puts(path);
    brake_paragraph(stdout, "  meaning   ", q->meaning);
    if (q->symbol != NULL)
        brake_text_print(stdout, "  symbol    %s\n", q->symbol);
    if (q->kind == BRAKE_REAL || q->kind == BRAKE_PISTONS || q->kind == BRAKE_CURVE)
        print_range(q);
    if (q->kind == BRAKE_CHOICE)
        print_choices(q);
    print_default(q);
    brake_paragraph(stdout, "  measure   ", q->measure);
    if (q->kind == BRAKE_REAL || q->kind == BRAKE_PISTONS) {
        print_danger(q);
        brake_text_print(stdout,
                         "  doubt     %.3g %% of the value when the file states no tolerance\n",
                         100.0 * q->typical);
    }
}

static void explain_result(int index)
{
    const struct brake_result *row = brake_result_at(index);
    char path[80];
    brake_result_path(index, path, sizeof path);
    brake_text_print(stdout, "%s (a result)\n", path);
    brake_paragraph(stdout, "  meaning   ", row->meaning);
    const struct brake_unit *unit = brake_unit_of(row->unit, row->dimension);
    const struct brake_unit *us = brake_unit_beside(unit);
    brake_text_print(stdout, "  unit      %s%s%s\n", row->unit[0] ? row->unit : "none",
                     us != unit ? ", or " : "", us != unit ? us->name : "");
}

/* The lines of a part are the same for every part: part.winch.mass is explained as part.mass. */
static const struct brake_quantity *part_row(const char *path)
{
    const struct brake_section *parts = brake_section_at(brake_section_count() - 1);
    const char *name = strrchr(path, '.');
    for (int row = 0; strncmp(path, "part.", 5) == 0 && row < parts->count; row++) {
        if (strcmp(parts->rows[row].name, name + 1) == 0)
            return &parts->rows[row];
    }
    return NULL;
}

static void list_line(const char *name, int width, const char *meaning)
{
    char head[64];
    brake_text_format(head, sizeof head, "  %-*.60s ", width, name);
    brake_paragraph(stdout, head, meaning);
}

static void list_everything(void)
{
    const int parts = brake_section_count() - 1;
    for (int i = 0; i <= parts; i++) {
        const struct brake_section *section = brake_section_at(i);
        brake_text_print(stdout, "[%s%s] %s\n", section->path, i == parts ? ".NAME" : "",
                         section->meaning);
        for (int row = 0; row < section->count; row++)
            list_line(section->rows[row].name, 20, section->rows[row].meaning);
    }
    puts("\nResults (of each load case: empty.NAME, full.NAME)");
    for (int i = 0; i < brake_result_find("full.mass.total"); i++)
        list_line(brake_result_at(i)->name, 38, brake_result_at(i)->meaning);
    for (int i = brake_result_count(); i < brake_result_all(); i++)
        list_line(brake_result_at(i)->name, 38, brake_result_at(i)->meaning);
}

/* A result may be asked for with or without its load case. */
static int find_result(const char *path)
{
    char with_case[120];
    const int index = brake_result_find(path);
    if (index >= 0)
        return index;
    brake_text_format(with_case, sizeof with_case, "empty.%.100s", path);
    return brake_result_find(with_case);
}

static int unknown(const char *path)
{
    struct brake_output near;
    if (brake_catalogue_nearest(path) < 0 && brake_output_nearest(path, &near) == BRAKE_OK)
        return words_unknown_output("", path);
    return words_unknown_path("", NULL, path);
}

static int explain(const char *path)
{
    const int index = brake_catalogue_find(NULL, path);
    const int result = find_result(path);
    const struct brake_quantity *quantity = index >= 0 ? brake_quantity_at(index) : part_row(path);
    if (quantity != NULL)
        explain_quantity(path, quantity);
    else if (result >= 0)
        explain_result(result);
    return quantity != NULL || result >= 0 ? 0 : unknown(path);
}

struct options {
    char *path;
};

static int take_path(void *into, const struct words_option *option, char *word)
{
    struct options *o = into;
    (void)option;
    if (o->path != NULL)
        return command_misused("explain takes one path; got '%s' and '%s'", o->path, word);
    o->path = word;
    return 0;
}

static const struct words_option options[] = {
    {NULL, "[PATH]", take_path, 0, "a line or a result; left out: all of them, listed"}};

static int run_explain(char **words)
{
    struct options o = {NULL};
    const int status = words_take(words, options, &o);
    if (status == 0 && o.path == NULL)
        list_everything();
    return status != 0 || o.path == NULL ? status : explain(o.path);
}

const struct words_verb verb_explain = {"explain",
                                        "",
                                        "the lines of a vehicle file, and the results",
                                        "Says what a line of the vehicle file means, its unit, "
                                        "range and default, how to measure it, and "
                                        "which error is the dangerous one; or what a result means.",
                                        "0 it was explained.",
                                        options,
                                        run_explain};
