/* The drawing as a file. */
#ifndef WIDGETS_SCENE_FILE_H
#define WIDGETS_SCENE_FILE_H

#include "scene.h"

#include <glib.h>

#define SCENE_FILE_ERROR (scene_file_error_quark ())
GQuark scene_file_error_quark (void);
enum scene_file_error {
  SCENE_FILE_ERROR_ENDING, /* neither .png, .svg nor .pdf */
  SCENE_FILE_ERROR_WRITE   /* the message has the path and the system's reason */
};

/* Writes the drawing as PNG, SVG or PDF by the path's ending, a logical pixel a pixel or point; an existing file is
 * replaced only by a whole new one. FALSE and error where that fails. */
gboolean scene_write_file (const struct scene *scene, const char *path, GError **error);

#endif
