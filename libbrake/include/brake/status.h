/* SPDX-License-Identifier: MIT */
/** @file status.h
 * How a function says whether its result can be used.
 *
 * 0 is good; a negative status means that no result is usable (outputs are NaN);
 * a positive status is a set of warning bits beside a usable result.
 */
#ifndef BRAKE_STATUS_H
#define BRAKE_STATUS_H

#ifdef __cplusplus
extern "C" {
#endif

#define BRAKE_STATUS_LIST(X)                                                                       \
    X(OK, 0, "good")                                                                               \
    X(E_RANGE, -1, "a value is outside its accepted range")                                        \
    X(E_SELF_LOCK, -2, "a leading shoe grabs and locks by itself at this friction")                \
    X(E_SHAPE, -3, "the shape encloses no area, crosses the axle or has too few corners")          \
    X(E_MARKING, -4, "the tyre marking is not of a known form")                                    \
    X(E_SYNTAX, -5, "the text is not of the expected form")                                        \
    X(E_UNIT, -6, "the unit is unknown or measures something else")                                \
    X(E_UNKNOWN, -7, "the name is unknown")                                                        \
    X(E_DUPLICATE, -8, "the value is given twice")                                                 \
    X(E_MISSING, -9, "a value that is needed is missing")                                          \
    X(E_CONFLICT, -10, "two values contradict each other")                                         \
    X(E_SIZE, -11, "the input is larger than this program reads")                                  \
    X(E_READ, -12, "the file cannot be read")                                                      \
    X(E_FIT, -13, "the measured points do not give the quantity")                                  \
    X(E_MEMORY, -14, "memory is short")                                                            \
    X(W_NOMINAL, 1, "the figure is nominal: measure it")                                           \
    X(W_ASSUMED, 2, "the marking leaves out the section height: a usual ratio is assumed")

#define BRAKE_STATUS_ENUM(name, number, text) BRAKE_##name = (number),
enum brake_status { BRAKE_STATUS_LIST(BRAKE_STATUS_ENUM) };
#undef BRAKE_STATUS_ENUM

/** The message of a status; for warning bits, that of the lowest bit set.
 * @param status  any status
 * @return        a short English text, never NULL
 */
const char *brake_status_message(enum brake_status status);

/** Where and why an input was refused; filled once, where the fault is known. */
struct brake_error {
    enum brake_status status;
    int line;       /**< line of the file, 0 when the fault belongs to no line */
    char field[64]; /**< path of the quantity, empty when none is concerned */
    char text[768]; /**< what came and what is accepted */
};

#ifdef __cplusplus
}
#endif

#endif
