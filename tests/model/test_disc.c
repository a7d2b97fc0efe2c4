/* SPDX-License-Identifier: MIT */
/* Disc brakes: effective radius of a pad, clamp, torque. */
#include "near.h"

#include "brake/disc.h"

enum { MOST_CORNERS = 2050 };

static const enum brake_contact laws[] = {BRAKE_UNIFORM_PRESSURE, BRAKE_UNIFORM_WEAR};

static double polygon_radius(const struct brake_point *corner, int count,
                             enum brake_contact contact)
{
    double radius;
    assert_int_equal(brake_radius_polygon(corner, count, contact, &radius), BRAKE_OK);
    return radius;
}

/* An annular sector with each arc cut into straight edges. */
static int cut_sector(double inner, double outer, double arc, int edges, struct brake_point *corner)
{
    int count = 0;
    for (int i = 0; i <= edges; i++) {
        const double angle = arc * (i / (double)edges - 0.5);
        const struct brake_point at = {outer * cos(angle), outer * sin(angle)};
        corner[count++] = at;
    }
    for (int i = edges; i >= 0; i--) {
        const double angle = arc * (i / (double)edges - 0.5);
        const struct brake_point at = {inner * cos(angle), inner * sin(angle)};
        corner[count++] = at;
    }
    return count;
}

/* Shigley, sec. 16-6. */
static void a_bedded_sector_pad_acts_at_the_middle_radius(void **state)
{
    (void)state;
    assert_near(brake_radius_sector(0.1, 0.15, BRAKE_UNIFORM_WEAR), 0.125, ROUNDING);
    /* (2/3)(0.15^3 - 0.1^3)/(0.15^2 - 0.1^2) = 0.019/0.15 */
    assert_near(brake_radius_sector(0.1, 0.15, BRAKE_UNIFORM_PRESSURE), 0.019 / 0.15, ROUNDING);
    /* A full disc: two thirds of the radius. */
    assert_near(brake_radius_sector(0.0, 0.15, BRAKE_UNIFORM_PRESSURE), 0.1, ROUNDING);
}

static void both_laws_meet_on_a_narrow_band(void **state)
{
    (void)state;
    const double wear = brake_radius_sector(0.12, 0.12 * (1.0 + 1e-6), BRAKE_UNIFORM_WEAR);
    const double even = brake_radius_sector(0.12, 0.12 * (1.0 + 1e-6), BRAKE_UNIFORM_PRESSURE);
    assert_near(even, wear, 1e-12);
    assert_true(even >= wear);
}

static void a_sector_without_area_has_no_radius(void **state)
{
    (void)state;
    for (int law = 0; law < 2; law++) {
        assert_nan(brake_radius_sector(0.1, 0.1, laws[law]));
        assert_nan(brake_radius_sector(0.15, 0.1, laws[law]));
        assert_nan(brake_radius_sector(-0.1, 0.1, laws[law]));
        assert_nan(brake_radius_sector(BRAKE_NAN, 0.1, laws[law]));
        assert_nan(brake_radius_sector(0.1, BRAKE_NAN, laws[law]));
    }
}

/* Chords cut an arc of angle d off by a part d^2, so the error falls by four when edges double. */
static void a_finely_cut_sector_tends_to_the_sector_at_second_order(void **state)
{
    (void)state;
    static struct brake_point corner[MOST_CORNERS];
    for (int law = 0; law < 2; law++) {
        const double exact = brake_radius_sector(0.08, 0.14, laws[law]);
        double last = 0.0;
        for (int edges = 8; edges <= 1024; edges *= 2) {
            const int count = cut_sector(0.08, 0.14, 1.2, edges, corner);
            const double error = fabs(polygon_radius(corner, count, laws[law]) - exact);
            if (last > 0.0)
                assert_between(last / error, 3.98, 4.02);
            last = error;
        }
        assert_true(last < 3e-7 * exact);
    }
}

static void scale_outline(struct brake_point *corner, int count, double factor)
{
    for (int i = 0; i < count; i++) {
        corner[i].x *= factor;
        corner[i].y *= factor;
    }
}

