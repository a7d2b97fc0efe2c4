/* SPDX-License-Identifier: MIT */
/** @file thermal.h
 * Heat in one brake over time: conduction through the rotor or drum wall, rim and hat, pads,
 * backing plates, piston, fluid and caliper, cooling by air and radiation.
 *
 *   wall     rho c(T) dT/dt = d/dx (k(T) dT/dx), in finite volumes that are thinnest at the rubbed
 *            face; a cell holds the enthalpy m integral of c dT, neighbours exchange
 *            A (theta_i - theta_j) / distance with theta = integral of k dT
 *   lumps    C dT/dt = sum of conductance times difference
 *   chain    body - fluid - piston - plate - pad - (rubbed) wall (back) - rim - hat
 *   friction power P: the face gets share P, the pad the rest; with a contact conductance G they
 *            also exchange G (T_face - T_pad) while the brake is applied: share 1 and a contact
 *            means that both have one temperature at the interface
 *   face     T_f from the balance of conduction through half a cell, friction, contact, convection
 *            and radiation, the last two at the coefficient of the cell's temperature
 *   losses   h A (T - T_air) + eps sigma A (T^4 - T_air^4)
 *   stress   of the face by brake_thermal_stress on T_face - T_mean
 *
 * In time: the L-stable Rosenbrock method of order 4(3) of Hairer and Wanner on the enthalpies, the
 * step by the embedded error in kelvin. Its four stages are linear solves of a tridiagonal system,
 * of which two share their flows: steps are short while brakes work, so that few flows a step count
 * for more than few steps. Every stage keeps the sum of what is stored and lost, so energy is
 * conserved to rounding whatever the step.
 *
 * Accuracy: of the grid, within 0.1 % of the rise of a slab with 40 cells, the first 0.05 mm; order
 * 2 in the cell, 4 in the step, 3 where cells are thin. In time, over 300 random brakes and cycles,
 * temperatures at the end of a call came out within 0.09 K at the tolerance 0.05 K (19 of 20 within
 * 0.017 K), within 0.004 K at 0.001 K.
 *
 * Sources: Patankar, Numerical Heat Transfer and Fluid Flow, ch. 3-4 (finite volumes); Carslaw and
 * Jaeger, sec. 1.6 (theta, Kirchhoff); Hairer and Wanner, Solving Ordinary Differential Equations
 * II, sec. IV.7 (Rosenbrock methods; coefficients: table 7.2); Limpert, Brake Design and Safety,
 * ch. 3 (brake as a thermal system).
 */
#ifndef BRAKE_THERMAL_H
#define BRAKE_THERMAL_H

#include "brake/convection.h"
#include "brake/heat.h"
#include "brake/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Most cells of a wall, points of a table of properties, and nodes of the chain. */
enum { BRAKE_WALL_CELLS = 64, BRAKE_WALL_POINTS = 12, BRAKE_THERMAL_NODES = BRAKE_WALL_CELLS + 7 };

/** A solid whose properties follow temperature: straight lines between points, constant beyond. */
struct brake_material {
    int points;                              /**< 1 to BRAKE_WALL_POINTS */
    double density;                          /**< [kg/m3] the same at every temperature */
    double temperature[BRAKE_WALL_POINTS];   /**< [K] rising */
    double conductivity[BRAKE_WALL_POINTS];  /**< [W/(m*K)] */
    double heat_capacity[BRAKE_WALL_POINTS]; /**< [J/(kg*K)] */
};

/** A material at one temperature, for the closed forms and the share of heat.
 * @param material     the table
 * @param temperature  [K]
 * @return             its properties there
 * @source             straight lines of the table
 */
struct brake_solid brake_material_at(const struct brake_material *material, double temperature);

/** Parts beside the wall, in their order in the chain; the wall stands between PAD and RIM. */
enum brake_part {
    BRAKE_PART_BODY,   /**< caliper or wheel cylinder, without its pistons */
    BRAKE_PART_FLUID,  /**< behind the pistons */
    BRAKE_PART_PISTON, /**< pistons, which stand on plates or shoes */
    BRAKE_PART_PLATE,  /**< backing plates, or shoes */
    BRAKE_PART_PAD,    /**< pads or linings */
    BRAKE_PART_RIM,    /**< of a rotor's plate what no pad rubs */
    BRAKE_PART_HAT,
    BRAKE_THERMAL_PARTS
};

/** One part taken as a lump. */
struct brake_lump {
    double capacity;              /**< [J/K] 0: the part is left out, and what hangs on it */
    double link;                  /**< [W/K] to the next part towards the wall */
    struct brake_cooling cooling; /**< its own surface */
};

