#include "driver.h"
#include "x-window.h"

#include <glib/gstdio.h>

#define FRAME 12 /* px, to all sides together */

static struct {
  Application *application;
  Window *window;
  char *home;
  unsigned frames;
} driver;

static gboolean
wake (gpointer data)
{
  return G_SOURCE_REMOVE;
}

void
driver_turn (void)
{
  g_timeout_add (10, wake, NULL);
  g_main_context_iteration (NULL, TRUE);
}

static void
painted (void)
{
  driver.frames++;
}

unsigned
driver_frames (void)
{
  return driver.frames;
}

/* Nothing was painted for a while and no source is ready: what was asked for has happened. */
void
driver_settle (void)
{
  gint64 quiet_since = g_get_monotonic_time ();
  unsigned seen = driver.frames;

  while (g_get_monotonic_time () - quiet_since < 150 * 1000) {
    driver_turn ();
    if (driver.frames != seen) {
      seen = driver.frames;
      if (driver.frames % 64 == 0) /* flow marks are moving: do not wait for them */
        return;
      quiet_since = g_get_monotonic_time ();
    }
  }
}

static gboolean
manager_answers (void)
{
  g_autofree char *output = NULL, *complaint = NULL;
  int status = 1;

  g_spawn_command_line_sync ("xdotool get_desktop", &output, &complaint, &status, NULL);
  return status == 0;
}

/* A window that is mapped before the window manager is there is never given the focus. */
void
driver_await_manager (void)
{
  wait_until (manager_answers ());
}

void
driver_make_home (void)
{
  static const char *const folders[] = { "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME" };
  g_autoptr (GError) error = NULL;

  driver.home = g_dir_make_tmp ("platelift-pages-XXXXXX", &error);
  g_assert_no_error (error);
  g_setenv ("HOME", driver.home, TRUE);
  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++) {
    g_autofree char *path = g_build_filename (driver.home, folders[i], NULL);
    g_mkdir (path, 0700);
    g_setenv (folders[i], path, TRUE);
  }
  g_reload_user_special_dirs_cache ();
}

const char *
driver_home (void)
{
  return driver.home;
}

void
driver_resize (int width, int height)
{
  gtk_window_set_default_size (GTK_WINDOW (driver.window), width, height);
  /* Without a compositor the window's frame takes some pixels of it. */
  wait_until (ABS (gtk_widget_get_width (GTK_WIDGET (driver.window)) - width) <= FRAME
              && ABS (gtk_widget_get_height (GTK_WIDGET (driver.window)) - height) <= FRAME);
  driver_settle ();
}

Window *
driver_start (int width, int height)
{
  g_autoptr (GError) error = NULL;
  GdkFrameClock *clock;

  if (!driver.home)
    driver_make_home ();
  driver_await_manager ();
  driver.application = application_new ();
  g_application_set_flags (G_APPLICATION (driver.application), G_APPLICATION_NON_UNIQUE);
  g_application_register (G_APPLICATION (driver.application), NULL, &error);
  g_assert_no_error (error);
  g_object_set (application_preferences (driver.application), "window-width", width, "window-height", height, NULL);
  /* A blinking caret would draw at every frame, and no test could tell when the rest has been drawn. */
  g_object_set (gtk_settings_get_default (), "gtk-cursor-blink", FALSE, NULL);
  g_application_activate (G_APPLICATION (driver.application));
  driver.window = PLATELIFT_WINDOW (gtk_application_get_active_window (GTK_APPLICATION (driver.application)));
  wait_until (gtk_widget_get_mapped (GTK_WIDGET (driver.window)));
  clock = gdk_surface_get_frame_clock (gtk_native_get_surface (GTK_NATIVE (driver.window)));
  g_signal_connect (clock, "after-paint", G_CALLBACK (painted), NULL);
  wait_until (gtk_window_is_active (GTK_WINDOW (driver.window)));
  driver_settle ();
  return driver.window;
}

void
driver_stop (void)
{
  gpointer window = driver.window;

  g_object_add_weak_pointer (G_OBJECT (driver.window), &window);
  gtk_window_destroy (GTK_WINDOW (driver.window));
  wait_until (window == NULL);
  driver.window = NULL;
  /* The application stays: only g_application_run takes one off the bus, and the process ends anyway. */
}

void
driver_forget (void)
{
  g_autofree char *command = g_strdup_printf ("rm -rf '%s'", driver.home);

  g_spawn_command_line_sync (command, NULL, NULL, NULL, NULL);
  g_clear_pointer (&driver.home, g_free);
}

/* ---- events ---- */

static void
finished (GObject *process, GAsyncResult *result, gpointer done)
{
  g_autoptr (GError) error = NULL;

  g_subprocess_wait_check_finish (G_SUBPROCESS (process), result, &error);
  g_assert_no_error (error);
  *(gboolean *) done = TRUE;
}

/* The main loop runs on meanwhile: the program must answer while it is being driven. */
static void
xdotool (const char *const *argv)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) process = g_subprocess_newv (argv, G_SUBPROCESS_FLAGS_NONE, &error);
  gboolean done = FALSE;

  g_assert_no_error (error);
  g_subprocess_wait_check_async (process, NULL, finished, &done);
  wait_until (done);
}

