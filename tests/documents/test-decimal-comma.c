/* Under a locale that writes a decimal comma: what is shown has it, what is read and written does not care. The locale
 * is built for the test, since a bare machine has only C and POSIX. */
#include "job-document.h"
#include "number-text.h"

#include <glib/gstdio.h>

#include <locale.h>
#include <string.h>

static void
remove_folder (const char *folder)
{
  GDir *dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir && (name = g_dir_read_name (dir))) {
    g_autofree char *path = g_build_filename (folder, name, NULL);
    if (g_file_test (path, G_FILE_TEST_IS_DIR))
      remove_folder (path);
    else
      g_remove (path);
  }
  if (dir)
    g_dir_close (dir);
  g_rmdir (folder);
}

/* FALSE where there are no sources of locales on this machine. */
static gboolean
use_comma (void)
{
  g_autofree char *folder = g_dir_make_tmp ("platelift-XXXXXX", NULL);
  g_autofree char *locale = g_build_filename (folder, "de_DE.UTF-8", NULL);
  char *command[] = { (char *) "localedef", (char *) "-i", (char *) "de_DE", (char *) "-f", (char *) "UTF-8",
                      (char *) "--no-archive", locale, NULL };
  gboolean good;

  g_spawn_sync (NULL, command, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL | G_SPAWN_STDERR_TO_DEV_NULL,
                NULL,
                NULL, NULL, NULL, NULL, NULL);
  g_setenv ("LOCPATH", folder, TRUE);
  good = setlocale (LC_ALL, "de_DE.UTF-8") != NULL && g_str_equal (localeconv ()->decimal_point, ",");
  remove_folder (folder); /* what setlocale has read stays */
  return good;
}

static gboolean comma;

static gboolean
skipped (void)
{
  if (!comma)
    g_test_skip ("no locale with a decimal comma could be built");
  return !comma;
}

static void
test_numbers (void)
{
  g_autofree char *shown = NULL;
  g_autofree char *written = NULL;
  double value = 0, si = 0;

  if (skipped ())
    return;
  g_assert_true (number_parse ("3.65", &value, NULL));
  g_assert_cmpfloat (value, ==, 3.65);
  g_assert_true (number_parse ("3,65", &value, NULL));
  g_assert_cmpfloat (value, ==, 3.65);
  written = number_shortest (3.65);
  g_assert_cmpstr (written, ==, "3.65");
  shown = measure_shown (365000, unit_find ("bar", QUANTITY_PRESSURE), TRUE);
  g_assert_cmpstr (shown, ==, "3,65\342\200\257bar");
  g_assert_true (measure_parse (shown, QUANTITY_PRESSURE, NULL, &si, NULL, NULL));
  g_assert_cmpfloat (si, ==, 365000);
}

static void
test_documents (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree struct vehicle *vehicle = NULL;
  g_autofree struct vehicle *again = NULL;
  g_autoptr (job_t) job = NULL;
  g_autofree char *text = NULL;
  g_autofree char *told = NULL;

  if (skipped ())
    return;
  vehicle = vehicle_load ("hollin-six", problems);
  g_assert_nonnull (vehicle);
  g_assert_cmpfloat (vehicle->car.sensor.plate_radius, ==, 0.04);
  text = vehicle_write (vehicle);
  g_assert_nonnull (strstr (text, "\"plate_radius\": 0.04,\n"));
  again = vehicle_parse (text, strlen (text), problems);
  g_assert_cmpmem (vehicle, sizeof *vehicle, again, sizeof *again);
  job = job_load (DATA_FOLDER "/jobs/hollin-six-yearly-check.json", problems);
  told = problems_text (problems, NULL);
  g_assert_cmpstr (told, ==, "");
  g_assert_cmpfloat (((struct job_reading *) g_ptr_array_index (job->readings, 2))->value[0].si, ==, 495000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  comma = use_comma ();
  g_test_add_func ("/documents/decimal-comma/numbers", test_numbers);
  g_test_add_func ("/documents/decimal-comma/documents", test_documents);
  return g_test_run ();
}
