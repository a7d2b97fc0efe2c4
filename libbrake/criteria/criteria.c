/* SPDX-License-Identifier: MIT */
/* The requirements. Figures restated from the clauses named; `text` says where a figure was read, a
 * row without it was put down from memory and must be checked against the current text. */
#include "brake/criteria.h"
#include "judge.h"

#include <stddef.h>

#include "brake/constants.h"

#define KMH(v) ((v) / 3.6)
#define MPH(v) ((v)*0.44704)
#define FOOT 0.3048
#define LBF(f) ((f)*4.4482216152605)

/* "0.10 V" and "0.15 V" with V in km/h, as seconds. */
#define LAG_10 0.36
#define LAG_15 0.54

#define FMVSS_135 "49 CFR 571.135 as amended to 77 FR 760 (2012), a stored copy"
#define CFR_393 "49 CFR 393.52 as amended to 67 FR 51777 (2002), a stored copy"
#define EU_45 "Directive 2014/45/EU, a consolidated text in a stored copy"

#define MOT "DVSA MOT inspection manual, section 1, an undated copy"
#define NL "Regeling voertuigen, version of May 2017, a stored copy"
#define FMVSS_105 "49 CFR 571.105, an undated copy later than 2005"
#define STVZO "StVZO, version of March 2022, a stored copy"
#define QUEBEC "C-24.2, r. 32, copies of 2010 to 2026"
#define NSW "NSW Brake assessment manual 1.0 (October 2013), a copy without all of its pages"
#define SA "Brake system test procedure, page of the government, undated"
#define READ_IN(version) .read = BRAKE_READ_OWN, .text = (version)

