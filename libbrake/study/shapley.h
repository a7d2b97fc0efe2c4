/* SPDX-License-Identifier: MIT */
/* Shares of players in what they reach together; private to the library. */
#ifndef BRAKE_STUDY_SHAPLEY_H
#define BRAKE_STUDY_SHAPLEY_H

#include "brake/compare.h"

/** Shapley values of a game.
 * @param players  0 to BRAKE_PLAYERS
 * @param value    [any] of each coalition, player i in it when its number has the bit 1 << i
 * @param stride   from one coalition's value to the next
 * @param share    [any] room for a number a player, filled
 * @return         true; false, and NaN for all, when the value of a coalition is not finite; false,
 *                 and nothing filled, when the players are too many
 * @source         Shapley, A Value for n-Person Games, 1953; from memory
 */
bool brake_shapley(int players, const double *value, size_t stride, double *share);

#endif
