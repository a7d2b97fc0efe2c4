/* SPDX-License-Identifier: MIT */
/* The brakes of a load case and a state of failure. Expected numbers follow from those of the plain
 * vehicle (sheet.h) and from reference/method.md, sections 2 to 5. */
#include "sheet.h"

#include "vehicle/lane.h"

#include "brake/system.h"
#include "vehicle/system.h"
#include "model/force_lines.h"

static const double master_area = BRAKE_PI * 1e-4;

static struct brake_system build(const char *text, enum brake_load load, enum brake_failure failure)
{
    struct brake_sheet sheet;
    struct brake_system system;
    read_sheet(&sheet, text);
    brake_system_build(&sheet.vehicle, load, failure, &system);
    return system;
}

static double deceleration(const char *text, enum brake_failure failure)
{
    const struct brake_system system = build(text, BRAKE_EMPTY, failure);
    return brake_system_deceleration(&system, 500.0);
}

/* ---- bodies ---------------------------------------------------------------------------------- */

/* 2000 x 1.25 + 500 x 2 = 2500 x 1.4; 2000 x 0.8 + 500 x 1 = 2500 x 0.84. */
static void a_load_is_added_to_the_bare_vehicle(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plain);
    const struct brake_body bare = brake_vehicle_bare(&sheet.vehicle);
    const struct brake_body empty = brake_vehicle_body(&sheet.vehicle, BRAKE_EMPTY);
    const struct brake_body full = brake_vehicle_body(&sheet.vehicle, BRAKE_FULL);
    assert_near(bare.mass, 2000.0, ROUNDING);
    assert_near(bare.behind, 1.25, ROUNDING);
    assert_near(bare.height, 0.8, ROUNDING);
    assert_near(empty.mass, 2000.0, ROUNDING);
    assert_near(full.mass, 2500.0, ROUNDING);
    assert_near(full.behind, 1.4, ROUNDING);
    assert_near(full.height, 0.84, ROUNDING);
    sheet.vehicle.load[BRAKE_EMPTY].mass = 0.5;
    assert_near(brake_vehicle_body(&sheet.vehicle, BRAKE_EMPTY).mass, 2000.5, ROUNDING);
    sheet.vehicle.load[BRAKE_EMPTY].mass = 0.0;
    /* Where nothing is loaded nobody asks where. */
    sheet.vehicle.load[BRAKE_EMPTY].behind_front_axle = BRAKE_NAN;
    assert_equal(brake_vehicle_body(&sheet.vehicle, BRAKE_EMPTY).behind, 1.25);
}

/* 180 kg with the driver, of whom 75 kg are aboard, half way between the axles: 49 CFR 571.135,
 * S4. */
static void a_lightly_laden_vehicle_has_its_tester_aboard(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(swapped(plain, "front_share = 50 %", "front_share = 60 %"),
                            "[load.empty]\nheight = 900 mm\n"));
    const struct brake_body light = brake_vehicle_body(&sheet.vehicle, BRAKE_LIGHT);
    assert_near(light.mass, 2105.0, ROUNDING);
    assert_near(light.behind, (2000.0 * 1.0 + 105.0 * 1.25) / 2105.0, ROUNDING);
    assert_near(light.height, (2000.0 * 0.8 + 105.0 * 0.9) / 2105.0, ROUNDING);
}

/* 49 CFR 571.135, S6.3.1.1: at the rated mass each axle has its share of both ratings, but no less
 * than when lightly laden: 2105/2 kg. Without ratings the load stands where it is full. */
static void a_vehicle_at_its_rated_mass_loads_its_axles_by_their_ratings(void **state)
{
    (void)state;
    static const struct {
        const char *lines;
        double rear; /* [kg] */
    } cases[] = {
        {"", 1400.0},
        {"[front.axle]\nrated_mass = 1200 kg\n", 1400.0},
        {"[rear.axle]\nrated_mass = 1500 kg\n", 1400.0},
        {"[front.axle]\nrated_mass = 1200 kg\n[rear.axle]\nrated_mass = 1500 kg\n",
         2500.0 * 1500.0 / 2700.0},
        {"[front.axle]\nrated_mass = 1000 kg\n[rear.axle]\nrated_mass = 1500 kg\n",
         2500.0 - 1052.5},
        {"[front.axle]\nrated_mass = 1500 kg\n[rear.axle]\nrated_mass = 1000 kg\n", 1052.5}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct brake_sheet sheet;
        read_sheet(&sheet, plus(plain, cases[i].lines));
        const struct brake_body rated = brake_vehicle_body(&sheet.vehicle, BRAKE_RATED);
        assert_near(rated.mass, 2500.0, ROUNDING);
        assert_near(rated.mass * rated.behind / 2.5, cases[i].rear, 1e-12);
        assert_near(rated.height, 0.84, ROUNDING);
    }
}

/* Rated for what it weighs, or less, it carries nothing more. */
static void a_vehicle_past_its_rated_mass_stays_as_it_is(void **state)
{
    (void)state;
    static const double rated[] = {1900.0, 2000.0};
    for (int i = 0; i < 2; i++) {
        struct brake_sheet sheet;
        read_sheet(&sheet, plain);
        sheet.vehicle.general.rated_mass = rated[i];
        const struct brake_body body = brake_vehicle_body(&sheet.vehicle, BRAKE_RATED);
        assert_equal(body.mass, 2000.0);
        assert_equal(body.behind, 1.25);
        assert_equal(body.height, 0.8);
    }
}

/* Rise 30 + 100 (2000 - 400)/2000 = 110 mm; part of -100 kg: (2000 x 0.91 - 100 x 0.5)/1900. */
static void lift_raises_the_sprung_mass_and_parts_are_added_or_taken_off(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, "[lift]\nsuspension = 100 mm\nwheel_rise = 30 mm\n"
                                   "[part.bench]\nmass = -100 kg\nbehind_front_axle = 2 m\n"
                                   "height = 500 mm\n"));
    const struct brake_body bare = brake_vehicle_bare(&sheet.vehicle);
    assert_near(bare.mass, 1900.0, ROUNDING);
    assert_near(bare.behind, (2500.0 - 200.0) / 1900.0, ROUNDING);
    assert_near(bare.height, (1820.0 - 50.0) / 1900.0, ROUNDING);
}

/* ---- brakes ---------------------------------------------------------------------------------- */

static void a_group_of_pistons_adds_to_the_area(void **state)
{
    (void)state;
    const struct brake_pistons pistons = {{2.0, 1.0, 0.0}, {0.04, 0.02, 9.0}};
    assert_near(brake_vehicle_piston_area(&pistons), BRAKE_PI / 4.0 * (2.0 * 16e-4 + 4e-4),
                ROUNDING);
    const struct brake_pistons three = {{1.0, 1.0, 1.0}, {0.04, 0.03, 0.02}};
    assert_near(brake_vehicle_piston_area(&three), BRAKE_PI / 4.0 * 29e-4, ROUNDING);
    const struct brake_pistons none = {{0.0, 1.0, 1.0}, {0.04, 0.03, 0.02}};
    assert_equal(brake_vehicle_piston_area(&none), 0.0);
}

/* 2 x 2 mu A r_e = 0.2 x 9 A_m in front. */
static void a_disc_axle_gives_twice_the_torque_of_a_brake(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    double threshold = -1.0;
    read_sheet(&sheet, swapped(plain, "threshold = 0 bar", "threshold = 0.7 bar"));
    assert_near(brake_vehicle_torque_gain(&sheet.vehicle, BRAKE_FRONT, &threshold),
                1.8 * master_area, ROUNDING);
    assert_near(threshold, 0.7e5, ROUNDING);
    assert_near(brake_vehicle_torque_gain(&sheet.vehicle, BRAKE_REAR, &threshold),
                0.45 * master_area, ROUNDING);
    assert_equal(threshold, 0.0);
}

/* 2 C* A_c r = 2 x 2 x A_m x 0.15. */
static void a_drum_axle_gives_twice_the_torque_of_a_drum(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    double threshold = -1.0;
    read_sheet(&sheet, drum_text());
    assert_near(brake_vehicle_torque_gain(&sheet.vehicle, BRAKE_REAR, &threshold),
                0.6 * master_area, ROUNDING);
    assert_equal(threshold, 0.0);
}

static const char lining[] = "[rear.drum.lining]\nmu = 0.35\npivot_radius = 110 mm\n"
                             "force_arm = 200 mm\nheel = 20 deg\ntoe = 130 deg\n";

