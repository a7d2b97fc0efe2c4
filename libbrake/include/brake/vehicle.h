/* SPDX-License-Identifier: MIT */
/** @file vehicle.h
 * One vehicle: a struct a section of the vehicle file, a member a line of it.
 *
 * All numbers are SI. NaN is a number that is not known; an empty text one that was not given. What
 * each line means, its range, its default and how to measure it stands in the catalogue
 * (catalogue.h), not here.
 */
#ifndef BRAKE_VEHICLE_H
#define BRAKE_VEHICLE_H

#include "brake/constants.h"
#include "brake/disc.h"
#include "brake/drum.h"
#include "brake/parking.h"
#include "brake/pedal.h"

enum {
    BRAKE_PARTS = 24,    /**< parts added or removed */
    BRAKE_POINTS = 24,   /**< corners of a pad, points of a measured curve */
    BRAKE_GROUPS = 3,    /**< groups of unequal pistons */
    BRAKE_TEXT_SIZE = 64 /**< bytes of a name or a marking, with its end */
};

/** Load cases, as driven: every result exists for each; and the loads that clauses ask for. */
enum brake_load {
    BRAKE_EMPTY,
    BRAKE_FULL,
    BRAKE_LOADS,
    BRAKE_LIGHT = BRAKE_LOADS, /**< driver and instruments, 180 kg in front */
    BRAKE_RATED,               /**< the rated mass, spread by the ratings of the axles */
    BRAKE_TEST_LOADS
};

enum brake_category { BRAKE_M1, BRAKE_N1 };
enum brake_frame { BRAKE_CAR, BRAKE_TRUCK };
enum brake_fitted { BRAKE_NONE, BRAKE_FITTED };
enum brake_use { BRAKE_USE_UNSTATED, BRAKE_PRIVATE, BRAKE_COMMERCIAL };

/** Countries by their codes (ISO 3166-1, alpha-2); XX is any other. Those of the European Economic
 * Area stand together, from AT to NO. */
/* clang-format off */
#define BRAKE_COUNTRIES(C) \
    C(US) C(CA) \
    C(AT) C(BE) C(BG) C(CY) C(CZ) C(DE) C(DK) C(EE) C(ES) C(FI) C(FR) C(GR) C(HR) C(HU) C(IE) \
    C(IS) C(IT) C(LI) C(LT) C(LU) C(LV) C(MT) C(NL) C(PL) C(PT) C(RO) C(SE) C(SI) C(SK) C(NO) \
    C(GB) C(CH) C(AU) C(NZ) C(XX)
/* clang-format on */
#define BRAKE_COUNTRY_(code) BRAKE_IN_##code,
enum brake_country { BRAKE_COUNTRY_UNSTATED, BRAKE_COUNTRIES(BRAKE_COUNTRY_) };
#undef BRAKE_COUNTRY_
enum brake_secondary { BRAKE_BY_CIRCUITS, BRAKE_SEPARATE };
enum brake_tyres { BRAKE_TYRES_ROAD, BRAKE_TYRES_ALL_TERRAIN, BRAKE_TYRES_MUD };
enum brake_type { BRAKE_DISC, BRAKE_DRUM };
enum brake_wheels { BRAKE_WHEELS_SINGLE, BRAKE_WHEELS_DUAL };
enum brake_mounting { BRAKE_FLOATING, BRAKE_FIXED };
enum brake_pad_shape { BRAKE_SECTOR, BRAKE_RECTANGLE, BRAKE_OUTLINE, BRAKE_CIRCLE };
enum brake_valve_kind {
    BRAKE_VALVE_NONE,
    BRAKE_VALVE_FIXED,
    BRAKE_VALVE_LOAD,
    BRAKE_VALVE_HEIGHT,
    BRAKE_VALVE_EBD
};
enum brake_booster_kind { BRAKE_BOOSTER_NONE, BRAKE_BOOSTER_VACUUM, BRAKE_BOOSTER_HYDRAULIC };
enum brake_pump { BRAKE_PUMP_ENGINE, BRAKE_PUMP_ELECTRIC };
enum brake_control { BRAKE_HAND, BRAKE_FOOT };
enum brake_parking_location { BRAKE_AT_WHEELS, BRAKE_AT_SHAFT };
enum brake_driven { BRAKE_DRIVEN_FRONT, BRAKE_DRIVEN_REAR, BRAKE_DRIVEN_ALL };
enum brake_centre { BRAKE_CENTRE_FREE, BRAKE_CENTRE_LOCKED };
enum brake_sensor { BRAKE_SENSOR_WHEEL, BRAKE_SENSOR_SHAFT };
enum brake_rotor { BRAKE_SOLID, BRAKE_VENTED };
enum brake_iron { BRAKE_IRON_150, BRAKE_IRON_200, BRAKE_IRON_250 };

