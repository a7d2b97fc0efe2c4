/* SPDX-License-Identifier: MIT */
/** @file brake.h
 * libbrake: are the brakes of a modified road vehicle still adequate? The whole library.
 *
 * CAUTION. A calculation is not an approval. Local codes rule, and road brakes must be checked by a
 * qualified inspector before the vehicle is driven on the road.
 *
 * The model (tyre to heat) is pure functions over SI numbers: no allocation, no input or output, no
 * state. A vehicle is read (file.h), completed (catalogue.h), evaluated (evaluate.h), judged
 * (criteria.h), assessed as a whole (assessment.h) and reported (report.h).
 */
#ifndef BRAKE_BRAKE_H
#define BRAKE_BRAKE_H

#include "brake/answer.h"
#include "brake/assessment.h"
#include "brake/balance.h"
#include "brake/before.h"
#include "brake/braking.h"
#include "brake/catalogue.h"
#include "brake/distribution.h"
#include "brake/compare.h"
#include "brake/constants.h"
#include "brake/convection.h"
#include "brake/cooldown.h"
#include "brake/criteria.h"
#include "brake/curves.h"
#include "brake/disc.h"
#include "brake/document.h"
#include "brake/drivelog.h"
#include "brake/drum.h"
#include "brake/duty.h"
#include "brake/evaluate.h"
#include "brake/file.h"
#include "brake/fit.h"
#include "brake/friction.h"
#include "brake/gradient.h"
#include "brake/heat.h"
#include "brake/heats.h"
#include "brake/identify.h"
#include "brake/knowledge.h"
#include "brake/load.h"
#include "brake/measuring.h"
#include "brake/log.h"
#include "brake/output.h"
#include "brake/paper.h"
#include "brake/parking.h"
#include "brake/pedal.h"
#include "brake/repair.h"
#include "brake/report.h"
#include "brake/results.h"
#include "brake/rig.h"
#include "brake/roots.h"
#include "brake/shakedown.h"
#include "brake/size.h"
#include "brake/samples.h"
#include "brake/spread.h"
#include "brake/status.h"
#include "brake/stop.h"
#include "brake/sweep.h"
#include "brake/system.h"
#include "brake/thermal.h"
#include "brake/conformance.h"
#include "brake/tolerance.h"
#include "brake/tow.h"
#include "brake/tyre.h"
#include "brake/units.h"
#include "brake/vehicle.h"
#include "brake/version.h"
#include "brake/warnings.h"
#include "brake/watch.h"

#endif
