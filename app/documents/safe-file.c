#include "safe-file.h"

#include <gio/gio.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>

#include <errno.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#define LINKS_MAX 40 /* as the kernel's own limit on symbolic links */
#define NEW_FILE ((mode_t) -1)

static gboolean
fail (GError **error, int number, const char *format, const char *path)
{
  g_autofree char *name = g_filename_display_name (path);
  g_autofree char *what = NULL;

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral" /* every caller passes a translated text with one %s */
  what = g_strdup_printf (format, name);
#pragma GCC diagnostic pop
  g_set_error (error, G_FILE_ERROR, (int) g_file_error_from_errno (number), "%s: %s", what, g_strerror (number));
  return FALSE;
}

/* The file behind symbolic links; the last one need not exist. */
static char *
follow_links (const char *path, GError **error)
{
  g_autofree char *at = g_strdup (path);

  for (int i = 0; i < LINKS_MAX; i++) {
    g_autofree char *target = NULL;
    if (!g_file_test (at, G_FILE_TEST_IS_SYMLINK))
      return g_steal_pointer (&at);
    target = g_file_read_link (at, error);
    if (target == NULL)
      return NULL;
    if (!g_path_is_absolute (target)) {
      g_autofree char *folder = g_path_get_dirname (at);
      char *joined = g_build_filename (folder, target, NULL);
      g_free (target);
      target = joined;
    }
    g_free (at);
    at = g_steal_pointer (&target);
  }
  fail (error, ELOOP, _("“%s” cannot be saved"), path);
  return NULL;
}

static gboolean
write_all (int file, const char *text, gsize length)
{
  while (length > 0) {
    gssize written = write (file, text, length);
    if (written < 0 && errno == EINTR)
      continue;
    if (written < 0)
      return FALSE;
    text += written;
    length -= (gsize) written;
  }
  return TRUE;
}

/* What stands at path: its mode, or NEW_FILE; false where saving is out of the question. */
static gboolean
find_mode (const char *path, mode_t *mode, GError **error)
{
  struct stat there;

  if (stat (path, &there) != 0) {
    if (errno != ENOENT)
      return fail (error, errno, _("“%s” cannot be saved"), path);
    *mode = NEW_FILE;
    return TRUE;
  }
  if (S_ISDIR (there.st_mode))
    return fail (error, EISDIR, _("“%s” cannot be saved"), path);
  if (!S_ISREG (there.st_mode))
    return fail (error, EINVAL, _("“%s” is not an ordinary file"), path);
  if (access (path, W_OK) != 0)
    return fail (error, errno, _("“%s” cannot be saved"), path);
  *mode = there.st_mode & 07777;
  return TRUE;
}

static void
flush_folder (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  int file = open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);

  if (file < 0)
    return; /* a folder that may not be read: the rename has happened, its durability is the file system's */
  fsync (file);
  close (file);
}

gboolean
safe_file_write (const char *path, const char *text, gsize length, GError **error)
{
  g_autofree char *target = NULL;
  g_autofree char *fresh = NULL;
  mode_t mode = 0;
  int file, number = 0;

  g_return_val_if_fail (path && (text || length == 0), FALSE);
  target = follow_links (path, error);
  if (target == NULL || !find_mode (target, &mode, error))
    return FALSE;
  fresh = g_strconcat (target, ".XXXXXX", NULL);
  file = g_mkstemp_full (fresh, O_WRONLY | O_CLOEXEC, mode == NEW_FILE ? 0666 : 0600);
  if (file < 0)
    return fail (error, errno, _("“%s” cannot be saved"), path);
  if (!write_all (file, text, length) || (mode != NEW_FILE && fchmod (file, mode) != 0) || fsync (file) != 0)
    number = errno;
  if (close (file) != 0 && number == 0)
    number = errno;
  if (number == 0 && rename (fresh, target) != 0)
    number = errno;
  if (number != 0) {
    unlink (fresh);
    return fail (error, number, _("“%s” cannot be saved; what was there is untouched"), path);
  }
  flush_folder (target);
  return TRUE;
}

static gboolean
too_long (const char *path, gsize limit, goffset size, GError **error)
{
  g_autofree char *name = g_filename_display_name (path);

  if (size > 0) {
    g_autofree char *has = g_format_size_full ((guint64) size, G_FORMAT_SIZE_IEC_UNITS);
    g_autofree char *may = g_format_size_full (limit, G_FORMAT_SIZE_IEC_UNITS);
    g_set_error (error, G_FILE_ERROR, G_FILE_ERROR_INVAL, _("“%s” is too large: %s; the limit is %s"), name, has, may);
  } else {
    g_autofree char *may = g_format_size_full (limit, G_FORMAT_SIZE_IEC_UNITS);
    g_set_error (error, G_FILE_ERROR, G_FILE_ERROR_INVAL, _("“%s” is too large: the limit is %s"), name, may);
  }
  return FALSE;
}

/* Reads to the end or to one byte beyond limit. */
static gboolean
read_all (int file, const char *path, gsize limit, GString *text, GError **error)
{
  char block[65536];

  for (;;) {
    gssize got = read (file, block, sizeof block);
    if (got < 0 && errno == EINTR)
      continue;
    if (got < 0)
      return fail (error, errno, _("“%s” cannot be read"), path);
    if (got == 0)
      return TRUE;
    if (text->len + (gsize) got > limit)
      return too_long (path, limit, 0, error);
    g_string_append_len (text, block, got);
  }
}

char *
safe_file_read (const char *path, gsize limit, gsize *length, GError **error)
{
  GString *text = NULL;
  struct stat there;
  gboolean good = FALSE;
  int file;

  g_return_val_if_fail (path, NULL);
  file = open (path, O_RDONLY | O_CLOEXEC);
  if (file < 0 || fstat (file, &there) != 0)
    fail (error, errno, _("“%s” cannot be read"), path);
  else if (S_ISDIR (there.st_mode))
    fail (error, EISDIR, _("“%s” cannot be read"), path);
  else if (S_ISREG (there.st_mode) && (guint64) there.st_size > limit)
    too_long (path, limit, there.st_size, error);
  else {
    text = g_string_new (NULL);
    good = read_all (file, path, limit, text, error);
  }
  if (file >= 0)
    close (file);
  if (length)
    *length = good ? text->len : 0;
  return text ? g_string_free (text, !good) : NULL;
}
