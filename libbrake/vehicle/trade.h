/* Words that people use for what the catalogue calls otherwise, or does not know; private to the
 * library. */
#ifndef BRAKE_VEHICLE_TRADE_H
#define BRAKE_VEHICLE_TRADE_H

/* What is to be written for a word of the trade, and what cannot be said of it; NULL: it is none.
 * Blanks, dashes and the size of letters do not count. */
const char *brake_trade_says(const char *word);

#endif
