/* Time stepping of brake/thermal.h: the Rosenbrock method RODASP. */
#include <math.h>
#include <stdbool.h>

#include "flow.h"

enum { STAGES = 6 };

/* Coefficients: Steinebach 1995, as used by Hairer and Wanner, IV.7, in the form without products
 * of the Jacobian. ALPHA: argument of a stage; C: its right side; AT: its time; BY: weight of the
 * derivative by time. Each stage solves (1/(h gamma) - J) k = f + sum C k / h + h BY df/dt; the
 * argument of the last stage is that of the one before it plus its k, and the result is that of the
 * last plus its k, which is also the error estimate. */
static const double GAMMA = 0.25;
static const double AT[STAGES] = {0.0, 0.75, 0.21, 0.63, 1.0, 1.0};
static const double BY[STAGES] = {0.25, -0.5, -0.023504, -0.0362, 0.0, 0.0};
static const double ALPHA[STAGES][STAGES - 1] = {
    {0.0},
    {3.0},
    {1.831036793486759, 0.4955183967433795},
    {2.304376582692669, -0.05249275245743001, -1.176798761832782},
    {-7.170454962423024, -4.741636671481785, -16.31002631330971, -1.062004044111401},
    {-7.170454962423024, -4.741636671481785, -16.31002631330971, -1.062004044111401, 1.0},
};
static const double C[STAGES][STAGES - 1] = {
    {0.0},
    {-12.0},
    {-8.791795173947035, -2.207865586973518},
    {10.81793056857153, 6.780270611428266, 19.53485944642410},
    {34.19095006749676, 15.49671153725963, 54.74760875964130, 14.16005392148534},
    {34.62605830930532, 15.30084976114473, 56.99955578662667, 18.40807009793095,
     -5.714285714285717},
};

/* A solid melts far below this [K]. */
static const double HOTTEST = 5000.0;

/* Steps tried in one call: a second of work, where ten hours of a real brake take some hundreds. */
enum { MOST_TRIES = 100000 };

/* One call of brake_thermal_advance. */
struct run {
    const struct brake_thermal *brake;
    const struct brake_thermal_drive *drive;
    double duration;
};

/* One step that is tried. */
struct trial {
    double enthalpy[NODES];
    double convected;
    double radiated;
    double error; /* [K] */
};

/* Everything that the stages of one step share. */
struct stages {
    struct slopes slopes;
    double capacity[NODES];
    double pivot[NODES];  /* 1 / pivot of the elimination */
    double factor[NODES]; /* below the pivots */
    struct flow change;   /* of the flows by time */
    double k[STAGES][NODES];
    double convected[STAGES];
    double radiated[STAGES];
};

/* Only a brake that is applied has one. */
static double contact_under(const struct brake_thermal *brake, double begin, double end)
{
    return begin > 0.0 || end > 0.0 ? brake->spec.contact : 0.0;
}

static struct instant instant_at(const struct run *run, double time)
{
    const struct brake_thermal_drive *drive = run->drive;
    const double part = time / run->duration;
    return (struct instant){
        .power = drive->power_begin + part * (drive->power_end - drive->power_begin),
        .speed = drive->speed_begin + part * (drive->speed_end - drive->speed_begin),
        .air = drive->air,
        .contact = contact_under(run->brake, drive->power_begin, drive->power_end),
    };
}

/* Derivative of the flows by time, `here` being those at `time` without conduction: only friction
 * power and speed depend on it. */
static void change_in_time(const struct run *run, double time, const struct field *field,
                           const struct flow *here, struct flow *change)
{
    const struct brake_thermal_drive *drive = run->drive;
    const int nodes = run->brake->nodes;
    if (drive->power_begin == drive->power_end && drive->speed_begin == drive->speed_end) {
        *change = (struct flow){.convected = 0.0};
        return;
    }
    const double little = (time < 0.5 * run->duration ? 1e-6 : -1e-6) * run->duration;
    const struct instant then = instant_at(run, time + little);
    struct exchange exchange;
    brake_flow_exchange(run->brake, &then, field, &exchange);
    brake_flow_gather(run->brake, &then, field, &exchange, change);
    for (int i = 0; i < nodes; i++)
        change->rate[i] = (change->rate[i] - here->rate[i]) / little;
    change->convected = (change->convected - here->convected) / little;
    change->radiated = (change->radiated - here->radiated) / little;
}

/* Elimination in C/(h gamma) - dF/dT, tridiagonal; the unknowns are temperatures. */
static void eliminate(int nodes, double step, struct stages *stages)
{
    const struct slopes *slopes = &stages->slopes;
    for (int i = 0; i < nodes; i++) {
        double pivot = stages->capacity[i] / (step * GAMMA) - slopes->own[i];
        if (i > 0) {
            stages->factor[i] = slopes->before[i] * stages->pivot[i - 1];
            pivot -= stages->factor[i] * slopes->next[i - 1];
        }
        stages->pivot[i] = 1.0 / pivot;
    }
}

