#include "json-strict.h"
#include "safe-file.h"
#include "shipped.h"
#include "vehicle-document-private.h"

#include <glib/gi18n.h>

#include <string.h>

#define FOLDER "vehicles"
#define GENERIC "generic"

void
vehicle_key_from (const char *name, char key[64])
{
  static const char *const endings[] = { ".json", ".platelift-car" };
  g_autofree char *base = g_path_get_basename (name);
  int used = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (base, endings[i]))
      base[strlen (base) - strlen (endings[i])] = 0;
  memset (key, 0, 64);
  for (const char *p = base; *p && used < 63; p++)
    if (g_ascii_isalnum (*p))
      key[used++] = *p;
    else if (used > 0 && key[used - 1] != '-')
      key[used++] = '-';
  while (used > 0 && key[used - 1] == '-')
    key[--used] = 0;
}

static struct vehicle *
parse_over (const char *text, gsize length, const struct vehicle *usual, struct problems *problems)
{
  g_autoptr (JsonNode) root = document_open (text, length, VEHICLE_FORMAT, VEHICLE_VERSION, problems);
  g_autofree struct vehicle *vehicle = NULL;
  struct cursor cursor;

  if (root == NULL)
    return NULL;
  cursor = cursor_root (root, problems);
  vehicle = g_new0 (struct vehicle, 1);
  return vehicle_read (&cursor, usual, vehicle) ? g_steal_pointer (&vehicle) : NULL;
}

const struct vehicle *
vehicle_generic (struct problems *problems)
{
  static struct vehicle *generic;
  static gsize once;

  if (g_once_init_enter (&once)) {
    g_autoptr (GBytes) text = shipped_text (FOLDER, GENERIC);
    gsize length = 0;
    const char *bytes = text ? g_bytes_get_data (text, &length) : "";
    generic = parse_over (bytes, length, NULL, problems);
    if (generic)
      g_strlcpy (generic->key, GENERIC, sizeof generic->key);
    g_once_init_leave (&once, 1);
  }
  if (generic == NULL)
    problems_add (problems, "", _("The program's own table of usual values is damaged; install the program anew"));
  return generic;
}

struct vehicle *
vehicle_parse (const char *text, gsize length, struct problems *problems)
{
  const struct vehicle *generic;

  g_return_val_if_fail ((text || length == 0) && problems, NULL);
  generic = vehicle_generic (problems);
  return generic ? parse_over (text, length, generic, problems) : NULL;
}

static struct vehicle *
load_file (const char *path, struct problems *problems)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  gsize length = 0;

  text = safe_file_read (path, JSON_SIZE_MAX, &length, &error);
  if (text)
    return vehicle_parse (text, length, problems);
  if (strchr (path, '/') == NULL && g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT)) {
    g_autofree char *names = g_strjoinv (", ", (char **) vehicle_shipped ());
    problems_add (problems, "", _("There is neither a file nor a shipped car of the name “%s”; shipped are: %s"), path,
                  names);
  } else
    problems_add (problems, "", "%s", error->message);
  return NULL;
}

struct vehicle *
vehicle_load (const char *name_or_path, struct problems *problems)
{
  g_autoptr (GBytes) shipped = NULL;
  struct vehicle *vehicle;
  const char *bytes;
  gsize length = 0;

  g_return_val_if_fail (name_or_path && problems, NULL);
  shipped = shipped_text (FOLDER, name_or_path);
  if (shipped) {
    bytes = g_bytes_get_data (shipped, &length);
    vehicle = vehicle_parse (bytes, length, problems);
  } else
    vehicle = load_file (name_or_path, problems);
  if (vehicle)
    vehicle_key_from (name_or_path, vehicle->key);
  return vehicle;
}

/* The names with the car on which the program opens in front. */
static const char *const *
names_in_order (void)
{
  const char **names = (const char **) shipped_names (FOLDER, GENERIC);
  int i = 0;

  while (names[i] && !g_str_equal (names[i], VEHICLE_FIRST))
    i++;
  for (; names[i] && i > 0; i--) {
    const char *first = names[i];
    names[i] = names[i - 1];
    names[i - 1] = first;
  }
  return (const char *const *) names;
}

const char *const *
vehicle_shipped (void)
{
  static const char *const *names;

  if (g_once_init_enter (&names))
    g_once_init_leave (&names, names_in_order ());
  return names;
}
