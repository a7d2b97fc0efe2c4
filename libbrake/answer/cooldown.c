/* SPDX-License-Identifier: MIT */
/* The answer of `heat --cooldown`: how much air cools the brakes, as a log of them tells. */
#include "parts.h"

static const struct brake_quantity *line_of(const struct brake_sheet *sheet)
{
    return brake_quantity_at(brake_catalogue_find(&sheet->vehicle, "heat.cooling"));
}

static const char *usual_of(struct brake_document *d, const struct brake_sheet *sheet)
{
    const struct brake_quantity *usual = line_of(sheet);
    return brake_document_words(d, "the usual %.2f, 95 of 100 within %.2f to %.2f", usual->fallback,
                                usual->fallback * usual->least, usual->fallback * usual->most);
}

static const char *verdict_of(struct brake_document *d, const struct brake_cooldown_report *r)
{
    const struct brake_cooldown *c = r->cooldown;
    const char *found = brake_document_words(d, "heat.cooling %.3f, 90 of 100 within %.3f to %.3f",
                                             c->cooling, c->low, c->high);
    if (c->tells)
        return brake_document_words(d, "%s, in place of %s", found, usual_of(d, r->sheet));
    return brake_document_words(d, "cannot say: %s, no surer than %s", found,
                                usual_of(d, r->sheet));
}

static const char *what_to_do(struct brake_document *d, const struct brake_cooldown *c)
{
    if (!c->tells)
        return "Log again: heat the brakes, then drive on at an even speed, as fast as the road "
               "allows, until they have lost half of their heat. At a standstill air tells "
               "nothing.";
    return brake_document_words(d, "Write in [heat]: cooling = %.3f +- %.3f, measured", c->cooling,
                                c->half);
}

static void axle_row(struct brake_document *d, int axle, const struct brake_cooldown_axle *a)
{
    const struct brake_unit *kelvin = brake_unit_si(BRAKE_TEMPERATURE);
    if (!a->logged)
        return;
    brake_document_row(
        d, (const struct brake_cell[]){
               brake_cell_text(brake_axle_word((enum brake_axle)axle)),
               brake_cell_between(a->cooling, a->low, a->high, brake_unit_si(BRAKE_RATIO)),
               brake_cell_number(a->from, brake_unit_find("degC")),
               brake_cell_number(a->to, brake_unit_find("degC")),
               brake_cell_number(a->duration, brake_unit_si(BRAKE_TIME)),
               brake_cell_number(a->speed, brake_unit_find("km/h")),
               brake_cell_difference(a->scatter, kelvin),
               brake_cell_number(a->heated, brake_unit_si(BRAKE_TIME))});
}

static void axles(struct brake_document *d, const struct brake_cooldown *c)
{
    static const struct brake_column column[] = {
        {"axle", "axle", BRAKE_COLUMN},         {"cooling", "cooling", BRAKE_COLUMN},
        {"from", "from", BRAKE_COLUMN},         {"to", "to", BRAKE_COLUMN},
        {"duration", "in", BRAKE_COLUMN},       {"speed", "at", BRAKE_COLUMN},
        {"scatter", "left over", BRAKE_COLUMN}, {"heated", "heated for", BRAKE_COLUMN}};
    brake_document_section(d, NULL, "By axle");
    brake_document_table(d, &(struct brake_table){.key = "axles", .column = column, .columns = 8});
    for (int axle = 0; axle < BRAKE_AXLES; axle++)
        axle_row(d, axle, &c->axle[axle]);
    brake_document_say(d, NULL, NULL,
                       "Left over: what the model does not follow, as a standard deviation. Heated "
                       "for: the even heating before the log that fits best, of 30 s to 40 min.");
    brake_document_end(d);
}

void brake_answer_cooldown(struct brake_document *document,
                           const struct brake_cooldown_report *report)
{
    const struct brake_cooldown *c = report->cooldown;
    const struct brake_unit *ratio = brake_unit_si(BRAKE_RATIO);
    brake_document_head(document, "Cooling of the brakes", brake_part_name(report->sheet));
    brake_document_section(document, "summary", NULL);
    brake_document_say(document, "verdict", "Verdict", verdict_of(document, report));
    brake_document_say(document, NULL, "Do", what_to_do(document, c));
    if (c->differ)
        brake_document_say(document, NULL, "But",
                           "The axles differ by more than their intervals: one line holds both, "
                           "and the lesser, which cools less, is taken.");
    brake_document_say_in(
        document, NULL, "Air", "%s, as heat.ambient says",
        brake_document_amount(document, brake_cell_number(report->sheet->vehicle.heat.ambient,
                                                          brake_unit_find("degC"))));
    brake_document_fact(document, "tells", NULL, brake_cell_truth(c->tells));
    brake_document_fact(document, "differ", NULL, brake_cell_truth(c->differ));
    brake_document_fact(document, "cooling", NULL,
                        brake_cell_between(c->cooling, c->low, c->high, ratio));
    brake_document_fact(document, "tolerance", NULL, brake_cell_number(c->half, ratio));
    brake_document_end(document);
    axles(document, c);
    brake_part_notes(document, &report->log->aside);
    brake_part_known(document, report->sheet);
}
