#include "window-private.h"

#include <glib/gi18n.h>

/* Type sizes for the farthest seat: the smallest element should be half as many per cent of the picture's height as the
 * seat is picture heights away (common practice of projection, no source). */
#define SEAT_SHARE 0.005
#define SMALLEST_TYPE 11.0 /* px, of the page at a desk */
#define USUAL_TYPE 14.0    /* px */
#define TYPE_SCALE_MAX 2.0 /* beyond it the pages no longer fit a screen */

G_DEFINE_FINAL_TYPE (Window, window, GTK_TYPE_APPLICATION_WINDOW)

/* ---- what follows the preferences ---- */

static void
apply_units (Window *self)
{
  struct unit_choices choices;

  preferences_units (self->preferences, &choices);
  cutaway_page_set_units (PLATELIFT_CUTAWAY_PAGE (self->cutaway), &choices);
  readings_page_set_units (PLATELIFT_READINGS_PAGE (self->readings), &choices);
}

static void
apply_theme (Window *self)
{
  cutaway_page_set_theme (PLATELIFT_CUTAWAY_PAGE (self->cutaway), theme_scene (self->theme));
}

static void
apply_motion (Window *self)
{
  cutaway_page_set_reduced_motion (PLATELIFT_CUTAWAY_PAGE (self->cutaway),
                                   preferences_reduced_motion (self->preferences));
}

static void
apply_type (Window *self)
{
  int height = gtk_widget_get_height (GTK_WIDGET (self));
  double wanted = SEAT_SHARE * preferences_seat (self->preferences) * MAX (height, 600) / SMALLEST_TYPE;
  double scale = CLAMP (wanted, 1, TYPE_SCALE_MAX);
  char number[G_ASCII_DTOSTR_BUF_SIZE];
  g_autofree char *css = NULL;

  if (scale == self->type_scale)
    return;
  self->type_scale = scale;
  css = g_strdup_printf ("window { font-size: %spx; }", g_ascii_formatd (number, sizeof number, "%.2f", USUAL_TYPE * scale));
  gtk_css_provider_load_from_data (self->type, css, -1);
  cutaway_page_set_type_scale (PLATELIFT_CUTAWAY_PAGE (self->cutaway), scale);
}

/* ---- actions ---- */

static void
full_screen (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  if (gtk_window_is_fullscreen (data))
    gtk_window_unfullscreen (data);
  else
    gtk_window_fullscreen (data);
}

static void
page_action (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  const char *name = g_variant_get_string (parameter, NULL);

  if (gtk_stack_get_child_by_name (GTK_STACK (PLATELIFT_WINDOW (data)->stack), name))
    gtk_stack_set_visible_child_name (GTK_STACK (PLATELIFT_WINDOW (data)->stack), name);
}

static void
page_shown (Window *self)
{
  g_object_set (self->preferences, "page", gtk_stack_get_visible_child_name (GTK_STACK (self->stack)), NULL);
  window_show_file (self);
}

/* ---- life ---- */

static gboolean
apply_type_later (gpointer data)
{
  apply_type (data);
  return G_SOURCE_REMOVE;
}

static void
window_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  GTK_WIDGET_CLASS (window_parent_class)->size_allocate (widget, width, height, baseline);
  if (PLATELIFT_WINDOW (widget)->preferences && preferences_seat (PLATELIFT_WINDOW (widget)->preferences) > 0)
    g_idle_add_full (G_PRIORITY_HIGH_IDLE, apply_type_later, g_object_ref (widget), g_object_unref);
}

static void
keep_size (Window *self)
{
  int width, height;

  if (!self->preferences)
    return;
  g_object_set (self->preferences, "window-maximized", gtk_window_is_maximized (GTK_WINDOW (self)), NULL);
  if (gtk_window_is_maximized (GTK_WINDOW (self)) || gtk_window_is_fullscreen (GTK_WINDOW (self)))
    return;
  gtk_window_get_default_size (GTK_WINDOW (self), &width, &height);
  g_object_set (self->preferences, "window-width", width, "window-height", height, NULL);
}

static gboolean
window_close_request (GtkWindow *window)
{
  if (window_ask_to_close (PLATELIFT_WINDOW (window)))
    return TRUE;
  return GTK_WINDOW_CLASS (window_parent_class)->close_request (window);
}

static void
window_dispose (GObject *object)
{
  Window *self = PLATELIFT_WINDOW (object);

  if (self->preferences)
    g_signal_handlers_disconnect_by_data (self->preferences, self);
  if (self->theme)
    g_signal_handlers_disconnect_by_data (self->theme, self);
  if (self->store)
    g_signal_handlers_disconnect_by_data (self->store, self);
  g_signal_handlers_disconnect_by_data (gtk_recent_manager_get_default (), self);
  g_clear_object (&self->preferences);
  g_clear_object (&self->theme);
  g_clear_object (&self->store);
  g_clear_object (&self->recent);
  g_clear_object (&self->chooser);
  g_clear_pointer (&self->recovery_record, g_free);
  if (self->type)
    gtk_style_context_remove_provider_for_display (gtk_widget_get_display (GTK_WIDGET (self)),
                                                   GTK_STYLE_PROVIDER (self->type));
  g_clear_object (&self->type);
  G_OBJECT_CLASS (window_parent_class)->dispose (object);
}

