/* The cutaway page by real events: what is shown is what the program says without a window for the same state. */
#include "cutaway-view.h"
#include "driver.h"
#include "effect-ribbon.h"
#include "quantity-scale.h"

#include <glib/gi18n.h>
#include <json-glib/json-glib.h>
#include <math.h>
#include <string.h>

static Window *window;

static GtkWidget *
named (const char *name)
{
  GtkWidget *widget = driver_named (GTK_WIDGET (window_cutaway (window)), name);

  g_assert_nonnull (widget);
  return widget;
}

/* 0 air, 1 coolant, 2 minutes, 3 vacuum, as they stand on the page. */
static QuantityScale *
input (int number)
{
  return PLATELIFT_QUANTITY_SCALE (driver_typed (named ("inputs"), QUANTITY_SCALE_TYPE, number));
}

static GtkWidget *
entry (int number)
{
  return quantity_scale_get_entry (input (number));
}

static double
entered (int number)
{
  return g_ascii_strtod (gtk_editable_get_text (GTK_EDITABLE (entry (number))), NULL);
}

static const char *
shown (const char *name)
{
  return gtk_label_get_text (GTK_LABEL (named (name)));
}

/* Lambda that --mixture prints for what stands in the entries, as the page writes it. */
static char *
mixture_of_the_entries (void)
{
  const struct vehicle *vehicle = operating_point_vehicle (cutaway_page_point (window_cutaway (window)));
  char numbers[4][G_ASCII_DTOSTR_BUF_SIZE];
  g_autofree char *text = NULL;
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (GError) error = NULL;

  for (int i = 0; i < 4; i++)
    g_ascii_dtostr (numbers[i], sizeof numbers[i], entered (i));
  text = driver_program ((const char *[]) { "--mixture", "--json", "--car", vehicle->key, "--air", numbers[0], "--coolant",
                                            numbers[1], "--minutes", numbers[2], "--vacuum", numbers[3], NULL },
                         NULL);
  json_parser_load_from_data (parser, text, -1, &error);
  g_assert_no_error (error);
  return g_strdup_printf ("%.3f",
                          json_object_get_double_member (json_node_get_object (json_parser_get_root (parser)), "lambda"));
}

static void
assert_mixture (void)
{
  g_autofree char *expected = mixture_of_the_entries ();

  g_assert_cmpstr (shown ("lambda"), ==, expected);
}

static void
back (void)
{
  operating_point_back_to_start (cutaway_page_point (window_cutaway (window)));
  driver_settle ();
}

static void
opens_on_a_car (void)
{
  assert_mixture ();
  g_assert_cmpint (g_list_model_get_n_items (gtk_drop_down_get_model (GTK_DROP_DOWN (named ("car")))), ==, 3);
  g_assert_true (strstr (shown ("ratio"), ": 1") != NULL);
}

static void
follows_a_dragged_slider (void)
{
  double before = entered (0);
  GtkWidget *slider = quantity_scale_get_slider (input (0));
  GtkAdjustment *position = gtk_range_get_adjustment (GTK_RANGE (slider));

  driver_drag (slider, gtk_adjustment_get_value (position), 0.6);
  g_assert_cmpfloat (entered (0), >, 2 * before);
  assert_mixture ();
  back ();
}

static void
follows_the_arrow_keys (void)
{
  double before = entered (3);

  gtk_widget_grab_focus (quantity_scale_get_slider (input (3)));
  for (int i = 0; i < 5; i++)
    driver_key ("Left");
  g_assert_cmpfloat (entered (3), ==, before - 25);
  assert_mixture ();
  back ();
}

static void
takes_typed_values (void)
{
  driver_fill (entry (1), "20");
  g_assert_cmpfloat (entered (1), ==, 20);
  assert_mixture ();
  driver_fill (entry (1), "104 degF");
  g_assert_cmpfloat (entered (1), ==, 40);
  assert_mixture ();
  driver_fill (entry (2), "120 s");
  g_assert_cmpfloat (entered (2), ==, 2);
  assert_mixture ();
  driver_fill (entry (3), "15 kPa");
  g_assert_cmpfloat (entered (3), ==, 150);
  assert_mixture ();
  back ();
}

