#include "scene-file.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <gio/gio.h>
#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

enum ending { ENDING_PNG, ENDING_SVG, ENDING_PDF, ENDING_OTHER };

G_DEFINE_QUARK (platelift-scene-file-error, scene_file_error)

static enum ending
ending_of (const char *path)
{
  static const char *const endings[] = { ".png", ".svg", ".pdf" };
  size_t length = strlen (path);

  for (int i = 0; i < 3; i++)
    if (length > 4 && g_ascii_strcasecmp (path + length - 4, endings[i]) == 0)
      return (enum ending) i;
  return ENDING_OTHER;
}

static cairo_status_t
append (void *closure, const unsigned char *data, unsigned length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static cairo_surface_t *
surface_of (const struct scene *scene, enum ending ending, GByteArray *bytes)
{
  if (ending == ENDING_SVG)
    return cairo_svg_surface_create_for_stream (append, bytes, scene->width, scene->height);
  if (ending == ENDING_PDF)
    return cairo_pdf_surface_create_for_stream (append, bytes, scene->width, scene->height);
  return cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) lround (scene->width), (int) lround (scene->height));
}

static cairo_status_t
render (const struct scene *scene, enum ending ending, GByteArray *bytes)
{
  cairo_surface_t *surface = surface_of (scene, ending, bytes);
  cairo_t *cr = cairo_create (surface);
  cairo_status_t status;

  scene_draw (cr, scene);
  cairo_show_page (cr);
  status = cairo_status (cr);
  cairo_destroy (cr);
  if (status == CAIRO_STATUS_SUCCESS && ending == ENDING_PNG)
    status = cairo_surface_write_to_png_stream (surface, append, bytes);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  return status;
}

gboolean
scene_write_file (const struct scene *scene, const char *path, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_autoptr (GError) failure = NULL;
  enum ending ending = ending_of (path);
  cairo_status_t status;

  if (ending == ENDING_OTHER) {
    g_set_error (error, SCENE_FILE_ERROR, SCENE_FILE_ERROR_ENDING,
                 _("%s: a picture is written as .png, .svg or .pdf"), path);
    return FALSE;
  }
  status = render (scene, ending, bytes);
  if (status != CAIRO_STATUS_SUCCESS) {
    g_set_error (error, SCENE_FILE_ERROR, SCENE_FILE_ERROR_WRITE, _("%s: cannot draw: %s"), path,
                 cairo_status_to_string (status));
    return FALSE;
  }
  if (!g_file_set_contents_full (path, (const char *) bytes->data, (gssize) bytes->len,
                                 G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, 0666, &failure)) {
    g_set_error (error, SCENE_FILE_ERROR, SCENE_FILE_ERROR_WRITE, _("%s: cannot write: %s"), path, failure->message);
    return FALSE;
  }
  return TRUE;
}
