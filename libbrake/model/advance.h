/* SPDX-License-Identifier: MIT */
/* Time stepping of brake/thermal.h for brakes side by side: a Rosenbrock method. Each lane has its
 * own step and its own end. */
#ifndef BRAKE_MODEL_ADVANCE_H
#define BRAKE_MODEL_ADVANCE_H

#include "flow.h"
#include "thermal_lanes.h"

enum { STAGES = 4 };

/* Coefficients: Hairer and Wanner, IV.7, table 7.2, the L-stable one, in the form without products
 * of the Jacobian. Each stage solves (1/(h gamma) - J) k = f + sum C k / h + h BY df/dt, with f at
 * the time AT and the argument begin + sum AHEAD k; the last stage shares the f of the one before
 * it. RESULT: weights of the k in the result; ERROR: in what it has more than that of order 3. */
static const double GAMMA = 0.57282;
static const double AT[STAGES - 1] = {0.0, 1.14564, 0.65521686381559};
static const double AHEAD[STAGES - 1][STAGES - 2] = {
    {0.0}, {2.0}, {1.867943637803922, 0.2344449711399156}};
static const double C[STAGES][STAGES - 1] = {
    {0.0},
    {-7.137615036412310},
    {2.580708087951457, 0.6515950076447975},
    {-2.137148994382534, -0.3214669691237626, -0.6949742501781779}};
static const double BY[STAGES] = {0.57282, -1.769193891319233, 0.7592633437920482,
                                  -0.1049021087100450};
static const double RESULT[STAGES] = {2.255570073418735, 0.2870493262186792, 0.4353179431840180,
                                      1.093502252409163};
static const double ERROR[STAGES] = {-0.2815431932141155, -0.07276199124934920, -0.1082196201495311,
                                     -1.093502252409163};

/* A solid melts far below this [K]. */
static const double HOTTEST = 5000.0;

/* Steps tried in one call: a second of work, where ten hours of a real brake take some hundreds. */
enum { MOST_TRIES = 100000 };

/* What happens to the brakes. */
struct drives {
    pack power_begin;
    pack power_end;
    pack speed_begin;
    pack speed_end;
    pack air;
    pack duration;
};

/* Where they stand. */
struct stand {
    pack enthalpy[NODES];
    pack time; /* of the call */
    pack step; /* to try next */
    pack supplied;
    pack convected;
    pack radiated;
    pack steps;
    pack rejected;
    struct field field;
};

/* One call of brake_thermal_advance for each lane. */
struct run {
    struct brakes brakes;
    struct drives drives;
    pack contact; /* [W/K] */
    struct stand now;
    mask goes; /* lanes that have not yet met their end */
    mask refused;
};

/* One step that is tried. */
struct trial {
    pack enthalpy[NODES];
    pack convected;
    pack radiated;
    pack error; /* [K] */
};

/* Everything that the stages of one step share. */
struct stages {
    struct slopes slopes;
    pack step;
    pack per_step;
    pack pivot[NODES];  /* 1 / pivot of the elimination */
    pack factor[NODES]; /* of a node in the next towards the middle */
    pack toward[NODES]; /* of that one in it */
    struct flow change; /* of the flows by time */
    bool changes;
    pack x[STAGES][NODES]; /* [K] what a stage adds, k over the heat capacity */
    pack convected[STAGES];
    pack radiated[STAGES];
};

TARGET static inline struct instant instant_at(const struct run *run, pack time)
{
    const struct drives *drives = &run->drives;
    const pack part = time / drives->duration;
    return (struct instant){
        .power = drives->power_begin + part * (drives->power_end - drives->power_begin),
        .speed = drives->speed_begin + part * (drives->speed_end - drives->speed_begin),
        .air = drives->air,
        .contact = run->contact,
    };
}

/* Derivative of the flows by time, `here` being those at `time` without conduction: only friction
 * power and speed depend on it. */
TARGET static inline void change_in_time(const struct run *run, pack time, const struct flow *here,
                                         struct stages *stages)
{
    const struct drives *drives = &run->drives;
    struct flow *change = &stages->change;
    stages->changes = any((drives->power_begin != drives->power_end) |
                          (drives->speed_begin != drives->speed_end));
    if (!stages->changes) {
        memset(change, 0, sizeof *change); /* is not read; `make prove` wants it seen */
        return;
    }
    const pack little =
        either(time < 0.5 * drives->duration, all(1e-6), all(-1e-6)) * drives->duration;
    const pack per = 1.0 / little;
    const struct instant then = instant_at(run, time + little);
    struct exchange exchange;
    find_exchange(&run->brakes, &then, &run->now.field, &exchange);
    gather(&run->brakes, &then, &run->now.field, &exchange, change);
    for (int i = 0; i < outer_count(run->brakes.cells); i++) {
        const int node = outer_node(run->brakes.cells, i);
        change->rate[node] = (change->rate[node] - here->rate[node]) * per;
    }
    change->convected = (change->convected - here->convected) * per;
    change->radiated = (change->radiated - here->radiated) * per;
}

