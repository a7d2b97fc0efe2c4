#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "brake/report.h"
#include "brake/version.h"
#include "paragraph.h"
#include "size.h"
#include "vehicle/text.h"
#include "words.h"

enum { SHOWN_CHOICES = 20 };

/* ---- numbers -------------------------------------------------------------------------------- */

/* Four figures, rounded to the side that is asked for, so that what is read off still does. */
static double rounded(double number, enum brake_towards towards)
{
    const double step = number != 0.0 ? pow(10.0, floor(log10(fabs(number))) - 3.0) : 1.0;
    if (towards == BRAKE_UP)
        return step * ceil(number / step - 1e-6);
    return towards == BRAKE_DOWN ? step * floor(number / step + 1e-6) : number;
}

void brake_size_amount(char *text, size_t size, const struct brake_unit *own, double value,
                       enum brake_towards towards)
{
    const struct brake_unit *us = brake_unit_beside(own);
    const int used =
        brake_text_format(text, size, "%.4g%s%s", rounded(brake_unit_from_si(own, value), towards),
                          own->name[0] ? " " : "", own->name);
    if (us != own && (size_t)used < size)
        brake_text_format(text + used, size - (size_t)used, " (%.4g %s)",
                          rounded(brake_unit_from_si(us, value), towards), us->name);
}

/* ---- what was asked ------------------------------------------------------------------------- */

const struct brake_unit *brake_size_target_unit(const struct brake_target *target)
{
    if (target->every || target->output.criterion)
        return brake_unit_find("%");
    const struct brake_result *row = brake_result_at(target->output.index);
    return brake_unit_of(row->unit, row->dimension);
}

const struct brake_unit *brake_size_line_unit(int index)
{
    const struct brake_quantity *q = brake_quantity_at(index);
    return brake_unit_of(q->unit, q->dimension);
}

void brake_size_target_name(const struct brake_target *target, char *text, size_t size)
{
    if (target->every)
        brake_text_format(text, size, "all");
    else
        brake_output_name(target->output, text, size);
}

/* A margin of 0 is what makes a requirement met. */
static bool to_meet(const struct brake_target *target)
{
    return (target->every || target->output.criterion) && target->value == 0.0 &&
           target->relation == BRAKE_AT_LEAST;
}

static const char *verb(const struct brake_target *target)
{
    return to_meet(target) ? "meets" : "gives";
}

/* What a verb takes: "us.135.cold", "us.135.cold a margin of 10 %", "full.stop.distance 60 m
 * (196.9 ft) or less". */
static void wanted(const struct brake_target *target, char *text, size_t size)
{
    static const char *const sides[] = {
        [BRAKE_EQUAL] = "", [BRAKE_AT_LEAST] = " or more", [BRAKE_AT_MOST] = " or less"};
    const bool margin = target->every || target->output.criterion;
    char name[80];
    char amount[80];
    brake_size_target_name(target, name, sizeof name);
    brake_size_amount(amount, sizeof amount, brake_size_target_unit(target), target->value,
                      BRAKE_NEAREST);
    const char *shown = target->every ? "every requirement that can be said" : name;
    if (to_meet(target))
        brake_text_format(text, size, "%s", shown);
    else
        brake_text_format(text, size, "%s %s%s%s", shown, margin ? "a margin of " : "", amount,
                          sides[target->relation]);
}

/* ---- one quantity over a range: where it does ------------------------------------------------ */

struct words {
    char *text;
    size_t size;
    const char *glue;
    int parts;
};

__attribute__((format(printf, 2, 3))) static void add(struct words *words, const char *format, ...)
{
    const size_t used = strlen(words->text);
    va_list list;
    const int glue = brake_text_format(words->text + used, words->size - used, "%s",
                                       words->parts++ > 0 ? words->glue : "");
    va_start(list, format);
    brake_text_format_list(words->text + used + glue, words->size - used - (size_t)glue, format,
                           list);
    va_end(list);
}

