#include "band-bar.h"

#include "drawn.h"
#include "number-text.h"

#include <glib/gi18n.h>
#include <math.h>

#define BAR 14.0    /* px, height of the band */
#define MARK 7.0    /* px, half the diamond */
#define SPARE 0.18  /* of the range, shown beyond what is drawn */

struct _BandBar {
  GtkWidget parent_instance;
  struct band_picture picture;
};

struct lane {
  double left, width, least, most; /* SI from least at left */
  double y;                        /* top of the band */
  double text;                     /* height of a line */
};

static const struct drawn_text small = { 0.5, 0.86, FALSE, 0 };
static const struct drawn_text strong = { 0.5, 0.9, TRUE, 0 };

G_DEFINE_FINAL_TYPE (BandBar, band_bar, GTK_TYPE_WIDGET)

static double
x_of (const struct lane *lane, double value)
{
  return lane->left + lane->width * CLAMP ((value - lane->least) / (lane->most - lane->least), 0, 1);
}

static void
take_in (struct lane *lane, double value)
{
  if (!isfinite (value))
    return;
  lane->least = MIN (lane->least, value);
  lane->most = MAX (lane->most, value);
}

/* What is drawn, and some room to either side; where nothing spreads, a tenth of the value. */
static void
find_range (const struct band_picture *picture, struct lane *lane)
{
  double spare;

  lane->least = G_MAXDOUBLE;
  lane->most = -G_MAXDOUBLE;
  if (picture->has_band) {
    take_in (lane, picture->low);
    take_in (lane, picture->high);
  }
  if (picture->has_expected)
    take_in (lane, picture->expected);
  for (int i = 0; i < picture->count; i++) {
    take_in (lane, picture->values[i] - picture->guard);
    take_in (lane, picture->values[i] + picture->guard);
  }
  if (lane->least > lane->most)
    lane->least = 0, lane->most = 1;
  spare = SPARE * (lane->most - lane->least);
  if (spare <= 0)
    spare = MAX (0.1 * fabs (lane->most), 1e-9);
  lane->least -= spare;
  lane->most += spare;
}

static void
text_at (BandBar *self, cairo_t *cr, const struct lane *lane, const char *text, double value, double y,
         const struct drawn_text *style)
{
  double width, x = x_of (lane, value);
  int all = gtk_widget_get_width (GTK_WIDGET (self));

  drawn_text_size (GTK_WIDGET (self), text, style, &width, NULL);
  x = CLAMP (x, width / 2, MAX (width / 2, all - width / 2));
  drawn_text (cr, GTK_WIDGET (self), text, x, y, style, NULL, NULL);
}

static void
draw_band (BandBar *self, cairo_t *cr, const struct lane *lane)
{
  const struct band_picture *picture = &self->picture;
  double limits[] = { picture->low, picture->high };
  double left = isfinite (picture->low) ? x_of (lane, picture->low) : lane->left;
  double right = isfinite (picture->high) ? x_of (lane, picture->high) : lane->left + lane->width;

  drawn_colour (cr, GTK_WIDGET (self), "band");
  cairo_rectangle (cr, left, lane->y, right - left, BAR);
  cairo_fill (cr);
  drawn_colour (cr, GTK_WIDGET (self), "ink");
  cairo_set_line_width (cr, 1.5);
  for (int i = 0; i < 2; i++) {
    g_autofree char *text = NULL;
    double x;
    if (!isfinite (limits[i]))
      continue;
    x = round (x_of (lane, limits[i])) + 0.5;
    cairo_move_to (cr, x, lane->y - 2);
    cairo_line_to (cr, x, lane->y + BAR + 4);
    cairo_stroke (cr);
    text = number_shown (unit_from_si (picture->unit, limits[i]), picture->unit->decimals);
    text_at (self, cr, lane, text, limits[i], lane->y + BAR + 4, &small);
  }
}

static void
draw_expected (BandBar *self, cairo_t *cr, const struct lane *lane)
{
  const double dashes[] = { 3, 3 };
  double x = round (x_of (lane, self->picture.expected)) + 0.5;
  g_autofree char *number
      = number_shown (unit_from_si (self->picture.unit, self->picture.expected), self->picture.unit->decimals);
  /* Translators: the value that the model expects. */
  g_autofree char *text = g_strdup_printf (_("expected %s"), number);

  drawn_colour (cr, GTK_WIDGET (self), "ink");
  cairo_set_line_width (cr, 1.5);
  cairo_set_dash (cr, dashes, 2, 0);
  cairo_move_to (cr, x, lane->y - 4);
  cairo_line_to (cr, x, lane->y + BAR + 6 + lane->text);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  drawn_colour (cr, GTK_WIDGET (self), "ink_soft");
  text_at (self, cr, lane, text, self->picture.expected, lane->y + BAR + 5 + lane->text, &small);
}

