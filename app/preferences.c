#include "preferences.h"

#include "safe-file.h"

#include <gio/gio.h>
#include <string.h>

#define GROUP "Platelift"
#define WRITE_DELAY 1 /* s: a dragged window's size is written once it rests */

enum { PROP_PRESSURE_UNIT = 1, PROP_TEMPERATURE_UNIT, PROP_THEME, PROP_SEAT, PROP_REDUCED_MOTION, PROP_WINDOW_WIDTH,
       PROP_WINDOW_HEIGHT, PROP_WINDOW_MAXIMIZED, PROP_PAGE, PROPS };

struct _Preferences {
  GObject parent_instance;
  GValue values[PROPS]; /* one a property */
  GSettings *settings;  /* NULL without an installed schema */
  char *path;           /* of the key file; NULL with GSettings */
  guint write_source;
  gboolean loading;
};

static GParamSpec *props[PROPS];

G_DEFINE_FINAL_TYPE (Preferences, preferences, G_TYPE_OBJECT)

static char *
key_file_path (void)
{
  return g_build_filename (g_get_user_config_dir (), "platelift", "settings.ini", NULL);
}

static void
load_one (Preferences *self, GKeyFile *file, int prop)
{
  const char *name = props[prop]->name;
  g_autofree char *text = g_key_file_get_string (file, GROUP, name, NULL);
  g_auto (GValue) value = G_VALUE_INIT;

  if (!text)
    return;
  g_value_init (&value, G_PARAM_SPEC_VALUE_TYPE (props[prop]));
  switch (G_PARAM_SPEC_VALUE_TYPE (props[prop])) {
  case G_TYPE_STRING:
    g_value_set_string (&value, text);
    break;
  case G_TYPE_INT:
    g_value_set_int (&value, g_key_file_get_integer (file, GROUP, name, NULL));
    break;
  case G_TYPE_DOUBLE:
    g_value_set_double (&value, g_key_file_get_double (file, GROUP, name, NULL));
    break;
  default:
    g_value_set_boolean (&value, g_key_file_get_boolean (file, GROUP, name, NULL));
    break;
  }
  g_param_value_validate (props[prop], &value); /* a value out of its range becomes the nearest one allowed */
  g_object_set_property (G_OBJECT (self), name, &value);
}

static void
load (Preferences *self)
{
  g_autoptr (GKeyFile) file = g_key_file_new ();

  if (!g_key_file_load_from_file (file, self->path, G_KEY_FILE_NONE, NULL))
    return;
  self->loading = TRUE;
  for (int i = 1; i < PROPS; i++)
    load_one (self, file, i);
  self->loading = FALSE;
}

static void
put_one (GKeyFile *file, const char *name, const GValue *value)
{
  if (G_VALUE_HOLDS_STRING (value))
    g_key_file_set_string (file, GROUP, name, g_value_get_string (value));
  else if (G_VALUE_HOLDS_INT (value))
    g_key_file_set_integer (file, GROUP, name, g_value_get_int (value));
  else if (G_VALUE_HOLDS_DOUBLE (value))
    g_key_file_set_double (file, GROUP, name, g_value_get_double (value));
  else
    g_key_file_set_boolean (file, GROUP, name, g_value_get_boolean (value));
}

static gboolean
write_now (gpointer data)
{
  Preferences *self = data;
  g_autoptr (GKeyFile) file = g_key_file_new ();
  g_autofree char *folder = g_path_get_dirname (self->path);
  g_autofree char *text = NULL;
  gsize length = 0;

  self->write_source = 0;
  for (int i = 1; i < PROPS; i++)
    put_one (file, props[i]->name, &self->values[i]);
  text = g_key_file_to_data (file, &length, NULL);
  /* Without a place to keep them the choices hold for this session: no reason to stop anyone's work. */
  if (g_mkdir_with_parents (folder, 0700) == 0)
    safe_file_write (self->path, text, length, NULL);
  return G_SOURCE_REMOVE;
}

static GSettings *
settings_if_installed (void)
{
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  g_autoptr (GSettingsSchema) schema = NULL;

  if (source)
    schema = g_settings_schema_source_lookup (source, PREFERENCES_SCHEMA, TRUE);
  if (!schema)
    return NULL;
  for (int i = 1; i < PROPS; i++) /* an older schema on the machine must not abort a newer program */
    if (!g_settings_schema_has_key (schema, props[i]->name))
      return NULL;
  return g_settings_new_full (schema, NULL, NULL);
}

static void
preferences_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  g_value_copy (&PLATELIFT_PREFERENCES (object)->values[id], value);
}

