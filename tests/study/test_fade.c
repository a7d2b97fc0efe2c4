/* SPDX-License-Identifier: MIT */
/* Hot performance: the figures of a fade procedure, how they are judged, and where there are
 * none. */
#include "figures.h"

#include "study/assess.h"
#include "study/procedure.h"

static const double KMH = 1.0 / 3.6;

static const char heat[] =
    "[vehicle]\ntop_speed = 160 km/h\n"
    "[front.disc]\nrotor_mass = 14 kg\nrotor_diameter = 300 mm\nhat_mass = 2 kg\nrotor = vented\n"
    "[rear.disc]\nrotor_mass = 9 kg\nrotor_diameter = 300 mm\n"
    "[heat]\niron = grey_250\nambient = 20 degC\nfluid = DOT4\n";

/* Friction that heat does not touch, front and rear. */
static const char steady[] =
    "[front.disc.pads]\nfriction = (0 degC, 0.4) (800 degC, 0.4), measured\n"
    "[rear.disc.pads]\nfriction = (0 degC, 0.4) (800 degC, 0.4), measured\n";

static const char fading[] =
    "[front.disc.pads]\nfriction = (0 degC, 0.4) (200 degC, 0.4) (500 degC, 0.15), measured\n"
    "[rear.disc.pads]\nfriction = (0 degC, 0.4) (200 degC, 0.4) (500 degC, 0.15), measured\n";

/* Static: they are large. */
static struct brake_sheet sheet;
static struct brake_fade fade;
static struct brake_assessment assessment;

static void run(const char *text, enum brake_fade_kind kind)
{
    read_sheet(&sheet, text);
    brake_fade_run(&sheet.vehicle, kind, BRAKE_FADE_WHOLE, NULL, NULL, &fade);
}

/* Front rotors so large that the fluid never boils. */
static const char *large(void)
{
    return swapped(swapped(plus(plain, heat), "rotor_mass = 14 kg", "rotor_mass = 32 kg"),
                   "fluid = DOT4", "fluid = DOT5.1");
}

static const struct brake_criterion *criterion(const char *id)
{
    return brake_criterion_at(criterion_number(id));
}

static struct brake_judgement judge(const char *id, const struct brake_hot_figures *figures)
{
    struct brake_judgement judgement;
    brake_judge_hot(criterion(id), &sheet.vehicle, figures, &judgement);
    return judgement;
}

/* ---- judging -------------------------------------------------------------------------------- */

/* A cold stop in 60 m, hot ones in 90 and 80 m. 100 km/h: 0.1 V is 10 m.
 * S7.14(a): 0.0386 V^2 / (0.60 d_c) with d_c = 0.0386 V^2 / (S_c - 0.1 V) is (60 - 10) / 0.6;
 * S7.14(b): 10 + 0.0079 * 100^2 = 89 m. FMVSS 135, from memory. */
static void the_figures_are_judged_as_the_clauses_say(void **state)
{
    (void)state;
    static const struct brake_hot_figures figures = {
        {60.0, 7.5}, {{90.0, 4.5}, {80.0, 5.0}}, {70.0, 6.0}, .fluid_room = 2.0, .lacks = NULL};
    read_sheet(&sheet, plus(plain, heat));
    const struct brake_judgement kept = judge("us.135.hot_kept", &figures);
    assert_near(kept.limit, 10.0 + 50.0 / 0.6, 1e-6);
    assert_equal(kept.value, 90.0);
    assert_int_equal(kept.verdict, BRAKE_MEETS);
    const struct brake_judgement hot = judge("us.135.hot", &figures);
    assert_near(hot.limit, 89.0, 1e-6);
    assert_equal(hot.value, 80.0); /* the better of two */
    assert_near(hot.margin, 89.0 / 80.0 - 1.0, 1e-9);
    assert_equal(judge("un.13h.hot", &figures).value, 5.0);
    struct brake_hot_figures turned = figures;
    turned.hot[0] = figures.hot[1];
    turned.hot[1] = figures.hot[0];
    assert_equal(judge("us.135.hot", &turned).value, 80.0);
    assert_equal(judge("un.13h.hot", &turned).value, 5.0);
    assert_near(judge("un.13h.hot_distance", &figures).limit, 90.0, 1e-6);
    assert_near(judge("un.13h.hot_kept", &figures).value, 0.6, 1e-15);
    assert_near(judge("us.135.recovery", &figures).value, 0.8, 1e-15);
    assert_int_equal(judge("us.135.recovery", &figures).verdict, BRAKE_MEETS);
    assert_int_equal(judge("us.135.recovery_most", &figures).verdict, BRAKE_MEETS);
    assert_int_equal(judge("un.13.hot", &figures).scope, BRAKE_OUTSIDE); /* M1 */
}

/* 0.8 g in each of two stops: South Australia's brake system test procedure. */
static void each_of_two_stops_means_the_worse(void **state)
{
    (void)state;
    static const struct brake_hot_figures figures = {
        {60.0, 8.0}, {{40.0, 8.0}, {41.0, 7.8}}, {70.0, 6.0}, .fluid_room = 2.0, .lacks = NULL};
    read_sheet(&sheet, plus(plain, heat));
    const struct brake_judgement j = judge("au.sa.fade", &figures);
    assert_equal(j.value, 7.8);
    assert_near(j.margin, 7.8 / (0.8 * 9.80665) - 1.0, 1e-9);
    assert_int_equal(j.load, BRAKE_LIGHT);
}

