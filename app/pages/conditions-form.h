/* Conditions under which readings were taken: of the whole visit, or of one reading where they differ. */
#ifndef PAGES_CONDITIONS_FORM_H
#define PAGES_CONDITIONS_FORM_H

#include "job-store.h"

#include <gtk/gtk.h>

#define CONDITIONS_FORM_TYPE (conditions_form_get_type ())
G_DECLARE_FINAL_TYPE (ConditionsForm, conditions_form, PLATELIFT, CONDITIONS_FORM, GtkWidget)

/* rows: bits 1 << row of typed_condition_rows. A form with the vacuum also asks where it came from. The visit's form
 * stands upright, a reading's lies across. */
GtkWidget *conditions_form_new (JobStore *store, int reading, unsigned rows);
void conditions_form_set_reading (ConditionsForm *self, int reading);
void conditions_form_show (ConditionsForm *self, const struct unit_choices *choices, gboolean force);

/* The bit of that row, by its key in documents: "temperature", "vacuum"... */
unsigned conditions_form_row (const char *key);

#endif
