#include "scene-text.h"

#include <glib.h>
#include <math.h>
#include <pango/pangocairo.h>

#define CACHE_SIZE 512
#define LEAST_SIZE 11.0 /* px */

/* Shaping a line costs a hundred times more than showing it: layouts are kept by their text and size. */
struct cached {
  char *text;
  int size;
  enum style style;
  PangoLayout *layout;
  int width;
};

static GPrivate cache_key = G_PRIVATE_INIT (NULL);

struct text_cache {
  PangoContext *context;
  struct cached entries[CACHE_SIZE];
};

static struct text_cache *
cache_get (void)
{
  struct text_cache *cache = g_private_get (&cache_key);
  cairo_font_options_t *options;

  if (cache != NULL)
    return cache;
  cache = g_new0 (struct text_cache, 1);
  cache->context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  pango_cairo_context_set_resolution (cache->context, 96);
  options = cairo_font_options_create ();
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options (cache->context, options);
  cairo_font_options_destroy (options);
  g_private_set (&cache_key, cache);
  return cache;
}

double
text_size (const struct scene *scene, const struct plan *plan, enum style style)
{
  static const double sizes[] = { 12.5, 12.5, 11.5, 50 };

  return fmax (sizes[style] * plan->unit, style == STYLE_LARGE ? 30 : LEAST_SIZE) * scene->type_scale;
}

static PangoLayout *
layout_make (struct text_cache *cache, enum style style, double size, const char *text)
{
  PangoLayout *layout = pango_layout_new (cache->context);
  PangoFontDescription *font = pango_font_description_from_string ("Cantarell, Inter, Sans");
  PangoAttrList *features = pango_attr_list_new ();

  pango_font_description_set_absolute_size (font, size * PANGO_SCALE);
  if (style == STYLE_NAME || style == STYLE_LARGE)
    pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  pango_attr_list_insert (features, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (layout, features);
  pango_attr_list_unref (features);
  pango_layout_set_text (layout, text, -1);
  return layout;
}

static struct cached *
layout_get (const struct scene *scene, const struct plan *plan, enum style style, const char *text)
{
  struct text_cache *cache = cache_get ();
  double pixels = text_size (scene, plan, style);
  int size = (int) lround (pixels * 64);
  unsigned slot = (g_str_hash (text) * 31u + (unsigned) size * 7u + (unsigned) style) % CACHE_SIZE;
  struct cached *entry = &cache->entries[slot];

  if (entry->text != NULL && entry->size == size && entry->style == style && g_str_equal (entry->text, text))
    return entry;
  g_free (entry->text);
  g_clear_object (&entry->layout);
  entry->text = g_strdup (text);
  entry->size = size;
  entry->style = style;
  entry->layout = layout_make (cache, style, pixels, text);
  pango_layout_get_size (entry->layout, &entry->width, NULL);
  return entry;
}

void
text_extents (const struct scene *scene, const struct plan *plan, enum style style, const char *text, double *width,
              double *height)
{
  *width = (double) layout_get (scene, plan, style, text)->width / PANGO_SCALE;
  *height = text_size (scene, plan, style) * 1.3;
}

void
text_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan, enum style style, struct ink ink,
           const char *text, double x, double y, double align)
{
  struct cached *entry = layout_get (scene, plan, style, text);
  double baseline = (double) pango_layout_get_baseline (entry->layout) / PANGO_SCALE;

  pen_ink (cr, ink);
  cairo_move_to (cr, x - align * entry->width / PANGO_SCALE, y + text_size (scene, plan, style) - baseline);
  pango_cairo_show_layout (cr, entry->layout);
  cairo_new_path (cr);
}