/* A, B, S_l and S_t as reference/method.md, section 3, writes them. */
static void a_drum_without_a_factor_takes_that_of_its_shoes(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    double factor;
    const double deg = BRAKE_PI / 180.0;
    const double r = 0.15;
    const double t1 = 20.0 * deg;
    const double t2 = 130.0 * deg;
    const double span = cos(t1) - cos(t2);
    const double a = r * span - 0.055 * (sin(t2) * sin(t2) - sin(t1) * sin(t1));
    const double b = 0.110 * ((t2 - t1) / 2.0 - (sin(2.0 * t2) - sin(2.0 * t1)) / 4.0);
    const double top = 0.35 * 0.200 * span * r / r;
    read_sheet(&sheet, plus(swapped(drum_text(), "brake_factor = 2\n", ""), lining));
    assert_int_equal(brake_vehicle_drum_factor(&sheet.vehicle, BRAKE_REAR, &factor), BRAKE_OK);
    assert_near(factor, top * r / (r * (b - 0.35 * a)) + top * r / (r * (b + 0.35 * a)), 1e-12);
    /* A factor that is stated rules. */
    sheet.vehicle.axle[BRAKE_REAR].drum.brake_factor = 2.5;
    assert_int_equal(brake_vehicle_drum_factor(&sheet.vehicle, BRAKE_REAR, &factor), BRAKE_OK);
    assert_equal(factor, 2.5);
}

static void a_drum_that_locks_by_itself_has_no_torque(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    double factor;
    double threshold;
    read_sheet(&sheet, plus(swapped(drum_text(), "brake_factor = 2\n", ""), lining));
    sheet.vehicle.axle[BRAKE_REAR].lining.mu = 0.9;
    assert_int_equal(brake_vehicle_drum_factor(&sheet.vehicle, BRAKE_REAR, &factor),
                     BRAKE_E_SELF_LOCK);
    assert_nan(factor);
    assert_nan(brake_vehicle_torque_gain(&sheet.vehicle, BRAKE_REAR, &threshold));
}

/* The secondary lining of a duo-servo is as the primary's until it is told, and either may lock. */
static void a_duo_servo_has_a_secondary_lining(void **state)
{
    (void)state;
    struct brake_sheet alike;
    struct brake_sheet own;
    double factor;
    double other;
    const char *text = swapped(swapped(drum_text(), "brake_factor = 2\n", ""),
                               "shoes = leading_trailing", "shoes = duo_servo");
    read_sheet(&alike, plus(text, lining));
    struct brake_lining_lines *at = &alike.vehicle.axle[BRAKE_REAR].lining;
    assert_equal(at->secondary_heel, at->heel);
    assert_equal(at->secondary_toe, at->toe);
    assert_equal(at->secondary_mu, at->mu);
    assert_int_equal(brake_vehicle_drum_factor(&alike.vehicle, BRAKE_REAR, &factor), BRAKE_OK);
    const double room = brake_vehicle_room_to_lock(&alike.vehicle, BRAKE_REAR);
    /* S_1 + S_2 link: weaker by what the second lining rubs less. */
    read_sheet(&own, plus(plus(text, lining), "secondary_mu = 0.25\n"));
    assert_int_equal(brake_vehicle_drum_factor(&own.vehicle, BRAKE_REAR, &other), BRAKE_OK);
    assert_true(other < 0.8 * factor);
    assert_near(brake_vehicle_room_to_lock(&own.vehicle, BRAKE_REAR), room, ROUNDING);
    at->secondary_mu = 2.0 * at->mu;
    assert_near(brake_vehicle_room_to_lock(&alike.vehicle, BRAKE_REAR), room / 2.0, ROUNDING);
}

/* At B / A by reference/method.md, section 3, and nothing below it. */
static void a_shoe_locks_from_a_friction_on(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    double factor;
    read_sheet(&sheet, plus(swapped(drum_text(), "brake_factor = 2\n", ""), lining));
    const double lock = 0.35 * brake_vehicle_room_to_lock(&sheet.vehicle, BRAKE_REAR);
    sheet.vehicle.axle[BRAKE_REAR].lining.mu = lock * (1.0 - 1e-12);
    assert_int_equal(brake_vehicle_drum_factor(&sheet.vehicle, BRAKE_REAR, &factor), BRAKE_OK);
    sheet.vehicle.axle[BRAKE_REAR].lining.mu = lock * (1.0 + 1e-12);
    assert_int_equal(brake_vehicle_drum_factor(&sheet.vehicle, BRAKE_REAR, &factor),
                     BRAKE_E_SELF_LOCK);
    /* A disc, and a drum of which only the factor is known, are not known to lock. */
    assert_infinite(brake_vehicle_room_to_lock(&sheet.vehicle, BRAKE_FRONT));
    sheet.vehicle.axle[BRAKE_REAR].drum.brake_factor = 2.5;
    assert_infinite(brake_vehicle_room_to_lock(&sheet.vehicle, BRAKE_REAR));
}

/* ---- valves ---------------------------------------------------------------------------------- */

static const char sensing[] = "knee = 30 bar\nslope = 0.3\nknee_rate = 0.05 bar/kg\n"
                              "set_mass = 1000 kg\n";

static double knee(const char *lines, enum brake_load load)
{
    struct brake_sheet sheet;
    read_sheet(&sheet, plus(plain, lines));
    return brake_vehicle_valve(&sheet.vehicle, load).knee;
}

static void without_a_valve_the_rear_follows_for_ever(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, plain);
    const struct brake_valve valve = brake_vehicle_valve(&sheet.vehicle, BRAKE_FULL);
    assert_infinite(valve.knee);
    assert_equal(valve.slope, 1.0);
}

static void a_fixed_valve_has_one_knee(void **state)
{
    (void)state;
    const char *fixed = "[valve]\nkind = fixed\nknee = 30 bar\nslope = 0.3\n";
    assert_near(knee(fixed, BRAKE_EMPTY), 30e5, ROUNDING);
    assert_near(knee(fixed, BRAKE_FULL), 30e5, ROUNDING);
}

/* Rear axle 1000 kg empty, 1400 kg full: 30 + 0.05 x 400 = 50 bar. */
static void a_valve_that_senses_load_opens_with_it(void **state)
{
    (void)state;
    const char *load = plus("[valve]\nkind = load\n", sensing);
    assert_near(knee(load, BRAKE_EMPTY), 30e5, ROUNDING);
    assert_near(knee(load, BRAKE_FULL), 50e5, ROUNDING);
    /* A load-sensing valve sits at the axle: a lift does not deceive it. */
    assert_near(knee(plus("[lift]\nsuspension = 50 mm\n", load), BRAKE_FULL), 50e5, ROUNDING);
}

/* 20 mm x 49.03325 N/mm = 980.665 N look like 100 kg less: 5 bar. */
static void a_lift_deceives_a_valve_that_senses_height(void **state)
{
    (void)state;
    const char *height = plus("[valve]\nkind = height\nstiffness = 49.03325 N/mm\n", sensing);
    assert_near(knee(plus(height, "uncorrected_lift = 20 mm\n"), BRAKE_EMPTY), 25e5, ROUNDING);
    assert_near(knee(plus(height, "uncorrected_lift = 20 mm\n"), BRAKE_FULL), 45e5, ROUNDING);
    assert_near(knee(plus(height, "uncorrected_lift = -20 mm\n"), BRAKE_EMPTY), 35e5, ROUNDING);
    /* 140 mm would take 35 bar: the knee is at its end. */
    assert_equal(knee(plus(height, "uncorrected_lift = 140 mm\n"), BRAKE_EMPTY), 0.0);
}

/* ---- splits ---------------------------------------------------------------------------------- */

/* Front 80 %, rear 20 % of 5 m/s2 at 500 N. */
static void a_failed_circuit_takes_its_share(void **state)
{
    (void)state;
    static const struct {
        const char *split;
        double first, second;
    } cases[] = {{"split = II", 1.0, 4.0}, {"split = X", 2.5, 2.5},  {"split = HI", 2.0, 3.0},
                 {"split = LL", 2.5, 2.5}, {"split = HH", 2.5, 2.5}, {"split = one", 0.0, 5.0}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const char *text = swapped(plain, "split = II", cases[i].split);
        assert_near(deceleration(text, BRAKE_INTACT), 5.0, ROUNDING);
        assert_near(deceleration(text, BRAKE_FIRST_CIRCUIT), cases[i].first, ROUNDING);
        assert_near(deceleration(text, BRAKE_SECOND_CIRCUIT), cases[i].second, ROUNDING);
    }
}

