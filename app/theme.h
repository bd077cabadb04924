/* Which of the four looks the program wears, and the style sheets that make it. */
#ifndef APP_THEME_H
#define APP_THEME_H

#include "preferences.h"
#include "scene.h"

#define THEME_TYPE (theme_get_type ())
G_DECLARE_FINAL_TYPE (Theme, theme, PLATELIFT, THEME, GObject)

/* Follows the person's choice, and where that is "system" the desktop's. Signal "changed". Needs a display. */
Theme *theme_new (Preferences *preferences);
enum scene_theme theme_scene (Theme *self);

#endif
