/* The job that is open: edits with one history of undo and redo, the file it came from, whether it is saved, and a
 * recovery record that outlives a crash. */
#ifndef PAGES_JOB_STORE_H
#define PAGES_JOB_STORE_H

#include "draft-job.h"

#include <glib-object.h>

#define JOB_STORE_TYPE (job_store_get_type ())
G_DECLARE_FINAL_TYPE (JobStore, job_store, PLATELIFT, JOB_STORE, GObject)

/* Signals: "changed" after every edit; "replaced" when everything may be different (undo, redo, new, open); "file" when
 * path or saved state change. */
JobStore *job_store_new (const struct vehicle *vehicle);

const struct draft_job *job_store_draft (JobStore *self);

/* An edit: change the returned draft at once, then call job_store_edited. Edits under the same key run together to one
 * step until job_store_seal; NULL is a step of its own. */
struct draft_job *job_store_edit (JobStore *self, const char *key);
void job_store_edited (JobStore *self);
void job_store_seal (JobStore *self);

gboolean job_store_can_undo (JobStore *self);
gboolean job_store_can_redo (JobStore *self);
void job_store_undo (JobStore *self);
void job_store_redo (JobStore *self);

/* Replaces all: history begins anew. */
void job_store_begin (JobStore *self, const struct vehicle *vehicle);
void job_store_take (JobStore *self, struct job *job); /* a job that is in no file; the store owns it */
gboolean job_store_load (JobStore *self, const char *path, struct problems *problems);
gboolean job_store_save (JobStore *self, const char *path, GError **error);

const char *job_store_path (JobStore *self); /* or NULL */
gboolean job_store_saved (JobStore *self);   /* nothing would be lost */

/* A record left by a session that ended without saving, or NULL; then take it or drop it. */
char *job_store_find_recovery (JobStore *self);
gboolean job_store_recover (JobStore *self, const char *record);
void job_store_drop_recovery (const char *record);
/* Writes what waits; discard drops this session's own record instead, as the person asked to lose it. */
void job_store_close (JobStore *self, gboolean discard);

#endif