static void a_failed_circuit_leaves_some_wheels(void **state)
{
    (void)state;
    static const struct {
        const char *split;
        double first[BRAKE_AXLES], second[BRAKE_AXLES];
    } cases[] = {{"split = II", {0.0, 1.0}, {1.0, 0.0}}, {"split = X", {0.5, 0.5}, {0.5, 0.5}},
                 {"split = HI", {1.0, 0.0}, {1.0, 1.0}}, {"split = LL", {1.0, 0.5}, {1.0, 0.5}},
                 {"split = HH", {1.0, 1.0}, {1.0, 1.0}}, {"split = one", {0.0, 0.0}, {1.0, 1.0}}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const char *text = swapped(plain, "split = II", cases[i].split);
        const struct brake_system first = build(text, BRAKE_EMPTY, BRAKE_FIRST_CIRCUIT);
        const struct brake_system second = build(text, BRAKE_EMPTY, BRAKE_SECOND_CIRCUIT);
        assert_true(first.failed[0] && !first.failed[1]);
        assert_true(!second.failed[0] && second.failed[1]);
        for (int axle = 0; axle < BRAKE_AXLES; axle++) {
            assert_equal(first.balance.axle[axle].wheels, cases[i].first[axle]);
            assert_equal(second.balance.axle[axle].wheels, cases[i].second[axle]);
        }
    }
}

/* X, one front wheel on k = 0.5: of 2250 a the front brake does 1800 a, and 62.5 a slow its own
 * wheel; (1800 - 62.5)/2000 m a = k/2 m (g/2 + 0.34 a). The other front wheel runs free. */
static void a_single_wheel_locks_at_half_the_adhesion_of_its_axle(void **state)
{
    (void)state;
    const char *text =
        swapped(swapped(plain, "split = II", "split = X"), "adhesion = 0.8", "adhesion = 0.5");
    assert_near(deceleration(text, BRAKE_FIRST_CIRCUIT),
                0.25 * 0.5 * BRAKE_GRAVITY / (0.86875 - 0.25 * 0.34), ROUNDING);
}

/* p_m = 2000 N / A_m = 63.66 bar; knee 20 bar, slope 0. Rear 20/63.66 of 1 m/s2 without bypass. */
static void a_bypass_opens_the_valve_when_the_front_is_lost(void **state)
{
    (void)state;
    const char *valve = "[valve]\nkind = fixed\nknee = 20 bar\nslope = 0\n";
    const double cut = 20e5 * master_area / 2000.0;
    assert_near(deceleration(plus(plain, plus(valve, "bypass = none\n")), BRAKE_FIRST_CIRCUIT), cut,
                ROUNDING);
    const char *text = plus(plain, plus(valve, "bypass = fitted\n"));
    assert_near(deceleration(text, BRAKE_FIRST_CIRCUIT), 1.0, ROUNDING);
    assert_near(deceleration(text, BRAKE_INTACT), 4.0 + cut, ROUNDING);
    assert_near(deceleration(text, BRAKE_SECOND_CIRCUIT), 4.0, ROUNDING);
    /* Some front torque is left: the valve stays as it is. */
    assert_near(deceleration(swapped(text, "split = II", "split = HH"), BRAKE_FIRST_CIRCUIT),
                (4.0 + cut) / 2.0, ROUNDING);
}

/* By mechanics: what stands open stays so, however far the body pitches. */
static void a_valve_that_is_bypassed_does_not_pitch(void **state)
{
    (void)state;
    struct brake_valve still;
    struct brake_sheet sheet;
    const char *text = plus("[valve]\nkind = height\nstiffness = 49.03325 N/mm\n", sensing);
    text = plus(plain, plus(text, "bypass = fitted\n"));
    assert_infinite(build(text, BRAKE_EMPTY, BRAKE_FIRST_CIRCUIT).balance.valve.knee);
    assert_true(isfinite(build(text, BRAKE_EMPTY, BRAKE_SECOND_CIRCUIT).balance.valve.knee));
    read_sheet(&sheet, text);
    struct brake_system system = build(text, BRAKE_EMPTY, BRAKE_FIRST_CIRCUIT);
    assert_equal(brake_system_pitch(&sheet.vehicle, BRAKE_FIRST_CIRCUIT, &system, &still).rate,
                 0.0);
    assert_infinite(still.knee);
    system = build(text, BRAKE_EMPTY, BRAKE_SECOND_CIRCUIT);
    assert_true(brake_system_pitch(&sheet.vehicle, BRAKE_SECOND_CIRCUIT, &system, &still).rate >
                0.0);
    assert_true(still.knee > system.balance.valve.knee); /* the rear rises */
}

/* ---- other failures -------------------------------------------------------------------------- */

static const char *boosted(void)
{
    return plus(swapped(plain, "booster = none", "booster = fitted"),
                "[booster]\ngain = 4\nassist = 1200 N\nvacuum = 60 kPa\nvacuum_low = 45 kPa\n");
}

/* Output 2000 + 1200 N; at 45/60 of the vacuum 2000 + 900 N; a = output / 400 N. */
static void the_assist_goes_with_its_vacuum(void **state)
{
    (void)state;
    const char *text = swapped(boosted(), "adhesion = 0.8", "adhesion = 1.3");
    assert_near(deceleration(text, BRAKE_INTACT), 8.0, ROUNDING);
    assert_near(deceleration(text, BRAKE_LOW_VACUUM), 7.25, ROUNDING);
    assert_near(deceleration(text, BRAKE_NO_ASSIST), 5.0, ROUNDING);
}

/* The same with oil: at 60 bar of 80 2000 + 900 N when the pump stands still. A pump with a motor
 * of its own runs on while the engine is off. */
static void oil_that_is_left_assists_when_the_pump_stands_still(void **state)
{
    (void)state;
    const char *text =
        plus(swapped(swapped(plain, "booster = none", "booster = hydraulic"), "adhesion = 0.8",
                     "adhesion = 1.3"),
             "[booster]\ngain = 4\nassist = 1200 N\npressure = 80 bar\npressure_low = 60 bar\n");
    const char *electric = plus(text, "pump = electric\n");
    assert_near(deceleration(text, BRAKE_INTACT), 8.0, ROUNDING);
    assert_near(deceleration(text, BRAKE_LOW_VACUUM), 7.25, ROUNDING);
    assert_near(deceleration(text, BRAKE_ENGINE_OFF), 7.25, ROUNDING);
    assert_near(deceleration(text, BRAKE_NO_ASSIST), 5.0, ROUNDING);
    assert_near(deceleration(electric, BRAKE_LOW_VACUUM), 7.25, ROUNDING);
    assert_near(deceleration(electric, BRAKE_ENGINE_OFF), 8.0, ROUNDING);
    /* 571.135 S7.7.3(g): reservoirs full; the shell of a vacuum booster holds that stop. */
    const char *vacuum = swapped(boosted(), "adhesion = 0.8", "adhesion = 1.3");
    assert_near(deceleration(vacuum, BRAKE_ENGINE_OFF), 8.0, ROUNDING);
}

/* 50 N*m at 4 turns of the engine for one of the wheels are 200 N*m there, 0.25 kg*m2 are 4. */
static void an_engine_in_gear_drags_the_axle_that_it_drives(void **state)
{
    (void)state;
    static const double share[][BRAKE_AXLES] = {{1.0, 0.0}, {0.0, 1.0}, {0.5, 0.5}};
    static const char *const driven[] = {"driven = front\n", "driven = rear\n", "driven = all\n"};
    const char *engine = plus(plain, "[driveline]\noverall_ratio = 4\nengine_drag = 50 N*m\n"
                                     "engine_inertia = 0.25 kg*m2\n");
    const double mass = brake_effective_mass(&(struct brake_balance){
        .body.mass = build(plain, BRAKE_EMPTY, BRAKE_INTACT).balance.body.mass,
        .axle = {build(plain, BRAKE_EMPTY, BRAKE_INTACT).balance.axle[BRAKE_FRONT],
                 build(plain, BRAKE_EMPTY, BRAKE_INTACT).balance.axle[BRAKE_REAR]}});
    for (int i = 0; i < 3; i++) {
        const struct brake_system system =
            build(plus(engine, driven[i]), BRAKE_EMPTY, BRAKE_IN_GEAR);
        double force = 5.0 * mass; /* 5 m/s2 out of gear */
        double whole = mass;
        for (int axle = 0; axle < BRAKE_AXLES; axle++) {
            const struct brake_axle_brakes *at = &system.balance.axle[axle];
            assert_near(at->drag, 200.0 * share[i][axle], ROUNDING);
            assert_near(at->geared, 4.0 * share[i][axle], ROUNDING);
            force += at->drag / at->radius;
            whole += at->geared / (at->radius * at->radius);
        }
        assert_near(brake_system_deceleration(&system, 500.0), force / whole, ROUNDING);
    }
    assert_near(deceleration(engine, BRAKE_INTACT), 5.0, ROUNDING);
}

