#include <math.h>

#include "brake/version.h"
#include "json.h"
#include "size.h"

static const char *relation_word(enum brake_relation relation)
{
    static const char *const words[] = {
        [BRAKE_EQUAL] = "=", [BRAKE_AT_LEAST] = ">=", [BRAKE_AT_MOST] = "<="};
    return words[relation];
}

static const char *target_si(const struct brake_target *target)
{
    return brake_unit_si(target->every ? BRAKE_RATIO : brake_output_dimension(target->output))
        ->name;
}

static void add_path(cJSON *object, const struct brake_size_report *r, int quantity)
{
    char path[160];
    brake_catalogue_path(&r->sheet->vehicle, quantity, path, sizeof path);
    brake_json_text(object, "path", path);
    brake_json_text(object, "unit", brake_unit_si(brake_quantity_at(quantity)->dimension)->name);
}

static cJSON *by_quantity(const struct brake_size_report *r, int quantity)
{
    cJSON *one = cJSON_CreateObject();
    add_path(one, r, quantity);
    brake_json_number(one, "now", brake_quantity_value(&r->sheet->vehicle, quantity));
    return one;
}

static cJSON *by_array(const struct brake_size_report *r)
{
    cJSON *all = cJSON_CreateArray();
    if (r->size != NULL)
        cJSON_AddItemToArray(all, by_quantity(r, r->question->by));
    for (int i = 0; r->lists != NULL && i < r->lists->lists; i++) {
        const struct brake_size_list *list = &r->lists->list[i];
        cJSON *one = by_quantity(r, list->by);
        cJSON_AddItemToObject(one, "sizes", cJSON_CreateDoubleArray(list->value, list->count));
        cJSON_AddItemToArray(all, one);
    }
    if (r->tyre != NULL) {
        cJSON *one = cJSON_CreateObject();
        brake_json_text(one, "path", "tyre");
        brake_json_text(one, "note", BRAKE_SIZE_TYRES_NOTE);
        cJSON_AddItemToArray(all, one);
    }
    return all;
}

static cJSON *for_array(const struct brake_size_report *r)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; i < r->targets; i++) {
        cJSON *one = cJSON_CreateObject();
        char name[80];
        brake_size_target_name(&r->target[i], name, sizeof name);
        brake_json_text(one, "name", name);
        brake_json_text(one, "relation", relation_word(r->target[i].relation));
        brake_json_number(one, "value", r->target[i].value);
        brake_json_text(one, "unit", target_si(&r->target[i]));
        brake_json_number(one, "now", brake_target_value(&r->target[i], &r->sheet->vehicle));
        cJSON_AddItemToArray(all, one);
    }
    return all;
}

static cJSON *within_object(const struct brake_size_report *r)
{
    if (r->size == NULL)
        return cJSON_CreateNull();
    const struct brake_roots *roots = &r->size->roots;
    cJSON *one = cJSON_CreateObject();
    cJSON *unknown = cJSON_AddArrayToObject(one, "cannot_say");
    brake_json_number(one, "low", r->question->low);
    brake_json_number(one, "high", r->question->high);
    add_path(one, r, r->question->by);
    brake_json_number(one, "points", r->size->scan.points);
    brake_json_text(one, "spacing", r->size->scan.logarithmic ? "by ratio" : "even");
    for (int i = 0; i < roots->stretches; i++)
        cJSON_AddItemToArray(
            unknown,
            cJSON_CreateDoubleArray((double[]){roots->stretch[i].low, roots->stretch[i].high}, 2));
    return one;
}

/* ---- answers -------------------------------------------------------------------------------- */

