/* The readings page by real events: typed, judged as the program judges the saved job, undone, saved, opened. */
#include "driver.h"

#include <glib/gstdio.h>
#include <json-glib/json-glib.h>
#include <string.h>

static Window *window;

static ReadingRow *
row (int number)
{
  wait_until (readings_page_row (window_readings (window), number) != NULL);
  return readings_page_row (window_readings (window), number);
}

static GtkWidget *
named (const char *name)
{
  GtkWidget *widget = driver_named (GTK_WIDGET (window_readings (window)), name);

  g_assert_nonnull (widget);
  return widget;
}

static unsigned
readings (void)
{
  return job_store_draft (window_store (window))->job->readings->len;
}

static const char *
value_text (int number)
{
  return gtk_editable_get_text (GTK_EDITABLE (reading_row_entry (row (number), 0)));
}

/* A new, empty job by its key; what was there is given up. */
static void
begin (void)
{
  job_store_begin (window_store (window), operating_point_vehicle (cutaway_page_point (window_cutaway (window))));
  driver_settle ();
  driver_key ("alt+2");
  wait_until (gtk_widget_get_mapped (named ("content")));
}

static void
add (const char *key)
{
  unsigned before = readings ();

  gtk_widget_activate_action (GTK_WIDGET (window_readings (window)), "readings.add", "s", key);
  wait_until (readings () == before + 1);
  wait_until (gtk_widget_get_focus_child (GTK_WIDGET (row ((int) before))) != NULL);
  driver_settle ();
}

/* What --check says to the job as saved: the word of the first reading. */
static char *
checked_word (const char *path)
{
  g_autofree char *text = driver_program ((const char *[]) { "--check", path, "--json", NULL }, NULL);
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (GError) error = NULL;
  JsonArray *list;

  json_parser_load_from_data (parser, text, -1, &error);
  g_assert_no_error (error);
  list = json_object_get_array_member (json_node_get_object (json_parser_get_root (parser)), "readings");
  return g_strdup (json_object_get_string_member (json_array_get_object_element (list, 0), "verdict"));
}

static void
says_what_to_do_when_empty (void)
{
  g_autofree char *text = NULL;

  begin ();
  text = driver_text (named ("empty"));
  g_assert_nonnull (strstr (text, "No readings yet"));
  g_assert_nonnull (strstr (text, "System pressure"));
}

static void
adds_from_the_menu (void)
{
  begin ();
  gtk_widget_grab_focus (named ("add"));
  driver_key ("space");
  driver_key ("Down");
  driver_key ("Return");
  wait_until (readings () == 1);
}

static void
judges_while_typing (void)
{
  g_autofree char *path = g_build_filename (driver_home (), "typed.platelift-job", NULL);
  g_autofree char *word = NULL;

  begin ();
  add ("system-pressure");
  g_assert_nonnull (strstr (reading_row_verdict (row (0)), "no value"));
  driver_type ("2.1");
  g_assert_nonnull (strstr (reading_row_verdict (row (0)), "out, low"));
  driver_type ("5"); /* 2.15: still typing, the text is left alone */
  g_assert_cmpstr (value_text (0), ==, "2.15");
  driver_key ("Tab");
  g_assert_cmpstr (value_text (0), ==, "2.15\u202fbar");
  g_assert_true (job_store_save (window_store (window), path, NULL));
  word = checked_word (path);
  g_assert_cmpstr (word, ==, "out-low");
}

static void
converts_what_is_typed (void)
{
  g_autofree char *text = NULL;

  begin ();
  add ("control-pressure-warm");
  driver_fill (reading_row_entry (row (0), 0), "52 psi");
  g_assert_cmpstr (value_text (0), ==, "52\u202fpsi");
  text = driver_text (GTK_WIDGET (row (0)));
  g_assert_nonnull (strstr (text, "= 3.59\u202fbar"));
}