/* The node at which both eliminations meet. */
static inline int middle_of(int nodes)
{
    return (nodes - 1) / 2;
}

/* What a node loses at its own temperature, but for what it gives its neighbours. */
TARGET static inline pack slack_of(const struct slopes *slopes, int node, pack capacity, pack per)
{
    return capacity * per + (slopes->convected[node] + slopes->radiated[node]);
}

/* Elimination in C/(h gamma) - dF/dT, tridiagonal, from both ends to the middle: two short chains
 * of numbers that wait for one another take half as long as one. A pivot is what is left of the
 * node's own slack and that of those behind it, and what it gives the next: nothing is taken from
 * anything, so that no digits cancel however long the step (Grassmann, Taksar and Heyman,
 * Operations Research 33 (1985) 1107, from memory). The unknowns are temperatures. */
TARGET static inline void eliminate(int nodes, const pack *restrict capacity,
                                    struct stages *restrict stages)
{
    const struct slopes *slopes = &stages->slopes;
    const pack per = stages->per_step * (1.0 / GAMMA);
    const int middle = middle_of(nodes);
    pack rising = all(0.0);  /* slack behind the node before, as far as it reaches */
    pack falling = all(0.0); /* the same of the node after */
    for (int i = 0, j = nodes - 1; j > middle; i++, j--) {
        falling += slack_of(slopes, j, capacity[j], per);
        stages->pivot[j] = 1.0 / (falling + slopes->next[j - 1]);
        stages->toward[j] = slopes->before[j] * stages->pivot[j];
        stages->factor[j] = slopes->next[j - 1] * stages->pivot[j];
        falling *= stages->toward[j];
        if (i == middle)
            break;
        rising += slack_of(slopes, i, capacity[i], per);
        stages->pivot[i] = 1.0 / (rising + slopes->before[i + 1]);
        stages->toward[i] = slopes->next[i] * stages->pivot[i];
        stages->factor[i] = slopes->before[i + 1] * stages->pivot[i];
        rising *= stages->toward[i];
    }
    stages->pivot[middle] =
        1.0 / (slack_of(slopes, middle, capacity[middle], per) + rising + falling);
}

TARGET static inline void substitute(int nodes, const struct stages *restrict stages,
                                     pack *restrict x)
{
    const int middle = middle_of(nodes);
    pack rising = all(0.0);
    pack falling = all(0.0);
    for (int i = 0, j = nodes - 1; j > middle; i++, j--) {
        x[j] += falling;
        falling = stages->factor[j] * x[j];
        if (i == middle)
            break;
        x[i] += rising;
        rising = stages->factor[i] * x[i];
    }
    x[middle] = (x[middle] + rising + falling) * stages->pivot[middle];
    rising = falling = x[middle];
    for (int i = middle - 1, j = middle + 1; j < nodes; i--, j++) {
        x[j] = falling = x[j] * stages->pivot[j] + stages->toward[j] * falling;
        if (i >= 0)
            x[i] = rising = x[i] * stages->pivot[i] + stages->toward[i] * rising;
    }
}

/* What changes of the temperatures add to a loss: those of the outer nodes. */
TARGET static inline pack sum_of_losses(const struct brakes *brakes, const pack *slope,
                                        const pack *x)
{
    pack sum = all(0.0);
    for (int i = 0; i < outer_count(brakes->cells); i++) {
        const int node = outer_node(brakes->cells, i);
        sum += slope[node] * x[node];
    }
    return sum;
}

/* Sum of what the first stages add, each times its factor. */
TARGET __attribute__((always_inline)) static inline pack sum_of(int count, const pack *factor,
                                                                const pack *add, size_t apart)
{
    pack sum = factor[0] * add[0];
    for (int j = 1; j < count; j++)
        sum += factor[j] * add[(size_t)j * apart];
    return sum;
}

