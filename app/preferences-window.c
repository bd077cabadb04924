#include "preferences-window.h"

#include <glib/gi18n.h>

struct _PreferencesWindow {
  GtkWindow parent_instance;
  Preferences *preferences;
  GtkWidget *pressure, *temperature, *theme, *seat, *motion;
};

G_DEFINE_FINAL_TYPE (PreferencesWindow, preferences_window, GTK_TYPE_WINDOW)

/* A drop-down's items stand in the .ui file; these are what they mean, in the same order. */
static const char *const pressures[] = { "bar", "kpa", "psi", NULL };
static const char *const temperatures[] = { "celsius", "fahrenheit", NULL };
static const char *const themes[] = { "system", "light", "dark", "light-contrast", "dark-contrast", NULL };

static gboolean
word_to_index (GBinding *binding, const GValue *from, GValue *to, gpointer words)
{
  for (guint i = 0; ((const char *const *) words)[i]; i++)
    if (g_strcmp0 (((const char *const *) words)[i], g_value_get_string (from)) == 0)
      g_value_set_uint (to, i);
  return TRUE;
}

static gboolean
index_to_word (GBinding *binding, const GValue *from, GValue *to, gpointer words)
{
  guint index = g_value_get_uint (from);

  if (index >= g_strv_length ((char **) words))
    return FALSE;
  g_value_set_string (to, ((const char *const *) words)[index]);
  return TRUE;
}

static void
bind_choice (PreferencesWindow *self, const char *property, GtkWidget *drop_down, const char *const *words)
{
  g_object_bind_property_full (self->preferences, property, drop_down, "selected",
                               G_BINDING_BIDIRECTIONAL | G_BINDING_SYNC_CREATE, word_to_index, index_to_word,
                               (gpointer) words, NULL);
}

static void
preferences_window_dispose (GObject *object)
{
  g_clear_object (&PLATELIFT_PREFERENCES_WINDOW (object)->preferences);
  G_OBJECT_CLASS (preferences_window_parent_class)->dispose (object);
}

static void
preferences_window_class_init (PreferencesWindowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = preferences_window_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/platelift/Platelift/preferences-window.ui");
  gtk_widget_class_bind_template_child (widget_class, PreferencesWindow, pressure);
  gtk_widget_class_bind_template_child (widget_class, PreferencesWindow, temperature);
  gtk_widget_class_bind_template_child (widget_class, PreferencesWindow, theme);
  gtk_widget_class_bind_template_child (widget_class, PreferencesWindow, seat);
  gtk_widget_class_bind_template_child (widget_class, PreferencesWindow, motion);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
preferences_window_init (PreferencesWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
preferences_window_present (Preferences *preferences, GtkWindow *parent)
{
  PreferencesWindow *self = g_object_new (PREFERENCES_WINDOW_TYPE, "transient-for", parent, "modal", TRUE, NULL);

  self->preferences = g_object_ref (preferences);
  bind_choice (self, "pressure-unit", self->pressure, pressures);
  bind_choice (self, "temperature-unit", self->temperature, temperatures);
  bind_choice (self, "theme", self->theme, themes);
  g_object_bind_property (preferences, "seat", gtk_spin_button_get_adjustment (GTK_SPIN_BUTTON (self->seat)), "value",
                          G_BINDING_BIDIRECTIONAL | G_BINDING_SYNC_CREATE);
  g_object_bind_property (preferences, "reduced-motion", self->motion, "active",
                          G_BINDING_BIDIRECTIONAL | G_BINDING_SYNC_CREATE);
  gtk_window_present (GTK_WINDOW (self));
}
