#include <cjson/cJSON.h>
#include <math.h>
#include <stdio.h>

#include "brake/report.h"
#include "brake/version.h"
#include "json.h"
#include "vehicle/text.h"

enum { LEADING = 3 /* how many that decide are named with a criterion */ };

/* Path of a number, or id of a cause. */
static void add_name(cJSON *object, const char *key, const struct brake_spread *spread, int number)
{
    char path[160];
    brake_inputs_name(&spread->inputs, number, path, sizeof path);
    brake_json_text(object, key, path);
}

static cJSON *index_object(const struct brake_index *index)
{
    cJSON *one = cJSON_CreateObject();
    brake_json_number(one, "first", index->first);
    brake_json_number(one, "first_error", index->first_error);
    brake_json_number(one, "total", index->total);
    brake_json_number(one, "total_error", index->total_error);
    return one;
}

static cJSON *percentiles_object(const struct brake_spread_output *output)
{
    cJSON *one = cJSON_CreateObject();
    for (int i = 0; i < BRAKE_PERCENTILES; i++) {
        char key[8];
        brake_text_format(key, sizeof key, "p%02.0f", 100.0 * brake_spread_percent(i));
        brake_json_number(one, key, output->percentile[i]);
    }
    return one;
}

static cJSON *summary_object(const struct brake_spread *spread)
{
    cJSON *one = cJSON_CreateObject();
    const int least = brake_spread_limiting(spread);
    int number;
    const bool known = least >= 0 && brake_spread_leading(spread, least, &number, 1) > 0;
    brake_json_number(one, "all_probability", spread->all_met);
    brake_json_number(one, "all_probability_error", spread->all_met_error);
    brake_json_text(one, "limiting", least >= 0 ? brake_criterion_at(least)->id : NULL);
    if (known)
        add_name(one, "measure_next", spread, number);
    else
        brake_json_text(one, "measure_next", NULL);
    brake_json_number(one, "decides",
                      known ? brake_spread_index(spread, least, number).total : BRAKE_NAN);
    return one;
}

static cJSON *inputs_array(const struct brake_spread *spread)
{
    cJSON *all = cJSON_CreateArray();
    const struct brake_inputs *inputs = &spread->inputs;
    for (int i = 0; i < inputs->count; i++) {
        const struct brake_input *input = &inputs->input[i];
        const struct brake_quantity *q = brake_quantity_at(input->index);
        cJSON *one = cJSON_CreateObject();
        add_name(one, "path", spread, i);
        brake_json_number(one, "value", input->doubt.middle);
        brake_json_number(one, "tolerance", inputs->sheet->record[input->index].tolerance);
        brake_json_text(one, "unit", brake_unit_si(q->dimension)->name);
        brake_json_text(one, "shape", brake_shape_word(input->doubt.shape));
        brake_json_text(one, "cause",
                        input->cause >= 0 ? brake_cause_at(inputs->cause[input->cause])->id : NULL);
        cJSON_AddItemToArray(all, one);
    }
    return all;
}

static cJSON *causes_array(const struct brake_spread *spread)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; i < spread->inputs.causes; i++) {
        const struct brake_cause *cause = brake_cause_at(spread->inputs.cause[i]);
        cJSON *one = cJSON_CreateObject();
        brake_json_text(one, "id", cause->id);
        brake_json_text(one, "words", cause->words);
        brake_json_number(one, "correlation", cause->correlation);
        brake_json_text(one, "source", cause->source);
        cJSON_AddItemToArray(all, one);
    }
    return all;
}

static cJSON *leading_array(const struct brake_spread *spread, int criterion)
{
    cJSON *all = cJSON_CreateArray();
    int number[LEADING];
    const int count = brake_spread_leading(spread, criterion, number, LEADING);
    for (int i = 0; i < count; i++) {
        const struct brake_index index = brake_spread_index(spread, criterion, number[i]);
        cJSON *one = index_object(&index);
        add_name(one, "path", spread, number[i]);
        cJSON_AddItemToArray(all, one);
    }
    return all;
}

