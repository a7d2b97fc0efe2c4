/* SPDX-License-Identifier: MIT */
/* The answer of `shakedown`: the plan of the first drive, for print. */
#include <math.h>
#include <string.h>

#include "criteria/scope.h"
#include "parts.h"

enum { LOG_LINES = 12 };

static const struct brake_unit *unit(const char *name)
{
    return brake_unit_find(name);
}

static const char *whole(struct brake_document *d, double value, const char *name)
{
    return brake_document_amount(d, brake_cell_form(value, unit(name), BRAKE_WHOLE));
}

static const char *tenth(struct brake_document *d, double value, const char *name)
{
    return brake_document_amount(d, brake_cell_form(value, unit(name), BRAKE_ONE_DECIMAL));
}

static void list(struct brake_document *d, enum brake_rows rows, const char *const *line)
{
    static const struct brake_column column[] = {{NULL, "item", BRAKE_COLUMN}};
    brake_document_table(d, &(struct brake_table){.rows = rows, .column = column, .columns = 1});
    for (; *line != NULL; line++)
        brake_document_row(
            d, (const struct brake_cell[]){brake_cell_text(brake_document_told(d, *line))});
}

/* ---- what is known before it ----------------------------------------------------------------- */

static void short_row(struct brake_document *d, int index)
{
    const struct brake_criterion *c = brake_criterion_at(index);
    brake_document_row(
        d, (const struct brake_cell[]){brake_cell_text(c->id),
                                       brake_cell_text(brake_document_told(d, c->title))});
}

static void verdict(struct brake_document *d, const struct brake_sheet *sheet,
                    const struct brake_assessment *a, const struct brake_shakedown *plan)
{
    static const struct brake_column column[] = {{"id", NULL, BRAKE_COLUMN},
                                                 {"title", "falls short", BRAKE_COLUMN}};
    const char *words;
    unsigned bit;
    brake_document_section(d, "by_calculation", "By calculation");
    brake_document_fact(d, "verdict", NULL,
                        brake_cell_text(brake_verdict_words(a->ruling.verdict)));
    brake_document_say(d, NULL, "Verdict", brake_part_ruling(d, &sheet->vehicle, &a->ruling));
    for (int i = 0; brake_obstacle_at(i, &bit, &words) != NULL; i++) {
        if (plan->obstacles & bit)
            brake_document_say(d, NULL, "Against it", brake_document_words(d, "%s.", words));
    }
    brake_document_table(
        d,
        &(struct brake_table){
            .key = "falls_short",
            .caption = "What falls short, of hazards and of what binds. Until it is mended, this "
                       "vehicle is driven on the closed area only.",
            .none = "Nothing that counts falls short, as far as it could be judged.",
            .rows = BRAKE_ROWS_LISTED,
            .column = column,
            .columns = 2});
    for (int i = 0; i < brake_criterion_count(); i++) {
        const struct brake_judgement *j = &a->judgement[i];
        if (brake_scope_counts(j->scope) && j->verdict == BRAKE_FALLS_SHORT)
            short_row(d, i);
    }
    brake_document_end(d);
}

static void before(struct brake_document *d, const struct brake_sheet *sheet,
                   const struct brake_shakedown *plan)
{
    static const char *const lines[] = {
        "On a closed area only, level, dry, straight, with room to stop twice over at each speed "
        "and to run out; the local rules for unapproved vehicles apply. The vehicle gets there on "
        "a trailer.",
        "A qualified person has looked over the work beforehand and is there; the driver is "
        "trained for it; nobody else is aboard; nobody stands ahead of the vehicle or beside it.",
        "An observer stands outside, well aside, with a radio: watches wheels for lock, smoke and "
        "leaks, and may end the drive at any moment.",
        "At hand: gauge for the pedal force, decelerometer or cones and tape, thermometer without "
        "contact, four chocks, stands, fire extinguisher, telephone, gloves, glasses.",
        "Driver: helmet and belt. A lifted vehicle tips sooner: straight on only, no swerve is "
        "part of this plan. Nothing loose aboard.",
        "Each stage is driven only when the one before it was as expected. When unsure, stop and "
        "look.",
        NULL};
    static const char *const antilock[] = {
        "Anti-lock and stability control are untried on these tyres: their lamps go out after the "
        "start, and no stage may bring them in.",
        NULL};
    static const char *const full[] = {
        "This is the plan for the full load: it comes after the whole plan driven empty.", NULL};
    brake_document_section(d, NULL, "Before anything else");
    list(d, BRAKE_ROWS_TICKED, lines);
    if (sheet->vehicle.general.antilock == BRAKE_FITTED)
        list(d, BRAKE_ROWS_TICKED, antilock);
    if (plan->load == BRAKE_FULL)
        list(d, BRAKE_ROWS_TICKED, full);
    brake_document_end(d);
}

