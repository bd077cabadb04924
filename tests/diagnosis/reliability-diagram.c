#include "reliability-diagram.h"

#include <cairo.h>
#include <math.h>
#include <stdio.h>

#define SIZE 640.0
#define EDGE 80.0

static double
across (double share)
{
  return EDGE + share * (SIZE - 1.5 * EDGE);
}

static double
up (double share)
{
  return SIZE - EDGE - share * (SIZE - 1.5 * EDGE);
}

static void
text (cairo_t *cr, double x, double y, double align, const char *words)
{
  cairo_text_extents_t extents;

  cairo_text_extents (cr, words, &extents);
  cairo_move_to (cr, x - align * extents.x_advance, y);
  cairo_show_text (cr, words);
}

static void
draw_axes (cairo_t *cr)
{
  char number[8];

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_set_font_size (cr, 15);
  cairo_set_line_width (cr, 1);
  for (int i = 0; i <= 10; i += 2) {
    double share = i / 10.0;
    cairo_set_source_rgb (cr, 0.85, 0.85, 0.85);
    cairo_move_to (cr, across (share), up (0));
    cairo_line_to (cr, across (share), up (1));
    cairo_move_to (cr, across (0), up (share));
    cairo_line_to (cr, across (1), up (share));
    cairo_stroke (cr);
    cairo_set_source_rgb (cr, 0.15, 0.15, 0.15);
    snprintf (number, sizeof number, "%.1f", share);
    text (cr, across (share), up (0) + 22, 0.5, number);
    text (cr, across (0) - 8, up (share) + 5, 1, number);
  }
  cairo_move_to (cr, across (0), up (0));
  cairo_line_to (cr, across (1), up (1));
  cairo_stroke (cr);
  text (cr, across (0.5), SIZE - 24, 0.5, "probability claimed for the leading answer");
  text (cr, across (0), 24, 0, "share that was right; simulated cases, not cars");
}

bool
reliability_diagram (const char *path, const struct score *score)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) SIZE, (int) SIZE);
  cairo_t *cr = cairo_create (surface);
  bool written;

  draw_axes (cr);
  cairo_set_source_rgb (cr, 0.0, 0.25, 0.55);
  for (int i = 0; i < SCORE_BINS; i++) {
    double n = score->claims[i], claimed, right, reach;
    char count[16];
    if (n < 1)
      continue;
    claimed = score->claimed[i] / n;
    right = score->right[i] / n;
    reach = 1.96 * sqrt (right * (1 - right) / n);
    cairo_set_line_width (cr, 2);
    cairo_move_to (cr, across (claimed), up (fmax (right - reach, 0)));
    cairo_line_to (cr, across (claimed), up (fmin (right + reach, 1)));
    cairo_stroke (cr);
    cairo_arc (cr, across (claimed), up (right), 6, 0, 6.2832);
    cairo_fill (cr);
    snprintf (count, sizeof count, "%.0f", n);
    text (cr, across (claimed) + 10, up (right) + 18, 0, count);
  }
  written = cairo_surface_write_to_png (surface, path) == CAIRO_STATUS_SUCCESS;
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return written;
}
