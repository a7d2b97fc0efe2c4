#include <math.h>
#include <stdio.h>
#include <string.h>

#include "brake/file.h"
#include "brake/report.h"
#include "brake/version.h"
#include "json.h"
#include "paragraph.h"
#include "words.h"
#include "vehicle/text.h"

struct page {
    const struct brake_comparison *c;
    FILE *stream;
};

static const char *const sides[] = {"before", "after"};

static const char *name_of(const struct brake_sheet *sheet)
{
    const char *name = sheet->vehicle.general.name;
    return name[0] != '\0' ? name : "Vehicle without a name";
}

static const char *axle_words(int axle)
{
    return axle == BRAKE_BOTH_AXLES ? "both" : brake_axle_word((enum brake_axle)axle);
}

/* ---- numbers --------------------------------------------------------------------------------- */

/* Margins are told in points of a percent. */
static const struct brake_unit *unit_of(struct brake_output output)
{
    const struct brake_result *row = output.criterion ? NULL : brake_result_at(output.index);
    return row == NULL ? brake_unit_find("%") : brake_unit_of(row->unit, row->dimension);
}

static void shares(const struct page *p, const struct brake_compared *one,
                   const struct brake_unit *unit)
{
    char text[BRAKE_SHARES_TEXT];
    brake_words_shares(one, unit, text, sizeof text);
    if (text[0] != '\0')
        brake_paragraph(p->stream, "      ", text);
}

/* ---- verdict --------------------------------------------------------------------------------- */

static void say_regained(const struct page *p)
{
    const enum brake_load load = brake_compare_worst(p->c);
    const struct brake_compared *both = &p->c->like[load][BRAKE_BOTH_AXLES];
    const double missing = brake_like_missing(both);
    char text[500];
    if (isnan(missing))
        brake_text_format(text, sizeof text,
                          "like for like: cannot say; the torque per need is not known");
    else if (missing > 0.0)
        brake_text_format(
            text, sizeof text,
            "NOT REGAINED: the stopping torque per unit of need was %.3g and is %.3g, load %s: "
            "%.3g %% is missing",
            both->before, both->after, brake_load_word(load), 100.0 * missing);
    else
        brake_text_format(
            text, sizeof text,
            "regained: the stopping torque per unit of need was %.3g and is %.3g, load %s",
            both->before, both->after, brake_load_word(load));
    for (int i = 0; i < BRAKE_LOADS * BRAKE_AXLES; i++) {
        const int axle = i % BRAKE_AXLES;
        const double lacks = brake_like_missing(&p->c->like[i / BRAKE_AXLES][axle]);
        const size_t used = strlen(text);
        if (lacks > 0.0)
            brake_text_format(text + used, sizeof text - used, "; %s axle, %s: %.3g %% missing",
                              axle_words(axle), brake_load_word((enum brake_load)(i / BRAKE_AXLES)),
                              100.0 * lacks);
    }
    brake_paragraph(p->stream, "Verdict   ", text);
}

static void say_lost(const struct page *p)
{
    char text[4000] = "";
    int count = 0;
    for (int i = 0; i < brake_criterion_count(); i++) {
        const size_t used = strlen(text);
        if (brake_compare_lost(p->c, i))
            brake_text_format(
                text + used, sizeof text - used, "%s%s",
                count++ > 0 ? ", " : "met before, FALLS SHORT now: ", brake_criterion_at(i)->id);
    }
    brake_paragraph(p->stream, "Lost      ",
                    count > 0 ? text : "nothing that was met before falls short now");
}

/* The group that took most, or gave most; -1: none did. */
static int extreme(const struct brake_compared *one, double sign)
{
    int most = -1;
    for (int i = 0; i < BRAKE_CHANGES && one->reason == NULL; i++) {
        if (brake_change_moves(one, i) && sign * one->share[i] > 0.0 &&
            (most < 0 || sign * one->share[i] > sign * one->share[most]))
            most = i;
    }
    return most;
}

