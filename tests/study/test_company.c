/* SPDX-License-Identifier: MIT */
/* Fade procedures of random vehicles: alone they are to the bit what they are beside others, with
 * long steps they are what they are with short ones, and no energy is lost. The vehicles are those
 * of the tests and the Heron, every tolerance drawn at once. VEHICLES of the environment: how many;
 * `make check-company` takes 10,000. */
#include <glob.h>
#include <stdlib.h>

#include "figures.h"

#include "model/braking_lanes.h"
#include "study/inputs.h"
#include "study/procedure.h"

enum { FILES = 64 };

static struct brake_sheet sheets[FILES];
static struct brake_inputs inputs[FILES];
static int files;

static void read_files(const char *pattern)
{
    glob_t found;
    assert_int_equal(glob(pattern, 0, NULL, &found), 0);
    for (size_t i = 0; i < found.gl_pathc && files < FILES; i++) {
        struct brake_error error;
        FILE *stream = fopen(found.gl_pathv[i], "rb");
        assert_non_null(stream);
        const bool read = brake_file_read(stream, &sheets[files], &error) == BRAKE_OK &&
                          brake_sheet_complete(&sheets[files], &error) == BRAKE_OK;
        fclose(stream);
        if (read) {
            brake_inputs_list(&sheets[files], NULL, &inputs[files]);
            files++;
        }
    }
    globfree(&found);
}

/* Eight at a time: their vehicles, and their procedures in every way. */
struct company {
    struct brake_vehicle vehicle[BRAKE_TOGETHER];
    const struct brake_vehicle *all[BRAKE_TOGETHER];
    struct brake_fade alone[BRAKE_TOGETHER];
    struct brake_fade beside[BRAKE_TOGETHER];
    struct brake_fade exact[BRAKE_TOGETHER]; /* with short steps */
};

static struct company company;

static void draw(struct cases *cases)
{
    for (int i = 0; i < BRAKE_TOGETHER; i++) {
        static double share[BRAKE_INPUTS];
        const int file = (int)any_between(cases, 0.0, files);
        for (int j = 0; j < brake_inputs_count(&inputs[file]); j++)
            share[j] = any_between(cases, 1e-6, 1.0 - 1e-6);
        brake_inputs_vehicle(&inputs[file], share, &company.vehicle[i]);
        company.all[i] = &company.vehicle[i];
    }
}

static void take(void *context, int number, const struct brake_fade *fade)
{
    struct brake_fade *to = context;
    to[number] = *fade;
}

static void run(enum brake_fade_kind kind)
{
    const struct brake_fades beside = {
        company.all, BRAKE_TOGETHER, kind,          BRAKE_FADE_STOPS | BRAKE_FADE_DESCENT,
        true,        take,           company.beside};
    const struct brake_fades exact = {company.all, BRAKE_TOGETHER, kind,         BRAKE_FADE_WHOLE,
                                      false,       take,           company.exact};
    brake_fade_run_all(&beside);
    brake_fade_run_all(&exact);
    for (int i = 0; i < BRAKE_TOGETHER; i++) {
        const struct brake_fades one = {
            &company.all[i],  1, kind, BRAKE_FADE_STOPS | BRAKE_FADE_DESCENT, true, take,
            &company.alone[i]};
        brake_fade_run_all(&one);
    }
}

/* Whether a stop counts in one and not in the other: the fluid is at its boiling point, or the
 * snubs are barely held. */
static bool at_the_verge(const struct brake_hot_figures *a, const struct brake_hot_figures *b)
{
    bool differs = a->lacks != b->lacks;
    for (int i = 0; i < 2; i++)
        differs = differs || isinf(a->hot[i].distance) != isinf(b->hot[i].distance);
    return differs || isinf(a->recovery.distance) != isinf(b->recovery.distance);
}

/* Largest difference of a margin. */
static double difference(enum brake_fade_kind kind, int i)
{
    double most = 0.0;
    for (int j = 0; j < brake_criterion_count(); j++) {
        const struct brake_criterion *c = brake_criterion_at(j);
        struct brake_judgement beside;
        struct brake_judgement exact;
        if (!brake_measure_hot(c->measure) || c->fade != kind)
            continue;
        brake_judge_hot(c, &company.vehicle[i], &company.beside[i].figures, &beside);
        brake_judge_hot(c, &company.vehicle[i], &company.exact[i].figures, &exact);
        assert_int_equal(isfinite(beside.margin), isfinite(exact.margin));
        if (isfinite(exact.margin))
            most = fmax(most, fabs(beside.margin - exact.margin));
    }
    return most;
}

