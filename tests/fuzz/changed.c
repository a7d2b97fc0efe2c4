/* SPDX-License-Identifier: MIT */
/* Random vehicles: lines of vehicles of the tree set to anything that the catalogue takes, or left
 * out. What is accepted keeps what no vehicle may break. The first byte says which vehicle, each
 * three that follow which line and what becomes of it. */
#include "fuzz.h"

#include "brake/duty.h"
#include "study/assess.h"
#include "study/conformance.h"

static struct brake_sheet read_sheet, sheet, other;
static struct brake_results results, others;

static double result(const struct brake_results *of, const char *path)
{
    const int index = brake_result_find(path);
    MUST(index >= 0);
    return brake_result_value(of, index);
}

/* ---- changing lines -------------------------------------------------------------------------- */

static void leave_out(int index)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    double *value = (double *)(uintptr_t)brake_quantity_seen(&read_sheet.vehicle, index);
    if (q->kind != BRAKE_REAL)
        return;
    *value = BRAKE_NAN;
    read_sheet.record[index] = (struct brake_record){.from = BRAKE_ABSENT};
}

static void choose(int index, unsigned char which)
{
    struct brake_error error;
    char path[160], setting[240];
    const struct brake_quantity *q = brake_quantity_at(index);
    int count = 0;
    while (q->choices[count] != NULL)
        count++;
    brake_catalogue_path(&read_sheet.vehicle, index, path, sizeof path);
    snprintf(setting, sizeof setting, "%s=%s", path, q->choices[which % count]);
    MUST(accepted(brake_file_set(&read_sheet, setting, &error), &error));
}

/* Low, high, between them by equal steps or by equal ratios, left out. */
static void change(int index, unsigned char how, unsigned char share)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    const double part = share / 255.0;
    double value = q->low + part * (q->high - q->low);
    if (q->kind == BRAKE_CHOICE && how % 4 != 3)
        choose(index, share);
    if (q->kind != BRAKE_REAL)
        return;
    if (how % 4 == 3) {
        leave_out(index);
        return;
    }
    if (how % 4 != 0 && q->low > 0.0)
        value = q->low * pow(q->high / q->low, part);
    if (how % 4 == 2 && read_sheet.record[index].from > BRAKE_DEFAULT)
        value = brake_quantity_value(&read_sheet.vehicle, index) * (0.5 + part);
    (void)brake_sheet_set(&read_sheet, index, value);
}

/* ---- what no vehicle may break --------------------------------------------------------------- */

static bool evaluated(struct brake_sheet *of, struct brake_results *into)
{
    struct brake_error error;
    if (!accepted(brake_sheet_complete(of, &error), &error))
        return false;
    brake_evaluate(&of->vehicle, into);
    return true;
}

/* What is infinite is a grade that a wall would not end, a pressure that nothing reaches. */
static void numbers(void)
{
    for (int i = 0; i < brake_result_all(); i++)
        MUST(!(brake_result_value(&results, i) <= -BRAKE_INFINITY));
    const double total = result(&results, "full.mass.total");
    const double axles =
        result(&results, "full.mass.front_axle") + result(&results, "full.mass.rear_axle");
    MUST(fabs(axles - total) <= 1e-9 * total);
}

/* More of a line gives no less of a result. */
static void rises(const char *line, const char *path)
{
    const int index = brake_catalogue_find(NULL, line);
    other = sheet;
    if (brake_sheet_set(&other, index, 1.1 * brake_quantity_value(&sheet.vehicle, index)) !=
            BRAKE_OK ||
        !evaluated(&other, &others))
        return;
    const double less = result(&results, path);
    const double more = result(&others, path);
    MUST(isnan(less) || isnan(more) || more >= less - 1e-9 * fabs(less));
}

static void one_stop(void)
{
    static struct brake_hot_rig hot;
    struct brake_error error;
    struct brake_duty_result made;
    const struct brake_duty duty = {
        .kind = BRAKE_DUTY_STOPS,
        .stops = {1, 25.0, 0.0, 0.0, BRAKE_AT_INCIPIENT_LOCK, 0.0, NULL},
        .force = 500.0};
    if (!accepted(brake_hot_rig_build(&sheet.vehicle, BRAKE_FULL, &hot, &error), &error) ||
        brake_duty_run(&hot, &duty, NULL, &made) != BRAKE_OK)
        return;
    MUST(made.residual <= 1e-9);
    for (int i = 0; i < BRAKE_AXLES; i++)
        MUST(made.axle[i].energy >= 0.0 && made.axle[i].face_most >= made.axle[i].mean_last - 1e-6);
}

static void words(void)
{
    static struct brake_assessment a;
    static struct brake_conformance_room room;
    brake_assess(&sheet, BRAKE_RULES_OWN, &a);
    MUST(brake_assess_conformance(&sheet, false, NULL, &room, &a));
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_conformance *c = &a.conformance.of[i];
        if (c->samples == 0)
            continue;
        MUST(c->met_low >= 0.0 && c->met_low <= c->met && c->met <= c->met_high);
        MUST(c->met_high <= 1.0);
        MUST(a.judgement[i].verdict != BRAKE_MEETS || c->met >= 0.95);
        MUST(a.judgement[i].verdict == BRAKE_FALLS_SHORT || c->met >= 0.5);
    }
}

/* `rarely`: thousands of samples, and bytes that reach them have many offspring. */
static void look(unsigned char how, bool rarely)
{
    numbers();
    rises("driver.pedal_force", "full.deceleration.at_pedal_force");
    rises("driver.pedal_force_most", "full.deceleration.brakes_alone");
    rises("front.disc.pads.mu", "brakes.front_torque_gain");
    if (how % 16 == 0)
        one_stop();
    if (how == 1 && rarely)
        words();
}

static unsigned sum(const uint8_t *data, size_t size)
{
    unsigned all = 0;
    for (size_t i = 0; i < size; i++)
        all += data[i];
    return all;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static struct brake_sheet kept[4];
    static const char *const names[] = {"examples/heron.ini", "tests/vehicles/stoat-stock.ini",
                                        "tests/vehicles/tapir-camper.ini",
                                        "tests/vehicles/marten-stock.ini"};
    if (size < 1)
        return 0;
    const int which = data[0] % 4;
    if (kept[which].vehicle.general.mass == 0.0)
        read_tree(names[which], &kept[which]);
    read_sheet = kept[which];
    for (size_t at = 1; at + 3 < size; at += 4)
        change((data[at] * 256 + data[at + 1]) % brake_catalogue_count(), data[at + 2],
               data[at + 3]);
    sheet = read_sheet;
    if (evaluated(&sheet, &results))
        look(data[0] / 4, sum(data, size) % 32 == 8);
    return 0;
}