static void turning_the_outline_about_the_axle_changes_nothing(void **state)
{
    (void)state;
    struct brake_point corner[64];
    struct brake_point turned[64];
    const int count = cut_sector(0.08, 0.14, 1.2, 5, corner);
    for (int law = 0; law < 2; law++) {
        const double radius = polygon_radius(corner, count, laws[law]);
        for (double angle = 0.0; angle < 6.3; angle += 0.1) {
            for (int i = 0; i < count; i++) {
                turned[i].x = corner[i].x * cos(angle) - corner[i].y * sin(angle);
                turned[i].y = corner[i].x * sin(angle) + corner[i].y * cos(angle);
            }
            assert_near(polygon_radius(turned, count, laws[law]), radius, ROUNDING);
        }
        scale_outline(corner, count, 1000.0);
        assert_near(polygon_radius(corner, count, laws[law]), 1000.0 * radius, ROUNDING);
        scale_outline(corner, count, 1e-3);
    }
}

static void the_sense_and_the_first_corner_of_the_outline_change_nothing(void **state)
{
    (void)state;
    struct brake_point corner[64];
    struct brake_point other[64];
    const int count = cut_sector(0.08, 0.14, 1.2, 5, corner);
    for (int law = 0; law < 2; law++) {
        const double radius = polygon_radius(corner, count, laws[law]);
        for (int first = 0; first < count; first++) {
            for (int i = 0; i < count; i++)
                other[i] = corner[(first + i) % count];
            assert_near(polygon_radius(other, count, laws[law]), radius, ROUNDING);
            for (int i = 0; i < count; i++)
                other[i] = corner[(first + count - i) % count];
            assert_near(polygon_radius(other, count, laws[law]), radius, ROUNDING);
        }
    }
}

static void a_corner_given_twice_changes_nothing(void **state)
{
    (void)state;
    const struct brake_point once[] = {{0.08, -0.03}, {0.14, -0.04}, {0.14, 0.04}, {0.08, 0.03}};
    const struct brake_point twice[] = {{0.08, -0.03}, {0.14, -0.04}, {0.14, -0.04},
                                        {0.14, 0.04},  {0.08, 0.03},  {0.08, 0.03}};
    for (int law = 0; law < 2; law++)
        assert_near(polygon_radius(twice, 6, laws[law]), polygon_radius(once, 4, laws[law]),
                    ROUNDING);
}

static void three_corners_are_enough(void **state)
{
    (void)state;
    /* A diagonal cuts the pad in two: areas and moments of the parts add up. */
    const struct brake_point whole[] = {{0.08, -0.03}, {0.14, -0.04}, {0.14, 0.04}, {0.08, 0.03}};
    const struct brake_point lower[] = {{0.08, -0.03}, {0.14, -0.04}, {0.14, 0.04}};
    const struct brake_point upper[] = {{0.08, -0.03}, {0.14, 0.04}, {0.08, 0.03}};
    const double lower_area = 0.08 * 0.06 / 2.0;
    const double upper_area = 0.06 * 0.06 / 2.0;
    const double together = (lower_area * polygon_radius(lower, 3, BRAKE_UNIFORM_PRESSURE) +
                             upper_area * polygon_radius(upper, 3, BRAKE_UNIFORM_PRESSURE)) /
                            (lower_area + upper_area);
    assert_near(polygon_radius(whole, 4, BRAKE_UNIFORM_PRESSURE), together, ROUNDING);
    /* 1/r adds up where r does not. */
    const double inverse = (lower_area / polygon_radius(lower, 3, BRAKE_UNIFORM_WEAR) +
                            upper_area / polygon_radius(upper, 3, BRAKE_UNIFORM_WEAR)) /
                           (lower_area + upper_area);
    assert_near(polygon_radius(whole, 4, BRAKE_UNIFORM_WEAR), 1.0 / inverse, ROUNDING);
}

/* Simpson's rule over a rectangle for r^power. */
static double integral_over(double inner, double outer, double width, double power)
{
    const int cells = 400;
    double sum = 0.0;
    for (int i = 0; i <= cells; i++) {
        for (int j = 0; j <= cells; j++) {
            const double wi = i == 0 || i == cells ? 1.0 : (i % 2 ? 4.0 : 2.0);
            const double wj = j == 0 || j == cells ? 1.0 : (j % 2 ? 4.0 : 2.0);
            const double x = inner + (outer - inner) * i / cells;
            const double y = width * (j / (double)cells - 0.5);
            sum += wi * wj * pow(hypot(x, y), power);
        }
    }
    return sum * (outer - inner) * width / (9.0 * cells * cells);
}

