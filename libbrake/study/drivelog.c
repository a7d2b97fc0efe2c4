/* SPDX-License-Identifier: MIT */
/* A drive against the prediction. Equations: reference/method.md, section 9. */
#include "brake/drivelog.h"

#include <math.h>

#include "brake/fit.h"
#include "brake/tolerance.h"
#include "driven.h"
#include "stops.h"
#include "vehicle/system.h"
#include "distribution.h"
#include "tolerance.h"

/* ---- Student's t ---------------------------------------------------------------------------- */

/* Exact for 1 and 2; else the expansion of Abramowitz and Stegun, 26.7.5, within 0.1 % from 3
 * on. */
double brake_student_95(int freedom)
{
    const double x = BRAKE_P95;
    const double n = freedom;
    if (freedom < 1)
        return BRAKE_NAN;
    if (freedom == 1)
        return tan(0.45 * BRAKE_PI);
    if (freedom == 2)
        return 0.9 * sqrt(2.0 / (1.0 - 0.81));
    const double x3 = x * x * x;
    const double x5 = x3 * x * x;
    const double x7 = x5 * x * x;
    const double x9 = x7 * x * x;
    return x + (x3 + x) / (4.0 * n) + (5.0 * x5 + 16.0 * x3 + 3.0 * x) / (96.0 * n * n) +
           (3.0 * x7 + 19.0 * x5 + 17.0 * x3 - 15.0 * x) / (384.0 * n * n * n) +
           (79.0 * x9 + 776.0 * x7 + 1482.0 * x5 - 1920.0 * x3 - 945.0 * x) /
               (92160.0 * n * n * n * n);
}

/* ---- prediction ----------------------------------------------------------------------------- */

/* Grade: what looks level seldom rises by more. Lag: receivers tell a speed 0 to 0.2 s old,
 * from memory. Gauge: of a class of 2 %. */
const struct brake_drive_day brake_drive_usual_day = {
    .grade = {0.0, 0.01}, .lag = {0.1, 0.1}, .gauge = {1.0, 0.02}};

/* A tolerance holds two standard deviations, a half 1.645. */
static struct brake_measured told(const struct brake_sheet *sheet, const char *path,
                                  struct brake_measured usual)
{
    const int line = brake_catalogue_find(NULL, path);
    const double value = brake_quantity_value(&sheet->vehicle, line);
    const double half = 0.5 * 1.645 * sheet->record[line].tolerance;
    if (isnan(value))
        return usual;
    return (struct brake_measured){value, half > 0.0 ? half : usual.half};
}

struct brake_drive_day brake_drive_day_of(const struct brake_sheet *sheet)
{
    const struct brake_drive_day *usual = &brake_drive_usual_day;
    return (struct brake_drive_day){.grade = told(sheet, "drive.grade", usual->grade),
                                    .lag = told(sheet, "drive.lag", usual->lag),
                                    .gauge = told(sheet, "drive.gauge", usual->gauge)};
}

static const double GRIP = BRAKE_DRIVE_GRIP;

static const double AIR = 1.225; /* [kg/m3] ISO 2533, at 15 degC */

/* [-] of v_0^2, the mean of v^2 over the way from 0.8 to 0.1 v_0 at a constant deceleration. */
static const double SQUARE = 0.5 * (0.8 * 0.8 + 0.1 * 0.1);

struct question {
    const struct brake_sheet *sheet;
    enum brake_load load;
    struct brake_drive *drive;
    struct brake_drive_day day;                       /* as it is assumed to be */
    struct brake_drive_stop *stop[BRAKE_DRIVE_STOPS]; /* that are compared */
    double weight[BRAKE_DRIVE_STOPS];                 /* of each in their mean */
    int stops;
    int ways; /* along the road, 1 or 2, where its grade is not logged */
};

/* Whether a stop went the other way along the road than the first that counts. */
static bool goes_back(const struct brake_drive *drive, const struct brake_drive_stop *stop)
{
    for (int i = 0; i < drive->stops; i++) {
        if (brake_drive_counts(&drive->stop[i]))
            return cos(stop->heading - drive->stop[i].heading) < 0.0;
    }
    return false;
}