static void substitute(int nodes, const struct stages *stages, double *x)
{
    for (int i = 1; i < nodes; i++)
        x[i] += stages->factor[i] * x[i - 1];
    x[nodes - 1] *= stages->pivot[nodes - 1];
    for (int i = nodes - 2; i >= 0; i--)
        x[i] = (x[i] + stages->slopes.next[i] * x[i + 1]) * stages->pivot[i];
}

/* What changes of the temperatures add to a loss: cells within the wall have no part in it. */
static double sum_of_losses(const struct brake_thermal *brake, const double *slope, const double *x)
{
    const int last = FIRST_CELL + brake->spec.cells - 1;
    double sum = 0.0;
    for (int i = 0; i <= FIRST_CELL; i++)
        sum += slope[i] * x[i];
    for (int i = last > FIRST_CELL ? last : last + 1; i < brake->nodes; i++)
        sum += slope[i] * x[i];
    return sum;
}

/* k of a stage from the flows at its argument. */
static void stage(const struct brake_thermal *brake, int s, double step,
                  const struct flow *restrict flow, struct stages *restrict stages)
{
    const int nodes = brake->nodes;
    double x[NODES];
    const double by = step * BY[s];
    double convected = flow->convected + by * stages->change.convected;
    double radiated = flow->radiated + by * stages->change.radiated;
    for (int i = 0; i < nodes; i++)
        x[i] = flow->rate[i] + by * stages->change.rate[i];
    for (int j = 0; j < s; j++) {
        const double c = C[s][j] / step;
        convected += c * stages->convected[j];
        radiated += c * stages->radiated[j];
        for (int i = 0; i < nodes; i++)
            x[i] += c * stages->k[j][i];
    }
    substitute(nodes, stages, x);
    convected += sum_of_losses(brake, stages->slopes.convected, x);
    radiated += sum_of_losses(brake, stages->slopes.radiated, x);
    for (int i = 0; i < nodes; i++)
        stages->k[s][i] = stages->capacity[i] * x[i];
    stages->convected[s] = step * GAMMA * convected;
    stages->radiated[s] = step * GAMMA * radiated;
}

/* `at` holds the argument of the stage before it. */
static void argument(int nodes, int s, const double *restrict enthalpy,
                     const struct stages *restrict stages, double *restrict at)
{
    if (s == STAGES - 1) {
        for (int i = 0; i < nodes; i++)
            at[i] += stages->k[s - 1][i];
        return;
    }
    for (int i = 0; i < nodes; i++)
        at[i] = enthalpy[i];
    for (int j = 0; j < s; j++) {
        const double a = ALPHA[s][j];
        for (int i = 0; i < nodes; i++)
            at[i] += a * stages->k[j][i];
    }
}

/* One step from `time` within the run. */
static void try_step(const struct run *run, double time, double step,
                     const struct brake_thermal_state *state, struct trial *trial)
{
    const struct brake_thermal *brake = run->brake;
    const int nodes = brake->nodes;
    struct stages stages;
    struct field field;
    struct exchange exchange;
    struct flow flow;
    for (int s = 0; s < STAGES; s++) {
        const struct instant now = instant_at(run, time + AT[s] * step);
        argument(nodes, s, state->enthalpy, &stages, trial->enthalpy);
        brake_flow_field(brake, trial->enthalpy, &field);
        brake_flow_exchange(brake, &now, &field, &exchange);
        brake_flow_gather(brake, &now, &field, &exchange, &flow);
        if (s == 0) {
            brake_flow_slopes(brake, &now, &field, &exchange, &stages.slopes);
            change_in_time(run, time, &field, &flow, &stages.change);
            for (int i = 0; i < nodes; i++)
                stages.capacity[i] = field.capacity[i];
            eliminate(nodes, step, &stages);
        }
        brake_flow_conduct(brake, &field, &flow);
        stage(brake, s, step, &flow, &stages);
    }
    trial->error = 0.0;
    trial->convected = stages.convected[STAGES - 1];
    trial->radiated = stages.radiated[STAGES - 1];
    for (int i = 0; i < nodes; i++) {
        const double last = stages.k[STAGES - 1][i];
        const double error = fabs(last) / stages.capacity[i];
        trial->enthalpy[i] += last;
        if (!(error <= trial->error))
            trial->error = error; /* a NaN stays from here on */
    }
    for (int j = 0; j < STAGES - 1; j++) {
        trial->convected += ALPHA[STAGES - 1][j] * stages.convected[j];
        trial->radiated += ALPHA[STAGES - 1][j] * stages.radiated[j];
    }
}

/* After a jump of the power the face follows with the time constant of the rubbed cell, then with
 * the root of time: a first step at which a method of this order is near the tolerance. */
static double first_step(const struct run *run, const struct brake_thermal_state *state)
{
    const struct brake_thermal *brake = run->brake;
    const double natural = state->step > 0.0 ? state->step : run->duration;
    const double jump = fabs(run->drive->power_begin - state->power);
    if (jump == 0.0)
        return natural;
    struct field field;
    brake_flow_rubbed(brake, state->enthalpy, &field);
    const double tolerance = brake->spec.tolerance;
    const double conductance =
        2.0 * field.conductivity[FIRST_CELL] * brake->spec.area / brake->width[0];
    const double capacity = field.capacity[FIRST_CELL];
    const double cell =
        2.0 * capacity / conductance * sqrt(sqrt(100.0 * tolerance * conductance / jump));
    /* until 2 jump sqrt(t / pi) / (effusivity area) comes to ten tolerances */
    const double rise = 10.0 * tolerance / jump;
    const double depth = 0.25 * BRAKE_PI * rise * rise * 0.5 * conductance * capacity;
    return fmin(natural, fmax(cell, depth));
}

