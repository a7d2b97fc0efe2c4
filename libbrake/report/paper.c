/* What the report for inspection is made from, worked out. */
#include "brake/paper.h"

#include <stdlib.h>
#include <string.h>

#include "brake/fade.h"

/* ---- assessments ---------------------------------------------------------------------------- */

static void assess(const struct brake_sheet *sheet, unsigned rules,
                   struct brake_assessment *assessment)
{
    brake_assess(sheet, rules, assessment);
    brake_assess_fade(sheet, NULL, assessment);
}

/* The vehicle before, and what the changes gave and took. */
static enum brake_status look_back(struct brake_paper *paper, unsigned rules,
                                   struct brake_paper_room *room)
{
    assess(paper->before, rules, &room->before_assessment);
    brake_compare(paper->before, paper->sheet, rules, &room->comparison);
    double *values = malloc(brake_compare_room(&room->comparison) * sizeof *values);
    if (values == NULL)
        return BRAKE_E_SIZE;
    (void)brake_compare_share(&room->comparison, NULL, values);
    free(values);
    paper->before_assessment = &room->before_assessment;
    paper->comparison = &room->comparison;
    return BRAKE_OK;
}

/* ---- the duties ----------------------------------------------------------------------------- */

/* Of the rules asked for and the vehicle's category. */
static const struct brake_fade_sequence *fade_sequence(unsigned rules,
                                                       const struct brake_vehicle *vehicle)
{
    const char *id = vehicle->general.category == BRAKE_N1     ? "un.13.fade"
                     : (rules & (unsigned)BRAKE_RULES_US) != 0 ? "us.135.fade"
                                                               : "un.13h.fade";
    return brake_fade_sequence_find(id);
}

static void choose(const struct brake_vehicle *vehicle, unsigned rules, struct brake_paper_run *run)
{
    for (int i = 0; i < BRAKE_PAPER_DUTIES; i++)
        run[i].duty = (struct brake_duty){.kind = BRAKE_DUTY_STOPS,
                                          .force = vehicle->driver.pedal_force_most,
                                          .rest = i == BRAKE_PAPER_STOP ? 0.0 : 600.0};
    run[BRAKE_PAPER_STOP].duty.stops =
        (struct brake_stops){.count = 1, .from = vehicle->stop.speed, .manner = BRAKE_AT_THE_VERGE};
    run[BRAKE_PAPER_FADE].duty.stops =
        brake_fade_stops(fade_sequence(rules, vehicle), vehicle->general.top_speed);
    /* a mountain road; common practice, no source */
    run[BRAKE_PAPER_DESCENT].duty.kind = BRAKE_DUTY_DESCENT;
    run[BRAKE_PAPER_DESCENT].duty.descent =
        (struct brake_descent){.grade = 0.08, .length = 6000.0, .speed = 50.0 / 3.6};
}

/* What could not be run is NULL in the paper, with a word on why. */
static void run_all(struct brake_paper *paper, enum brake_load load, struct brake_paper_room *room)
{
    struct brake_error error;
    if (brake_hot_rig_build(&paper->sheet->vehicle, load, &room->hot, &error) != BRAKE_OK) {
        snprintf(room->lacking, sizeof room->lacking, "%s: %s", error.field, error.text);
        return;
    }
#pragma omp parallel for schedule(dynamic)
    for (int i = 0; i < BRAKE_PAPER_DUTIES; i++) {
        struct brake_paper_run *run = &room->run[i];
        /* Of a quarter of an hour no picture shows more. */
        const struct brake_duty_watch watch = {brake_history_keep, &run->history,
                                               i != BRAKE_PAPER_STOP};
        run->status = brake_duty_run(&room->hot, &run->duty, &watch, &run->result);
    }
    for (int i = 0; i < BRAKE_PAPER_DUTIES; i++) {
        struct brake_paper_run *run = &room->run[i];
        const enum brake_status status = run->status;
        if (status != BRAKE_OK || run->history.short_of_memory) {
            snprintf(room->lacking, sizeof room->lacking, "%s",
                     status != BRAKE_OK ? brake_status_message(status) : "memory is short");
            continue;
        }
        run->report = (struct brake_duty_report){paper->sheet,     load,         &room->hot,
                                                 &run->duty,       &run->result, run->history.row,
                                                 run->history.rows};
        paper->duty[i] = &run->report;
    }
}

/* The vehicle as it is now. */
static void look_at(struct brake_paper *paper, unsigned rules, enum brake_load load,
                    struct brake_paper_room *room)
{
    assess(paper->sheet, rules, &room->assessment);
    paper->assessment = &room->assessment;
    paper->lacking = room->lacking;
    choose(&paper->sheet->vehicle, rules, room->run);
    run_all(paper, load, room);
}

/* ---- all ------------------------------------------------------------------------------------ */

enum brake_status brake_paper_fill(struct brake_paper *paper, unsigned rules, enum brake_load load,
                                   struct brake_paper_room *room)
{
    enum brake_status status = BRAKE_OK;
    memset(room, 0, sizeof *room);
    /* Of two vehicles each has a thread; of one, what is done for it is shared out. */
#pragma omp parallel sections if (paper->before != NULL)
    {
#pragma omp section
        look_at(paper, rules, load, room);
#pragma omp section
        if (paper->before != NULL)
            status = look_back(paper, rules, room);
    }
    return status;
}

void brake_paper_free(struct brake_paper_room *room)
{
    for (int i = 0; i < BRAKE_PAPER_DUTIES; i++) {
        free(room->run[i].history.row);
        room->run[i].history = (struct brake_history){.row = NULL};
    }
}