static int cut_circle(double pad, double centre, int edges, struct brake_point *corner)
{
    for (int i = 0; i < edges; i++) {
        const double angle = 2.0 * BRAKE_PI * i / edges;
        corner[i] = (struct brake_point){centre + pad * cos(angle), pad * sin(angle)};
    }
    return edges;
}

/* A circle cut into chords is smaller by a part of the square of their angle. */
static void a_finely_cut_circle_tends_to_the_circle_at_second_order(void **state)
{
    (void)state;
    static struct brake_point corner[MOST_CORNERS];
    for (double ratio = 0.05; ratio <= 0.5; ratio += 0.05) {
        const double exact = brake_radius_circle(0.12 * ratio, 0.12, BRAKE_UNIFORM_PRESSURE);
        double last = 0.0;
        for (int edges = 16; edges <= 512; edges *= 2) {
            cut_circle(0.12 * ratio, 0.12, edges, corner);
            const double error =
                fabs(polygon_radius(corner, edges, BRAKE_UNIFORM_PRESSURE) - exact);
            if (last > 0.0)
                assert_between(last / error, 3.9, 4.1);
            last = error;
        }
        assert_true(last < 1e-5 * exact);
    }
}

/* Shigley's table, from memory, beside the integrals of its own assumption: below them by 1.6 % of
 * a small pad to 3.3 % (at R/e 0.4). Its two columns go together as p r = constant asks. */
static void the_table_of_circular_pads_lies_below_the_integral(void **state)
{
    (void)state;
    static const double table[][3] = {{0.0, 1.000, 1.000}, {0.1, 0.983, 1.093},
                                      {0.2, 0.969, 1.212}, {0.3, 0.957, 1.367},
                                      {0.4, 0.947, 1.578}, {0.5, 0.938, 1.875}};
    static struct brake_point corner[MOST_CORNERS];
    for (int i = 1; i < 6; i++) {
        const double pad = 0.1 * table[i][0];
        const double radius = brake_radius_circle(pad, 0.1, BRAKE_UNIFORM_WEAR);
        assert_near(radius, 0.1 * table[i][1], ROUNDING);
        cut_circle(pad, 0.1, 1024, corner);
        assert_between(radius / polygon_radius(corner, 1024, BRAKE_UNIFORM_WEAR), 0.967, 0.985);
        const double mean = 1.0 / (BRAKE_PI * pad * pad);
        assert_near(brake_circle_pressure(1.0, pad, 0.1, BRAKE_UNIFORM_PRESSURE), mean, 1e-12);
        assert_near(brake_circle_pressure(1.0, pad, 0.1, BRAKE_UNIFORM_WEAR) / mean, table[i][2],
                    1e-12);
        assert_near(table[i][2], table[i][1] / (1.0 - table[i][0]), 1.2e-3); /* both rounded */
    }
    assert_near(brake_radius_circle(0.025, 0.1, BRAKE_UNIFORM_WEAR), 0.0963, ROUNDING);
}

static void a_circle_beyond_the_table_has_no_radius(void **state)
{
    (void)state;
    static const double circles[][2] = {{0.0, 0.1},  {-0.02, 0.1},      {0.0501, 0.1},
                                        {0.02, 0.0}, {0.02, BRAKE_NAN}, {BRAKE_NAN, 0.1}};
    for (size_t i = 0; i < sizeof circles / sizeof circles[0]; i++) {
        for (int law = 0; law < 2; law++) {
            assert_nan(brake_radius_circle(circles[i][0], circles[i][1], laws[law]));
            assert_nan(brake_circle_pressure(1.0, circles[i][0], circles[i][1], laws[law]));
        }
    }
}

/* The definitions of the two laws, integrated over a grid. */
static void a_rectangle_agrees_with_the_integrals_of_the_definition(void **state)
{
    (void)state;
    const double outer = 0.14;
    const double height = 0.05;
    const double width = 0.11;
    const double area = height * width;
    double radius;
    assert_int_equal(brake_radius_rectangle(outer, height, width, BRAKE_UNIFORM_PRESSURE, &radius),
                     BRAKE_OK);
    assert_near(radius, integral_over(outer - height, outer, width, 1.0) / area, 1e-10);
    assert_int_equal(brake_radius_rectangle(outer, height, width, BRAKE_UNIFORM_WEAR, &radius),
                     BRAKE_OK);
    assert_near(radius, area / integral_over(outer - height, outer, width, -1.0), 1e-10);
}

