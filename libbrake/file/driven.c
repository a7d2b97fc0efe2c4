/* SPDX-License-Identifier: MIT */
/* The vehicle as it was driven, and what its drive tells of the vehicle of now. */
#include <stdlib.h>
#include <string.h>

#include "brake/file.h"
#include "brake/log.h"
#include "study/change.h"
#include "study/tyres.h"
#include "study/driven.h"
#include "value.h"
#include "vehicle/sections.h"

static const char *const markings[BRAKE_AXLES] = {"front.tyre.marking", "rear.tyre.marking"};

/* The axle whose marking a line of the log says; BRAKE_AXLES: none. */
static int marked_axle(const char *text)
{
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        if (strncmp(text, markings[axle], strlen(markings[axle])) == 0)
            return axle;
    }
    return BRAKE_AXLES;
}

static enum brake_status set(struct brake_sheet *driven, const struct brake_said *said, int number,
                             struct brake_error *error)
{
    const enum brake_status status = brake_file_set(driven, said->text[number], error);
    error->line = said->line[number];
    return status;
}

/* What was measured on the tyre of now goes when its marking was another. */
static enum brake_status set_marking(struct brake_sheet *driven, const struct brake_said *said,
                                     int number, int axle, struct brake_error *error)
{
    char was[BRAKE_TEXT_SIZE];
    const int line = brake_catalogue_find(NULL, markings[axle]);
    memcpy(was, brake_quantity_in(&driven->vehicle, line), sizeof was);
    const enum brake_status status = set(driven, said, number, error);
    const char *marking = brake_quantity_in(&driven->vehicle, line);
    if (status == BRAKE_OK && strcmp(was, marking) != 0) {
        memcpy(was, marking, sizeof was);
        brake_tyre_fit(driven, axle, was);
    }
    return status;
}

enum brake_status brake_log_driven(const struct brake_log *log, const struct brake_sheet *now,
                                   struct brake_sheet *driven, struct brake_error *error)
{
    const struct brake_said *said = &log->said;
    enum brake_status status = BRAKE_OK;
    *driven = *now;
    *error = (struct brake_error){.status = BRAKE_OK};
    for (int i = 0; i < said->count && status == BRAKE_OK; i++) {
        const int axle = marked_axle(said->text[i]);
        if (axle < BRAKE_AXLES)
            status = set_marking(driven, said, i, axle, error);
    }
    for (int i = 0; i < said->count && status == BRAKE_OK; i++) {
        if (marked_axle(said->text[i]) == BRAKE_AXLES)
            status = set(driven, said, i, error);
    }
    return status == BRAKE_OK && said->count > 0 ? brake_sheet_complete(driven, error) : status;
}

/* Whether a part was another; what a day or a road was like is none. */
static bool is_another(const struct brake_sheet *driven, const struct brake_sheet *now)
{
    enum brake_change change[BRAKE_CHANGES];
    const int changes = brake_changes(&driven->vehicle, &now->vehicle, change);
    for (int i = 0; i < changes; i++) {
        if (change[i] != BRAKE_CHANGE_CONDITIONS)
            return true;
    }
    return false;
}

struct room {
    struct brake_sheet driven;
    struct brake_drive drive;
};

/* The vehicle as it was driven, and the stops of the drive. */
static enum brake_status measure(const struct brake_log *log, const struct brake_sheet *sheet,
                                 struct room *room, struct brake_error *error)
{
    const struct brake_nominal round_speeds = {.count = 0};
    enum brake_status status = brake_log_driven(log, sheet, &room->driven, error);
    if (status != BRAKE_OK)
        return status;
    const struct brake_drive_day day = brake_drive_day_of(&room->driven);
    return brake_log_measure(log, &round_speeds, &day, &room->drive, error);
}

static enum brake_status learn(const struct brake_log *log, struct room *room,
                               struct brake_sheet *sheet, struct brake_error *error)
{
    enum brake_status status = measure(log, sheet, room, error);
    if (status != BRAKE_OK)
        return status;
    const enum brake_load load = (enum brake_load)room->driven.vehicle.drive.load;
    const bool another = is_another(&room->driven, sheet);
    if (another) /* what the tester read is of the vehicle of now */
        room->driven.vehicle.tester.pedal_force = BRAKE_NAN;
    status = brake_drive_learn(&room->driven, load, &room->drive);
    if (status != BRAKE_OK)
        return brake_value_refuse(error, status, 0, "", "memory is short");
    sheet->known = room->driven.known;
    sheet->known.another = another;
    return BRAKE_OK;
}

enum brake_status brake_log_learn(const struct brake_log *log, struct brake_sheet *sheet,
                                  struct brake_error *error)
{
    struct room *room = malloc(sizeof *room);
    if (room == NULL)
        return brake_value_refuse(error, BRAKE_E_MEMORY, 0, "", "memory is short");
    const enum brake_status status = learn(log, room, sheet, error);
    free(room);
    return status;
}

/* ---- several logs ---------------------------------------------------------------------------- */

/* Only how it was driven may differ from log to log: the lines are those of one vehicle. */
static enum brake_status of_one_vehicle(const struct brake_log *log, struct brake_error *error)
{
    for (int i = 0; i < log->said.count; i++) {
        if (strncmp(log->said.text[i], "drive.", 6) != 0)
            return brake_value_refuse(
                error, BRAKE_E_CONFLICT, log->said.line[i], "",
                "says '%.60s'; several logs are of one vehicle, and only lines of drive, such as "
                "drive.load, may be others",
                log->said.text[i]);
    }
    return BRAKE_OK;
}

static enum brake_status take(const struct brake_log *log, const struct brake_sheet *sheet,
                              struct room *room, struct brake_loaded_drive *drive,
                              struct brake_error *error)
{
    enum brake_status status = of_one_vehicle(log, error);
    if (status == BRAKE_OK)
        status = measure(log, sheet, room, error);
    const enum brake_load load = (enum brake_load)room->driven.vehicle.drive.load;
    *drive = (struct brake_loaded_drive){load, &room->drive};
    return status;
}

enum brake_status brake_logs_learn(const struct brake_log *log, int logs, struct brake_sheet *sheet,
                                   int *wrong, struct brake_error *error)
{
    struct room *room = calloc((size_t)logs, sizeof *room);
    struct brake_loaded_drive *drive = calloc((size_t)logs, sizeof *drive);
    const bool there = room != NULL && drive != NULL;
    enum brake_status status =
        there ? BRAKE_OK : brake_value_refuse(error, BRAKE_E_MEMORY, 0, "", "memory is short");
    *wrong = 0;
    while (there && status == BRAKE_OK && *wrong < logs) {
        status = take(&log[*wrong], sheet, &room[*wrong], &drive[*wrong], error);
        *wrong += status == BRAKE_OK ? 1 : 0;
    }
    if (status == BRAKE_OK) {
        status = brake_drives_learn(sheet, drive, logs);
        if (status != BRAKE_OK)
            brake_value_refuse(error, status, 0, "", "%s", brake_status_message(status));
    }
    free(drive);
    free(room);
    return status;
}