/* What is given of gearbox and axle counts; else 0.85 and 4.1. */
static void the_gears_give_the_turns_of_the_engine(void **state)
{
    (void)state;
    static const struct {
        const char *lines;
        double ratio;
    } cases[] = {{"", 0.85 * 4.1},
                 {"[driveline]\naxle_ratio = 5\n", 0.85 * 5.0},
                 {"[driveline]\ngear_ratio = 0.7\n", 0.7 * 4.1},
                 {"[driveline]\ngear_ratio = 0.7\naxle_ratio = 5\n", 3.5},
                 {"[driveline]\noverall_ratio = 3\n", 3.0}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct brake_sheet sheet;
        read_sheet(&sheet, plus(plain, cases[i].lines));
        assert_near(sheet.vehicle.driveline.overall_ratio, cases[i].ratio, ROUNDING);
    }
}

static void a_vehicle_without_a_booster_loses_nothing_with_it(void **state)
{
    (void)state;
    assert_near(deceleration(plain, BRAKE_NO_ASSIST), 5.0, ROUNDING);
    /* Lines of a booster that was set away do not count. */
    struct brake_sheet sheet;
    struct brake_system system;
    read_sheet(&sheet, boosted());
    change(&sheet, "booster.booster=none");
    brake_system_build(&sheet.vehicle, BRAKE_EMPTY, BRAKE_INTACT, &system);
    assert_near(brake_system_deceleration(&system, 500.0), 5.0, ROUNDING);
}

static void a_sensing_valve_may_stick_open_or_shut(void **state)
{
    (void)state;
    const char *text =
        plus(plain, "[valve]\nkind = load\nknee = 20 bar\nslope = 0.5\nknee_rate = 0.05 bar/kg\n"
                    "set_mass = 1000 kg\n");
    assert_near(deceleration(text, BRAKE_VALVE_OPEN), 5.0, ROUNDING);
    assert_near(deceleration(text, BRAKE_VALVE_SHUT), 4.5, ROUNDING);
    assert_between(deceleration(text, BRAKE_INTACT), 4.5 + 1e-6, 5.0 - 1e-6);
}

/* Barton and Fieldhouse, Automotive Chassis Engineering, sec. 3.11: what leaves the rear springs is
 * the load transfer less what the links take. 2000 kg at 0.8 m less 400 kg at 0.4 m over 2.5 m, a
 * third of it taken up: 384 kg per g at 0.05 bar/kg from a knee of 30 bar. The deceleration that
 * follows must be the one that moved the valve. */
static void a_valve_that_senses_height_feels_the_body_pitch(void **state)
{
    (void)state;
    const char *text =
        plus(swapped(plain, "adhesion = 0.8", "adhesion = 1.3"),
             "[valve]\nkind = height\nknee = 30 bar\nslope = 0.5\nknee_rate = 0.05 bar/kg\n"
             "set_mass = 1000 kg\nstiffness = 50 N/mm\nanti_lift = 0.3333333333333333\n");
    const struct brake_system system = build(text, BRAKE_EMPTY, BRAKE_INTACT);
    const struct brake_system still =
        build(swapped(text, "anti_lift = 0.3333333333333333\n", "anti_lift = 1\n"), BRAKE_EMPTY,
              BRAKE_INTACT);
    assert_near(still.balance.valve.knee, 30e5, ROUNDING);
    assert_near(still.balance.valve.slope, 0.5, ROUNDING);
    for (double pressure = 22e5; pressure < 80e5; pressure += 6e5) {
        const double a = brake_balance_at(&system.balance, pressure).deceleration;
        const double knee = 30e5 - 0.05e5 * 384.0 * a / BRAKE_GRAVITY;
        const double rear = pressure > knee ? knee + 0.5 * (pressure - knee) : pressure;
        assert_near(brake_valve_pressure(system.balance.valve, pressure), rear, 1e-9);
    }
    /* One circuit gives less pitch; a valve that is stuck is not moved. */
    const struct brake_system half = build(text, BRAKE_EMPTY, BRAKE_SECOND_CIRCUIT);
    assert_true(half.balance.valve.knee > system.balance.valve.knee);
    assert_equal(build(text, BRAKE_EMPTY, BRAKE_VALVE_SHUT).balance.valve.knee, 0.0);
    assert_infinite(build(text, BRAKE_EMPTY, BRAKE_VALVE_OPEN).balance.valve.knee);
}

/* Plain's rear has a fifth of the torque and never leads: the distribution lets all through. Six
 * times as strong it would lead from the start. One unit works both, and when it fails neither is
 * left. */
static void a_unit_that_fails_leaves_neither_distribution_nor_anti_lock(void **state)
{
    (void)state;
    const char *ebd = plus(plain, "[valve]\nkind = ebd\n");
    assert_near(deceleration(ebd, BRAKE_INTACT), 5.0, ROUNDING);
    assert_near(deceleration(ebd, BRAKE_VALVE_OPEN), 5.0, ROUNDING);
    const char *strong = swapped(ebd, "pistons = 1 x 30 mm", "pistons = 6 x 30 mm");
    const char *all = swapped(strong, "adhesion = 0.8", "adhesion = 1.3");
    const struct brake_system open = build(all, BRAKE_EMPTY, BRAKE_VALVE_OPEN);
    assert_near(brake_balance_at(&open.balance, brake_system_pressure(&open, 500.0)).deceleration,
                500.0 * 18.0 / 0.4 / 2250.0, ROUNDING);
    const struct brake_system kept = build(all, BRAKE_EMPTY, BRAKE_INTACT);
    const struct brake_balance_state at =
        brake_balance_at(&kept.balance, brake_system_pressure(&kept, 500.0));
    assert_near(at.used[BRAKE_REAR], at.used[BRAKE_FRONT], 1e-9);
    /* (L - x + z h)/L of the force is the front's; the wheels' own turning aside. */
    const double z = at.deceleration / BRAKE_GRAVITY;
    const double turned = 0.8 + 2.0 * 20.0 / 0.4 / 2000.0;
    assert_near(at.force[BRAKE_FRONT] / (at.force[0] + at.force[1]), (1.25 + z * turned) / 2.5,
                1e-9);
    const char *both = plus(all, "[vehicle]\nantilock = fitted\nantilock_efficiency = 0.75\n");
    assert_true(build(both, BRAKE_EMPTY, BRAKE_INTACT).antilock > 0.0);
    for (int failure = BRAKE_VALVE_OPEN; failure <= BRAKE_NO_ANTILOCK; failure++) {
        const struct brake_system failed = build(both, BRAKE_EMPTY, (enum brake_failure)failure);
        assert_equal(failed.antilock, 0.0);
        assert_false(failed.balance.regulated);
        assert_infinite(brake_valve_pressure(failed.balance.valve, BRAKE_INFINITY));
    }
}

/* 1200 N: 12 m/s2 at the brakes. With anti-lock 0.75 x 0.8 g at both axles; without, first lock on
 * what the driver keeps, 0.5 x 0.8: 0.2 g / (0.8375 - 0.136). */
static void an_anti_lock_that_fails_leaves_what_the_driver_keeps(void **state)
{
    (void)state;
    const char *text = plus(swapped(plain, "modulation = 1", "modulation = 0.5"),
                            "[vehicle]\nantilock = fitted\nantilock_efficiency = 0.75\n");
    const struct brake_system intact = build(text, BRAKE_EMPTY, BRAKE_INTACT);
    const struct brake_system failed = build(text, BRAKE_EMPTY, BRAKE_NO_ANTILOCK);
    assert_equal(intact.antilock, 0.75);
    assert_equal(failed.antilock, 0.0);
    assert_equal(build(plain, BRAKE_EMPTY, BRAKE_INTACT).antilock, 0.0);
    assert_near(brake_system_deceleration(&intact, 1200.0), 0.6 * BRAKE_GRAVITY, ROUNDING);
    assert_near(brake_system_deceleration(&failed, 1200.0), 0.2 * BRAKE_GRAVITY / (0.8375 - 0.136),
                ROUNDING);
}

/* Given a driver who keeps 0.9 of the adhesion and an anti-lock that keeps 0.75, then the vehicle
 * with anti-lock stops as with a part of 0.9: nobody keeps the driver from it. */