double brake_drive_predict(const struct brake_drive *drive, const struct brake_drive_day *day,
                           double drag_area, const struct brake_system *system,
                           const struct brake_drive_stop *stop, double adhesion)
{
    const double speed = stop->initial.value;
    struct brake_balance balance = system->balance;
    const double way = goes_back(drive, stop) ? -1.0 : 1.0;
    const double pressure =
        isnan(stop->pedal_force)
            ? stop->pressure * day->gauge.value
            : brake_system_pressure(system, stop->pedal_force * day->gauge.value);
    balance.grade = isnan(stop->grade) ? way * day->grade.value : stop->grade;
    balance.drag = 0.5 * AIR * drag_area * SQUARE * speed * speed;
    return brake_balance_deceleration(&balance, pressure, adhesion, system->antilock);
}

static void predict_all(const struct question *q, const struct brake_vehicle *vehicle,
                        double adhesion, double *value)
{
    struct brake_system system;
    brake_system_build(vehicle, q->load, BRAKE_INTACT, &system);
    for (int i = 0; i < q->stops; i++)
        value[i] = brake_drive_predict(q->drive, &q->day, q->sheet->vehicle.heat.drag_area, &system,
                                       q->stop[i], adhesion > 0.0 ? adhesion : system.adhesion);
}

/* Each way along a road counts as much as the other, so that its grade drops out of their mean. */
static void weigh(struct question *q)
{
    int back = 0;
    for (int i = 0; i < q->stops; i++)
        back += goes_back(q->drive, q->stop[i]);
    q->ways = back > 0 && back < q->stops ? 2 : 1;
    for (int i = 0; i < q->stops; i++) {
        const int same = goes_back(q->drive, q->stop[i]) ? back : q->stops - back;
        q->weight[i] = 1.0 / (q->ways * (q->ways == 2 ? same : q->stops));
    }
}

static double mean(const struct question *q, const double *value)
{
    double sum = 0.0;
    for (int i = 0; i < q->stops; i++)
        sum += q->weight[i] * value[i];
    return sum;
}

static bool is_friction(int index)
{
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        static const char *const paths[BRAKE_AXLES][2] = {
            {"front.disc.pads.mu", "front.drum.lining.mu"},
            {"rear.disc.pads.mu", "rear.drum.lining.mu"}};
        for (int kind = 0; kind < 2; kind++) {
            if (index == brake_catalogue_find(NULL, paths[axle][kind]))
                return true;
        }
    }
    return false;
}

/* A prediction for each stop, then their mean. */
struct answers {
    const struct question *q;
    double adhesion;
};

static void ask(const void *context, const struct brake_vehicle *vehicle, double *answer)
{
    const struct answers *wanted = context;
    predict_all(wanted->q, vehicle, wanted->adhesion, answer);
    answer[wanted->q->stops] = mean(wanted->q, answer);
}

/* ---- measured against predicted -------------------------------------------------------------- */

/* Half width of the mean of the differences: by their scatter about the mean of their way when
 * there are three or more, but not less than the stops themselves are sure. */
static double half_of_mean(const struct question *q, const double *difference)
{
    double way[2] = {0.0, 0.0};
    double own = 0.0;
    double scatter = 0.0;
    double squares = 0.0;
    for (int i = 0; i < q->stops; i++)
        way[goes_back(q->drive, q->stop[i])] += q->ways * q->weight[i] * difference[i];
    for (int i = 0; i < q->stops; i++) {
        const double sigma = q->weight[i] * q->stop[i]->developed.half / BRAKE_P95;
        const double left = difference[i] - way[goes_back(q->drive, q->stop[i])];
        own += sigma * sigma;
        scatter += left * left;
        squares += q->weight[i] * q->weight[i];
    }
    const double least = BRAKE_P95 * sqrt(own);
    const int freedom = q->stops - q->ways;
    if (q->stops < 3)
        return least;
    return fmax(least, brake_student_95(freedom) * sqrt(scatter / freedom * squares));
}

/* What the day's errors, the same in every stop, move the mean prediction by: half widths added up
 * in squares. */
static double half_of_day(const struct question *all, double adhesion)
{
    const struct brake_drive_day *day = &all->drive->day;
    double value[BRAKE_DRIVE_STOPS] = {0.0};
    struct question q = *all;
    predict_all(&q, &q.sheet->vehicle, adhesion, value);
    const double start = mean(&q, value);
    q.day.grade.value += day->grade.half;
    predict_all(&q, &q.sheet->vehicle, adhesion, value);
    const double grade = mean(&q, value) - start;
    q.day = *day;
    q.day.gauge.value -= day->gauge.half;
    predict_all(&q, &q.sheet->vehicle, adhesion, value);
    return hypot(grade, mean(&q, value) - start);
}

