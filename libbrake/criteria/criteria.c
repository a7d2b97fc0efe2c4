/* The requirements. Figures restated from the clauses named; `text` says where a figure was read, a
 * row without it was put down from memory and must be checked against the current text. */
#include "brake/criteria.h"
#include "judge.h"

#include <stddef.h>

#define KMH(v) ((v) / 3.6)
#define MPH(v) ((v)*0.44704)
#define FOOT 0.3048

/* "0.10 V" and "0.15 V" with V in km/h, as seconds. */
#define LAG_10 0.36
#define LAG_15 0.54

/* clang-format off */
static const struct brake_criterion criteria[] = {
    /* What hurts whatever binds the vehicle. */
    {.id = "hazard.floor", .rules = BRAKE_RULES_HAZARD, .clause = "stroke is all used up",
     .title = "Pedal or master cylinder at its end in full braking",
     .measure = BRAKE_STROKE_USED, .load = BRAKE_AT_FULL, .limit = 1.0,
     .text = "no clause: past it there is no more pressure"},
    {.id = "hazard.reserve", .rules = BRAKE_RULES_HAZARD, .clause = "49 CFR 570.5(c)",
     .title = "Pedal travel used at 50 lbf", .measure = BRAKE_PEDAL_TRAVEL,
     .load = BRAKE_AT_EMPTY, .force = 222.4, .limit = 0.80,
     .text = "49 CFR 570.55(c), for heavier vehicles; not for those made for more travel"},
    {.id = "hazard.rear_first", .rules = BRAKE_RULES_HAZARD, .clause = "UN R13-H Annex 5, 3.1 (B)",
     .title = "Rear wheels lock first only above 0.80 g", .measure = BRAKE_REAR_FIRST,
     .load = BRAKE_AT_BOTH, .limit = 0.80, .applies = BRAKE_TO_M1 | BRAKE_TO_NO_ANTILOCK},
    {.id = "hazard.rear_first_n1", .rules = BRAKE_RULES_HAZARD, .clause = "UN R13 Annex 10",
     .title = "Rear wheels lock first only above 0.50 g", .measure = BRAKE_REAR_FIRST,
     .load = BRAKE_AT_BOTH, .limit = 0.50, .applies = BRAKE_TO_N1 | BRAKE_TO_NO_ANTILOCK,
     .text = "Directive 71/320/EEC Annex II Appendix (2007)"},
    {.id = "hazard.self_lock", .rules = BRAKE_RULES_HAZARD, .clause = "a shoe that grabs stays on",
     .title = "Friction at which a shoe locks itself, over its own", .measure = BRAKE_SHOE_LOCK,
     .load = BRAKE_AT_FULL, .limit = 1.0, .applies = BRAKE_TO_SHOE_SHAPE,
     .text = "no clause: from there on the brake cannot be let off"},
    {.id = "hazard.fluid", .rules = BRAKE_RULES_HAZARD, .clause = "UN R13 Annex 4, 1.6 (Type-II)",
     .title = "Room to boiling over the rise of the fluid on a long descent, worn and wet",
     .measure = BRAKE_FLUID_ROOM, .load = BRAKE_AT_FULL, .limit = 1.0},
    {.id = "hazard.circuit", .rules = BRAKE_RULES_HAZARD, .clause = "UN R13-H Annex 3, 2.2",
     .title = "Deceleration with either circuit failed", .measure = BRAKE_STOP_DECELERATION,
     .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT}, .load = BRAKE_AT_FULL,
     .force = 500.0, .limit = 2.44, .applies = BRAKE_TO_M1},
    {.id = "hazard.circuit_n1", .rules = BRAKE_RULES_HAZARD, .clause = "UN R13 Annex 4, 2.4",
     .title = "Deceleration with either circuit failed", .measure = BRAKE_STOP_DECELERATION,
     .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT}, .load = BRAKE_AT_FULL,
     .force = 700.0, .limit = 1.3, .applies = BRAKE_TO_N1},
    {.id = "hazard.assist", .rules = BRAKE_RULES_HAZARD, .clause = "UN R13-H Annex 3, 2.2",
     .title = "Deceleration without assist", .measure = BRAKE_STOP_DECELERATION,
     .failure = {BRAKE_NO_ASSIST, BRAKE_NO_ASSIST}, .load = BRAKE_AT_FULL, .force = 500.0,
     .limit = 2.44, .applies = BRAKE_TO_M1 | BRAKE_TO_BOOSTED},
    {.id = "hazard.assist_n1", .rules = BRAKE_RULES_HAZARD, .clause = "UN R13 Annex 4, 2.2",
     .title = "Deceleration without assist", .measure = BRAKE_STOP_DECELERATION,
     .failure = {BRAKE_NO_ASSIST, BRAKE_NO_ASSIST}, .load = BRAKE_AT_FULL, .force = 700.0,
     .limit = 2.2, .applies = BRAKE_TO_N1 | BRAKE_TO_BOOSTED,
     .text = "UN R13 Rev. 4 (2000), an old revision"},
    {.id = "hazard.parking", .rules = BRAKE_RULES_HAZARD, .clause = "2014/45/EU Annex I, 1.4.2",
     .title = "Grade that the parking brake holds, up and down", .measure = BRAKE_PARKING_GRADE,
     .load = BRAKE_AT_FULL, .force = 400.0, .limit = 0.16,
     .text = "DVSA MOT inspection manual, section 1 (undated copy)"},
    {.id = "hazard.tyre_load", .rules = BRAKE_RULES_HAZARD, .clause = "load index of the tyre",
     .title = "Axle load over what its tyres may carry", .measure = BRAKE_TYRE_LOAD,
     .load = BRAKE_AT_FULL, .limit = 1.0, .text = "marking of the tyre"},
    {.id = "hazard.axle_load", .rules = BRAKE_RULES_HAZARD, .clause = "rating of the axle",
     .title = "Axle load over the axle's rating", .measure = BRAKE_AXLE_LOAD,
     .load = BRAKE_AT_FULL, .limit = 1.0, .text = "maker's plate"},
    {.id = "hazard.mass", .rules = BRAKE_RULES_HAZARD, .clause = "rated mass of the vehicle",
     .title = "Mass over the rated mass (2 % for scales)", .measure = BRAKE_MASS_LOAD,
     .load = BRAKE_AT_FULL, .limit = 1.02, .text = "maker's plate"},

    /* FMVSS 135: light vehicles, rated mass up to 3,500 kg. */
    {.id = "us.135.cold", .rules = BRAKE_RULES_US, .clause = "49 CFR 571.135 S7.5",
     .title = "Cold stop from 100 km/h", .measure = BRAKE_STOP_DISTANCE, .load = BRAKE_AT_BOTH,
     .force = 500.0, .speed = KMH(100), .lag = LAG_10, .coefficient = 0.0060,
     .applies = BRAKE_TO_LIGHT,
     .text = "NHTSA interpretation 11409.MLS (70 m, 100 km/h, 500 N; not the formula)"},
    {.id = "us.135.high_speed", .rules = BRAKE_RULES_US, .clause = "49 CFR 571.135 S7.6",
     .title = "Stop from 80 % of top speed", .measure = BRAKE_STOP_DISTANCE,
     .load = BRAKE_AT_BOTH, .force = 500.0, .speed_cap = KMH(160), .lag = LAG_10,
     .coefficient = 0.0067, .applies = BRAKE_TO_LIGHT | BRAKE_TO_FAST},
    {.id = "us.135.engine_off", .rules = BRAKE_RULES_US, .clause = "49 CFR 571.135 S7.7",
     .title = "Stop with the engine off, at the least vacuum", .measure = BRAKE_STOP_DISTANCE,
     .failure = {BRAKE_LOW_VACUUM, BRAKE_LOW_VACUUM}, .load = BRAKE_AT_FULL, .force = 500.0,
     .speed = KMH(100), .lag = LAG_10, .coefficient = 0.0060,
     .applies = BRAKE_TO_LIGHT | BRAKE_TO_BOOSTED},
    {.id = "us.135.antilock_failed", .rules = BRAKE_RULES_US, .clause = "49 CFR 571.135 S7.8",
     .title = "Stop with the anti-lock failed", .measure = BRAKE_STOP_DISTANCE,
     .failure = {BRAKE_NO_ANTILOCK, BRAKE_NO_ANTILOCK}, .load = BRAKE_AT_BOTH, .force = 500.0,
     .speed = KMH(100), .lag = LAG_10, .coefficient = 0.0075,
     .applies = BRAKE_TO_LIGHT | BRAKE_TO_ANTILOCK},
    {.id = "us.135.valve_failed", .rules = BRAKE_RULES_US, .clause = "49 CFR 571.135 S7.9",
     .title = "Stop with the sensing valve failed, open or shut",
     .measure = BRAKE_STOP_DISTANCE, .failure = {BRAKE_VALVE_OPEN, BRAKE_VALVE_SHUT},
     .load = BRAKE_AT_BOTH, .force = 500.0, .speed = KMH(100), .lag = LAG_10,
     .coefficient = 0.0100, .applies = BRAKE_TO_LIGHT | BRAKE_TO_SENSING_VALVE},
    {.id = "us.135.circuit_failed", .rules = BRAKE_RULES_US, .clause = "49 CFR 571.135 S7.10",
     .title = "Stop with either circuit failed", .measure = BRAKE_STOP_DISTANCE,
     .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT}, .load = BRAKE_AT_BOTH,
     .force = 500.0, .speed = KMH(100), .lag = LAG_10, .coefficient = 0.0158,
     .applies = BRAKE_TO_LIGHT},
    {.id = "us.135.assist_failed", .rules = BRAKE_RULES_US, .clause = "49 CFR 571.135 S7.11",
     .title = "Stop without assist", .measure = BRAKE_STOP_DISTANCE,
     .failure = {BRAKE_NO_ASSIST, BRAKE_NO_ASSIST}, .load = BRAKE_AT_FULL, .force = 500.0,
     .speed = KMH(100), .lag = LAG_10, .coefficient = 0.0158,
     .applies = BRAKE_TO_LIGHT | BRAKE_TO_BOOSTED},
    {.id = "us.135.parking", .rules = BRAKE_RULES_US, .clause = "49 CFR 571.135 S7.12",
     .title = "Parking brake on 20 %, up and down", .measure = BRAKE_PARKING_GRADE,
     .load = BRAKE_AT_FULL, .force = 400.0, .limit = 0.20, .applies = BRAKE_TO_LIGHT},
    {.id = "us.135.lock_order", .rules = BRAKE_RULES_US, .clause = "49 CFR 571.135 S7.2",
     .title = "Rear wheels lock first only above 0.80 g", .measure = BRAKE_REAR_FIRST,
     .load = BRAKE_AT_BOTH, .limit = 0.80, .applies = BRAKE_TO_LIGHT | BRAKE_TO_NO_ANTILOCK},
    {.id = "us.135.rear_curve", .rules = BRAKE_RULES_US, .clause = "49 CFR 571.135 S7.4",
     .title = "Rear axle within its adhesion bound", .measure = BRAKE_REAR_CURVE,
     .load = BRAKE_AT_BOTH, .limit = 1.0, .applies = BRAKE_TO_LIGHT | BRAKE_TO_NO_ANTILOCK},
    {.id = "us.135.hot_kept", .rules = BRAKE_RULES_US, .clause = "49 CFR 571.135 S7.14(a)",
     .title = "First hot stop keeps 60 % of the cold deceleration",
     .measure = BRAKE_HOT_LENGTHENING, .load = BRAKE_AT_FULL, .speed = KMH(100), .lag = LAG_10,
     .limit = 0.60, .applies = BRAKE_TO_LIGHT},
    {.id = "us.135.hot", .rules = BRAKE_RULES_US, .clause = "49 CFR 571.135 S7.14(b)",
     .title = "Hot stop from 100 km/h, better of two", .measure = BRAKE_HOT_DISTANCE,
     .load = BRAKE_AT_FULL, .speed = KMH(100), .lag = LAG_10, .coefficient = 0.0079,
     .applies = BRAKE_TO_LIGHT},
    {.id = "us.135.recovery", .rules = BRAKE_RULES_US, .clause = "49 CFR 571.135 S7.16",
     .title = "Deceleration after cooling over cold", .measure = BRAKE_RECOVERY_LEAST,
     .load = BRAKE_AT_FULL, .limit = 0.70, .applies = BRAKE_TO_LIGHT},
    {.id = "us.135.recovery_most", .rules = BRAKE_RULES_US, .clause = "49 CFR 571.135 S7.16",
     .title = "Deceleration after cooling over cold", .measure = BRAKE_RECOVERY_MOST,
     .load = BRAKE_AT_FULL, .limit = 1.50, .applies = BRAKE_TO_LIGHT},

    /* 49 CFR 393.52: three separate service tests and one of the emergency system, 20 mph. */
