/** @file fade.h
 * Hot performance: a published fade procedure run on a vehicle at full load.
 *
 * A cold stop; the heating snubs, and beside the procedure half an hour parked right after them; a
 * stop at the mean pedal force of the cold one and a stop at the most that is allowed; cooling
 * stops; a last stop at the cold one's force. All stops are at the verge of lock. A stop that fluid
 * or brakes cannot give counts as none. FMVSS 135, S7.13 to S7.16; UN R13-H, Annex 3, 1.5; UN R13,
 * Annex 4, 1.5: from memory, check against the current text.
 */
#ifndef BRAKE_FADE_H
#define BRAKE_FADE_H

#include "brake/assessment.h"
#include "brake/duty.h"
#include "brake/watch.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Run what the criteria of an assessment need, judge them, and put the results of the vehicle's
 * own category and the warnings into it.
 * @param sheet       complete
 * @param watch       of the longest part; NULL: nobody
 * @param assessment  as brake_assess left it
 */
void brake_assess_fade(const struct brake_sheet *sheet, const struct brake_watch *watch,
                       struct brake_assessment *assessment);

#ifdef __cplusplus
}
#endif

#endif
