/* Counting the verdicts of an assessment; private to the library. */
#ifndef BRAKE_STUDY_ASSESS_H
#define BRAKE_STUDY_ASSESS_H

#include "brake/assessment.h"

/** Count the verdicts anew after a judgement has changed.
 * @param assessment  judged; its counts and its limiting criterion are filled
 */
void brake_assessment_count(struct brake_assessment *assessment);

#endif