static void a_slender_rectangle_acts_as_a_strip(void **state)
{
    (void)state;
    for (int law = 0; law < 2; law++) {
        double radius;
        assert_int_equal(brake_radius_rectangle(0.14, 0.06, 1e-6, laws[law], &radius), BRAKE_OK);
        /* A strip has no more area outside than inside, unlike a sector: under even pressure it
         * acts at its middle, under wear at the logarithmic mean (integral of dr / r). */
        const double middle = laws[law] == BRAKE_UNIFORM_WEAR ? 0.06 / log(0.14 / 0.08) : 0.11;
        assert_near(radius, middle, 1e-9);
    }
}

static void a_rectangle_may_touch_the_axle_but_not_hold_it(void **state)
{
    (void)state;
    for (int law = 0; law < 2; law++) {
        double touching;
        double near;
        assert_int_equal(brake_radius_rectangle(0.1, 0.1, 0.08, laws[law], &touching), BRAKE_OK);
        assert_int_equal(brake_radius_rectangle(0.1 + 1e-12, 0.1, 0.08, laws[law], &near),
                         BRAKE_OK);
        assert_near(touching, near, 1e-9);
        double refused = 1.0;
        assert_int_equal(brake_radius_rectangle(0.09, 0.1, 0.08, laws[law], &refused),
                         BRAKE_E_SHAPE);
        assert_nan(refused);
    }
}

static void a_rectangle_without_area_is_refused(void **state)
{
    (void)state;
    static const double sides[][3] = {
        {0.1, 0.0, 0.05},        {0.1, -0.05, 0.05},     {0.1, 0.05, 0.0},       {0.1, 0.05, -0.05},
        {BRAKE_NAN, 0.05, 0.05}, {0.1, BRAKE_NAN, 0.05}, {0.1, 0.05, BRAKE_NAN},
    };
    for (size_t i = 0; i < sizeof sides / sizeof sides[0]; i++) {
        double radius = 1.0;
        assert_int_equal(brake_radius_rectangle(sides[i][0], sides[i][1], sides[i][2],
                                                BRAKE_UNIFORM_WEAR, &radius),
                         BRAKE_E_SHAPE);
        assert_nan(radius);
    }
}

/* The mean of r is never below the harmonic mean. */
static void a_bedded_pad_never_acts_further_out_than_a_new_one(void **state)
{
    (void)state;
    struct cases cases = {5};
    for (int i = 0; i < 500; i++) {
        struct brake_point corner[4];
        const double inner = any_between(&cases, 0.02, 0.1);
        const double outer = inner + any_between(&cases, 0.01, 0.1);
        corner[0].x = inner;
        corner[0].y = -any_between(&cases, 0.01, 0.05);
        corner[1].x = outer;
        corner[1].y = -any_between(&cases, 0.01, 0.08);
        corner[2].x = outer;
        corner[2].y = any_between(&cases, 0.01, 0.08);
        corner[3].x = inner;
        corner[3].y = any_between(&cases, 0.01, 0.05);
        const double even = polygon_radius(corner, 4, BRAKE_UNIFORM_PRESSURE);
        const double bedded = polygon_radius(corner, 4, BRAKE_UNIFORM_WEAR);
        assert_between(bedded, inner, even);
        assert_true(even < hypot(outer, 0.08));
    }
}

static void hold_refused(const struct brake_point *corner, int count)
{
    for (int law = 0; law < 2; law++) {
        double radius = 1.0;
        assert_int_equal(brake_radius_polygon(corner, count, laws[law], &radius), BRAKE_E_SHAPE);
        assert_nan(radius);
    }
}

