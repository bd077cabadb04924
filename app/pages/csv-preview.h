/* What a CSV of readings holds, shown before anything is taken: its readings, and every line that cannot be used. */
#ifndef PAGES_CSV_PREVIEW_H
#define PAGES_CSV_PREVIEW_H

#include "job-store.h"

#include <gtk/gtk.h>

/* Reads the file and asks; on yes appends the readings to the store's job as one edit. */
void csv_preview_present (GtkWindow *parent, JobStore *store, GFile *file);

#endif
