/* Parts of the report as a page; private to this folder. */
#ifndef BRAKE_HTML_H
#define BRAKE_HTML_H

#include "brake/paper.h"

/* The requirements, and the warnings. */
void brake_html_requirements(const struct brake_paper *paper, FILE *stream);

/* What differs from the vehicle before it was changed. */
void brake_html_changes(const struct brake_paper *paper, FILE *stream);

/* A drive beside the prediction. */
void brake_html_drive(const struct brake_paper *paper, FILE *stream);

/* Every result, of both load cases. */
void brake_html_numbers(const struct brake_paper *paper, FILE *stream);

/* Every line that was given; the ones left at default in a box of their own. */
void brake_html_inputs(const struct brake_paper *paper, FILE *stream);

/* What an inspector must check by hand, blanks to fill in, room to sign. */
void brake_html_inspector(const struct brake_paper *paper, FILE *stream);

#endif
