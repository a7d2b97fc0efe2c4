/* SPDX-License-Identifier: MIT */
/* Drum brakes: shoe factor, brake factor, torque. */
#include "near.h"

#include "brake/drum.h"
#include "model/drum_shape.h"

static const enum brake_lead leads[] = {BRAKE_LEADING, BRAKE_TRAILING};

static const struct brake_shoe shoe = {
    .drum_radius = 0.14, .pivot_radius = 0.11, .force_arm = 0.2, .heel = 0.25, .toe = 2.2};

static double factor_of(const struct brake_shoe *s, double mu, enum brake_lead lead)
{
    double factor;
    assert_int_equal(brake_shoe_factor(s, mu, lead, &factor), BRAKE_OK);
    return factor;
}

/* Moments of a lining whose pressure is sin(t) / sin(t_a), by Simpson's rule over the arc: arms of
 * the contact force a sin t, of the friction force r - a cos t (Shigley, sec. 16-3). */
static void moments_over_arc(const struct brake_shoe *s, double *normal, double *friction,
                             double *drag)
{
    const int cells = 400;
    const double peak = s->toe < BRAKE_PI / 2.0 ? sin(s->toe) : 1.0;
    *normal = 0.0;
    *friction = 0.0;
    *drag = 0.0;
    for (int i = 0; i <= cells; i++) {
        const double weight = i == 0 || i == cells ? 1.0 : (i % 2 ? 4.0 : 2.0);
        const double angle = s->heel + (s->toe - s->heel) * i / cells;
        const double force =
            weight * sin(angle) / peak * s->drum_radius * (s->toe - s->heel) / (3.0 * cells);
        *normal += force * s->pivot_radius * sin(angle);
        *friction += force * (s->drum_radius - s->pivot_radius * cos(angle));
        *drag += force;
    }
}

static void the_moments_are_those_of_a_sine_shaped_pressure(void **state)
{
    (void)state;
    struct cases cases = {6};
    for (int i = 0; i < 200; i++) {
        const double heel = any_between(&cases, 0.0, 1.0);
        const struct brake_shoe s = {
            .drum_radius = any_between(&cases, 0.1, 0.2),
            .pivot_radius = any_between(&cases, 0.06, 0.16),
            .force_arm = 0.2,
            .heel = heel,
            .toe = any_between(&cases, heel + 0.3, BRAKE_PI),
        };
        double normal;
        double friction;
        double expected_normal;
        double expected_friction;
        double drag;
        brake_shoe_moments(&s, &normal, &friction);
        moments_over_arc(&s, &expected_normal, &expected_friction, &drag);
        assert_near(normal, expected_normal, 1e-9);
        assert_within(friction, expected_friction, 1e-9 * expected_normal);
    }
}

static void the_factor_is_the_drag_that_the_moment_balance_allows(void **state)
{
    (void)state;
    const double mu = 0.3;
    double normal;
    double friction;
    double drag;
    moments_over_arc(&shoe, &normal, &friction, &drag);
    assert_near(factor_of(&shoe, mu, BRAKE_LEADING),
                mu * drag * shoe.force_arm / (normal - mu * friction), 1e-9);
    assert_near(factor_of(&shoe, mu, BRAKE_TRAILING),
                mu * drag * shoe.force_arm / (normal + mu * friction), 1e-9);
}

/* Torque by pressure times friction arm equals factor times force times radius. */
static void pressure_and_factor_tell_the_same_torque(void **state)
{
    (void)state;
    const double mu = 0.35;
    const double width = 0.05;
    const double force = 2500.0;
    double normal;
    double friction;
    double drag;
    moments_over_arc(&shoe, &normal, &friction, &drag);
    for (int i = 0; i < 2; i++) {
        const double pressure = brake_shoe_pressure(&shoe, mu, leads[i], force, width);
        const double torque = mu * pressure * width * drag * shoe.drum_radius;
        assert_near(factor_of(&shoe, mu, leads[i]) * force * shoe.drum_radius, torque, 1e-9);
    }
    assert_nan(brake_shoe_pressure(&shoe, BRAKE_NAN, BRAKE_LEADING, force, width));
    assert_nan(brake_shoe_pressure(&shoe, mu, BRAKE_LEADING, BRAKE_NAN, width));
}

