#include "brake/output.h"

#include <stdio.h>
#include <string.h>

int brake_output_count(void)
{
    return brake_result_count() + brake_criterion_count();
}

struct brake_output brake_output_at(int number)
{
    const int results = brake_result_count();
    const bool criterion = number >= results;
    return (struct brake_output){criterion, criterion ? number - results : number};
}

enum brake_status brake_output_find(const char *name, struct brake_output *output)
{
    *output = (struct brake_output){false, brake_result_find(name)};
    for (int i = 0; i < brake_criterion_count() && output->index < 0; i++) {
        if (strcmp(brake_criterion_at(i)->id, name) == 0)
            *output = (struct brake_output){true, i};
    }
    return output->index >= 0 ? BRAKE_OK : BRAKE_E_UNKNOWN;
}

void brake_output_name(struct brake_output output, char *name, size_t size)
{
    if (output.criterion)
        snprintf(name, size, "%s", brake_criterion_at(output.index)->id);
    else
        brake_result_path(output.index, name, size);
}

enum brake_dimension brake_output_dimension(struct brake_output output)
{
    return output.criterion ? BRAKE_RATIO : brake_result_at(output.index)->dimension;
}

void brake_outputs(const struct brake_vehicle *vehicle, const struct brake_output *output, int count,
                   double *value)
{
    struct brake_results results;
    struct brake_judgement judgement;
    bool evaluated = false;
    for (int i = 0; i < count; i++) {
        if (output[i].criterion) {
            brake_judge(brake_criterion_at(output[i].index), vehicle, &judgement);
            value[i] = judgement.margin;
        } else {
            if (!evaluated)
                brake_evaluate(vehicle, &results);
            evaluated = true;
            value[i] = brake_result_value(&results, output[i].index);
        }
    }
}