static void too_much_after_cooling_falls_short_as_too_little_does(void **state)
{
    (void)state;
    struct brake_hot_figures figures = {
        {60.0, 5.0}, {{60.0, 5.0}, {60.0, 5.0}}, {40.0, 7.6}, .fluid_room = 2.0, .lacks = NULL};
    read_sheet(&sheet, plus(plain, heat));
    assert_int_equal(judge("us.135.recovery_most", &figures).verdict, BRAKE_FALLS_SHORT);
    assert_int_equal(judge("us.135.recovery", &figures).verdict, BRAKE_MEETS);
    figures.recovery.developed = 3.4;
    assert_int_equal(judge("us.135.recovery_most", &figures).verdict, BRAKE_MEETS);
    assert_int_equal(judge("us.135.recovery", &figures).verdict, BRAKE_FALLS_SHORT);
}

static void no_stop_after_cooling_is_too_little_and_not_within_the_most(void **state)
{
    (void)state;
    static const struct brake_hot_figures figures = {{60.0, 7.5},
                                                     {{90.0, 4.5}, {80.0, 5.0}},
                                                     {BRAKE_INFINITY, 0.0},
                                                     .fluid_room = 2.0,
                                                     .lacks = NULL};
    read_sheet(&sheet, plus(plain, heat));
    assert_int_equal(judge("us.135.recovery", &figures).verdict, BRAKE_FALLS_SHORT);
    assert_int_equal(judge("us.135.recovery_most", &figures).verdict, BRAKE_CANNOT_SAY);
    assert_string_equal(judge("un.13h.recovery_most", &figures).reason,
                        "there was no stop after cooling");
}

static void without_a_rated_mass_no_hot_stop_can_be_said(void **state)
{
    (void)state;
    static const struct brake_hot_figures figures = {
        {60.0, 7.5}, {{90.0, 4.5}, {80.0, 5.0}}, {70.0, 6.0}, .fluid_room = 2.0, .lacks = NULL};
    read_sheet(&sheet, swapped(plain, "rated_mass = 2500 kg\n", ""));
    assert_int_equal(judge("us.135.hot", &figures).verdict, BRAKE_CANNOT_SAY);
    assert_string_equal(judge("us.135.hot", &figures).reason, "vehicle.rated_mass is not given");
    assert_string_equal(judge("un.13h.hot", &figures).reason, "vehicle.rated_mass is not given");
}

/* ---- running -------------------------------------------------------------------------------- */

static void steady_friction_keeps_the_whole_deceleration(void **state)
{
    (void)state;
    run(plus(large(), steady), BRAKE_FADE_CAR);
    const struct brake_hot_figures *f = &fade.figures;
    assert_null(f->lacks);
    assert_true(f->cold.developed > 3.0);
    /* The cold stop's mean force has its build-up in it, so the hot stop gets a little less. */
    assert_near(f->hot[0].developed / f->cold.developed, 1.0, 0.06);
    assert_near(f->hot[1].developed, f->cold.developed, 1e-3);
    assert_near(f->recovery.developed, f->hot[0].developed, 1e-3);
    assert_true(fade.residual < 1e-9);
}

/* 15 stops from 60 km/h, 25 s apart, lightly laden; both stops after them take what the driver
 * gives, so that what does not fade keeps its whole deceleration in both. */
static void south_australia_stops_from_60_km_h(void **state)
{
    (void)state;
    run(plus(large(), steady), BRAKE_FADE_SA);
    const struct brake_hot_figures *f = &fade.figures;
    assert_null(f->lacks);
    assert_int_equal(fade.load, BRAKE_LIGHT);
    assert_int_equal(fade.heating.applications, 15);
    assert_near(fade.snubs.stops.from, 60.0 * KMH, 1e-12);
    assert_equal(fade.snubs.stops.to, 0.0);
    assert_near(f->hot[0].developed, f->cold.developed, 1e-3);
    assert_near(f->hot[1].developed, f->cold.developed, 1e-3);
    assert_equal(f->recovery.developed, 0.0); /* none is made */
    assert_true(isinf(f->recovery.distance));
    run(plus(plus(plain, heat), fading), BRAKE_FADE_SA);
    assert_null(f->lacks);
    assert_true(fade.figures.hot[0].developed < 0.95 * fade.figures.cold.developed);
}

static void fading_friction_is_felt_hot_and_comes_back(void **state)
{
    (void)state;
    run(plus(large(), fading), BRAKE_FADE_CAR);
    const struct brake_hot_figures *f = &fade.figures;
    assert_null(f->lacks);
    assert_true(f->hot[0].developed < 0.8 * f->cold.developed);
    assert_true(f->hot[0].distance > f->cold.distance);
    assert_true(f->recovery.developed > f->hot[0].developed);
    assert_true(fade.heating.axle[BRAKE_FRONT].face_most > 250.0 + 273.15);
}

