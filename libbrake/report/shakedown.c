/* The plan of a shakedown drive, as a page for print and as text. Both are made of the same rows. */
#include <math.h>
#include <string.h>

#include "brake/report.h"
#include "brake/version.h"
#include "page.h"
#include "paragraph.h"
#include "vehicle/text.h"

enum { CELL = 320, LOG_LINES = 12 };

static const char *const before[] = {
    "On a closed area only, level, dry, straight, with room to stop twice over at each speed and "
    "to "
    "run out; local rules for vehicles that are not approved hold.",
    "A qualified person has looked over the work beforehand and is there; the driver is trained "
    "for "
    "it; nobody else is aboard; nobody stands ahead of the vehicle or beside it.",
    "The parking brake works and is within reach. Somebody has a fire extinguisher and a "
    "telephone.",
    "Each stage is driven only when the one before it was as expected. In doubt, stop and look.",
    NULL};

static const char *const limits[] = {
    "deceleration below, or pedal travel above, the limit of the stage; or a pedal that gets "
    "longer, "
    "softer or sinks",
    "the vehicle pulls to a side, or the steering wheel must be held against the brakes",
    "a wheel locks before the stage's force is reached, the rear one above all",
    "smell, smoke, a wheel too hot to hold a hand near; with a thermometer: a rotor or drum above "
    "300 degC (572 degF) (common practice, no source)",
    "a brake that drags after the pedal is let go, a warning lamp, a noise that is new",
    NULL};

static double in(const char *unit, double value)
{
    return brake_unit_from_si(brake_unit_find(unit), value);
}

static const char *name_of(const struct brake_sheet *sheet)
{
    const char *name = sheet->vehicle.general.name;
    return name[0] != '\0' ? name : "Vehicle without a name";
}

/* ---- checks at standstill ------------------------------------------------------------------- */

/* What to do, and what to expect. */
struct check {
    char what[CELL];
    char expect[CELL];
};

enum { CHECKS = 6 };

static void travel_check(const struct brake_shakedown *plan, struct check *check)
{
    brake_text_format(
        check->what, CELL,
        "Pedal travel, engine running: press with %.0f N (%.0f lbf) and measure at the pad.",
        plan->firm_force, in("lbf", plan->firm_force));
    if (isnan(plan->firm.value))
        brake_text_format(check->expect, CELL, "cannot say: a line that it needs is left out");
    else if (isnan(plan->to_floor))
        brake_text_format(check->expect, CELL, "%.0f +- %.0f mm (%.1f in); firm, not spongy",
                          in("mm", plan->firm.value), in("mm", plan->firm.half),
                          in("in", plan->firm.value));
    else
        brake_text_format(
            check->expect, CELL,
            "%.0f +- %.0f mm (%.1f in) of %.0f mm to the floor, so %.0f mm in reserve; firm, "
            "not spongy",
            in("mm", plan->firm.value), in("mm", plan->firm.half), in("in", plan->firm.value),
            in("mm", plan->to_floor), in("mm", plan->to_floor - plan->firm.value));
}

static void leak_check(const struct brake_shakedown *plan, struct check *check)
{
    brake_text_format(
        check->what, CELL,
        "Leaks: hold %.0f N (%.0f lbf) for a minute, about %.0f bar (%.0f psi) in the lines; "
        "somebody looks at every joint, hose, caliper and cylinder, wheels turned lock to lock.",
        plan->firm_force, in("lbf", plan->firm_force), in("bar", plan->firm_pressure),
        in("psi", plan->firm_pressure));
    brake_text_format(check->expect, CELL,
                      "the pedal does not sink; nothing is wet; no hose touches");
}

static void parking_check(const struct brake_shakedown *plan, struct check *check)
{
    brake_text_format(check->what, CELL,
                      "Parking brake: on the steepest ramp at hand, nose up, nose down.");
    if (isnan(plan->grade))
        brake_text_format(check->expect, CELL, "cannot say: a line that it needs is left out");
    else
        brake_text_format(check->expect, CELL, "holds up to %.0f %% both ways, by calculation",
                          100.0 * plan->grade);
}

