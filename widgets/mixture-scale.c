#include "mixture-scale.h"

#include "drawn.h"
#include "number-text.h"

#include <glib/gi18n.h>
#include <math.h>

/* What the scale shows: beyond it no engine of this kind burns, and the pointer stops with an arrow. */
#define LAMBDA_LEAST 0.6
#define LAMBDA_MOST 1.4
#define TICKS 8          /* numbered, a tenth apart */
#define POINTER 9.0      /* px, half the width of the pointer */
#define BAND_HEIGHT 16.0 /* px */

struct _MixtureScale {
  GtkWidget parent_instance;
  struct mixture mixture;
};

G_DEFINE_FINAL_TYPE (MixtureScale, mixture_scale, GTK_TYPE_WIDGET)

static const struct drawn_text number_style = { 0.5, 0.9, FALSE, 0 };

struct axis {
  double left, width, y; /* y of the line */
};

static double
x_of (const struct axis *axis, double lambda)
{
  double share = (lambda - LAMBDA_LEAST) / (LAMBDA_MOST - LAMBDA_LEAST);

  return axis->left + axis->width * CLAMP (share, 0, 1);
}

/* The middle of the band, or the half of it that the pointer leaves free. */
static double
word_place (MixtureScale *self, const struct axis *axis, double left, double right, double width)
{
  double middle = (left + right) / 2, pointer = x_of (axis, self->mixture.lambda);

  if (self->mixture.lambda <= 0 || fabs (pointer - middle) > width / 2 + 4)
    return middle;
  return pointer < middle ? MIN (pointer + width / 2 + 8, right - width / 2 - 4)
                          : MAX (pointer - width / 2 - 8, left + width / 2 + 4);
}

static void
draw_window (MixtureScale *self, cairo_t *cr, const struct axis *axis)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double left = x_of (axis, self->mixture.rich), right = x_of (axis, self->mixture.lean);
  double text_width, text_height;
  const struct drawn_text style = { 0.5, 0.85, FALSE, 0 };

  drawn_colour (cr, widget, "band");
  cairo_rectangle (cr, left, axis->y - BAND_HEIGHT, right - left, BAND_HEIGHT);
  cairo_fill (cr);
  drawn_colour (cr, widget, "ink");
  cairo_set_line_width (cr, 1.5);
  for (int i = 0; i < 2; i++) {
    double x = round (i ? right : left) + 0.5;
    cairo_move_to (cr, x, axis->y - BAND_HEIGHT);
    cairo_line_to (cr, x, axis->y);
  }
  cairo_stroke (cr);
  drawn_text_size (widget, _("usable"), &style, &text_width, &text_height);
  if (text_width + 8 < right - left)
    drawn_text (cr, widget, _("usable"), word_place (self, axis, left, right, text_width),
                axis->y - BAND_HEIGHT / 2 - text_height / 2, &style, NULL, NULL);
}

static void
draw_axis (MixtureScale *self, cairo_t *cr, const struct axis *axis)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double text_height = 0;

  drawn_colour (cr, widget, "ink");
  cairo_set_line_width (cr, 1);
  cairo_move_to (cr, axis->left, axis->y + 0.5);
  cairo_line_to (cr, axis->left + axis->width, axis->y + 0.5);
  for (int i = 0; i <= 2 * TICKS; i++) {
    double x = round (axis->left + axis->width * i / (2 * TICKS)) + 0.5;
    cairo_move_to (cr, x, axis->y);
    cairo_line_to (cr, x, axis->y + (i % 2 ? 3 : 6));
  }
  cairo_stroke (cr);
  for (int i = 0; i <= TICKS; i++) {
    double lambda = LAMBDA_LEAST + (LAMBDA_MOST - LAMBDA_LEAST) * i / TICKS;
    g_autofree char *number = number_shown (lambda, 1);
    g_autofree char *ratio = number_shown (lambda * self->mixture.stoichiometric, 1);
    drawn_colour (cr, widget, "ink");
    drawn_text (cr, widget, number, x_of (axis, lambda), axis->y + 8, &number_style, NULL, &text_height);
    drawn_colour (cr, widget, "ink_soft");
    if (self->mixture.stoichiometric > 0)
      drawn_text (cr, widget, ratio, x_of (axis, lambda), axis->y + 8 + text_height, &number_style, NULL, NULL);
  }
}

/* A triangle that stands on the axis; beyond an end of the scale it lies on its side and points outward. */
static void
draw_pointer (MixtureScale *self, cairo_t *cr, const struct axis *axis)
{
  double lambda = self->mixture.lambda, x = x_of (axis, lambda), top = axis->y - BAND_HEIGHT - 2 * POINTER + 4;

  if (lambda <= 0)
    return;
  drawn_colour (cr, GTK_WIDGET (self), "ink");
  if (lambda >= LAMBDA_LEAST && lambda <= LAMBDA_MOST) {
    cairo_move_to (cr, x - POINTER, top);
    cairo_line_to (cr, x + POINTER, top);
    cairo_line_to (cr, x, top + 2 * POINTER - 4);
  } else {
    double out = lambda < LAMBDA_LEAST ? -1 : 1, y = axis->y - BAND_HEIGHT / 2;
    cairo_move_to (cr, x - out * POINTER, y - POINTER);
    cairo_line_to (cr, x + out * POINTER, y);
    cairo_line_to (cr, x - out * POINTER, y + POINTER);
  }
  cairo_close_path (cr);
  cairo_fill (cr);
  if (lambda >= LAMBDA_LEAST && lambda <= LAMBDA_MOST) {
    cairo_set_line_width (cr, 2);
    cairo_move_to (cr, x, top);
    cairo_line_to (cr, x, axis->y);
    cairo_stroke (cr);
  }
}

static void
mixture_scale_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  MixtureScale *self = PLATELIFT_MIXTURE_SCALE (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  double text_height, margin;
  struct axis axis;
  cairo_t *cr;

  drawn_text_size (widget, "00.0", &number_style, &margin, &text_height);
  margin = MAX (margin / 2, POINTER) + 2;
  axis = (struct axis) { margin, width - 2 * margin, floor (height - 2 * text_height - 10) };
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  draw_window (self, cr, &axis);
  draw_axis (self, cr, &axis);
  draw_pointer (self, cr, &axis);
  cairo_destroy (cr);
}

static void
mixture_scale_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                       int *minimum_baseline, int *natural_baseline)
{
  double text_height;

  drawn_text_size (widget, "00.0", &number_style, NULL, &text_height);
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = 260;
    *natural = 420;
  } else
    *minimum = *natural = (int) (2 * POINTER + BAND_HEIGHT + 10 + 2 * text_height);
}

static void
mixture_scale_class_init (MixtureScaleClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  widget_class->snapshot = mixture_scale_snapshot;
  widget_class->measure = mixture_scale_measure;
  gtk_widget_class_set_css_name (widget_class, "mixturescale");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
mixture_scale_init (MixtureScale *self)
{
}

GtkWidget *
mixture_scale_new (void)
{
  return g_object_new (MIXTURE_SCALE_TYPE, NULL);
}

void
mixture_scale_show (MixtureScale *self, const struct mixture *mixture)
{
  g_return_if_fail (PLATELIFT_IS_MIXTURE_SCALE (self));
  if (self->mixture.lambda == mixture->lambda && self->mixture.stoichiometric == mixture->stoichiometric
      && self->mixture.rich == mixture->rich && self->mixture.lean == mixture->lean)
    return;
  self->mixture = *mixture;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
