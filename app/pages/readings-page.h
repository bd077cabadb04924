/* The technician's page: car and visit at the side, the readings one under the other, each judged as it is typed. */
#ifndef PAGES_READINGS_PAGE_H
#define PAGES_READINGS_PAGE_H

#include "job-store.h"
#include "reading-row.h"

#include <gtk/gtk.h>

#define READINGS_PAGE_TYPE (readings_page_get_type ())
G_DECLARE_FINAL_TYPE (ReadingsPage, readings_page, PLATELIFT, READINGS_PAGE, GtkWidget)

/* Wires the page to the job; once. */
void readings_page_set_store (ReadingsPage *self, JobStore *store);
void readings_page_set_units (ReadingsPage *self, const struct unit_choices *choices);

/* Adds a reading of that kind and puts the focus in its field. */
void readings_page_add (ReadingsPage *self, const struct reading_kind *kind);
/* Says something in the page's status line. */
void readings_page_say (ReadingsPage *self, const char *text);

/* For tests. Not given away; NULL where there is none. */
ReadingRow *readings_page_row (ReadingsPage *self, int reading);
const char *readings_page_said (ReadingsPage *self);

#endif
