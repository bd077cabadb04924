/* Helpers of the small drawn widgets: named colours of the style sheet and text in the widget's own font. */
#ifndef WIDGETS_DRAWN_H
#define WIDGETS_DRAWN_H

#include <gtk/gtk.h>

/* The colour that the style sheet calls name becomes cr's source; a magenta that shows where the name is missing. */
void drawn_colour (cairo_t *cr, GtkWidget *widget, const char *name);

struct drawn_text {
  double align;   /* 0: x is the left edge, 0.5: the middle, 1: the right edge */
  double size;    /* of the widget's font size */
  gboolean bold;
  double halo;    /* clears a rim round the text where over 0 */
};

/* Draws text with its top at y; its size in width and height where these are not NULL. */
void drawn_text (cairo_t *cr, GtkWidget *widget, const char *text, double x, double y, const struct drawn_text *style,
                 double *width, double *height);
void drawn_text_size (GtkWidget *widget, const char *text, const struct drawn_text *style, double *width, double *height);

#endif