/* ---- checks at standstill ------------------------------------------------------------------- */

static void check(struct brake_document *d, const char *what, const char *expect)
{
    brake_document_row(d, (const struct brake_cell[]){brake_cell_text(what),
                                                      brake_cell_text(expect), brake_cell_blank()});
}

static const char *travel(struct brake_document *d, const struct brake_shakedown *plan)
{
    if (isnan(plan->firm.value))
        return "cannot say: a line that it needs is left out";
    const char *expected =
        brake_document_amount(d, brake_part_measured(&plan->firm, unit("mm"), BRAKE_WHOLE));
    if (isnan(plan->to_floor))
        return brake_document_words(d, "%s; firm, not spongy", expected);
    return brake_document_words(d, "%s of %s to the floor, so %s in reserve; firm, not spongy",
                                expected, whole(d, plan->to_floor, "mm"),
                                whole(d, plan->to_floor - plan->firm.value, "mm"));
}

static void checks(struct brake_document *d, const struct brake_sheet *sheet,
                   const struct brake_shakedown *plan)
{
    const char *force = whole(d, plan->firm_force, "N");
    check(d,
          brake_document_words(
              d, "Pedal travel, engine running: press with %s and measure at the pad.", force),
          travel(d, plan));
    check(d,
          brake_document_words(
              d,
              "Leaks: wheels chocked, hold %s for a minute, about %s in the lines. Engine off, on "
              "stands: then look at every joint, hose, caliper and cylinder, wheels turned lock to "
              "lock; glasses on, nobody below while anybody is aboard.",
              force, whole(d, plan->firm_pressure, "bar")),
          "the pedal does not sink; nothing is wet; no hose touches");
    check(d,
          isnan(plan->parking_pull)
              ? "Parking brake: on level ground, applied, pull by winch; nobody in line with the "
                "rope."
              : brake_document_words(d,
                                     "Parking brake: on level ground, applied, pull with %s by "
                                     "winch and load cell; nobody in line with the rope.",
                                     whole(d, plan->parking_pull, "N")),
          isnan(plan->parking_pull)
              ? "does not move; cannot say with how much: a line that it needs is left out"
              : "does not move");
    check(d, "Booster: engine off, pump until the pedal is hard, hold it, start the engine.",
          sheet->vehicle.booster.booster != BRAKE_BOOSTER_NONE
              ? "the pedal goes down a little by itself, and stays"
              : "no booster in the file: the pedal does not move");
    check(d,
          "Wheels off the ground, on stands, the others chocked, nobody below: turn each by hand, "
          "pedal free, pressed, free again; then the "
          "same with the parking brake.",
          "turns freely, is held, turns freely again; the same drag left and right");
    check(d, "Fluid level.", "at the mark");
    check(d, "Warning lamp.", "goes out");
    check(d, "Stop lamps.", "light");
    check(d, "Wheel nuts.", "to the maker's torque");
}

