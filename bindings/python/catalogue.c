/* The tables of the library as JSON, from which the Python modules and their types are made. */
#include <cjson/cJSON.h>
#include <math.h>

#include "bridge.h"

static void add_number(cJSON *object, const char *name, double value)
{
    if (isfinite(value))
        cJSON_AddNumberToObject(object, name, value);
}

static cJSON *quantity_object(const struct brake_quantity *row)
{
    static const char *const kinds[] = {"real", "choice", "text", "pistons", "curve"};
    cJSON *one = cJSON_CreateObject();
    cJSON_AddStringToObject(one, "name", row->name);
    cJSON_AddStringToObject(one, "kind", kinds[row->kind]);
    cJSON_AddStringToObject(one, "meaning", row->meaning);
    cJSON_AddStringToObject(one, "measure", row->measure != NULL ? row->measure : "");
    cJSON_AddStringToObject(one, "unit", brake_unit_si(row->dimension)->name);
    cJSON_AddStringToObject(one, "second_unit", brake_unit_si(row->second)->name);
    add_number(one, "low", row->low);
    add_number(one, "high", row->high);
    add_number(one, "fallback", row->fallback);
    cJSON_AddBoolToObject(one, "part_of", row->role == BRAKE_PART_OF);
    cJSON *choices = cJSON_AddArrayToObject(one, "choices");
    for (int i = 0; row->choices != NULL && row->choices[i] != NULL; i++)
        cJSON_AddItemToArray(choices, cJSON_CreateString(row->choices[i]));
    return one;
}

static cJSON *sections(void)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; i < brake_section_count(); i++) {
        const struct brake_section *section = brake_section_at(i);
        cJSON *one = cJSON_CreateObject();
        cJSON_AddStringToObject(one, "path", section->path);
        cJSON_AddStringToObject(one, "meaning", section->meaning);
        cJSON *rows = cJSON_AddArrayToObject(one, "rows");
        for (int row = 0; row < section->count; row++)
            cJSON_AddItemToArray(rows, quantity_object(&section->rows[row]));
        cJSON_AddItemToArray(all, one);
    }
    return all;
}

static cJSON *results(void)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; i < brake_result_count(); i++) {
        const struct brake_result *row = brake_result_at(i);
        char path[80];
        cJSON *one = cJSON_CreateObject();
        brake_result_path(i, path, sizeof path);
        cJSON_AddStringToObject(one, "path", path);
        cJSON_AddStringToObject(one, "unit", brake_unit_si(row->dimension)->name);
        cJSON_AddStringToObject(one, "meaning", row->meaning);
        cJSON_AddItemToArray(all, one);
    }
    return all;
}

static cJSON *criteria(void)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; i < brake_criterion_count(); i++)
        cJSON_AddItemToArray(all, cJSON_CreateString(brake_criterion_at(i)->id));
    return all;
}

#define NAME_AND_NUMBER(name, number, text) cJSON_AddNumberToObject(all, #name, number);

static cJSON *statuses(void)
{
    cJSON *all = cJSON_CreateObject();
    BRAKE_STATUS_LIST(NAME_AND_NUMBER)
    return all;
}

char *catalogue_json(void)
{
    cJSON *all = cJSON_CreateObject();
    cJSON_AddItemToObject(all, "sections", sections());
    cJSON_AddItemToObject(all, "results", results());
    cJSON_AddItemToObject(all, "criteria", criteria());
    cJSON_AddItemToObject(all, "statuses", statuses());
    char *text = cJSON_PrintUnformatted(all);
    cJSON_Delete(all);
    return text;
}