static void an_outline_that_is_no_pad_is_refused(void **state)
{
    (void)state;
    const struct brake_point pad[] = {{0.08, -0.03}, {0.14, -0.04}, {0.14, 0.04}, {0.08, 0.03}};
    hold_refused(pad, 0);
    hold_refused(pad, 1);
    hold_refused(pad, 2);
    const struct brake_point line[] = {{0.08, 0.01}, {0.10, 0.01}, {0.14, 0.01}};
    hold_refused(line, 3);
    const struct brake_point through_axle[] = {{0.01, 0.01}, {0.02, 0.02}, {0.03, 0.03}};
    hold_refused(through_axle, 3);
    const struct brake_point round_axle[] = {{-0.1, -0.1}, {0.1, -0.1}, {0.1, 0.1}, {-0.1, 0.1}};
    hold_refused(round_axle, 4);
    const struct brake_point missing[] = {{0.08, -0.03}, {BRAKE_NAN, -0.04}, {0.14, 0.04}};
    hold_refused(missing, 3);
    const struct brake_point endless[] = {{0.08, -0.03}, {BRAKE_INFINITY, 0.0}, {0.08, 0.03}};
    hold_refused(endless, 3);
}

/* A horseshoe round the axle leaves it outside. */
static void an_outline_may_reach_round_the_axle(void **state)
{
    (void)state;
    static struct brake_point corner[MOST_CORNERS];
    const int count = cut_sector(0.08, 0.14, 5.5, 1000, corner);
    for (int law = 0; law < 2; law++)
        assert_near(polygon_radius(corner, count, laws[law]),
                    brake_radius_sector(0.08, 0.14, laws[law]), 1e-5);
}

/* Shigley, sec. 16-6: a half ring pushes at (2/pi) of its radius, a whole one on the axle. */
static void the_clamp_force_acts_further_in_than_the_friction(void **state)
{
    (void)state;
    assert_near(brake_sector_force_radius(0.1, 0.2, BRAKE_PI, BRAKE_UNIFORM_WEAR),
                0.15 * 2.0 / BRAKE_PI, ROUNDING);
    assert_within(brake_sector_force_radius(0.1, 0.2, 2.0 * BRAKE_PI, BRAKE_UNIFORM_WEAR), 0.0,
                  1e-15);
    assert_near(brake_sector_force_radius(0.1, 0.2, 1e-4, BRAKE_UNIFORM_PRESSURE),
                brake_radius_sector(0.1, 0.2, BRAKE_UNIFORM_PRESSURE), 1e-9);
    assert_nan(brake_sector_force_radius(0.1, 0.2, BRAKE_NAN, BRAKE_UNIFORM_WEAR));
}

/* Shigley, sec. 16-6: force = area x pressure; under wear the pressure goes with 1/r. */
static void the_lining_pressure_carries_the_clamp_force(void **state)
{
    (void)state;
    const double inner = 0.08;
    const double outer = 0.14;
    const double arc = 1.0;
    const double even = brake_sector_pressure(10e3, inner, outer, arc, BRAKE_UNIFORM_PRESSURE);
    assert_near(even * arc * (outer * outer - inner * inner) / 2.0, 10e3, ROUNDING);
    const double peak = brake_sector_pressure(10e3, inner, outer, arc, BRAKE_UNIFORM_WEAR);
    assert_near(peak, even * 0.11 / inner, ROUNDING); /* mean radius over inner */
    assert_nan(brake_sector_pressure(BRAKE_NAN, inner, outer, arc, BRAKE_UNIFORM_WEAR));
}

static const struct brake_disc front = {
    .area = 2.3e-3, .radius = 0.12, .mu = 0.4, .efficiency = 0.97, .threshold = 0.05e6};

static void torque_goes_with_area_friction_radius_and_pressure(void **state)
{
    (void)state;
    const double torque = brake_disc_torque(&front, 5e6);
    /* 2 x 0.4 x (5 - 0.05) MPa x 0.97 x 2.3e-3 m2 x 0.12 m (Limpert, ch. 2) */
    assert_near(torque, 1060.17120, 1e-9);
    struct brake_disc other = front;
    other.area *= 2.0;
    assert_near(brake_disc_torque(&other, 5e6), 2.0 * torque, ROUNDING);
    other = front;
    other.mu /= 2.0;
    assert_near(brake_disc_torque(&other, 5e6), torque / 2.0, ROUNDING);
    other = front;
    other.radius *= 1.1;
    assert_near(brake_disc_torque(&other, 5e6), 1.1 * torque, ROUNDING);
    assert_near(brake_disc_torque(&front, 9.95e6), 2.0 * torque, ROUNDING);
}