/* clang-format off */
static const struct brake_criterion criteria[] = {
    /* What hurts whatever binds the vehicle. */
    {.id = "hazard.floor", .book = BRAKE_BOOK_HAZARD, .clause = "stroke is all used up",
     .title = "Pedal or master cylinder at its end in full braking",
     .measure = BRAKE_STROKE_USED, .load = BRAKE_AT_FULL, .limit = 1.0,
     .text = "no clause: past it there is no more pressure"},
    {.id = "hazard.reserve", .book = BRAKE_BOOK_HAZARD, .clause = "49 CFR 570.5(c)",
     .title = "Pedal travel used at 50 lbf", .measure = BRAKE_PEDAL_TRAVEL,
     .load = BRAKE_AT_EMPTY, .force = 222.4, .limit = 0.80,
     .text = "49 CFR 570.55(c), for heavier vehicles; not for those made for more travel"},
    {.id = "hazard.rear_first", .book = BRAKE_BOOK_HAZARD, .clause = "UN R13-H Annex 5, 3.1 (B)",
     .title = "Rear wheels lock first only above 0.80 g", .measure = BRAKE_REAR_FIRST,
     .load = BRAKE_AT_BOTH, .limit = 0.80, .applies = BRAKE_TO_M1 | BRAKE_TO_NO_ANTILOCK},
    {.id = "hazard.rear_first_n1", .book = BRAKE_BOOK_HAZARD, .clause = "UN R13 Annex 10",
     .title = "Rear wheels lock first only above 0.50 g", .measure = BRAKE_REAR_FIRST,
     .load = BRAKE_AT_BOTH, .limit = 0.50, .applies = BRAKE_TO_N1 | BRAKE_TO_NO_ANTILOCK,
     .text = "Directive 71/320/EEC Annex II Appendix (2007)"},
    {.id = "hazard.self_lock", .book = BRAKE_BOOK_HAZARD, .clause = "a shoe that grabs stays on",
     .title = "Friction at which a shoe locks itself, over its own", .measure = BRAKE_SHOE_LOCK,
     .load = BRAKE_AT_FULL, .limit = 1.0, .applies = BRAKE_TO_SHOE_SHAPE,
     .text = "no clause: from there on the brake cannot be let off"},
    {.id = "hazard.fluid", .book = BRAKE_BOOK_HAZARD, .clause = "UN R13 Annex 4, 1.6 (Type-II)",
     .title = "Room to boiling over the rise of the fluid on a long descent, worn and wet",
     .measure = BRAKE_FLUID_ROOM, .load = BRAKE_AT_FULL, .limit = 1.0},
    {.id = "hazard.circuit", .book = BRAKE_BOOK_HAZARD, .clause = "UN R13-H Annex 3, 2.2",
     .title = "Deceleration with either circuit failed", .measure = BRAKE_STOP_DECELERATION,
     .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT}, .load = BRAKE_AT_FULL,
     .force = 500.0, .limit = 2.44, .applies = BRAKE_TO_M1},
    {.id = "hazard.circuit_n1", .book = BRAKE_BOOK_HAZARD, .clause = "UN R13 Annex 4, 2.4",
     .title = "Deceleration with either circuit failed", .measure = BRAKE_STOP_DECELERATION,
     .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT}, .load = BRAKE_AT_FULL,
     .force = 700.0, .limit = 1.3, .applies = BRAKE_TO_N1},
    {.id = "hazard.assist", .book = BRAKE_BOOK_HAZARD, .clause = "UN R13-H Annex 3, 2.2",
     .title = "Deceleration without assist", .measure = BRAKE_STOP_DECELERATION,
     .failure = {BRAKE_NO_ASSIST, BRAKE_NO_ASSIST}, .load = BRAKE_AT_FULL, .force = 500.0,
     .limit = 2.44, .applies = BRAKE_TO_M1 | BRAKE_TO_BOOSTED},
    {.id = "hazard.assist_n1", .book = BRAKE_BOOK_HAZARD, .clause = "UN R13 Annex 4, 2.2",
     .title = "Deceleration without assist", .measure = BRAKE_STOP_DECELERATION,
     .failure = {BRAKE_NO_ASSIST, BRAKE_NO_ASSIST}, .load = BRAKE_AT_FULL, .force = 700.0,
     .limit = 2.2, .applies = BRAKE_TO_N1 | BRAKE_TO_BOOSTED,
     .text = "UN R13 Rev. 4 (2000), an old revision"},
    {.id = "hazard.parking", .book = BRAKE_BOOK_HAZARD, .clause = "2014/45/EU Annex I, 1.4.2",
     .title = "Grade that the parking brake holds, up and down", .measure = BRAKE_PARKING_GRADE,
     .load = BRAKE_AT_FULL, .force = 400.0, .limit = 0.16,
     .text = "DVSA MOT inspection manual, section 1 (undated copy)"},
    {.id = "hazard.tyre_load", .book = BRAKE_BOOK_HAZARD, .clause = "load index of the tyre",
     .title = "Axle load over what its tyres may carry", .measure = BRAKE_TYRE_LOAD,
     .load = BRAKE_AT_FULL, .limit = 1.0, .text = "marking of the tyre"},
    {.id = "hazard.axle_load", .book = BRAKE_BOOK_HAZARD, .clause = "rating of the axle",
     .title = "Axle load over the axle's rating", .measure = BRAKE_AXLE_LOAD,
     .load = BRAKE_AT_FULL, .limit = 1.0, .text = "maker's plate"},
    {.id = "hazard.mass", .book = BRAKE_BOOK_HAZARD, .clause = "rated mass of the vehicle",
     .title = "Mass over the rated mass (2 % for scales)", .measure = BRAKE_MASS_LOAD,
     .load = BRAKE_AT_FULL, .limit = 1.02, .text = "maker's plate"},

    /* FMVSS 105: what was read of it; Table II, with the stopping distances, is a picture. Its lightly
     * loaded vehicle carries 181.4 kg, taken as the 180 kg of FMVSS 135. */
    {.id = "us.105.parking", .book = BRAKE_BOOK_105, READ_IN(FMVSS_105), .clause = "49 CFR 571.105 S5.2",
     .title = "Parking brake on 20 %, up and down", .measure = BRAKE_PARKING_GRADE,
     .load = BRAKE_AT_LIGHT | BRAKE_AT_RATED, .force = LBF(90), .foot = LBF(125), .limit = 0.20,
     .applies = BRAKE_TO_HEAVIER | BRAKE_TO_10000_LB},
    {.id = "us.105.assist_spent", .screen = true, .book = BRAKE_BOOK_105, READ_IN(FMVSS_105),
     .clause = "49 CFR 571.105 S5.1.3.2",
     .title = "Stop from 60 mph, stored assist used up (one of several ways)",
     .measure = BRAKE_STOP_DISTANCE, .failure = {BRAKE_NO_ASSIST, BRAKE_NO_ASSIST},
     .load = BRAKE_AT_RATED, .force = LBF(150), .speed = MPH(60), .limit = 646.0 * FOOT,
     .applies = BRAKE_TO_HEAVIER | BRAKE_TO_10000_LB | BRAKE_TO_BOOSTED},
    {.id = "us.105.water", .screen = true, .book = BRAKE_BOOK_105, READ_IN(FMVSS_105),
     .clause = "49 CFR 571.105 S5.1.5.2",
     .title = "Pedal force for 10 ft/s2, dry; the fifth stop after water may take no more",
     .measure = BRAKE_PEDAL_FORCE, .load = BRAKE_AT_RATED, .rate = 10.0 * FOOT, .limit = LBF(90),
     .applies = BRAKE_TO_HEAVIER | BRAKE_TO_10000_LB},

    /* FMVSS 135: light vehicles, rated mass up to 3,500 kg. */
    {.id = "us.135.cold", .book = BRAKE_BOOK_135, READ_IN(FMVSS_135), .clause = "49 CFR 571.135 S7.5",
     .title = "Cold stop from 100 km/h", .measure = BRAKE_STOP_DISTANCE, .load = BRAKE_AT_LIGHT | BRAKE_AT_RATED,
     .force = 500.0, .speed = KMH(100), .lag = LAG_10, .coefficient = 0.0060,
     .applies = BRAKE_TO_LIGHT},
    {.id = "us.135.high_speed", .book = BRAKE_BOOK_135, READ_IN(FMVSS_135), .clause = "49 CFR 571.135 S7.6",
     .title = "Stop from 80 % of top speed, in gear", .failure = {BRAKE_IN_GEAR, BRAKE_IN_GEAR}, .measure = BRAKE_STOP_DISTANCE,
     .load = BRAKE_AT_LIGHT | BRAKE_AT_RATED, .force = 500.0, .speed_cap = KMH(160), .lag = LAG_10,
     .coefficient = 0.0067, .applies = BRAKE_TO_LIGHT | BRAKE_TO_FAST},
    {.id = "us.135.engine_off", .book = BRAKE_BOOK_135, READ_IN(FMVSS_135), .clause = "49 CFR 571.135 S7.7",
     .title = "Stop with the engine off, reservoirs full", .measure = BRAKE_STOP_DISTANCE,
     .failure = {BRAKE_ENGINE_OFF, BRAKE_ENGINE_OFF}, .load = BRAKE_AT_RATED, .force = 500.0,
     .speed = KMH(100), .lag = LAG_10, .coefficient = 0.0060,
     .applies = BRAKE_TO_LIGHT | BRAKE_TO_BOOSTED},
    {.id = "us.135.antilock_failed", .book = BRAKE_BOOK_135, READ_IN(FMVSS_135), .clause = "49 CFR 571.135 S7.8",
     .title = "Stop with the anti-lock failed", .measure = BRAKE_STOP_DISTANCE,
     .failure = {BRAKE_NO_ANTILOCK, BRAKE_NO_ANTILOCK}, .load = BRAKE_AT_LIGHT | BRAKE_AT_RATED, .force = 500.0,
     .speed = KMH(100), .lag = LAG_10, .coefficient = 0.0075,
     .applies = BRAKE_TO_LIGHT | BRAKE_TO_ANTILOCK},
    {.id = "us.135.valve_failed", .book = BRAKE_BOOK_135, READ_IN(FMVSS_135), .clause = "49 CFR 571.135 S7.9",
     .title = "Stop with the sensing valve failed, open or shut",
     .measure = BRAKE_STOP_DISTANCE, .failure = {BRAKE_VALVE_OPEN, BRAKE_VALVE_SHUT},
     .load = BRAKE_AT_LIGHT | BRAKE_AT_RATED, .force = 500.0, .speed = KMH(100), .lag = LAG_10,
     .coefficient = 0.0100, .applies = BRAKE_TO_LIGHT | BRAKE_TO_SENSING_VALVE},
    {.id = "us.135.circuit_failed", .book = BRAKE_BOOK_135, READ_IN(FMVSS_135), .clause = "49 CFR 571.135 S7.10",
     .title = "Stop with either circuit failed", .measure = BRAKE_STOP_DISTANCE,
     .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT}, .load = BRAKE_AT_LIGHT | BRAKE_AT_RATED,
     .force = 500.0, .speed = KMH(100), .lag = LAG_10, .coefficient = 0.0158,
     .applies = BRAKE_TO_LIGHT},
    {.id = "us.135.assist_failed", .book = BRAKE_BOOK_135, READ_IN(FMVSS_135), .clause = "49 CFR 571.135 S7.11",
     .title = "Stop without assist", .measure = BRAKE_STOP_DISTANCE,
     .failure = {BRAKE_NO_ASSIST, BRAKE_NO_ASSIST}, .load = BRAKE_AT_RATED, .force = 500.0,
     .speed = KMH(100), .lag = LAG_10, .coefficient = 0.0158,
     .applies = BRAKE_TO_LIGHT | BRAKE_TO_BOOSTED},
    {.id = "us.135.parking", .book = BRAKE_BOOK_135, READ_IN(FMVSS_135), .clause = "49 CFR 571.135 S7.12.3",
     .title = "Parking brake on 20 %, up and down", .measure = BRAKE_PARKING_GRADE,
     .load = BRAKE_AT_RATED, .force = 400.0, .limit = 0.20, .applies = BRAKE_TO_LIGHT},
    {.id = "us.135.lock_order", .screen = true, .book = BRAKE_BOOK_135, READ_IN(FMVSS_135), .clause = "49 CFR 571.135 S7.2.4",
     .title = "Rear wheels lock first only above 0.80 g", .measure = BRAKE_REAR_FIRST,
     .load = BRAKE_AT_LIGHT | BRAKE_AT_RATED, .limit = 0.80, .applies = BRAKE_TO_LIGHT | BRAKE_TO_NO_ANTILOCK},
    {.id = "us.135.rear_curve", .book = BRAKE_BOOK_135, READ_IN(FMVSS_135), .clause = "49 CFR 571.135 S7.4.5",
     .title = "Rear axle within its adhesion bound", .measure = BRAKE_REAR_CURVE,
     .load = BRAKE_AT_LIGHT | BRAKE_AT_RATED, .limit = 1.0, .applies = BRAKE_TO_LIGHT | BRAKE_TO_NO_ANTILOCK},
    {.id = "us.135.hot_kept", .book = BRAKE_BOOK_135, READ_IN(FMVSS_135), .clause = "49 CFR 571.135 S7.14.4(a)",
     .title = "First hot stop keeps 60 % of the cold deceleration",
     .measure = BRAKE_HOT_LENGTHENING, .load = BRAKE_AT_RATED, .speed = KMH(100), .lag = LAG_10,
     .limit = 0.60, .applies = BRAKE_TO_LIGHT},
    {.id = "us.135.hot", .book = BRAKE_BOOK_135, READ_IN(FMVSS_135), .clause = "49 CFR 571.135 S7.14.4(b)",
     .title = "Hot stop from 100 km/h, better of two", .measure = BRAKE_HOT_DISTANCE,
     .load = BRAKE_AT_RATED, .speed = KMH(100), .lag = LAG_10, .coefficient = 0.0079,
     .applies = BRAKE_TO_LIGHT},
    {.id = "us.135.recovery", .book = BRAKE_BOOK_135, .read = BRAKE_READ_SECOND_HAND,
     .text = "NHTSA interpretation 11409.MLS; in the copy of the text the figures are a picture", .clause = "49 CFR 571.135 S7.16.4",
     .title = "Deceleration after cooling over cold", .measure = BRAKE_RECOVERY_LEAST,
     .load = BRAKE_AT_RATED, .limit = 0.70, .applies = BRAKE_TO_LIGHT},
    {.id = "us.135.recovery_most", .book = BRAKE_BOOK_135, .read = BRAKE_READ_SECOND_HAND,
     .text = "NHTSA interpretation 11409.MLS; in the copy of the text the figures are a picture", .clause = "49 CFR 571.135 S7.16.4",
     .title = "Deceleration after cooling over cold", .measure = BRAKE_RECOVERY_MOST,
     .load = BRAKE_AT_RATED, .limit = 1.50, .applies = BRAKE_TO_LIGHT},

    /* 49 CFR 393.52: three separate service tests and one of the emergency system, 20 mph. */
