/* SPDX-License-Identifier: MIT */
/* How pages for print look; private to this folder. */
#ifndef BRAKE_STYLE_H
#define BRAKE_STYLE_H

/* The style sheet in pieces, NULL at the end: a compiler need not take longer strings. */
extern const char *const brake_style[];

#endif
