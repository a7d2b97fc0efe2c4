/* SPDX-License-Identifier: MIT */
/* The pictures of the report, one idea each; private to this folder. Each is a whole <figure>;
 * where an input is missing it says which in the place of the picture. They take no memory: half of
 * a page may be written when they are drawn. */
#ifndef BRAKE_PICTURE_H
#define BRAKE_PICTURE_H

#include <stdio.h>

#include "brake/document.h"
#include "brake/paper.h"

/* What a picture is: its id in the page, its title, and what it says, in words. */
struct brake_figure {
    const char *id;
    const char *title;
    char words[900];
    struct brake_warning warning[BRAKE_DUTY_WARNINGS]; /* that what is shown gives rise to */
    int warnings;
    enum brake_systems systems; /* units that they are read in */
};

void brake_figure_open(FILE *stream, const struct brake_figure *figure, double height);
void brake_figure_end(FILE *stream, const struct brake_figure *figure);

void brake_figure_missing(FILE *stream, const char *title, const char *why);

/* Brake force of the rear axle over that of the front, beside the ideal one and the lock lines. */
void brake_picture_balance(const struct brake_paper *paper, enum brake_load load,
                           enum brake_systems systems, FILE *stream);

/* Adhesion that each axle uses, beside the published bounds. */
void brake_picture_adhesion(const struct brake_paper *paper, enum brake_load load,
                            enum brake_systems systems, FILE *stream);

/* Deceleration over pedal force, with the knee of the booster. */
void brake_picture_pedal(const struct brake_paper *paper, enum brake_systems systems, FILE *stream);

/* Speed, deceleration and pedal force of one stop over time. */
void brake_picture_stop(const struct brake_paper *paper, enum brake_systems systems, FILE *stream);

/* Temperatures of a duty over time, beside their limits. */
void brake_picture_heat(const struct brake_paper *paper, enum brake_paper_duty kind,
                        enum brake_systems systems, FILE *stream);

/* How sure the limiting margin is. */
void brake_picture_spread(const struct brake_paper *paper, enum brake_systems systems,
                          FILE *stream);

#endif
