/* SPDX-License-Identifier: MIT */
/* Signals that end a run, held back while a file is half written. To block them would not do: a
 * study leaves threads behind, and any of them would take the signal. */
#ifndef BRAKE_COMMAND_SIGNALS_H
#define BRAKE_COMMAND_SIGNALS_H

void signals_hold(void);

/* What came meanwhile takes its course now. */
void signals_release(void);

#endif
