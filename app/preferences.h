/* The person's choices and the window's size, kept between sessions: in GSettings where the schema is installed, else
 * in a key file in the user's configuration folder. Never fails: what cannot be read is the default. */
#ifndef APP_PREFERENCES_H
#define APP_PREFERENCES_H

#include "units.h"

#include <glib-object.h>

#define PREFERENCES_SCHEMA "io.github.platelift.Platelift"

#define PREFERENCES_TYPE (preferences_get_type ())
G_DECLARE_FINAL_TYPE (Preferences, preferences, PLATELIFT, PREFERENCES, GObject)

/* Properties, with their values:
 *   pressure-unit     "bar", "kpa", "psi"
 *   temperature-unit  "celsius", "fahrenheit"
 *   theme             "system", "light", "dark", "light-contrast", "dark-contrast"
 *   seat              farthest seat in image heights, 0 = at the desk
 *   reduced-motion    boolean: nothing moves that was not moved by hand
 *   window-width, window-height, window-maximized, page */
Preferences *preferences_new (void);

void preferences_units (Preferences *preferences, struct unit_choices *choices);
double preferences_seat (Preferences *preferences);
gboolean preferences_reduced_motion (Preferences *preferences);
/* Static while the property is unchanged. */
const char *preferences_theme (Preferences *preferences);

/* Writes what waits to be written (key file only; GSettings writes by itself). */
void preferences_flush (Preferences *preferences);

#endif