static void standing(struct brake_document *d, const struct brake_sheet *sheet,
                     const struct brake_shakedown *plan)
{
    static const struct brake_column column[] = {{NULL, "check", BRAKE_COLUMN},
                                                 {NULL, "to expect", BRAKE_COLUMN},
                                                 {NULL, "found", BRAKE_COLUMN}};
    brake_document_section(d, "standing", "1. Standing");
    brake_document_fact(d, "pedal_force", NULL, brake_cell_number(plan->firm_force, NULL));
    brake_document_fact(d, "pressure", NULL, brake_cell_number(plan->firm_pressure, NULL));
    brake_document_fact(d, "travel", NULL,
                        brake_part_measured(&plan->firm, unit("mm"), BRAKE_FOUR_DIGITS));
    brake_document_fact(d, "travel_to_floor", NULL, brake_cell_number(plan->to_floor, NULL));
    brake_document_fact(d, "parking_grade", NULL, brake_cell_number(plan->grade, NULL));
    brake_document_table(
        d, &(struct brake_table){.caption = "Nothing moves before all of these are as expected.",
                                 .rows = BRAKE_ROWS_TICKED,
                                 .column = column,
                                 .columns = 3});
    checks(d, sheet, plan);
    brake_document_end(d);
}

/* ---- walking pace --------------------------------------------------------------------------- */

static void walking(struct brake_document *d, const struct brake_shakedown *plan)
{
    static const struct brake_column column[] = {{NULL, "try", BRAKE_COLUMN},
                                                 {NULL, "to expect", BRAKE_COLUMN},
                                                 {NULL, "found", BRAKE_COLUMN}};
    brake_document_section(d, NULL, "2. Walking pace");
    brake_document_table(d, &(struct brake_table){.caption = "In neutral, on the level, by a push.",
                                                  .rows = BRAKE_ROWS_TICKED,
                                                  .column = column,
                                                  .columns = 3});
    check(d, "Roll, stop by foot; five times.", "stops straight; the same pedal each time");
    check(d, "Roll, stop by the parking brake alone.", "stops; can be let off again");
    check(d, "Roll, stop by foot with the engine off, the booster emptied by pumping.",
          "stops with a harder pedal");
    check(
        d,
        isnan(plan->grade)
            ? "Only then, the parking brake on a gentle ramp, nose up, nose down: chocks a hand's "
              "width off, foot over the pedal, nobody below."
            : brake_document_words(
                  d,
                  "Only then, the parking brake on a ramp of %.0f %%, half of what "
                  "it holds by calculation, nose up, nose down: chocks a hand's "
                  "width off, foot over the pedal, nobody below.",
                  50.0 * plan->grade),
        "holds");
    brake_document_end(d);
}

/* ---- stages --------------------------------------------------------------------------------- */

static void stage_row(struct brake_document *d, const struct brake_stage *s)
{
    struct brake_cell above = brake_cell_form(s->most_travel, unit("mm"), BRAKE_WHOLE);
    above.text = "not known";
    brake_document_row(d,
                       (const struct brake_cell[]){
                           brake_cell_form(s->speed, unit("km/h"), BRAKE_WHOLE),
                           brake_cell_form(s->pedal_force, unit("N"), BRAKE_WHOLE),
                           brake_part_measured(&s->deceleration, unit("m/s2"), BRAKE_ONE_DECIMAL),
                           brake_part_measured(&s->distance, unit("m"), BRAKE_ONE_DECIMAL),
                           brake_part_measured(&s->travel, unit("mm"), BRAKE_FOUR_DIGITS),
                           brake_cell_form(s->least, unit("m/s2"), BRAKE_ONE_DECIMAL),
                           brake_cell_form(s->cone, unit("m"), BRAKE_ONE_DECIMAL), above});
}

/* How many stops, and why no more. */
static void introduce(struct brake_document *d, const struct brake_shakedown *plan)
{
    if (plan->stages == 0) {
        brake_document_say(d, NULL, NULL,
                           "The brakes of this file give no deceleration: do not drive.");
        return;
    }
    if (plan->narrow)
        brake_document_say_in(
            d, NULL, NULL,
            "Pedal force for %s: %s. That is too little known for a drive: the interval "
            "that holds 90 of 100 is wider than a quarter of the force, or no force that the "
            "driver "
            "gives reaches it. So this plan ends with three measuring stops. Log time, speed and "
            "pedal force, hold them "
            "against the file (stopmargin drivelog FILE LOG.csv), correct the file, and plan anew.",
            tenth(d, 4.0, "m/s2"),
            isnan(plan->four.value)
                ? "not reached"
                : brake_document_amount(d,
                                        brake_part_measured(&plan->four, unit("N"), BRAKE_WHOLE)));
    brake_document_say_in(
        d, NULL, NULL,
        "%s at each stage, load %s, in neutral, brakes cool before each. The range is that of the "
        "file's tolerances, 90 of 100. By calculation the first wheels lock at %s; no stage is "
        "braked harder than 85 %% of that. A cone stands where the foot comes on, another as far "
        "on "
        "as the table says: past that one still moving, or below that deceleration, or above that "
        "pedal travel, break off.",
        plan->narrow ? "One stop" : "Three stops", brake_load_word(plan->load),
        tenth(d, plan->lock, "m/s2"));
}