static void
preferences_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  Preferences *self = PLATELIFT_PREFERENCES (object);

  if (g_param_values_cmp (pspec, &self->values[id], value) == 0)
    return;
  g_value_copy (value, &self->values[id]);
  g_object_notify_by_pspec (object, pspec);
  if (self->path && !self->loading && !self->write_source)
    self->write_source = g_timeout_add_seconds (WRITE_DELAY, write_now, self);
}

static void
preferences_finalize (GObject *object)
{
  Preferences *self = PLATELIFT_PREFERENCES (object);

  preferences_flush (self);
  g_clear_object (&self->settings);
  g_free (self->path);
  for (int i = 1; i < PROPS; i++)
    g_value_unset (&self->values[i]);
  G_OBJECT_CLASS (preferences_parent_class)->finalize (object);
}

static void
preferences_class_init (PreferencesClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY;

  object_class->get_property = preferences_get_property;
  object_class->set_property = preferences_set_property;
  object_class->finalize = preferences_finalize;

  props[PROP_PRESSURE_UNIT] = g_param_spec_string ("pressure-unit", NULL, NULL, "bar", flags);
  props[PROP_TEMPERATURE_UNIT] = g_param_spec_string ("temperature-unit", NULL, NULL, "celsius", flags);
  props[PROP_THEME] = g_param_spec_string ("theme", NULL, NULL, "system", flags);
  props[PROP_SEAT] = g_param_spec_double ("seat", NULL, NULL, 0, 12, 0, flags);
  props[PROP_REDUCED_MOTION] = g_param_spec_boolean ("reduced-motion", NULL, NULL, FALSE, flags);
  props[PROP_WINDOW_WIDTH] = g_param_spec_int ("window-width", NULL, NULL, 600, 16384, 1280, flags);
  props[PROP_WINDOW_HEIGHT] = g_param_spec_int ("window-height", NULL, NULL, 400, 16384, 800, flags);
  props[PROP_WINDOW_MAXIMIZED] = g_param_spec_boolean ("window-maximized", NULL, NULL, FALSE, flags);
  props[PROP_PAGE] = g_param_spec_string ("page", NULL, NULL, "cutaway", flags);
  g_object_class_install_properties (object_class, PROPS, props);
}

static void
preferences_init (Preferences *self)
{
  for (int i = 1; i < PROPS; i++) {
    g_value_init (&self->values[i], G_PARAM_SPEC_VALUE_TYPE (props[i]));
    g_param_value_set_default (props[i], &self->values[i]);
  }
  self->settings = settings_if_installed ();
  if (self->settings) {
    for (int i = 1; i < PROPS; i++)
      g_settings_bind (self->settings, props[i]->name, self, props[i]->name, G_SETTINGS_BIND_DEFAULT);
  } else {
    self->path = key_file_path ();
    load (self);
  }
}

Preferences *
preferences_new (void)
{
  return g_object_new (PREFERENCES_TYPE, NULL);
}

void
preferences_units (Preferences *self, struct unit_choices *choices)
{
  const char *pressure, *temperature;

  g_return_if_fail (PLATELIFT_IS_PREFERENCES (self));
  pressure = g_value_get_string (&self->values[PROP_PRESSURE_UNIT]);
  temperature = g_value_get_string (&self->values[PROP_TEMPERATURE_UNIT]);
  choices->pressure = g_strcmp0 (pressure, "kpa") == 0   ? PRESSURE_IN_KPA
                      : g_strcmp0 (pressure, "psi") == 0 ? PRESSURE_IN_PSI
                                                         : PRESSURE_IN_BAR;
  choices->temperature
      = g_strcmp0 (temperature, "fahrenheit") == 0 ? TEMPERATURE_IN_FAHRENHEIT : TEMPERATURE_IN_CELSIUS;
}

double
preferences_seat (Preferences *self)
{
  g_return_val_if_fail (PLATELIFT_IS_PREFERENCES (self), 0);
  return g_value_get_double (&self->values[PROP_SEAT]);
}

gboolean
preferences_reduced_motion (Preferences *self)
{
  g_return_val_if_fail (PLATELIFT_IS_PREFERENCES (self), FALSE);
  return g_value_get_boolean (&self->values[PROP_REDUCED_MOTION]);
}

const char *
preferences_theme (Preferences *self)
{
  const char *theme;

  g_return_val_if_fail (PLATELIFT_IS_PREFERENCES (self), "system");
  theme = g_value_get_string (&self->values[PROP_THEME]);
  return theme ? theme : "system";
}

void
preferences_flush (Preferences *self)
{
  g_return_if_fail (PLATELIFT_IS_PREFERENCES (self));
  if (self->write_source) {
    g_clear_handle_id (&self->write_source, g_source_remove);
    write_now (self);
  }
}
