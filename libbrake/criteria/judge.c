#include <math.h>
#include <stddef.h>

#include "brake/stop.h"
#include "measures.h"
#include "vehicle/system.h"
#include "judge.h"

const char *brake_verdict_words(enum brake_verdict verdict)
{
    static const char *const words[] = {"meets", "falls short", "cannot say"};
    return words[verdict];
}

const char *brake_failure_words(enum brake_failure failure)
{
    static const char *const words[BRAKE_FAILURES] = {
        "",           "first circuit failed", "second circuit failed", "no assist", "least vacuum",
        "valve open", "valve shut",           "anti-lock failed"};
    return words[failure];
}

/* ---- whether it applies --------------------------------------------------------------------- */

/* NULL when it applies; otherwise why not. */
static const char *not_for(const struct brake_vehicle *v, unsigned applies)
{
    const struct brake_general_lines *g = &v->general;
    const struct {
        unsigned bit;
        bool fits;
        const char *otherwise;
    } rules[] = {
        {BRAKE_TO_M1, g->category == BRAKE_M1, "for M1 vehicles"},
        {BRAKE_TO_N1, g->category == BRAKE_N1, "for N1 vehicles"},
        {BRAKE_TO_LIGHT, !(g->rated_mass > 3500.0), "for a rated mass up to 3,500 kg"},
        {BRAKE_TO_10000_LB, !(g->rated_mass > 4535.9237), "for a rated mass up to 10,000 lb"},
        {BRAKE_TO_CAR_FRAME, g->frame == BRAKE_CAR, "for the chassis of a car"},
        {BRAKE_TO_TRUCK_FRAME, g->frame == BRAKE_TRUCK, "for the chassis of a truck"},
        {BRAKE_TO_NEW, g->first_registered >= 2012.0, "for vehicles from 2012"},
        {BRAKE_TO_OLD, g->first_registered < 2012.0, "for vehicles before 2012"},
        {BRAKE_TO_ANTILOCK, g->antilock == BRAKE_FITTED, "for vehicles with anti-lock"},
        {BRAKE_TO_NO_ANTILOCK, g->antilock == BRAKE_NONE, "for vehicles without anti-lock"},
        {BRAKE_TO_BOOSTED, v->booster.booster == BRAKE_FITTED, "for vehicles with a booster"},
        {BRAKE_TO_SENSING_VALVE, v->valve.kind > BRAKE_VALVE_FIXED, "for a sensing valve"},
        {BRAKE_TO_TRAILER, v->trailer.mass > 0.0, "for vehicles with a trailer"},
        {BRAKE_TO_SHOE_SHAPE,
         brake_vehicle_shoe_shaped(v, BRAKE_FRONT) || brake_vehicle_shoe_shaped(v, BRAKE_REAR),
         "for drums whose shoes are known by their geometry"},
        {BRAKE_TO_COMMERCIAL, g->use == BRAKE_COMMERCIAL, "for commercial vehicles"},
        {BRAKE_TO_SECONDARY, g->secondary == BRAKE_SEPARATE,
         "for vehicles with a secondary brake of its own"},
        {BRAKE_TO_FAST, !(g->top_speed <= 125.0 / 3.6), "for a top speed above 125 km/h"},
    };
    for (size_t i = 0; i < sizeof rules / sizeof rules[0]; i++) {
        if ((applies & rules[i].bit) != 0 && !rules[i].fits)
            return rules[i].otherwise;
    }
    return NULL;
}

/* What is missing: no words when everything is there. */
static struct lack lacks(const struct brake_criterion *c, const struct brake_vehicle *v)
{
    const unsigned by_mass = BRAKE_TO_LIGHT | BRAKE_TO_10000_LB;
    const struct measure *measure = &measures[c->measure];
    if ((c->applies & by_mass) != 0 && isnan(v->general.rated_mass))
        return (struct lack){"vehicle.rated_mass is not given", "vehicle.rated_mass"};
    if (measure->hot != NULL)
        return (struct lack){"the fade procedure was not run", NULL};
    return measure->lacks != NULL ? measure->lacks(c, v) : (struct lack){NULL, NULL};
}

bool brake_criterion_in(const struct brake_criterion *criterion, unsigned rules)
{
    return ((unsigned)criterion->rules & (rules | BRAKE_RULES_HAZARD)) != 0;
}

/* ---- judging -------------------------------------------------------------------------------- */

/* What cannot be worked out is not met, and says so. */
static void put_verdict(struct brake_judgement *j)
{
    j->verdict = j->margin >= 0.0 ? BRAKE_MEETS : BRAKE_FALLS_SHORT;
    if (isnan(j->margin))
        j->reason = "it cannot be worked out: there is no solution";
}

/* A state that cannot be worked out is the worst: no number of another may stand in for it. */
static bool is_worse(const struct brake_judgement *one, const struct brake_judgement *than)
{
    return !isnan(than->margin) && !(one->margin >= than->margin);
}

