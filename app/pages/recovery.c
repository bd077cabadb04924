#include "recovery.h"

#include "safe-file.h"

#include <fcntl.h>
#include <glib/gstdio.h>
#include <sys/file.h>
#include <unistd.h>

#define ENDING ".unsaved"
#define LOCK_ENDING ".lock"
#define RECORD_MAX (64 * 1024 * 1024)

struct recovery {
  char *folder;
  char *path, *lock_path; /* NULL until the first record is written */
  int lock;               /* file descriptor, or -1 */
};

/* The lock is the kernel's: it goes with the process, however that ends. -1 where another session holds it. */
static int
take_lock (const char *path)
{
  int lock = g_open (path, O_RDWR | O_CREAT | O_CLOEXEC, 0600);

  if (lock >= 0 && flock (lock, LOCK_EX | LOCK_NB) != 0) {
    close (lock);
    return -1;
  }
  return lock;
}

static void
begin (struct recovery *recovery)
{
  g_autofree char *id = g_uuid_string_random ();
  g_autofree char *name = g_strconcat (id, ENDING, NULL);

  if (g_mkdir_with_parents (recovery->folder, 0700) != 0)
    return;
  recovery->path = g_build_filename (recovery->folder, name, NULL);
  recovery->lock_path = g_strconcat (recovery->path, LOCK_ENDING, NULL);
  recovery->lock = take_lock (recovery->lock_path);
}

struct recovery *
recovery_new (void)
{
  struct recovery *recovery = g_new0 (struct recovery, 1);

  recovery->folder = g_build_filename (g_get_user_state_dir (), "platelift", "unsaved", NULL);
  recovery->lock = -1;
  return recovery;
}

void
recovery_free (struct recovery *recovery)
{
  if (!recovery)
    return;
  if (recovery->lock >= 0)
    close (recovery->lock);
  g_free (recovery->folder);
  g_free (recovery->path);
  g_free (recovery->lock_path);
  g_free (recovery);
}

void
recovery_write (struct recovery *recovery, const char *text, gsize length)
{
  if (!recovery->path)
    begin (recovery);
  if (recovery->path)
    safe_file_write (recovery->path, text, length, NULL);
}

void
recovery_drop (struct recovery *recovery)
{
  if (!recovery->path)
    return;
  g_unlink (recovery->path);
  g_unlink (recovery->lock_path);
  if (recovery->lock >= 0)
    close (recovery->lock);
  recovery->lock = -1;
  g_clear_pointer (&recovery->path, g_free);
  g_clear_pointer (&recovery->lock_path, g_free);
}

static gboolean
left_behind (const char *path)
{
  g_autofree char *lock_path = g_strconcat (path, LOCK_ENDING, NULL);
  int lock = take_lock (lock_path);

  if (lock < 0)
    return FALSE;
  close (lock);
  return TRUE;
}

char *
recovery_find (struct recovery *recovery)
{
  g_autoptr (GDir) folder = g_dir_open (recovery->folder, 0, NULL);
  g_autofree char *newest = NULL;
  gint64 newest_time = 0;
  const char *name;

  while (folder && (name = g_dir_read_name (folder))) {
    g_autofree char *path = g_build_filename (recovery->folder, name, NULL);
    GStatBuf info;
    if (!g_str_has_suffix (name, ENDING) || g_strcmp0 (path, recovery->path) == 0 || g_stat (path, &info) != 0
        || !left_behind (path))
      continue;
    if (!newest || info.st_mtime > newest_time) {
      g_free (newest);
      newest = g_steal_pointer (&path);
      newest_time = info.st_mtime;
    }
  }
  return g_steal_pointer (&newest);
}

char *
recovery_read (const char *path, gsize *length)
{
  return safe_file_read (path, RECORD_MAX, length, NULL);
}

void
recovery_delete (const char *path)
{
  g_autofree char *lock_path = g_strconcat (path, LOCK_ENDING, NULL);

  g_unlink (path);
  g_unlink (lock_path);
}
