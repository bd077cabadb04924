#include "shipped.h"
#include "data-resource.h"

#include <gio/gio.h>

#include <string.h>

#define ENDING ".json"

GBytes *
shipped_text (const char *folder, const char *name)
{
  g_autofree char *path = NULL;

  if (*name == 0 || strchr (name, '/'))
    return NULL;
  path = g_strconcat ("/platelift/", folder, "/", name, ENDING, NULL);
  return g_resource_lookup_data (data_get_resource (), path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

const char *const *
shipped_names (const char *folder, const char *but)
{
  g_autofree char *path = g_strconcat ("/platelift/", folder, "/", NULL);
  g_auto (GStrv) files = g_resource_enumerate_children (data_get_resource (), path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  GPtrArray *found = g_ptr_array_new ();

  for (int i = 0; files && files[i]; i++) {
    char *name;
    if (!g_str_has_suffix (files[i], ENDING))
      continue;
    name = g_strndup (files[i], strlen (files[i]) - strlen (ENDING));
    if (but && g_str_equal (name, but))
      g_free (name);
    else
      g_ptr_array_add (found, name);
  }
  g_ptr_array_sort (found, by_name);
  g_ptr_array_add (found, NULL);
  return (const char *const *) g_ptr_array_free (found, FALSE);
}