#define SERVICE_393(key, words, ratio, rate, feet, emergency, vehicles)                            \
    {.id = "us.393." key ".force", READ_IN(CFR_393), .book = BRAKE_BOOK_393, .clause = "49 CFR 393.52(d) " words,   \
     .title = "Brake force over weight", .measure = BRAKE_STOP_RATIO, .load = BRAKE_AT_BOTH,       \
     .limit = (ratio), .applies = (vehicles) | BRAKE_TO_COMMERCIAL},                                                     \
    {.id = "us.393." key ".deceleration", READ_IN(CFR_393), .book = BRAKE_BOOK_393,                                 \
     .clause = "49 CFR 393.52(d) " words, .title = "Deceleration from 20 mph",                     \
     .measure = BRAKE_STOP_DECELERATION, .load = BRAKE_AT_BOTH, .limit = (rate) * FOOT,            \
     .applies = (vehicles) | BRAKE_TO_COMMERCIAL},                                                                       \
    {.id = "us.393." key ".distance", READ_IN(CFR_393), .book = BRAKE_BOOK_393,                                     \
     .clause = "49 CFR 393.52(d) " words, .title = "Stop from 20 mph",                             \
     .measure = BRAKE_STOP_DISTANCE, .load = BRAKE_AT_BOTH, .speed = MPH(20),                      \
     .limit = (feet) * FOOT, .applies = (vehicles) | BRAKE_TO_COMMERCIAL},                                               \
    {.id = "us.393." key ".emergency", READ_IN(CFR_393), .book = BRAKE_BOOK_393,                                    \
     .clause = "49 CFR 393.52(d) " words, .title = "Stop from 20 mph with either circuit failed",  \
     .measure = BRAKE_STOP_DISTANCE, .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT},       \
     .load = BRAKE_AT_BOTH, .speed = MPH(20), .limit = (emergency) * FOOT,                         \
     .applies = (vehicles) | BRAKE_TO_COMMERCIAL}
    SERVICE_393("car", "A(1)", 0.652, 21.0, 20.0, 54.0, BRAKE_TO_M1 | BRAKE_TO_CAR_FRAME),
    SERVICE_393("wagon", "A(2)", 0.528, 17.0, 25.0, 66.0,
                BRAKE_TO_M1 | BRAKE_TO_TRUCK_FRAME | BRAKE_TO_10000_LB),
    SERVICE_393("goods", "B(1)", 0.528, 17.0, 25.0, 66.0, BRAKE_TO_N1 | BRAKE_TO_10000_LB),

    /* 49 CFR part 570, vehicles in use, rated mass up to 10,000 lb. */
    {.id = "us.570.road_test", .book = BRAKE_BOOK_570, .clause = "49 CFR 570.5(d)(2)",
     .title = "Stop from 20 mph", .measure = BRAKE_STOP_DISTANCE, .load = BRAKE_AT_EMPTY,
     .speed = MPH(20), .limit = 25.0 * FOOT, .applies = BRAKE_TO_10000_LB},
    {.id = "us.570.pedal", .book = BRAKE_BOOK_570, .read = BRAKE_READ_SISTER,
     .text = "49 CFR 570.55(c), for heavier vehicles; not for those made for more travel", .clause = "49 CFR 570.5(c)",
     .title = "Pedal travel used at 50 lbf", .measure = BRAKE_PEDAL_TRAVEL,
     .load = BRAKE_AT_EMPTY, .force = 222.4, .limit = 0.80, .applies = BRAKE_TO_10000_LB},
    {.id = "us.570.sides", .book = BRAKE_BOOK_570, .read = BRAKE_READ_SISTER,
     .text = "49 CFR 570.59(a)(1), for heavier vehicles", .clause = "49 CFR 570.5(d)(1)",
     .title = "Left to right difference (25 %; an older text may say 20 %)",
     .measure = BRAKE_SIDE_DIFFERENCE, .load = BRAKE_AT_EMPTY, .limit = 0.25, .applies = BRAKE_TO_10000_LB},

    /* UN Regulation 13-H, M1. */
    {.id = "un.13h.type0", .book = BRAKE_BOOK_R13H, .read = BRAKE_READ_SECOND_HAND, .clause = "UN R13-H Annex 3, 2.1.1",
     .title = "Type-0 deceleration, engine disconnected", .measure = BRAKE_STOP_DECELERATION,
     .load = BRAKE_AT_EMPTY | BRAKE_AT_RATED, .force = 500.0, .limit = 6.43, .applies = BRAKE_TO_M1,
     .text = "news page on GB 21670-2008, which repeats the figures"},
    {.id = "un.13h.type0_distance", .book = BRAKE_BOOK_R13H, .read = BRAKE_READ_SECOND_HAND, .clause = "UN R13-H Annex 3, 2.1.1",
     .title = "Type-0 distance from 100 km/h", .measure = BRAKE_STOP_DISTANCE,
     .load = BRAKE_AT_EMPTY | BRAKE_AT_RATED, .force = 500.0, .speed = KMH(100), .lag = LAG_10,
     .coefficient = 0.0060, .applies = BRAKE_TO_M1,
     .text = "news page on GB 21670-2008, which repeats the figures"},
    {.id = "un.13h.high_speed", .book = BRAKE_BOOK_R13H, .clause = "UN R13-H Annex 3, 2.1.1",
     .title = "Type-0 distance from 80 % of top speed, engine connected",
     .failure = {BRAKE_IN_GEAR, BRAKE_IN_GEAR}, .measure = BRAKE_STOP_DISTANCE, .load = BRAKE_AT_EMPTY | BRAKE_AT_RATED, .force = 500.0,
     .speed_cap = KMH(160), .lag = LAG_10, .coefficient = 0.0067,
     .applies = BRAKE_TO_M1 | BRAKE_TO_FAST},
    {.id = "un.13h.trailer", .book = BRAKE_BOOK_R13H, .clause = "UN R13-H Annex 3, 2.1.2",
     .title = "With an unbraked trailer", .measure = BRAKE_TOW_DECELERATION,
     .load = BRAKE_AT_EMPTY | BRAKE_AT_RATED, .force = 500.0, .limit = 5.4,
     .applies = BRAKE_TO_M1 | BRAKE_TO_TRAILER},
    {.id = "un.13h.circuit", .book = BRAKE_BOOK_R13H, .clause = "UN R13-H Annex 3, 2.2",
     .title = "Secondary deceleration, either circuit failed",
     .measure = BRAKE_STOP_DECELERATION, .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT},
     .load = BRAKE_AT_EMPTY | BRAKE_AT_RATED, .force = 500.0, .limit = 2.44, .applies = BRAKE_TO_M1},
    {.id = "un.13h.circuit_distance", .book = BRAKE_BOOK_R13H, .clause = "UN R13-H Annex 3, 2.2",
     .title = "Secondary distance from 100 km/h, either circuit failed",
     .measure = BRAKE_STOP_DISTANCE, .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT},
     .load = BRAKE_AT_EMPTY | BRAKE_AT_RATED, .force = 500.0, .speed = KMH(100), .lag = LAG_10,
     .coefficient = 0.0158, .applies = BRAKE_TO_M1},
    {.id = "un.13h.assist", .book = BRAKE_BOOK_R13H, .clause = "UN R13-H Annex 3, 2.2",
     .title = "Secondary deceleration without assist", .measure = BRAKE_STOP_DECELERATION,
     .failure = {BRAKE_NO_ASSIST, BRAKE_NO_ASSIST}, .load = BRAKE_AT_EMPTY | BRAKE_AT_RATED, .force = 500.0,
     .limit = 2.44, .applies = BRAKE_TO_M1 | BRAKE_TO_BOOSTED},
    {.id = "un.13h.parking", .book = BRAKE_BOOK_R13H, .clause = "UN R13-H Annex 3, 2.3",
     .title = "Parking brake on 20 %, up and down", .measure = BRAKE_PARKING_GRADE,
     .load = BRAKE_AT_RATED, .force = 400.0, .limit = 0.20, .applies = BRAKE_TO_M1},
    {.id = "un.13h.parking_trailer", .book = BRAKE_BOOK_R13H, .clause = "UN R13-H Annex 3, 2.3",
     .title = "Parking brake on 12 % with an unbraked trailer",
     .measure = BRAKE_PARKING_TOW_GRADE, .load = BRAKE_AT_RATED, .force = 400.0, .limit = 0.12,
     .applies = BRAKE_TO_M1 | BRAKE_TO_TRAILER},
    {.id = "un.13h.parking_moving", .book = BRAKE_BOOK_R13H, .clause = "UN R13-H Annex 3, 2.3",
     .title = "Deceleration by the parking brake", .measure = BRAKE_PARKING_DECELERATION,
     .load = BRAKE_AT_RATED, .force = 400.0, .limit = 1.5, .applies = BRAKE_TO_M1},
    {.id = "un.13h.adhesion", .book = BRAKE_BOOK_R13H, .clause = "UN R13-H Annex 5, 3.1 (A)",
     .title = "Use of adhesion, 0.2 to 0.8", .measure = BRAKE_ADHESION_CURVE,
     .load = BRAKE_AT_EMPTY | BRAKE_AT_RATED, .coefficient = 0.70, .limit = 1.0,
     .applies = BRAKE_TO_M1 | BRAKE_TO_NO_ANTILOCK},
    {.id = "un.13h.lock_order", .book = BRAKE_BOOK_R13H, .clause = "UN R13-H Annex 5, 3.1 (B)",
     .title = "Rear wheels lock first only above 0.80 g", .measure = BRAKE_REAR_FIRST,
     .load = BRAKE_AT_EMPTY | BRAKE_AT_RATED, .limit = 0.80, .applies = BRAKE_TO_M1 | BRAKE_TO_NO_ANTILOCK},
    {.id = "un.13h.hot", .book = BRAKE_BOOK_R13H, .clause = "UN R13-H Annex 3, 1.5.2",
     .title = "Type-I hot deceleration, better of two: 75 % of what is prescribed",
     .measure = BRAKE_HOT_DECELERATION, .load = BRAKE_AT_RATED, .limit = 4.82,
     .applies = BRAKE_TO_M1},
    {.id = "un.13h.hot_distance", .book = BRAKE_BOOK_R13H, .clause = "UN R13-H Annex 3, 1.5.2",
     .title = "Type-I hot distance from 100 km/h, better of two", .measure = BRAKE_HOT_DISTANCE,
     .load = BRAKE_AT_RATED, .speed = KMH(100), .lag = LAG_10, .coefficient = 0.0080,
     .applies = BRAKE_TO_M1},
    {.id = "un.13h.hot_kept", .book = BRAKE_BOOK_R13H, .clause = "UN R13-H Annex 3, 1.5.2",
     .title = "First hot stop over cold", .measure = BRAKE_HOT_KEPT, .load = BRAKE_AT_RATED,
     .limit = 0.60, .applies = BRAKE_TO_M1},
    {.id = "un.13h.recovery", .book = BRAKE_BOOK_R13H, .clause = "UN R13-H Annex 3, 1.5.3",
     .title = "Deceleration after cooling over cold", .measure = BRAKE_RECOVERY_LEAST,
     .load = BRAKE_AT_RATED, .limit = 0.70, .applies = BRAKE_TO_M1},
    {.id = "un.13h.recovery_most", .book = BRAKE_BOOK_R13H, .clause = "UN R13-H Annex 3, 1.5.3",
     .title = "Deceleration after cooling over cold", .measure = BRAKE_RECOVERY_MOST,
     .load = BRAKE_AT_RATED, .limit = 1.50, .applies = BRAKE_TO_M1},

    /* UN Regulation 13, N1. */
    {.id = "un.13.type0", .book = BRAKE_BOOK_R13, .read = BRAKE_READ_SISTER,
     .text = "Directive 70/311/EEC Annex II (to 2021)", .clause = "UN R13 Annex 4, 2.1.1",
     .title = "Type-0 deceleration, engine disconnected", .measure = BRAKE_STOP_DECELERATION,
     .load = BRAKE_AT_EMPTY | BRAKE_AT_RATED, .force = 700.0, .limit = 5.0, .applies = BRAKE_TO_N1},
    {.id = "un.13.type0_distance", .book = BRAKE_BOOK_R13, .clause = "UN R13 Annex 4, 2.1.1",
     .title = "Type-0 distance from 80 km/h", .measure = BRAKE_STOP_DISTANCE,
     .load = BRAKE_AT_EMPTY | BRAKE_AT_RATED, .force = 700.0, .speed = KMH(80), .lag = LAG_15,
     .coefficient = 1.0 / 130.0, .applies = BRAKE_TO_N1},
    {.id = "un.13.high_speed", .book = BRAKE_BOOK_R13, .clause = "UN R13 Annex 4, 2.1.1",
     .title = "Type-0 distance from 80 % of top speed, engine connected",
     .failure = {BRAKE_IN_GEAR, BRAKE_IN_GEAR}, .measure = BRAKE_STOP_DISTANCE, .load = BRAKE_AT_EMPTY | BRAKE_AT_RATED, .force = 700.0,
     .speed_cap = KMH(120), .lag = LAG_15, .coefficient = 1.0 / 103.5, .applies = BRAKE_TO_N1},
    {.id = "un.13.secondary", .book = BRAKE_BOOK_R13, .read = BRAKE_READ_SISTER, .clause = "UN R13 Annex 4, 2.2",
     .title = "Secondary deceleration without assist", .measure = BRAKE_STOP_DECELERATION,
     .failure = {BRAKE_NO_ASSIST, BRAKE_NO_ASSIST}, .load = BRAKE_AT_EMPTY | BRAKE_AT_RATED, .force = 700.0,
     .limit = 2.2, .applies = BRAKE_TO_N1 | BRAKE_TO_BOOSTED,
     .text = "UN R13 Rev. 4 (2000), an old revision"},
    {.id = "un.13.residual_full", .book = BRAKE_BOOK_R13, .read = BRAKE_READ_SISTER,
     .text = "Directive 70/311/EEC Annex II (to 2021)", .clause = "UN R13 Annex 4, 2.4",
     .title = "Residual deceleration, full, either circuit failed",
     .measure = BRAKE_STOP_DECELERATION, .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT},
     .load = BRAKE_AT_RATED, .force = 700.0, .limit = 1.3, .applies = BRAKE_TO_N1},
    {.id = "un.13.residual_empty", .book = BRAKE_BOOK_R13, .clause = "UN R13 Annex 4, 2.4",
     .title = "Residual deceleration, empty, either circuit failed",
     .measure = BRAKE_STOP_DECELERATION, .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT},
     .load = BRAKE_AT_EMPTY, .force = 700.0, .limit = 1.1, .applies = BRAKE_TO_N1},
    {.id = "un.13.parking", .book = BRAKE_BOOK_R13, .clause = "UN R13 Annex 4, 2.3",
     .title = "Parking brake on 18 %, up and down", .measure = BRAKE_PARKING_GRADE,
     .load = BRAKE_AT_RATED, .force = 600.0, .limit = 0.18, .applies = BRAKE_TO_N1},
    {.id = "un.13.parking_trailer", .book = BRAKE_BOOK_R13, .clause = "UN R13 Annex 4, 2.3",
     .title = "Parking brake on 12 % with an unbraked trailer",
     .measure = BRAKE_PARKING_TOW_GRADE, .load = BRAKE_AT_RATED, .force = 600.0, .limit = 0.12,
     .applies = BRAKE_TO_N1 | BRAKE_TO_TRAILER},
    {.id = "un.13.adhesion", .book = BRAKE_BOOK_R13, .clause = "UN R13 Annex 10",
     .title = "Use of adhesion, 0.2 to 0.8", .measure = BRAKE_ADHESION_CURVE,
     .load = BRAKE_AT_EMPTY | BRAKE_AT_RATED, .coefficient = 0.85, .limit = 1.0,
     .applies = BRAKE_TO_N1 | BRAKE_TO_NO_ANTILOCK},
    {.id = "un.13.lock_order", .book = BRAKE_BOOK_R13, .read = BRAKE_READ_SISTER, .clause = "UN R13 Annex 10",
     .title = "Rear wheels lock first only above 0.50 g (first of two alternatives)",
     .measure = BRAKE_REAR_FIRST, .load = BRAKE_AT_EMPTY | BRAKE_AT_RATED, .limit = 0.50,
     .applies = BRAKE_TO_N1 | BRAKE_TO_NO_ANTILOCK,
     .text = "Directive 71/320/EEC Annex II Appendix (2007)"},
    {.id = "un.13.hot", .book = BRAKE_BOOK_R13, .read = BRAKE_READ_SISTER,
     .text = "UN R13 Rev. 4 (2000) and a later one", .clause = "UN R13 Annex 4, 1.5.3",
     .title = "Type-I hot deceleration, better of two: 80 % of what is prescribed",
     .measure = BRAKE_HOT_DECELERATION, .load = BRAKE_AT_RATED, .limit = 4.0,
     .fade = BRAKE_FADE_GOODS, .applies = BRAKE_TO_N1},
    {.id = "un.13.hot_kept", .book = BRAKE_BOOK_R13, .read = BRAKE_READ_SISTER,
     .text = "UN R13 Rev. 4 (2000) and a later one", .clause = "UN R13 Annex 4, 1.5.3",
     .title = "First hot stop over cold", .measure = BRAKE_HOT_KEPT, .load = BRAKE_AT_RATED,
     .limit = 0.60, .fade = BRAKE_FADE_GOODS, .applies = BRAKE_TO_N1},

    /* Directive 2014/45/EU, Annex I: periodic inspection. */
