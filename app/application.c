#include "application.h"

#include "config.h"
#include "interface-resource.h"
#include "preferences-window.h"
#include "window.h"

#include <glib/gi18n.h>

#define APPLICATION_ID "io.github.platelift.Platelift"
#define RESOURCES "/io/github/platelift/Platelift"

struct _Application {
  GtkApplication parent_instance;
  Preferences *preferences;
  Theme *theme;
};

G_DEFINE_FINAL_TYPE (Application, application, GTK_TYPE_APPLICATION)

static Window *
the_window (Application *self)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (self));

  return PLATELIFT_IS_WINDOW (window) ? PLATELIFT_WINDOW (window) : NULL;
}

static void
quit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  Window *window = the_window (data);

  if (window)
    gtk_window_close (GTK_WINDOW (window)); /* which asks where something would be lost */
  else
    g_application_quit (data);
}

static void
show_preferences (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  Application *self = data;

  preferences_window_present (self->preferences, gtk_application_get_active_window (GTK_APPLICATION (self)));
}

static void
show_about (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  gtk_show_about_dialog (gtk_application_get_active_window (data), "program-name", "Platelift", "version",
                         PLATELIFT_VERSION, "logo-icon-name", APPLICATION_ID, "license-type", GTK_LICENSE_GPL_3_0,
                         "comments",
                         _("One computed model of a mechanical continuous fuel injection system: to show, to explore "
                           "and to hold a real car's readings against.\n\nThe manufacturer's data, local rules and "
                           "licensed practice come first."),
                         NULL);
}

static void
add_accelerators (GtkApplication *application)
{
  static const struct {
    const char *action, *keys[3];
  } accelerators[] = {
    { "app.quit", { "<Control>q" } },
    { "app.preferences", { "<Control>comma" } },
    { "win.new", { "<Control>n" } },
    { "win.open", { "<Control>o" } },
    { "win.save", { "<Control>s" } },
    { "win.save-as", { "<Control><Shift>s" } },
    { "win.import", { "<Control>i" } },
    { "win.undo", { "<Control>z" } },
    { "win.redo", { "<Control><Shift>z", "<Control>y" } },
    { "win.page('cutaway')", { "<Alt>1" } },
    { "win.page('readings')", { "<Alt>2" } },
    { "win.full-screen", { "F11" } },
    { "win.show-help-overlay", { "<Control>question" } },
    { "window.close", { "<Control>w" } },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (accelerators); i++)
    gtk_application_set_accels_for_action (application, accelerators[i].action,
                                           (const char *const *) accelerators[i].keys);
}

static void
application_startup (GApplication *application)
{
  Application *self = PLATELIFT_APPLICATION (application);
  const GActionEntry entries[] = {
    { .name = "quit", .activate = quit },
    { .name = "preferences", .activate = show_preferences },
    { .name = "about", .activate = show_about },
  };

  interface_register_resource ();
  G_APPLICATION_CLASS (application_parent_class)->startup (application);
  gtk_window_set_default_icon_name (APPLICATION_ID);
  self->preferences = preferences_new ();
  self->theme = theme_new (self->preferences);
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  add_accelerators (GTK_APPLICATION (application));
}

static void
application_activate (GApplication *application)
{
  Window *window = the_window (PLATELIFT_APPLICATION (application));

  if (!window)
    window = window_new (PLATELIFT_APPLICATION (application));
  gtk_window_present (GTK_WINDOW (window));
}

static void
application_open (GApplication *application, GFile **files, int count, const char *hint)
{
  application_activate (application);
  window_open (the_window (PLATELIFT_APPLICATION (application)), files[0]); /* one job at a time */
}

static void
application_shutdown (GApplication *application)
{
  Application *self = PLATELIFT_APPLICATION (application);

  if (self->preferences)
    preferences_flush (self->preferences);
  g_clear_object (&self->theme);
  g_clear_object (&self->preferences);
  G_APPLICATION_CLASS (application_parent_class)->shutdown (application);
}

static void
application_class_init (ApplicationClass *class)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (class);

  application_class->startup = application_startup;
  application_class->activate = application_activate;
  application_class->open = application_open;
  application_class->shutdown = application_shutdown;
}

static void
application_init (Application *self)
{
}

Application *
application_new (void)
{
  return g_object_new (APPLICATION_TYPE, "application-id", APPLICATION_ID, "flags", G_APPLICATION_HANDLES_OPEN,
                       "resource-base-path", RESOURCES, NULL);
}

int
application_run (int argc, char **argv)
{
  g_autoptr (Application) application = application_new ();

  g_set_application_name ("Platelift");
  return g_application_run (G_APPLICATION (application), argc, argv);
}

Preferences *
application_preferences (Application *self)
{
  g_return_val_if_fail (PLATELIFT_IS_APPLICATION (self), NULL);
  return self->preferences;
}

Theme *
application_theme (Application *self)
{
  g_return_val_if_fail (PLATELIFT_IS_APPLICATION (self), NULL);
  return self->theme;
}