static cJSON *answer(const struct brake_size_report *r, const struct brake_root *root)
{
    static const char *const kinds[] = {
        [BRAKE_CROSSING] = "crossing", [BRAKE_TOUCH] = "touch", [BRAKE_JUMP] = "jump"};
    const struct brake_quantity *q = brake_quantity_at(r->question->by);
    cJSON *one = cJSON_CreateObject();
    char shown[80];
    brake_json_number(one, "value", root->x);
    brake_json_text(one, "unit", brake_unit_si(q->dimension)->name);
    brake_json_text(one, "side",
                    root->kind == BRAKE_TOUCH ? "exactly"
                    : root->rises             ? "or more"
                                              : "or less");
    brake_json_text(one, "kind", kinds[root->kind]);
    brake_size_amount(shown, sizeof shown, brake_size_line_unit(r->question->by), root->x,
                      root->kind == BRAKE_TOUCH ? BRAKE_NEAREST
                      : root->rises             ? BRAKE_UP
                                                : BRAKE_DOWN);
    brake_json_text(one, "shown", shown);
    return one;
}

static cJSON *answers_array(const struct brake_size_report *r)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; r->size != NULL && i < r->size->roots.count; i++) {
        if (r->target->relation != BRAKE_EQUAL || r->size->roots.root[i].kind != BRAKE_JUMP)
            cJSON_AddItemToArray(all, answer(r, &r->size->roots.root[i]));
    }
    const struct brake_tyre_choice *largest = r->tyre != NULL ? brake_size_largest(r) : NULL;
    if (largest != NULL) {
        cJSON *one = cJSON_CreateObject();
        brake_json_number(one, "value", largest->diameter);
        brake_json_text(one, "unit", "m");
        brake_json_text(one, "side", "largest");
        brake_json_text(one, "marking", largest->marking);
        cJSON_AddItemToArray(all, one);
    }
    return all;
}

static void add_holds(cJSON *object, const struct brake_size_report *r)
{
    cJSON *all = cJSON_AddArrayToObject(object, "held_by");
    for (int i = 0; i < r->size->limits; i++) {
        const struct brake_size_limit *limit = &r->size->limit[i];
        cJSON *one = cJSON_CreateObject();
        add_path(one, r, limit->quantity);
        brake_json_text(one, "words", limit->words);
        brake_json_number(one, "a_tenth_more_gives", limit->value);
        cJSON_AddItemToArray(all, one);
    }
}

static cJSON *limits_object(const struct brake_size_report *r)
{
    if (r->size == NULL)
        return cJSON_CreateNull();
    const struct brake_roots *roots = &r->size->roots;
    cJSON *one = cJSON_CreateObject();
    cJSON *jumps = cJSON_AddArrayToObject(one, "jumps");
    const bool answered = brake_size_answered(r->question, r->size);
    cJSON_AddBoolToObject(one, "answered", answered);
    cJSON_AddBoolToObject(one, "whole_range", answered && roots->count == 0);
    cJSON_AddBoolToObject(one, "moves", roots->known > 0 && !r->size->flat);
    brake_json_number(one, "nearest", r->size->best);
    brake_json_number(one, "nearest_at", roots->nearest);
    add_holds(one, r);
    for (int i = 0; i < roots->count; i++) {
        if (roots->root[i].kind == BRAKE_JUMP)
            cJSON_AddItemToArray(jumps, cJSON_CreateNumber(roots->root[i].x));
    }
    brake_json_number(one, "refused", r->size->refused);
    brake_json_text(one, "refused_for", r->size->refused > 0 ? r->size->error.text : NULL);
    return one;
}

static cJSON *changes_array(const struct brake_size_report *r)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; r->size != NULL && i < r->size->roots.count; i++) {
        struct brake_size_change change[BRAKE_CRITERIA];
        const double at = r->size->roots.root[i].x;
        const int count = brake_size_changes(r->sheet, r->question->by, at, change);
        for (int j = 0; j < count; j++) {
            cJSON *one = cJSON_CreateObject();
            brake_json_number(one, "at", at);
            brake_json_text(one, "id", brake_criterion_at(change[j].criterion)->id);
            brake_json_text(one, "from", brake_verdict_words(change[j].from));
            brake_json_text(one, "to", brake_verdict_words(change[j].to));
            brake_json_number(one, "margin", change[j].margin);
            cJSON_AddItemToArray(all, one);
        }
    }
    return all;
}