/* A narrow lining at an angle t has its contact force at arm a sin t and its friction at
 * r - a cos t (geometry): second order in the angle that it spans. */
static void a_long_shoe_cut_short_tends_to_the_short_shoe(void **state)
{
    (void)state;
    const double mu = 0.4;
    const double angle = 1.3;
    for (int i = 0; i < 2; i++) {
        const double point =
            brake_shoe_factor_short(mu, shoe.force_arm, shoe.pivot_radius * sin(angle),
                                    shoe.drum_radius - shoe.pivot_radius * cos(angle), leads[i]);
        double last = 0.0;
        for (double half = 0.2; half > 0.01; half /= 2.0) {
            struct brake_shoe narrow = shoe;
            narrow.heel = angle - half;
            narrow.toe = angle + half;
            const double error = fabs(factor_of(&narrow, mu, leads[i]) - point);
            if (last > 0.0)
                assert_between(last / error, 3.9, 4.1);
            last = error;
        }
    }
}

static void a_small_drum_of_the_same_shape_has_the_same_factor(void **state)
{
    (void)state;
    struct brake_shoe small = shoe;
    small.drum_radius *= 0.1;
    small.pivot_radius *= 0.1;
    small.force_arm *= 0.1;
    for (int i = 0; i < 2; i++)
        assert_near(factor_of(&small, 0.35, leads[i]), factor_of(&shoe, 0.35, leads[i]), ROUNDING);
}

static void without_a_friction_arm_leading_and_trailing_are_alike(void **state)
{
    (void)state;
    const double leading = brake_shoe_factor_short(0.4, 0.2, 0.1, 0.0, BRAKE_LEADING);
    assert_near(leading, 0.8, ROUNDING); /* mu x 0.2 / 0.1 (Norton, short shoe) */
    assert_equal(brake_shoe_factor_short(0.4, 0.2, 0.1, 0.0, BRAKE_TRAILING), leading);
    assert_equal(brake_shoe_factor_short(0.0, 0.2, 0.1, 0.12, BRAKE_LEADING), 0.0);
}

static void a_leading_shoe_gains_more_with_friction_than_a_trailing_one(void **state)
{
    (void)state;
    double leading = 0.0;
    double trailing = 0.0;
    for (double mu = 0.05; mu < 0.6; mu += 0.05) {
        const double l = factor_of(&shoe, mu, BRAKE_LEADING);
        const double t = factor_of(&shoe, mu, BRAKE_TRAILING);
        assert_true(l > t);
        assert_true(l - leading > t - trailing);
        assert_true(t > trailing);
        leading = l;
        trailing = t;
    }
}

/* Norton: a short shoe locks where mu x friction arm reaches the normal arm. */
static void a_short_leading_shoe_that_locks_has_no_factor(void **state)
{
    (void)state;
    assert_nan(brake_shoe_factor_short(1.0, 0.2, 0.1, 0.1, BRAKE_LEADING));
    assert_nan(brake_shoe_factor_short(1.2, 0.2, 0.1, 0.1, BRAKE_LEADING));
    assert_near(brake_shoe_factor_short(1.0, 0.2, 0.1, 0.1, BRAKE_TRAILING), 1.0, ROUNDING);
    assert_nan(brake_shoe_factor_short(BRAKE_NAN, 0.2, 0.1, 0.1, BRAKE_TRAILING));
}