/* The stretches on which the value is got or passed: "44.1 mm to 51.2 mm, or 60 mm or more". */
static void stretches(const struct brake_size_report *r, struct words *words)
{
    const struct brake_roots *roots = &r->size->roots;
    const struct brake_unit *unit = brake_size_line_unit(r->question->by);
    char begin[80] = "";
    for (int i = 0; i < roots->count; i++) {
        const struct brake_root *root = &roots->root[i];
        char at[80];
        brake_size_amount(at, sizeof at, unit, root->x,
                          root->kind == BRAKE_TOUCH ? BRAKE_NEAREST
                          : root->rises             ? BRAKE_UP
                                                    : BRAKE_DOWN);
        if (root->kind == BRAKE_TOUCH && root->rises)
            continue;
        if (root->kind == BRAKE_TOUCH)
            add(words, "exactly %s", at);
        else if (root->rises)
            brake_text_format(begin, sizeof begin, "%s", at);
        else if (begin[0] == '\0')
            add(words, "%s or less", at);
        else
            add(words, "%s to %s", begin, at);
        if (root->kind != BRAKE_TOUCH && !root->rises)
            begin[0] = '\0';
    }
    if (begin[0] != '\0')
        add(words, "%s or more", begin);
    if (words->parts == 0 && roots->shortest >= 0.0)
        add(words, "any value of the range");
}

static void places(const struct brake_size_report *r, bool jumps, struct words *words)
{
    const struct brake_roots *roots = &r->size->roots;
    const struct brake_unit *unit = brake_size_line_unit(r->question->by);
    for (int i = 0; i < roots->count; i++) {
        char at[80];
        if ((roots->root[i].kind == BRAKE_JUMP) != jumps)
            continue;
        brake_size_amount(at, sizeof at, unit, roots->root[i].x, BRAKE_NEAREST);
        add(words, "%s", at);
    }
}

static void answer(const struct brake_size_report *r, const char *path, FILE *stream)
{
    char goal[240];
    char does[500] = "";
    char at[500] = "";
    char text[1400];
    struct words stretch = {does, sizeof does, ", or ", 0};
    struct words place = {at, sizeof at, " and ", 0};
    wanted(r->target, goal, sizeof goal);
    stretches(r, &stretch);
    places(r, false, &place);
    if (r->target->relation != BRAKE_EQUAL)
        brake_text_format(text, sizeof text, "%s of %s %s %s.", path, does, verb(r->target), goal);
    else
        brake_text_format(text, sizeof text, "%s of %s gives %s; %s gives that or more.", path, at,
                          goal, does[0] ? does : "no value");
    brake_paragraph(stream, "Answer    ", text);
}

/* ---- one quantity over a range: where it does not --------------------------------------------- */

static void no_answer(const struct brake_size_report *r, const char *path, FILE *stream)
{
    const struct brake_unit *unit = brake_size_line_unit(r->question->by);
    char goal[240];
    char low[80];
    char high[80];
    char best[80];
    char at[80];
    char text[1000];
    wanted(r->target, goal, sizeof goal);
    brake_size_amount(low, sizeof low, unit, r->question->low, BRAKE_NEAREST);
    brake_size_amount(high, sizeof high, unit, r->question->high, BRAKE_NEAREST);
    brake_size_amount(best, sizeof best, brake_size_target_unit(r->target), r->size->best,
                      BRAKE_NEAREST);
    brake_size_amount(at, sizeof at, unit, r->size->roots.nearest, BRAKE_NEAREST);
    if (r->size->roots.known == 0)
        brake_text_format(
            text, sizeof text,
            "cannot say whether %s from %s to %s %s %s: there is no value "
            "anywhere; a line that it needs is left out, or it takes a fade procedure, which "
            "only check runs.",
            path, low, high, verb(r->target), goal);
    else if (r->size->flat)
        brake_text_format(text, sizeof text,
                          "none: no %s from %s to %s %s %s; it does not move it: %s "
                          "everywhere.",
                          path, low, high, verb(r->target), goal, best);
    else
        brake_text_format(text, sizeof text,
                          "none: no %s from %s to %s %s %s; the nearest is %s, at %s.", path, low,
                          high, verb(r->target), goal, best, at);
    brake_paragraph(stream, "Answer    ", text);
}

