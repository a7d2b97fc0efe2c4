/* SPDX-License-Identifier: MIT */
/* What the report for inspection is made from, worked out. */
#include "brake/paper.h"

#include <stdlib.h>
#include <string.h>

#include "vehicle/text.h"
#include "study/assess.h"
#include "study/procedure.h"
#include "criteria/judge.h"
#include "study/comparing.h"

/* ---- the duties ----------------------------------------------------------------------------- */

/* Says why when there is no rig. */
static bool build(const struct brake_paper *paper, enum brake_load load,
                  struct brake_paper_run *run)
{
    struct brake_error error;
    run->load = load;
    if (brake_hot_rig_build(&paper->sheet->vehicle, load, &run->hot, &error) == BRAKE_OK)
        return true;
    brake_text_format(run->lacking, sizeof run->lacking, "%s: %s", error.field, error.text);
    return false;
}

static void lacks(struct brake_paper_run *run, const char *why)
{
    if (why != NULL)
        brake_text_format(run->lacking, sizeof run->lacking, "%s", why);
}

static void run_duty(const struct brake_paper *paper, enum brake_load load, bool coarse,
                     struct brake_paper_run *run)
{
    const struct brake_duty_watch rows = {
        .row = brake_history_keep, .context = &run->history, .coarse = coarse};
    run->duty.force = paper->sheet->vehicle.driver.pedal_force_most;
    if (!build(paper, load, run))
        return;
    const enum brake_status status = brake_duty_run(&run->hot, &run->duty, &rows, &run->result);
    lacks(run, status == BRAKE_OK ? NULL : brake_status_message(status));
}

/* Those beside the fade procedure. */
static void run_duties(const struct brake_paper *paper, enum brake_load load,
                       struct brake_paper_room *room)
{
    struct brake_paper_run *stop = &room->run[BRAKE_PAPER_STOP];
    struct brake_paper_run *descent = &room->run[BRAKE_PAPER_DESCENT];
    stop->duty.kind = BRAKE_DUTY_STOPS;
    stop->duty.stops = (struct brake_stops){
        .count = 1, .from = paper->sheet->vehicle.stop.speed, .manner = BRAKE_AT_INCIPIENT_LOCK};
    run_duty(paper, load, false, stop);
    /* a mountain road, and parked below; common practice, no source */
    descent->duty.kind = BRAKE_DUTY_DESCENT;
    descent->duty.descent =
        (struct brake_descent){.fall = 0.08, .length = 6000.0, .speed = 50.0 / 3.6};
    descent->duty.rest = BRAKE_PARKED;
    run_duty(paper, load, true, descent);
}

/* What could not be run is NULL in the paper, with a word on why. false: memory is short. */
static bool hand_over(struct brake_paper *paper, struct brake_paper_room *room)
{
    bool whole = true;
    for (int i = 0; i < BRAKE_PAPER_DUTIES; i++) {
        struct brake_paper_run *run = &room->run[i];
        const struct brake_history *history = &run->history;
        run->report =
            (struct brake_duty_report){paper->sheet, run->load,    &run->hot,     &run->duty,
                                       &run->result, history->row, history->rows, NULL};
        paper->lacking[i] = run->lacking;
        paper->duty[i] = run->lacking[0] == '\0' ? &run->report : NULL;
        whole = whole && !history->short_of_memory;
    }
    return whole;
}

/* ---- assessments ---------------------------------------------------------------------------- */

/* The vehicle as it is now, with the snubs of its fade procedure: of three quarters of an hour no
 * picture shows more than the ends of slices. */
static void look_at(const struct brake_paper *paper, unsigned rules, struct brake_paper_room *room)
{
    struct brake_paper_run *run = &room->run[BRAKE_PAPER_FADE];
    const struct brake_duty_watch rows = {
        .row = brake_history_keep, .context = &run->history, .coarse = true};
    struct brake_fade fade;
    brake_assess(paper->sheet, rules, &room->assessment);
    brake_assess_fade_shown(paper->sheet, NULL, &rows, &room->assessment, &fade);
    run->duty = fade.snubs;
    run->result = fade.heating;
    if (build(paper, fade.load, run))
        lacks(run, fade.heating.duration > 0.0 ? NULL : fade.figures.lacks);
}