static void judge_state(const struct brake_criterion *c, struct states *s, enum brake_load load,
                        enum brake_failure failure, struct brake_judgement *worst)
{
    struct brake_judgement j = *worst;
    const bool first = j.verdict == BRAKE_CANNOT_SAY;
    j.value = measures[c->measure].value(c, s, load, failure);
    j.margin = measure_margin(c->measure, j.value, j.limit);
    j.load = load;
    j.failure = failure;
    put_verdict(&j);
    if (first || is_worse(&j, worst))
        *worst = j;
}

static const struct brake_judgement unknown = {
    .verdict = BRAKE_CANNOT_SAY, .value = BRAKE_NAN, .limit = BRAKE_NAN, .margin = BRAKE_NAN};

static struct brake_judgement judge(const struct brake_criterion *criterion, struct states *s)
{
    const struct brake_vehicle *vehicle = s->vehicle;
    struct brake_judgement j = unknown;
    j.reason = not_for(vehicle, criterion->applies);
    j.applies = j.reason == NULL;
    if (j.applies) {
        const struct lack lack = lacks(criterion, vehicle);
        j.reason = lack.why;
        j.missing = lack.line;
    }
    if (j.reason == NULL) {
        const bool empty = criterion->load != BRAKE_AT_FULL;
        const bool full = criterion->load != BRAKE_AT_EMPTY;
        const bool single = vehicle->circuits.split == BRAKE_SPLIT_ONE &&
                            criterion->failure[1] == BRAKE_SECOND_CIRCUIT;
        const int states = criterion->failure[1] != criterion->failure[0] && !single ? 2 : 1;
        j.limit = measure_limit(criterion, vehicle);
        for (int i = 0; i < states; i++) {
            if (empty)
                judge_state(criterion, s, BRAKE_EMPTY, criterion->failure[i], &j);
            if (full)
                judge_state(criterion, s, BRAKE_FULL, criterion->failure[i], &j);
        }
        if (criterion->measure == BRAKE_REAR_FIRST && isinf(j.value))
            j.reason = "the rear never takes the lead";
    }
    return j;
}

void brake_judge(const struct brake_criterion *criterion, const struct brake_vehicle *vehicle,
                 struct brake_judgement *judgement)
{
    struct states s;
    states_start(&s, vehicle);
    *judgement = judge(criterion, &s);
}

void brake_judge_some(const int *criterion, int count, const struct brake_vehicle *vehicle,
                      struct brake_judgement *judgement)
{
    struct states s;
    states_start(&s, vehicle);
    for (int i = 0; i < count; i++)
        judgement[i] = judge(brake_criterion_at(criterion[i]), &s);
}

/* ---- hot performance ------------------------------------------------------------------------ */

static double hot_limit(const struct brake_criterion *c, const struct brake_hot_figures *f)
{
    const double allowed = c->lag * c->speed;
    if (c->measure == BRAKE_HOT_DISTANCE)
        return brake_stop_allowed(c->speed, c->lag, c->coefficient);
    if (c->measure == BRAKE_HOT_LENGTHENING)
        return allowed + (f->cold.distance - allowed) / c->limit;
    return c->limit;
}

void brake_judge_hot(const struct brake_criterion *criterion, const struct brake_vehicle *vehicle,
                     const struct brake_hot_figures *figures, struct brake_judgement *judgement)
{
    struct brake_judgement *j = judgement;
    *j = unknown;
    j->load = BRAKE_FULL;
    j->reason = not_for(vehicle, criterion->applies);
    j->applies = j->reason == NULL;
    if (j->applies && (criterion->applies & BRAKE_TO_LIGHT) != 0 &&
        isnan(vehicle->general.rated_mass))
        j->reason = "vehicle.rated_mass is not given";
    if (j->reason == NULL && criterion->measure != BRAKE_FLUID_ROOM)
        j->reason = figures->lacks;
    if (j->reason == NULL && criterion->measure == BRAKE_FLUID_ROOM && isnan(figures->fluid_room))
        j->reason = figures->lacks != NULL ? figures->lacks : "the descent cannot be driven";
    if (j->reason == NULL && criterion->measure == BRAKE_RECOVERY_MOST &&
        !(figures->recovery.developed > 0.0))
        j->reason = "there was no stop after cooling"; /* no brake at all is not too little */
    if (j->reason != NULL)
        return;
    j->value = measures[criterion->measure].hot(criterion, figures);
    j->limit = hot_limit(criterion, figures);
    j->margin = measure_margin(criterion->measure, j->value, j->limit);
    put_verdict(j);
}

void brake_judge_all(unsigned rules, const struct brake_vehicle *vehicle,
                     struct brake_judgement *judgement)
{
    struct states s;
    states_start(&s, vehicle);
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *criterion = brake_criterion_at(i);
        judgement[i] = brake_criterion_in(criterion, rules) ? judge(criterion, &s) : unknown;
    }
}