/* The cold stop is that of duty.h: the hardest from 100 km/h at 500 N, begun at 65 degC. */
static void the_cold_stop_is_the_hardest_from_100_km_h(void **state)
{
    (void)state;
    static struct brake_hot_rig hot;
    struct brake_error error;
    struct brake_duty_result result;
    struct brake_thermal_state start[BRAKE_AXLES];
    const struct brake_duty duty = {
        .kind = BRAKE_DUTY_STOPS,
        .stops = {.count = 1, .from = 100.0 * KMH, .manner = BRAKE_AT_INCIPIENT_LOCK},
        .heat = start,
        .force = 500.0};
    run(plus(plain, heat), BRAKE_FADE_CAR);
    assert_int_equal(brake_hot_rig_build(&sheet.vehicle, BRAKE_FULL, &hot, &error), BRAKE_OK);
    for (int i = 0; i < BRAKE_AXLES; i++)
        assert_int_equal(brake_thermal_start(&hot.thermal[i], 338.15, &start[i]), BRAKE_OK);
    assert_int_equal(brake_duty_run(&hot, &duty, NULL, &result), BRAKE_OK);
    assert_equal(fade.figures.cold.distance, result.distance);
    assert_equal(fade.figures.cold.developed, result.developed);
    assert_equal(fade.cold_force, result.force_mean);
    assert_true(fade.cold_force > 0.0 && fade.cold_force < result.force_most);
}

static struct brake_hot_rig rig;
static struct brake_duty_result part;

/* A duty that begins as hot as the one before it ended. */
static void go_on(struct brake_duty duty)
{
    struct brake_thermal_state begin[BRAKE_AXLES];
    memcpy(begin, part.heat, sizeof begin);
    duty.heat = begin;
    assert_int_equal(brake_duty_run(&rig, &duty, NULL, &part), BRAKE_OK);
}

static void roll(double time, double speed)
{
    go_on((struct brake_duty){
        .kind = BRAKE_DUTY_REST, .force = 500.0, .rest = time, .rest_speed = speed * KMH});
}

/* As hard as the force allows; what the procedure says of the same stop. */
static void stop(double speed, double force, const struct brake_hot_stop *said)
{
    go_on((struct brake_duty){
        .kind = BRAKE_DUTY_STOPS,
        .stops = {.count = 1, .from = speed * KMH, .manner = BRAKE_AT_INCIPIENT_LOCK},
        .force = force});
    assert_near(said->distance, part.distance, 1e-9);
    assert_near(said->developed, part.developed, 1e-9);
}

/* The hot rig of the procedure as its snubs left it. */
static void heat_up(void)
{
    struct brake_error error;
    assert_int_equal(brake_hot_rig_build(&sheet.vehicle, fade.load, &rig, &error), BRAKE_OK);
    rig.rig.adhesion = BRAKE_TEST_ADHESION; /* the surface of the test, times a grip of 1 */
    memcpy(part.heat, fade.heating.braked, sizeof part.heat);
}

/* brake_fade_run() part by part. After the last of 15 snubs from 120 to 60 km/h at 3 m/s2 speed is
 * regained until the next would be due, 45 s (goods: 55 s) from start to start, and after the first
 * hot stop in the same time; 1.5 km at 50 km/h, 108 s, come before and between four stops at 3 m/s2
 * that cool, and after them. Only the second hot stop has all the force of the clause. FMVSS 135,
 * S7.13 to S7.16; UN R13, Annex 4, 1.5; from memory. */
static void the_hot_stops_follow_one_another_as_the_clause_says(void **state)
{
    (void)state;
    static const struct {
        enum brake_fade_kind kind;
        double interval, speed, force;
    } rows[] = {{BRAKE_FADE_CAR, 45.0, 100.0, 500.0}, {BRAKE_FADE_GOODS, 55.0, 80.0, 700.0}};
    for (int i = 0; i < 2; i++) {
        const double pause = rows[i].interval - (120.0 - 60.0) * KMH / 3.0;
        const double speed = rows[i].speed;
        run(plus(large(), fading), rows[i].kind);
        const struct brake_hot_figures *f = &fade.figures;
        assert_null(f->lacks);
        heat_up();
        roll(pause, 0.5 * (60.0 + speed));
        stop(speed, fade.cold_force, &f->hot[0]);
        roll(pause, 0.5 * speed);
        stop(speed, rows[i].force, &f->hot[1]);
        roll(108.0, 50.0);
        go_on((struct brake_duty){
            .kind = BRAKE_DUTY_STOPS,
            .stops = {4, 50.0 * KMH, 0.0, 108.0, BRAKE_HOLDS_DECELERATION, 3.0, NULL},
            .force = 500.0});
        roll(108.0, 50.0);
        stop(speed, fade.cold_force, &f->recovery);
    }
}

/* Both stops at once after 15 from 60 km/h at 4.5 m/s2, 25 s from start to start, with all that the
 * driver gives. */
