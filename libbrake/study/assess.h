/* SPDX-License-Identifier: MIT */
/* The parts of an assessment; private to the library. */
#ifndef BRAKE_STUDY_ASSESS_H
#define BRAKE_STUDY_ASSESS_H

#include "brake/assessment.h"

/** Assess a vehicle at face value, hot performance aside: brake_assess_fade goes on with that, and
 * brake_assess_conformance with how sure it is and the words.
 * @param sheet       complete
 * @param rules       families to judge by, bits of enum brake_rules
 * @param assessment  filled
 */
void brake_assess(const struct brake_sheet *sheet, unsigned rules,
                  struct brake_assessment *assessment);

/** Draw a vehicle, put the words into its judgements and count them.
 * @param sheet       complete
 * @param faded       whether brake_assess_fade has been there
 * @param watch       told the samples of hot performance; NULL: nobody
 * @param room        for the drawing
 * @param assessment  as the others left it
 * @return            true; false when it was told to stop
 */
bool brake_assess_conformance(const struct brake_sheet *sheet, bool faded,
                              const struct brake_watch *watch, struct brake_conformance_room *room,
                              struct brake_assessment *assessment);

/** Count the verdicts anew after a judgement has changed.
 * @param vehicle     complete
 * @param assessment  judged; its counts and its limiting criterion are filled
 */
void brake_assessment_count(const struct brake_vehicle *vehicle,
                            struct brake_assessment *assessment);

#endif