/* What the foot pressed harder or softer is in the prediction, so it is not in this. */
static double scatter_of(const struct question *q)
{
    double ratio[BRAKE_DRIVE_STOPS];
    double sum = 0.0;
    for (int i = 0; i < q->stops; i++)
        ratio[i] = q->stop[i]->developed.value / q->stop[i]->predicted.value;
    const double middle = mean(q, ratio);
    for (int i = 0; i < q->stops; i++)
        sum += (ratio[i] - middle) * (ratio[i] - middle);
    return q->stops > 1 ? sqrt(sum / (q->stops - 1)) : BRAKE_NAN;
}

static void agree(const struct question *q, const double *start)
{
    const struct answers wanted = {q, 0.0};
    const struct brake_question question = {ask, &wanted, q->stops + 1, NULL};
    double sigma[BRAKE_ANSWERS];
    struct brake_drive *drive = q->drive;
    double difference[BRAKE_DRIVE_STOPS];
    brake_uncertainty(q->sheet, &question, sigma);
    for (int i = 0; i < q->stops; i++) {
        q->stop[i]->predicted.value = start[i];
        q->stop[i]->predicted.half = BRAKE_P95 * sigma[i];
        difference[i] = q->stop[i]->developed.value - start[i];
    }
    drive->compared = q->stops;
    drive->both_ways = q->ways == 2;
    drive->scatter = scatter_of(q);
    drive->predicted.value = mean(q, start);
    drive->predicted.half = BRAKE_P95 * sigma[q->stops];
    drive->measured.value = drive->predicted.value + mean(q, difference);
    drive->measured.half = hypot(half_of_mean(q, difference), half_of_day(q, 0.0));
    const double apart = drive->measured.value - drive->predicted.value;
    if (isnan(apart) || isnan(drive->predicted.half))
        drive->agreement = BRAKE_NOT_SAID;
    else if (fabs(apart) <= drive->measured.half + drive->predicted.half)
        drive->agreement = BRAKE_AGREES;
    else
        drive->agreement = apart < 0.0 ? BRAKE_BELOW : BRAKE_ABOVE;
}

/* ---- friction that explains the difference --------------------------------------------------- */

static void scale_friction(struct brake_vehicle *vehicle, double factor)
{
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        struct brake_axle_of_vehicle *at = &vehicle->axle[axle];
        at->pads.mu *= factor;
        at->lining.mu *= factor;
        at->lining.secondary_mu *= factor; /* NaN where there is none that is told */
        at->drum.brake_factor *= factor;   /* NaN when it comes from the lining */
    }
}

/* Mean deceleration of the brakes alone; infinite when a shoe locks by itself. */
static double with_friction(const struct question *q, double factor)
{
    struct brake_vehicle vehicle = q->sheet->vehicle;
    double value[BRAKE_DRIVE_STOPS];
    scale_friction(&vehicle, factor);
    predict_all(q, &vehicle, GRIP, value);
    const double all = mean(q, value);
    return isnan(all) ? BRAKE_INFINITY : all;
}

/* By halving between a tenth and three times the friction of the file; NaN when it lies outside. */
static double friction_for(const struct question *q, double deceleration)
{
    double low = 0.1;
    double high = 3.0;
    if (!(with_friction(q, low) < deceleration && with_friction(q, high) > deceleration))
        return BRAKE_NAN;
    while (high - low > 1e-9) {
        const double middle = 0.5 * (low + high);
        if (with_friction(q, middle) < deceleration)
            low = middle;
        else
            high = middle;
    }
    return 0.5 * (low + high);
}

/* Stops that the tyres limited say nothing about friction. The uncertainty in the other lines, and
 * that of the measurement, become uncertainty in the friction by the slope. */
static void explain(const struct question *all)
{
    struct question q = *all;
    struct brake_drive *drive = q.drive;
    double difference[BRAKE_DRIVE_STOPS];
    double expected[BRAKE_DRIVE_STOPS] = {0.0};
    const struct answers wanted = {&q, GRIP};
    double sigma[BRAKE_ANSWERS];
    q.stops = 0;
    for (int i = 0; i < all->stops; i++) {
        if (!all->stop[i]->capped)
            q.stop[q.stops++] = all->stop[i];
    }
    drive->friction.value = drive->friction.half = BRAKE_NAN;
    if (q.stops == 0)
        return;
    weigh(&q);
    predict_all(&q, &q.sheet->vehicle, GRIP, expected);
    const struct brake_question question = {ask, &wanted, q.stops + 1, is_friction};
    brake_uncertainty(q.sheet, &question, sigma);
    for (int i = 0; i < q.stops; i++)
        difference[i] = q.stop[i]->developed.value - expected[i];
    const double measured = mean(&q, expected) + mean(&q, difference);
    const double factor = friction_for(&q, measured);
    const double slope =
        (with_friction(&q, 1.01 * factor) - with_friction(&q, factor)) / (0.01 * factor);
    drive->friction.value = factor;
    const double measuring = hypot(half_of_mean(&q, difference), half_of_day(&q, GRIP));
    drive->friction.half = hypot(measuring, BRAKE_P95 * sigma[q.stops]) / slope;
}

