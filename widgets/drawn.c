#include "drawn.h"

static PangoLayout *
layout_for (GtkWidget *widget, const char *text, const struct drawn_text *style)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (widget, text);
  PangoFontDescription *font
      = pango_font_description_copy (pango_context_get_font_description (gtk_widget_get_pango_context (widget)));
  PangoAttrList *attributes = pango_attr_list_new ();
  double size = pango_font_description_get_size (font) * style->size;

  if (pango_font_description_get_size_is_absolute (font))
    pango_font_description_set_absolute_size (font, size);
  else
    pango_font_description_set_size (font, (int) size);
  if (style->bold)
    pango_font_description_set_weight (font, PANGO_WEIGHT_SEMIBOLD);
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (layout, attributes);
  pango_layout_set_font_description (layout, font);
  pango_attr_list_unref (attributes);
  pango_font_description_free (font);
  return layout;
}

void
drawn_colour (cairo_t *cr, GtkWidget *widget, const char *name)
{
  GdkRGBA colour = { 1, 0, 1, 1 };

  gtk_style_context_lookup_color (gtk_widget_get_style_context (widget), name, &colour);
  gdk_cairo_set_source_rgba (cr, &colour);
}

void
drawn_text (cairo_t *cr, GtkWidget *widget, const char *text, double x, double y, const struct drawn_text *style,
            double *width, double *height)
{
  g_autoptr (PangoLayout) layout = layout_for (widget, text, style);
  int text_width, text_height;

  pango_layout_get_pixel_size (layout, &text_width, &text_height);
  cairo_move_to (cr, x - style->align * text_width, y);
  if (style->halo > 0) {
    cairo_save (cr);
    drawn_colour (cr, widget, "paper");
    cairo_set_line_width (cr, 2 * style->halo);
    cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
    pango_cairo_layout_path (cr, layout);
    cairo_stroke (cr);
    cairo_restore (cr);
    cairo_move_to (cr, x - style->align * text_width, y);
  }
  pango_cairo_show_layout (cr, layout);
  if (width)
    *width = text_width;
  if (height)
    *height = text_height;
}

void
drawn_text_size (GtkWidget *widget, const char *text, const struct drawn_text *style, double *width, double *height)
{
  g_autoptr (PangoLayout) layout = layout_for (widget, text, style);
  int text_width, text_height;

  pango_layout_get_pixel_size (layout, &text_width, &text_height);
  if (width)
    *width = text_width;
  if (height)
    *height = text_height;
}