static void
keeps_what_is_no_number (void)
{
  g_autofree char *text = NULL, *after = NULL;

  begin ();
  add ("system-pressure");
  driver_fill (reading_row_entry (row (0), 0), "about five");
  g_assert_cmpstr (value_text (0), ==, "about five");
  text = driver_text (GTK_WIDGET (row (0)));
  g_assert_true (gtk_widget_has_css_class (reading_row_entry (row (0), 0), "wrong"));
  g_assert_nonnull (strstr (reading_row_verdict (row (0)), "no value"));
  add ("rest-height"); /* the rest of the page moves on; the text stays */
  g_assert_cmpstr (value_text (0), ==, "about five");
  g_assert_false (job_store_saved (window_store (window)));
  driver_fill (reading_row_entry (row (0), 0), "5,1");
  g_assert_false (gtk_widget_has_css_class (reading_row_entry (row (0), 0), "wrong"));
  g_assert_cmpstr (value_text (0), ==, "5,1\u202fbar");
  after = driver_text (GTK_WIDGET (row (0)));
  g_assert_cmpstr (text, !=, after);
}

static void
undoes_and_redoes_every_edit (void)
{
  begin ();
  add ("system-pressure");
  driver_fill (reading_row_entry (row (0), 0), "4.9");
  driver_fill (reading_row_entry (row (0), 0), "oops");
  add ("delivery");
  driver_key ("ctrl+z");
  wait_until (readings () == 1);
  g_assert_cmpstr (value_text (0), ==, "oops");
  driver_key ("ctrl+z");
  g_assert_cmpstr (value_text (0), ==, "4.9\u202fbar");
  driver_key ("ctrl+z");
  g_assert_cmpstr (value_text (0), ==, "");
  driver_key ("ctrl+z");
  wait_until (readings () == 0);
  g_assert_false (job_store_can_undo (window_store (window)));
  for (int i = 0; i < 4; i++)
    driver_key ("ctrl+shift+z");
  wait_until (readings () == 2);
  g_assert_cmpstr (value_text (0), ==, "oops");
  g_assert_false (job_store_can_redo (window_store (window)));
}

static void
brings_a_removed_reading_back (void)
{
  begin ();
  add ("system-pressure");
  driver_type ("4.9");
  g_signal_emit_by_name (row (0), "remove");
  wait_until (readings () == 0);
  driver_key ("ctrl+z");
  wait_until (readings () == 1);
  g_assert_cmpstr (value_text (0), ==, "4.9\u202fbar");
}

/* Cautions of the procedure's hazards stand where the work is described, open while there is no value. */
static void
shows_the_cautions (void)
{
  g_autofree char *text = NULL;

  begin ();
  add ("cylinders-small");
  text = driver_text (GTK_WIDGET (row (0)));
  for (unsigned bit = 1; bit <= HAZARD_PLATE_LIFT; bit <<= 1)
    if (reading_kinds[READING_CYLINDERS_SMALL].hazards & bit)
      g_assert_nonnull (strstr (text, hazard_caution ((enum hazard) bit)));
  g_assert_nonnull (strstr (text, "manufacturer's data"));
}

static void
judges_each_cylinder (void)
{
  g_autofree char *text = NULL;
  int cylinders;

  begin ();
  cylinders = job_store_draft (window_store (window))->job->vehicle->car.cylinders;
  add ("cylinders-middle");
  for (int i = 0; i < cylinders; i++)
    driver_fill (reading_row_entry (row (0), i), i == 2 ? "14 cm3/min" : "20 cm3/min");
  text = driver_text (GTK_WIDGET (row (0)));
  g_assert_nonnull (strstr (reading_row_verdict (row (0)), "out, low"));
  g_assert_nonnull (strstr (text, "▼"));
  g_assert_nonnull (strstr (text, "Points to"));
}

/* A condition of its own moves what is expected. */
static void
takes_conditions_of_its_own (void)
{
  g_autofree char *before = NULL, *after = NULL;
  GtkWidget *temperature;

  begin ();
  add ("control-pressure-cold");
  driver_type ("1.9");
  driver_key ("Return");
  before = driver_text (GTK_WIDGET (row (0)));
  temperature = driver_typed (driver_typed (GTK_WIDGET (row (0)), g_type_from_name ("ConditionsForm"), 0),
                              g_type_from_name ("MeasureEntry"), 0);
  driver_fill (temperature, "20");
  after = driver_text (GTK_WIDGET (row (0)));
  g_assert_cmpstr (before, !=, after);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (temperature)), ==, "20\u202f°C");
}

