/* SPDX-License-Identifier: MIT */
/* A table in 80 columns of text; private to this folder. */
#ifndef BRAKE_TEXT_TABLE_H
#define BRAKE_TEXT_TABLE_H

#include "document.h"

/* The rows that people see, under their heads. */
void brake_text_table(const struct brake_document *d, const struct brake_node *table, FILE *stream);

#endif
