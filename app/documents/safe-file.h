/* Writing that is atomic and durable: a new file beside the old, flushed, renamed over it, the folder flushed. */
#ifndef DOCUMENTS_SAFE_FILE_H
#define DOCUMENTS_SAFE_FILE_H

#include <glib.h>

/* On failure (read-only folder, full disk, a folder of that name) the old file is whole and error says why. Symbolic
 * links are followed; the old file's mode is kept. */
gboolean safe_file_write (const char *path, const char *text, gsize length, GError **error);

/* Whole file, at most limit bytes (else an error that says both sizes). Caller frees. */
char *safe_file_read (const char *path, gsize limit, gsize *length, GError **error);

#endif