/* Length of the next step: the end is met, and not by a sliver. */
static double fitted(double step, double remaining)
{
    if (step >= remaining)
        return remaining;
    return step > 0.5 * remaining ? 0.5 * remaining : step;
}

/* Factor on the step after one with this error: order 4, embedded 3. */
static double growth(double error, double tolerance)
{
    const double least = 0.1;
    const double most = 10.0;
    if (!(error < BRAKE_INFINITY))
        return least;
    const double factor = 0.9 * sqrt(sqrt(tolerance / error));
    if (factor < least)
        return least;
    return factor < most ? factor : most;
}

static bool solid_at(double temperature)
{
    return temperature > 0.0 && temperature < HOTTEST;
}

/* Takes over a step and what follows from its enthalpies; false when no solid is that hot. */
static bool accept(const struct run *run, double time, double step, const struct trial *trial,
                   struct brake_thermal_state *state, struct field *field)
{
    const struct instant begin = instant_at(run, time);
    const struct instant end = instant_at(run, time + step);
    bool solid = true;
    brake_flow_field(run->brake, trial->enthalpy, field);
    for (int i = 0; i < run->brake->nodes; i++) {
        state->enthalpy[i] = trial->enthalpy[i];
        state->temperature[i] = field->temperature[i];
        solid = solid && solid_at(field->temperature[i]);
    }
    state->supplied += 0.5 * step * (begin.power + end.power);
    state->convected += trial->convected;
    state->radiated += trial->radiated;
    state->steps++;
    return solid;
}

/* The rubbed face from the mean of its cell and the flux through both of its sides: a parabola. */
static double face_temperature(const struct brake_thermal *brake, const struct instant *now,
                               const struct field *field)
{
    double onward = 0.0;
    if (brake->spec.cells > 1)
        onward =
            brake->inner[0] * (field->potential[FIRST_CELL] - field->potential[FIRST_CELL + 1]);
    return field->temperature[FIRST_CELL] +
           brake->width[0] / (field->conductivity[FIRST_CELL] * brake->spec.area) *
               (brake_flow_face(brake, now, field) / 3.0 + onward / 6.0);
}

double brake_thermal_face_under(const struct brake_thermal *brake,
                                const struct brake_thermal_state *state, double power, double speed,
                                double air)
{
    const struct instant now = {
        .power = power, .speed = speed, .air = air, .contact = contact_under(brake, power, power)};
    if (!is_ready(brake))
        return BRAKE_NAN;
    struct field field;
    brake_flow_field(brake, state->enthalpy, &field);
    return face_temperature(brake, &now, &field);
}

static bool usable(const struct brake_thermal_drive *drive, double duration)
{
    return drive->power_begin >= 0.0 && drive->power_begin <= 1e12 && drive->power_end >= 0.0 &&
           drive->power_end <= 1e12 && drive->speed_begin >= 0.0 && drive->speed_begin <= 1e3 &&
           drive->speed_end >= 0.0 && drive->speed_end <= 1e3 && drive->air >= 1.0 &&
           drive->air <= HOTTEST && duration >= 0.0 && duration <= 1e9;
}

enum brake_status brake_thermal_advance(const struct brake_thermal *brake,
                                        const struct brake_thermal_drive *drive, double duration,
                                        struct brake_thermal_state *state)
{
    const struct run run = {brake, drive, duration};
    struct brake_thermal_state next = *state;
    struct trial trial;
    struct field field;
    long tries = 0;
    if (!is_ready(brake) || !usable(drive, duration))
        return BRAKE_E_RANGE;
    if (duration == 0.0)
        return BRAKE_OK;
    next.step = first_step(&run, state);
    for (double time = 0.0; time < duration;) {
        const double remaining = duration - time;
        const double step = fitted(next.step, remaining);
        const bool cut = step < next.step;
        if (step < 1e-13 * duration || ++tries > MOST_TRIES)
            return BRAKE_E_RANGE;
        try_step(&run, time, step, &next, &trial);
        const double wanted = step * growth(trial.error, brake->spec.tolerance);
        if (!(trial.error <= brake->spec.tolerance)) {
            next.rejected++;
            next.step = wanted;
            continue;
        }
        if (!accept(&run, time, step, &trial, &next, &field))
            return BRAKE_E_RANGE;
        next.step = cut && wanted < next.step ? next.step : wanted;
        time = step == remaining ? duration : time + step;
    }
    next.time += duration;
    next.power = drive->power_end;
    const struct instant end = instant_at(&run, duration);
    next.face = face_temperature(brake, &end, &field);
    if (!solid_at(next.face))
        return BRAKE_E_RANGE;
    *state = next;
    return BRAKE_OK;
}
