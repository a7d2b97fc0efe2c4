/* Pieces of JSON that several reports have; private to this folder. What is not known is null. */
#ifndef BRAKE_JSON_H
#define BRAKE_JSON_H

#include <cjson/cJSON.h>

#include "brake/catalogue.h"
#include "brake/drivelog.h"
#include "brake/warnings.h"

void brake_json_number(cJSON *object, const char *name, double value);
void brake_json_text(cJSON *object, const char *name, const char *text);

/* A number with its unit and its range, p05 to p95. */
void brake_json_measured(cJSON *object, const char *name, const struct brake_measured *m,
                         const char *unit);

/* Value of a quantity, whatever its kind. */
void brake_json_value(cJSON *object, const char *name, struct brake_vehicle *vehicle, int index);

/* Every line that is known: value, unit, tolerance, where it came from. */
cJSON *brake_json_vehicle(const struct brake_sheet *sheet);

cJSON *brake_json_warnings(const struct brake_warning *warning, int count);

#endif
