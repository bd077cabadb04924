/* The program is killed while something is typed; the next session offers it, and brings it back to the last letter. */
#include "driver.h"

#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>

static char *
record_folder (void)
{
  return g_build_filename (driver_home (), "XDG_STATE_HOME", "platelift", "unsaved", NULL);
}

/* The text of the only record there is, or NULL. */
static char *
record_text (void)
{
  g_autofree char *folder_path = record_folder (), *text = NULL;
  g_autoptr (GDir) folder = g_dir_open (folder_path, 0, NULL);
  const char *name;

  while (folder && (name = g_dir_read_name (folder)))
    if (g_str_has_suffix (name, ".unsaved")) {
      g_autofree char *path = g_build_filename (folder_path, name, NULL);
      g_free (text);
      text = NULL;
      g_file_get_contents (path, &text, NULL, NULL);
    }
  return g_steal_pointer (&text);
}

static gboolean
recorded (const char *words)
{
  g_autofree char *text = record_text ();

  return text && strstr (text, words);
}

static void
run (const char *command)
{
  g_autoptr (GError) error = NULL;
  int status = 0;

  g_spawn_command_line_sync (command, NULL, NULL, &status, &error);
  g_assert_no_error (error);
}

static gboolean
program_has_the_focus (GPid pid)
{
  g_autofree char *output = NULL, *complaint = NULL, *wanted = g_strdup_printf ("%d\n", (int) pid);

  /* Complains until the window manager is there. */
  g_spawn_command_line_sync ("xdotool getactivewindow getwindowpid", &output, &complaint, NULL, NULL);
  return g_strcmp0 (output, wanted) == 0;
}

/* A session of the program itself: a reading added by keys, a number and then no number typed, and killed. */
static void
type_and_kill (void)
{
  g_autofree char *job = g_build_filename (g_getenv ("PLATELIFT_JOBS"), "hollin-six-yearly-check.json", NULL);
  char *argv[] = { (char *) g_getenv ("PLATELIFT_PROGRAM"), job, NULL };
  g_autoptr (GError) error = NULL;
  GPid pid = 0;

  g_assert_true (g_spawn_async (NULL, argv, NULL, G_SPAWN_DO_NOT_REAP_CHILD, NULL, NULL, &pid, &error));
  g_assert_no_error (error);
  wait_until (program_has_the_focus (pid));
  /* From the first stop of the readings page on to the car's mark: the job is open once the record knows the text. */
  for (int i = 0; i < 40 && !recorded ("blue estate"); i++) {
    run ("xdotool key alt+2");
    run ("xdotool key Tab Tab");
    run ("xdotool key ctrl+a type --delay 15 'blue estate, not a number'");
    for (int j = 0; j < 60 && !recorded ("blue estate"); j++)
      driver_turn ();
  }
  g_assert_true (recorded ("blue estate, not a number"));
  kill (pid, SIGKILL);
  waitpid (pid, NULL, 0);
}

static void
brings_back_what_was_typed (void)
{
  Window *window;
  GtkWidget *bar;

  driver_make_home ();
  driver_await_manager ();
  type_and_kill ();
  window = driver_start (1280, 800);
  bar = driver_named (GTK_WIDGET (window), "recovery");
  g_assert_nonnull (bar);
  wait_until (gtk_revealer_get_child_revealed (GTK_REVEALER (bar)));
  driver_click (driver_typed (bar, GTK_TYPE_BUTTON, 0));
  wait_until (!gtk_revealer_get_reveal_child (GTK_REVEALER (bar)));
  g_assert_true (strstr (job_store_draft (window_store (window))->job->vehicle_mark, "blue estate, not a number") != NULL);
  g_assert_cmpuint (job_store_draft (window_store (window))->job->readings->len, ==, 8);
  g_assert_false (job_store_saved (window_store (window)));
  g_assert_true (recorded ("blue estate")); /* now under this session's name */
  job_store_close (window_store (window), TRUE);
  g_assert_false (recorded ("blue estate"));
  driver_stop ();
  driver_forget ();
}

/* Text that is no number, an empty reading and every condition come through the record unchanged. */
static void
keeps_unfinished_text (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree struct vehicle *vehicle = vehicle_load (vehicle_shipped ()[0], problems);
  g_autoptr (draft_job_t) draft = draft_job_new (job_new (vehicle));
  g_autoptr (draft_job_t) back = NULL;
  g_autofree char *text = NULL, *path = NULL;
  gsize length = 0;

  draft_add_reading (draft, reading_find ("system-pressure"));
  draft_add_reading (draft, reading_find ("cylinders-small"));
  draft_add_reading (draft, reading_find ("rest-height"));
  g_assert_false (draft_set_field (draft, 0, FIELD_VALUE, "four and a half", unit_find ("bar", QUANTITY_PRESSURE)));
  g_assert_true (draft_set_field (draft, 1, FIELD_VALUE + 2, "5,5 cm3/min", NULL));
  g_assert_false (draft_set_field (draft, VISIT, FIELD_CONDITION + 1, "high up", unit_find ("m", QUANTITY_LENGTH)));
  g_assert_cmpuint (draft_unfinished_count (draft), ==, 2);
  text = draft_recovery_text (draft, "/somewhere/visit.platelift-job", &length);
  back = draft_from_recovery (text, length, &path);
  g_assert_nonnull (back);
  g_assert_cmpstr (path, ==, "/somewhere/visit.platelift-job");
  g_assert_cmpuint (back->job->readings->len, ==, 3);
  for (int reading = VISIT; reading < 3; reading++)
    for (int field = reading == VISIT ? FIELD_CONDITION : 0; field < JOB_FIELDS; field++) {
      g_autofree char *before = draft_field_text (draft, reading, field);
      g_autofree char *after = draft_field_text (back, reading, field);
      g_assert_cmpstr (before, ==, after);
    }
}

/* Whatever stands in a record, a session must not fall over it. */
static void
survives_a_bad_record (void)
{
  static const char *const texts[] = { "", "[recovery]\n", "[recovery]\njob=7\n", "[recovery]\njob={}\n",
                                       "[unfinished]\n0.0=x\n", "\xff\xfe", "[recovery]\njob={\"readings\": [" };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++) {
    g_autofree char *path = NULL;
    g_assert_null (draft_from_recovery (texts[i], strlen (texts[i]), &path));
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/recovery/keeps-unfinished-text", keeps_unfinished_text);
  g_test_add_func ("/recovery/survives-a-bad-record", survives_a_bad_record);
  g_test_add_func ("/recovery/brings-back-what-was-typed", brings_back_what_was_typed);
  return g_test_run ();
}