static void limits(const struct brake_size_report *r, FILE *stream)
{
    const struct brake_size *size = r->size;
    const struct brake_roots *roots = &size->roots;
    char text[400];
    for (int i = 0; i < size->limits; i++) {
        char path[160];
        char value[80];
        brake_catalogue_path(&r->sheet->vehicle, size->limit[i].quantity, path, sizeof path);
        brake_size_amount(value, sizeof value, brake_size_target_unit(r->target),
                          size->limit[i].value, BRAKE_NEAREST);
        brake_text_format(text, sizeof text, "%s: with %s a tenth higher the nearest would be %s.",
                          size->limit[i].words, path, value);
        brake_paragraph(stream, i == 0 ? "Limits    " : "          ", text);
    }
    if (!size->flat && (roots->nearest == r->question->low || roots->nearest == r->question->high))
        brake_paragraph(stream, size->limits == 0 ? "Limits    " : "          ",
                        "the range: the nearest value stands at its end (--within).");
}

/* ---- one quantity over a range: details ------------------------------------------------------- */

static void now(const struct brake_size_report *r, FILE *stream)
{
    const double value = brake_quantity_value(&r->sheet->vehicle, r->question->by);
    char own[80] = "not given";
    char gives[80] = "no value";
    char name[80];
    char text[320];
    if (!isnan(value))
        brake_size_amount(own, sizeof own, brake_size_line_unit(r->question->by), value,
                          BRAKE_NEAREST);
    if (!isnan(r->size->now))
        brake_size_amount(gives, sizeof gives, brake_size_target_unit(r->target), r->size->now,
                          BRAKE_NEAREST);
    brake_size_target_name(r->target, name, sizeof name);
    brake_text_format(text, sizeof text, "%s; %s: %s.", own, name, gives);
    brake_paragraph(stream, "Now       ", text);
}

static void range(const struct brake_size_report *r, FILE *stream)
{
    const struct brake_scan *scan = &r->size->scan;
    const struct brake_unit *unit = brake_size_line_unit(r->question->by);
    char low[80];
    char high[80];
    char text[400];
    brake_size_amount(low, sizeof low, unit, scan->low, BRAKE_NEAREST);
    brake_size_amount(high, sizeof high, unit, scan->high, BRAKE_NEAREST);
    brake_text_format(
        text, sizeof text,
        "%s to %s, looked at in %d points evenly spaced%s; what comes and goes between two of "
        "them is not seen.",
        low, high, scan->points, scan->logarithmic ? " by ratio" : "");
    brake_paragraph(stream, "Range     ", text);
    for (int i = 0; i < r->size->roots.stretches; i++) {
        const struct brake_stretch *stretch = &r->size->roots.stretch[i];
        brake_size_amount(low, sizeof low, unit, stretch->low, BRAKE_NEAREST);
        brake_size_amount(high, sizeof high, unit, stretch->high, BRAKE_NEAREST);
        brake_text_format(text, sizeof text, "cannot say from %s to %s.", low, high);
        brake_paragraph(stream, "          ", text);
    }
}

static void notes(const struct brake_size_report *r, FILE *stream)
{
    char at[500] = "";
    char text[1200];
    struct words jumps = {at, sizeof at, " and ", 0};
    places(r, true, &jumps);
    if (jumps.parts > 0) {
        brake_text_format(text, sizeof text,
                          "it leaps over the wanted value, without taking it, at %s.", at);
        brake_paragraph(stream, "Leaps     ", text);
    }
    if (r->size->refused > 0) {
        brake_text_format(text, sizeof text,
                          "%d left out, because the vehicle would be refused: %s: %s",
                          r->size->refused, r->size->error.field, r->size->error.text);
        brake_paragraph(stream, "Refused   ", text);
    }
    if (r->size->roots.more)
        brake_paragraph(stream, "More      ", "there are more answers than are listed.");
}