/** One brake: what it is made of. All areas and capacities belong to the whole brake. */
struct brake_thermal_spec {
    struct brake_material material; /**< of the wall */
    double area;                    /**< [m2] of the wall; a rotor alike on both sides: both */
    double thickness;               /**< [m] of the wall; a solid rotor alike on both sides: half;
                                            a vented one: one cheek; a drum: all of it */
    int cells;                      /**< 1 to BRAKE_WALL_CELLS */
    double first_cell;              /**< [m] at the rubbed face, at most thickness/cells; 0: see
                                            ratio */
    double ratio;                   /**< [-] of neighbouring cells, 1 and up, for first_cell 0 */
    double back_share;              /**< [-] of the wall's heat that enters at its back, 0 to 1 */
    double share;                   /**< [-] of the friction power that enters the wall, 0 to 1;
                                            brake_heat_share */
    double contact;                 /**< [W/K] between face and pad while applied; 0 with a share
                                            from effusivities */
    struct brake_cooling front;     /**< of the rubbed face, less what the pads cover */
    struct brake_cooling back;      /**< of the other face: area 0 for a plane of symmetry */
    struct brake_lump part[BRAKE_THERMAL_PARTS]; /**< the parts; the pad's link acts at all times */
    double pressure;                             /**< [Pa] of the air */
    double tolerance;                            /**< [K] error of a step, 1e-9 to 10 */
};

/** A brake made ready: the grid and the tables. Only brake_thermal_build writes it. */
struct brake_thermal {
    struct brake_thermal_spec spec;       /**< as given */
    int nodes;                            /**< of the chain: cells + 7 */
    double width[BRAKE_WALL_CELLS];       /**< [m] of each cell, from the rubbed face */
    double inner[BRAKE_WALL_CELLS];       /**< [m] area over distance to the next cell */
    double mass[BRAKE_WALL_CELLS];        /**< [kg] of each cell */
    double capacity[BRAKE_THERMAL_PARTS]; /**< [J/K] of the parts, 1 for one left out */
    double link[BRAKE_THERMAL_PARTS];     /**< [W/K] of the parts, 0 beyond one left out */
    double start[BRAKE_WALL_POINTS];      /**< [J/kg] enthalpy at each point of the table */
    double incline[BRAKE_WALL_POINTS];    /**< [J/(kg*K2)] dc/dT above each point */
    double bend[BRAKE_WALL_POINTS];       /**< [W/(m*K2)] dk/dT above each point */
    double potential[BRAKE_WALL_POINTS];  /**< [W/m] theta at each point */
};

/** Where a brake stands. Plain numbers: copy it to save it, copy it back to go on from there. */
struct brake_thermal_state {
    double temperature[BRAKE_THERMAL_NODES]; /**< [K] along the chain */
    double enthalpy[BRAKE_THERMAL_NODES];    /**< [J] of each node above the table's first point */
    double time;                             /**< [s] since the start */
    double begun;                            /**< [J] stored at the start */
    double supplied;                         /**< [J] friction work since the start */
    double convected;                        /**< [J] given to the air */
    double radiated;                         /**< [J] radiated */
    double face;                             /**< [K] rubbed face */
    double power;                            /**< [W] friction power at this instant */
    double step;                             /**< [s] to try next; 0 at the start */
    long steps;                              /**< taken */
    long rejected;                           /**< tried and refused for their error */
};

/** What happens to a brake for a while: straight lines from begin to end. */
struct brake_thermal_drive {
    double power_begin; /**< [W] friction power of this brake, 0 and up */
    double power_end;   /**< [W] 0 and up */
    double speed_begin; /**< [m/s] of the vehicle, 0 and up */
    double speed_end;   /**< [m/s] 0 and up */
    double air;         /**< [K] of the air and of what the brake radiates to */
};

/** Make a brake ready.
 * @param spec   the brake
 * @param brake  filled
 * @return       OK; E_RANGE when a number is missing, not finite or out of range, the temperatures
 *               of the table do not rise, a first cell is wider than an even one, heat enters at
 *               the back of a contact, or heat goes to a pad that is left out
 * @source       finite volumes: Patankar, ch. 4
 */
enum brake_status brake_thermal_build(const struct brake_thermal_spec *spec,
                                      struct brake_thermal *brake);

/** All of a brake at one temperature.
 * @param brake        made ready
 * @param temperature  [K] 1 to 5000
 * @param state        filled
 * @return             OK or E_RANGE
 * @source             definition of the initial state
 */