#define PENNSYLVANIA "Pennsylvania Code title 67, ch. 175, Table I, which repeats the figures"
#define SERVICE_393(key, words, ratio, rate, feet, emergency, vehicles)                            \
    {.id = "us.393." key ".force", .text = PENNSYLVANIA, .rules = BRAKE_RULES_US, .clause = "49 CFR 393.52(d) " words,   \
     .title = "Brake force over weight", .measure = BRAKE_STOP_RATIO, .load = BRAKE_AT_BOTH,       \
     .limit = (ratio), .applies = (vehicles) | BRAKE_TO_COMMERCIAL},                                                     \
    {.id = "us.393." key ".deceleration", .text = PENNSYLVANIA, .rules = BRAKE_RULES_US,                                 \
     .clause = "49 CFR 393.52(d) " words, .title = "Deceleration from 20 mph",                     \
     .measure = BRAKE_STOP_DECELERATION, .load = BRAKE_AT_BOTH, .limit = (rate) * FOOT,            \
     .applies = (vehicles) | BRAKE_TO_COMMERCIAL},                                                                       \
    {.id = "us.393." key ".distance", .text = PENNSYLVANIA, .rules = BRAKE_RULES_US,                                     \
     .clause = "49 CFR 393.52(d) " words, .title = "Stop from 20 mph",                             \
     .measure = BRAKE_STOP_DISTANCE, .load = BRAKE_AT_BOTH, .speed = MPH(20),                      \
     .limit = (feet) * FOOT, .applies = (vehicles) | BRAKE_TO_COMMERCIAL},                                               \
    {.id = "us.393." key ".emergency", .text = PENNSYLVANIA, .rules = BRAKE_RULES_US,                                    \
     .clause = "49 CFR 393.52(d) " words, .title = "Stop from 20 mph with either circuit failed",  \
     .measure = BRAKE_STOP_DISTANCE, .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT},       \
     .load = BRAKE_AT_BOTH, .speed = MPH(20), .limit = (emergency) * FOOT,                         \
     .applies = (vehicles) | BRAKE_TO_COMMERCIAL}
    SERVICE_393("car", "A(1)", 0.652, 21.0, 20.0, 54.0, BRAKE_TO_M1 | BRAKE_TO_CAR_FRAME),
    SERVICE_393("wagon", "A(2)", 0.528, 17.0, 25.0, 66.0,
                BRAKE_TO_M1 | BRAKE_TO_TRUCK_FRAME | BRAKE_TO_10000_LB),
    SERVICE_393("goods", "B(1)", 0.528, 17.0, 25.0, 66.0, BRAKE_TO_N1 | BRAKE_TO_10000_LB),

    /* 49 CFR part 570, vehicles in use, rated mass up to 10,000 lb. */
    {.id = "us.570.road_test", .rules = BRAKE_RULES_US, .clause = "49 CFR 570.5(d)(2)",
     .title = "Stop from 20 mph", .measure = BRAKE_STOP_DISTANCE, .load = BRAKE_AT_EMPTY,
     .speed = MPH(20), .limit = 25.0 * FOOT, .applies = BRAKE_TO_10000_LB},
    {.id = "us.570.pedal", .rules = BRAKE_RULES_US, .clause = "49 CFR 570.5(c)",
     .title = "Pedal travel used at 50 lbf", .measure = BRAKE_PEDAL_TRAVEL,
     .load = BRAKE_AT_EMPTY, .force = 222.4, .limit = 0.80, .applies = BRAKE_TO_10000_LB,
     .text = "49 CFR 570.55(c), for heavier vehicles; not for those made for more travel"},
    {.id = "us.570.sides", .rules = BRAKE_RULES_US, .clause = "49 CFR 570.5(d)(1)",
     .title = "Left to right difference (25 %; an older text may say 20 %)",
     .measure = BRAKE_SIDE_DIFFERENCE, .limit = 0.25, .applies = BRAKE_TO_10000_LB},

    /* UN Regulation 13-H, M1. */
    {.id = "un.13h.type0", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 3, 2.1.1",
     .title = "Type-0 deceleration, engine disconnected", .measure = BRAKE_STOP_DECELERATION,
     .load = BRAKE_AT_BOTH, .force = 500.0, .limit = 6.43, .applies = BRAKE_TO_M1,
     .text = "news page on GB 21670-2008, which repeats the figures"},
    {.id = "un.13h.type0_distance", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 3, 2.1.1",
     .title = "Type-0 distance from 100 km/h", .measure = BRAKE_STOP_DISTANCE,
     .load = BRAKE_AT_BOTH, .force = 500.0, .speed = KMH(100), .lag = LAG_10,
     .coefficient = 0.0060, .applies = BRAKE_TO_M1,
     .text = "news page on GB 21670-2008, which repeats the figures"},
    {.id = "un.13h.high_speed", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 3, 2.1.1",
     .title = "Type-0 distance from 80 % of top speed (brakes alone)",
     .measure = BRAKE_STOP_DISTANCE, .load = BRAKE_AT_BOTH, .force = 500.0,
     .speed_cap = KMH(160), .lag = LAG_10, .coefficient = 0.0067,
     .applies = BRAKE_TO_M1 | BRAKE_TO_FAST},
    {.id = "un.13h.trailer", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 3, 2.1.2",
     .title = "With an unbraked trailer", .measure = BRAKE_TOW_DECELERATION,
     .load = BRAKE_AT_FULL, .force = 500.0, .limit = 5.4,
     .applies = BRAKE_TO_M1 | BRAKE_TO_TRAILER},
    {.id = "un.13h.circuit", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 3, 2.2",
     .title = "Secondary deceleration, either circuit failed",
     .measure = BRAKE_STOP_DECELERATION, .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT},
     .load = BRAKE_AT_BOTH, .force = 500.0, .limit = 2.44, .applies = BRAKE_TO_M1},
    {.id = "un.13h.circuit_distance", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 3, 2.2",
     .title = "Secondary distance from 100 km/h, either circuit failed",
     .measure = BRAKE_STOP_DISTANCE, .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT},
     .load = BRAKE_AT_BOTH, .force = 500.0, .speed = KMH(100), .lag = LAG_10,
     .coefficient = 0.0158, .applies = BRAKE_TO_M1},
    {.id = "un.13h.assist", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 3, 2.2",
     .title = "Secondary deceleration without assist", .measure = BRAKE_STOP_DECELERATION,
     .failure = {BRAKE_NO_ASSIST, BRAKE_NO_ASSIST}, .load = BRAKE_AT_BOTH, .force = 500.0,
     .limit = 2.44, .applies = BRAKE_TO_M1 | BRAKE_TO_BOOSTED},
    {.id = "un.13h.parking", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 3, 2.3",
     .title = "Parking brake on 20 %, up and down", .measure = BRAKE_PARKING_GRADE,
     .load = BRAKE_AT_FULL, .force = 400.0, .limit = 0.20, .applies = BRAKE_TO_M1},
    {.id = "un.13h.parking_trailer", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 3, 2.3",
     .title = "Parking brake on 12 % with an unbraked trailer",
     .measure = BRAKE_PARKING_TOW_GRADE, .load = BRAKE_AT_FULL, .force = 400.0, .limit = 0.12,
     .applies = BRAKE_TO_M1 | BRAKE_TO_TRAILER},
    {.id = "un.13h.parking_moving", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 3, 2.3",
     .title = "Deceleration by the parking brake", .measure = BRAKE_PARKING_DECELERATION,
     .load = BRAKE_AT_FULL, .force = 400.0, .limit = 1.5, .applies = BRAKE_TO_M1},
    {.id = "un.13h.adhesion", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 5, 3.1 (A)",
     .title = "Use of adhesion, 0.2 to 0.8", .measure = BRAKE_ADHESION_CURVE,
     .load = BRAKE_AT_BOTH, .coefficient = 0.70, .limit = 1.0,
     .applies = BRAKE_TO_M1 | BRAKE_TO_NO_ANTILOCK},
    {.id = "un.13h.lock_order", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 5, 3.1 (B)",
     .title = "Rear wheels lock first only above 0.80 g", .measure = BRAKE_REAR_FIRST,
     .load = BRAKE_AT_BOTH, .limit = 0.80, .applies = BRAKE_TO_M1 | BRAKE_TO_NO_ANTILOCK},
    {.id = "un.13h.hot", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 3, 1.5.2",
     .title = "Type-I hot deceleration, better of two: 75 % of what is prescribed",
     .measure = BRAKE_HOT_DECELERATION, .load = BRAKE_AT_FULL, .limit = 4.82,
     .applies = BRAKE_TO_M1},
    {.id = "un.13h.hot_distance", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 3, 1.5.2",
     .title = "Type-I hot distance from 100 km/h, better of two", .measure = BRAKE_HOT_DISTANCE,
     .load = BRAKE_AT_FULL, .speed = KMH(100), .lag = LAG_10, .coefficient = 0.0080,
     .applies = BRAKE_TO_M1},
    {.id = "un.13h.hot_kept", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 3, 1.5.2",
     .title = "First hot stop over cold", .measure = BRAKE_HOT_KEPT, .load = BRAKE_AT_FULL,
     .limit = 0.60, .applies = BRAKE_TO_M1},
    {.id = "un.13h.recovery", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 3, 1.5.3",
     .title = "Deceleration after cooling over cold", .measure = BRAKE_RECOVERY_LEAST,
     .load = BRAKE_AT_FULL, .limit = 0.70, .applies = BRAKE_TO_M1},
    {.id = "un.13h.recovery_most", .rules = BRAKE_RULES_UN, .clause = "UN R13-H Annex 3, 1.5.3",
     .title = "Deceleration after cooling over cold", .measure = BRAKE_RECOVERY_MOST,
     .load = BRAKE_AT_FULL, .limit = 1.50, .applies = BRAKE_TO_M1},

    /* UN Regulation 13, N1. */
    {.id = "un.13.type0", .rules = BRAKE_RULES_UN, .clause = "UN R13 Annex 4, 2.1.1",
     .title = "Type-0 deceleration, engine disconnected", .measure = BRAKE_STOP_DECELERATION,
     .load = BRAKE_AT_BOTH, .force = 700.0, .limit = 5.0, .applies = BRAKE_TO_N1},
    {.id = "un.13.type0_distance", .rules = BRAKE_RULES_UN, .clause = "UN R13 Annex 4, 2.1.1",
     .title = "Type-0 distance from 80 km/h", .measure = BRAKE_STOP_DISTANCE,
     .load = BRAKE_AT_BOTH, .force = 700.0, .speed = KMH(80), .lag = LAG_15,
     .coefficient = 1.0 / 130.0, .applies = BRAKE_TO_N1},
    {.id = "un.13.high_speed", .rules = BRAKE_RULES_UN, .clause = "UN R13 Annex 4, 2.1.1",
     .title = "Type-0 distance from 80 % of top speed (brakes alone)",
     .measure = BRAKE_STOP_DISTANCE, .load = BRAKE_AT_BOTH, .force = 700.0,
     .speed_cap = KMH(120), .lag = LAG_15, .coefficient = 1.0 / 103.5, .applies = BRAKE_TO_N1},
    {.id = "un.13.secondary", .rules = BRAKE_RULES_UN, .clause = "UN R13 Annex 4, 2.2",
     .title = "Secondary deceleration without assist", .measure = BRAKE_STOP_DECELERATION,
     .failure = {BRAKE_NO_ASSIST, BRAKE_NO_ASSIST}, .load = BRAKE_AT_BOTH, .force = 700.0,
     .limit = 2.2, .applies = BRAKE_TO_N1 | BRAKE_TO_BOOSTED,
     .text = "UN R13 Rev. 4 (2000), an old revision"},
    {.id = "un.13.residual_full", .rules = BRAKE_RULES_UN, .clause = "UN R13 Annex 4, 2.4",
     .title = "Residual deceleration, full, either circuit failed",
     .measure = BRAKE_STOP_DECELERATION, .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT},
     .load = BRAKE_AT_FULL, .force = 700.0, .limit = 1.3, .applies = BRAKE_TO_N1},
    {.id = "un.13.residual_empty", .rules = BRAKE_RULES_UN, .clause = "UN R13 Annex 4, 2.4",
     .title = "Residual deceleration, empty, either circuit failed",
     .measure = BRAKE_STOP_DECELERATION, .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT},
     .load = BRAKE_AT_EMPTY, .force = 700.0, .limit = 1.1, .applies = BRAKE_TO_N1},
    {.id = "un.13.parking", .rules = BRAKE_RULES_UN, .clause = "UN R13 Annex 4, 2.3",
     .title = "Parking brake on 18 %, up and down", .measure = BRAKE_PARKING_GRADE,
     .load = BRAKE_AT_FULL, .force = 600.0, .limit = 0.18, .applies = BRAKE_TO_N1},
    {.id = "un.13.parking_trailer", .rules = BRAKE_RULES_UN, .clause = "UN R13 Annex 4, 2.3",
     .title = "Parking brake on 12 % with an unbraked trailer",
     .measure = BRAKE_PARKING_TOW_GRADE, .load = BRAKE_AT_FULL, .force = 600.0, .limit = 0.12,
     .applies = BRAKE_TO_N1 | BRAKE_TO_TRAILER},
    {.id = "un.13.adhesion", .rules = BRAKE_RULES_UN, .clause = "UN R13 Annex 10",
     .title = "Use of adhesion, 0.2 to 0.8", .measure = BRAKE_ADHESION_CURVE,
     .load = BRAKE_AT_BOTH, .coefficient = 0.85, .limit = 1.0,
     .applies = BRAKE_TO_N1 | BRAKE_TO_NO_ANTILOCK},
    {.id = "un.13.lock_order", .rules = BRAKE_RULES_UN, .clause = "UN R13 Annex 10",
     .title = "Rear wheels lock first only above 0.50 g (first of two alternatives)",
     .measure = BRAKE_REAR_FIRST, .load = BRAKE_AT_BOTH, .limit = 0.50,
     .applies = BRAKE_TO_N1 | BRAKE_TO_NO_ANTILOCK,
     .text = "Directive 71/320/EEC Annex II Appendix (2007)"},
    {.id = "un.13.hot", .rules = BRAKE_RULES_UN, .clause = "UN R13 Annex 4, 1.5.3",
     .title = "Type-I hot deceleration, better of two: 80 % of what is prescribed",
     .measure = BRAKE_HOT_DECELERATION, .load = BRAKE_AT_FULL, .limit = 4.0,
     .fade = BRAKE_FADE_GOODS, .applies = BRAKE_TO_N1},
    {.id = "un.13.hot_kept", .rules = BRAKE_RULES_UN, .clause = "UN R13 Annex 4, 1.5.3",
     .title = "First hot stop over cold", .measure = BRAKE_HOT_KEPT, .load = BRAKE_AT_FULL,
     .limit = 0.60, .fade = BRAKE_FADE_GOODS, .applies = BRAKE_TO_N1},

    /* Directive 2014/45/EU, Annex I: periodic inspection. */
