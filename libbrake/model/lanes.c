/* SPDX-License-Identifier: MIT */
#include "lanes.h"

#include "lane_answers.h"

/* Of 64 lanes; each loop takes in all that it calls. */
static inline void answer_all(unsigned asked, const struct brake_lane_numbers *restrict numbers,
                              struct brake_lane_answers *restrict answers)
{
    struct lane_pieces kept;
    const bool stop = (asked & BRAKE_LANES_STOP) != 0;
    const bool target = (asked & BRAKE_LANES_TARGET) != 0;
    const bool itself = (asked & BRAKE_LANES_ITSELF) != 0;
    const bool parking = (asked & BRAKE_LANES_PARKING) != 0;
    const bool rated = (asked & BRAKE_LANES_RATED) != 0;
    const bool fluid = target && (asked & BRAKE_LANES_FLUID) == BRAKE_LANES_FLUID;
    const bool after = stop && (asked & BRAKE_LANES_AFTER) == BRAKE_LANES_AFTER;
    const bool failed = (asked & BRAKE_LANES_FAILED) != 0;
    for (int lane = 0; lane < BRAKE_LANES && (stop || target || itself); lane++)
        keep_pieces(numbers, true, lane, &kept);
    for (int lane = 0; lane < BRAKE_LANES && stop; lane++)
        answer_stop(numbers, &kept, lane, answers);
    for (int lane = 0; lane < BRAKE_LANES && target; lane++)
        answer_target(numbers, &kept, lane, answers);
    for (int lane = 0; lane < BRAKE_LANES && itself; lane++)
        answer_itself(numbers, &kept, lane, answers);
    for (int lane = 0; lane < BRAKE_LANES && itself; lane++)
        answer_locked(numbers, &kept, lane, answers);
    for (int lane = 0; lane < BRAKE_LANES && parking; lane++)
        answer_parking(numbers, lane, answers);
    for (int lane = 0; lane < BRAKE_LANES && rated; lane++)
        answer_rated(numbers, lane, answers);
    for (int lane = 0; lane < BRAKE_LANES && fluid; lane++)
        answer_fluid(numbers, lane, answers);
    for (int lane = 0; lane < BRAKE_LANES && after; lane++)
        answer_after(numbers, &kept, lane, answers);
    for (int lane = 0; lane < BRAKE_LANES && failed; lane++)
        keep_pieces(numbers, false, lane, &kept);
    for (int lane = 0; lane < BRAKE_LANES && failed; lane++)
        answer_failed(numbers, &kept, lane, answers);
}

#define WHOLE __attribute__((flatten))

WHOLE void brake_lanes_answer_narrow(unsigned asked,
                                     const struct brake_lane_numbers *restrict numbers,
                                     struct brake_lane_answers *restrict answers)
{
    answer_all(asked, numbers, answers);
}

#ifdef __x86_64__
/* In registers of four doubles. */
WHOLE __attribute__((target("avx2"))) static void
answer_wide(unsigned asked, const struct brake_lane_numbers *restrict numbers,
            struct brake_lane_answers *restrict answers)
{
    answer_all(asked, numbers, answers);
}

/* In registers of eight. */
#ifdef __clang__
#define EIGHT "avx512f,avx512dq,avx512vl"
#else
#define EIGHT "avx512f,avx512dq,avx512vl,prefer-vector-width=512"
#endif
WHOLE __attribute__((target(EIGHT))) static void
answer_widest(unsigned asked, const struct brake_lane_numbers *restrict numbers,
              struct brake_lane_answers *restrict answers)
{
    answer_all(asked, numbers, answers);
}

static bool has_eight(void)
{
    return __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
           __builtin_cpu_supports("avx512vl");
}
#endif

void brake_lanes_answer(unsigned asked, const struct brake_lane_numbers *restrict numbers,
                        struct brake_lane_answers *restrict answers)
{
    void (*answer)(unsigned, const struct brake_lane_numbers *restrict,
                   struct brake_lane_answers *restrict) = brake_lanes_answer_narrow;
#ifdef __x86_64__
    if (__builtin_cpu_supports("avx2"))
        answer = answer_wide;
    if (has_eight())
        answer = answer_widest;
#endif
    answer(asked, numbers, answers);
}
