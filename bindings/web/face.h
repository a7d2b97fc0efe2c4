/* SPDX-License-Identifier: MIT */
/* The library as the page calls it: texts in, a text out, to be freed by face_free; NULL: memory
 * is short. What is refused comes back as JSON with the key `refused`. `before` is the file of the
 * vehicle as it was, `drive` the log of a drive that counts; each may be empty or NULL. Nothing is
 * kept between calls. */
#ifndef BRAKE_FACE_H
#define BRAKE_FACE_H

#include <stdbool.h>

/* A call of the page: the export has its own name. */
#ifdef __wasm__
#define FACE(name) __attribute__((export_name(#name)))
#else
#define FACE(name)
#endif

enum face_rows { FACE_COLD, FACE_ALL };

/* A vehicle file to start from: which brakes, what helps the foot, use, country, units. */
char *face_start(int front, int rear, int assist, const char *use, const char *country, bool us);

/* The first screen, sentence by sentence, without the rows of heat or with them, and what to look
 * for. */
char *face_check(const char *text, const char *before, enum face_rows rows, const char *drive);

/* What the command prints. */
char *face_check_text(const char *text, const char *before, const char *drive);
char *face_check_json(const char *text, const char *before, const char *drive);
char *face_check_page(const char *text, const char *before, const char *drive);
char *face_report(const char *text, const char *before, const char *date, const char *drive);

/* The plan of the first drive; what keeps the vehicle from being driven comes back as JSON with the
 * key `obstacles`, but what `despite` names: "no-reserve,rear-first". */
char *face_plan(const char *text, const char *despite, const char *drive);

/* Deceleration over pedal force as a figure of a page; what is refused is empty. */
char *face_pedal(const char *text);

char *face_drive(const char *text, const char *log);

/* The lines that a file may have, for the form. */
char *face_catalogue(void);

void *face_room(int bytes);
void face_free(void *text);

#endif