#define SERVICE_EU(key, words, service, vehicles, ...)                                             \
    {.id = "eu.45.service_" key, .book = BRAKE_BOOK_45, READ_IN(EU_45),                            \
     .clause = "2014/45/EU Annex I, 1.2.2", .title = "Service brake efficiency, " words,           \
     .measure = BRAKE_ROLLER_RATIO, .load = BRAKE_AT_RATED, .limit = (service), .graded = true,    \
     .applies = (vehicles), __VA_ARGS__},                                                          \
    {.id = "eu.45.secondary_" key, .book = BRAKE_BOOK_45, READ_IN(EU_45),                          \
     .clause = "2014/45/EU Annex I, 1.3.2", .title = "Secondary efficiency, half of service",      \
     .measure = BRAKE_ROLLER_RATIO, .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT},          \
     .load = BRAKE_AT_RATED, .limit = (service) / 2.0, .graded = true,               \
     .applies = (vehicles) | BRAKE_TO_SECONDARY, __VA_ARGS__}
    SERVICE_EU("m1", "M1 from 2012", 0.58, BRAKE_TO_M1, .from = 2012),
    SERVICE_EU("m1_old", "M1 before 2012", 0.50, BRAKE_TO_M1 | BRAKE_TO_ANTILOCK, .until = 2012),
    SERVICE_EU("m1_plain", "M1 before 2012, no anti-lock", 0.48, BRAKE_TO_M1 | BRAKE_TO_NO_ANTILOCK,
               .until = 2012),
    SERVICE_EU("n1", "N1 from 2012", 0.50, BRAKE_TO_N1, .from = 2012),
    SERVICE_EU("n1_old", "N1 before 2012", 0.45, BRAKE_TO_N1, .until = 2012),
    {.id = "eu.45.parking", .book = BRAKE_BOOK_45, READ_IN(EU_45), .clause = "2014/45/EU Annex I, 1.4.2",
     .title = "Parking brake efficiency", .measure = BRAKE_PARKING_RATIO, .load = BRAKE_AT_RATED,
     .limit = 0.16, .graded = true},
    {.id = "eu.45.parking_trailer", .book = BRAKE_BOOK_45, READ_IN(EU_45),
     .clause = "2014/45/EU Annex I, 1.4.2", .title = "Parking brake efficiency with the trailer",
     .measure = BRAKE_PARKING_TOW_RATIO, .load = BRAKE_AT_RATED, .limit = 0.12, .graded = true,
     .applies = BRAKE_TO_TRAILER},
    {.id = "eu.45.sides", .book = BRAKE_BOOK_45, READ_IN(EU_45), .clause = "2014/45/EU Annex I, 1.2.1",
     .title = "Left to right difference", .measure = BRAKE_SIDE_DIFFERENCE, .load = BRAKE_AT_EMPTY,
     .limit = 0.30, .graded = true},

    /* Great Britain: periodic inspection, by the weight on the tester; class 7 by the design weight.
     * A brake of whose wheels more than half lock there meets its figure: with the friction of rollers
     * that is taken here it does so anyhow. */