/* By keys through the real file choosers. */
static void
saves_and_opens_by_keys (void)
{
  g_autofree char *path = g_build_filename (driver_home (), "by-keys.platelift-job", NULL);

  begin ();
  add ("system-pressure");
  driver_fill (reading_row_entry (row (0), 0), "4.95 bar");
  driver_key ("ctrl+s");
  wait_until (!gtk_window_is_active (GTK_WINDOW (window)));
  driver_key ("ctrl+a");
  driver_type (path);
  driver_key ("Return");
  wait_until (g_file_test (path, G_FILE_TEST_EXISTS));
  wait_until (job_store_saved (window_store (window)));
  wait_until (gtk_window_is_active (GTK_WINDOW (window)));
  driver_key ("ctrl+n");
  wait_until (readings () == 0);
  driver_key ("ctrl+o");
  wait_until (!gtk_window_is_active (GTK_WINDOW (window)));
  driver_type (path); /* its first stroke opens the place for a typed path */
  driver_key ("Return");
  wait_until (readings () == 1);
  g_assert_cmpstr (value_text (0), ==, "4.95\u202fbar");
  g_assert_cmpstr (job_store_path (window_store (window)), ==, path);
}

static void
tells_a_full_or_forbidden_place (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (job_store_save (window_store (window), "/proc/no-such-place/x.platelift-job", &error));
  g_assert_nonnull (error);
  g_assert_cmpuint (strlen (error->message), >, 5);
}

static void
previews_a_csv (void)
{
  g_autofree char *path = g_build_filename (driver_home (), "gauge.csv", NULL);
  g_autofree char *text = NULL;
  GtkWidget *preview = NULL;

  g_assert_true (g_file_set_contents (path,
                                      "reading;value;unit\nsystem-pressure;4,95;bar\nsystem-pressure;much;bar\n"
                                      "delivery;900;cm3 in 30 s\n",
                                      -1, NULL));
  begin ();
  driver_key ("ctrl+i");
  wait_until (!gtk_window_is_active (GTK_WINDOW (window)));
  driver_type (path);
  driver_key ("Return");
  wait_until ((preview = driver_window ("CsvPreview")) != NULL && gtk_window_is_active (GTK_WINDOW (preview)));
  text = driver_text (preview);
  g_assert_nonnull (strstr (text, "line 3"));
  g_assert_nonnull (strstr (text, "4,95"));
  driver_key ("Return");
  wait_until (readings () == 2);
  driver_key ("ctrl+z");
  wait_until (readings () == 0);
}

static void
asks_before_work_is_lost (void)
{
  begin ();
  add ("system-pressure");
  driver_type ("4.9");
  driver_key ("ctrl+w");
  wait_until (!gtk_window_is_active (GTK_WINDOW (window)));
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (window)));
  driver_key ("Escape");
  wait_until (gtk_window_is_active (GTK_WINDOW (window)));
  g_assert_cmpuint (readings (), ==, 1);
  begin ();
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  window = driver_start (1280, 800);
#define TEST(function, path) g_test_add_func ("/readings/" path, function)
  TEST (says_what_to_do_when_empty, "says-what-to-do-when-empty");
  TEST (adds_from_the_menu, "adds-from-the-menu");
  TEST (judges_while_typing, "judges-while-typing");
  TEST (converts_what_is_typed, "converts-what-is-typed");
  TEST (keeps_what_is_no_number, "keeps-what-is-no-number");
  TEST (undoes_and_redoes_every_edit, "undoes-and-redoes-every-edit");
  TEST (brings_a_removed_reading_back, "brings-a-removed-reading-back");
  TEST (shows_the_cautions, "shows-the-cautions");
  TEST (judges_each_cylinder, "judges-each-cylinder");
  TEST (takes_conditions_of_its_own, "takes-conditions-of-its-own");
  TEST (saves_and_opens_by_keys, "saves-and-opens-by-keys");
  TEST (tells_a_full_or_forbidden_place, "tells-a-full-or-forbidden-place");
  TEST (previews_a_csv, "previews-a-csv");
  TEST (asks_before_work_is_lost, "asks-before-work-is-lost");
#undef TEST
  status = g_test_run ();
  driver_stop ();
  driver_forget ();
  return status;
}
