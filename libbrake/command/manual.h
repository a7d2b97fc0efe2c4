/* SPDX-License-Identifier: MIT */
/* The manual page and the completion, made of the lists of options. */
#ifndef BRAKE_COMMAND_MANUAL_H
#define BRAKE_COMMAND_MANUAL_H

/* Print them to standard output. Return 0. */
int manual_print(void);
int completion_print(void);

#endif
