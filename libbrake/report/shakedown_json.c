#include "brake/report.h"
#include "brake/version.h"
#include "json.h"

static cJSON *stage_object(const struct brake_stage *stage)
{
    cJSON *one = cJSON_CreateObject();
    brake_json_number(one, "speed", stage->speed);
    brake_json_number(one, "pedal_force", stage->pedal_force);
    brake_json_measured(one, "deceleration", &stage->deceleration, "m/s2");
    brake_json_measured(one, "distance", &stage->distance, "m");
    brake_json_measured(one, "travel", &stage->travel, "m");
    return one;
}

static cJSON *standing_object(const struct brake_shakedown *plan)
{
    cJSON *one = cJSON_CreateObject();
    brake_json_number(one, "pedal_force", plan->firm_force);
    brake_json_number(one, "pressure", plan->firm_pressure);
    brake_json_measured(one, "travel", &plan->firm, "m");
    brake_json_number(one, "travel_to_floor", plan->to_floor);
    brake_json_number(one, "parking_grade", plan->grade);
    return one;
}

static cJSON *bedding_object(const struct brake_shakedown *plan)
{
    const struct brake_burnish *burnish = plan->burnish;
    cJSON *one = cJSON_CreateObject();
    brake_json_text(one, "clause", burnish->clause);
    brake_json_text(one, "text", burnish->text);
    cJSON_AddNumberToObject(one, "stops", burnish->stops);
    brake_json_number(one, "speed", burnish->speed);
    brake_json_number(one, "deceleration", burnish->deceleration);
    brake_json_number(one, "pedal_force", plan->burnish_force);
    brake_json_number(one, "temperature", burnish->temperature);
    brake_json_number(one, "distance", burnish->distance);
    return one;
}

char *brake_report_shakedown_json(const struct brake_sheet *sheet,
                                  const struct brake_shakedown *plan)
{
    cJSON *all = cJSON_CreateObject();
    cJSON *stages = cJSON_CreateArray();
    for (int i = 0; i < plan->stages; i++)
        cJSON_AddItemToArray(stages, stage_object(&plan->stage[i]));
    brake_json_text(all, "libbrake", BRAKE_VERSION);
    brake_json_text(all, "caution", BRAKE_CAUTION);
    brake_json_text(all, "load", brake_load_word(plan->load));
    brake_json_number(all, "lock_deceleration", plan->lock);
    cJSON_AddItemToObject(all, "standing", standing_object(plan));
    cJSON_AddItemToObject(all, "stages", stages);
    cJSON_AddItemToObject(all, "bedding", bedding_object(plan));
    cJSON_AddItemToObject(all, "vehicle", brake_json_vehicle(sheet));
    char *text = cJSON_Print(all);
    cJSON_Delete(all);
    return text;
}
