/* A drive in words: the verdict, what marks a stop, how the stops are alike, fade, friction. */
#include "words_drive.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include "vehicle/text.h"

static double in(const char *unit, double value)
{
    return brake_unit_from_si(brake_unit_find(unit), value);
}

/* ---- verdict -------------------------------------------------------------------------------- */

static const char *const agreement_words[] = {
    [BRAKE_AGREES] = "agrees with the prediction",
    [BRAKE_BELOW] = "MEASURED BELOW the prediction",
    [BRAKE_ABOVE] = "does not agree: measured above the prediction",
    [BRAKE_NOT_SAID] = "cannot say whether it agrees with the prediction"};

static void figures(const struct brake_drive *drive, char *text, size_t size)
{
    const double foot = brake_unit_find("ft")->factor;
    brake_text_format(
        text, size,
        "measured %.2f +- %.2f m/s2 against %.2f +- %.2f m/s2 (%.1f +- %.1f against %.1f +- "
        "%.1f ft/s2), 90 of 100 each",
        drive->measured.value, drive->measured.half, drive->predicted.value, drive->predicted.half,
        drive->measured.value / foot, drive->measured.half / foot, drive->predicted.value / foot,
        drive->predicted.half / foot);
}

/* Why nothing, or only a bound, could be said. */
static const char *reason(const struct brake_drive *drive)
{
    if (drive->counted == 0)
        return "no stop of this log counts";
    if (drive->compared == 0)
        return "the log has neither pedal force nor pressure, so that only the hardest stop can "
               "be held against the most that the vehicle should do";
    return "the prediction cannot be given";
}

void brake_words_drive_verdict(const struct brake_drive_report *report, char *text, size_t size)
{
    const struct brake_drive *drive = report->drive;
    char numbers[200] = "";
    if (!isnan(drive->measured.value))
        figures(drive, numbers, sizeof numbers);
    if (drive->compared > 0 && drive->agreement != BRAKE_NOT_SAID)
        brake_text_format(text, size, "%s in %d of %d stops taken together: %s",
                          agreement_words[drive->agreement], drive->compared, drive->stops,
                          numbers);
    else
        brake_text_format(text, size, "%s: %s%s%s", agreement_words[drive->agreement],
                          reason(drive), numbers[0] != '\0' ? "; " : "", numbers);
}

/* ---- what marks a stop ----------------------------------------------------------------------- */

static const struct brake_stop_mark marks[] = {
    {BRAKE_STOP_GAP, "gap", "rows are missing here"},
    {BRAKE_STOP_WHEEL_LOCK, "wheel_lock",
     "the wheel drops out of the vehicle's speed and comes back: it locked"},
    {BRAKE_STOP_JUMP, "jump",
     "the speed changes more than tyres can do: a wheel that locks to the end, or a jump of the "
     "log"},
    {BRAKE_STOP_COARSE, "coarse", "too few rows or too much noise to give a figure"},
    {BRAKE_STOP_BEGUN, "begun", "the brakes were on when the log began: no distance"},
};

const struct brake_stop_mark *brake_stop_mark_at(int index)
{
    return index < (int)(sizeof marks / sizeof marks[0]) ? &marks[index] : NULL;
}

/* ---- how it was measured ---------------------------------------------------------------------- */

const char *brake_words_drive_method(const struct brake_drive *drive, int index)
{
    const char *const sentences[] = {
        drive->timed ? "distance: from the foot's coming on to rest, by integration"
                     : "distance: the log does not tell when the foot came on, so it is counted "
                       "from where the developed deceleration, carried on to the initial speed, "
                       "begins: dead time and half of the build-up are not in it",
        "at nom.: brought to the nominal speed by the square (SAE J299, from memory); developed: "
        "mean between 0.8 and 0.1 of the initial speed (UN R13-H, Annex 3, 1.1.2); check against "
        "the current text",
        "+-: 90 of 100, by noise and sampling interval; scale and lag of the instrument are not in "
        "it",
        NULL};
    return sentences[index];
}