/* In the X window of the widget's own surface: a popover has one of its own. */
static void
place_of (GtkWidget *widget, double across, double down, char window[32], char x[32], char y[32])
{
  GtkNative *native = gtk_widget_get_native (widget);
  graphene_point_t point;
  double left, top;

  wait_until (gtk_widget_get_mapped (widget) && gtk_widget_get_width (widget) > 0);
  g_assert_true (gtk_widget_compute_point (widget, GTK_WIDGET (native),
                                           &GRAPHENE_POINT_INIT ((float) (across * gtk_widget_get_width (widget)),
                                                                 (float) (down * gtk_widget_get_height (widget))),
                                           &point));
  gtk_native_get_surface_transform (native, &left, &top);
  g_snprintf (window, 32, "%lu", x_window (gtk_native_get_surface (native)));
  g_snprintf (x, 32, "%d", (int) (point.x + left));
  g_snprintf (y, 32, "%d", (int) (point.y + top));
}

void
driver_move_to (GtkWidget *widget, double across, double down)
{
  char window[32], x[32], y[32];

  place_of (widget, across, down, window, x, y);
  xdotool ((const char *[]) { "xdotool", "mousemove", "--window", window, x, y, NULL });
  driver_settle ();
}

void
driver_click (GtkWidget *widget)
{
  driver_move_to (widget, 0.5, 0.5);
  xdotool ((const char *[]) { "xdotool", "click", "1", NULL });
  driver_settle ();
}

void
driver_drag (GtkWidget *widget, double from, double to)
{
  enum { STEPS = 12 };

  driver_move_to (widget, from, 0.3);
  xdotool ((const char *[]) { "xdotool", "mousedown", "1", NULL });
  for (int i = 1; i <= STEPS; i++) {
    char window[32], x[32], y[32];
    place_of (widget, from + (to - from) * i / STEPS, 0.3, window, x, y);
    xdotool ((const char *[]) { "xdotool", "mousemove", "--window", window, x, y, NULL });
  }
  xdotool ((const char *[]) { "xdotool", "mouseup", "1", NULL });
  driver_settle ();
}

void
driver_key (const char *keys)
{
  xdotool ((const char *[]) { "xdotool", "key", keys, NULL });
  driver_settle ();
}

void
driver_type (const char *text)
{
  xdotool ((const char *[]) { "xdotool", "type", "--delay", "15", "--", text, NULL });
  driver_settle ();
}

void
driver_fill (GtkWidget *entry, const char *text)
{
  driver_click (entry);
  driver_key ("ctrl+a");
  if (*text)
    driver_type (text);
  else
    driver_key ("BackSpace");
  driver_key ("Return");
}

/* ---- looking ---- */

GtkWidget *
driver_named (GtkWidget *root, const char *name)
{
  if (g_strcmp0 (gtk_buildable_get_buildable_id (GTK_BUILDABLE (root)), name) == 0)
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child; child = gtk_widget_get_next_sibling (child)) {
    GtkWidget *found = driver_named (child, name);
    if (found)
      return found;
  }
  return NULL;
}

static GtkWidget *
typed (GtkWidget *root, GType type, int *number)
{
  if (G_TYPE_CHECK_INSTANCE_TYPE (root, type) && gtk_widget_get_mapped (root) && (*number)-- == 0)
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child; child = gtk_widget_get_next_sibling (child)) {
    GtkWidget *found = typed (child, type, number);
    if (found)
      return found;
  }
  return NULL;
}

GtkWidget *
driver_typed (GtkWidget *root, GType type, int number)
{
  return typed (root, type, &number);
}

GtkWidget *
driver_window (const char *type_name)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++) {
    g_autoptr (GtkWidget) one = g_list_model_get_item (windows, i);
    if (g_str_equal (G_OBJECT_TYPE_NAME (one), type_name))
      return one;
  }
  return NULL;
}

static void
gather_text (GtkWidget *root, GString *text)
{
  if (!gtk_widget_get_mapped (root))
    return;
  if (GTK_IS_LABEL (root))
    g_string_append_printf (text, "%s\n", gtk_label_get_text (GTK_LABEL (root)));
  for (GtkWidget *child = gtk_widget_get_first_child (root); child; child = gtk_widget_get_next_sibling (child))
    gather_text (child, text);
}

char *
driver_text (GtkWidget *root)
{
  GString *text = g_string_new (NULL);

  gather_text (root, text);
  return g_string_free (text, FALSE);
}

char *
driver_program (const char *const *argv, int *status)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new ();
  g_autoptr (GError) error = NULL;
  char *output = NULL;
  int wait_status = 0;

  g_ptr_array_add (words, (char *) g_getenv ("PLATELIFT_PROGRAM"));
  for (; *argv; argv++)
    g_ptr_array_add (words, (char *) *argv);
  g_ptr_array_add (words, NULL);
  g_spawn_sync (NULL, (char **) words->pdata, NULL, G_SPAWN_DEFAULT, NULL, NULL, &output, NULL, &wait_status, &error);
  g_assert_no_error (error);
  if (status)
    *status = WEXITSTATUS (wait_status);
  return output;
}

void
driver_picture (const char *path)
{
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (GTK_WIDGET (driver.window));
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  g_autoptr (GskRenderNode) node = NULL;
  g_autoptr (GdkTexture) texture = NULL;
  GskRenderer *renderer = gtk_native_get_renderer (GTK_NATIVE (driver.window));
  int width = gtk_widget_get_width (GTK_WIDGET (driver.window));
  int height = gtk_widget_get_height (GTK_WIDGET (driver.window));

  gdk_paintable_snapshot (paintable, snapshot, width, height);
  node = gtk_snapshot_free_to_node (snapshot);
  g_assert_nonnull (node);
  texture = gsk_renderer_render_texture (renderer, node, NULL);
  g_assert_true (gdk_texture_save_to_png (texture, path));
}
