#include "places.h"

#include "config.h"

gboolean
place_is_build (void)
{
  static int known = -1;

  if (known < 0)
    {
      g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);

      known = program != NULL && g_str_has_prefix (program, BUILD_FOLDER "/");
    }
  return known;
}

const char *
place_translations (void)
{
  return place_is_build () ? BUILD_FOLDER "/po" : LOCALE_FOLDER;
}

const char *
place_settings_schemas (void)
{
  return place_is_build () ? BUILD_FOLDER "/data" : NULL;
}
