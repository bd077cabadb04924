/* Faults as named on the command line: KEY, KEY=SEVERITY, KEY@CYLINDER, KEY=SEVERITY@CYLINDER. */
#ifndef APP_FAULT_WORDS_H
#define APP_FAULT_WORDS_H

#include "fault.h"

#include <glib.h>

/* Adds to doses (of struct fault_dose) what a text of one or several such words, separated by commas, asks for; severity
 * 1 and cylinder 1 where none is given. FALSE, and a sentence, for an unknown key (with the nearest one), a number out of
 * range, a cylinder for a fault of all, one fault twice in the same place, or too many. */
gboolean fault_words_read (const char *text, GArray *doses, GError **error);

/* The faults put into the car. FALSE, and a sentence, where it has no such cylinder. */
gboolean fault_words_apply (const GArray *doses, struct car *car, GError **error);

/* "Fuel pump worn 60 %, …": translated, for a person. Caller frees. */
char *fault_words_shown (const GArray *doses);

/* The shipped catalogue as a table, or as a JSON array. Caller frees. */
char *fault_words_list (gboolean json);

#endif