enum brake_status brake_thermal_start(const struct brake_thermal *brake, double temperature,
                                      struct brake_thermal_state *state);

/** Go on in time. Where a longer time is cut into several calls matters only within the tolerance:
 * the step that fits is kept in the state, and the end of the time is met exactly.
 * @param brake     made ready
 * @param drive     what happens; the brake counts as applied when either power is above 0
 * @param duration  [s] 0 and up
 * @param state     moved on; as it was when refused
 * @return          OK; E_RANGE when a number is out of range, when a temperature, that of the face
 *                  too, leaves 0 to 5000 K, when no step, however short, keeps the error within the
 *                  tolerance, or when that takes more than 100,000 steps
 * @source          Hairer and Wanner II, sec. IV.7
 */
enum brake_status brake_thermal_advance(const struct brake_thermal *brake,
                                        const struct brake_thermal_drive *drive, double duration,
                                        struct brake_thermal_state *state);

/** Energy that is stored above the start.
 * @param brake  made ready
 * @param state  of the brake
 * @return       [J]
 * @source       sum of the enthalpies
 */
double brake_thermal_stored(const struct brake_thermal *brake,
                            const struct brake_thermal_state *state);

/** Error of the energy balance.
 * @param brake  made ready
 * @param state  of the brake
 * @return       [-] |supplied - stored - lost| over what was supplied, or lost when that is more;
 *               rounding only: at most 1e-11 in 10,000 stops
 * @source       first law
 */
double brake_thermal_residual(const struct brake_thermal *brake,
                              const struct brake_thermal_state *state);

/** Temperature of the rubbed face.
 * @param brake  made ready
 * @param state  of the brake
 * @return       [K]
 * @source       file head: balance of the face
 */
double brake_thermal_face(const struct brake_thermal *brake,
                          const struct brake_thermal_state *state);

/** Temperature that the rubbed face takes when the power changes at once: what is behind it stays.
 * @param brake  made ready
 * @param state  of the brake
 * @param power  [W] friction power from now on, 0 and up
 * @param speed  [m/s] of the vehicle
 * @param air    [K] temperature of the air
 * @return       [K]
 * @source       file head: balance of the face
 */
double brake_thermal_face_under(const struct brake_thermal *brake,
                                const struct brake_thermal_state *state, double power, double speed,
                                double air);

/** Mean temperature of the wall.
 * @param brake  made ready
 * @param state  of the brake
 * @return       [K] weighted by volume
 * @source       mean of the cells
 */
double brake_thermal_mean(const struct brake_thermal *brake,
                          const struct brake_thermal_state *state);

/** Temperature of a cell of the wall.
 * @param brake  made ready
 * @param state  of the brake
 * @param cell   0 at the rubbed face to cells - 1 at the back
 * @return       [K]; NaN for a cell that is not there
 * @source       file head
 */
double brake_thermal_cell(const struct brake_thermal *brake,
                          const struct brake_thermal_state *state, int cell);

/** Temperature of a part.
 * @param brake  made ready
 * @param state  of the brake
 * @param part   which
 * @return       [K]; NaN for a part that is left out
 * @source       file head
 */
double brake_thermal_part(const struct brake_thermal *brake,
                          const struct brake_thermal_state *state, enum brake_part part);

/** Kinds of brake fluid by their least boiling points. */
enum brake_fluid_kind { BRAKE_DOT_3, BRAKE_DOT_4, BRAKE_DOT_5, BRAKE_DOT_5_1, BRAKE_FLUID_KINDS };

/** Least boiling point that a fluid must have.
 * @param fluid  its kind
 * @param wet    whether it holds the 3.7 % water of the humidified test; 0: fresh
 * @return       [K] at sea level; NaN for an unknown kind
 * @source       49 CFR 571.116 (FMVSS 116), S5.1.1 and S5.1.2, values read in a maker's text
 */
double brake_fluid_boiling(enum brake_fluid_kind fluid, int wet);

/** How far the fluid is from boiling.
 * @param brake    made ready
 * @param state    of the brake
 * @param boiling  [K] boiling point: brake_fluid_boiling, wet for a margin that lasts
 * @return         [K]; 30 and more is wanted; NaN when the fluid is left out
 * @source         definition
 */
double brake_thermal_fluid_margin(const struct brake_thermal *brake,
                                  const struct brake_thermal_state *state, double boiling);

#ifdef __cplusplus
}
#endif

#endif