#define MOT_SERVICE(key, words, share, vehicles, ...)                                              \
    {.id = "gb.mot.service_" key, .book = BRAKE_BOOK_MOT, READ_IN(MOT),                            \
     .clause = "DVSA MOT manual 1.2.2", .title = "Service brake efficiency, " words,               \
     .measure = BRAKE_ROLLER_RATIO, .load = BRAKE_AT_EMPTY, .limit = (share), .graded = true,      \
     .applies = (vehicles), __VA_ARGS__}
    MOT_SERVICE("m1", "M1 from September 2010", 0.58, BRAKE_TO_M1, .from = 2010.0 + 8.0 / 12.0),
    MOT_SERVICE("m1_old", "M1 before September 2010", 0.50, BRAKE_TO_M1,
                .until = 2010.0 + 8.0 / 12.0),
    MOT_SERVICE("n1", "N1 to 3,000 kg", 0.50, BRAKE_TO_N1 | BRAKE_TO_MOT_4, .from = 0),
    {.id = "gb.mot.service_class7", .book = BRAKE_BOOK_MOT, READ_IN(MOT),
     .clause = "DVSA MOT manual 1.2.1, 1.2.2",
     .title = "Service brake efficiency, or fronts that lock unladen with 100 kgf at each rear",
     .measure = BRAKE_ROLLER_OR_LOCK, .load = BRAKE_AT_RATED, .limit = 0.50, .graded = true,
     .applies = BRAKE_TO_MOT_7},
    {.id = "gb.mot.secondary", .book = BRAKE_BOOK_MOT, READ_IN(MOT),
     .clause = "DVSA MOT manual 1.3.2", .title = "Secondary efficiency",
     .measure = BRAKE_ROLLER_RATIO, .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT},
     .load = BRAKE_AT_EMPTY, .limit = 0.25, .graded = true,
     .applies = BRAKE_TO_SECONDARY | BRAKE_TO_MOT_4},
    {.id = "gb.mot.parking", .book = BRAKE_BOOK_MOT, READ_IN(MOT),
     .clause = "DVSA MOT manual 1.4.2", .title = "Parking brake efficiency",
     .measure = BRAKE_PARKING_RATIO, .load = BRAKE_AT_EMPTY, .limit = 0.16, .graded = true,
     .applies = BRAKE_TO_MOT_4},
    {.id = "gb.mot.parking_class7", .book = BRAKE_BOOK_MOT, READ_IN(MOT),
     .clause = "DVSA MOT manual 1.4.2", .title = "Parking brake efficiency, of the design weight",
     .measure = BRAKE_PARKING_RATIO, .load = BRAKE_AT_RATED, .limit = 0.16, .graded = true,
     .applies = BRAKE_TO_MOT_7},
    {.id = "gb.mot.sides", .book = BRAKE_BOOK_MOT, READ_IN(MOT),
     .clause = "DVSA MOT manual 1.2.1", .title = "Left to right difference",
     .measure = BRAKE_SIDE_DIFFERENCE, .load = BRAKE_AT_EMPTY, .force = 40.0 * BRAKE_GRAVITY,
     .limit = 0.30, .graded = true},

    /* The Netherlands: vehicles in use. */