static void an_anti_lock_keeps_no_driver_from_what_he_can_do(void **state)
{
    (void)state;
    const char *text = plus(swapped(plain, "modulation = 1", "modulation = 0.9"),
                            "[vehicle]\nantilock = fitted\nantilock_efficiency = 0.75\n");
    const struct brake_system system = build(text, BRAKE_EMPTY, BRAKE_INTACT);
    assert_near(brake_system_deceleration(&system, 1200.0), 0.9 * 0.8 * BRAKE_GRAVITY, ROUNDING);
}

/* All wheels together: k g. */
static void a_locked_centre_drive_locks_all_wheels_together(void **state)
{
    (void)state;
    const struct brake_system system =
        build(plus(plain, "[driveline]\ncentre = locked\n"), BRAKE_EMPTY, BRAKE_INTACT);
    assert_true(system.balance.locked);
    assert_near(brake_system_deceleration(&system, 1200.0), 0.8 * BRAKE_GRAVITY, ROUNDING);
}

/* Four wheels of 2 kg m2 at the rear: twice the inertia of two. */
static void dual_wheels_turn_four_at_the_axle(void **state)
{
    (void)state;
    const char *turning = swapped(plain, "wheel_inertia = 10 kg*m2", "wheel_inertia = 2 kg*m2");
    const struct brake_system two = build(turning, BRAKE_EMPTY, BRAKE_INTACT);
    const struct brake_system four =
        build(plus(turning, "[rear.axle]\nwheels = dual\n"), BRAKE_EMPTY, BRAKE_INTACT);
    assert_near(two.balance.axle[BRAKE_REAR].inertia, 4.0, ROUNDING);
    assert_near(four.balance.axle[BRAKE_REAR].inertia, 8.0, ROUNDING);
    assert_near(four.balance.axle[BRAKE_FRONT].inertia, 4.0, ROUNDING);
}

/* ---- fluid, strokes, travel ------------------------------------------------------------------ */

/* pi cm3 for a caliper at 100 bar: both front ones take 20 mm of stroke at 100 bar and, by
 * reference/method.md, section 4, 6/10 of it at 30 bar and 23.6/35 at 40 bar. */
static const char *soft(void)
{
    return swapped(plain, "compliance = 0 cm3", "compliance = 3.141592653589793 cm3");
}

/* Two gaps at each of two wheels: 4 A gap; 4 A_c travel. reference/method.md, section 4. */
static void every_term_of_the_fluid_goes_to_its_circuit(void **state)
{
    (void)state;
    const char *text = swapped(drum_text(), "compliance = 0 cm3", "compliance = 3 cm3");
    text = swapped(text, "compliance = 0 mm3", "compliance = 2 cm3");
    text = swapped(text, "hose_volume = 0 cm3\nair_volume = 0 cm3",
                   "hose_volume = 1 cm3\nair_volume = 0.4 cm3");
    text = swapped(text, "take_up = 0 mm", "take_up = 2 mm");
    const struct brake_system system = build(text, BRAKE_EMPTY, BRAKE_INTACT);
    const struct brake_fluid *front = &system.circuit[0];
    const struct brake_fluid *rear = &system.circuit[1];
    assert_near(front->gaps, 4.0 * 9.0 * master_area * 0.25e-3, ROUNDING);
    assert_equal(front->shoes, 0.0);
    assert_near(front->take_up, 2e-3 * master_area, ROUNDING);
    assert_near(front->compliance, 6e-6 * 3.0 / 7.0 / 1e7, ROUNDING);
    assert_near(front->seating, 6e-6 * 4.4 / 7.0, ROUNDING);
    assert_near(front->hoses, 0.5e-6 / 1e7, ROUNDING);
    assert_near(front->air, 0.2e-6, ROUNDING);
    assert_equal(rear->gaps, 0.0);
    assert_near(rear->shoes, 4.0 * master_area * 1e-3, ROUNDING);
    assert_near(rear->take_up, 2e-3 * master_area, ROUNDING);
    assert_near(rear->compliance, 4e-6 / 1e7, ROUNDING);
    assert_equal(rear->seating, 0.0);
    assert_near(rear->hoses, 0.5e-6 / 1e7, ROUNDING);
}

static void the_circuits_share_what_the_split_gives_them(void **state)
{
    (void)state;
    const struct brake_system hi =
        build(swapped(plain, "split = II", "split = HI"), BRAKE_EMPTY, BRAKE_INTACT);
    assert_near(hi.circuit[0].gaps, (4.5 + 2.25) * 1e-3 * master_area, ROUNDING);
    assert_near(hi.circuit[1].gaps, 4.5e-3 * master_area, ROUNDING);
    const char *one = swapped(swapped(plain, "split = II", "split = one"), "take_up = 0 mm\n",
                              "take_up = 2 mm\nprimary_stroke = 30 mm\nsecondary_stroke = 20 mm\n");
    const struct brake_system single = build(one, BRAKE_EMPTY, BRAKE_INTACT);
    assert_near(single.circuit[0].gaps, 11.25e-3 * master_area, ROUNDING);
    assert_equal(single.circuit[1].gaps, 0.0);
    /* There is no second chamber: no port to shut, no stroke. */
    assert_equal(single.circuit[1].take_up, 0.0);
    assert_nan(single.stroke[1]);
    assert_near(single.stroke[0], 0.03, ROUNDING);
}

/* Calipers of 6 + 4 cm3 at 100 bar and 1 cm3 of hoses. From 20 to 100 bar calipers take 3/7 and, as
 * their pads have mostly laid themselves down, 4/21 of it a 100 bar: 10 x 13/21 + 1 cm3, of which
 * twice as much was measured. */
static void a_measured_elastic_volume_scales_the_parts(void **state)
{
    (void)state;
    const char *text = swapped(plain, "compliance = 0 cm3", "compliance = 3 cm3");
    text = swapped(text, "compliance = 0 mm3", "compliance = 2 cm3");
    text = swapped(text, "hose_volume = 0 cm3",
                   "hose_volume = 1 cm3\nelastic_volume = 14.380952380952381 cm3");
    const struct brake_system system = build(text, BRAKE_EMPTY, BRAKE_INTACT);
    assert_near(system.circuit[0].compliance, 12e-6 * 3.0 / 7.0 / 1e7, ROUNDING);
    assert_near(system.circuit[1].compliance, 8e-6 * 3.0 / 7.0 / 1e7, ROUNDING);
    assert_near(system.circuit[0].seating, 12e-6 * 4.4 / 7.0, ROUNDING);
    assert_near(system.circuit[0].hoses, 1e-6 / 1e7, ROUNDING);
    /* The gaps are no elastic volume. */
    assert_near(system.circuit[0].gaps, 9e-3 * master_area, ROUNDING);
    /* No more is taken early than the line of the test begins with: 9.82 cm3, less 11.25 mm of
     * gaps over A_m, leave half of what the pads would take; the rest is in the parts. */
    text = swapped(text, "hose_volume = 1 cm3",
                   "hose_volume = 1 cm3\nclosing_volume = 9.8200060210028 cm3");
    const struct brake_system early = build(text, BRAKE_EMPTY, BRAKE_INTACT);
    assert_near(early.circuit[0].seating, 6e-6 * 4.4 / 7.0, 1e-9);
    const struct brake_fluid all = brake_fluid_sum(early.circuit[0], early.circuit[1]);
    assert_near((brake_fluid_volume(&all, 1e7) - brake_fluid_volume(&all, 2e6)) / 0.8,
                14.380952380952381e-6, 1e-9);
    /* A line that begins before the gaps are closed: nothing is taken early, and nothing of it is
     * wanted where the calipers are rigid. */
    const struct brake_system none =
        build(swapped(text, "closing_volume = 9.8200060210028 cm3", "closing_volume = -1 cm3"),
              BRAKE_EMPTY, BRAKE_INTACT);
    assert_equal(none.circuit[0].seating, 0.0);
    const struct brake_system hoses =
        build(swapped(plain, "hose_volume = 0 cm3",
                      "hose_volume = 1 cm3\nelastic_volume = 2 cm3\nclosing_volume = -1 cm3"),
              BRAKE_EMPTY, BRAKE_INTACT);
    assert_near(hoses.circuit[0].hoses, 1e-6 / 1e7, ROUNDING);
    assert_equal(hoses.circuit[0].seating, 0.0);
    /* Rigid parts have no shares that could be scaled. */
    const struct brake_system rigid =
        build(swapped(plain, "air_volume", "elastic_volume = 5 cm3\nair_volume"), BRAKE_EMPTY,
              BRAKE_INTACT);
    assert_equal(rigid.circuit[0].compliance, 0.0);
}