/* Right side of a stage, but for what changes in time. */
TARGET __attribute__((always_inline)) static inline void
right_side(const struct run *run, int s, const pack *factor, const struct flow *restrict flow,
           struct stages *restrict stages)
{
    const pack *capacity = run->now.field.capacity;
    pack *x = stages->x[s];
    if (s == 0) {
        memcpy(x, flow->rate, (size_t)run->brakes.nodes * sizeof *x);
        return;
    }
    for (int i = 0; i <= FIRST_CELL || i < run->brakes.nodes; i++) /* there is a cell at least */
        x[i] = flow->rate[i] + capacity[i] * sum_of(s, factor, &stages->x[0][i], NODES);
}

/* A stage from the flows at its argument. */
TARGET __attribute__((always_inline)) static inline void stage(const struct run *run, int s,
                                                               const struct flow *restrict flow,
                                                               struct stages *restrict stages)
{
    pack c[STAGES];
    pack *x = stages->x[s];
    pack convected = flow->convected;
    pack radiated = flow->radiated;
    for (int j = 0; j < s; j++) {
        c[j] = C[s][j] * stages->per_step;
        convected += c[j] * stages->convected[j];
        radiated += c[j] * stages->radiated[j];
    }
    right_side(run, s, c, flow, stages);
    if (stages->changes) {
        const pack by = stages->step * BY[s];
        convected += by * stages->change.convected;
        radiated += by * stages->change.radiated;
        for (int i = 0; i < outer_count(run->brakes.cells); i++) {
            const int node = outer_node(run->brakes.cells, i);
            x[node] += by * stages->change.rate[node];
        }
    }
    substitute(run->brakes.nodes, stages, x);
    convected += sum_of_losses(&run->brakes, stages->slopes.convected, x);
    radiated += sum_of_losses(&run->brakes, stages->slopes.radiated, x);
    stages->convected[s] = stages->step * GAMMA * convected;
    stages->radiated[s] = stages->step * GAMMA * radiated;
}

TARGET static inline void first_stage(const struct run *run, struct stages *stages)
{
    const struct brakes *brakes = &run->brakes;
    const struct field *field = &run->now.field;
    const struct instant now = instant_at(run, run->now.time);
    struct exchange exchange;
    struct flow flow;
    find_exchange(brakes, &now, field, &exchange);
    gather(brakes, &now, field, &exchange, &flow);
    find_slopes(brakes, &now, field, &exchange, &stages->slopes);
    change_in_time(run, run->now.time, &flow, stages);
    eliminate(brakes->nodes, field->capacity, stages);
    conduct(brakes, field, &flow);
    stage(run, 0, &flow, stages);
}

/* The flows at the argument of a later stage. */
TARGET __attribute__((always_inline)) static inline void
flow_at(const struct run *run, int s, const struct stages *restrict stages,
        struct flow *restrict flow)
{
    const struct brakes *brakes = &run->brakes;
    const struct stand *begin = &run->now;
    const struct instant now = instant_at(run, begin->time + AT[s] * stages->step);
    pack ahead[STAGES];
    pack enthalpy[NODES];
    struct field field;
    struct exchange exchange;
    for (int j = 0; j < s; j++)
        ahead[j] = all(AHEAD[s][j]);
    for (int i = 0; i < brakes->nodes; i++)
        enthalpy[i] = begin->enthalpy[i] +
                      begin->field.capacity[i] * sum_of(s, ahead, &stages->x[0][i], NODES);
    find_potentials(brakes, enthalpy, &field);
    find_exchange(brakes, &now, &field, &exchange);
    gather(brakes, &now, &field, &exchange, flow);
    conduct(brakes, &field, flow);
}

TARGET static inline void sum_up_trial(const struct run *run, const struct stages *stages,
                                       struct trial *trial)
{
    const struct stand *begin = &run->now;
    pack result[STAGES];
    pack beyond[STAGES];
    for (int j = 0; j < STAGES; j++) {
        result[j] = all(RESULT[j]);
        beyond[j] = all(ERROR[j]);
    }
    trial->error = all(0.0);
    trial->convected = sum_of(STAGES, result, stages->convected, 1);
    trial->radiated = sum_of(STAGES, result, stages->radiated, 1);
    for (int i = 0; i < run->brakes.nodes; i++) {
        const pack *x = &stages->x[0][i];
        const pack error = magnitude(sum_of(STAGES, beyond, x, NODES));
        trial->enthalpy[i] =
            begin->enthalpy[i] + begin->field.capacity[i] * sum_of(STAGES, result, x, NODES);
        trial->error = either(error <= trial->error, trial->error, error); /* a NaN stays */
    }
}