/* ---- lists and tyres ------------------------------------------------------------------------ */

static void add_got(cJSON *object, const struct brake_size_report *r, const double *got, int least,
                    double margin)
{
    cJSON *all = cJSON_AddArrayToObject(object, "got");
    char name[80];
    for (int i = 0; least >= 0 && i < r->targets; i++)
        cJSON_AddItemToArray(all,
                             isfinite(got[i]) ? cJSON_CreateNumber(got[i]) : cJSON_CreateNull());
    if (least >= 0)
        brake_size_target_name(&r->target[least], name, sizeof name);
    brake_json_number(object, "margin", margin);
    brake_json_text(object, "least", least >= 0 ? name : NULL);
}

static cJSON *count_object(const struct brake_size_report *r)
{
    const struct brake_choice_count *count = r->count;
    cJSON *one = cJSON_CreateObject();
    cJSON *fails = cJSON_AddArrayToObject(one, "fall_short_of");
    brake_json_number(one, "cases", (double)count->cases);
    brake_json_number(one, "work", (double)count->works);
    brake_json_number(one, "cannot_say", (double)count->unknown);
    brake_json_number(one, "refused", (double)count->refused);
    brake_json_text(one, "refused_for", count->refused > 0 ? count->error.text : NULL);
    for (int i = 0; i < r->targets; i++)
        cJSON_AddItemToArray(fails, cJSON_CreateNumber((double)count->fails[i]));
    return one;
}

static cJSON *choices_array(const struct brake_size_report *r)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; i < r->choices; i++) {
        const struct brake_choice *choice = &r->choice[i];
        cJSON *one = cJSON_CreateObject();
        cJSON_AddItemToObject(one, "value",
                              cJSON_CreateDoubleArray(choice->value, r->lists->lists));
        add_got(one, r, choice->got, choice->least, choice->margin);
        cJSON_AddItemToArray(all, one);
    }
    return all;
}

static cJSON *tyres_array(const struct brake_size_report *r)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; i < r->tyres; i++) {
        const struct brake_tyre_choice *tyre = &r->tyre[i];
        cJSON *one = cJSON_CreateObject();
        brake_json_text(one, "marking", tyre->marking);
        brake_json_number(one, "diameter", tyre->diameter);
        brake_json_number(one, "rollout", tyre->rollout);
        add_got(one, r, tyre->got, tyre->least, tyre->margin);
        brake_json_text(one, "refused", tyre->error.status != BRAKE_OK ? tyre->error.text : NULL);
        cJSON_AddItemToArray(all, one);
    }
    return all;
}

char *brake_report_size_json(const struct brake_size_report *report)
{
    cJSON *all = cJSON_CreateObject();
    brake_json_text(all, "libbrake", BRAKE_VERSION);
    brake_json_text(all, "caution", BRAKE_CAUTION);
    cJSON_AddItemToObject(all, "by", by_array(report));
    cJSON_AddItemToObject(all, "for", for_array(report));
    cJSON_AddItemToObject(all, "within", within_object(report));
    cJSON_AddItemToObject(all, "answers", answers_array(report));
    cJSON_AddItemToObject(all, "limits", limits_object(report));
    cJSON_AddItemToObject(all, "changes", changes_array(report));
    cJSON_AddItemToObject(all, "combinations", choices_array(report));
    if (report->count != NULL)
        cJSON_AddItemToObject(all, "count", count_object(report));
    if (report->tyre != NULL)
        cJSON_AddItemToObject(all, "tyres", tyres_array(report));
    char *text = cJSON_Print(all);
    cJSON_Delete(all);
    return text;
}