static int vehicles(void)
{
    const char *wanted = getenv("VEHICLES");
    return wanted != NULL ? atoi(wanted) : 48;
}

static void alone_or_in_company_by_long_steps_or_short(void **state)
{
    (void)state;
    struct cases cases = {17};
    int judged = 0;
    int verges = 0;
    double most = 0.0;
    double residual = 0.0;
    for (int done = 0; done < vehicles(); done += BRAKE_TOGETHER) {
        const enum brake_fade_kind kind =
            (enum brake_fade_kind)any_between(&cases, 0.0, BRAKE_FADES);
        draw(&cases);
        run(kind);
        for (int i = 0; i < BRAKE_TOGETHER; i++) {
            assert_same_figures(&company.alone[i].figures, &company.beside[i].figures);
            judged += company.exact[i].figures.lacks == NULL;
            residual = fmax(residual, company.exact[i].residual);
            if (at_the_verge(&company.beside[i].figures, &company.exact[i].figures)) {
                verges++;
                continue;
            }
            most = fmax(most, difference(kind, i));
        }
    }
    print_message("%d vehicles, %d go through; margins differ by %.2g at most, %d at a verge; "
                  "energy astray %.2g\n",
                  vehicles(), judged, most, verges, residual);
    assert_true(2 * judged > vehicles());
    assert_true(100 * verges <= judged);
    assert_true(most < 0.002); /* 10,000 of them, by make check-company */
    assert_true(residual < 1e-9);
}

/* Of all distances and decelerations. */
static double apart(const struct brake_hot_figures *a, const struct brake_hot_figures *b)
{
    const struct brake_hot_stop one[] = {a->cold, a->hot[0], a->hot[1], a->recovery};
    const struct brake_hot_stop other[] = {b->cold, b->hot[0], b->hot[1], b->recovery};
    double most = 0.0;
    for (int i = 0; i < 4; i++) {
        assert_int_equal(isinf(one[i].distance), isinf(other[i].distance));
        if (isinf(one[i].distance))
            continue;
        most = fmax(most, fabs(other[i].distance / one[i].distance - 1.0));
        most = fmax(most, fabs(other[i].developed / one[i].developed - 1.0));
    }
    return most;
}

static void run_one(const struct brake_vehicle *vehicle, bool coarse, struct brake_fade *fade)
{
    const struct brake_fades one = {
        &vehicle, 1, brake_fade_own(vehicle), BRAKE_FADE_WHOLE, coarse, take, fade};
    brake_fade_run_all(&one);
}

/* Steps have no jumps. While pads touched by less than 1e-6 W, and a corner 1e-13 s before the end
 * of the pedal's rise was another step, these moved by up to 2e-7, with long steps by 2e-6. */
static void a_hair_more_tyre_moves_a_figure_by_a_hair(void **state)
{
    (void)state;
    for (int i = 0; i < 2 * files; i++) {
        static struct brake_fade as_it_is;
        static struct brake_fade moved;
        struct brake_vehicle vehicle = sheets[i / 2].vehicle;
        run_one(&vehicle, i % 2 == 0, &as_it_is);
        for (int axle = 0; axle < BRAKE_AXLES; axle++)
            vehicle.axle[axle].tyre.rolling_radius *= 1.0 + 1e-11;
        run_one(&vehicle, i % 2 == 0, &moved);
        assert_true(as_it_is.figures.lacks == moved.figures.lacks);
        if (as_it_is.figures.lacks != NULL)
            continue;
        const double by = apart(&as_it_is.figures, &moved.figures);
        if (!(by < 1e-9))
            print_error("%s: %g\n", vehicle.general.name, by);
        assert_true(by < 1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_hair_more_tyre_moves_a_figure_by_a_hair),
        cmocka_unit_test(alone_or_in_company_by_long_steps_or_short),
    };
    read_files(SOURCE_ROOT "/tests/vehicles/*.ini");
    read_files(SOURCE_ROOT "/examples/*.ini");
    return cmocka_run_group_tests(tests, NULL, NULL);
}