/* What is taken early fills, with gaps, shoes and air, what the line of the pump test begins with,
 * where the pads would take more; where they would not, they take what the line's slope says. */
static void pads_lie_down_within_what_was_pumped_in(void **state)
{
    (void)state;
    const char *text = swapped(drum_text(), "compliance = 0 cm3", "compliance = 3 cm3");
    text = swapped(text, "compliance = 0 mm3", "compliance = 2 cm3");
    text = swapped(text, "hose_volume = 0 cm3\nair_volume = 0 cm3",
                   "hose_volume = 1 cm3\nair_volume = 0.4 cm3\nelastic_volume = 16 cm3");
    const struct brake_system free = build(text, BRAKE_EMPTY, BRAKE_INTACT);
    static const double closing[] = {5.0, 6.0, 8.0, 20.0};
    for (int i = 0; i < 4; i++) {
        char line[80];
        snprintf(line, sizeof line, "[circuits]\nclosing_volume = %g cm3\n", closing[i]);
        const struct brake_system s = build(plus(text, line), BRAKE_EMPTY, BRAKE_INTACT);
        const struct brake_fluid all = brake_fluid_sum(s.circuit[0], s.circuit[1]);
        if (i < 3)
            assert_near(all.gaps + all.shoes + all.air + all.seating, 1e-6 * closing[i], 1e-9);
        else
            assert_near(all.seating, free.circuit[0].seating, 1e-12);
        assert_near((all.compliance + all.hoses) * 8e6 + brake_fluid_seated(&all, 1e7) -
                        brake_fluid_seated(&all, 2e6),
                    0.8 * 16e-6, 1e-9);
    }
}

/* 21 mm of stroke, 9 mm for the gaps: 12 mm are 30 bar. The rest of the 2000 N goes through the
 * floating piston to the rear circuit: its 2000 N / A_m make 0.45 x 2000 N*m. */
static void a_chamber_at_its_end_holds_its_circuit_at_what_it_has(void **state)
{
    (void)state;
    const char *text =
        swapped(soft(), "take_up = 0 mm\n", "take_up = 0 mm\nprimary_stroke = 21 mm\n");
    const struct brake_system system = build(text, BRAKE_EMPTY, BRAKE_INTACT);
    assert_int_equal(system.held, 0);
    assert_near(system.balance.hold.from, 30e5, 1e-9);
    assert_near(brake_system_pressure(&system, 500.0), 2000.0 / master_area, 1e-9);
    assert_near(brake_system_pressure(&system, 100.0), 400.0 / master_area, ROUNDING);
    assert_near(brake_system_deceleration(&system, 500.0),
                (1.8 * 30e5 * master_area + 0.45 * 2000.0) / 0.4 / 2250.0, 1e-9);
    /* The pad stops where the first chamber does but for the rigid rear. */
    assert_near(brake_system_travel(&system, 60e5), 0.005 + 4.0 * (0.021 + 0.00225), ROUNDING);
    /* The front circuit lost, its chamber limits nothing. */
    const struct brake_system failed = build(text, BRAKE_EMPTY, BRAKE_FIRST_CIRCUIT);
    assert_near(brake_system_pressure(&failed, 500.0), 2000.0 / master_area, ROUNDING);
}

/* Both chambers at their ends: the bore carries the rest. */
static void two_chambers_at_their_ends_give_no_more_pressure(void **state)
{
    (void)state;
    const char *strokes = "take_up = 0 mm\nprimary_stroke = 21 mm\nsecondary_stroke = 8.25 mm\n";
    const char *text = swapped(soft(), "compliance = 0 mm3", "compliance = 1.570796326794897 cm3");
    /* In front 9 mm for the gaps, at the rear 2.25 mm and 10 mm at 100 bar: both 30 bar. */
    const struct brake_system even =
        build(swapped(text, "take_up = 0 mm\n", strokes), BRAKE_EMPTY, BRAKE_INTACT);
    assert_near(brake_system_pressure(&even, 500.0), 30e5, 1e-9);
    const struct brake_system longer = build(
        swapped(swapped(text, "take_up = 0 mm\n", strokes), "8.25 mm", "8.992857142857143 mm"),
        BRAKE_EMPTY, BRAKE_INTACT);
    assert_int_equal(longer.held, 0);
    assert_near(brake_system_pressure(&longer, 500.0), 40e5, 1e-9);
}

/* 21 mm in front (30 bar), then the rear alone takes what is left to the floor. */
static void the_floor_counts_a_held_chamber_by_its_stroke(void **state)
{
    (void)state;
    const char *text = swapped(soft(), "compliance = 0 mm3", "compliance = 1.570796326794897 cm3");
    text = swapped(text, "take_up = 0 mm\n", "take_up = 0 mm\nprimary_stroke = 21 mm\n");
    /* (124.97 - 5)/4 = 29.99 mm, less 21 and 2.25 mm: 6.743 mm are 40 bar. */
    const struct brake_system system = build(
        swapped(text, "free_play = 5 mm\n", "free_play = 5 mm\ntravel = 124.97142857142857 mm\n"),
        BRAKE_EMPTY, BRAKE_INTACT);
    assert_near(brake_system_pressure(&system, 500.0), 40e5, 1e-9);
    assert_near(brake_system_travel(&system, 40e5), 0.12497142857142857, 1e-12);
}

/* One circuit alone: there is no other to go on. */
static void a_single_chamber_at_its_end_ends_the_pressure(void **state)
{
    (void)state;
    const char *text = swapped(soft(), "split = II", "split = one");
    /* 23.25 mm, 11.25 mm for the gaps: 12 mm are 30 bar. */
    const struct brake_system system =
        build(swapped(text, "take_up = 0 mm\n", "take_up = 0 mm\nprimary_stroke = 23.25 mm\n"),
              BRAKE_EMPTY, BRAKE_INTACT);
    assert_near(brake_system_pressure(&system, 500.0), 30e5, 1e-9);
    assert_int_equal(system.held, -1);
}

static void a_chamber_too_short_for_the_gaps_gives_none(void **state)
{
    (void)state;
    const char *text =
        swapped(soft(), "take_up = 0 mm\n", "take_up = 0 mm\nprimary_stroke = 8 mm\n");
    const struct brake_system system = build(text, BRAKE_EMPTY, BRAKE_INTACT);
    assert_equal(system.balance.hold.from, 0.0);
    assert_near(brake_system_deceleration(&system, 500.0), 0.45 * 2000.0 / 0.4 / 2250.0, 1e-9);
}

/* (98 - 5)/4 = 23.25 mm of rod: 11.25 mm for the gaps, 12 mm are 30 bar. */
static void a_pedal_on_the_floor_gives_no_more_pressure(void **state)
{
    (void)state;
    const struct brake_system system =
        build(swapped(soft(), "free_play = 5 mm\n", "free_play = 5 mm\ntravel = 98 mm\n"),
              BRAKE_EMPTY, BRAKE_INTACT);
    assert_near(brake_system_pressure(&system, 500.0), 30e5, 1e-9);
}

/* Second circuit lost: its chamber runs its 5 mm first; (109 - 5)/4 - 5 = 21 mm, less 9 mm for the
 * gaps: 30 bar. A stroke that is not known takes nothing off: (89 - 5)/4 - 9 = 12 mm, 30 bar. */
static void a_lost_chamber_takes_its_stroke_off_the_travel(void **state)
{
    (void)state;
    const char *text = swapped(soft(), "free_play = 5 mm\n", "free_play = 5 mm\ntravel = 89 mm\n");
    const struct brake_system unknown = build(text, BRAKE_EMPTY, BRAKE_SECOND_CIRCUIT);
    assert_near(brake_system_pressure(&unknown, 500.0), 30e5, 1e-9);
    text = swapped(swapped(text, "travel = 89 mm", "travel = 109 mm"), "take_up = 0 mm\n",
                   "take_up = 0 mm\nsecondary_stroke = 5 mm\n");
    const struct brake_system known = build(text, BRAKE_EMPTY, BRAKE_SECOND_CIRCUIT);
    assert_near(brake_system_pressure(&known, 500.0), 30e5, 1e-9);
}

/* 5 + 4 (9 + 12 + 2.25) mm at 30 bar. */
static void the_pad_travels_what_the_fluid_takes(void **state)
{
    (void)state;
    const struct brake_system system = build(soft(), BRAKE_EMPTY, BRAKE_INTACT);
    assert_near(brake_system_travel(&system, 0.0), 0.050, ROUNDING);
    assert_near(brake_system_travel(&system, 30e5), 0.098, ROUNDING);
}