/* ---- fade ----------------------------------------------------------------------------------- */

/* A line through the figures of the stops in their order: its change from first to last over where
 * it begins. Measured over predicted of those where that is known, so that a heavier foot is no
 * fade; of all where it is known of none. */
static struct brake_measured fade(const struct brake_drive *drive)
{
    const struct brake_measured unknown = {BRAKE_NAN, BRAKE_NAN};
    const bool known = drive->compared > 0;
    struct brake_point point[BRAKE_DRIVE_STOPS];
    double slope;
    double at_first;
    int count = 0;
    for (int i = 0; i < drive->stops; i++) {
        const struct brake_drive_stop *stop = &drive->stop[i];
        if (!brake_drive_counts(stop) || (known && isnan(stop->predicted.value)))
            continue;
        point[count].x = count;
        point[count++].y = stop->developed.value / (known ? stop->predicted.value : 1.0);
    }
    if (count < 3 || brake_fit_line(point, count, &slope, &at_first) != BRAKE_OK)
        return unknown;
    const double middle = 0.5 * (count - 1);
    double squares = 0.0;
    double reach = 0.0;
    for (int i = 0; i < count; i++) {
        const double left = point[i].y - at_first - slope * point[i].x;
        squares += left * left;
        reach += (point[i].x - middle) * (point[i].x - middle);
    }
    const double sigma = sqrt(squares / (count - 2) / reach);
    const struct brake_measured change = {slope * (count - 1) / at_first,
                                          brake_student_95(count - 2) * sigma * (count - 1) /
                                              at_first};
    return change;
}

/* ---- the whole ------------------------------------------------------------------------------ */

/* Without pedal force or pressure only the most that the vehicle can do is a bound. */
static void compare_with_most(const struct question *q)
{
    const struct brake_vehicle *vehicle = &q->sheet->vehicle;
    struct brake_drive_stop hardest;
    struct question one = *q;
    int best = -1;
    for (int i = 0; i < q->drive->stops; i++) {
        const struct brake_drive_stop *stop = &q->drive->stop[i];
        if (brake_drive_counts(stop) &&
            (best < 0 || stop->developed.value > q->drive->stop[best].developed.value))
            best = i;
    }
    if (best < 0)
        return;
    hardest = q->drive->stop[best];
    hardest.pedal_force = vehicle->driver.pedal_force_most;
    one.stop[0] = &hardest;
    one.stops = 1;
    weigh(&one);
    double start[1] = {0.0};
    predict_all(&one, vehicle, 0.0, start);
    agree(&one, start);
    if (q->drive->agreement != BRAKE_ABOVE)
        q->drive->agreement = BRAKE_NOT_SAID;
    q->drive->compared = 0;
}

void brake_drive_compare(const struct brake_sheet *sheet, enum brake_load load,
                         struct brake_drive *drive)
{
    const struct brake_measured unknown = {BRAKE_NAN, BRAKE_NAN};
    struct question q = {.sheet = sheet, .load = load, .drive = drive, .day = drive->day};
    double start[BRAKE_DRIVE_STOPS] = {0.0};
    drive->measured = drive->predicted = drive->friction = unknown;
    drive->agreement = BRAKE_NOT_SAID;
    drive->scatter = BRAKE_NAN;
    for (int i = 0; i < drive->stops; i++) {
        struct brake_drive_stop *stop = &drive->stop[i];
        if (brake_drive_counts(stop) && !(isnan(stop->pedal_force) && isnan(stop->pressure)))
            q.stop[q.stops++] = stop;
    }
    if (q.stops == 0) {
        compare_with_most(&q);
    } else {
        double alone[BRAKE_DRIVE_STOPS] = {0.0};
        weigh(&q);
        predict_all(&q, &sheet->vehicle, 0.0, start);
        predict_all(&q, &sheet->vehicle, GRIP, alone);
        for (int i = 0; i < q.stops; i++)
            q.stop[i]->capped = start[i] < alone[i] * (1.0 - 1e-9);
        agree(&q, start);
        explain(&q);
    }
    drive->fade = fade(drive);
}
