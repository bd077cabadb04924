#include "theme.h"

#include <gtk/gtk.h>
#include <string.h>

#define RESOURCES "/io/github/platelift/Platelift/"

struct _Theme {
  GObject parent_instance;
  Preferences *preferences;
  GtkSettings *settings;
  GtkCssProvider *colours;
  enum scene_theme scene;
  char *desktop_theme;      /* what the desktop asked for before the program asked for anything */
  gboolean desktop_dark;
  gboolean applying;
};

enum { CHANGED, SIGNALS };
static guint signals[SIGNALS];

static const struct {
  const char *choice, *colours, *gtk_theme;
  gboolean dark;
} looks[] = {
  [SCENE_LIGHT] = { "light", "colours-light.css", "Default", FALSE },
  [SCENE_DARK] = { "dark", "colours-dark.css", "Default", TRUE },
  [SCENE_LIGHT_CONTRAST] = { "light-contrast", "colours-light-contrast.css", "HighContrast", FALSE },
  [SCENE_DARK_CONTRAST] = { "dark-contrast", "colours-dark-contrast.css", "HighContrastInverse", TRUE },
};

G_DEFINE_FINAL_TYPE (Theme, theme, G_TYPE_OBJECT)

/* Theme names on the desktop: "Adwaita-dark", "HighContrast", "HighContrastInverse"; GTK_THEME has "Default:hc-dark". */
static enum scene_theme
desktop_look (Theme *self)
{
  const char *forced = g_getenv ("GTK_THEME");
  const char *name = forced && forced[0] ? forced : self->desktop_theme ? self->desktop_theme : "";
  gboolean contrast = strstr (name, "HighContrast") || strstr (name, ":hc") || g_str_has_suffix (name, "-hc");
  gboolean dark = strstr (name, "dark") || strstr (name, "Inverse") || (!forced && self->desktop_dark);

  if (contrast)
    return dark ? SCENE_DARK_CONTRAST : SCENE_LIGHT_CONTRAST;
  return dark ? SCENE_DARK : SCENE_LIGHT;
}

static enum scene_theme
chosen_look (Theme *self)
{
  const char *choice = preferences_theme (self->preferences);

  for (gsize i = 0; i < G_N_ELEMENTS (looks); i++)
    if (strcmp (looks[i].choice, choice) == 0)
      return (enum scene_theme) i;
  return desktop_look (self);
}

static void
apply (Theme *self)
{
  enum scene_theme scene = chosen_look (self);
  gboolean own = g_strcmp0 (preferences_theme (self->preferences), "system") != 0;
  g_autofree char *path = g_strconcat (RESOURCES, looks[scene].colours, NULL);

  self->scene = scene;
  self->applying = TRUE;
  g_object_set (self->settings, "gtk-application-prefer-dark-theme", own ? looks[scene].dark : self->desktop_dark,
                "gtk-theme-name", own ? looks[scene].gtk_theme : self->desktop_theme, NULL);
  self->applying = FALSE;
  gtk_css_provider_load_from_resource (self->colours, path);
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
desktop_changed (Theme *self)
{
  if (self->applying)
    return;
  g_free (self->desktop_theme);
  g_object_get (self->settings, "gtk-theme-name", &self->desktop_theme, "gtk-application-prefer-dark-theme",
                &self->desktop_dark, NULL);
  apply (self);
}

static void
theme_dispose (GObject *object)
{
  Theme *self = PLATELIFT_THEME (object);

  if (self->settings)
    g_signal_handlers_disconnect_by_data (self->settings, self);
  if (self->preferences)
    g_signal_handlers_disconnect_by_data (self->preferences, self);
  self->settings = NULL;
  g_clear_object (&self->preferences);
  g_clear_object (&self->colours);
  g_clear_pointer (&self->desktop_theme, g_free);
  G_OBJECT_CLASS (theme_parent_class)->dispose (object);
}

static void
theme_class_init (ThemeClass *class)
{
  G_OBJECT_CLASS (class)->dispose = theme_dispose;
  signals[CHANGED] = g_signal_new ("changed", THEME_TYPE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
theme_init (Theme *self)
{
}

Theme *
theme_new (Preferences *preferences)
{
  Theme *self = g_object_new (THEME_TYPE, NULL);
  GdkDisplay *display = gdk_display_get_default ();
  g_autoptr (GtkCssProvider) sheet = gtk_css_provider_new ();

  self->preferences = g_object_ref (preferences);
  self->settings = gtk_settings_get_default ();
  self->colours = gtk_css_provider_new ();
  gtk_css_provider_load_from_resource (sheet, RESOURCES "style.css");
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (self->colours),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (sheet),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  g_object_get (self->settings, "gtk-theme-name", &self->desktop_theme, "gtk-application-prefer-dark-theme",
                &self->desktop_dark, NULL);
  g_signal_connect_swapped (self->settings, "notify::gtk-theme-name", G_CALLBACK (desktop_changed), self);
  g_signal_connect_swapped (self->settings, "notify::gtk-application-prefer-dark-theme", G_CALLBACK (desktop_changed),
                            self);
  g_signal_connect_swapped (preferences, "notify::theme", G_CALLBACK (apply), self);
  apply (self);
  return self;
}

enum scene_theme
theme_scene (Theme *self)
{
  g_return_val_if_fail (PLATELIFT_IS_THEME (self), SCENE_LIGHT);
  return self->scene;
}