static void make_checks(const struct brake_sheet *sheet, const struct brake_shakedown *plan,
                        struct check check[CHECKS])
{
    const bool boosted = sheet->vehicle.booster.booster == BRAKE_FITTED;
    travel_check(plan, &check[0]);
    leak_check(plan, &check[1]);
    parking_check(plan, &check[2]);
    brake_text_format(
        check[3].what, CELL,
        "Booster: engine off, pump until the pedal is hard, hold it, start the engine.");
    brake_text_format(check[3].expect, CELL, "%s",
                      boosted ? "the pedal goes down a little by itself, and stays"
                              : "no booster in the file: the pedal does not move");
    brake_text_format(
        check[4].what, CELL,
        "Wheels off the ground: turn each by hand, pedal free, pressed, free again; then the "
        "same with the parking brake.");
    brake_text_format(check[4].expect, CELL, "free, held, free; a drag alike on both sides");
    brake_text_format(check[5].what, CELL, "Fluid level, warning lamp, stop lamps, wheel nuts.");
    brake_text_format(check[5].expect, CELL, "at the mark; goes out; light; to the maker's torque");
}

/* ---- bedding -------------------------------------------------------------------------------- */

static void bedding_words(const struct brake_shakedown *plan, char *text, size_t size)
{
    const struct brake_burnish *b = plan->burnish;
    brake_text_format(
        text, size,
        "Follow the schedule of the maker of pads and linings where there is one. Where there "
        "is none: %d stops from %.0f km/h (%.0f mph) at %.1f m/s2 (%.1f ft/s2), about %.0f N "
        "(%.0f lbf) on this pedal, each begun when the hottest brake is at %.0f degC (%.0f "
        "degF) or less, or after %.0f km (%.1f mi) of road, whichever comes first [%s: %s]. "
        "Begin only after the stages up to 60 km/h went as expected, adjust drums and parking "
        "brake afterwards, and drive the stages once more: new pads give less until they are "
        "bedded in.",
        b->stops, in("km/h", b->speed), in("mph", b->speed), b->deceleration,
        in("ft/s2", b->deceleration), plan->burnish_force, in("lbf", plan->burnish_force),
        in("degC", b->temperature), in("degF", b->temperature), in("km", b->distance),
        in("mi", b->distance), b->clause, b->text);
}

/* ---- stages --------------------------------------------------------------------------------- */

/* Cells of a stage: from, pedal, deceleration, distance, break off below, above. */
enum { STAGE_CELLS = 6 };

static const char *const stage_heads[] = {"from",      "pedal",        "expect", "distance",
                                          "off below", "travel above", NULL};

static void stage_cells(const struct brake_stage *s, bool us, char cell[STAGE_CELLS][CELL])
{
    const char *speed = us ? "mph" : "km/h";
    const char *force = us ? "lbf" : "N";
    const char *slowing = us ? "ft/s2" : "m/s2";
    const char *length = us ? "ft" : "m";
    const char *travel = us ? "in" : "mm";
    brake_text_format(cell[0], CELL, "%.0f %s", in(speed, s->speed), speed);
    brake_text_format(cell[1], CELL, "%.0f %s", in(force, s->pedal_force), force);
    brake_text_format(cell[2], CELL, "%.1f +- %.1f %s", in(slowing, s->deceleration.value),
                      in(slowing, s->deceleration.half), slowing);
    brake_text_format(cell[3], CELL, "%.1f +- %.1f %s", in(length, s->distance.value),
                      in(length, s->distance.half), length);
    brake_text_format(cell[4], CELL, "%.1f %s",
                      in(slowing, s->deceleration.value - s->deceleration.half), slowing);
    if (isnan(s->travel.value))
        brake_text_format(cell[5], CELL, "not known");
    else
        brake_text_format(cell[5], CELL, us ? "%.1f %s" : "%.0f %s",
                          in(travel, s->travel.value + s->travel.half), travel);
}