#define SERVICE_EU(key, words, service, vehicles)                                                  \
    {.id = "eu.45.service_" key, .rules = BRAKE_RULES_EU,                                          \
     .clause = "2014/45/EU Annex I, 1.2.2", .title = "Service brake efficiency, " words,           \
     .measure = BRAKE_STOP_RATIO, .load = BRAKE_AT_FULL, .limit = (service), .rated = true,         \
     .applies = (vehicles)},                                                                       \
    {.id = "eu.45.secondary_" key, .rules = BRAKE_RULES_EU,                                        \
     .clause = "2014/45/EU Annex I, 1.3.2", .title = "Secondary efficiency, half of service",      \
     .measure = BRAKE_STOP_RATIO, .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT},          \
     .load = BRAKE_AT_FULL, .limit = (service) / 2.0, .rated = true, .applies = (vehicles) | BRAKE_TO_SECONDARY}
    SERVICE_EU("m1", "M1 from 2012", 0.58, BRAKE_TO_M1 | BRAKE_TO_NEW),
    SERVICE_EU("m1_old", "M1 before 2012", 0.50, BRAKE_TO_M1 | BRAKE_TO_OLD),
    SERVICE_EU("n1", "N1 from 2012", 0.50, BRAKE_TO_N1 | BRAKE_TO_NEW),
    SERVICE_EU("n1_old", "N1 before 2012", 0.45, BRAKE_TO_N1 | BRAKE_TO_OLD),
    {.id = "eu.45.parking", .rules = BRAKE_RULES_EU, .clause = "2014/45/EU Annex I, 1.4.2",
     .title = "Parking brake efficiency", .measure = BRAKE_PARKING_RATIO, .load = BRAKE_AT_FULL,
     .limit = 0.16, .rated = true,
     .text = "DVSA MOT inspection manual, section 1 (undated copy)"},
    {.id = "eu.45.parking_trailer", .rules = BRAKE_RULES_EU,
     .clause = "2014/45/EU Annex I, 1.4.2", .title = "Parking brake efficiency with the trailer",
     .measure = BRAKE_PARKING_TOW_RATIO, .load = BRAKE_AT_FULL, .limit = 0.12, .rated = true,
     .applies = BRAKE_TO_TRAILER},
    {.id = "eu.45.sides", .rules = BRAKE_RULES_EU, .clause = "2014/45/EU Annex I, 1.2.1",
     .title = "Left to right difference", .measure = BRAKE_SIDE_DIFFERENCE, .limit = 0.30,
     .text = "DVSA MOT inspection manual, section 1 (undated copy)"},
};
/* clang-format on */