static void stages(struct brake_document *d, const struct brake_shakedown *plan)
{
    static const struct brake_column column[] = {
        {"speed", "from", BRAKE_COLUMN},          {"pedal_force", "pedal", BRAKE_COLUMN},
        {"deceleration", "expect", BRAKE_COLUMN}, {"distance", "distance", BRAKE_COLUMN},
        {"travel", NULL, BRAKE_COLUMN},           {"least", "break off below", BRAKE_COLUMN},
        {"cone", "cone", BRAKE_COLUMN},           {"most_travel", "above", BRAKE_COLUMN}};
    static const char *const limits[] = {
        "deceleration below, or pedal travel above, the limit of the stage; or a pedal that gets "
        "longer, softer or sinks",
        "the vehicle pulls to a side, or the steering wheel must be held against the brakes",
        "a wheel locks before the stage's force is reached, the rear one above all",
        "smell, smoke, a brake that is too hot (do not touch it); with a thermometer: a rotor or "
        "drum above 300 degC (common practice, no source)",
        "a brake that drags after the pedal is let go, a warning lamp, a noise that is new",
        "the observer says so",
        NULL};
    static const char *const broken_off[] = {
        "Roll to rest in gear, parking brake on, chocks before and behind. Do not drive back.",
        "Touch no brake; let it cool. Look only when it stands on chocks, engine off.",
        "It goes home on a trailer: not on its own wheels behind another vehicle.",
        "Find the cause and mend it; check the file again; begin again at standing.", NULL};
    brake_document_section(d, NULL, "3. Stages");
    introduce(d, plan);
    brake_document_table(d, &(struct brake_table){.key = "stages", .column = column, .columns = 8});
    for (int i = 0; i < plan->stages; i++)
        stage_row(d, &plan->stage[i]);
    brake_document_section(d, NULL, "Stop the drive at once if");
    list(d, BRAKE_ROWS_LISTED, limits);
    brake_document_end(d);
    brake_document_section(d, NULL, "When it was broken off");
    list(d, BRAKE_ROWS_LISTED, broken_off);
    brake_document_end(d);
    brake_document_end(d);
}

/* ---- bedding in, log sheet ------------------------------------------------------------------ */

static const char *hot(struct brake_document *d, double kelvin)
{
    return brake_document_amount(
        d, brake_cell_form(kelvin, brake_unit_of("degC", BRAKE_TEMPERATURE), BRAKE_WHOLE));
}

static void bedding(struct brake_document *d, const struct brake_shakedown *plan)
{
    const struct brake_bedding *b = &plan->bedding;
    brake_document_section(d, "bedding", "4. Bedding in");
    brake_document_fact(d, "none", NULL, brake_cell_text(b->none));
    if (b->none != NULL)
        brake_document_say_in(d, NULL, NULL,
                              "None by this plan: %s. The schedule of the maker of pads and "
                              "linings counts.",
                              b->none);
    else
        brake_document_say_in(
            d, NULL, NULL,
            "Follow the schedule of the maker of pads and linings where there is one. Where there "
            "is none, still on the closed area, observer there, after all stages went as expected: "
            "%d stops from %s at %s, about %s on this pedal, one every %.0f s or slower. By "
            "calculation rotor or drum then get %s hot and the fluid, parked, %s: end it at %s, or "
            "when the pedal gets longer. Adjust drums and parking brake afterwards, when cold, and "
            "drive the stages once more: new pads give less until they are bedded in.",
            b->stops, whole(d, b->speed, "km/h"), tenth(d, b->deceleration, "m/s2"),
            whole(d, b->pedal_force, "N"), b->interval, hot(d, b->hottest), hot(d, b->fluid),
            hot(d, 573.15));
    brake_document_fact(d, "stops", NULL, brake_cell_count(b->stops));
    brake_document_fact(d, "speed", NULL, brake_cell_number(b->speed, NULL));
    brake_document_fact(d, "deceleration", NULL, brake_cell_number(b->deceleration, NULL));
    brake_document_fact(d, "pedal_force", NULL, brake_cell_number(b->pedal_force, NULL));
    brake_document_fact(d, "interval", NULL, brake_cell_number(b->interval, NULL));
    brake_document_fact(d, "hottest", NULL, brake_cell_number(b->hottest, NULL));
    brake_document_fact(d, "fluid", NULL, brake_cell_number(b->fluid, NULL));
    brake_document_say(d, NULL, NULL,
                       "A log of the drive (time, speed, pedal force) can be held against the "
                       "prediction: stopmargin drivelog FILE LOG.csv");
    brake_document_end(d);
}