static void a_long_leading_shoe_that_locks_is_refused(void **state)
{
    (void)state;
    double normal;
    double friction;
    brake_shoe_moments(&shoe, &normal, &friction);
    const double locking = normal / friction;
    double factor = 1.0;
    assert_true(factor_of(&shoe, 0.999 * locking, BRAKE_LEADING) > 100.0);
    assert_int_equal(brake_shoe_factor(&shoe, 1.001 * locking, BRAKE_LEADING, &factor),
                     BRAKE_E_SELF_LOCK);
    assert_nan(factor);
    assert_true(brake_shoe_pressure(&shoe, 1.001 * locking, BRAKE_LEADING, 1e3, 0.05) < 0.0);
    factor = 1.0;
    assert_int_equal(
        brake_drum_factor_shape(&shoe, BRAKE_LEADING_TRAILING, 1.001 * locking, &factor),
        BRAKE_E_SELF_LOCK);
    assert_nan(factor);
}

/* With the pivot well outside the drum friction acts inside the pivot: the roles of the two shoes
 * change places, and it is the trailing one that can lock. */
static void a_pivot_outside_the_drum_lets_the_trailing_shoe_lock(void **state)
{
    (void)state;
    struct brake_shoe far = shoe;
    far.pivot_radius = 0.6;
    far.heel = 0.1;
    far.toe = 0.6;
    double normal;
    double friction;
    brake_shoe_moments(&far, &normal, &friction);
    assert_true(friction < 0.0);
    const double mu = -1.001 * normal / friction;
    double factor = 1.0;
    assert_int_equal(brake_shoe_factor(&far, mu, BRAKE_LEADING, &factor), BRAKE_OK);
    assert_true(factor > 0.0);
    assert_int_equal(brake_shoe_factor(&far, mu, BRAKE_TRAILING, &factor), BRAKE_E_SELF_LOCK);
    assert_nan(factor);
    factor = 1.0;
    assert_int_equal(brake_drum_factor_shape(&far, BRAKE_LEADING_TRAILING, mu, &factor),
                     BRAKE_E_SELF_LOCK);
    assert_nan(factor);
}

static void hold_out_of_range(struct brake_shoe s, double mu)
{
    double factor = 1.0;
    assert_int_equal(brake_shoe_factor(&s, mu, BRAKE_LEADING, &factor), BRAKE_E_RANGE);
    assert_nan(factor);
    factor = 1.0;
    assert_int_equal(brake_drum_factor_shape(&s, BRAKE_DUO_SERVO, mu, &factor), BRAKE_E_RANGE);
    assert_nan(factor);
}

static void a_shoe_out_of_range_is_refused(void **state)
{
    (void)state;
    static const double unusable[] = {0.0, -0.1, BRAKE_NAN};
    for (size_t i = 0; i < sizeof unusable / sizeof unusable[0]; i++) {
        struct brake_shoe s = shoe;
        s.drum_radius = unusable[i];
        hold_out_of_range(s, 0.35);
        s = shoe;
        s.pivot_radius = unusable[i];
        hold_out_of_range(s, 0.35);
        s = shoe;
        s.force_arm = unusable[i];
        hold_out_of_range(s, 0.35);
        hold_out_of_range(shoe, unusable[i]);
    }
    static const double angles[][2] = {{-0.01, 2.0}, {1.0, 1.0},       {1.0, 0.9},
                                       {0.5, 3.15},  {BRAKE_NAN, 2.0}, {0.5, BRAKE_NAN}};
    for (size_t i = 0; i < sizeof angles / sizeof angles[0]; i++) {
        struct brake_shoe s = shoe;
        s.heel = angles[i][0];
        s.toe = angles[i][1];
        hold_out_of_range(s, 0.35);
    }
    /* The ends of the range belong to it. */
    struct brake_shoe widest = shoe;
    widest.heel = 0.0;
    widest.toe = BRAKE_PI;
    assert_true(factor_of(&widest, 0.35, BRAKE_LEADING) > 0.0);
}