TARGET static inline void try_step(const struct run *run, pack step, struct trial *trial)
{
    struct stages stages;
    struct flow flow;
    stages.step = step;
    stages.per_step = 1.0 / step;
    first_stage(run, &stages);
    flow_at(run, 1, &stages, &flow);
    stage(run, 1, &flow, &stages);
    flow_at(run, 2, &stages, &flow);
    stage(run, 2, &flow, &stages);
    stage(run, 3, &flow, &stages);
    sum_up_trial(run, &stages, trial);
}

/* After a jump of the power the face follows with the time constant of the rubbed cell, then with
 * the root of time: a first step at which a method of this order is near the tolerance. */
TARGET static inline pack first_step(const struct run *run, pack kept, pack power)
{
    const struct brakes *brakes = &run->brakes;
    const struct field *field = &run->now.field;
    const pack natural = either(kept > 0.0, kept, run->drives.duration);
    const pack jump = magnitude(run->drives.power_begin - power);
    const pack tolerance = brakes->tolerance;
    const pack conductance = field->conductivity[FIRST_CELL] * brakes->first_reach;
    const pack capacity = field->capacity[FIRST_CELL];
    const pack cell =
        2.0 * capacity / conductance * root(root(100.0 * tolerance * conductance / jump));
    /* until 2 jump sqrt(t / pi) / (effusivity area) comes to ten tolerances */
    const pack rise = 10.0 * tolerance / jump;
    const pack depth = 0.25 * BRAKE_PI * rise * rise * 0.5 * conductance * capacity;
    return either(jump == 0.0, natural, lesser(natural, greater(cell, depth)));
}

/* Length of the next step: the end is met, and not by a sliver. */
TARGET static inline pack fitted(pack step, pack remaining)
{
    const pack shorter = either(step > 0.5 * remaining, 0.5 * remaining, step);
    return either(step >= remaining, remaining, shorter);
}

/* Factor on the step after one with this error: order 4, embedded 3. */
TARGET static inline pack growth(pack error, pack tolerance)
{
    const pack least = all(0.1);
    const pack most = all(10.0);
    const pack factor = 0.9 * root(root(tolerance / error));
    const pack kept = either(factor < least, least, either(factor < most, factor, most));
    return either(error < BRAKE_INFINITY, kept, least);
}

TARGET static inline mask solid_at(pack temperature)
{
    return (temperature > 0.0) & (temperature < HOTTEST);
}

/* Takes over, in the lanes that take it, a step and what follows from its enthalpies. */
TARGET static inline void accept(struct run *run, pack step, const struct trial *trial, mask taken)
{
    struct stand *now = &run->now;
    const struct instant begin = instant_at(run, now->time);
    const struct instant end = instant_at(run, now->time + step);
    const int nodes = run->brakes.nodes;
    mask solid = taken;
    for (int i = 0; i < nodes; i++)
        now->enthalpy[i] = either(taken, trial->enthalpy[i], now->enthalpy[i]);
    find_field(&run->brakes, now->enthalpy, &now->field);
    for (int i = 0; i < nodes; i++)
        solid &= solid_at(now->field.temperature[i]);
    run->refused |= taken & other_than(solid);
    now->supplied += either(taken, 0.5 * step * (begin.power + end.power), all(0.0));
    now->convected += either(taken, trial->convected, all(0.0));
    now->radiated += either(taken, trial->radiated, all(0.0));
    now->steps += either(taken, all(1.0), all(0.0));
}

/* The rubbed face from the mean of its cell and the flux through both of its sides: a parabola. */
TARGET static inline pack face_temperature(const struct brakes *brakes, const struct instant *now,
                                           const struct field *field)
{
    const struct half half = front_half(brakes, now, field);
    const struct face face = balance_face(&brakes->front, now->air, &half);
    pack onward = all(0.0);
    if (brakes->cells > 1)
        onward =
            brakes->inner[0] * (field->potential[FIRST_CELL] - field->potential[FIRST_CELL + 1]);
    return field->temperature[FIRST_CELL] +
           2.0 * (face.into_wall / 3.0 + onward / 6.0) / half.conductance;
}

/* ---- one call -------------------------------------------------------------------------------- */

TARGET static inline void put_state(const struct brake_thermal_state *from, int nodes, int i,
                                    struct stand *to)
{
    for (int node = 0; node < nodes; node++)
        set_lane(&to->enthalpy[node], i, from->enthalpy[node]);
    set_lane(&to->step, i, from->step);
    set_lane(&to->supplied, i, from->supplied);
    set_lane(&to->convected, i, from->convected);
    set_lane(&to->radiated, i, from->radiated);
}

