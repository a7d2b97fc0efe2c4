/* SPDX-License-Identifier: MIT */
/* What the changes did to the brake torque per need. */
#include <math.h>
#include <stdlib.h>

#include "parts.h"
#include "study/change.h"

static const char *const axles[] = {"front axle", "rear axle", "both axles"};

const char brake_part_loss_name[] = "torque per need of before";

/* "18 % less", "as before", "5 % more". */
static const char *loss_of(struct brake_document *d, double ratio)
{
    const double change = 100.0 * (ratio - 1.0);
    if (fabs(change) < 0.5)
        return "as before";
    return brake_document_words(d, "%.0f %% %s", fabs(change), change < 0.0 ? "less" : "more");
}

static const double shown = 0.005; /* half a percent is told as 1 % */

static const char *shares_of(struct brake_document *d, const struct brake_regained *r)
{
    int order[BRAKE_CHANGES];
    const int count = brake_part_largest(r->share, shown, order);
    const char *all = NULL;
    for (int i = 0; i < count; i++)
        all = brake_document_join(
            d, all, ", ",
            brake_document_words(d, "%s %+.0f %%", brake_change_name((enum brake_change)order[i]),
                                 100.0 * r->share[order[i]]));
    return all;
}

/* How sure the loss, or the gain, is. */
static const char *surely(struct brake_document *d, const struct brake_before *b)
{
    const double limit = 100.0 * BRAKE_AS_BEFORE;
    if (b->less > 0.5)
        return brake_document_words(d, "more than %.0f %% less in %.0f of 100", limit,
                                    100.0 * b->less);
    if (b->more > 0.5)
        return brake_document_words(d, "more than %.0f %% more in %.0f of 100", limit,
                                    100.0 * b->more);
    return brake_document_words(d, "within %.0f %% in %.0f of 100", limit,
                                100.0 * (1.0 - b->less - b->more));
}

/* "13 to 15 %" of one sense, "15 % less to 10 % more" otherwise. */
static const char *span_of(struct brake_document *d, const struct brake_regained *r)
{
    const double low = 100.0 * (r->low - 1.0);
    const double high = 100.0 * (r->high - 1.0);
    if (low < 0.0 && high > 0.0)
        return brake_document_words(d, "%.0f %% less to %.0f %% more", -low, high);
    return brake_document_words(d, "%.0f to %.0f %%", fmin(fabs(low), fabs(high)),
                                fmax(fabs(low), fabs(high)));
}

static bool has_ends(const struct brake_regained *r)
{
    return fabs(r->unlimited - r->ratio) > shown;
}

const char *brake_part_changes(struct brake_document *d, const struct brake_before *b)
{
    const struct brake_regained *both = &b->of[BRAKE_BOTH_AXLES];
    if (isnan(both->ratio))
        return "cannot say: the brake torque per need is not known of both vehicles.";
    const char *shares = shares_of(d, both);
    const char *floor = has_ends(both)
                            ? brake_document_words(d, " Did the pedal not reach its end: %s.",
                                                   loss_of(d, both->unlimited))
                            : "";
    return brake_document_words(
        d, "%s in brake torque per need, %s (load %s; %s)%s%s. Front axle %s, rear axle %s.%s",
        loss_of(d, both->ratio), span_of(d, both), brake_load_word(b->load), surely(d, b),
        shares != NULL ? ": " : "", shares != NULL ? shares : "",
        loss_of(d, b->of[BRAKE_FRONT].ratio), loss_of(d, b->of[BRAKE_REAR].ratio), floor);
}

const char *brake_part_loss(struct brake_document *d, const struct brake_assessment *a)
{
    if (a->before == NULL || isnan(a->before->of[BRAKE_BOTH_AXLES].ratio))
        return NULL;
    const double met = 1.0 - a->before->less;
    if (a->limiting >= 0 && !(met < a->conformance.of[a->limiting].met))
        return NULL;
    const struct brake_unit *percent = brake_unit_find("%");
    const double ratio = a->before->of[BRAKE_BOTH_AXLES].ratio;
    return brake_document_words(
        d, "Brake torque per need, of what it was before: %s against at least %s, met by %s. [%s]",
        brake_document_amount(d, brake_cell_number(ratio, percent)),
        brake_document_amount(d, brake_cell_number(1.0 - BRAKE_AS_BEFORE, percent)),
        brake_part_share(d, met), brake_part_loss_name);
}

void brake_part_before(struct brake_document *d, const struct brake_before *b)
{
    struct brake_column column[6 + BRAKE_CHANGES] = {{"axle", NULL, BRAKE_COLUMN},
                                                     {"ratio", NULL, BRAKE_COLUMN},
                                                     {"ratio_p05", NULL, BRAKE_COLUMN},
                                                     {"ratio_p95", NULL, BRAKE_COLUMN},
                                                     {"ratio_without_ends", NULL, BRAKE_COLUMN}};
    int columns = 5;
    for (int i = 0; i < BRAKE_CHANGES; i++)
        column[columns++] = (struct brake_column){
            brake_document_words(d, "shares.%s", brake_change_word((enum brake_change)i)), NULL,
            BRAKE_COLUMN};
    brake_document_section(d, "changes", NULL);
    brake_document_say(d, NULL, "Changes", brake_part_changes(d, b));
    brake_document_fact(d, "before", NULL, brake_cell_text(brake_part_name(b->sheet)));
    brake_document_fact(d, "load", NULL, brake_cell_text(brake_load_word(b->load)));
    brake_document_fact(d, "p_less", NULL, brake_cell_number(b->less, NULL));
    brake_document_fact(d, "p_more", NULL, brake_cell_number(b->more, NULL));
    brake_document_fact(d, "verdict", NULL, brake_cell_text(brake_verdict_words(b->verdict)));
    brake_document_table(
        d, &(struct brake_table){.key = "torque_per_need", .column = column, .columns = columns});
    for (int axle = 0; axle <= BRAKE_BOTH_AXLES; axle++) {
        const struct brake_regained *r = &b->of[axle];
        struct brake_cell cell[6 + BRAKE_CHANGES] = {
            brake_cell_text(axles[axle]), brake_cell_number(r->ratio, NULL),
            brake_cell_number(r->low, NULL), brake_cell_number(r->high, NULL),
            brake_cell_number(r->unlimited, NULL)};
        for (int i = 0; i < BRAKE_CHANGES; i++)
            cell[5 + i] = brake_cell_number(r->share[i], NULL);
        brake_document_row(d, cell);
    }
    brake_document_end(d);
}
