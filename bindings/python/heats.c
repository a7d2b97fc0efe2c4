/* SPDX-License-Identifier: MIT */
#include "heats.h"

#include <stdlib.h>

#include "answers.h"
#include "study.h"

enum { LINES, FIELDS, POINTS, RESULTS, HISTORIES, TIMES, ASKED };

/* What is asked, with the room that it points to. */
struct request {
    struct brake_heats heats;
    struct brake_axis axis[BRAKE_AXES_OF_SWEEP];
    int result[BRAKE_OUTPUTS];
    int column[BRAKE_DUTY_NUMBERS];
    struct brake_duty *duty;
};

static struct numbers numbers_of(const struct columns *columns, int at)
{
    return (struct numbers){columns->column[at].at, columns->column[at].count};
}

static enum brake_status take_duties(const struct brake_sheet *sheet, const char *sequence,
                                     const struct columns *asked, struct request *request,
                                     struct brake_error *error)
{
    const struct numbers fields = numbers_of(asked, FIELDS);
    const long count = fields.count / DUTY_FIELDS;
    enum brake_status status = BRAKE_OK;
    request->heats.duties = (int)count;
    request->duty = answer_memory((size_t)(count + 1) * sizeof *request->duty, error);
    request->heats.duty = request->duty;
    if (request->duty == NULL)
        return BRAKE_E_MEMORY;
    for (long i = 0; i < count && status == BRAKE_OK; i++)
        status =
            duty_take(&sheet->vehicle, (struct numbers){fields.at + i * DUTY_FIELDS, DUTY_FIELDS},
                      numbers_of(asked, POINTS), sequence, &request->duty[i], error);
    return status;
}

static void take_indices(const struct columns *asked, int at, int most, int *index, int *count)
{
    const struct numbers numbers = numbers_of(asked, at);
    *count = (int)(numbers.count < most ? numbers.count : most);
    for (int i = 0; i < *count; i++)
        index[i] = (int)numbers.at[i];
}

/* To be freed whatever the status. */
static struct request *take(const struct brake_sheet *sheet, bool full, const char *sequence,
                            const struct columns *asked, const struct columns *values,
                            struct brake_error *error)
{
    struct request *request = answer_memory(sizeof *request, error);
    if (request == NULL)
        return NULL;
    if (asked->count != ASKED || values->count > BRAKE_AXES_OF_SWEEP ||
        !study_axes(numbers_of(asked, LINES), values, request->axis)) {
        answer_refuse(error, BRAKE_E_SIZE, brake_status_message(BRAKE_E_SIZE));
        return request;
    }
    struct brake_heats *heats = &request->heats;
    *heats = (struct brake_heats){.sheet = sheet,
                                  .axis = request->axis,
                                  .axes = values->count,
                                  .load = full ? BRAKE_FULL : BRAKE_EMPTY,
                                  .result = request->result,
                                  .column = request->column,
                                  .time = asked->column[TIMES].at,
                                  .times = asked->column[TIMES].count};
    take_indices(asked, RESULTS, BRAKE_OUTPUTS, request->result, &heats->results);
    take_indices(asked, HISTORIES, BRAKE_DUTY_NUMBERS, request->column, &heats->columns);
    take_duties(sheet, sequence, asked, request, error);
    return request;
}

static void request_free(struct request *request)
{
    if (request != NULL)
        free(request->duty);
    free(request);
}

/* Statuses as the doubles that Python has room for. */
static void put_statuses(const enum brake_status *status, const struct columns *out)
{
    for (long i = 0; i < out->column[2].count; i++)
        columns_writable(out, 2)[i] = status[i];
}

static enum brake_status run(const struct request *request, int threads,
                             const struct brake_watch *watch, const struct columns *out,
                             struct brake_error *error)
{
    const struct brake_heats *heats = &request->heats;
    const long long count = brake_heats_count(heats);
    if (out->count != 3 || out->column[0].count != count * heats->results ||
        out->column[1].count != count * heats->columns * heats->times ||
        out->column[2].count != count)
        return answer_refuse(error, BRAKE_E_SIZE, brake_status_message(BRAKE_E_SIZE));
    enum brake_status *status = answer_memory((size_t)(count + 1) * sizeof *status, error);
    if (status == NULL)
        return error->status;
    const struct brake_heats_room room = {columns_writable(out, 0), columns_writable(out, 1),
                                          status};
    if (brake_heats_run(heats, threads, watch, &room, error) == BRAKE_OK)
        put_statuses(status, out);
    free(status);
    return error->status;
}

enum brake_status heats_run(const struct brake_sheet *sheet, bool full, const char *sequence,
                            const struct columns *asked, const struct columns *values, int threads,
                            const struct brake_watch *watch, const struct columns *out,
                            struct brake_error *error)
{
    struct request *request = take(sheet, full, sequence, asked, values, error);
    if (error->status == BRAKE_OK)
        run(request, threads, watch, out, error);
    request_free(request);
    return error->status;
}

enum brake_status heats_refusal(const struct brake_sheet *sheet, bool full, const char *sequence,
                                const struct columns *asked, const struct columns *values,
                                double number, struct brake_error *error)
{
    struct request *request = take(sheet, full, sequence, asked, values, error);
    if (error->status == BRAKE_OK)
        brake_heats_refusal(&request->heats, (long long)number, error);
    request_free(request);
    return error->status;
}