static void
window_class_init (WindowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = window_dispose;
  GTK_WINDOW_CLASS (class)->close_request = window_close_request;
  widget_class->size_allocate = window_size_allocate;
  g_type_ensure (CUTAWAY_PAGE_TYPE);
  g_type_ensure (READINGS_PAGE_TYPE);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/platelift/Platelift/window.ui");
#define BIND(child) gtk_widget_class_bind_template_child (widget_class, Window, child)
  BIND (header);
  BIND (title);
  BIND (subtitle);
  BIND (switcher);
  BIND (menu);
  BIND (stack);
  BIND (cutaway);
  BIND (readings);
  BIND (recovery);
  BIND (recovery_text);
  BIND (recent);
#undef BIND
}

static void
window_init (Window *self)
{
  const GActionEntry entries[] = {
    { .name = "full-screen", .activate = full_screen },
    { .name = "page", .parameter_type = "s", .activate = page_action },
  };

  gtk_widget_init_template (GTK_WIDGET (self));
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  window_add_file_actions (self);
  g_object_ref (self->recent); /* the template's, which goes with it */
  self->type = gtk_css_provider_new ();
  gtk_style_context_add_provider_for_display (gtk_widget_get_display (GTK_WIDGET (self)),
                                              GTK_STYLE_PROVIDER (self->type),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION + 1);
}

static void
restore (Window *self)
{
  g_autofree char *page = NULL;
  gboolean maximized;
  int width, height;

  g_object_get (self->preferences, "window-width", &width, "window-height", &height, "window-maximized", &maximized,
                "page", &page, NULL);
  gtk_window_set_default_size (GTK_WINDOW (self), width, height);
  if (maximized)
    gtk_window_maximize (GTK_WINDOW (self));
  if (page && gtk_stack_get_child_by_name (GTK_STACK (self->stack), page))
    gtk_stack_set_visible_child_name (GTK_STACK (self->stack), page);
}

/* The readings begin with the car that the cutaway opens on. */
static void
make_store (Window *self)
{
  self->store = job_store_new (operating_point_vehicle (cutaway_page_point (PLATELIFT_CUTAWAY_PAGE (self->cutaway))));
  readings_page_set_store (PLATELIFT_READINGS_PAGE (self->readings), self->store);
  g_signal_connect_swapped (self->store, "file", G_CALLBACK (window_show_file), self);
  g_signal_connect_swapped (gtk_recent_manager_get_default (), "changed", G_CALLBACK (window_fill_recent), self);
}

Window *
window_new (Application *application)
{
  Window *self = g_object_new (WINDOW_TYPE, "application", application, NULL);

  self->preferences = g_object_ref (application_preferences (application));
  self->theme = g_object_ref (application_theme (application));
  make_store (self);
  restore (self);
  g_signal_connect_swapped (self->preferences, "notify::pressure-unit", G_CALLBACK (apply_units), self);
  g_signal_connect_swapped (self->preferences, "notify::temperature-unit", G_CALLBACK (apply_units), self);
  g_signal_connect_swapped (self->preferences, "notify::reduced-motion", G_CALLBACK (apply_motion), self);
  g_signal_connect_swapped (self->preferences, "notify::seat", G_CALLBACK (apply_type), self);
  g_signal_connect_swapped (self->theme, "changed", G_CALLBACK (apply_theme), self);
  g_signal_connect_swapped (self->stack, "notify::visible-child", G_CALLBACK (page_shown), self);
  g_signal_connect (self, "notify::default-width", G_CALLBACK (keep_size), NULL);
  g_signal_connect (self, "notify::default-height", G_CALLBACK (keep_size), NULL);
  g_signal_connect (self, "notify::maximized", G_CALLBACK (keep_size), NULL);
  apply_units (self);
  apply_theme (self);
  apply_motion (self);
  apply_type (self);
  window_show_file (self);
  window_fill_recent (self);
  window_offer_recovery (self);
  return self;
}

CutawayPage *
window_cutaway (Window *self)
{
  g_return_val_if_fail (PLATELIFT_IS_WINDOW (self), NULL);
  return PLATELIFT_CUTAWAY_PAGE (self->cutaway);
}

ReadingsPage *
window_readings (Window *self)
{
  g_return_val_if_fail (PLATELIFT_IS_WINDOW (self), NULL);
  return PLATELIFT_READINGS_PAGE (self->readings);
}

JobStore *
window_store (Window *self)
{
  g_return_val_if_fail (PLATELIFT_IS_WINDOW (self), NULL);
  return self->store;
}