/* Moment balance of the shoes; see the source of brake_drum_factor. */
static void the_arrangement_of_the_shoes_makes_the_brake_factor(void **state)
{
    (void)state;
    assert_near(brake_drum_factor(BRAKE_LEADING_TRAILING, 1.5, 0.5, 9.0), 2.0, ROUNDING);
    assert_near(brake_drum_factor(BRAKE_TWO_LEADING, 1.5, 0.5, 9.0), 3.0, ROUNDING);
    assert_near(brake_drum_factor(BRAKE_DUO_SERVO, 1.5, 0.5, 3.0), 6.0, ROUNDING);
    /* The primary shoe is held at its link: arms 0.1 m, drag 1.5 F at 0.125 m. */
    assert_near(brake_drum_link(1.5, 0.125, 0.1, 0.1), 2.875, ROUNDING);
    assert_nan(brake_drum_factor(BRAKE_TWO_LEADING, BRAKE_NAN, 0.5, 1.0));
    assert_nan(brake_drum_link(BRAKE_NAN, 0.125, 0.1, 0.1));
}

static void the_brake_factor_of_a_shape_is_that_of_its_shoes(void **state)
{
    (void)state;
    const double mu = 0.35;
    const double leading = factor_of(&shoe, mu, BRAKE_LEADING);
    const double trailing = factor_of(&shoe, mu, BRAKE_TRAILING);
    double factor;
    assert_int_equal(brake_drum_factor_shape(&shoe, BRAKE_LEADING_TRAILING, mu, &factor), BRAKE_OK);
    assert_near(factor, leading + trailing, ROUNDING);
    assert_int_equal(brake_drum_factor_shape(&shoe, BRAKE_TWO_LEADING, mu, &factor), BRAKE_OK);
    assert_near(factor, 2.0 * leading, ROUNDING);
    assert_int_equal(brake_drum_factor_shape(&shoe, BRAKE_DUO_SERVO, mu, &factor), BRAKE_OK);
    /* Wheel cylinder 0.2 - 0.11 m from the axis, link at the pivot's 0.11 m. */
    const double link = (0.09 + leading * 0.14) / 0.11;
    assert_near(factor, leading * (1.0 + link), ROUNDING);
}

/* Norton, Machine Design, double short-shoe brake: narrow linings act in one point, each at its own
 * angle and with its own friction. The primary shoe, about the drum's axis: the wheel cylinder at
 * 0.09 m and its drag at 0.14 m against the link at 0.11 m; the secondary one takes the link's
 * force. */
static void the_secondary_shoe_has_its_own_lining(void **state)
{
    (void)state;
    const double at[] = {1.2, 1.7};
    const double mu[] = {0.40, 0.32};
    struct brake_shoe narrow[] = {shoe, shoe};
    double point[2];
    double factor;
    for (int i = 0; i < 2; i++) {
        narrow[i].heel = at[i] - 1e-4;
        narrow[i].toe = at[i] + 1e-4;
        point[i] = brake_shoe_factor_short(mu[i], shoe.force_arm, shoe.pivot_radius * sin(at[i]),
                                           shoe.drum_radius - shoe.pivot_radius * cos(at[i]),
                                           BRAKE_LEADING);
    }
    const double link = (0.09 + point[0] * 0.14) / 0.11;
    assert_int_equal(brake_drum_factor_servo(&narrow[0], mu[0], &narrow[1], mu[1], &factor),
                     BRAKE_OK);
    assert_near(factor, point[0] + point[1] * link, 1e-7); /* second order in the angle */
    /* It is the second one whose drag is multiplied. */
    assert_int_equal(brake_drum_factor_servo(&narrow[1], mu[1], &narrow[0], mu[0], &factor),
                     BRAKE_OK);
    assert_near(factor, point[1] + point[0] * (0.09 + point[1] * 0.14) / 0.11, 1e-7);
    /* Either may grab. */
    assert_int_equal(brake_drum_factor_servo(&shoe, 0.3, &shoe, 5.0, &factor), BRAKE_E_SELF_LOCK);
    assert_nan(factor);
    assert_int_equal(brake_drum_factor_servo(&shoe, 5.0, &shoe, 0.3, &factor), BRAKE_E_SELF_LOCK);
    assert_int_equal(brake_drum_factor_servo(&shoe, 0.3, &shoe, BRAKE_NAN, &factor), BRAKE_E_RANGE);
}