static void say_extreme(const struct page *p, const char *head, double sign)
{
    const struct brake_compared *both = &p->c->like[brake_compare_worst(p->c)][BRAKE_BOTH_AXLES];
    const int change = extreme(both, sign);
    char text[200] = "no change did";
    if (both->reason != NULL)
        brake_text_format(text, sizeof text, "cannot say: %s", both->reason);
    else if (change >= 0)
        brake_text_format(text, sizeof text,
                          "%s (%s): %+.3g of the torque per need, %+.3g %% of what was",
                          brake_change_word((enum brake_change)change),
                          brake_change_meaning((enum brake_change)change), both->share[change],
                          100.0 * both->share[change] / both->before);
    brake_paragraph(p->stream, head, text);
}

static void verdict(const struct page *p)
{
    brake_text_print(p->stream, "Before: %s\nAfter:  %s\n", name_of(p->c->before),
                     name_of(p->c->after));
    say_regained(p);
    say_extreme(p, "Took most ", -1.0);
    say_extreme(p, "Gave most ", 1.0);
    say_lost(p);
    brake_paragraph(p->stream, "Caution   ", BRAKE_CAUTION);
}

/* ---- tables ---------------------------------------------------------------------------------- */

static void like_for_like(const struct page *p)
{
    fputs("\nLIKE FOR LIKE: torque available over torque needed for driver.target\n", p->stream);
    brake_text_print(p->stream, "  %-14s %9s %9s %11s\n", "load, axle", "before", "after",
                     "missing");
    for (int load = 0; load < BRAKE_LOADS; load++) {
        for (int axle = 0; axle <= BRAKE_BOTH_AXLES; axle++) {
            const struct brake_compared *one = &p->c->like[load][axle];
            char head[20];
            brake_text_format(head, sizeof head, "%s, %s", brake_load_word((enum brake_load)load),
                              axle_words(axle));
            brake_text_print(p->stream, "  %-14s", head);
            if (isnan(brake_like_missing(one)))
                fputs(" cannot say\n", p->stream);
            else
                brake_text_print(p->stream, " %9.3f %9.3f %9.3g %%\n", one->before, one->after,
                                 100.0 * brake_like_missing(one));
            shares(p, one, brake_unit_si(BRAKE_RATIO));
        }
    }
}

static void side_words(const struct page *p, int margin, int side, char *text, size_t size)
{
    const struct brake_compared *one = &p->c->margin[margin];
    const struct brake_output output = p->c->output[margin];
    const double value = side == 0 ? one->before : one->after;
    const char *judged =
        output.criterion ? brake_verdict_words(p->c->judgement[side][output.index].verdict) : "";
    if (isnan(value))
        brake_text_format(text, size, "cannot say");
    else if (isinf(value))
        brake_text_format(text, size, "%s%swithout limit", judged, judged[0] ? ", " : "");
    else if (output.criterion)
        brake_text_format(text, size, "%s, %+.3g %%", judged, 100.0 * value);
    else
        brake_words_amount(unit_of(output), value, text, size);
}

static const char *why_unsaid(const struct page *p, int margin)
{
    const struct brake_output output = p->c->output[margin];
    const int side = isnan(p->c->margin[margin].before) ? 0 : 1;
    return output.criterion ? p->c->judgement[side][output.index].reason : NULL;
}

static void margin_line(const struct page *p, int margin)
{
    const struct brake_compared *one = &p->c->margin[margin];
    char name[80];
    char side[2][100];
    char difference[100] = "";
    char text[600];
    brake_output_name(p->c->output[margin], name, sizeof name);
    for (int i = 0; i < 2; i++)
        side_words(p, margin, i, side[i], sizeof side[i]);
    if (isfinite(one->after - one->before))
        brake_words_difference(difference, sizeof difference, unit_of(p->c->output[margin]),
                               one->after - one->before);
    brake_text_format(text, sizeof text, "%s: %s; now %s%s%s", name, side[0], side[1],
                      difference[0] ? "; " : "", difference);
    brake_paragraph(p->stream, "  ", text);
    const char *why = isfinite(one->before) && isfinite(one->after) ? NULL : why_unsaid(p, margin);
    if (why != NULL)
        brake_paragraph(p->stream, "      ", why);
    shares(p, one, unit_of(p->c->output[margin]));
}