#define NL_SERVICE(key, words, rate, newton, class, clause_of, ...)                                \
    {.id = "nl.service_" key, .book = BRAKE_BOOK_NL, READ_IN(NL),                                  \
     .clause = "Regeling voertuigen " clause_of, .title = "Service brake deceleration, " words,    \
     .measure = BRAKE_STOP_DECELERATION, .load = BRAKE_AT_BOTH, .force = (newton),                 \
     .limit = (rate), .applies = (class), __VA_ARGS__}
    NL_SERVICE("m1", "M1 from 2012", 5.8, 500.0, BRAKE_TO_M1, "5.2.38", .from = 2012),
    NL_SERVICE("m1_old", "M1, 1967 to 2011", 5.2, 500.0, BRAKE_TO_M1, "5.2.38",
               .from = 1967.5, .until = 2012),
    NL_SERVICE("m1_1967", "M1 before July 1967", 3.8, 500.0, BRAKE_TO_M1, "5.2.38",
               .until = 1967.5),
    NL_SERVICE("n1", "N1 from 2012", 5.0, 700.0, BRAKE_TO_N1, "5.3.38", .from = 2012),
    NL_SERVICE("n1_2011", "N1, 1998 to 2011", 4.5, 700.0, BRAKE_TO_N1, "5.3.38",
               .from = 1998, .until = 2012),
    NL_SERVICE("n1_1997", "N1, 1967 to 1997", 4.0, 700.0, BRAKE_TO_N1, "5.3.38",
               .from = 1967.5, .until = 1998),
    NL_SERVICE("n1_1967", "N1 before July 1967", 3.8, 700.0, BRAKE_TO_N1, "5.3.38",
               .until = 1967.5),
    {.id = "nl.parking", .book = BRAKE_BOOK_NL, READ_IN(NL),
     .clause = "Regeling voertuigen 5.2.38", .title = "Parking brake on 16 %, up and down",
     .measure = BRAKE_PARKING_GRADE, .load = BRAKE_AT_BOTH, .limit = 0.16, .from = 1967.5},
    {.id = "nl.parking_1967", .book = BRAKE_BOOK_NL, READ_IN(NL),
     .clause = "Regeling voertuigen 5.2.38", .title = "Deceleration by the parking brake",
     .measure = BRAKE_PARKING_DECELERATION, .load = BRAKE_AT_BOTH, .limit = 1.0, .until = 1967.5},
    {.id = "nl.train", .book = BRAKE_BOOK_NL, READ_IN(NL),
     .clause = "Regeling voertuigen 5.18.35", .title = "With the trailer and its own brakes",
     .measure = BRAKE_TRAIN_DECELERATION, .load = BRAKE_AT_BOTH, .limit = 4.0,
     .applies = BRAKE_TO_TRAILER},
    {.id = "nl.train_parking", .book = BRAKE_BOOK_NL, READ_IN(NL),
     .clause = "Regeling voertuigen 5.18.36", .title = "Parking brake on 10 % with the trailer",
     .measure = BRAKE_PARKING_TOW_GRADE, .load = BRAKE_AT_BOTH, .limit = 0.10,
     .applies = BRAKE_TO_TRAILER},
    {.id = "nl.sides", .book = BRAKE_BOOK_NL, READ_IN(NL),
     .clause = "Regeling voertuigen Annex VIII 61", .title = "Left to right difference",
     .measure = BRAKE_SIDE_DIFFERENCE, .load = BRAKE_AT_EMPTY, .limit = 0.30},

    /* Germany: for vehicles outside of section 41(18); those of later date follow the texts of the EU
     * and the UN. Usual effort, no figure: the driver's most. */
    {.id = "de.41.service", .book = BRAKE_BOOK_DE, READ_IN(STVZO), .clause = "StVZO 41(4), 41(12)",
     .title = "Mean fully developed deceleration", .measure = BRAKE_STOP_DECELERATION,
     .load = BRAKE_AT_RATED, .limit = 5.0},
    {.id = "de.41.part_failed", .book = BRAKE_BOOK_DE, READ_IN(STVZO), .clause = "StVZO 41(4a)",
     .title = "Deceleration with either circuit failed, 44 % of what is prescribed",
     .measure = BRAKE_STOP_DECELERATION, .failure = {BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT},
     .load = BRAKE_AT_RATED, .limit = 2.2},
    {.id = "de.41.parking", .book = BRAKE_BOOK_DE, READ_IN(STVZO), .clause = "StVZO 41(5)",
     .title = "Deceleration by the parking brake", .measure = BRAKE_PARKING_DECELERATION,
     .load = BRAKE_AT_RATED, .limit = 1.5},
    {.id = "de.41.unbraked_trailer", .book = BRAKE_BOOK_DE, READ_IN(STVZO), .clause = "StVZO 41(11)",
     .title = "With an unbraked trailer", .measure = BRAKE_TOW_DECELERATION,
     .load = BRAKE_AT_RATED, .limit = 5.0, .applies = BRAKE_TO_UNBRAKED_TRAILER},

    /* Quebec: inspection of vehicles in use. The other way to meet 32, 5.8 m from 30 km/h, is the same
     * figure without the time in which the brakes come on. A hydraulic booster is tested with 265 N
     * in place of 550 N; no line tells of it. */
    {.id = "ca.qc.service", .book = BRAKE_BOOK_QUEBEC, READ_IN(QUEBEC), .clause = "C-24.2, r. 32, 32",
     .title = "Mean deceleration from 30 km/h", .measure = BRAKE_STOP_DECELERATION,
     .load = BRAKE_AT_EMPTY, .limit = 6.0, .applies = BRAKE_TO_4500_KG},
    {.id = "ca.qc.travel", .book = BRAKE_BOOK_QUEBEC, READ_IN(QUEBEC), .clause = "C-24.2, r. 32, 35",
     .title = "Pedal travel used at 550 N", .measure = BRAKE_PEDAL_TRAVEL,
     .load = BRAKE_AT_EMPTY, .force = 550.0, .limit = 0.65, .applies = BRAKE_TO_4500_KG},
    {.id = "ca.qc.travel_major", .book = BRAKE_BOOK_QUEBEC, READ_IN(QUEBEC),
     .clause = "C-24.2, r. 32, 165", .title = "Pedal travel at 550 N that is a major defect",
     .measure = BRAKE_PEDAL_TRAVEL, .load = BRAKE_AT_EMPTY, .force = 550.0, .limit = 0.80,
     .applies = BRAKE_TO_4500_KG},

    /* New South Wales: tests of modified vehicles. The pedal force of tests D, F and G was not read:
     * the driver's most. M: full as driven stands for 75 % of fuel and 68 kg a seat; its lightly
     * loaded mass was not read. N: 155 +- 30 kg with the driver, and the rated mass. */
    {.id = "au.nsw.pretest", .book = BRAKE_BOOK_NSW, READ_IN(NSW), .clause = "NSW manual p. 12",
     .title = "Pre-test from 30 km/h, average: no test without it", .measure = BRAKE_STOP_AVERAGE,
     .load = BRAKE_AT_EMPTY, .force = 885.0, .speed = KMH(30), .limit = 2.9,
     .applies = BRAKE_TO_4500_KG},
    {.id = "au.nsw.pretest_peak", .book = BRAKE_BOOK_NSW, READ_IN(NSW), .clause = "NSW manual p. 12",
     .title = "Pre-test from 30 km/h, peak: no test without it", .measure = BRAKE_STOP_DECELERATION,
     .load = BRAKE_AT_EMPTY, .force = 885.0, .limit = 3.4, .applies = BRAKE_TO_4500_KG},
