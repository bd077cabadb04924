/* A picture of each page at two sizes in three looks, for people to judge; what a machine can judge is asserted: the
 * paper has the look's lightness, and the page is not empty. */
#include "driver.h"

#include <glib/gstdio.h>
#include <string.h>

static Window *window;
static const char *folder;

static const struct {
  const char *theme;
  gboolean dark;
} looks[] = { { "light", FALSE }, { "dark", TRUE }, { "dark-contrast", TRUE } };

static const struct {
  int width, height;
} sizes[] = { { 1280, 800 }, { 1920, 1080 } };

static double
lightness (const guchar *pixel)
{
  return (pixel[0] + pixel[1] + pixel[2]) / (3 * 255.0);
}

static void
judge (const char *path, gboolean dark)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkPixbuf) picture = gdk_pixbuf_new_from_file (path, &error);
  g_autoptr (GHashTable) colours = g_hash_table_new (NULL, NULL);
  int width, height, stride, channels, near_paper = 0, pixels = 0;
  const guchar *data;

  g_assert_no_error (error);
  width = gdk_pixbuf_get_width (picture);
  height = gdk_pixbuf_get_height (picture);
  stride = gdk_pixbuf_get_rowstride (picture);
  channels = gdk_pixbuf_get_n_channels (picture);
  data = gdk_pixbuf_read_pixels (picture);
  for (int y = 0; y < height; y += 3)
    for (int x = 0; x < width; x += 3) {
      const guchar *pixel = data + y * stride + x * channels;
      g_hash_table_add (colours, GUINT_TO_POINTER (pixel[0] << 16 | pixel[1] << 8 | pixel[2]));
      near_paper += dark ? lightness (pixel) < 0.2 : lightness (pixel) > 0.85;
      pixels++;
    }
  g_assert_cmpuint (g_hash_table_size (colours), >, 60);
  g_assert_cmpint (near_paper, >, pixels / 3);
}

static void
take (const char *page, int size, int look)
{
  g_autofree char *name
      = g_strdup_printf ("%s-%dx%d-%s.png", page, sizes[size].width, sizes[size].height, looks[look].theme);
  g_autofree char *path = g_build_filename (folder, name, NULL);

  driver_settle ();
  driver_picture (path);
  judge (path, looks[look].dark);
}

static void
every_page (void)
{
  Preferences *preferences = application_preferences (PLATELIFT_APPLICATION (g_application_get_default ()));
  OperatingPoint *point = cutaway_page_point (window_cutaway (window));
  g_autoptr (problems_t) problems = problems_new ();

  cutaway_page_set_reduced_motion (window_cutaway (window), TRUE);
  operating_point_set (point, condition_find ("coolant"), 20);
  job_store_take (window_store (window), job_load_shipped (job_shipped ()[g_strv_length ((char **) job_shipped ()) - 1],
                                                           problems));
  wait_until (strstr (driver_text (GTK_WIDGET (window_cutaway (window))), "coolant 20\u202f°C") != NULL);
  for (guint size = 0; size < G_N_ELEMENTS (sizes); size++) {
    driver_resize (sizes[size].width, sizes[size].height);
    for (guint look = 0; look < G_N_ELEMENTS (looks); look++) {
      g_object_set (preferences, "theme", looks[look].theme, NULL);
      gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", "cutaway");
      take ("cutaway", (int) size, (int) look);
      gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", "readings");
      take ("readings", (int) size, (int) look);
    }
  }
  g_object_set (preferences, "theme", "light", NULL);
}

static void
empty_page (void)
{
  driver_resize (1280, 800);
  job_store_begin (window_store (window), operating_point_vehicle (cutaway_page_point (window_cutaway (window))));
  gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", "readings");
  take ("empty", 0, 0);
}

static void
projected_page (void)
{
  Preferences *preferences = application_preferences (PLATELIFT_APPLICATION (g_application_get_default ()));
  g_autofree char *path = g_build_filename (folder, "projected-1920x1080-light.png", NULL);

  g_object_set (preferences, "seat", 4.0, NULL);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.page", "s", "cutaway");
  driver_resize (1920, 1080);
  driver_picture (path);
  judge (path, FALSE);
  g_object_set (preferences, "seat", 0.0, NULL);
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  folder = g_getenv ("PLATELIFT_PICTURES");
  g_mkdir_with_parents (folder, 0755);
  window = driver_start (1280, 800);
  g_test_add_func ("/pictures/every-page", every_page);
  g_test_add_func ("/pictures/empty-page", empty_page);
  g_test_add_func ("/pictures/projected-page", projected_page);
  status = g_test_run ();
  job_store_close (window_store (window), TRUE);
  driver_stop ();
  driver_forget ();
  return status;
}