static void margins(const struct page *p)
{
    brake_text_print(
        p->stream,
        "\nMARGINS AND WHAT EACH CHANGE DID TO THEM (requirements: restated; check each\n"
        "against the current text.%s)\n",
        p->c->faded ? "" : " Hot performance: with --fade.");
    for (int criterion = 1; criterion >= 0; criterion--) {
        for (int i = 0; i < p->c->margins; i++) {
            if (p->c->output[i].criterion == (criterion == 1))
                margin_line(p, i);
        }
    }
}

static bool differs(double before, double after)
{
    return isnan(before) != isnan(after) || before < after || before > after;
}

static void cell(FILE *stream, const struct brake_unit *unit, double value)
{
    if (isfinite(value))
        brake_text_print(stream, " %8.4g", brake_unit_from_si(unit, value));
    else
        brake_text_print(stream, " %8s", "-");
}

static void number_line(const struct page *p, int result)
{
    const struct brake_result *row = brake_result_at(result);
    const double before = brake_result_value(&p->c->results[0], result);
    const double after = brake_result_value(&p->c->results[1], result);
    const struct brake_unit *unit = brake_unit_of(row->unit, row->dimension);
    const struct brake_unit *both[] = {unit, brake_unit_beside(unit)};
    if (!differs(before, after))
        return;
    for (int u = 0; u < (both[1] != both[0] ? 2 : 1); u++) {
        brake_text_print(p->stream, "  %-38s", u == 0 ? row->name : "");
        cell(p->stream, both[u], before);
        cell(p->stream, both[u], after);
        if (isfinite(after - before))
            brake_text_print(p->stream, " %+8.3g", (after - before) / both[u]->factor);
        else
            brake_text_print(p->stream, " %8s", "-");
        brake_text_print(p->stream, "%s%s\n", both[u]->name[0] ? "  " : "", both[u]->name);
    }
}

static void numbers(const struct page *p)
{
    const int first = brake_result_find("empty.mass.total");
    const int full = brake_result_find("full.mass.total");
    const int from[] = {0, first, full, brake_result_count()};
    static const char *const heads[] = {"in either load case", "empty", "full"};
    fputs("\nNUMBERS THAT DIFFER (meaning of each: stopmargin explain NAME)\n", p->stream);
    for (int part = 0; part < 3; part++) {
        brake_text_print(p->stream, "  %-38s %8s %8s %8s\n", heads[part], "before", "after",
                         "change");
        for (int i = from[part]; i < from[part + 1]; i++)
            number_line(p, i);
    }
}

static void line_value(const struct brake_sheet *sheet, int index, char *text, size_t size)
{
    brake_text_format(text, size, "not given");
    if (index >= 0 && sheet->record[index].from != BRAKE_ABSENT)
        brake_value_write(&sheet->vehicle, index, text, size);
}

static void lines(const struct page *p)
{
    struct brake_changed_line line[2 * BRAKE_ROWS];
    const int count = brake_changed_lines(p->c->before, p->c->after, line);
    fputs(count > 0 ? "\nLINES THAT DIFFER\n" : "\nNO LINE DIFFERS\n", p->stream);
    for (int i = 0; i < count; i++) {
        const bool old = line[i].before >= 0;
        const int index = old ? line[i].before : line[i].after;
        char path[160];
        char value[2][2048];
        char text[4400];
        brake_catalogue_path(&(old ? p->c->before : p->c->after)->vehicle, index, path,
                             sizeof path);
        line_value(p->c->before, line[i].before, value[0], sizeof value[0]);
        line_value(p->c->after, line[i].after, value[1], sizeof value[1]);
        brake_text_format(text, sizeof text, "%s: %s; now %s [%s]", path, value[0], value[1],
                          brake_change_word(brake_change_of(index)));
        brake_paragraph(p->stream, "  - ", text);
    }
}

