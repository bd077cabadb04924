/* What the program carries inside itself (resources/data.gresource.xml). */
#ifndef DOCUMENTS_SHIPPED_H
#define DOCUMENTS_SHIPPED_H

#include <glib.h>

/* The text at "/platelift/FOLDER/NAME.json", or NULL. */
GBytes *shipped_text (const char *folder, const char *name);

/* Names of the .json files of a folder without their ending, sorted, but for one; NULL-terminated, to keep for good. */
const char *const *shipped_names (const char *folder, const char *but);

#endif