static cJSON *criterion_object(const struct brake_spread *spread, int criterion)
{
    const struct brake_criterion *c = brake_criterion_at(criterion);
    const struct brake_judgement *j = &spread->judgement[criterion];
    const struct brake_spread_output *output = &spread->output[criterion];
    cJSON *one = cJSON_CreateObject();
    brake_json_text(one, "id", c->id);
    brake_json_text(one, "clause", c->clause);
    brake_json_text(one, "title", c->title);
    cJSON_AddBoolToObject(one, "applies", j->applies);
    brake_json_text(one, "reason", j->reason);
    brake_json_number(one, "margin", j->margin);
    brake_json_number(one, "judged", output->judged);
    brake_json_number(one, "probability", output->met);
    brake_json_number(one, "probability_error", output->met_error);
    cJSON_AddItemToObject(one, "percentiles", percentiles_object(output));
    cJSON_AddItemToObject(one, "leading", leading_array(spread, criterion));
    brake_json_text(one, "mark", "check against the current text");
    return one;
}

static cJSON *criteria_array(const struct brake_spread *spread)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; i < spread->criteria; i++) {
        if (brake_spread_draws(spread, i))
            cJSON_AddItemToArray(all, criterion_object(spread, i));
    }
    return all;
}

static cJSON *results_array(const struct brake_spread *spread)
{
    cJSON *all = cJSON_CreateArray();
    for (int i = 0; i < spread->results; i++) {
        const struct brake_spread_output *output = &spread->output[spread->criteria + i];
        const struct brake_result *row = brake_result_at(spread->result[i]);
        char path[80];
        cJSON *one = cJSON_CreateObject();
        brake_result_path(spread->result[i], path, sizeof path);
        brake_json_text(one, "path", path);
        brake_json_text(one, "unit", brake_unit_si(row->dimension)->name);
        brake_json_number(one, "given", output->judged);
        cJSON_AddItemToObject(one, "percentiles", percentiles_object(output));
        cJSON_AddItemToArray(all, one);
    }
    return all;
}

static cJSON *sensitivity_object(const struct brake_spread *spread)
{
    cJSON *all = cJSON_CreateObject();
    for (int i = 0; i < spread->criteria; i++) {
        const struct brake_output output = {.criterion = true, .index = i};
        if (!brake_spread_draws(spread, i) || brake_output_faded(output) ||
            !(spread->output[i].judged > 0.0))
            continue;
        cJSON *of = cJSON_CreateObject();
        for (int k = 0; k < brake_inputs_count(&spread->inputs); k++) {
            const struct brake_index index = brake_spread_index(spread, i, k);
            char name[160];
            brake_inputs_name(&spread->inputs, k, name, sizeof name);
            cJSON_AddItemToObject(of, name, index_object(&index));
        }
        cJSON_AddItemToObject(all, brake_criterion_at(i)->id, of);
    }
    return all;
}

char *brake_report_spread_json(const struct brake_spread *spread)
{
    cJSON *all = cJSON_CreateObject();
    brake_json_text(all, "libbrake", BRAKE_VERSION);
    brake_json_text(all, "caution", BRAKE_CAUTION);
    cJSON_AddItemToObject(all, "summary", summary_object(spread));
    brake_json_number(all, "samples", (double)spread->samples);
    brake_json_number(all, "base_samples", (double)spread->base);
    brake_json_number(all, "replicates", BRAKE_REPLICATES);
    brake_json_number(all, "seed", (double)spread->seed);
    cJSON_AddItemToObject(all, "inputs", inputs_array(spread));
    cJSON_AddItemToObject(all, "causes", causes_array(spread));
    cJSON_AddItemToObject(all, "criteria", criteria_array(spread));
    cJSON_AddItemToObject(all, "results", results_array(spread));
    cJSON_AddItemToObject(all, "sensitivity", sensitivity_object(spread));
    char *text = cJSON_Print(all);
    cJSON_Delete(all);
    return text;
}
