/* Where the program's shared files lie: installed, or in the build folder when it runs from there. */
#ifndef APP_PLACES_H
#define APP_PLACES_H

#include <glib.h>

/* Whether this process is the program of the build folder, not an installed one. */
gboolean place_is_build (void);

/* Folder of the translations. Static. */
const char *place_translations (void);

/* Folder with the compiled settings schema in the build folder, or NULL: use the default schema source. Static. Look the
 * schema up before making a GSettings: g_settings_new aborts on a missing one. */
const char *place_settings_schemas (void);

#endif
