/* The answer of `shakedown`: the plan of the first drive, for print. */
#include <math.h>
#include <string.h>

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

static void before(struct brake_document *d)
{
    static const char *const lines[] = {
        "On a closed area only, level, dry, straight, with room to stop twice over at each speed "
        "and to run out; the local rules for unapproved vehicles apply.",
        "A qualified person has looked over the work beforehand and is there; the driver is "
        "trained for it; nobody else is aboard; nobody stands ahead of the vehicle or beside it.",
        "The parking brake works and is within reach. Somebody has a fire extinguisher and a "
        "telephone.",
        "Each stage is driven only when the one before it was as expected. When unsure, stop and "
        "look.",
        NULL};
    brake_document_section(d, NULL, "Before anything else");
    list(d, BRAKE_ROWS_TICKED, lines);
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
              "Leaks: hold %s for a minute, about %s in the lines; somebody looks at every joint, "
              "hose, caliper and cylinder, wheels turned lock to lock.",
              force, whole(d, plan->firm_pressure, "bar")),
          "the pedal does not sink; nothing is wet; no hose touches");
    check(d, "Parking brake: on the steepest ramp at hand, nose up, nose down.",
          isnan(plan->grade)
              ? "cannot say: a line that it needs is left out"
              : brake_document_words(d, "holds up to %.0f %% both ways, by calculation",
                                     100.0 * plan->grade));
    check(d, "Booster: engine off, pump until the pedal is hard, hold it, start the engine.",
          sheet->vehicle.booster.booster == BRAKE_FITTED
              ? "the pedal goes down a little by itself, and stays"
              : "no booster in the file: the pedal does not move");
    check(d,
          "Wheels off the ground: turn each by hand, pedal free, pressed, free again; then the "
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

/* ---- stages --------------------------------------------------------------------------------- */

static void stage_row(struct brake_document *d, const struct brake_stage *s)
{
    struct brake_cell above =
        brake_cell_form(s->travel.value + s->travel.half, unit("mm"), BRAKE_WHOLE);
    above.text = "not known";
    brake_document_row(d,
                       (const struct brake_cell[]){
                           brake_cell_form(s->speed, unit("km/h"), BRAKE_WHOLE),
                           brake_cell_form(s->pedal_force, unit("N"), BRAKE_WHOLE),
                           brake_part_measured(&s->deceleration, unit("m/s2"), BRAKE_ONE_DECIMAL),
                           brake_part_measured(&s->distance, unit("m"), BRAKE_ONE_DECIMAL),
                           brake_part_measured(&s->travel, unit("mm"), BRAKE_FOUR_DIGITS),
                           brake_cell_form(s->deceleration.value - s->deceleration.half,
                                           unit("m/s2"), BRAKE_ONE_DECIMAL),
                           above});
}

static void stages(struct brake_document *d, const struct brake_shakedown *plan)
{
    static const struct brake_column column[] = {{"speed", "from", BRAKE_COLUMN},
                                                 {"pedal_force", "pedal", BRAKE_COLUMN},
                                                 {"deceleration", "expect", BRAKE_COLUMN},
                                                 {"distance", "distance", BRAKE_COLUMN},
                                                 {"travel", NULL, BRAKE_COLUMN},
                                                 {NULL, "break off below", BRAKE_COLUMN},
                                                 {NULL, "above", BRAKE_COLUMN}};
    static const char *const limits[] = {
        "deceleration below, or pedal travel above, the limit of the stage; or a pedal that gets "
        "longer, softer or sinks",
        "the vehicle pulls to a side, or the steering wheel must be held against the brakes",
        "a wheel locks before the stage's force is reached, the rear one above all",
        "smell, smoke, a brake that is too hot (do not touch it); with a thermometer: a rotor or "
        "drum above 300 degC (common practice, no source)",
        "a brake that drags after the pedal is let go, a warning lamp, a noise that is new",
        NULL};
    brake_document_section(d, NULL, "2. Stages");
    if (plan->stages == 0)
        brake_document_say(d, NULL, NULL,
                           "The brakes of this file give no deceleration: do not drive.");
    else
        brake_document_say_in(
            d, NULL, NULL,
            "Three stops at each stage, load %s, in neutral, brakes cool before each. The range is "
            "that of the file's tolerances, 90 of 100. By calculation the first wheels lock at %s; "
            "no stage is braked harder than 85 %% of that. Break off below that deceleration, or "
            "above that pedal travel.",
            brake_load_word(plan->load), tenth(d, plan->lock, "m/s2"));
    brake_document_table(d, &(struct brake_table){.key = "stages", .column = column, .columns = 7});
    for (int i = 0; i < plan->stages; i++)
        stage_row(d, &plan->stage[i]);
    brake_document_section(d, NULL, "Stop the drive at once if");
    list(d, BRAKE_ROWS_LISTED, limits);
    brake_document_end(d);
    brake_document_end(d);
}

/* ---- bedding in, log sheet ------------------------------------------------------------------ */

static void bedding(struct brake_document *d, const struct brake_shakedown *plan)
{
    const struct brake_burnish *b = plan->burnish;
    brake_document_section(d, "bedding", "3. Bedding in");
    brake_document_say_in(
        d, NULL, NULL,
        "Follow the schedule of the maker of pads and linings where there is one. Where there is "
        "none: %d stops from %s at %s, about %s on this pedal, each begun when the hottest brake "
        "is at %s or less, or after %s of road, whichever comes first [%s: %s]. Begin only after "
        "the stages up to %s went as expected, adjust drums and parking brake afterwards, and "
        "drive the stages once more: new pads give less until they are bedded in.",
        b->stops, whole(d, b->speed, "km/h"), tenth(d, b->deceleration, "m/s2"),
        whole(d, plan->burnish_force, "N"),
        brake_document_amount(
            d,
            brake_cell_form(b->temperature, brake_unit_of("degC", BRAKE_TEMPERATURE), BRAKE_WHOLE)),
        whole(d, b->distance, "km"), b->clause, b->text, whole(d, 60.0 / 3.6, "km/h"));
    brake_document_fact(d, "clause", NULL, brake_cell_text(b->clause));
    brake_document_fact(d, "text", NULL, brake_cell_text(b->text));
    brake_document_fact(d, "stops", NULL, brake_cell_count(b->stops));
    brake_document_fact(d, "speed", NULL, brake_cell_number(b->speed, NULL));
    brake_document_fact(d, "deceleration", NULL, brake_cell_number(b->deceleration, NULL));
    brake_document_fact(d, "pedal_force", NULL, brake_cell_number(plan->burnish_force, NULL));
    brake_document_fact(d, "temperature", NULL, brake_cell_number(b->temperature, NULL));
    brake_document_fact(d, "distance", NULL, brake_cell_number(b->distance, NULL));
    brake_document_say(d, NULL, NULL,
                       "A log of the drive (time, speed, pedal force) can be held against the "
                       "prediction: stopmargin drivelog FILE LOG.csv");
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
    brake_document_section(d, NULL, "4. Log sheet");
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
                            const struct brake_shakedown *plan)
{
    brake_document_head(document, "Plan of a shakedown drive", brake_part_name(sheet));
    brake_document_say(document, NULL, NULL, "Plan of a shakedown drive");
    brake_document_fact(document, "load", NULL, brake_cell_text(brake_load_word(plan->load)));
    brake_document_fact(document, "lock_deceleration", NULL, brake_cell_number(plan->lock, NULL));
    before(document);
    standing(document, sheet, plan);
    stages(document, plan);
    bedding(document, plan);
    log_sheet(document);
    brake_part_known(document, sheet);
}