static void look_back(const struct brake_paper *paper, unsigned rules,
                      struct brake_paper_room *room)
{
    brake_assess(paper->before, rules, &room->before_assessment);
    brake_assess_fade(paper->before, NULL, &room->before_assessment);
}

/* Of all that is held side by side the report shares out the margins of criteria. */
static void keep_criteria(struct brake_comparison *comparison)
{
    int kept = 0;
    for (int i = 0; i < comparison->margins; i++) {
        if (!comparison->output[i].criterion)
            continue;
        comparison->output[kept] = comparison->output[i];
        comparison->margin[kept++] = comparison->margin[i];
    }
    comparison->margins = kept;
}

/* The words of a vehicle are those of its assessment: nothing is drawn twice. */
static void take_words(const struct brake_assessment *assessment, struct brake_judgement *judgement)
{
    for (int i = 0; i < brake_criterion_count(); i++) {
        if (!brake_measure_hot(brake_criterion_at(i)->measure))
            judgement[i].verdict = assessment->judgement[i].verdict;
    }
}

/* What the changes gave and took. */
static enum brake_status compare(struct brake_paper *paper, unsigned rules,
                                 struct brake_paper_room *room)
{
    brake_compare(paper->before, paper->sheet, rules, &room->comparison);
    take_words(&room->before_assessment, room->comparison.judgement[0]);
    take_words(&room->assessment, room->comparison.judgement[1]);
    keep_criteria(&room->comparison);
    double *values = malloc(brake_compare_room(&room->comparison) * sizeof *values);
    if (values == NULL)
        return BRAKE_E_MEMORY;
    (void)brake_compare_share(&room->comparison, NULL, values);
    free(values);
    const enum brake_status drawn = brake_before_of(&room->comparison, &room->loss);
    if (drawn != BRAKE_OK)
        return drawn;
    brake_assess_before(&room->assessment, &room->loss);
    paper->before_assessment = &room->before_assessment;
    paper->comparison = &room->comparison;
    return BRAKE_OK;
}

/* The words of both vehicles. Returns false when memory is short. */
static bool draw(const struct brake_paper *paper, struct brake_paper_room *room)
{
    struct brake_conformance_room *conformance = brake_conformance_room_new();
    if (conformance == NULL)
        return false;
    (void)brake_assess_conformance(paper->sheet, true, NULL, conformance, &room->assessment);
    if (paper->before != NULL)
        (void)brake_assess_conformance(paper->before, true, NULL, conformance,
                                       &room->before_assessment);
    brake_conformance_room_free(conformance);
    return true;
}

/* ---- all ------------------------------------------------------------------------------------ */

enum brake_status brake_paper_fill(struct brake_paper *paper, unsigned rules, enum brake_load load,
                                   struct brake_paper_room *room)
{
    memset(room, 0, sizeof *room);
#pragma omp parallel sections
    {
#pragma omp section
        look_at(paper, rules, room);
#pragma omp section
        if (paper->before != NULL)
            look_back(paper, rules, room);
#pragma omp section
        run_duties(paper, load, room);
    }
    paper->assessment = &room->assessment;
    if (!draw(paper, room) || !hand_over(paper, room))
        return BRAKE_E_MEMORY;
    const enum brake_status compared =
        paper->before != NULL ? compare(paper, rules, room) : BRAKE_OK;
    if (compared != BRAKE_OK)
        return compared;
    if (!brake_repair_find(paper->sheet, &room->assessment, &room->repair))
        return BRAKE_E_MEMORY;
    room->assessment.repair = &room->repair;
    return BRAKE_OK;
}

void brake_paper_free(struct brake_paper_room *room)
{
    for (int i = 0; i < BRAKE_PAPER_DUTIES; i++) {
        free(room->run[i].history.row);
        room->run[i].history = (struct brake_history){.row = NULL};
    }
}