/** A list of points of a curve or corners of an outline. */
struct brake_points {
    int count;
    struct brake_point at[BRAKE_POINTS];
};

/** Groups of equal pistons on one side of the rotor; a count of 0 ends the list. */
struct brake_pistons {
    double count[BRAKE_GROUPS];
    double diameter[BRAKE_GROUPS];
};

struct brake_general_lines {
    char name[BRAKE_TEXT_SIZE];
    char before[BRAKE_TEXT_SIZE];
    char parts[BRAKE_TEXT_SIZE];
    char registration[BRAKE_TEXT_SIZE];
    char identification_number[BRAKE_TEXT_SIZE];
    char odometer[BRAKE_TEXT_SIZE];
    char owner[BRAKE_TEXT_SIZE];
    char builder[BRAKE_TEXT_SIZE];
    int country;
    int category;
    int frame;
    int use;
    int secondary;
    double first_registered;
    double modified;
    double mass;
    double front_share;
    double cg_height;
    double roof_height;
    double wheelbase;
    double unsprung_mass;
    double rated_mass;
    double top_speed;
    double rolling_resistance;
    int antilock;
    double antilock_efficiency;
    int tyres;
    double tyre_grip;
};

struct brake_lift_lines {
    double suspension;
    double wheel_rise;
};

struct brake_scales_lines {
    double front_left, front_right, rear_left, rear_right;
    double front_axle, rear_axle;
};

/** Brake forces from a roller or plate tester, of this vehicle as it stands in its file. */
struct brake_tester_lines {
    double front_left, front_right, rear_left, rear_right;
    double pedal_force;
    double parking_left, parking_right;
    double lever_force;
    int load;
};

struct brake_tilt_lines {
    double rise;
    double ground_axle_level;
    double ground_axle_tilted;
    double hub_height;
};

struct brake_axle_lines {
    int brake;
    int wheels;
    double rated_mass;
    double side_difference;
    double scrub_radius;
    double track;
};

struct brake_tyre_lines {
    char marking[BRAKE_TEXT_SIZE];
    double rollout;
    double rolling_radius;
    double overall_diameter;
    double load_capacity;
    double speed_limit;
    double wheel_mass;
    double wheel_inertia;
    double inertia_fraction;
    double swing_radius, swing_length, swing_period;
};

struct brake_disc_lines {
    int mounting;
    struct brake_pistons pistons;
    double effective_radius;
    double efficiency;
    double threshold;
    double compliance;
    double rotor_mass;
    int rotor;
    double rotor_diameter;
    double hat_mass;
};

struct brake_pads_lines {
    double mu;
    int shape;
    int contact;
    double inner_radius, outer_radius;
    double height, width;
    double centre_radius, diameter;
    struct brake_points outline;
    double gap;
    double arc;
    double thickness;
    struct brake_points friction;
    double fade;
};

struct brake_drum_lines {
    int shoes;
    double diameter;
    double cylinder_diameter;
    double brake_factor;
    double efficiency;
    double threshold;
    double piston_travel;
    double compliance;
    double drum_mass;
    double width;
};

struct brake_lining_lines {
    double mu;
    double pivot_radius, force_arm;
    double heel, toe;
    double secondary_heel, secondary_toe, secondary_mu;
    double thickness;
    struct brake_points friction;
    double fade;
};

