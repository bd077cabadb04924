/* An entry for a number with its unit: "3.65", "52 psi", "3,65 bar". What is typed stays as typed; text that is no such
 * number stays too, with a message that the owner shows beside it. */
#ifndef WIDGETS_MEASURE_ENTRY_H
#define WIDGETS_MEASURE_ENTRY_H

#include "units.h"

#include <gtk/gtk.h>

#define MEASURE_ENTRY_TYPE (measure_entry_get_type ())
G_DECLARE_FINAL_TYPE (MeasureEntry, measure_entry, PLATELIFT, MEASURE_ENTRY, GtkEntry)

/* Signals: "edited" after each change by the person; "committed" when they press Enter or leave after a change.
 * Property "message": string, what is wrong with the text, or NULL. label is the accessible name, translated. */
GtkWidget *measure_entry_new (enum quantity quantity, const char *label);

/* The unit meant where none is typed; shown while the entry is empty. */
void measure_entry_set_fallback (MeasureEntry *self, const struct unit *fallback);
const struct unit *measure_entry_get_fallback (MeasureEntry *self);

/* Sets the text without emitting "edited". */
void measure_entry_show_text (MeasureEntry *self, const char *text);
/* Whether the person has changed the text since it was last shown or committed. */
gboolean measure_entry_touched (MeasureEntry *self);

/* The number in SI; false and a translated reason where the text is none (also when empty: NUMBER_ERROR_EMPTY). */
gboolean measure_entry_read (MeasureEntry *self, double *si, GError **error);

void measure_entry_set_message (MeasureEntry *self, const char *message);
const char *measure_entry_get_message (MeasureEntry *self);

#endif