void brake_words_drive_log(const struct brake_drive_report *report, char *text, size_t size)
{
    const struct brake_drive *drive = report->drive;
    brake_text_format(
        text, size, "%ld rows, one every %.3g s; %d stop%s, %d of them count%s; load %s, %.0f kg",
        report->log->rows, drive->interval, drive->stops, drive->stops == 1 ? "" : "s",
        drive->counted, drive->counted == 1 ? "s" : "", brake_load_word(report->load),
        brake_vehicle_body(&report->sheet->vehicle, report->load).mass);
    if (drive->gentle > 0)
        brake_text_format(text + strlen(text), size - strlen(text),
                          "; %d more slower than 1 m/s2, taken as rolling to rest", drive->gentle);
}

/* ---- repeatability, fade, friction ------------------------------------------------------------ */

void brake_words_drive_repeat(const struct brake_repeat *r, char *text, size_t size)
{
    char developed[100] = "";
    char distance[100] = "";
    if (r->stops > 1) {
        brake_text_format(developed, sizeof developed, ", deviation %.2f, range %.2f to %.2f",
                          r->spread[0], r->least[0], r->most[0]);
        brake_text_format(distance, sizeof distance, ", deviation %.1f m, range %.1f to %.1f m",
                          r->spread[1], r->least[1], r->most[1]);
    }
    brake_text_format(
        text, size,
        "from %.0f km/h (%.0f mph), %d stop%s: %.2f m/s2 (%.1f ft/s2)%s; distance %.1f m (%.0f "
        "ft)%s",
        3.6 * r->nominal, in("mph", r->nominal), r->stops, r->stops > 1 ? "s" : "", r->mean[0],
        in("ft/s2", r->mean[0]), developed, r->mean[1], in("ft", r->mean[1]), distance);
}

void brake_words_drive_scatter(const struct brake_drive *drive, char *text, size_t size)
{
    text[0] = '\0';
    if (!isnan(drive->scatter))
        brake_text_format(
            text, size,
            "measured over predicted, %d stops: deviation %.1f %%; without what the foot "
            "pressed harder or softer",
            drive->compared, 100.0 * drive->scatter);
}

void brake_words_drive_fade(const struct brake_drive *drive, char *text, size_t size)
{
    const struct brake_measured *f = &drive->fade;
    if (isnan(f->value)) {
        brake_text_format(text, size, "cannot say: three stops that count are needed");
        return;
    }
    const bool known = fabs(f->value) > f->half;
    brake_text_format(text, size,
                      "%s from first to last: %+.1f %%, 90 of 100 within %+.1f to %+.1f %%; %s",
                      drive->compared > 0 ? "measured over predicted" : "deceleration",
                      100.0 * f->value, 100.0 * (f->value - f->half), 100.0 * (f->value + f->half),
                      !known           ? "no trend that the log could show"
                      : f->value < 0.0 ? "the brakes FADE"
                                       : "the brakes get better, as pads that bed in do");
}

void brake_words_drive_friction(const struct brake_drive_report *report, char *text, size_t size)
{
    const struct brake_measured *f = &report->drive->friction;
    if (isnan(f->value)) {
        brake_text_format(
            text, size, "%s",
            report->drive->compared == 0
                ? "cannot say without pedal force or pressure"
                : "cannot say: the tyres limited every stop, or no friction between a "
                  "tenth and three times that of the file explains it");
        return;
    }
    brake_text_format(
        text, size,
        "%.2f times that of the file on both axles, 90 of 100 within %.2f to %.2f, the other "
        "lines being as the file has them",
        f->value, f->value - f->half, f->value + f->half);
    for (int axle = 0; axle < BRAKE_AXLES; axle++) {
        const struct brake_axle_of_vehicle *at = &report->sheet->vehicle.axle[axle];
        const double mu = at->axle.brake == BRAKE_DISC ? at->pads.mu : at->lining.mu;
        const size_t used = strlen(text);
        if (!isnan(mu))
            brake_text_format(text + used, size - used, "; %s mu %.3f in place of %.3f",
                              brake_axle_word((enum brake_axle)axle), f->value * mu, mu);
    }
}
