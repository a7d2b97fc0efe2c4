/* SPDX-License-Identifier: MIT */
/* The vehicle before it was changed, which its own file names, or an option. */
#include <stdlib.h>
#include <string.h>

#include "command.h"
#include "drive.h"
#include "file/carried.h"
#include "vehicle/text.h"

int command_beside(const char *file, const char *named, char **path)
{
    const char *slash = named[0] != '/' ? strrchr(file, '/') : NULL;
    const size_t folder = slash != NULL ? (size_t)(slash - file) + 1 : 0;
    const size_t size = folder + strlen(named) + 1;
    *path = malloc(size);
    if (*path == NULL)
        return command_short_of_memory();
    brake_text_format(*path, size, "%.*s%s", (int)folder, file, named);
    return 0;
}

int command_fit(const char *path, const struct brake_sheet *after, struct brake_sheet *before)
{
    struct brake_error error;
    if (brake_before_fits(before, after, &error) != BRAKE_OK)
        return command_refuse(path, &error);
    if (brake_before_carry(before, after))
        command_tell(
            "%s: parking.pull: stands in both files, so it is taken as measured on the tyres "
            "of now; the vehicle before has the same torque\n",
            path);
    const double rise = brake_before_untold_rise(before, after);
    if (rise > 0.0)
        command_tell(
            "%s: vehicle.cg_height: is that of the changed vehicle, but its tyres raise it "
            "by some %.0f mm: give lift.wheel_rise there, or the height as it is now\n",
            path, 1e3 * rise);
    return 0;
}

/* What was read, held against what the vehicle is now; it knows then what a drive told before. */
static int take(const char *path, struct brake_sheet *after, struct brake_sheet *before)
{
    const int status = command_fit(path, after, before);
    if (status == 0)
        brake_drive_carry(before, after);
    return status;
}

static int read_one(const char *path, struct brake_sheet *after, struct brake_sheet *before)
{
    const int status = command_read(path, NULL, NULL, before);
    return status != 0 ? status : take(path, after, before);
}

int command_no_draw(enum brake_status status)
{
    if (status == BRAKE_E_MEMORY)
        return command_short_of_memory();
    command_tell("stopmargin: more lines are uncertain in the two files than can be drawn at once; "
                 "give those that are sure as `+- 0`\n");
    return EXIT_REFUSED;
}

int command_look_back(const struct brake_sheet *before, const struct brake_sheet *sheet,
                      struct brake_before *loss, struct brake_assessment *assessment)
{
    const enum brake_status drawn = brake_before_draw(before, sheet, loss);
    if (drawn != BRAKE_OK)
        return command_no_draw(drawn);
    brake_assess_before(assessment, loss);
    return 0;
}

/* The page of a report carries the vehicle before along, whatever lies beside it. */
static int read_carried(const char *file, struct brake_sheet *after, struct brake_sheet *before,
                        bool *told)
{
    struct brake_error error;
    FILE *stream;
    const int opened = command_open(file, &stream);
    if (opened != 0)
        return opened;
    enum brake_status status = brake_file_read_before(stream, before, &error);
    command_close(stream);
    *told = status != BRAKE_E_MISSING;
    if (!*told)
        return 0;
    if (status == BRAKE_OK)
        status = brake_sheet_complete(before, &error);
    if (status != BRAKE_OK)
        return command_refuse(file, &error);
    const int learned = drive_learn(file, BRAKE_CARRIED_DRIVE_BEFORE, before);
    return learned != 0 ? learned : take(file, after, before);
}

int command_before(const char *option, const char *file, struct brake_sheet *after,
                   struct brake_sheet *before, bool *told)
{
    const char *named = after->vehicle.general.before;
    char *path;
    *told = option != NULL || named[0] != '\0';
    if (option != NULL)
        return read_one(option, after, before);
    if (command_is_page(file))
        return read_carried(file, after, before, told);
    if (!*told)
        return 0;
    int status = command_beside(file, named, &path);
    if (status == 0)
        status = read_one(path, after, before);
    free(path);
    return status;
}

int command_before_log(const char *option, const char *file, const struct brake_sheet *after,
                       const struct brake_sheet *before, struct brake_log *log)
{
    bool there;
    char *path;
    log->row = NULL;
    if (option != NULL)
        return drive_named(option, BRAKE_CARRIED_DRIVE, before, log, &there);
    if (command_is_page(file))
        return drive_named(file, BRAKE_CARRIED_DRIVE_BEFORE, before, log, &there);
    int status = command_beside(file, after->vehicle.general.before, &path);
    if (status == 0)
        status = drive_named(path, BRAKE_CARRIED_DRIVE, before, log, &there);
    free(path);
    return status;
}
