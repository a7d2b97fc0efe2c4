/* SPDX-License-Identifier: MIT */
/** @file catalogue.h
 * The catalogue of quantities: one table that drives the file reader and writer, --set, sweeps,
 * spreads, the reference page and every binding.
 *
 * A quantity is a line of the vehicle file; its path is its section and its name:
 * `front.disc.pistons`. Lines of an axle are written once and placed twice. A quantity is known by
 * its index, 0 to brake_catalogue_count() - 1, fixed for a version of the library.
 */
#ifndef BRAKE_CATALOGUE_H
#define BRAKE_CATALOGUE_H

#include <stdbool.h>
#include <stddef.h>

#include "brake/knowledge.h"
#include "brake/status.h"
#include "brake/units.h"
#include "brake/vehicle.h"

#ifdef __cplusplus
extern "C" {
#endif

/** What stands behind the equals sign. */
enum brake_kind {
    BRAKE_REAL,    /**< number and unit */
    BRAKE_CHOICE,  /**< one of a list of words */
    BRAKE_TEXT,    /**< free text, 63 bytes of UTF-8 */
    BRAKE_PISTONS, /**< `2 x 48 mm`, or `1 x 44 mm + 1 x 38 mm` */
    BRAKE_CURVE    /**< pairs: `(20 bar, 18 bar) (60 bar, 35 bar)` */
};

/** What the library does with a quantity. */
enum brake_role {
    BRAKE_USED,    /**< taken as it is */
    BRAKE_RAW,     /**< a measurement that another quantity is worked out from */
    BRAKE_WORKED,  /**< may be given; worked out from raw measurements or a rule when it is not */
    BRAKE_PART_OF, /**< one number of a composite line; in a file only through that line */
    BRAKE_OF_DAY   /**< what a day of measuring was off by: of the drive, not of the vehicle */
};

/** Which error in the number makes the real vehicle worse than the result. */
enum brake_danger { BRAKE_EITHER, BRAKE_TOO_LOW, BRAKE_TOO_HIGH };

/** What it takes to get a number; the cheaper first. */
enum brake_means {
    BRAKE_BY_LOOK,     /**< it is no number: a look tells, or it is one's own choice */
    BRAKE_BY_PAPERS,   /**< plate, marking, document */
    BRAKE_BY_TAPE,     /**< tape, rule, vernier caliper, feeler gauge, protractor, stopwatch */
    BRAKE_BY_SCALE,    /**< bathroom, hook or pull scale */
    BRAKE_BY_GAUGE,    /**< pressure, vacuum or dial gauge; a logger */
    BRAKE_BY_WORKSHOP, /**< what a workshop has: corner scales, roller tester, alignment bench */
    BRAKE_BY_MAKER     /**< only its maker knows */
};

/** When a line must be there. */
enum brake_need {
    BRAKE_OPTIONAL,
    BRAKE_ASKED, /**< it may be left out; a short file to start from asks for it */
    BRAKE_NEEDED /**< once its section is in use */
};

/** A row of the catalogue. */
struct brake_quantity {
    const char *name;   /**< last part of the path */
    const char *symbol; /**< as in the method page; empty when it has none */
    enum brake_kind kind;
    enum brake_role role;
    enum brake_need need;
    enum brake_danger danger;
    enum brake_dimension dimension; /**< of the number; of x for a curve */
    enum brake_dimension second;    /**< of y for a curve */
    const char *unit;               /**< unit it is shown in; also of x */
    const char *second_unit;        /**< of y for a curve */
    double low, high;               /**< [SI] accepted range; for a curve that of x */
    double second_low, second_high; /**< [SI] accepted range of y for a curve */
    double fallback;                /**< [SI] default, or number of the choice; NaN: none */
    double least, most;         /**< [-] 95 of 100 vehicles lie between these times the default; 0:
                                   it is a choice, or a state that the vehicle passes through */
    double odds;                /**< [-] share of vehicles that have `other` where a choice is left
                                     out */
    int other;                  /**< number of that choice */
    double typical;             /**< [-] usual uncertainty over value, used when none is stated */
    bool edge_coded;            /**< friction that the edge code of a lining may stand for */
    const char *const *choices; /**< words of a choice, NULL at the end; of a line that must be
                                   there the first is the one to err with on the safe side */
    const char *instead;        /**< lines that it is worked out from the most easily, with blanks
                                   between: names of its own section, or paths; NULL: itself */
    const char *meaning;        /**< one line */
    enum brake_means means;     /**< what it takes to get it */
    const char *measure;        /**< how to get it, and what can hurt in doing so */
    const char *why;            /**< where the default, or the rule, comes from */
    size_t offset;              /**< in the struct of its section */
};

/** Brake that a section belongs to; it is refused with any other. */
enum brake_belongs {
    BRAKE_ALWAYS,
    BRAKE_FRONT_DISC,
    BRAKE_FRONT_DRUM,
    BRAKE_REAR_DISC,
    BRAKE_REAR_DRUM
};

/** A section of the vehicle file. */
struct brake_section {
    const char *path;    /**< `front.disc`; `part` for the parts */
    int method;          /**< section of reference/method.md that says what is done with it */
    const char *meaning; /**< one line */
    const struct brake_quantity *rows;
    int count;
    size_t offset;              /**< in struct brake_vehicle */
    const char *same_as;        /**< section it repeats when left out; NULL: none */
    enum brake_belongs belongs; /**< brake that it describes */
};

/** Where a value came from; the weaker first. */
enum brake_from { BRAKE_ABSENT, BRAKE_DEFAULT, BRAKE_ESTIMATED, BRAKE_CATALOGUE, BRAKE_MEASURED };

/** What is known about a value besides the value. */
struct brake_record {
    enum brake_from from;
    double tolerance; /**< [SI] half width that holds about 95 of 100; 0 for exact or unknown */
    double lean;      /**< [-] -1 to 1: it holds them from value - (1 - lean) tolerance to
                         value + (1 + lean) tolerance */
    bool typical;     /**< true: the tolerance is the catalogue's usual one, not the file's */
    bool worked;      /**< true: worked out from raw measurements or a rule */
    bool set;         /**< true: set after the file was read; wins over raw measurements */
    bool us;          /**< true: given in a unit of the US trade */
    bool same;        /**< true: said to be the same part as before the change */
    int line;         /**< of the file; 0 when it did not come from one */
};

enum {
    BRAKE_ROWS = 384,   /**< room for every quantity */
    BRAKE_SECTIONS = 48 /**< room for every section */
};

enum { BRAKE_OWN_SIZES = 40 /**< most of a list */ };

/** Sizes in which a person can have parts; of the lines that it names they take the place of the
 * customary ones. */
struct brake_own_sizes {
    int count;
    int line[BRAKE_OWN_SIZES];     /**< of the catalogue */
    double value[BRAKE_OWN_SIZES]; /**< [SI] */
};

/** A vehicle with the record of every value: what a vehicle file is read into. */
struct brake_sheet {
    struct brake_vehicle vehicle;
    struct brake_record record[BRAKE_ROWS];
    struct brake_knowledge known; /**< from a drive */
    struct brake_own_sizes own;   /**< from a list of parts */
};

enum {
    BRAKE_WORK_RULES = 28,       /**< room for the rules that work a vehicle out */
    BRAKE_WORK_VERIFICATIONS = 8 /**< room for the verifications of its numbers */
};

/** The catalogue laid out for quick look-up: where each quantity stands and lives, and which rules
 * follow which sections. */
struct brake_places {
    int count;                 /**< of quantities */
    int first[BRAKE_SECTIONS]; /**< index of the first quantity of each section */
    struct {
        const struct brake_section *section;
        const struct brake_quantity *row;
        size_t offset;                                       /**< in struct brake_vehicle */
    } of[BRAKE_ROWS];                                        /**< by index */
    short index[sizeof(struct brake_vehicle) / sizeof(int)]; /**< by offset over sizeof(int) */
    unsigned long long touched[BRAKE_WORK_RULES]; /**< sections that a rule reads; 0: no more */
    unsigned long long written[BRAKE_WORK_RULES]; /**< the section that it writes to, as a bit */
    unsigned long long verified[BRAKE_WORK_VERIFICATIONS]; /**< sections looked at; 0: no more */
};

/** Number of sections.
 * @return  count, parts included
 */
int brake_section_count(void);

/** A section.
 * @param section  0 to brake_section_count() - 1
 * @return         its row; never NULL inside the range
 */
const struct brake_section *brake_section_at(int section);

/** Number of quantities.
 * @return  count; at most BRAKE_ROWS
 */
int brake_catalogue_count(void);

/** Row of a quantity.
 * @param index  of the quantity
 * @return       its row; never NULL inside the range
 */
const struct brake_quantity *brake_quantity_at(int index);

/** Index of a path.
 * @param vehicle  names the parts; NULL when no part is asked for
 * @param path     e.g. "front.tyre.rollout" or "part.winch.mass"
 * @return         index, or -1 when there is no such quantity
 */
int brake_catalogue_find(const struct brake_vehicle *vehicle, const char *path);

/** Path of a quantity.
 * @param vehicle  names the parts
 * @param index    of the quantity
 * @param path     filled
 * @param size     of path in bytes, 160 is enough
 */
void brake_catalogue_path(const struct brake_vehicle *vehicle, int index, char *path, size_t size);

/** Known path nearest to a wrong one.
 * @param path  as written
 * @return      index, or -1 when nothing is near
 */
int brake_catalogue_nearest(const char *path);

/** The same, of a vehicle that is only looked at.
 * @param vehicle  the vehicle
 * @param index    of the quantity
 * @return         address inside the vehicle
 */
const void *brake_quantity_seen(const struct brake_vehicle *vehicle, int index);

/** Value of a real quantity or number of a choice.
 * @param vehicle  the vehicle
 * @param index    of the quantity
 * @return         [SI] value; NaN when not known, or not of those kinds
 */
double brake_quantity_value(const struct brake_vehicle *vehicle, int index);

/** Empty sheet, as large as the library that runs has it.
 * @return  cleared, to be freed by brake_sheet_free; NULL when memory is short
 */
struct brake_sheet *brake_sheet_new(void);

/** Free a sheet.
 * @param sheet  of brake_sheet_new; NULL does nothing
 */
void brake_sheet_free(struct brake_sheet *sheet);

/** Empty sheet: every number NaN, every record absent, no part.
 * @param sheet  filled
 */
void brake_sheet_clear(struct brake_sheet *sheet);

/** Set a real quantity as --set and sweeps do: it wins over raw measurements. Call
 * brake_sheet_complete afterwards.
 * @param sheet  the sheet
 * @param index  of the quantity
 * @param value  [SI] inside the accepted range
 * @return       OK, or E_RANGE (nothing changed), E_UNKNOWN for a quantity that is not a number
 */
enum brake_status brake_sheet_set(struct brake_sheet *sheet, int index, double value);

/** Work out what raw measurements give, fill in defaults, and check that nothing needed is missing
 * and nothing contradicts. May be called again after a change.
 * @param sheet  read from a file or set by hand
 * @param error  filled on refusal
 * @return       OK, or the status of the error
 */
enum brake_status brake_sheet_complete(struct brake_sheet *sheet, struct brake_error *error);

/** Whether bytes are a sheet: every count inside its table, every choice one of its words, every
 * text ended, every number inside its range, or finite where it was worked out. Bytes that come
 * from elsewhere must pass before anything else is asked of them.
 * @param sheet  of the right size, else anything
 * @param error  filled on refusal
 * @return       OK, or E_RANGE
 */
enum brake_status brake_sheet_valid(const struct brake_sheet *sheet, struct brake_error *error);

#ifdef __cplusplus
}
#endif

#endif