static void south_australia_stops_twice_at_once(void **state)
{
    (void)state;
    run(plus(large(), fading), BRAKE_FADE_SA);
    const double pause = 25.0 - 60.0 * KMH / 4.5;
    const double most = sheet.vehicle.driver.pedal_force_most;
    assert_null(fade.figures.lacks);
    heat_up();
    roll(pause, 30.0);
    stop(60.0, most, &fade.figures.hot[0]);
    roll(pause, 30.0);
    stop(60.0, most, &fade.figures.hot[1]);
}

/* Brakes that are hardly any: less than 1 m/s2 is a cold stop to compare with all the same. */
static void a_cold_stop_is_one_however_weak(void **state)
{
    (void)state;
    const char *text = swapped(swapped(plain, "mu = 0.4\n", "mu = 0.05\n"), "40 %", "5 %");
    run(plus(text, heat), BRAKE_FADE_CAR);
    const struct brake_hot_figures *f = &fade.figures;
    assert_between(f->cold.developed, 0.1, 1.0);
    assert_null(f->lacks);
    assert_true(f->hot[0].developed > 0.0);
    assert_int_equal(judge("us.135.hot", f).verdict, BRAKE_FALLS_SHORT);
}

/* A stop from 60 km/h that ten minutes do not end is none: a foot of 20 N on an eighth of the
 * friction slows by less than 0.03 m/s2. */
static void without_a_cold_stop_there_is_nothing_to_compare_with(void **state)
{
    (void)state;
    const char *text = swapped(swapped(plain, "mu = 0.4\n", "mu = 0.05\n"), "40 %", "5 %");
    read_sheet(&sheet, plus(text, heat));
    sheet.vehicle.driver.pedal_force_most = 20.0;
    sheet.vehicle.heat.drag_area = 0.0;
    brake_fade_run(&sheet.vehicle, BRAKE_FADE_SA, BRAKE_FADE_WHOLE, NULL, NULL, &fade);
    assert_string_equal(fade.figures.lacks, "there is no cold stop to compare with");
}

static void keep_last(void *context, const struct brake_duty_row *row)
{
    struct brake_duty_row *last = context;
    assert_true(row->time >= last->time);
    *last = *row;
}

/* So `heat --snubs` says of the published sequence what the procedure says of its snubs. Parked for
 * half an hour: common practice, no source. 65 degC: FMVSS 135, S7.13 (55 to 65), from memory. */
static void its_snubs_are_a_duty_like_any_other(void **state)
{
    (void)state;
    static struct brake_hot_rig hot;
    struct brake_error error;
    struct brake_duty_row last = {.time = 0.0};
    const struct brake_duty_watch rows = {.row = keep_last, .context = &last, .coarse = true};
    static struct brake_duty_result result;
    read_sheet(&sheet, plus(large(), fading));
    brake_fade_run(&sheet.vehicle, BRAKE_FADE_CAR, BRAKE_FADE_WHOLE, NULL, &rows, &fade);
    assert_null(fade.figures.lacks);
    assert_near(last.time, fade.heating.duration + 1800.0, 1e-12);
    assert_equal(last.speed, 0.0);
    assert_int_equal(brake_hot_rig_build(&sheet.vehicle, BRAKE_FULL, &hot, &error), BRAKE_OK);
    assert_equal(fade.snubs.stops.sequence->start, 65.0 + 273.15);
    hot.rig.adhesion = BRAKE_TEST_ADHESION; /* the surface of the test, times a grip of 1 */
    assert_int_equal(brake_duty_run(&hot, &fade.snubs, NULL, &result), BRAKE_OK);
    assert_memory_equal(&result, &fade.heating, sizeof result);
    /* Parked, the heat of the iron comes to the fluid; the procedure goes on without that. */
    assert_true(result.axle[BRAKE_FRONT].fluid_most > result.axle[BRAKE_FRONT].fluid_last + 10.0);
}

/* reference/method.md, section 8: a car stops from 100 km/h with 500 N, goods from 80 km/h with 700
 * N. The plain vehicle slows by F / 100 N x 2250 / (2500 + 250) kg at its rated mass, all wheels
 * turning; air, half rho A v^2 of 1 m2, adds 4.5 % at 100 km/h, half of that over the way. 0.36 s
 * pass before. */
static void each_procedure_stops_from_its_speed_with_its_force(void **state)
{
    (void)state;
    static const struct {
        enum brake_fade_kind kind;
        double speed, force;
    } cases[] = {{BRAKE_FADE_CAR, 100.0, 500.0}, {BRAKE_FADE_GOODS, 80.0, 700.0}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        run(plus(large(), steady), cases[i].kind);
        assert_null(fade.figures.lacks);
        const double slowed = cases[i].force / 100.0 * 2250.0 / 2750.0;
        const double speed = cases[i].speed * KMH;
        const struct brake_hot_stop *cold = &fade.figures.cold;
        assert_between(cold->developed / slowed, 1.0, 1.02);
        assert_between((cold->distance - 0.36 * speed) / (speed * speed / 2.0 / slowed), 0.97, 1.0);
        const double pressed = 1.0 - 0.36 / (0.36 + speed / slowed); /* of the time */
        assert_near(fade.cold_force, cases[i].force * pressed, 0.005);
    }
}

