/* The window in which the person's choices are made. */
#ifndef APP_PREFERENCES_WINDOW_H
#define APP_PREFERENCES_WINDOW_H

#include "preferences.h"

#include <gtk/gtk.h>

#define PREFERENCES_WINDOW_TYPE (preferences_window_get_type ())
G_DECLARE_FINAL_TYPE (PreferencesWindow, preferences_window, PLATELIFT, PREFERENCES_WINDOW, GtkWindow)

/* Shows it over parent; every choice takes effect at once. */
void preferences_window_present (Preferences *preferences, GtkWindow *parent);

#endif