void brake_report_comparison_text(const struct brake_comparison *comparison, FILE *stream)
{
    const struct page p = {comparison, stream};
    verdict(&p);
    like_for_like(&p);
    margins(&p);
    numbers(&p);
    lines(&p);
    fputc('\n', stream);
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    brake_text_print(stream, "libbrake %s\n", BRAKE_VERSION);
}

/* ---- JSON ------------------------------------------------------------------------------------ */

static void add_compared(cJSON *object, const struct brake_comparison *c,
                         const struct brake_compared *one)
{
    brake_json_number(object, "before", one->before);
    brake_json_number(object, "after", one->after);
    brake_json_number(object, "difference", one->after - one->before);
    if (one->reason == NULL) {
        cJSON *all = cJSON_AddObjectToObject(object, "shares");
        for (int i = 0; i < c->changes; i++)
            brake_json_number(all, brake_change_word(c->change[i]), one->share[c->change[i]]);
    } else {
        cJSON_AddNullToObject(object, "shares");
    }
    brake_json_text(object, "reason", one->reason);
}

static cJSON *verdict_object(const struct brake_comparison *c)
{
    cJSON *one = cJSON_CreateObject();
    const enum brake_load load = brake_compare_worst(c);
    const struct brake_compared *both = &c->like[load][BRAKE_BOTH_AXLES];
    const double missing = brake_like_missing(both);
    const int took = extreme(both, -1.0);
    const int gave = extreme(both, 1.0);
    if (isnan(missing))
        cJSON_AddNullToObject(one, "regained");
    else
        cJSON_AddBoolToObject(one, "regained", !(missing > 0.0));
    brake_json_number(one, "missing", missing);
    brake_json_text(one, "load", brake_load_word(load));
    brake_json_text(one, "took_most",
                    took >= 0 ? brake_change_word((enum brake_change)took) : NULL);
    brake_json_text(one, "gave_most",
                    gave >= 0 ? brake_change_word((enum brake_change)gave) : NULL);
    cJSON *lost = cJSON_AddArrayToObject(one, "lost");
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (brake_compare_lost(c, i))
            cJSON_AddItemToArray(lost, cJSON_CreateString(brake_criterion_at(i)->id));
    }
    return one;
}

static cJSON *side_object(const struct brake_comparison *c, int side)
{
    static const char *const keys[] = {"meets", "falls_short", "cannot_say"};
    cJSON *one = cJSON_CreateObject();
    int count[3] = {0};
    for (int i = 0; i < c->margins; i++) {
        if (c->output[i].criterion && c->judgement[side][c->output[i].index].applies)
            count[c->judgement[side][c->output[i].index].verdict]++;
    }
    brake_json_text(one, "name", (side == 0 ? c->before : c->after)->vehicle.general.name);
    for (int i = 0; i < 3; i++)
        cJSON_AddNumberToObject(one, keys[i], count[i]);
    return one;
}

static cJSON *groups_array(const struct brake_comparison *c)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; i < c->changes; i++) {
        cJSON *one = cJSON_CreateObject();
        brake_json_text(one, "id", brake_change_word(c->change[i]));
        brake_json_text(one, "meaning", brake_change_meaning(c->change[i]));
        cJSON_AddItemToArray(all, one);
    }
    return all;
}

static cJSON *likes_object(const struct brake_comparison *c)
{
    cJSON *all = cJSON_CreateObject();
    for (int load = 0; load < BRAKE_LOADS; load++) {
        cJSON *of_load = cJSON_AddObjectToObject(all, brake_load_word((enum brake_load)load));
        for (int axle = 0; axle <= BRAKE_BOTH_AXLES; axle++) {
            cJSON *one = cJSON_AddObjectToObject(of_load, axle_words(axle));
            add_compared(one, c, &c->like[load][axle]);
            brake_json_number(one, "missing", brake_like_missing(&c->like[load][axle]));
        }
    }
    return all;
}