/* Where FMVSS and CMVSS hold, and where it is not said, a car goes through theirs; elsewhere
 * through that of UN R13-H. */
static void a_car_goes_through_the_snubs_of_its_country(void **state)
{
    (void)state;
    static const struct {
        const char *line, *id;
    } cases[] = {{"", "us.135.fade"},
                 {"[vehicle]\ncountry = US\n", "us.135.fade"},
                 {"[vehicle]\ncountry = CA\n", "us.135.fade"},
                 {"[vehicle]\ncountry = FR\n", "un.13h.fade"},
                 {"[vehicle]\ncountry = AU\n", "un.13h.fade"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        run(plus(plus(plain, heat), cases[i].line), BRAKE_FADE_CAR);
        assert_string_equal(fade.snubs.stops.sequence->id, cases[i].id);
    }
}

static void goods_vehicles_snub_every_55_s_and_get_less_hot(void **state)
{
    (void)state;
    run(plus(plus(plain, heat), steady), BRAKE_FADE_CAR);
    const double car = fade.heating.axle[BRAKE_FRONT].mean_most;
    run(plus(plus(plain, heat), steady), BRAKE_FADE_GOODS);
    assert_true(fade.heating.axle[BRAKE_FRONT].mean_most < car);
    assert_near(fade.heating.duration, 14 * 55.0 + (120.0 - 60.0) * KMH / 3.0, 1.0);
}

/* ---- where there are no figures ------------------------------------------------------------- */

static void a_missing_line_is_named(void **state)
{
    (void)state;
    run(plain, BRAKE_FADE_CAR);
    assert_non_null(fade.figures.lacks);
    assert_int_equal(fade.warnings, 1);
    assert_string_equal(fade.warning[0].id, "heat.missing");
    assert_non_null(strstr(fade.warning[0].text, "front.disc.rotor_mass"));
    const struct brake_judgement j = judge("un.13h.hot", &fade.figures);
    assert_int_equal(j.verdict, BRAKE_CANNOT_SAY);
    assert_int_not_equal(j.scope, BRAKE_OUTSIDE);
    assert_string_equal(j.reason, fade.figures.lacks);
}

/* Light rotors: the fluid boils, the pedal is gone, and no hot stop is credited. */
static void boiling_fluid_leaves_no_hot_stop(void **state)
{
    (void)state;
    const char *text = swapped(plus(plain, heat), "rotor_mass = 14 kg", "rotor_mass = 1.2 kg");
    text = swapped(text, "rotor_mass = 9 kg", "rotor_mass = 0.8 kg");
    text = plus(text, "[front.disc.pads]\nthickness = 1 mm\n[heat]\ncooling = 0.02\n");
    run(plus(swapped(text, "fluid = DOT4", "fluid = DOT3"), steady), BRAKE_FADE_CAR);
    assert_null(fade.figures.lacks);
    assert_true(fade.heating.fluid_margin < 0.0);
    assert_equal(fade.figures.hot[0].developed, 0.0);
    assert_true(isinf(fade.figures.hot[1].distance));
    const struct brake_judgement j = judge("us.135.hot", &fade.figures);
    assert_int_equal(j.verdict, BRAKE_FALLS_SHORT);
    assert_near(j.margin, -1.0, 1e-15);
    assert_string_equal(fade.warning[fade.warnings - 1].id, "heat.boiled");
    assert_equal(fade.figures.recovery.developed, 0.0); /* nothing goes on */
    const struct brake_duty_heat *axle = fade.heating.axle;
    char told[120];
    snprintf(told, sizeof told, "the fluid is at %.0f degC after the snubs, past the 205 degC at",
             fmax(axle[BRAKE_FRONT].fluid_last, axle[BRAKE_REAR].fluid_last) - 273.15);
    assert_non_null(strstr(fade.warning[fade.warnings - 1].text, told)); /* DOT 3: FMVSS 116 */
}

/* Heat goes on into the fluid when the snubs are over: between a rotor with which it boils before
 * that and one with which it does so after all have cooled, there is one with which a hot stop is
 * lost; what the stops before it gave is kept. */
static void fluid_that_boils_later_loses_a_later_stop(void **state)
{
    (void)state;
    const char *text = plus(swapped(plus(plain, heat), "fluid = DOT4", "fluid = DOT3"), steady);
    text = plus(text, "[front.disc.pads]\nthickness = 1 mm\n[heat]\ncooling = 0.1\n");
    const char *when = "";
    double least = 1.0; /* [kg] */
    double most = 20.0;
    for (int i = 0; i < 20 && strstr(when, "hot stop") == NULL; i++) {
        char mass[60];
        snprintf(mass, sizeof mass, "rotor_mass = %.4f kg", 0.5 * (least + most));
        run(swapped(text, "rotor_mass = 14 kg", mass), BRAKE_FADE_CAR);
        when = fade.warnings > 0 ? fade.warning[fade.warnings - 1].text : "";
        *(strstr(when, "after the snubs") != NULL ? &least : &most) = 0.5 * (least + most);
    }
    assert_null(fade.figures.lacks);
    const struct brake_hot_stop *hot = fade.figures.hot;
    const bool first = strstr(when, "in the first hot stop") != NULL;
    assert_true(first || strstr(when, "in the second hot stop") != NULL);
    assert_true(fade.figures.cold.developed > 3.0);
    assert_equal(hot[first ? 0 : 1].developed, 0.0);
    assert_true(isinf(hot[first ? 0 : 1].distance));
    assert_true(first || hot[0].developed > 3.0);
}

/* Parts that are not asked for are not gone through: their figures are not said. */
static void only_the_parts_that_are_asked_for_are_said(void **state)
{
    (void)state;
    read_sheet(&sheet, plus(large(), steady));
    brake_fade_run(&sheet.vehicle, BRAKE_FADE_CAR, BRAKE_FADE_STOPS, NULL, NULL, &fade);
    assert_equal(fade.snubs.rest, 0.0);
    assert_nan(fade.figures.fluid_room);
    assert_true(fade.figures.recovery.developed > 3.0);
    brake_fade_run(&sheet.vehicle, BRAKE_FADE_CAR, BRAKE_FADE_DESCENT, NULL, NULL, &fade);
    assert_true(fade.figures.fluid_room > 0.0);
    assert_int_equal(fade.heating.applications, 0);
    assert_true(isinf(fade.figures.cold.distance));
}

/* 6 % for 6 km at 30 km/h in gear, an engine that takes 0.4 of it, then half an hour parked: over
 * pads of 3 mm and linings of 2 mm, or as thin as they are. Of the way from the air to boiling what
 * the hottest fluid leaves, and all of it, over what it took. UN R13, Annex 4, 1.6; from memory. */
static void room_to_boiling_is_that_after_a_descent_on_worn_linings(void **state)
{
    (void)state;
    const char *const texts[] = {
        plus(plain, heat), plus(plus(plain, heat), "[front.disc.pads]\nthickness = 2 mm\n"),
        plus(shoe_text(), swapped(heat, "[rear.disc]\nrotor_mass = 9 kg\nrotor_diameter = 300 mm\n",
                                  "[rear.drum]\ndrum_mass = 5 kg\nwidth = 45 mm\n"))};
    for (int i = 0; i < 3; i++) {
        struct brake_error error;
        run(texts[i], BRAKE_FADE_CAR);
        struct brake_vehicle worn = sheet.vehicle;
        const struct brake_duty duty = {
            .kind = BRAKE_DUTY_DESCENT,
            .descent = {.fall = 0.06, .length = 6000.0, .speed = 30.0 * KMH, .engine = 0.4},
            .force = worn.driver.pedal_force_most,
            .rest = 1800.0};
        worn.axle[BRAKE_FRONT].pads.thickness = i == 1 ? 0.002 : 0.003;
        worn.axle[BRAKE_REAR].pads.thickness = 0.003;
        worn.axle[BRAKE_REAR].lining.thickness = 0.002;
        assert_int_equal(brake_hot_rig_build(&worn, BRAKE_FULL, &rig, &error), BRAKE_OK);
        assert_int_equal(brake_duty_run(&rig, &duty, NULL, &part), BRAKE_OK);
        const double air = worn.heat.ambient;
        const double rise =
            fmax(part.axle[BRAKE_FRONT].fluid_most, part.axle[BRAKE_REAR].fluid_most) - air;
        assert_near(fade.figures.fluid_room, (rise + part.fluid_margin) / rise, 1e-9);
    }
}

static void a_run_that_is_stopped_says_so(void **state)
{
    (void)state;
    static volatile sig_atomic_t stop = 1;
    const struct brake_watch watch = {.stop = &stop};
    read_sheet(&sheet, plus(plain, heat));
    brake_fade_run(&sheet.vehicle, BRAKE_FADE_CAR, BRAKE_FADE_WHOLE, &watch, NULL, &fade);
    assert_string_equal(fade.figures.lacks, "the fade procedure was interrupted");
    assert_int_equal(judge("un.13h.hot", &fade.figures).verdict, BRAKE_CANNOT_SAY);
}

static void count_steps(void *context, double done, double total)
{
    double *last = context;
    assert_true(done > *last && done <= total);
    *last = done;
}

static void progress_is_told_part_by_part(void **state)
{
    (void)state;
    double last = 0.0;
    const struct brake_watch watch = {.progress = count_steps, .context = &last};
    read_sheet(&sheet, plus(plain, heat));
    brake_fade_run(&sheet.vehicle, BRAKE_FADE_CAR, BRAKE_FADE_WHOLE, &watch, NULL, &fade);
    assert_equal(last, 7.0);
}

/* ---- in an assessment ----------------------------------------------------------------------- */

static void an_assessment_gains_results_and_verdicts(void **state)
{
    (void)state;
    read_sheet(&sheet, plus(large(), fading));
    brake_assess(&sheet, BRAKE_RULES_ALL, &assessment);
    const int unsaid = assessment.ruling.of[BRAKE_YARDSTICK].cannot_say;
    const int hot_us = brake_result_find("fade.hot_deceleration");
    assert_true(isnan(brake_result_value(&assessment.results, hot_us)));
    brake_assess_fade(&sheet, NULL, &assessment);
    assert_true(assessment.ruling.of[BRAKE_YARDSTICK].cannot_say < unsaid);
    assert_true(brake_result_value(&assessment.results, hot_us) > 0.0);
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_judgement *j = &assessment.judgement[i];
        if (brake_measure_hot(brake_criterion_at(i)->measure) && j->scope != BRAKE_OUTSIDE)
            assert_null(j->reason);
    }
}

