/* Records of unsaved work in the user's state folder: one a session, locked while the session lives, so that a later
 * session can tell which were left behind by a crash. Where there is no such folder to write, nothing is kept and nothing
 * fails. */
#ifndef PAGES_RECOVERY_H
#define PAGES_RECOVERY_H

#include <glib.h>

struct recovery;

struct recovery *recovery_new (void);
void recovery_free (struct recovery *recovery); /* leaves a written record where it is */
void recovery_write (struct recovery *recovery, const char *text, gsize length);
void recovery_drop (struct recovery *recovery); /* deletes this session's record */

/* Path of the newest record of a session that has ended, or NULL. Caller frees. */
char *recovery_find (struct recovery *recovery);
char *recovery_read (const char *path, gsize *length);
void recovery_delete (const char *path);

#endif