/** Everything at one axle. */
struct brake_axle_of_vehicle {
    struct brake_axle_lines axle;
    struct brake_tyre_lines tyre;
    struct brake_disc_lines disc;
    struct brake_pads_lines pads;
    struct brake_drum_lines drum;
    struct brake_lining_lines lining;
};

struct brake_valve_lines {
    int kind;
    int bypass;
    double knee;
    double slope;
    struct brake_points gauge_pairs;
    double knee_rate;
    double set_mass;
    double stiffness;
    double anti_lift;
    double uncorrected_lift;
};

struct brake_pedal_lines {
    double ratio;
    double pad_arm, rod_arm;
    double efficiency;
    double free_play;
    double travel;
};

struct brake_booster_lines {
    int booster;
    double gain;
    double assist;
    double vacuum;
    double vacuum_low;
    double diaphragm_diameter;
    double diaphragms;
    double pressure;
    double pressure_low;
    double piston_diameter;
    int pump;
    double reserve;
    double precharge;
    double efficiency;
    struct brake_points force_pairs;
};

struct brake_master_lines {
    double bore;
    double efficiency;
    double primary_stroke, secondary_stroke;
    double take_up;
};

struct brake_circuits_lines {
    int split;
    double hose_volume;
    double air_volume;
    double elastic_volume;
    double closing_volume;
    struct brake_points pumped;
};

struct brake_parking_lines {
    int on;
    int control;
    int place;
    double force;
    double ratio;
    double efficiency;
    double factor;
    double radius;
    double pull;
    double torque;
};

struct brake_driveline_lines {
    int centre;
    double axle_ratio;
    int driven;
    double gear_ratio, overall_ratio;
    double engine_inertia, engine_drag;
};

struct brake_speedometer_lines {
    char marking[BRAKE_TEXT_SIZE];
    double rollout;
    int sensor;
    double axle_ratio;
};

struct brake_trailer_lines {
    double mass;
    double braking_ratio;
    double working;
};

struct brake_road_lines {
    double adhesion;
    double sliding;
};

struct brake_stop_lines {
    double speed;
    double dead_time;
    double build_up;
    double reaction_time;
};

struct brake_drive_lines {
    char log[BRAKE_TEXT_SIZE];
    int load;
    double grade;
    double lag;
    double gauge;
};

struct brake_driver_lines {
    double pedal_force;
    double pedal_force_most;
    double modulation;
    double target;
};

struct brake_heat_lines {
    double ambient;
    int fluid;
    int iron;
    double cooling;
    double pad_conduction, piston_conduction;
    double drag_area;
};

struct brake_load_lines {
    double mass;
    double behind_front_axle;
    double height;
    double front_axle, rear_axle;
};

struct brake_part_lines {
    char name[BRAKE_TEXT_SIZE];
    double mass;
    double behind_front_axle;
    double height;
};

/** The whole vehicle. Plain data: it may be copied, compared and stored. */
struct brake_vehicle {
    struct brake_general_lines general;
    struct brake_lift_lines lift;
    struct brake_scales_lines scales;
    struct brake_tilt_lines tilt;
    struct brake_tester_lines tester;
    struct brake_axle_of_vehicle axle[BRAKE_AXLES];
    struct brake_valve_lines valve;
    struct brake_pedal_lines pedal;
    struct brake_booster_lines booster;
    struct brake_master_lines master;
    struct brake_circuits_lines circuits;
    struct brake_parking_lines parking;
    struct brake_driveline_lines driveline;
    struct brake_speedometer_lines speedometer;
    struct brake_trailer_lines trailer;
    struct brake_road_lines road;
    struct brake_stop_lines stop;
    struct brake_drive_lines drive;
    struct brake_driver_lines driver;
    struct brake_heat_lines heat;
    struct brake_load_lines load[BRAKE_LOADS];
    int parts;
    struct brake_part_lines part[BRAKE_PARTS];
};

#endif