static double result(const char *name)
{
    return brake_result_value(&assessment.results, brake_result_find(name));
}

/* Of the procedure of its own kind: figures, and its warnings behind those that were there. */
static void an_assessment_takes_what_its_own_procedure_says(void **state)
{
    (void)state;
    const char *const texts[] = {plus(large(), fading),
                                 plus(plus(large(), fading), "[vehicle]\ncategory = N1\n"), plain};
    static const char *const ids[] = {"us.135.fade", "un.13.fade"};
    for (int i = 0; i < 3; i++) {
        read_sheet(&sheet, texts[i]);
        brake_assess(&sheet, BRAKE_RULES_ALL, &assessment);
        const int first = assessment.warnings;
        brake_assess_fade_shown(&sheet, NULL, NULL, &assessment, &fade);
        assert_int_equal(assessment.warnings, first + fade.warnings);
        for (int k = 0; k < fade.warnings; k++)
            assert_string_equal(assessment.warning[first + k].text, fade.warning[k].text);
        if (i == 2) {
            assert_int_equal(fade.warnings, 1); /* a line that is missing */
            continue;
        }
        assert_string_equal(fade.snubs.stops.sequence->id, ids[i]);
        const struct brake_hot_figures *f = &fade.figures;
        assert_true(f->hot[0].developed != f->hot[1].developed);
        assert_equal(result("fade.hot_deceleration"), f->hot[0].developed);
        assert_near(result("fade.hot_share"), f->hot[0].developed / f->cold.developed, 1e-12);
        assert_equal(result("fade.recovery_deceleration"), f->recovery.developed);
    }
    assessment.warnings = BRAKE_WARNINGS; /* of which there is room for no more */
    brake_assess_fade_shown(&sheet, NULL, NULL, &assessment, &fade);
    assert_int_equal(fade.warnings, 1);
    assert_int_equal(assessment.warnings, BRAKE_WARNINGS);
}

