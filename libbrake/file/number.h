/* SPDX-License-Identifier: MIT */
/* Numbers in words that read back as themselves; private to the library. */
#ifndef BRAKE_FILE_NUMBER_H
#define BRAKE_FILE_NUMBER_H

#include "brake/file.h"

/** Write a number so that reading it gives the same number again, in as few digits as 15, 16 or 17
 * allow.
 * @param number  [-] finite
 * @param text    filled: BRAKE_NUMBER_SIZE bytes
 * @return        length
 */
int brake_number_write(double number, char *text);

#endif