static void stage_words(const struct brake_shakedown *plan, char *text, size_t size)
{
    if (plan->stages == 0)
        brake_text_format(text, size,
                          "The brakes of this file give no deceleration: do not drive.");
    else
        brake_text_format(
            text, size,
            "Three stops at each stage, load %s, gear out, brakes cool before each. The range "
            "is that of the file's tolerances, 90 of 100. By calculation the first wheels lock "
            "at %.1f m/s2 (%.1f ft/s2); no stage goes beyond 85 %% of it.",
            brake_load_word(plan->load), plan->lock, in("ft/s2", plan->lock));
}

/* ---- the page ------------------------------------------------------------------------------- */

static void html_list(FILE *stream, const char *style, const char *const *line)
{
    brake_text_print(stream, "<ul%s>\n", style);
    for (int i = 0; line[i] != NULL; i++)
        brake_page_element(stream, "li", line[i]);
    fputs("</ul>\n", stream);
}

static void html_checks(const struct brake_sheet *sheet, const struct brake_shakedown *plan,
                        FILE *stream)
{
    static const char *const heads[] = {"check", "to expect", "found", NULL};
    struct check check[CHECKS];
    make_checks(sheet, plan, check);
    brake_page_section(stream, "standing", "1. Standing");
    brake_page_table(stream, "checks", "Nothing moves before all of these are as expected.", heads);
    for (int i = 0; i < CHECKS; i++) {
        fputs("<tr>\n", stream);
        brake_page_element(stream, "th scope=\"row\"", check[i].what);
        brake_page_element(stream, "td", check[i].expect);
        fputs("<td style=\"width:7rem\"></td>\n</tr>\n", stream);
    }
    brake_page_table_end(stream);
    brake_page_section_end(stream);
}

static void html_stage_table(const struct brake_shakedown *plan, bool us, FILE *stream)
{
    fputs("<figure>\n", stream);
    brake_page_table(stream, "stages wide of6", us ? "The same in US units" : "Stage by stage",
                     stage_heads);
    for (int i = 0; i < plan->stages; i++) {
        char cell[STAGE_CELLS][CELL];
        stage_cells(&plan->stage[i], us, cell);
        fputs("<tr>\n", stream);
        brake_page_element(stream, "th scope=\"row\"", cell[0]);
        for (int k = 1; k < STAGE_CELLS; k++)
            brake_page_element(stream, "td", cell[k]);
        fputs("</tr>\n", stream);
    }
    brake_page_table_end(stream);
    fputs("</figure>\n", stream);
}

static void html_stages(const struct brake_shakedown *plan, FILE *stream)
{
    char text[600];
    brake_page_section(stream, "stages", "2. Stages");
    stage_words(plan, text, sizeof text);
    brake_page_element(stream, "p", text);
    for (int us = 0; us < 2 && plan->stages > 0; us++)
        html_stage_table(plan, us == 1, stream);
    brake_page_element(stream, "h3", "Break off at once at any of these");
    html_list(stream, "", limits);
    brake_page_section_end(stream);
}

static void html_log(FILE *stream)
{
    static const char *const heads[] = {
        "stop", "from", "pedal", "distance", "travel", "hottest", "pull, noise, smell", NULL};
    fputs("<div class=\"sheet\">\n", stream);
    brake_page_section(stream, "log", "4. Log sheet");
    static const char *const blanks[] = {
        "Date, place, weather, surface",  "Driver",   "Qualified person",
        "Mass as driven; tyre pressures", "Odometer", NULL};
    for (int i = 0; blanks[i] != NULL; i++)
        brake_page_blank(stream, blanks[i]);
    brake_page_table(stream, "log", "A line a stop; write the unit with the number.", heads);
    for (int i = 1; i <= LOG_LINES; i++)
        brake_text_print(
            stream,
            "<tr style=\"height:1.9rem\"><th scope=\"row\">%d</th><td></td><td></td><td></td>"
            "<td></td><td></td><td></td></tr>\n",
            i);
    brake_page_table_end(stream);
    brake_page_blank(stream, "Broken off at, because");
    brake_page_blank(stream, "Signature of the qualified person");
    brake_page_section_end(stream);
    fputs("</div>\n", stream);
}