/* A light N1 vehicle: UN R13 by the goods' procedure, FMVSS 135 by the car's. */
static void a_goods_vehicle_is_judged_by_both_procedures(void **state)
{
    (void)state;
    read_sheet(&sheet, plus(plus(plain, heat), "[vehicle]\ncategory = N1\n"));
    brake_assess(&sheet, BRAKE_RULES_ALL, &assessment);
    brake_assess_fade(&sheet, NULL, &assessment);
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *c = brake_criterion_at(i);
        if (strcmp(c->id, "us.135.hot") == 0 || strcmp(c->id, "un.13.hot") == 0)
            assert_int_not_equal(assessment.judgement[i].verdict, BRAKE_CANNOT_SAY);
        if (strcmp(c->id, "un.13h.hot") == 0)
            assert_int_equal(assessment.judgement[i].scope, BRAKE_OUTSIDE);
    }
}

static void count_calls(void *context, double done, double total)
{
    int *calls = context;
    (void)done;
    (void)total;
    (*calls)++;
}

/* Room to boiling is that of a descent, all else is told by stops. */
static void a_measure_is_told_by_its_part(void **state)
{
    (void)state;
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_criterion *c = brake_criterion_at(i);
        if (brake_measure_hot(c->measure))
            assert_int_equal(brake_fade_part_of(c), c->measure == BRAKE_FLUID_ROOM
                                                        ? BRAKE_FADE_DESCENT
                                                        : BRAKE_FADE_STOPS);
    }
}

/* The procedure of its own is run whole, in seven steps; of the others only those that requirements
 * in question ask for: of a car that of South Australia, of five steps, as it has neither cooling
 * nor a stop after it, of goods that of FMVSS 135. */
static void only_what_is_asked_for_is_run(void **state)
{
    (void)state;
    static const struct {
        const char *category;
        unsigned rules;
        int steps;
    } of[] = {{"M1", BRAKE_RULES_ALL, 7 + 5}, {"M1", BRAKE_RULES_HAZARD, 7}, {"M1", 0, 7},
              {"N1", BRAKE_RULES_ALL, 7 + 7}, {"N1", BRAKE_RULES_HAZARD, 7}, {"N1", 0, 7}};
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        char category[40];
        int calls = 0;
        const struct brake_watch watch = {.progress = count_calls, .context = &calls};
        snprintf(category, sizeof category, "[vehicle]\ncategory = %s\n", of[i].category);
        read_sheet(&sheet, plus(plus(large(), steady), category));
        brake_assess(&sheet, of[i].rules, &assessment);
        brake_assess_fade(&sheet, &watch, &assessment);
        assert_int_equal(calls, of[i].steps);
    }
}

static void take_figures(void *context, int number, const struct brake_fade *of)
{
    struct brake_hot_figures *figures = context;
    figures[number] = of->figures;
}

