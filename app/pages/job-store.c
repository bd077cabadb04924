#include "job-store.h"

#include "recovery.h"
#include "safe-file.h"

#include <string.h>

#define HISTORY_MAX 500     /* steps kept; a job is some kilobytes */
#define RECORD_DELAY_MS 250 /* after an edit: typing is not slowed, and little is lost */

struct step {
  struct draft_job *draft;
  guint64 revision;
};

struct _JobStore {
  GObject parent_instance;
  struct draft_job *draft;
  guint64 revision, last_revision, saved_revision;
  GPtrArray *undo, *redo; /* of struct step */
  char *edit_key;         /* of the step that still grows, or NULL */
  char *path;
  struct recovery *recovery;
  guint record_source;
};

enum { CHANGED, REPLACED, FILE_CHANGED, SIGNALS };
static guint signals[SIGNALS];

G_DEFINE_FINAL_TYPE (JobStore, job_store, G_TYPE_OBJECT)

static void
step_free (gpointer data)
{
  struct step *step = data;

  draft_job_free (step->draft);
  g_free (step);
}

static void
push (GPtrArray *steps, struct draft_job *draft, guint64 revision)
{
  struct step *step = g_new (struct step, 1);

  *step = (struct step) { draft, revision };
  g_ptr_array_add (steps, step);
  if (steps->len > HISTORY_MAX)
    g_ptr_array_remove_index (steps, 0);
}

static gboolean
record (gpointer data)
{
  JobStore *self = data;
  g_autofree char *text = NULL;
  gsize length = 0;

  self->record_source = 0;
  if (job_store_saved (self)) {
    recovery_drop (self->recovery);
    return G_SOURCE_REMOVE;
  }
  text = draft_recovery_text (self->draft, self->path, &length);
  recovery_write (self->recovery, text, length);
  return G_SOURCE_REMOVE;
}

static void
record_soon (JobStore *self)
{
  g_clear_handle_id (&self->record_source, g_source_remove);
  self->record_source = g_timeout_add (RECORD_DELAY_MS, record, self);
}

static void
replace (JobStore *self, struct draft_job *draft, const char *path)
{
  draft_job_free (self->draft);
  self->draft = draft;
  g_ptr_array_set_size (self->undo, 0);
  g_ptr_array_set_size (self->redo, 0);
  job_store_seal (self);
  self->revision = ++self->last_revision;
  self->saved_revision = self->revision;
  g_free (self->path);
  self->path = g_strdup (path);
  record_soon (self);
  g_signal_emit (self, signals[REPLACED], 0);
  g_signal_emit (self, signals[FILE_CHANGED], 0);
}

static void
travel (JobStore *self, GPtrArray *from, GPtrArray *to)
{
  struct step *step;

  if (from->len == 0)
    return;
  job_store_seal (self);
  push (to, self->draft, self->revision);
  step = g_ptr_array_index (from, from->len - 1);
  self->draft = g_steal_pointer (&step->draft);
  self->revision = step->revision;
  g_ptr_array_set_size (from, (int) from->len - 1);
  record_soon (self);
  g_signal_emit (self, signals[REPLACED], 0);
  g_signal_emit (self, signals[FILE_CHANGED], 0);
}

static void
job_store_finalize (GObject *object)
{
  JobStore *self = PLATELIFT_JOB_STORE (object);

  g_clear_handle_id (&self->record_source, g_source_remove);
  draft_job_free (self->draft);
  g_ptr_array_unref (self->undo);
  g_ptr_array_unref (self->redo);
  g_free (self->edit_key);
  g_free (self->path);
  recovery_free (self->recovery);
  G_OBJECT_CLASS (job_store_parent_class)->finalize (object);
}

