/* The one window: header bar, pages by name, what the menus and keys do. */
#ifndef APP_WINDOW_H
#define APP_WINDOW_H

#include "application.h"
#include "cutaway-page.h"
#include "readings-page.h"

#include <gtk/gtk.h>

#define WINDOW_TYPE (window_get_type ())
G_DECLARE_FINAL_TYPE (Window, window, PLATELIFT, WINDOW, GtkApplicationWindow)

Window *window_new (Application *application);

/* Opens a job, after asking where unsaved work would be replaced. */
void window_open (Window *self, GFile *file);

/* For tests. Not given away. */
CutawayPage *window_cutaway (Window *self);
ReadingsPage *window_readings (Window *self);
JobStore *window_store (Window *self);

#endif