static void find_figures(const struct brake_vehicle *const *vehicle, int count,
                         struct brake_hot_figures *figures)
{
    const struct brake_fades fades = {vehicle, count,        BRAKE_FADE_CAR, BRAKE_FADE_WHOLE,
                                      true,    take_figures, figures};
    brake_fade_run_all(&fades);
}

static void take_steps(void *context, int number, const struct brake_fade *of)
{
    long *steps = context;
    (void)number;
    for (int i = 0; i < BRAKE_AXLES; i++)
        steps[i] = of->heating.heat[i].steps;
}

/* Where only figures are asked for either axle is followed in longer steps: of a tolerance that is
 * five times as wide, the error going with the third power, by 5^(1/3), 1.7. */
static void figures_alone_take_longer_steps(void **state)
{
    (void)state;
    long steps[2][BRAKE_AXLES];
    read_sheet(&sheet, plus(large(), steady));
    const struct brake_vehicle *vehicle = &sheet.vehicle;
    for (int coarse = 0; coarse < 2; coarse++) {
        const struct brake_fades fades = {&vehicle,    1,          BRAKE_FADE_CAR, BRAKE_FADE_STOPS,
                                          coarse == 1, take_steps, steps[coarse]};
        brake_fade_run_all(&fades);
    }
    for (int i = 0; i < BRAKE_AXLES; i++)
        assert_true(1.4 * (double)steps[1][i] < (double)steps[0][i]);
}

/* One whose fluid boils, one that cannot be said, one without enough friction for its snubs. */
static void company_does_not_change_the_figures(void **state)
{
    (void)state;
    enum { VEHICLES = 6 };
    static struct brake_sheet each[VEHICLES];
    struct brake_hot_figures beside[VEHICLES];
    const struct brake_vehicle *vehicle[VEHICLES];
    read_sheet(&each[0], plus(plus(plain, heat), fading));
    read_sheet(&each[1], plus(large(), steady));
    read_sheet(&each[2], swapped(plus(plain, heat), "rotor_mass = 14 kg", "rotor_mass = 1.2 kg"));
    read_sheet(&each[3], plain);
    read_sheet(&each[4], swapped(plus(plain, heat), "mu = 0.4\n", "mu = 0.07\n"));
    read_sheet(&each[5], swapped(plus(plain, heat), "rotor = vented", "rotor = solid"));
    for (int turn = 0; turn < VEHICLES; turn++) {
        for (int i = 0; i < VEHICLES; i++)
            vehicle[i] = &each[(5 * i + turn) % VEHICLES].vehicle;
        find_figures(vehicle, VEHICLES, beside);
        for (int i = 0; i < VEHICLES; i++) {
            struct brake_hot_figures alone;
            find_figures(&vehicle[i], 1, &alone);
            assert_same_figures(&alone, &beside[i]);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_figures_are_judged_as_the_clauses_say),
        cmocka_unit_test(each_of_two_stops_means_the_worse),
        cmocka_unit_test(too_much_after_cooling_falls_short_as_too_little_does),
        cmocka_unit_test(no_stop_after_cooling_is_too_little_and_not_within_the_most),
        cmocka_unit_test(without_a_rated_mass_no_hot_stop_can_be_said),
        cmocka_unit_test(steady_friction_keeps_the_whole_deceleration),
        cmocka_unit_test(south_australia_stops_from_60_km_h),
        cmocka_unit_test(fading_friction_is_felt_hot_and_comes_back),
        cmocka_unit_test(the_cold_stop_is_the_hardest_from_100_km_h),
        cmocka_unit_test(the_hot_stops_follow_one_another_as_the_clause_says),
        cmocka_unit_test(south_australia_stops_twice_at_once),
        cmocka_unit_test(a_cold_stop_is_one_however_weak),
        cmocka_unit_test(its_snubs_are_a_duty_like_any_other),
        cmocka_unit_test(each_procedure_stops_from_its_speed_with_its_force),
        cmocka_unit_test(a_car_goes_through_the_snubs_of_its_country),
        cmocka_unit_test(goods_vehicles_snub_every_55_s_and_get_less_hot),
        cmocka_unit_test(a_missing_line_is_named),
        cmocka_unit_test(boiling_fluid_leaves_no_hot_stop),
        cmocka_unit_test(fluid_that_boils_later_loses_a_later_stop),
        cmocka_unit_test(only_the_parts_that_are_asked_for_are_said),
        cmocka_unit_test(room_to_boiling_is_that_after_a_descent_on_worn_linings),
        cmocka_unit_test(a_run_that_is_stopped_says_so),
        cmocka_unit_test(progress_is_told_part_by_part),
        cmocka_unit_test(an_assessment_gains_results_and_verdicts),
        cmocka_unit_test(an_assessment_takes_what_its_own_procedure_says),
        cmocka_unit_test(a_goods_vehicle_is_judged_by_both_procedures),
        cmocka_unit_test(without_a_cold_stop_there_is_nothing_to_compare_with),
        cmocka_unit_test(a_measure_is_told_by_its_part),
        cmocka_unit_test(only_what_is_asked_for_is_run),
        cmocka_unit_test(figures_alone_take_longer_steps),
        cmocka_unit_test(company_does_not_change_the_figures),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
