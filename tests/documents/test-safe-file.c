#include "safe-file.h"

#include <gio/gio.h>
#include <glib/gstdio.h>

#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define LONG_TEXT (256 * 1024)

struct place {
  char *folder, *file;
};

static void
set_up (struct place *place, gconstpointer data)
{
  place->folder = g_dir_make_tmp ("platelift-XXXXXX", NULL);
  place->file = g_build_filename (place->folder, "job.json", NULL);
}

static void
empty_folder (const char *folder)
{
  GDir *dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir))) {
    g_autofree char *path = g_build_filename (folder, name, NULL);
    g_remove (path);
  }
  g_dir_close (dir);
}

static void
tear_down (struct place *place, gconstpointer data)
{
  empty_folder (place->folder);
  g_assert_cmpint (g_rmdir (place->folder), ==, 0);
  g_free (place->folder);
  g_free (place->file);
}

static unsigned
files_in (const char *folder)
{
  GDir *dir = g_dir_open (folder, 0, NULL);
  unsigned count = 0;

  while (g_dir_read_name (dir))
    count++;
  g_dir_close (dir);
  return count;
}

static void
assert_content (const char *path, const char *text)
{
  g_autoptr (GError) error = NULL;
  gsize length = 0;
  g_autofree char *read = safe_file_read (path, 1 << 20, &length, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (read, ==, text);
  g_assert_cmpuint (length, ==, strlen (text));
}

static void
test_write (struct place *place, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  struct stat there;

  g_assert_true (safe_file_write (place->file, "one", 3, &error));
  assert_content (place->file, "one");
  g_assert_cmpint (chmod (place->file, 0640), ==, 0);
  g_assert_true (safe_file_write (place->file, "two\n", 4, &error));
  assert_content (place->file, "two\n");
  g_assert_true (safe_file_write (place->file, "", 0, &error));
  assert_content (place->file, "");
  g_assert_cmpint (stat (place->file, &there), ==, 0);
  g_assert_cmpint (there.st_mode & 07777, ==, 0640);
  g_assert_cmpuint (files_in (place->folder), ==, 1);
}

static void
test_links (struct place *place, gconstpointer data)
{
  g_autofree char *link = g_build_filename (place->folder, "link.json", NULL);
  g_autofree char *second = g_build_filename (place->folder, "second.json", NULL);
  g_autofree char *circle = g_build_filename (place->folder, "circle.json", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (symlink ("job.json", link), ==, 0);
  g_assert_cmpint (symlink (link, second), ==, 0);
  g_assert_cmpint (symlink ("circle.json", circle), ==, 0);
  g_assert_true (safe_file_write (second, "one", 3, &error)); /* the file at the end does not exist yet */
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  assert_content (place->file, "one");
  g_assert_true (safe_file_write (second, "two", 3, &error));
  g_assert_true (g_file_test (second, G_FILE_TEST_IS_SYMLINK));
  assert_content (place->file, "two");
  g_assert_false (safe_file_write (circle, "x", 1, &error));
  g_assert_nonnull (error);
}

static void
test_refusals (struct place *place, gconstpointer data)
{
  g_autofree char *missing = g_build_filename (place->folder, "no", "such.json", NULL);
  g_autofree char *link = g_build_filename (place->folder, "job.json", "below.json", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_false (safe_file_write (place->folder, "x", 1, &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_ISDIR);
  g_assert_nonnull (strstr (error->message, place->folder));
  g_clear_error (&error);
  g_assert_false (safe_file_write (missing, "x", 1, &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_NOENT);
  g_clear_error (&error);
  g_assert_true (safe_file_write (place->file, "x", 1, NULL));
  g_assert_false (safe_file_write (link, "x", 1, &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_NOTDIR);
  g_clear_error (&error);
  g_assert_false (safe_file_write ("/dev/full", "x", 1, &error));
  g_assert_nonnull (error);
}

/* A full disk: the size of a file limited, so that the write itself fails half way. */
static void
test_full_disk (struct place *place, gconstpointer data)
{
  g_autofree char *big = g_strnfill (LONG_TEXT, 'x');
  g_autoptr (GError) error = NULL;
  struct rlimit before, small;

  g_assert_true (safe_file_write (place->file, "the old file", 12, &error));
  signal (SIGXFSZ, SIG_IGN);
  g_assert_cmpint (getrlimit (RLIMIT_FSIZE, &before), ==, 0);
  small = before;
  small.rlim_cur = 4096;
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &small), ==, 0);
  g_assert_false (safe_file_write (place->file, big, LONG_TEXT, &error));
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &before), ==, 0);
  signal (SIGXFSZ, SIG_DFL);
  g_assert_nonnull (error);
  g_assert_nonnull (strstr (error->message, "untouched"));
  assert_content (place->file, "the old file");
  g_assert_cmpuint (files_in (place->folder), ==, 1); /* nothing left lying about */
}

/* A folder without the right to write; the tests may run as root, whom no mode stops, hence the other user. */
static void
test_read_only (struct place *place, gconstpointer data)
{
  int status = 0;
  pid_t child;

  g_assert_true (safe_file_write (place->file, "old", 3, NULL));
  g_assert_cmpint (chmod (place->folder, 0555), ==, 0);
  child = fork ();
  if (child == 0) {
    g_autoptr (GError) error = NULL;
    if (getuid () == 0 && setuid (65534) != 0)
      _exit (2);
    _exit (safe_file_write (place->file, "new", 3, &error) ? 1 : error == NULL ? 3 : 0);
  }
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_cmpint (chmod (place->folder, 0755), ==, 0);
  g_assert_true (WIFEXITED (status));
  g_assert_cmpint (WEXITSTATUS (status), ==, 0);
  assert_content (place->file, "old");
}

/* Writes a long text of one letter, then of the next, until it is killed. */
static void
write_for_ever (const char *path)
{
  for (int i = 0;; i++) {
    g_autofree char *text = g_strnfill (LONG_TEXT, (char) ('a' + i % 26));
    if (!safe_file_write (path, text, LONG_TEXT, NULL))
      _exit (1);
  }
}

static void
test_killed (struct place *place, gconstpointer data)
{
  GRand *random = g_rand_new_with_seed (3);
  g_autofree char *first = g_strnfill (LONG_TEXT, 'z');
  unsigned changed = 0;

  g_assert_true (safe_file_write (place->file, first, LONG_TEXT, NULL));
  for (int i = 0; i < 200; i++) {
    g_autofree char *read = NULL;
    gsize length = 0;
    int status = 0;
    pid_t child = fork ();
    if (child == 0)
      write_for_ever (place->file);
    g_usleep ((gulong) g_rand_int_range (random, 100, 12000));
    kill (child, SIGKILL);
    g_assert_cmpint (waitpid (child, &status, 0), ==, child);
    g_assert_true (WIFSIGNALED (status));
    read = safe_file_read (place->file, 1 << 20, &length, NULL);
    g_assert_nonnull (read);
    g_assert_cmpuint (length, ==, LONG_TEXT);
    g_assert_cmpuint (strspn (read, (char[]) { read[0], 0 }), ==, LONG_TEXT);
    changed += read[0] != 'z';
  }
  g_assert_cmpuint (changed, >, 20); /* the child did get to save */
  g_rand_free (random);
}

static void
test_read_limits (struct place *place, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  gsize length = 0;
  g_autofree char *whole = NULL;

  g_assert_true (safe_file_write (place->file, "12345", 5, NULL));
  whole = safe_file_read (place->file, 5, &length, &error);
  g_assert_cmpstr (whole, ==, "12345");
  g_assert_null (safe_file_read (place->file, 4, &length, &error));
  g_assert_nonnull (strstr (error->message, "5 bytes"));
  g_assert_nonnull (strstr (error->message, "4 bytes"));
  g_clear_error (&error);
  g_assert_null (safe_file_read (place->folder, 100, NULL, &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_ISDIR);
  g_clear_error (&error);
  g_assert_null (safe_file_read ("/dev/zero", 100, NULL, &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  g_assert_null (safe_file_read ("/no/such/file", 100, NULL, &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_NOENT);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add (name, struct place, NULL, set_up, function, tear_down)
  ADD ("/documents/safe-file/write", test_write);
  ADD ("/documents/safe-file/links", test_links);
  ADD ("/documents/safe-file/refusals", test_refusals);
  ADD ("/documents/safe-file/full-disk", test_full_disk);
  ADD ("/documents/safe-file/read-only", test_read_only);
  ADD ("/documents/safe-file/killed", test_killed);
  ADD ("/documents/safe-file/read-limits", test_read_limits);
  return g_test_run ();
}