void brake_report_shakedown_html(const struct brake_sheet *sheet,
                                 const struct brake_shakedown *plan, FILE *stream)
{
    char text[1000];
    brake_page_open(stream, "Plan of a shakedown drive", name_of(sheet));
    brake_page_section(stream, "before", "Before anything else");
    html_list(stream, " class=\"ticks\"", before);
    brake_page_section_end(stream);
    html_checks(sheet, plan, stream);
    html_stages(plan, stream);
    brake_page_section(stream, "bedding", "3. Bedding in");
    bedding_words(plan, text, sizeof text);
    brake_page_element(stream, "p", text);
    brake_page_element(stream, "p",
                       "A log of the drive (time, speed, pedal force) can be held against the "
                       "prediction: stopmargin drivelog FILE LOG.csv");
    brake_page_section_end(stream);
    html_log(stream);
    brake_page_close(stream);
}

/* ---- text ----------------------------------------------------------------------------------- */

static void text_list(FILE *stream, const char *head, const char *const *line)
{
    for (int i = 0; line[i] != NULL; i++)
        brake_paragraph(stream, head, line[i]);
}

static void text_row(FILE *stream, const char *const cell[STAGE_CELLS])
{
    brake_text_print(stream, "  %8s %9s %16s %16s %10s %12s\n", cell[0], cell[1], cell[2], cell[3],
                     cell[4], cell[5]);
}

static void text_stages(const struct brake_shakedown *plan, bool us, FILE *stream)
{
    text_row(stream, stage_heads);
    for (int i = 0; i < plan->stages; i++) {
        char cell[STAGE_CELLS][CELL];
        const char *row[STAGE_CELLS];
        stage_cells(&plan->stage[i], us, cell);
        for (int k = 0; k < STAGE_CELLS; k++)
            row[k] = cell[k];
        text_row(stream, row);
    }
}

static void text_log(FILE *stream)
{
    fputs("\n4. Log sheet\n  Date, place, surface ____________________ Driver ___________________\n"
          "  Qualified person ________________________ Mass, tyres ______________\n\n"
          "  stop  from    pedal   distance  travel   hottest   pull, noise, smell\n",
          stream);
    for (int i = 1; i <= LOG_LINES; i++)
        brake_text_print(
            stream, "  %2d    ______  ______  ________  _______  ________  _________________\n", i);
    fputs("\n  Broken off at ________ because _____________________________________\n"
          "  Signature of the qualified person __________________________________\n\n",
          stream);
}

void brake_report_shakedown_text(const struct brake_sheet *sheet,
                                 const struct brake_shakedown *plan, FILE *stream)
{
    struct check check[CHECKS];
    char text[1000];
    brake_text_print(stream, "%s\nPlan of a shakedown drive\n", name_of(sheet));
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    fputs("\nBefore anything else\n", stream);
    text_list(stream, "  [ ] ", before);
    fputs("\n1. Standing: nothing moves before all of these are as expected\n", stream);
    make_checks(sheet, plan, check);
    for (int i = 0; i < CHECKS; i++) {
        brake_paragraph(stream, "  [ ] ", check[i].what);
        brake_paragraph(stream, "      expect: ", check[i].expect);
        fputs("      found:  ____________________\n", stream);
    }
    fputs("\n2. Stages\n", stream);
    stage_words(plan, text, sizeof text);
    brake_paragraph(stream, "  ", text);
    for (int us = 0; us < 2 && plan->stages > 0; us++)
        text_stages(plan, us == 1, stream);
    fputs("\nBreak off at once at any of these\n", stream);
    text_list(stream, "  - ", limits);
    fputs("\n3. Bedding in\n", stream);
    bedding_words(plan, text, sizeof text);
    brake_paragraph(stream, "  ", text);
    text_log(stream);
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    brake_text_print(stream, "libbrake %s\n", BRAKE_VERSION);
}