#define NSW_FAILED(key, words, loads, vehicles, ...)                                               \
    {.id = "au.nsw." key, .book = BRAKE_BOOK_NSW, READ_IN(NSW),                                    \
     .clause = "NSW manual p. 38, tests D, F, G", .title = "Average from 80 km/h, " words,         \
     .measure = BRAKE_STOP_AVERAGE, .load = (loads), .speed = KMH(80), .limit = 2.55,              \
     .applies = (vehicles) | BRAKE_TO_4500_KG, .failure = {__VA_ARGS__}}
#define NSW_BOTH(key, words, vehicles, ...)                                                        \
    NSW_FAILED(key "_m1", words, BRAKE_AT_FULL, (vehicles) | BRAKE_TO_M1, __VA_ARGS__),            \
    NSW_FAILED(key "_n1", words, BRAKE_AT_LIGHT | BRAKE_AT_RATED, (vehicles) | BRAKE_TO_N1,        \
               __VA_ARGS__)
    NSW_BOTH("circuit", "either circuit failed", 0U, BRAKE_FIRST_CIRCUIT, BRAKE_SECOND_CIRCUIT),
    NSW_BOTH("valve", "proportioning valve failed, open or shut", BRAKE_TO_VALVE, BRAKE_VALVE_OPEN,
             BRAKE_VALVE_SHUT),
    NSW_BOTH("antilock", "anti-lock failed", BRAKE_TO_ANTILOCK, BRAKE_NO_ANTILOCK,
             BRAKE_NO_ANTILOCK),