static const struct brake_drum rear = {
    .area = 2.4e-4, .radius = 0.14, .factor = 2.0, .efficiency = 0.95, .threshold = 0.3e6};

static void drum_torque_goes_with_the_pressure_above_the_return_springs(void **state)
{
    (void)state;
    /* 2.0 x 0.95 x (5 - 0.3) MPa x 2.4e-4 m2 x 0.14 m (Limpert, ch. 2) */
    assert_near(brake_drum_torque(&rear, 5e6), 300.048, ROUNDING);
    assert_near(brake_drum_torque(&rear, 9.7e6), 600.096, ROUNDING);
    struct brake_drum other = rear;
    other.area *= 2.0;
    assert_near(brake_drum_torque(&other, 5e6), 600.096, ROUNDING);
    assert_equal(brake_drum_torque(&rear, 0.3e6), 0.0);
    assert_equal(brake_drum_torque(&rear, 0.1e6), 0.0);
    assert_nan(brake_drum_torque(&rear, BRAKE_NAN));
    other = rear;
    other.threshold = BRAKE_NAN;
    assert_nan(brake_drum_torque(&other, 5e6));
}

/* Of drums but a duo-servo the second shoe is never looked at. */
static void only_a_servo_asks_its_second_shoe(void **state)
{
    (void)state;
    const struct brake_shoe none = {BRAKE_NAN, BRAKE_NAN, BRAKE_NAN, BRAKE_NAN, BRAKE_NAN};
    static const enum brake_shoes simple[] = {BRAKE_LEADING_TRAILING, BRAKE_TWO_LEADING};
    for (int i = 0; i < 2; i++) {
        const struct drum_shape drum = brake_drum_shape(simple[i], &shoe, &none);
        double factor;
        double expected;
        assert_int_equal(brake_drum_shape_factor(&drum, 0.35, BRAKE_NAN, &factor), BRAKE_OK);
        assert_int_equal(brake_drum_factor_shape(&shoe, simple[i], 0.35, &expected), BRAKE_OK);
        assert_equal(factor, expected);
    }
    const struct drum_shape servo = brake_drum_shape(BRAKE_DUO_SERVO, &shoe, &none);
    double factor;
    assert_int_equal(brake_drum_shape_factor(&servo, 0.35, 0.35, &factor), BRAKE_E_RANGE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_moments_are_those_of_a_sine_shaped_pressure),
        cmocka_unit_test(the_factor_is_the_drag_that_the_moment_balance_allows),
        cmocka_unit_test(pressure_and_factor_tell_the_same_torque),
        cmocka_unit_test(a_long_shoe_cut_short_tends_to_the_short_shoe),
        cmocka_unit_test(a_small_drum_of_the_same_shape_has_the_same_factor),
        cmocka_unit_test(without_a_friction_arm_leading_and_trailing_are_alike),
        cmocka_unit_test(a_leading_shoe_gains_more_with_friction_than_a_trailing_one),
        cmocka_unit_test(a_short_leading_shoe_that_locks_has_no_factor),
        cmocka_unit_test(a_long_leading_shoe_that_locks_is_refused),
        cmocka_unit_test(a_pivot_outside_the_drum_lets_the_trailing_shoe_lock),
        cmocka_unit_test(a_shoe_out_of_range_is_refused),
        cmocka_unit_test(the_arrangement_of_the_shoes_makes_the_brake_factor),
        cmocka_unit_test(the_brake_factor_of_a_shape_is_that_of_its_shoes),
        cmocka_unit_test(the_secondary_shoe_has_its_own_lining),
        cmocka_unit_test(drum_torque_goes_with_the_pressure_above_the_return_springs),
        cmocka_unit_test(only_a_servo_asks_its_second_shoe),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