static void afterwards(struct brake_document *d)
{
    static const char *const lines[] = {
        "Cold again: wheel nuts, every joint and hose, fluid level, marks of heat; pads and "
        "linings "
        "touch all over.",
        "On a roller or plate tester: force of every wheel, side against side, parking brake; held "
        "against the file. Before the public road, not after.",
        "A qualified inspector has passed it, and it is registered for the road as it is now.",
        NULL};
    brake_document_section(d, NULL, "5. Afterwards, before the public road");
    list(d, BRAKE_ROWS_TICKED, lines);
    brake_document_end(d);
}

static void blanks(struct brake_document *d, const char *const *label)
{
    for (; *label != NULL; label++)
        brake_document_fact(d, NULL, *label, brake_cell_blank());
}

static void log_sheet(struct brake_document *d)
{
    static const char *const above[] = {
        "Date, place, weather, surface",  "Driver",   "Qualified person",
        "Mass as driven; tyre pressures", "Odometer", NULL};
    static const char *const below[] = {"Broken off at, because",
                                        "Signature of the qualified person", NULL};
    static const struct brake_column column[] = {{NULL, "stop", BRAKE_COLUMN},
                                                 {NULL, "from", BRAKE_COLUMN},
                                                 {NULL, "pedal", BRAKE_COLUMN},
                                                 {NULL, "distance", BRAKE_COLUMN},
                                                 {NULL, "travel", BRAKE_COLUMN},
                                                 {NULL, "hottest", BRAKE_COLUMN},
                                                 {NULL, "pull, noise, smell", BRAKE_COLUMN}};
    const struct brake_cell blank = brake_cell_blank();
    brake_document_section(d, NULL, "6. Log sheet");
    blanks(d, above);
    brake_document_table(
        d, &(struct brake_table){.caption = "A line a stop; write the unit with the number.",
                                 .column = column,
                                 .columns = 7});
    for (int i = 1; i <= LOG_LINES; i++)
        brake_document_row(d, (const struct brake_cell[]){brake_cell_count(i), blank, blank, blank,
                                                          blank, blank, blank});
    blanks(d, below);
    brake_document_end(d);
}

void brake_answer_shakedown(struct brake_document *document, const struct brake_sheet *sheet,
                            const struct brake_assessment *assessment,
                            const struct brake_shakedown *plan)
{
    brake_document_head(document, "Plan of a shakedown drive", brake_part_name(sheet));
    brake_document_say(document, NULL, NULL,
                       "For a shakedown drive: print this, read it whole, fill in what is found.");
    brake_document_fact(document, "load", NULL, brake_cell_text(brake_load_word(plan->load)));
    brake_document_fact(document, "lock_deceleration", NULL, brake_cell_number(plan->lock, NULL));
    brake_document_fact(document, "measuring_only", NULL, brake_cell_truth(plan->narrow));
    brake_document_fact(document, "force_for_4", NULL,
                        brake_part_measured(&plan->four, unit("N"), BRAKE_WHOLE));
    verdict(document, sheet, assessment, plan);
    before(document, sheet, plan);
    standing(document, sheet, plan);
    walking(document, plan);
    stages(document, plan);
    bedding(document, plan);
    afterwards(document);
    log_sheet(document);
    brake_part_known(document, sheet);
}