static void below_the_threshold_nothing_is_clamped(void **state)
{
    (void)state;
    assert_equal(brake_disc_clamp(&front, 0.0), 0.0);
    assert_equal(brake_disc_clamp(&front, 0.05e6), 0.0);
    assert_equal(brake_disc_torque(&front, -1e6), 0.0);
    assert_near(brake_disc_clamp(&front, 1.05e6), 1e6 * 0.97 * 2.3e-3, ROUNDING);
}

static void a_missing_value_is_not_a_brake_that_does_nothing(void **state)
{
    (void)state;
    assert_nan(brake_disc_clamp(&front, BRAKE_NAN));
    assert_nan(brake_disc_torque(&front, BRAKE_NAN));
    struct brake_disc other = front;
    other.threshold = BRAKE_NAN;
    assert_nan(brake_disc_torque(&other, 5e6));
    other = front;
    other.mu = BRAKE_NAN;
    assert_nan(brake_disc_torque(&other, 5e6));
}

/* A radius is a length: of a pad a hundred thousand times smaller it is as much smaller. */
static void a_tiny_outline_has_a_tiny_radius(void **state)
{
    (void)state;
    struct brake_point corner[64];
    const int count = cut_sector(0.08, 0.14, 1.2, 5, corner);
    for (int law = 0; law < 2; law++) {
        const double radius = polygon_radius(corner, count, laws[law]);
        scale_outline(corner, count, 1e-5);
        assert_near(polygon_radius(corner, count, laws[law]), 1e-5 * radius, ROUNDING);
        scale_outline(corner, count, 1e5);
    }
}

/* Shigley, sec. 16-6: half way to the first line of the table, 0.983 and 1.093 at a tenth. */
static void a_small_circle_lies_between_a_point_and_the_table(void **state)
{
    (void)state;
    const double mean = 1.0 / (BRAKE_PI * 0.005 * 0.005);
    assert_near(brake_radius_circle(0.005, 0.1, BRAKE_UNIFORM_WEAR), 0.1 * (1.0 + 0.983) / 2.0,
                ROUNDING);
    assert_near(brake_circle_pressure(1.0, 0.005, 0.1, BRAKE_UNIFORM_WEAR),
                mean * (1.0 + 1.093) / 2.0, ROUNDING);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_bedded_sector_pad_acts_at_the_middle_radius),
        cmocka_unit_test(both_laws_meet_on_a_narrow_band),
        cmocka_unit_test(a_sector_without_area_has_no_radius),
        cmocka_unit_test(a_finely_cut_sector_tends_to_the_sector_at_second_order),
        cmocka_unit_test(turning_the_outline_about_the_axle_changes_nothing),
        cmocka_unit_test(the_sense_and_the_first_corner_of_the_outline_change_nothing),
        cmocka_unit_test(a_corner_given_twice_changes_nothing),
        cmocka_unit_test(three_corners_are_enough),
        cmocka_unit_test(a_finely_cut_circle_tends_to_the_circle_at_second_order),
        cmocka_unit_test(the_table_of_circular_pads_lies_below_the_integral),
        cmocka_unit_test(a_circle_beyond_the_table_has_no_radius),
        cmocka_unit_test(a_rectangle_agrees_with_the_integrals_of_the_definition),
        cmocka_unit_test(a_slender_rectangle_acts_as_a_strip),
        cmocka_unit_test(a_rectangle_may_touch_the_axle_but_not_hold_it),
        cmocka_unit_test(a_rectangle_without_area_is_refused),
        cmocka_unit_test(a_bedded_pad_never_acts_further_out_than_a_new_one),
        cmocka_unit_test(an_outline_that_is_no_pad_is_refused),
        cmocka_unit_test(an_outline_may_reach_round_the_axle),
        cmocka_unit_test(the_clamp_force_acts_further_in_than_the_friction),
        cmocka_unit_test(the_lining_pressure_carries_the_clamp_force),
        cmocka_unit_test(torque_goes_with_area_friction_radius_and_pressure),
        cmocka_unit_test(below_the_threshold_nothing_is_clamped),
        cmocka_unit_test(a_missing_value_is_not_a_brake_that_does_nothing),
        cmocka_unit_test(a_tiny_outline_has_a_tiny_radius),
        cmocka_unit_test(a_small_circle_lies_between_a_point_and_the_table),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