#define NSW_PLATE(key, words, state, newton, share, vehicles)                                      \
    {.id = "au.nsw.plate_" key, .book = BRAKE_BOOK_NSW, READ_IN(NSW),                              \
     .clause = "NSW manual p. 25, App. 4", .title = "On a plate tester, " words,                   \
     .measure = BRAKE_STOP_RATIO, .failure = {state, state}, .load = BRAKE_AT_EMPTY,               \
     .force = (newton), .limit = (share), .applies = (vehicles) | BRAKE_TO_4500_KG}
    NSW_PLATE("front_out", "front brakes disconnected", BRAKE_FIRST_CIRCUIT, 0.0, 0.20,
              BRAKE_TO_AXLE_SPLIT),
    NSW_PLATE("rear_out", "rear brakes disconnected", BRAKE_SECOND_CIRCUIT, 0.0, 0.50,
              BRAKE_TO_AXLE_SPLIT),
    NSW_PLATE("assist_out", "booster disconnected", BRAKE_NO_ASSIST, 500.0, 0.50, BRAKE_TO_BOOSTED),

    /* South Australia: its short form of ADR 31/00 for cars. Not read: pedal force, lightly loaded
     * mass, speed of the last two stops. */
    {.id = "au.sa.fade", .book = BRAKE_BOOK_SA, READ_IN(SA),
     .clause = "SA brake system test procedure", .title = "Each of two stops after 15 of 4.5 m/s2",
     .measure = BRAKE_HOT_EACH, .load = BRAKE_AT_LIGHT, .limit = 0.8 * BRAKE_GRAVITY,
     .fade = BRAKE_FADE_SA, .applies = BRAKE_TO_M1},
};
/* clang-format on */

_Static_assert(sizeof criteria / sizeof criteria[0] <= BRAKE_CRITERIA, "no room for a criterion");

/* The class of vehicle decides from when the US text binds: cars, then all to 3,500 kg. */
static const struct brake_book books[] = {
    [BRAKE_BOOK_HAZARD] = {.name = "hazards",
                           .rules = BRAKE_RULES_HAZARD,
                           .role = BRAKE_ROLE_HAZARD,
                           .lands = 0},
    [BRAKE_BOOK_105] = {.name = "49 CFR 571.105",
                        .rules = BRAKE_RULES_US,
                        .role = BRAKE_ROLE_BUILT,
                        .lands = BRAKE_LAND_US},
    [BRAKE_BOOK_135] =
        {.name = "49 CFR 571.135",
         .rules = BRAKE_RULES_US,
         .role = BRAKE_ROLE_BUILT,
         .lands = BRAKE_LAND_US | BRAKE_LAND_CA,
         .from = {[BRAKE_CAR] = 2000.0 + 8.0 / 12.0, [BRAKE_TRUCK] = 2002.0 + 8.0 / 12.0}},
    [BRAKE_BOOK_393] = {.name = "49 CFR 393.52",
                        .rules = BRAKE_RULES_US,
                        .role = BRAKE_ROLE_IN_USE,
                        .lands = BRAKE_LAND_US},
    [BRAKE_BOOK_570] = {.name = "49 CFR 570",
                        .rules = BRAKE_RULES_US,
                        .role = BRAKE_ROLE_PART,
                        .lands = BRAKE_LAND_US},
    [BRAKE_BOOK_R13H] = {.name = "UN R13-H",
                         .rules = BRAKE_RULES_UN,
                         .role = BRAKE_ROLE_BUILT,
                         .lands = BRAKE_LAND_EEA | BRAKE_LAND_GB | BRAKE_LAND_OTHER,
                         .from = {1998.0, 1998.0}},
    [BRAKE_BOOK_R13] = {.name = "UN R13",
                        .rules = BRAKE_RULES_UN,
                        .role = BRAKE_ROLE_BUILT,
                        .lands = BRAKE_LAND_EEA | BRAKE_LAND_GB | BRAKE_LAND_OTHER,
                        .from = {1992.0, 1992.0}},
    [BRAKE_BOOK_45] = {.name = "2014/45/EU",
                       .rules = BRAKE_RULES_EU,
                       .role = BRAKE_ROLE_IN_USE,
                       .lands = BRAKE_LAND_EEA},
    [BRAKE_BOOK_MOT] = {.name = "DVSA MOT manual",
                        .rules = BRAKE_RULES_GB,
                        .role = BRAKE_ROLE_IN_USE,
                        .lands = BRAKE_LAND_GB},
    [BRAKE_BOOK_NL] = {.name = "Regeling voertuigen",
                       .rules = BRAKE_RULES_NL,
                       .role = BRAKE_ROLE_IN_USE,
                       .lands = BRAKE_LAND_NL},
    [BRAKE_BOOK_DE] = {.name = "StVZO",
                       .rules = BRAKE_RULES_DE,
                       .role = BRAKE_ROLE_PART,
                       .lands = BRAKE_LAND_DE},
    [BRAKE_BOOK_QUEBEC] = {.name = "Quebec C-24.2, r. 32",
                           .rules = BRAKE_RULES_CA,
                           .role = BRAKE_ROLE_PART,
                           .lands = BRAKE_LAND_CA},
    [BRAKE_BOOK_NSW] = {.name = "NSW Brake assessment manual",
                        .rules = BRAKE_RULES_AU,
                        .role = BRAKE_ROLE_PART,
                        .lands = BRAKE_LAND_AU,
                        .modified = 2013.0 + 9.0 / 12.0},
    [BRAKE_BOOK_SA] = {.name = "SA brake system test procedure",
                       .rules = BRAKE_RULES_AU,
                       .role = BRAKE_ROLE_PART,
                       .lands = BRAKE_LAND_AU},
};

const struct brake_book *brake_book_of(const struct brake_criterion *criterion)
{
    return &books[criterion->book];
}

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
        ("Warning lamps: brake failure, fluid, anti-lock and distribution, stability control on "
         "the new tyres."),
        "Parking brake: travel, release, cable, and hold on a slope.",
        "Pull, noise and pedal feel on a closed road.",
        "Tyres: size, load and speed rating, clearance, pressure; wheel fixings.",
        "Declared list of modifications and the local rules for lift and tyre size.",
    };
    return index >= 0 && index < (int)(sizeof items / sizeof items[0]) ? items[index] : NULL;
}
