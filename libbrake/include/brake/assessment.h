/* SPDX-License-Identifier: MIT */
/** @file assessment.h
 * Everything that is said of one vehicle: results, judgements, how sure they are, warnings.
 */
#ifndef BRAKE_ASSESSMENT_H
#define BRAKE_ASSESSMENT_H

#include "brake/before.h"
#include "brake/catalogue.h"
#include "brake/criteria.h"
#include "brake/evaluate.h"
#include "brake/conformance.h"
#include "brake/warnings.h"
#include "brake/watch.h"

#ifdef __cplusplus
extern "C" {
#endif

struct brake_repair;

/** What is said of a vehicle. */
struct brake_assessment {
    unsigned rules; /**< families judged */
    struct brake_results results;
    struct brake_judgement judgement[BRAKE_CRITERIA]; /**< by number of the criterion */
    struct brake_conformances conformance;            /**< what the words follow from */
    struct brake_warning warning[BRAKE_WARNINGS];
    int warnings; /**< how many there are */
    struct brake_ruling ruling;
    const struct brake_before *before; /**< what it was before; NULL: not told */
    const struct brake_repair *repair; /**< what would mend it; NULL: not looked for */
    int limiting; /**< criterion that counts and is least often met; of equals that of the least
                       margin; -1: none */
};

/** Exit status of a command that assessed a vehicle.
 * @param assessment  filled
 * @return            0 all that counts is met; 1 one of it falls short; 3 something cannot be said
 */
int brake_assessment_exit(const struct brake_assessment *assessment);

/** Room for an assessment, as large as the library that runs has it.
 * @return  to be freed by brake_assessment_free; NULL when memory is short
 */
struct brake_assessment *brake_assessment_new(void);

/** Free an assessment.
 * @param assessment  of brake_assessment_new; NULL does nothing
 */
void brake_assessment_free(struct brake_assessment *assessment);

/** Assess a vehicle from begin to end: hot performance, how sure it is, and the words.
 * @param sheet       complete
 * @param rules       families to judge by, bits of enum brake_rules
 * @param watch       told the samples, may stop them; NULL: nobody
 * @param assessment  filled
 * @return            true; false when it was told to stop, or memory is short
 */
bool brake_assess_whole(const struct brake_sheet *sheet, unsigned rules,
                        const struct brake_watch *watch, struct brake_assessment *assessment);

/** The same without heat: its rows are not judged, and do not count.
 * @param sheet       complete
 * @param rules       families to judge by, bits of enum brake_rules
 * @param assessment  filled
 * @return            true; false when memory is short
 */
bool brake_assess_cold(const struct brake_sheet *sheet, unsigned rules,
                       struct brake_assessment *assessment);

/** Hold an assessed vehicle against what it was before: less torque per need is a hazard.
 * @param assessment  of brake_assess_whole; its ruling counts the hazard
 * @param before      drawn; kept
 */
void brake_assess_before(struct brake_assessment *assessment, const struct brake_before *before);

/** Verdict on the whole vehicle: that of its ruling.
 * @param assessment  filled
 * @return            one of three
 */
enum brake_verdict brake_assessment_verdict(const struct brake_assessment *assessment);

#ifdef __cplusplus
}
#endif

#endif