static cJSON *margin_object(const struct brake_comparison *c, int margin)
{
    const struct brake_output output = c->output[margin];
    cJSON *one = cJSON_CreateObject();
    char name[80];
    brake_output_name(output, name, sizeof name);
    brake_json_text(one, output.criterion ? "id" : "path", name);
    brake_json_text(one, "unit", brake_unit_si(brake_output_dimension(output))->name);
    add_compared(one, c, &c->margin[margin]);
    for (int i = 0; i < 2 && output.criterion; i++) {
        const struct brake_judgement *j = &c->judgement[i][output.index];
        char key[40];
        brake_text_format(key, sizeof key, "verdict_%s", sides[i]);
        brake_json_text(one, key, brake_verdict_words(j->verdict));
        brake_text_format(key, sizeof key, "reason_%s", sides[i]);
        brake_json_text(one, key, j->reason);
    }
    return one;
}

static cJSON *results_array(const struct brake_comparison *c)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; i < brake_result_count(); i++) {
        const double before = brake_result_value(&c->results[0], i);
        const double after = brake_result_value(&c->results[1], i);
        char path[80];
        if (!differs(before, after))
            continue;
        cJSON *one = cJSON_CreateObject();
        brake_result_path(i, path, sizeof path);
        brake_json_text(one, "path", path);
        brake_json_text(one, "unit", brake_unit_si(brake_result_at(i)->dimension)->name);
        brake_json_number(one, "before", before);
        brake_json_number(one, "after", after);
        brake_json_number(one, "difference", after - before);
        cJSON_AddItemToArray(all, one);
    }
    return all;
}

static void add_line_value(cJSON *object, const char *name, const struct brake_sheet *sheet,
                           int index)
{
    struct brake_vehicle vehicle = sheet->vehicle;
    if (index >= 0 && sheet->record[index].from != BRAKE_ABSENT)
        brake_json_value(object, name, &vehicle, index);
    else
        cJSON_AddNullToObject(object, name);
}

static cJSON *lines_array(const struct brake_comparison *c)
{
    struct brake_changed_line line[2 * BRAKE_ROWS];
    const int count = brake_changed_lines(c->before, c->after, line);
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; i < count; i++) {
        const bool old = line[i].before >= 0;
        const int index = old ? line[i].before : line[i].after;
        cJSON *one = cJSON_CreateObject();
        char path[160];
        brake_catalogue_path(&(old ? c->before : c->after)->vehicle, index, path, sizeof path);
        brake_json_text(one, "path", path);
        brake_json_text(one, "group", brake_change_word(brake_change_of(index)));
        brake_json_text(one, "unit", brake_unit_si(brake_quantity_at(index)->dimension)->name);
        add_line_value(one, "before", c->before, line[i].before);
        add_line_value(one, "after", c->after, line[i].after);
        cJSON_AddItemToArray(all, one);
    }
    return all;
}

char *brake_report_comparison_json(const struct brake_comparison *comparison)
{
    const struct brake_comparison *c = comparison;
    cJSON *all = cJSON_CreateObject();
    cJSON *list = cJSON_CreateArray();
    for (int i = 0; i < c->margins; i++)
        cJSON_AddItemToArray(list, margin_object(c, i));
    brake_json_text(all, "libbrake", BRAKE_VERSION);
    brake_json_text(all, "caution", BRAKE_CAUTION);
    cJSON_AddItemToObject(all, "verdict", verdict_object(c));
    cJSON_AddItemToObject(all, "before", side_object(c, 0));
    cJSON_AddItemToObject(all, "after", side_object(c, 1));
    cJSON_AddItemToObject(all, "groups", groups_array(c));
    cJSON_AddItemToObject(all, "like_for_like", likes_object(c));
    cJSON_AddItemToObject(all, "margins", list);
    cJSON_AddItemToObject(all, "results", results_array(c));
    cJSON_AddItemToObject(all, "lines", lines_array(c));
    char *text = cJSON_Print(all);
    cJSON_Delete(all);
    return text;
}
