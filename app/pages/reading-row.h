/* One reading on the page: what was typed, and what the model and the car's data say to it. */
#ifndef PAGES_READING_ROW_H
#define PAGES_READING_ROW_H

#include "check.h"
#include "job-store.h"

#include <gtk/gtk.h>

#define READING_ROW_TYPE (reading_row_get_type ())
G_DECLARE_FINAL_TYPE (ReadingRow, reading_row, PLATELIFT, READING_ROW, GtkWidget)

/* Signal "remove": the person wants the reading gone. */
GtkWidget *reading_row_new (JobStore *store, int reading);
void reading_row_set_reading (ReadingRow *self, int reading);
int reading_row_reading (ReadingRow *self);

/* Whether the row was made for a reading of that shape: kind and number of values. */
gboolean reading_row_fits (ReadingRow *self, const struct job_reading *reading);

/* Shows the store's present content; checked is the whole job's. force also replaces text that is being typed. */
void reading_row_show (ReadingRow *self, const GArray *checked, const struct unit_choices *choices, gboolean force);

/* The verdict as it stands there, "" while there is none; the row's first entry. */
const char *reading_row_verdict (ReadingRow *self);
GtkWidget *reading_row_entry (ReadingRow *self, int cylinder);

#endif