static void
job_store_class_init (JobStoreClass *class)
{
  G_OBJECT_CLASS (class)->finalize = job_store_finalize;
  signals[CHANGED] = g_signal_new ("changed", JOB_STORE_TYPE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[REPLACED] = g_signal_new ("replaced", JOB_STORE_TYPE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[FILE_CHANGED] = g_signal_new ("file", JOB_STORE_TYPE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
job_store_init (JobStore *self)
{
  self->undo = g_ptr_array_new_with_free_func (step_free);
  self->redo = g_ptr_array_new_with_free_func (step_free);
  self->recovery = recovery_new ();
}

JobStore *
job_store_new (const struct vehicle *vehicle)
{
  JobStore *self = g_object_new (JOB_STORE_TYPE, NULL);

  replace (self, draft_job_new (job_new (vehicle)), NULL);
  return self;
}

const struct draft_job *
job_store_draft (JobStore *self)
{
  g_return_val_if_fail (PLATELIFT_IS_JOB_STORE (self), NULL);
  return self->draft;
}

struct draft_job *
job_store_edit (JobStore *self, const char *key)
{
  g_return_val_if_fail (PLATELIFT_IS_JOB_STORE (self), NULL);
  if (!key || g_strcmp0 (key, self->edit_key) != 0) {
    push (self->undo, draft_job_copy (self->draft), self->revision);
    g_free (self->edit_key);
    self->edit_key = g_strdup (key);
  }
  g_ptr_array_set_size (self->redo, 0);
  self->revision = ++self->last_revision;
  return self->draft;
}

void
job_store_edited (JobStore *self)
{
  g_return_if_fail (PLATELIFT_IS_JOB_STORE (self));
  record_soon (self);
  g_signal_emit (self, signals[CHANGED], 0);
  g_signal_emit (self, signals[FILE_CHANGED], 0);
}

void
job_store_seal (JobStore *self)
{
  g_return_if_fail (PLATELIFT_IS_JOB_STORE (self));
  g_clear_pointer (&self->edit_key, g_free);
}

gboolean
job_store_can_undo (JobStore *self)
{
  return self->undo->len > 0;
}

gboolean
job_store_can_redo (JobStore *self)
{
  return self->redo->len > 0;
}

void
job_store_undo (JobStore *self)
{
  g_return_if_fail (PLATELIFT_IS_JOB_STORE (self));
  travel (self, self->undo, self->redo);
}

void
job_store_redo (JobStore *self)
{
  g_return_if_fail (PLATELIFT_IS_JOB_STORE (self));
  travel (self, self->redo, self->undo);
}

void
job_store_begin (JobStore *self, const struct vehicle *vehicle)
{
  g_return_if_fail (PLATELIFT_IS_JOB_STORE (self) && vehicle);
  replace (self, draft_job_new (job_new (vehicle)), NULL);
}

void
job_store_take (JobStore *self, struct job *job)
{
  g_return_if_fail (PLATELIFT_IS_JOB_STORE (self) && job);
  replace (self, draft_job_new (job), NULL);
}

gboolean
job_store_load (JobStore *self, const char *path, struct problems *problems)
{
  struct job *job;

  g_return_val_if_fail (PLATELIFT_IS_JOB_STORE (self) && path && problems, FALSE);
  job = job_load (path, problems);
  if (!job)
    return FALSE;
  replace (self, draft_job_new (job), path);
  return TRUE;
}

gboolean
job_store_save (JobStore *self, const char *path, GError **error)
{
  g_autofree char *text = NULL;

  g_return_val_if_fail (PLATELIFT_IS_JOB_STORE (self) && path, FALSE);
  text = job_write (self->draft->job);
  if (!safe_file_write (path, text, strlen (text), error))
    return FALSE;
  if (g_strcmp0 (path, self->path) != 0) {
    g_free (self->path);
    self->path = g_strdup (path);
  }
  self->saved_revision = self->revision;
  job_store_seal (self);
  record_soon (self);
  g_signal_emit (self, signals[FILE_CHANGED], 0);
  return TRUE;
}

const char *
job_store_path (JobStore *self)
{
  g_return_val_if_fail (PLATELIFT_IS_JOB_STORE (self), NULL);
  return self->path;
}

/* Text that is no number is in no file: as long as there is any, something would be lost. */
gboolean
job_store_saved (JobStore *self)
{
  g_return_val_if_fail (PLATELIFT_IS_JOB_STORE (self), TRUE);
  return self->revision == self->saved_revision && draft_unfinished_count (self->draft) == 0;
}

char *
job_store_find_recovery (JobStore *self)
{
  g_return_val_if_fail (PLATELIFT_IS_JOB_STORE (self), NULL);
  return recovery_find (self->recovery);
}

gboolean
job_store_recover (JobStore *self, const char *record_path)
{
  g_autofree char *text = NULL, *path = NULL;
  struct draft_job *draft;
  gsize length = 0;

  g_return_val_if_fail (PLATELIFT_IS_JOB_STORE (self) && record_path, FALSE);
  text = recovery_read (record_path, &length);
  draft = text ? draft_from_recovery (text, length, &path) : NULL;
  if (!draft)
    return FALSE;
  replace (self, draft, path);
  self->saved_revision = 0; /* what was recovered is in no file yet */
  record (self);            /* under this session's own name, before the old record goes */
  recovery_delete (record_path);
  g_signal_emit (self, signals[FILE_CHANGED], 0);
  return TRUE;
}

void
job_store_drop_recovery (const char *record_path)
{
  recovery_delete (record_path);
}

void
job_store_close (JobStore *self, gboolean discard)
{
  g_return_if_fail (PLATELIFT_IS_JOB_STORE (self));
  g_clear_handle_id (&self->record_source, g_source_remove);
  if (discard)
    recovery_drop (self->recovery);
  else
    record (self);
}