/* V_a p/(p + p_atm): at one atmosphere half of the air is gone; 0.4 cm3 / 2 / A_m x 4. */
static void air_in_the_lines_makes_the_pedal_longer(void **state)
{
    (void)state;
    const struct brake_system system = build(
        swapped(plain, "air_volume = 0 cm3", "air_volume = 0.4 cm3"), BRAKE_EMPTY, BRAKE_INTACT);
    assert_near(brake_system_travel(&system, BRAKE_ATMOSPHERE) - 0.050, 4.0 * 0.2e-6 / master_area,
                1e-9);
}

static void a_lost_chamber_runs_to_its_end(void **state)
{
    (void)state;
    const char *text =
        swapped(plain, "take_up = 0 mm\n",
                "take_up = 0 mm\nprimary_stroke = 18 mm\nsecondary_stroke = 12 mm\n");
    const struct brake_system first = build(text, BRAKE_EMPTY, BRAKE_FIRST_CIRCUIT);
    const struct brake_system second = build(text, BRAKE_EMPTY, BRAKE_SECOND_CIRCUIT);
    assert_near(brake_system_travel(&first, 30e5), 0.005 + 4.0 * 0.02025, ROUNDING);
    assert_near(brake_system_travel(&second, 30e5), 0.005 + 4.0 * 0.021, ROUNDING);
    const struct brake_system unknown = build(plain, BRAKE_EMPTY, BRAKE_FIRST_CIRCUIT);
    assert_nan(brake_system_travel(&unknown, 30e5));
}

/* Pivot 0.2 m from the centre of a drum of 0.15 m, lined from 10 to 40 degrees: a cos(theta) > r
 * all along it, so that friction lifts a leading shoe off (reference/method.md, sec. 3: B < 0). */
static void a_shoe_whose_pivot_lies_outside_never_locks(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    read_sheet(&sheet, shoe_text());
    assert_true(isfinite(brake_vehicle_room_to_lock(&sheet.vehicle, BRAKE_REAR)));
    struct brake_lining_lines *at = &sheet.vehicle.axle[BRAKE_REAR].lining;
    at->pivot_radius = 0.2;
    at->heel = 10.0 * BRAKE_PI / 180.0;
    at->toe = 40.0 * BRAKE_PI / 180.0;
    assert_infinite(brake_vehicle_room_to_lock(&sheet.vehicle, BRAKE_REAR));
}

/* Lanes leave out what keeps wheels or regulates. */
static void lanes_know_plain_brakes(void **state)
{
    (void)state;
    static const char *const lines[] = {"", "[vehicle]\nantilock = fitted\n",
                                        "[valve]\nkind = ebd\n", "[driveline]\ncentre = locked\n"};
    for (int i = 0; i < 4; i++) {
        struct brake_sheet sheet;
        read_sheet(&sheet, plus(plain, lines[i]));
        assert_int_equal(brake_lane_known(&sheet.vehicle), i == 0);
    }
}

/* As a_valve_that_senses_height_feels_the_body_pitch: what rolls, drags or begins late moves the
 * body as well. */
static void whatever_slows_the_body_moves_its_valve(void **state)
{
    (void)state;
    const char *text =
        plus(swapped(plain, "rolling_resistance = 0\n", "rolling_resistance = 0.04\n"),
             "[valve]\nkind = height\nknee = 30 bar\nslope = 0.5\nknee_rate = 0.05 bar/kg\n"
             "set_mass = 1000 kg\nstiffness = 50 N/mm\nanti_lift = 0.3333333333333333\n"
             "[driveline]\ndriven = rear\noverall_ratio = 4\nengine_drag = 50 N*m\n"
             "engine_inertia = 0.25 kg*m2\n");
    text = swapped(text, "threshold = 0 bar", "threshold = 2 bar");
    for (int gear = 0; gear < 2; gear++) {
        const struct brake_system system =
            build(text, BRAKE_EMPTY, gear == 1 ? BRAKE_IN_GEAR : BRAKE_INTACT);
        for (double pressure = 22e5; pressure < 60e5; pressure += 6e5) {
            const double a = brake_balance_at(&system.balance, pressure).deceleration;
            const double knee = 30e5 - 0.05e5 * 384.0 * a / BRAKE_GRAVITY;
            const double rear = pressure > knee ? knee + 0.5 * (pressure - knee) : pressure;
            assert_near(brake_valve_pressure(system.balance.valve, pressure), rear, 1e-9);
        }
    }
}

/* A vehicle of two circuits that are alike, its chambers of these strokes, its pedal of this
 * travel. */
static const char *of_strokes(double primary, double secondary, double travel)
{
    char lines[200];
    const char *text = swapped(soft(), "split = II", "split = X");
    snprintf(lines, sizeof lines,
             "[master]\nprimary_stroke = %.17g mm\nsecondary_stroke = %.17g mm\n"
             "[pedal]\ntravel = %.17g mm\n",
             primary, secondary, travel);
    return plus(text, lines);
}

/* Of circuits that are alike nothing changes but the number of the chamber when both chambers
 * change places. */
static void chambers_may_change_places(void **state)
{
    (void)state;
    static const double cases[][3] = {{8.0, 12.0, 300.0}, {8.0, 20.0, 120.0}, {6.0, 7.0, 300.0},
                                      {8.0, 20.0, 100.0}, {5.0, 20.0, 90.0},  {30.0, 31.0, 90.0}};
    static const enum brake_failure failures[][2] = {{BRAKE_INTACT, BRAKE_INTACT},
                                                     {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT},
                                                     {BRAKE_SECOND_CIRCUIT, BRAKE_FIRST_CIRCUIT}};
    bool held = false;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const double *c = cases[i];
        for (int f = 0; f < 3; f++) {
            const struct brake_system one =
                build(of_strokes(c[0], c[1], c[2]), BRAKE_EMPTY, failures[f][0]);
            const struct brake_system other =
                build(of_strokes(c[1], c[0], c[2]), BRAKE_EMPTY, failures[f][1]);
            assert_true(isfinite(one.pressure_most));
            assert_near(one.pressure_most, other.pressure_most, 1e-12);
            assert_int_equal(one.held, other.held < 0 ? -1 : 1 - other.held);
            assert_near(one.balance.hold.from, other.balance.hold.from, 1e-12);
            assert_near(one.balance.hold.to, other.balance.hold.to, 1e-12);
            const double pressure = 0.9 * one.pressure_most;
            assert_near(brake_system_travel(&one, pressure), brake_system_travel(&other, pressure),
                        1e-12);
            assert_near(brake_system_deceleration(&one, 500.0),
                        brake_system_deceleration(&other, 500.0), 1e-12);
            held = held || one.held == 0;
        }
    }
    assert_true(held);
}

static void expect_nothing_held(const struct brake_system *system)
{
    assert_int_equal(system->held, -1);
    assert_equal(system->balance.hold.from, 0.0);
    assert_equal(system->balance.hold.to, 0.0);
    for (int i = 0; i < BRAKE_AXLES; i++) {
        assert_equal(system->balance.axle[i].held, 0.0);
        assert_equal(system->balance.axle[i].held_wheels, 0.0);
    }
}

/* Whatever stood there before: without strokes nothing is held, nor by one that is released. */
static void a_system_without_ends_holds_nothing(void **state)
{
    (void)state;
    struct brake_sheet sheet;
    struct brake_system system;
    read_sheet(&sheet, plain);
    memset(&system, 0x55, sizeof system);
    brake_system_build(&sheet.vehicle, BRAKE_EMPTY, BRAKE_INTACT, &system);
    expect_nothing_held(&system);
    system = build(of_strokes(8.0, 20.0, 300.0), BRAKE_EMPTY, BRAKE_INTACT);
    assert_int_equal(system.held, 0);
    assert_true(system.balance.axle[BRAKE_REAR].held > 0.0);
    brake_system_release(&system);
    expect_nothing_held(&system);
    assert_infinite(system.pressure_most);
    assert_nan(system.stroke[0]);
    assert_nan(system.stroke[1]);
}

static void without_assist_the_foot_is_alone(void **state)
{
    (void)state;
    const struct brake_system system = build(full_text(), BRAKE_EMPTY, BRAKE_NO_ASSIST);
    assert_equal(system.pedal.gain, 1.0);
    assert_equal(system.pedal.assist, 0.0);
    const struct brake_system none = build(plain, BRAKE_EMPTY, BRAKE_INTACT);
    assert_equal(none.pedal.gain, 1.0);
    assert_equal(none.pedal.assist, 0.0);
}

