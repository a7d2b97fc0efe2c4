/* SPDX-License-Identifier: MIT */
/* Worked examples of textbooks and standards, held against the library.
 *
 * Givens and answers live in reference/check-values.json. A test asks for the givens of a case,
 * lets the library work the example and hands each answer to check(). Everything is in SI.
 */
#ifndef TESTS_PUBLISHED_H
#define TESTS_PUBLISHED_H

/* Every test, one a published case, in the order of the data. */
#define PUBLISHED_CASES(X)                                                                         \
    X(cv_01_sector_pad)                                                                            \
    X(cv_02_uniform_wear_torque)                                                                   \
    X(cv_03_pad_angle)                                                                             \
    X(cv_04_fixed_and_floating_caliper)                                                            \
    X(cv_05_short_shoes)                                                                           \
    X(cv_06_long_shoes)                                                                            \
    X(cv_07_four_shoes)                                                                            \
    X(cv_08_brake_factors)                                                                         \
    X(cv_09_band_brake)                                                                            \
    X(cv_10_hydraulic_chain)                                                                       \
    X(cv_11_vacuum_booster)                                                                        \
    X(cv_12_front_rear_or_all_brakes)                                                              \
    X(cv_13_ideal_proportioning)                                                                   \
    X(cv_14_which_axle_locks_first)                                                                \
    X(cv_15_stop_on_a_grade)                                                                       \
    X(cv_16_stopping_sight_distance)                                                               \
    X(cv_17_mean_fully_developed_deceleration)                                                     \
    X(cv_18_reaction_and_build_up)                                                                 \
    X(cv_19_rotating_parts)                                                                        \
    X(cv_20_tyre_diameter)                                                                         \
    X(cv_21_truck_brake_torque)                                                                    \
    X(cv_22_holding_on_a_grade)                                                                    \
    X(cv_23_energy_to_heat)                                                                        \
    X(cv_24_half_space_constant_flux)                                                              \
    X(cv_25_half_space_falling_flux)                                                               \
    X(cv_26_slab)                                                                                  \
    X(cv_27_repeated_and_downhill_braking)                                                         \
    X(cv_28_cooling)                                                                               \
    X(cv_29_heat_partition)                                                                        \
    X(cv_30_thermal_stress)                                                                        \
    X(cv_31_circular_pad)

#define PUBLISHED_DECLARE(name) void name(void **state);
PUBLISHED_CASES(PUBLISHED_DECLARE)
#undef PUBLISHED_DECLARE

/* A given of a case in SI; temperatures in K. */
double given(const char *case_id, const char *name);

/* The exact answer of a row in SI, for a row that starts from the answer of another. */
double answer(const char *case_id, const char *key);

/* Holds a value in SI against a row: within 1e-5 of the exact answer and within the row's own
 * tolerance of the printed one. Fails for a case without a source. */
void check(const char *case_id, const char *key, double value_in_si);

/* Argument between low and high at which a monotone function of it takes a value. */
double solve(double (*function)(double argument, const void *with), const void *with, double value,
             double low, double high);

/* Group fixtures: read and drop the data. */
int read_check_values(void **state);
int drop_check_values(void **state);

/* Fails, naming them, when a row was not checked, or more than once. */
void every_row_is_checked_once(void **state);

#endif