static void changes_at(const struct brake_size_report *r, double value, FILE *stream)
{
    struct brake_size_change change[BRAKE_CRITERIA];
    const int count = brake_size_changes(r->sheet, r->question->by, value, change);
    char at[80];
    brake_size_amount(at, sizeof at, brake_size_line_unit(r->question->by), value, BRAKE_NEAREST);
    brake_text_print(stream, "\nVERDICTS THAT CHANGE at %s, hot performance aside\n", at);
    for (int i = 0; i < count; i++) {
        const struct brake_criterion *c = brake_criterion_at(change[i].criterion);
        char head[40];
        char text[400];
        char margin[40] = "";
        if (!isnan(change[i].margin))
            brake_text_format(margin, sizeof margin, ", margin %+.2g %%", 100.0 * change[i].margin);
        brake_text_format(head, sizeof head, "  %-11s  ", brake_verdict_words(change[i].to));
        brake_text_format(text, sizeof text, "%s%s; it %s now. [%s, %s]", c->title, margin,
                          brake_verdict_words(change[i].from), c->id, c->clause);
        brake_paragraph(stream, head, text);
    }
    if (count == 0)
        fputs("  None.\n", stream);
}

static void range_text(const struct brake_size_report *r, FILE *stream)
{
    char path[160];
    const bool answered = brake_size_answered(r->question, r->size);
    brake_catalogue_path(&r->sheet->vehicle, r->question->by, path, sizeof path);
    if (answered)
        answer(r, path, stream);
    else
        no_answer(r, path, stream);
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    if (!answered)
        limits(r, stream);
    now(r, stream);
    notes(r, stream);
    range(r, stream);
    for (int i = 0; i < r->size->roots.count; i++)
        changes_at(r, r->size->roots.root[i].x, stream);
}

/* ---- lists ---------------------------------------------------------------------------------- */

static void margin_words(double margin, const struct brake_target *target, char *text, size_t size)
{
    char name[80];
    brake_size_target_name(target, name, sizeof name);
    brake_text_format(text, size, "least margin %+.2g %%, of %s", 100.0 * margin, name);
}

static void combination(const struct brake_size_report *r, const struct brake_choice *choice,
                        char *text, size_t size)
{
    text[0] = '\0';
    for (int i = 0; i < r->lists->lists; i++) {
        const int by = r->lists->list[i].by;
        char path[160];
        char amount[80];
        brake_catalogue_path(&r->sheet->vehicle, by, path, sizeof path);
        brake_size_amount(amount, sizeof amount, brake_size_line_unit(by), choice->value[i],
                          BRAKE_NEAREST);
        brake_text_format(text + strlen(text), size - strlen(text), "%s%s %s", i > 0 ? ", " : "",
                          path, amount);
    }
}

static void failures(const struct brake_size_report *r, FILE *stream)
{
    const struct brake_choice_count *count = r->count;
    char text[700];
    for (int i = 0; i < r->targets; i++) {
        char goal[240];
        wanted(&r->target[i], goal, sizeof goal);
        brake_text_format(text, sizeof text, "%ld fall short of %s", count->fails[i], goal);
        brake_paragraph(stream, "  ", text);
    }
    if (count->unknown > 0)
        brake_text_print(stream, "  %ld cannot be said\n", count->unknown);
    if (count->refused > 0) {
        brake_text_format(text, sizeof text, "%ld refused: %s: %s", count->refused,
                          count->error.field, count->error.text);
        brake_paragraph(stream, "  ", text);
    }
}

static void choices_text(const struct brake_size_report *r, FILE *stream)
{
    char text[1100];
    char best[900];
    char margin[120];
    if (r->choices > 0) {
        combination(r, r->choice, best, sizeof best);
        brake_text_format(text, sizeof text, "%ld of %ld combinations work; most margin has %s.",
                          r->count->works, r->count->cases, best);
    } else {
        brake_text_format(text, sizeof text, "none of the %ld combinations works.",
                          r->count->cases);
    }
    brake_paragraph(stream, "Answer    ", text);
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    fputs("\nCOMBINATIONS THAT WORK, largest least margin first\n", stream);
    for (int i = 0; i < r->choices && i < SHOWN_CHOICES; i++) {
        char head[16];
        combination(r, &r->choice[i], best, sizeof best);
        margin_words(r->choice[i].margin, &r->target[r->choice[i].least], margin, sizeof margin);
        brake_text_format(text, sizeof text, "%s; %s", best, margin);
        brake_text_format(head, sizeof head, "  %3d  ", i + 1);
        brake_paragraph(stream, head, text);
    }
    if (r->choices == 0)
        fputs("  None.\n", stream);
    if (r->count->works > SHOWN_CHOICES)
        brake_text_print(stream, "  and %ld more\n", r->count->works - SHOWN_CHOICES);
    brake_text_print(stream, "\nOF %ld COMBINATIONS\n  %ld work\n", r->count->cases,
                     r->count->works);
    failures(r, stream);
}

