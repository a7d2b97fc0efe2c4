/* SPDX-License-Identifier: MIT */
/** @file file.h
 * Words in, words out: the vehicle file, single settings, JSON.
 *
 * Grammar of the vehicle file: INI. `[section]`; `name = value`; a comment begins with `;` or `#`
 * at the start of a line or after a blank, but # not in a name. Large and small letters are alike.
 * A value is
 *
 *     number unit [+- number [unit]] [, measured | catalogue | estimated] [, same as before]
 *     number - number unit                  from here to there: middle and tolerance
 *     15/16 in, 1 3/8 in, 8 ft 9 in, 35"    for lengths
 *     FF                                    for friction: edge code of SAE J866, a band
 *     word                                  for a choice
 *     text                                  for a name or a marking
 *     2 x 48 mm [+ 1 x 40 mm]               for pistons
 *     (20 bar, 18 bar) (60 bar, 35 bar)     for a curve; goes on in lines that begin with a bracket
 *     ...                                   still to be filled in: as if the line were left out
 *
 * `same as before` says of a line that it is of a part that was not changed, though others of its
 * section were; the file of the vehicle before has the same value. A value without one of the
 * three words counts as estimated. A tolerance without a unit is in that of the number; one in %
 * is a share of the value, or points when the value itself is in %. UTF-8 without control
 * characters and marks of direction, lines up to 4000 bytes, files up to 1 MB.
 */
#ifndef BRAKE_FILE_H
#define BRAKE_FILE_H

#include <stdbool.h>
#include <stdio.h>

#include "brake/catalogue.h"
#include "brake/criteria.h"
#include "brake/evaluate.h"

#ifdef __cplusplus
extern "C" {
#endif

/** Most of a vehicle file that is read. */
enum {
    BRAKE_LINE_BYTES = 4000,   /**< of a line, without its end */
    BRAKE_FILE_BYTES = 1000000 /**< of the file */
};

/** What the page of a report says of the vehicle that it carries. */
struct brake_mark {
    char version[24]; /**< of the library that made it */
    char digest[65];  /**< of the vehicle's values: SHA-256, hexadecimal */
    char file[400];   /**< name of the file that it was made of; empty: none */
};

/** Read a vehicle file, or the page of a report, which carries its vehicle. The sheet is cleared
 * first; it still has to be completed.
 * @param stream  open for reading; read to its end, not closed
 * @param sheet   filled
 * @param error   filled on refusal: line, field, what came and what is accepted
 * @return        OK, or the status of the error
 */
enum brake_status brake_file_read(FILE *stream, struct brake_sheet *sheet,
                                  struct brake_error *error);

/** Read the vehicle before the change that the page of a report carries.
 * @param stream  open for reading, of a page; not closed
 * @param sheet   filled
 * @param error   filled on refusal; E_MISSING: it carries none
 * @return        OK, or the status of the error
 */
enum brake_status brake_file_read_before(FILE *stream, struct brake_sheet *sheet,
                                         struct brake_error *error);

/** What the page of a report says of the vehicle that it carries.
 * @param stream  open for reading; not closed
 * @param mark    filled when it is such a page
 * @return        whether it is
 */
bool brake_file_mark(FILE *stream, struct brake_mark *mark);

/** Read a vehicle file from a text.
 * @param text   the file's bytes, ended by NUL
 * @param sheet  filled
 * @param error  filled on refusal
 * @return       OK, or the status of the error
 */
enum brake_status brake_file_read_text(const char *text, struct brake_sheet *sheet,
                                       struct brake_error *error);

/** Set one quantity, as --set does: it wins over raw measurements of the same thing.
 * @param sheet    read before; has to be completed again
 * @param setting  "path=value", the value as in a file
 * @param error    filled on refusal
 * @return         OK, or the status of the error
 */
enum brake_status brake_file_set(struct brake_sheet *sheet, const char *setting,
                                 struct brake_error *error);

/** Fit a part, whose lines can be set then; one of that name stays as it is.
 * @param sheet  read before; has to be completed again
 * @param name   as in [part.NAME]
 * @param error  filled on refusal
 * @return       OK, E_SYNTAX for such a name, E_SIZE when there is no room
 */
enum brake_status brake_file_part(struct brake_sheet *sheet, const char *name,
                                  struct brake_error *error);

/** Read a list of parts: CSV, a row `part,size`, below it rows such as `master.bore,7/8 in`; the
 * part is a path of the catalogue, the size written as in a vehicle file. Further cells of a row,
 * and lines that begin with #, are for people.
 * @param stream  open for reading, read to its end, not closed
 * @param own     filled
 * @param error   filled on refusal: line, what came and what is accepted
 * @return        OK, or the status of the error
 */
enum brake_status brake_own_sizes_read(FILE *stream, struct brake_own_sizes *own,
                                       struct brake_error *error);

/** Read a number and its unit, as they stand in a vehicle file; no blank is needed between them.
 * @param name       what it is called in a message
 * @param text       nothing but number and unit
 * @param dimension  what it must measure
 * @param value      [SI] filled
 * @param error      filled on refusal
 * @return           OK, E_SYNTAX, E_UNIT or E_RANGE
 */
enum brake_status brake_amount_read(const char *name, const char *text,
                                    enum brake_dimension dimension, double *value,
                                    struct brake_error *error);

/** Read a number and its unit, and keep both.
 * @param name       what it is called in a message
 * @param text       nothing but number and unit
 * @param dimension  what it must measure
 * @param number     [unit] filled
 * @param unit       filled
 * @param error      filled on refusal
 * @return           OK, E_SYNTAX, E_UNIT or E_RANGE
 */
enum brake_status brake_number_read(const char *name, const char *text,
                                    enum brake_dimension dimension, double *number,
                                    const struct brake_unit **unit, struct brake_error *error);

enum { BRAKE_NUMBER_SIZE = 32 /**< bytes of a number in words, with its end */ };

/** Write a vehicle file: every line that is known, every other one as a comment, with meaning,
 * range, default and how to measure it.
 * @param sheet   cleared for a file to start from; or read and completed
 * @param stream  open for writing
 */
void brake_file_write(const struct brake_sheet *sheet, FILE *stream);

/** Write a short vehicle file to start from: the lines that a vehicle of this kind needs for a
 * first verdict, with dots to be filled in, each with how to measure it on the line.
 * @param sheet   cleared, but for what is known of the kind of vehicle: `front.axle.brake`,
 *                `rear.axle.brake`, `booster.booster`
 * @param us      in units of the US trade, else those of the catalogue
 * @param stream  open for writing
 */
void brake_file_start(const struct brake_sheet *sheet, bool us, FILE *stream);

/** Write a vehicle file again: its lines as they are, comments and units too, and below each
 * section what it leaves out, as brake_file_write has it.
 * @param text    of the file, ended by NUL
 * @param sheet   read from that text and completed
 * @param stream  open for writing
 */
void brake_file_extend(const char *text, const struct brake_sheet *sheet, FILE *stream);

/** Write the value of a quantity as a file has it, without its tolerance and source.
 * @param vehicle  the vehicle
 * @param index    of the quantity
 * @param text     filled; empty when not known
 * @param size     of text in bytes
 */
void brake_value_write(const struct brake_vehicle *vehicle, int index, char *text, size_t size);

/** Word of where a value came from.
 * @param from  as recorded
 * @return      "measured", "catalogue", "estimated", "default" or "absent"
 */
const char *brake_from_word(enum brake_from from);

#ifdef __cplusplus
}
#endif

#endif
