/* The program with its window. */
#ifndef APP_APPLICATION_H
#define APP_APPLICATION_H

#include "preferences.h"
#include "theme.h"

#include <gtk/gtk.h>

#define APPLICATION_TYPE (application_get_type ())
G_DECLARE_FINAL_TYPE (Application, application, PLATELIFT, APPLICATION, GtkApplication)

Application *application_new (void);

/* Runs until the last window is closed; argv names files to open. The exit status. */
int application_run (int argc, char **argv);

Preferences *application_preferences (Application *self);
Theme *application_theme (Application *self);

#endif