/* ---- tyres ---------------------------------------------------------------------------------- */

const struct brake_tyre_choice *brake_size_largest(const struct brake_size_report *report)
{
    for (int i = report->tyres - 1; i >= 0; i--) {
        if (report->tyre[i].margin >= 0.0)
            return &report->tyre[i];
    }
    return NULL;
}

static void tyre_line(const struct brake_size_report *r, const struct brake_tyre_choice *tyre,
                      FILE *stream)
{
    char text[700];
    char amount[80];
    char margin[120] = "";
    if (tyre->error.status != BRAKE_OK) {
        brake_text_format(text, sizeof text, "%s: %s: %s", tyre->marking, tyre->error.field,
                          tyre->error.text);
        brake_paragraph(stream, "  refused      ", text);
        return;
    }
    brake_size_amount(amount, sizeof amount, brake_unit_find("mm"), tyre->diameter, BRAKE_NEAREST);
    if (!isnan(tyre->margin))
        margin_words(tyre->margin, &r->target[tyre->least], margin, sizeof margin);
    brake_text_format(text, sizeof text, "%s, %s, rolls %.4g m%s%s", tyre->marking, amount,
                      tyre->rollout, margin[0] ? "; " : "", margin);
    brake_paragraph(stream,
                    isnan(tyre->margin)   ? "  cannot say   "
                    : tyre->margin >= 0.0 ? "  meets        "
                                          : "  falls short  ",
                    text);
}

static void tyres_text(const struct brake_size_report *r, FILE *stream)
{
    const struct brake_tyre_choice *largest = brake_size_largest(r);
    char text[900];
    char goal[240];
    wanted(r->target, goal, sizeof goal);
    const char *rest = r->targets > 1 ? " and does what else was asked" : "";
    if (largest != NULL)
        brake_text_format(text, sizeof text,
                          "%s is the largest of these tyres that the brakes carry: it %s %s%s.",
                          largest->marking, verb(r->target), goal, rest);
    else
        brake_text_format(text, sizeof text, "the brakes carry none of these tyres: none %s %s%s.",
                          verb(r->target), goal, rest);
    brake_paragraph(stream, "Answer    ", text);
    brake_paragraph(stream, "Caution   ", BRAKE_CAUTION);
    brake_paragraph(stream, "          ", BRAKE_SIZE_TYRES_NOTE);
    fputs("\nTYRES, smallest first\n", stream);
    for (int i = 0; i < r->tyres; i++)
        tyre_line(r, &r->tyre[i], stream);
}

/* ---- whole reports -------------------------------------------------------------------------- */

void brake_report_size_text(const struct brake_size_report *report, FILE *stream)
{
    const char *name = report->sheet->vehicle.general.name;
    brake_text_print(stream, "%s\n", name[0] != '\0' ? name : "Vehicle without a name");
    if (report->size != NULL)
        range_text(report, stream);
    else if (report->lists != NULL)
        choices_text(report, stream);
    else
        tyres_text(report, stream);
    brake_text_print(stream, "\nlibbrake %s\n", BRAKE_VERSION);
}

int brake_report_size_exit(const struct brake_size_report *report)
{
    bool said = false;
    if (report->size != NULL) {
        said = report->size->roots.known > 0;
        return brake_size_answered(report->question, report->size) ? 0 : said ? 1 : 3;
    }
    if (report->lists != NULL)
        return report->choices > 0 ? 0 : report->count->unknown < report->count->cases ? 1 : 3;
    for (int i = 0; i < report->tyres; i++)
        said = said || !isnan(report->tyre[i].margin);
    return brake_size_largest(report) != NULL ? 0 : said ? 1 : 3;
}