int brake_criterion_count(void)
{
    return (int)(sizeof criteria / sizeof criteria[0]);
}

const struct brake_criterion *brake_criterion_at(int index)
{
    return &criteria[index];
}

const char *brake_inspector_item(int index)
{
    static const char *const items[] = {
        "Leaks: hold a hard pedal for 1 minute; no drop, no seep at any joint.",
        "Hoses and lines: length at full droop and full lock, chafe, twist, grommets, flares.",
        "Linings, rotors, drums: thickness, cracks, wear limits cast or stamped on them.",
        "Caliper brackets, bolts and wheel clearance; marking and origin of the parts.",
        "Left to right difference of brake force, on a roller or plate tester.",
        "Booster: pump out, hold the pedal, start the engine: the pedal must fall.",
        "Fluid: level, age, boiling point or water content.",
        "Warning lamps: brake failure, fluid, anti-lock, stability control on the new tyres.",
        "Parking brake: travel, release, cable, and hold on a slope.",
        "Pull, noise and pedal feel on a closed road.",
        "Tyres: size, load and speed rating, clearance, pressure; wheel fixings.",
        "Declared list of modifications and the local rules for lift and tyre size.",
    };
    return index >= 0 && index < (int)(sizeof items / sizeof items[0]) ? items[index] : NULL;
}