/* tyre_grip is over the reference tyre, on which the road's adhesion was measured. */
static void tyres_have_their_part_of_the_adhesion(void **state)
{
    (void)state;
    const struct brake_system system =
        build(swapped(plain, "tyre_grip = 1\n", "tyre_grip = 0.9\n"), BRAKE_EMPTY, BRAKE_INTACT);
    assert_near(system.adhesion, 0.8 * 0.9, ROUNDING);
}

/* What is not there does not fail; of valves those that sense may stick, and a unit cannot shut. */
static void only_what_is_there_can_fail(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        enum brake_failure failure;
        bool can;
    } cases[] = {{"[valve]\nkind = none\n", BRAKE_VALVE_OPEN, false},
                 {"[valve]\nkind = none\n", BRAKE_VALVE_SHUT, false},
                 {"[valve]\nkind = fixed\n", BRAKE_VALVE_OPEN, false},
                 {"[valve]\nkind = fixed\n", BRAKE_VALVE_SHUT, false},
                 {"[valve]\nkind = load\n", BRAKE_VALVE_OPEN, true},
                 {"[valve]\nkind = load\n", BRAKE_VALVE_SHUT, true},
                 {"[valve]\nkind = height\n", BRAKE_VALVE_OPEN, true},
                 {"[valve]\nkind = height\n", BRAKE_VALVE_SHUT, true},
                 {"[valve]\nkind = ebd\n", BRAKE_VALVE_OPEN, true},
                 {"[valve]\nkind = ebd\n", BRAKE_VALVE_SHUT, false},
                 {"[circuits]\nsplit = one\n", BRAKE_FIRST_CIRCUIT, true},
                 {"[circuits]\nsplit = one\n", BRAKE_SECOND_CIRCUIT, false},
                 {"[circuits]\nsplit = HH\n", BRAKE_SECOND_CIRCUIT, true},
                 {"[booster]\nbooster = none\n", BRAKE_NO_ASSIST, false},
                 {"[booster]\nbooster = none\n", BRAKE_LOW_VACUUM, false},
                 {"[booster]\nbooster = fitted\n", BRAKE_NO_ASSIST, true},
                 {"[booster]\nbooster = hydraulic\n", BRAKE_LOW_VACUUM, true},
                 {"[vehicle]\nantilock = none\n", BRAKE_NO_ANTILOCK, false},
                 {"[vehicle]\nantilock = fitted\n", BRAKE_NO_ANTILOCK, true},
                 {"[vehicle]\nantilock = none\n", BRAKE_INTACT, true},
                 {"[vehicle]\nantilock = none\n", BRAKE_IN_GEAR, true}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct brake_sheet sheet;
        read_only(&sheet, cases[i].text);
        assert_int_equal(brake_vehicle_can_fail(&sheet.vehicle, cases[i].failure), cases[i].can);
    }
}

/* 1 Pa more a kilogram: 384 kg of the rear's load at 1 g move the knee by as many pascals. */
static void a_knee_that_hardly_moves_moves(void **state)
{
    (void)state;
    const struct brake_system system =
        build(plus(plain, "[valve]\nkind = height\nknee = 30 bar\nslope = 0.5\n"
                          "knee_rate = 1 Pa/kg\nset_mass = 1000 kg\nstiffness = 50 N/mm\n"
                          "anti_lift = 0.3333333333333333\n"),
              BRAKE_EMPTY, BRAKE_INTACT);
    const double a = brake_balance_at(&system.balance, 40e5).deceleration;
    const double knee = 30e5 - 384.0 * a / BRAKE_GRAVITY;
    assert_true(knee < 30e5 - 100.0);
    assert_near(brake_valve_pressure(system.balance.valve, 40e5), knee + 0.5 * (40e5 - knee), 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_load_is_added_to_the_bare_vehicle),
        cmocka_unit_test(a_lightly_laden_vehicle_has_its_tester_aboard),
        cmocka_unit_test(a_vehicle_at_its_rated_mass_loads_its_axles_by_their_ratings),
        cmocka_unit_test(a_vehicle_past_its_rated_mass_stays_as_it_is),
        cmocka_unit_test(lift_raises_the_sprung_mass_and_parts_are_added_or_taken_off),
        cmocka_unit_test(a_group_of_pistons_adds_to_the_area),
        cmocka_unit_test(a_disc_axle_gives_twice_the_torque_of_a_brake),
        cmocka_unit_test(a_drum_axle_gives_twice_the_torque_of_a_drum),
        cmocka_unit_test(a_drum_without_a_factor_takes_that_of_its_shoes),
        cmocka_unit_test(a_drum_that_locks_by_itself_has_no_torque),
        cmocka_unit_test(a_duo_servo_has_a_secondary_lining),
        cmocka_unit_test(a_shoe_locks_from_a_friction_on),
        cmocka_unit_test(without_a_valve_the_rear_follows_for_ever),
        cmocka_unit_test(a_fixed_valve_has_one_knee),
        cmocka_unit_test(a_valve_that_senses_load_opens_with_it),
        cmocka_unit_test(a_lift_deceives_a_valve_that_senses_height),
        cmocka_unit_test(a_failed_circuit_takes_its_share),
        cmocka_unit_test(a_failed_circuit_leaves_some_wheels),
        cmocka_unit_test(a_single_wheel_locks_at_half_the_adhesion_of_its_axle),
        cmocka_unit_test(a_bypass_opens_the_valve_when_the_front_is_lost),
        cmocka_unit_test(a_valve_that_is_bypassed_does_not_pitch),
        cmocka_unit_test(the_assist_goes_with_its_vacuum),
        cmocka_unit_test(oil_that_is_left_assists_when_the_pump_stands_still),
        cmocka_unit_test(an_engine_in_gear_drags_the_axle_that_it_drives),
        cmocka_unit_test(the_gears_give_the_turns_of_the_engine),
        cmocka_unit_test(a_vehicle_without_a_booster_loses_nothing_with_it),
        cmocka_unit_test(a_sensing_valve_may_stick_open_or_shut),
        cmocka_unit_test(a_valve_that_senses_height_feels_the_body_pitch),
        cmocka_unit_test(a_unit_that_fails_leaves_neither_distribution_nor_anti_lock),
        cmocka_unit_test(an_anti_lock_that_fails_leaves_what_the_driver_keeps),
        cmocka_unit_test(an_anti_lock_keeps_no_driver_from_what_he_can_do),
        cmocka_unit_test(a_locked_centre_drive_locks_all_wheels_together),
        cmocka_unit_test(dual_wheels_turn_four_at_the_axle),
        cmocka_unit_test(every_term_of_the_fluid_goes_to_its_circuit),
        cmocka_unit_test(the_circuits_share_what_the_split_gives_them),
        cmocka_unit_test(a_measured_elastic_volume_scales_the_parts),
        cmocka_unit_test(pads_lie_down_within_what_was_pumped_in),
        cmocka_unit_test(a_chamber_at_its_end_holds_its_circuit_at_what_it_has),
        cmocka_unit_test(two_chambers_at_their_ends_give_no_more_pressure),
        cmocka_unit_test(the_floor_counts_a_held_chamber_by_its_stroke),
        cmocka_unit_test(a_single_chamber_at_its_end_ends_the_pressure),
        cmocka_unit_test(a_chamber_too_short_for_the_gaps_gives_none),
        cmocka_unit_test(a_pedal_on_the_floor_gives_no_more_pressure),
        cmocka_unit_test(a_lost_chamber_takes_its_stroke_off_the_travel),
        cmocka_unit_test(the_pad_travels_what_the_fluid_takes),
        cmocka_unit_test(air_in_the_lines_makes_the_pedal_longer),
        cmocka_unit_test(a_lost_chamber_runs_to_its_end),
        cmocka_unit_test(a_shoe_whose_pivot_lies_outside_never_locks),
        cmocka_unit_test(lanes_know_plain_brakes),
        cmocka_unit_test(whatever_slows_the_body_moves_its_valve),
        cmocka_unit_test(chambers_may_change_places),
        cmocka_unit_test(a_system_without_ends_holds_nothing),
        cmocka_unit_test(without_assist_the_foot_is_alone),
        cmocka_unit_test(tyres_have_their_part_of_the_adhesion),
        cmocka_unit_test(only_what_is_there_can_fail),
        cmocka_unit_test(a_knee_that_hardly_moves_moves),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
