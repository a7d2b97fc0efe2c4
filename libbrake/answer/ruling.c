/* SPDX-License-Identifier: MIT */
/* What the verdicts come to, in one sentence for all answers. */
#include "parts.h"

#include "brake/catalogue.h"

static int all_of(const struct brake_tally *t)
{
    return t->meets + t->falls_short + t->cannot_say;
}

/* "3 met, 1 short, 2 open, 1 lacks an input". */
static const char *tally(struct brake_document *d, const struct brake_tally *t)
{
    const struct {
        int count;
        const char *word;
    } of[] = {{t->meets, "met"},
              {t->falls_short, "short"},
              {t->cannot_say - t->lacking, "may be either way"},
              {t->lacking, "without an input"}};
    const char *all = NULL;
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        if (of[i].count > 0)
            all = brake_document_join(d, all, ", ",
                                      brake_document_words(d, "%d %s", of[i].count, of[i].word));
    }
    return all != NULL ? all : "none";
}

/* Country, use and year, as far as they are known. */
static const char *who(struct brake_document *d, const struct brake_vehicle *vehicle)
{
    const struct brake_general_lines *g = &vehicle->general;
    const int country = brake_catalogue_find(NULL, "vehicle.country");
    const int use = brake_catalogue_find(NULL, "vehicle.use");
    return brake_document_words(d, "%s, %s, %.0f", brake_quantity_at(country)->choices[g->country],
                                brake_quantity_at(use)->choices[g->use], g->first_registered);
}

static const char *binding(struct brake_document *d, const struct brake_vehicle *vehicle,
                           const struct brake_ruling *r)
{
    const struct brake_tally *t = &r->of[BRAKE_BINDS];
    if (r->unstated != NULL)
        return brake_document_words(d, "What binds it is not known: %s is left out", r->unstated);
    if (all_of(t) == 0)
        return brake_document_words(d, "Nothing that was looked at binds it (%s)", who(d, vehicle));
    return brake_document_words(d, "Of what binds it (%s): %s%s", who(d, vehicle), tally(d, t),
                                r->unread == all_of(t) ? "; none of that was read in its text"
                                                       : "");
}

/* Families that bind and were not asked for. */
static const char *left_out(struct brake_document *d, unsigned families)
{
    const char *all = NULL;
    const char *word;
    unsigned rules;
    for (int i = 0; (word = brake_rules_at(i, &rules)) != NULL; i++) {
        if (rules != BRAKE_RULES_ALL && (families & rules) != 0)
            all = brake_document_join(d, all, ", ", word);
    }
    return all != NULL ? brake_document_words(d, ". NOT LOOKED AT, though it binds: %s", all) : "";
}

const char *brake_part_ruling(struct brake_document *d, const struct brake_vehicle *vehicle,
                              const struct brake_ruling *r)
{
    static const char *const words[] = {[BRAKE_MEETS] = "meets",
                                        [BRAKE_FALLS_SHORT] = "FALLS SHORT",
                                        [BRAKE_CANNOT_SAY] = "cannot say"};
    return brake_document_words(d, "%s. %s. Hazards: %s%s", words[r->verdict],
                                binding(d, vehicle, r), tally(d, &r->of[BRAKE_HAZARD]),
                                left_out(d, r->left_out));
}

const char *brake_part_yardsticks(struct brake_document *d, const struct brake_ruling *r)
{
    const struct brake_tally *t = &r->of[BRAKE_YARDSTICK];
    return all_of(t) > 0 ? tally(d, t) : NULL;
}

const char *brake_part_now(struct brake_document *d, const struct brake_vehicle *vehicle,
                           const struct brake_ruling *r, bool hot)
{
    return brake_document_words(d, "%s (%s)", brake_part_ruling(d, vehicle, r),
                                hot ? "stopmargin check" : "cold; hot: stopmargin check");
}