TARGET static inline void put_drive(const struct brake_thermal_task *from, int i, struct run *to)
{
    const struct brake_thermal_drive *drive = &from->drive;
    const bool applied = drive->power_begin > 0.0 || drive->power_end > 0.0;
    set_lane(&to->drives.power_begin, i, drive->power_begin);
    set_lane(&to->drives.power_end, i, drive->power_end);
    set_lane(&to->drives.speed_begin, i, drive->speed_begin);
    set_lane(&to->drives.speed_end, i, drive->speed_end);
    set_lane(&to->drives.air, i, drive->air);
    set_lane(&to->drives.duration, i, from->duration);
    set_lane(&to->contact, i, applied ? from->brake->spec.contact : 0.0);
}

/* Lanes beyond `count` do as the first, and are left out of account. */
TARGET static inline void begin_run(struct brake_thermal_task *const *task, int count,
                                    struct run *run)
{
    const struct brake_thermal *brake[WIDTH];
    struct stand *now = &run->now;
    pack before; /* power */
    for (int i = 0; i < WIDTH; i++)
        brake[i] = task[i < count ? i : 0]->brake;
    put_brakes(brake, &run->brakes);
    for (int i = 0; i < WIDTH; i++) {
        const struct brake_thermal_task *one = task[i < count ? i : 0];
        put_state(one->state, run->brakes.nodes, i, now);
        put_drive(one, i, run);
        set_lane(&before, i, one->state->power);
        set_mask(&run->goes, i, i < count);
        set_mask(&run->refused, i, false);
    }
    now->time = now->steps = now->rejected = all(0.0);
    find_field(&run->brakes, now->enthalpy, &now->field);
    now->step = first_step(run, now->step, before);
}

/* One step of every lane that goes. */
TARGET static inline void go_on(struct run *run)
{
    struct stand *now = &run->now;
    struct trial trial;
    const pack duration = run->drives.duration;
    const pack remaining = duration - now->time;
    const pack step = either(run->goes, fitted(now->step, remaining), all(1.0));
    run->refused |= run->goes & (step < 1e-13 * duration);
    try_step(run, step, &trial);
    const pack wanted = step * growth(trial.error, run->brakes.tolerance);
    const mask taken = run->goes & (trial.error <= run->brakes.tolerance);
    const mask longer = (step < now->step) & (wanted < now->step);
    accept(run, step, &trial, taken);
    now->rejected += either(taken | other_than(run->goes), all(0.0), all(1.0));
    now->step = either(run->goes & other_than(taken & longer), wanted, now->step);
    now->time = either(taken, either(step == remaining, duration, now->time + step), now->time);
    run->goes &= (now->time < duration) & other_than(run->refused);
}

/* A count of steps that a lane kept as a double. */
static inline long steps_of(double count)
{
    return count < MOST_TRIES ? (long)count : MOST_TRIES;
}

TARGET static inline void take_state(const struct run *run, const pack *face, int i,
                                     struct brake_thermal_task *to)
{
    const struct stand *now = &run->now;
    struct brake_thermal_state *state = to->state;
    for (int node = 0; node < run->brakes.nodes; node++) {
        state->enthalpy[node] = lane(&now->enthalpy[node], i);
        state->temperature[node] = lane(&now->field.temperature[node], i);
    }
    state->time += to->duration;
    state->supplied = lane(&now->supplied, i);
    state->convected = lane(&now->convected, i);
    state->radiated = lane(&now->radiated, i);
    state->face = lane(face, i);
    state->power = to->drive.power_end;
    state->step = lane(&now->step, i);
    state->steps += steps_of(lane(&now->steps, i));
    state->rejected += steps_of(lane(&now->rejected, i));
}

TARGET static inline void end_run(struct run *run, struct brake_thermal_task *const *task,
                                  int count)
{
    const struct instant end = instant_at(run, run->drives.duration);
    const pack face = face_temperature(&run->brakes, &end, &run->now.field);
    const mask refused = run->refused | other_than(solid_at(face));
    for (int i = 0; i < count; i++) {
        task[i]->status = holds(refused, i) ? BRAKE_E_RANGE : BRAKE_OK;
        if (task[i]->status == BRAKE_OK)
            take_state(run, &face, i, task[i]);
    }
}

/* Up to WIDTH tasks that are usable, of brakes that are ready and have the same number of cells. */
TARGET static inline void advance(struct brake_thermal_task *const *task, int count)
{
    struct run run;
    begin_run(task, count, &run);
    for (long tries = 0; tries < MOST_TRIES && any(run.goes); tries++)
        go_on(&run);
    run.refused |= run.goes;
    end_run(&run, task, count);
}

#endif
