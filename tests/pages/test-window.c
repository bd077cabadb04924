/* The window round the pages: keys, menus, preferences, what is kept, what a screen reader finds. */
#include "driver.h"

#include <string.h>

static Window *window;

static Preferences *
preferences (void)
{
  return application_preferences (PLATELIFT_APPLICATION (g_application_get_default ()));
}

static const char *
page (void)
{
  return gtk_stack_get_visible_child_name (GTK_STACK (driver_named (GTK_WIDGET (window), "stack")));
}

static void
goes_to_pages_by_keys (void)
{
  driver_key ("alt+2");
  wait_until (g_str_equal (page (), "readings"));
  driver_key ("alt+1");
  wait_until (g_str_equal (page (), "cutaway"));
}

static void
opens_the_menu (void)
{
  GtkMenuButton *menu = GTK_MENU_BUTTON (driver_named (GTK_WIDGET (window), "menu"));

  driver_key ("F10");
  wait_until (gtk_widget_get_mapped (GTK_WIDGET (gtk_menu_button_get_popover (menu))));
  driver_key ("Escape");
  wait_until (!gtk_widget_get_mapped (GTK_WIDGET (gtk_menu_button_get_popover (menu))));
}

static void
shows_windows_of_its_own (void)
{
  static const struct {
    const char *key, *type;
  } windows[] = { { "ctrl+comma", "PreferencesWindow" }, { "ctrl+question", "GtkShortcutsWindow" } };

  for (gsize i = 0; i < G_N_ELEMENTS (windows); i++) {
    GtkWidget *opened;
    driver_key (windows[i].key);
    wait_until ((opened = driver_window (windows[i].type)) != NULL && gtk_widget_get_mapped (opened)
                && gtk_window_is_active (GTK_WINDOW (opened)));
    driver_key ("Escape");
    wait_until (gtk_window_is_active (GTK_WINDOW (window)));
  }
  g_action_group_activate_action (G_ACTION_GROUP (g_application_get_default ()), "about", NULL);
  wait_until (driver_window ("GtkAboutDialog") != NULL && gtk_window_is_active (GTK_WINDOW (driver_window ("GtkAboutDialog"))));
  driver_key ("Escape");
  wait_until (gtk_window_is_active (GTK_WINDOW (window)));
}

static void
fills_the_screen (void)
{
  driver_key ("F11");
  wait_until (gtk_window_is_fullscreen (GTK_WINDOW (window)));
  driver_key ("F11");
  wait_until (!gtk_window_is_fullscreen (GTK_WINDOW (window)));
}

/* The type grows with the farthest seat, never out of the window. */
static void
grows_for_the_last_row (void)
{
  GtkWidget *lambda = driver_named (GTK_WIDGET (window), "lambda");
  int before = gtk_widget_get_height (lambda);

  driver_resize (1900, 1040);
  g_object_set (preferences (), "seat", 4.0, NULL);
  wait_until (gtk_widget_get_height (lambda) > before * 3 / 2);
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <=, 1920);
  g_object_set (preferences (), "seat", 0.0, NULL);
  wait_until (gtk_widget_get_height (lambda) <= before);
  driver_resize (1280, 800);
}

/* Kept in a file of the configuration folder, and read again. */
static void
keeps_the_choices (void)
{
  g_autoptr (Preferences) again = NULL;
  g_autofree char *unit = NULL, *kept = NULL;
  double seat;

  g_object_set (preferences (), "pressure-unit", "psi", "seat", 2.5, NULL);
  driver_key ("alt+2");
  wait_until (g_str_equal (page (), "readings"));
  preferences_flush (preferences ());
  again = preferences_new ();
  g_object_get (again, "pressure-unit", &unit, "seat", &seat, "page", &kept, NULL);
  g_assert_cmpstr (unit, ==, "psi");
  g_assert_cmpfloat (seat, ==, 2.5);
  g_assert_cmpstr (kept, ==, "readings");
  g_object_set (preferences (), "pressure-unit", "bar", "seat", 0.0, NULL);
  driver_key ("alt+1");
}

/* What can take the focus must have a name: its own label, or text it shows. */
static void
find_nameless (GtkWidget *widget, GString *found)
{
  gboolean control = GTK_IS_BUTTON (widget) || GTK_IS_MENU_BUTTON (widget) || (GTK_IS_EDITABLE (widget) && !GTK_IS_TEXT (widget))
                     || GTK_IS_RANGE (widget) || GTK_IS_DROP_DOWN (widget) || GTK_IS_SWITCH (widget)
                     || g_str_equal (G_OBJECT_TYPE_NAME (widget), "PartTarget");

  if (!gtk_widget_get_mapped (widget))
    return;
  if (control && gtk_widget_get_focusable (widget)
      && !gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL)
      && !gtk_test_accessible_has_relation (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_RELATION_LABELLED_BY)) {
    g_autofree char *text = driver_text (widget);
    if (!*text)
      g_string_append_printf (found, "%s in %s; ", G_OBJECT_TYPE_NAME (widget),
                              G_OBJECT_TYPE_NAME (gtk_widget_get_parent (widget)));
  }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child; child = gtk_widget_get_next_sibling (child))
    find_nameless (child, found);
}

static void
names_every_control (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  GString *found = g_string_new (NULL);

  find_nameless (driver_named (GTK_WIDGET (window), "cutaway"), found);
  job_store_take (window_store (window), job_load_shipped (job_shipped ()[0], problems));
  driver_key ("alt+2");
  wait_until (g_str_equal (page (), "readings"));
  driver_settle ();
  find_nameless (driver_named (GTK_WIDGET (window), "readings"), found);
  g_assert_cmpstr (found->str, ==, "");
  g_string_free (found, TRUE);
  job_store_close (window_store (window), TRUE);
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  window = driver_start (1280, 800);
  g_test_add_func ("/window/goes-to-pages-by-keys", goes_to_pages_by_keys);
  g_test_add_func ("/window/opens-the-menu", opens_the_menu);
  g_test_add_func ("/window/shows-windows-of-its-own", shows_windows_of_its_own);
  g_test_add_func ("/window/fills-the-screen", fills_the_screen);
  g_test_add_func ("/window/grows-for-the-last-row", grows_for_the_last_row);
  g_test_add_func ("/window/keeps-the-choices", keeps_the_choices);
  g_test_add_func ("/window/names-every-control", names_every_control);
  status = g_test_run ();
  driver_stop ();
  driver_forget ();
  return status;
}
