/* A computed value as a person reads it: in the chosen unit, with as many decimals as say something. */
#ifndef WIDGETS_VALUE_TEXT_H
#define WIDGETS_VALUE_TEXT_H

#include "units.h"

/* "3.75 bar"; small values get decimals until two digits show ("0.0006 mm" becomes "0.6 µm" where there is such a unit).
 * Caller frees. */
char *value_text (double si, enum quantity quantity, const struct unit_choices *choices);

/* The same value twice, before and after a change: both with the same decimals, enough to tell them apart. Only after
 * carries the unit. Caller frees both. */
void value_text_pair (double before_si, double after_si, enum quantity quantity, const struct unit_choices *choices,
                      char **before, char **after);

/* A value that was set, not computed: as few decimals as say it, at most one more than the unit's usual. Caller frees. */
char *value_text_set (double si, const struct unit *unit, bool with_unit);

#endif
