/* SPDX-License-Identifier: MIT */
/* Figures of two fade procedures that must be one another's bits. */
#ifndef TESTS_STUDY_FIGURES_H
#define TESTS_STUDY_FIGURES_H

#include "../vehicle/sheet.h"

#include "criteria/judge.h"

static inline void assert_same_figures(const struct brake_hot_figures *a,
                                       const struct brake_hot_figures *b)
{
    assert_memory_equal(&a->cold, &b->cold, sizeof a->cold);
    assert_memory_equal(a->hot, b->hot, sizeof a->hot);
    assert_memory_equal(&a->recovery, &b->recovery, sizeof a->recovery);
    assert_memory_equal(&a->fluid_room, &b->fluid_room, sizeof a->fluid_room);
    assert_true(a->lacks == b->lacks);
}

#endif