static void
keeps_what_is_no_number (void)
{
  g_autofree char *text = NULL, *range = NULL;
  g_autofree char *lambda = g_strdup (shown ("lambda"));

  driver_fill (entry (0), "many");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry (0))), ==, "many");
  g_assert_true (gtk_widget_has_css_class (entry (0), "wrong"));
  text = driver_text (GTK_WIDGET (input (0)));
  g_assert_cmpuint (strlen (text), >, strlen ("Air flow\n") + 5);
  g_assert_cmpstr (shown ("lambda"), ==, lambda);
  driver_fill (entry (0), "9999 kg/h");
  range = driver_text (GTK_WIDGET (input (0)));
  g_assert_nonnull (strstr (range, "0 to "));
  back ();
  driver_fill (entry (0), "30");
  g_assert_false (gtk_widget_has_css_class (entry (0), "wrong"));
  back ();
}

static void
says_why_there_is_no_mixture (void)
{
  driver_fill (entry (0), "0");
  g_assert_cmpstr (shown ("lambda"), ==, "–");
  g_assert_nonnull (strstr (shown ("words"), "No air"));
  g_assert_null (strstr (shown ("ratio"), "nan"));
  back ();
}

/* Colder coolant: the chain begins with the coolant and ends with lambda, in the model's order. */
static void
tells_the_chain (void)
{
  g_autofree char *chain = NULL;
  static const char *const order[]
      = { "Coolant", "80 →", "Bimetal", "Control pressure", "Plate lift", "Plunger lift", "Fuel flow", "Lambda" };
  const char *place;

  driver_fill (entry (1), "20");
  chain = driver_text (named ("ribbon"));
  place = chain;
  for (gsize i = 0; i < G_N_ELEMENTS (order); i++) {
    place = strstr (place, order[i]);
    if (!place)
      g_error ("%s is missing, or too early, in:\n%s", order[i], chain);
  }
  g_assert_nonnull (strstr (chain, shown ("lambda")));
  back ();
}

static void
announces_the_settled_state (void)
{
  GtkWidget *status = named ("status");

  driver_fill (entry (1), "21");
  wait_until (strstr (driver_text (status), "21\u202f°C") != NULL);
  back ();
}

/* The plate's centre, where the drawing says it is. */
static void
answers_the_pointer (void)
{
  GtkWidget *view = named ("view");
  const struct scene *scene = cutaway_view_scene (PLATELIFT_CUTAWAY_VIEW (view));
  struct scene_box box;
  g_autofree char *card = NULL;

  scene_part_box (scene, PART_WEIGHT, &box);
  driver_move_to (view, (box.x + box.width / 2) / scene->width, (box.y + box.height / 2) / scene->height);
  wait_until (strstr (card = driver_text (view), gettext (scene_parts[PART_WEIGHT].name)) != NULL);
  g_assert_nonnull (strstr (card, gettext (scene_parts[PART_WEIGHT].purpose)));
  driver_move_to (named ("lambda"), 0.5, 0.5);
}

static void
answers_the_keyboard (void)
{
  GtkWidget *view = named ("view");
  g_autofree char *first = NULL, *second = NULL;
  const char *end;

  gtk_widget_grab_focus (named ("layers"));
  driver_key ("Tab");
  g_assert_nonnull (gtk_widget_get_focus_child (view));
  first = driver_text (view);
  g_assert_cmpuint (strlen (first), >, 20);
  driver_key ("Right");
  second = driver_text (view);
  g_assert_cmpstr (first, !=, second);
  driver_key ("Tab");
  g_assert_null (gtk_widget_get_focus_child (view));
  end = driver_text (view);
  g_assert_cmpstr (end, ==, "");
}

static void
returns_by_one_key (void)
{
  g_autofree char *start = g_strdup (shown ("lambda"));

  driver_fill (entry (1), "0");
  g_assert_cmpstr (shown ("lambda"), !=, start);
  gtk_widget_grab_focus (quantity_scale_get_slider (input (0)));
  driver_key ("BackSpace");
  g_assert_cmpstr (shown ("lambda"), ==, start);
}

