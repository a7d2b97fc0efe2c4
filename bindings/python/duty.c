/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdlib.h>

#include "answers.h"
#include "heats.h"

const char *duty_fields(void)
{
    return "kind count from to interval manner deceleration fall length speed engine force rest "
           "rest_speed";
}

double duty_parked(void)
{
    return BRAKE_PARKED;
}

static void take_fields(const double *n, struct brake_duty *duty)
{
    const struct brake_stops stops = {.count = (int)n[1],
                                      .from = n[2],
                                      .to = n[3],
                                      .interval = n[4],
                                      .manner = (enum brake_manner)n[5],
                                      .deceleration = n[6]};
    *duty = (struct brake_duty){.kind = (enum brake_duty_kind)n[0],
                                .stops = stops,
                                .descent = {n[7], n[8], n[9], n[10]},
                                .force = n[11],
                                .rest = n[12],
                                .rest_speed = n[13]};
}

static bool is_whole_count(double count)
{
    return count >= 0.0 && count <= 1e5 && count == (int)count;
}

enum brake_status duty_take(const struct brake_vehicle *vehicle, struct numbers fields,
                            struct numbers points, const char *sequence, struct brake_duty *duty,
                            struct brake_error *error)
{
    const struct brake_fade_sequence *published = brake_fade_sequence_find(sequence);
    if (fields.count != DUTY_FIELDS || !is_whole_count(fields.at[1]))
        return answer_refuse(error, BRAKE_E_RANGE, "count: accepts whole numbers from 1 to 100000");
    take_fields(fields.at, duty);
    if (published != NULL)
        duty->stops = brake_fade_stops(published, vehicle->general.top_speed);
    else if (sequence[0] != '\0')
        return answer_refuse(error, BRAKE_E_UNKNOWN, "there is no such fade sequence");
    duty->cycle.point = (const struct brake_cycle_point *)points.at;
    duty->cycle.count = (int)(points.count / 3);
    return BRAKE_OK;
}

/* Who keeps the rows also tells how far the duty is. */
struct onlooker {
    struct brake_history *history;
    const struct brake_watch *watch;
    double planned; /* [s] */
};

static void see_row(void *context, const struct brake_duty_row *row)
{
    const struct onlooker *onlooker = context;
    brake_history_keep(onlooker->history, row);
    onlooker->watch->progress(onlooker->watch->context, fmin(row->time, onlooker->planned),
                              onlooker->planned);
}

static enum brake_status run(const struct brake_hot_rig *hot, const struct brake_duty *duty,
                             const struct brake_watch *watch, struct brake_history *history,
                             struct brake_duty_result *result)
{
    struct onlooker onlooker = {history, watch, brake_duty_planned(duty)};
    const struct brake_duty_watch rows = {
        .row = see_row, .context = &onlooker, .stop = watch->stop};
    const enum brake_status status = brake_duty_run(hot, duty, &rows, result);
    if (status == BRAKE_OK && *watch->stop == 0)
        watch->progress(watch->context, onlooker.planned, onlooker.planned);
    return status == BRAKE_OK && history->short_of_memory ? BRAKE_E_MEMORY : status;
}

static char *answer(const struct brake_duty_report *report, struct brake_history *history,
                    const struct brake_watch *watch, struct brake_error *error)
{
    struct brake_duty_result result;
    struct brake_duty_report said = *report;
    const enum brake_status status = run(report->hot, report->duty, watch, history, &result);
    if (status != BRAKE_OK)
        answer_refuse(error, status, brake_status_message(status));
    if (status != BRAKE_OK || *watch->stop != 0)
        return NULL;
    said.result = &result;
    said.row = history->row;
    said.rows = history->rows;
    struct brake_document *d = brake_document_new(BRAKE_SI_FIRST);
    if (d != NULL)
        brake_answer_heat(d, &said);
    return bridge_printed(d, BRAKE_AS_COMPACT_JSON);
}

char *duty_run(const struct brake_sheet *sheet, bool full, struct numbers fields,
               struct numbers points, const char *sequence, const struct brake_watch *watch,
               struct brake_history *history, struct brake_error *error)
{
    const enum brake_load load = full ? BRAKE_FULL : BRAKE_EMPTY;
    struct brake_duty duty;
    struct brake_hot_rig *hot =
        answer_memory(sizeof *hot, error); /* it is large for a thread's stack */
    char *text = NULL;
    if (hot != NULL &&
        duty_take(&sheet->vehicle, fields, points, sequence, &duty, error) == BRAKE_OK) {
        if (brake_hot_rig_build(&sheet->vehicle, load, hot, error) != BRAKE_OK)
            text = NULL;
        else if (brake_duty_wrong(&duty) != NULL)
            answer_refuse(error, BRAKE_E_RANGE, brake_duty_wrong(&duty));
        else
            text = answer(&(struct brake_duty_report){sheet, load, hot, &duty, NULL, NULL, 0},
                          history, watch, error);
    }
    free(hot);
    return text;
}