static void
draw_guard (BandBar *self, cairo_t *cr, const struct lane *lane, double value)
{
  double y = lane->y + BAR / 2;
  double ends[] = { x_of (lane, value - self->picture.guard), x_of (lane, value + self->picture.guard) };

  drawn_colour (cr, GTK_WIDGET (self), "ink");
  cairo_set_line_width (cr, 1.5);
  cairo_move_to (cr, ends[0], y);
  cairo_line_to (cr, ends[1], y);
  for (int i = 0; i < 2; i++) {
    cairo_move_to (cr, ends[i], y - 4);
    cairo_line_to (cr, ends[i], y + 4);
  }
  cairo_stroke (cr);
}

static void
draw_diamond (BandBar *self, cairo_t *cr, double x, double y)
{
  cairo_move_to (cr, x - MARK, y);
  cairo_line_to (cr, x, y - MARK);
  cairo_line_to (cr, x + MARK, y);
  cairo_line_to (cr, x, y + MARK);
  cairo_close_path (cr);
  drawn_colour (cr, GTK_WIDGET (self), "ink");
  cairo_fill_preserve (cr);
  drawn_colour (cr, GTK_WIDGET (self), "paper");
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
}

/* The number over the diamond: the reading itself, or the cylinder's number over those at either end. */
static void
name_value (BandBar *self, cairo_t *cr, const struct lane *lane, int i)
{
  const struct band_picture *picture = &self->picture;
  g_autofree char *text = NULL;

  for (int j = 0; picture->count > 1 && j < picture->count; j++) {
    double apart = fabs (x_of (lane, picture->values[j]) - x_of (lane, picture->values[i]));
    if (j < i && apart < 2 * MARK)
      return; /* its place is taken */
  }
  text = picture->count > 1
             ? g_strdup_printf ("%d", picture->names[i])
             : number_shown (unit_from_si (picture->unit, picture->values[i]), picture->unit->decimals);
  drawn_colour (cr, GTK_WIDGET (self), "ink");
  text_at (self, cr, lane, text, picture->values[i], 0, &strong);
}

static void
draw_values (BandBar *self, cairo_t *cr, const struct lane *lane)
{
  for (int i = 0; i < self->picture.count; i++) {
    if (self->picture.count == 1)
      draw_guard (self, cr, lane, self->picture.values[i]);
    draw_diamond (self, cr, x_of (lane, self->picture.values[i]), lane->y + BAR / 2);
    name_value (self, cr, lane, i);
  }
}

static void
band_bar_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BandBar *self = PLATELIFT_BAND_BAR (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  struct lane lane = { .left = MARK, .width = width - 2 * MARK };
  cairo_t *cr;

  if (!self->picture.unit)
    return;
  drawn_text_size (widget, "0", &small, NULL, &lane.text);
  lane.y = lane.text + 4;
  find_range (&self->picture, &lane);
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  drawn_colour (cr, widget, "hairline");
  cairo_rectangle (cr, 0, floor (lane.y + BAR / 2), width, 1);
  cairo_fill (cr);
  if (self->picture.has_band)
    draw_band (self, cr, &lane);
  if (self->picture.has_expected)
    draw_expected (self, cr, &lane);
  draw_values (self, cr, &lane);
  cairo_destroy (cr);
}

static void
band_bar_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                  int *minimum_baseline, int *natural_baseline)
{
  double text;

  drawn_text_size (widget, "0", &small, NULL, &text);
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = 220;
    *natural = 340;
  } else
    *minimum = *natural = (int) (3 * text + BAR + 12);
}

static void
band_bar_class_init (BandBarClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  widget_class->snapshot = band_bar_snapshot;
  widget_class->measure = band_bar_measure;
  gtk_widget_class_set_css_name (widget_class, "bandbar");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
band_bar_init (BandBar *self)
{
}

GtkWidget *
band_bar_new (void)
{
  return g_object_new (BAND_BAR_TYPE, NULL);
}

void
band_bar_show (BandBar *self, const struct band_picture *picture)
{
  g_return_if_fail (PLATELIFT_IS_BAND_BAR (self) && picture);
  self->picture = *picture;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