static void
shows_other_units (void)
{
  Preferences *preferences = application_preferences (PLATELIFT_APPLICATION (g_application_get_default ()));

  g_object_set (preferences, "temperature-unit", "fahrenheit", "pressure-unit", "kpa", NULL);
  driver_settle ();
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry (1))), ==, "176\u202f°F");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry (3))), ==, "50\u202fkPa");
  g_object_set (preferences, "temperature-unit", "celsius", "pressure-unit", "bar", NULL);
  driver_settle ();
}

/* Every shipped car, chosen by keys, shows its own mixture. */
static void
shows_every_car (void)
{
  for (int i = 0; i < 3; i++) {
    gtk_drop_down_set_selected (GTK_DROP_DOWN (named ("car")), (guint) i);
    driver_settle ();
    assert_mixture ();
  }
  gtk_drop_down_set_selected (GTK_DROP_DOWN (named ("car")), 0);
  driver_settle ();
}

/* Once nothing has changed for a while, nothing is drawn: ten seconds, no frame. */
static void
draws_nothing_when_idle (void)
{
  GtkWidget *view = named ("view");
  unsigned before = driver_frames ();
  gint64 end;

  cutaway_page_set_reduced_motion (window_cutaway (window), FALSE);
  back ();
  driver_fill (entry (0), "60");
  wait_until (driver_frames () > before); /* the counter counts */
  gtk_widget_grab_focus (named ("car")); /* an entry's caret would blink */
  driver_move_to (named ("lambda"), 0.5, 0.5);
  wait_until (!cutaway_view_moving (PLATELIFT_CUTAWAY_VIEW (view)));
  driver_settle ();
  before = driver_frames ();
  end = g_get_monotonic_time () + 10 * G_USEC_PER_SEC;
  while (g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE) ? (void) 0 : g_usleep (5000);
  g_assert_cmpuint (driver_frames (), ==, before);
}

/* Flow marks move after a change, rest after some seconds, and stand still where motion is unwanted. */
static void
moves_only_after_a_change (void)
{
  CutawayView *view = PLATELIFT_CUTAWAY_VIEW (named ("view"));
  gint64 start;
  unsigned before;

  cutaway_page_set_reduced_motion (window_cutaway (window), FALSE);
  driver_fill (entry (0), "100");
  wait_until (cutaway_view_moving (view));
  start = g_get_monotonic_time ();
  before = driver_frames ();
  wait_until (!cutaway_view_moving (view));
  g_test_message ("%.0f frames a second while the flow moves", /* on this machine, without graphics hardware */
                  (driver_frames () - before) / ((double) (g_get_monotonic_time () - start) / G_USEC_PER_SEC));
  cutaway_page_set_reduced_motion (window_cutaway (window), TRUE);
  driver_fill (entry (0), "120");
  g_assert_false (cutaway_view_moving (view));
  back ();
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  window = driver_start (1280, 800);
  cutaway_page_set_reduced_motion (window_cutaway (window), TRUE); /* but where motion is what is tested */
  g_test_add_func ("/cutaway/opens-on-a-car", opens_on_a_car);
  g_test_add_func ("/cutaway/follows-a-dragged-slider", follows_a_dragged_slider);
  g_test_add_func ("/cutaway/follows-the-arrow-keys", follows_the_arrow_keys);
  g_test_add_func ("/cutaway/takes-typed-values", takes_typed_values);
  g_test_add_func ("/cutaway/keeps-what-is-no-number", keeps_what_is_no_number);
  g_test_add_func ("/cutaway/says-why-there-is-no-mixture", says_why_there_is_no_mixture);
  g_test_add_func ("/cutaway/tells-the-chain", tells_the_chain);
  g_test_add_func ("/cutaway/announces-the-settled-state", announces_the_settled_state);
  g_test_add_func ("/cutaway/answers-the-pointer", answers_the_pointer);
  g_test_add_func ("/cutaway/answers-the-keyboard", answers_the_keyboard);
  g_test_add_func ("/cutaway/returns-by-one-key", returns_by_one_key);
  g_test_add_func ("/cutaway/shows-other-units", shows_other_units);
  g_test_add_func ("/cutaway/shows-every-car", shows_every_car);
  g_test_add_func ("/cutaway/moves-only-after-a-change", moves_only_after_a_change);
  g_test_add_func ("/cutaway/draws-nothing-when-idle", draws_nothing_when_idle);
  status = g_test_run ();
  driver_stop ();
  driver_forget ();
  return status;
}
