#include "scene-pen.h"

#include <math.h>

#define PI 3.14159265358979323846

void
pen_ink (cairo_t *cr, struct ink ink)
{
  cairo_set_source_rgb (cr, ink.red, ink.green, ink.blue);
}

void
pen_fill (cairo_t *cr, struct ink ink)
{
  pen_ink (cr, ink);
  cairo_fill_preserve (cr);
}

double
pen_width (const struct scene *scene, const struct plan *plan, enum weight weight)
{
  static const double weights[] = { 1.75, 0.875, 0.45 }; /* px at unit 1: 0.7, 0.35 and 0.18 times 2.5 */
  double wide = fmax (plan->unit, 0.7) * (0.5 + 0.5 * scene->type_scale);

  if (scene_palette (scene->theme)->black_lines)
    wide *= 1.3;
  return weights[weight] * wide;
}

void
pen_stroke (cairo_t *cr, const struct scene *scene, const struct plan *plan, enum weight weight)
{
  const struct palette *palette = scene_palette (scene->theme);

  pen_ink (cr, weight == WEIGHT_THIN ? palette->faint : palette->line);
  cairo_set_line_width (cr, pen_width (scene, plan, weight));
  cairo_stroke (cr);
}

void
pen_move (cairo_t *cr, const struct frame *frame, double x, double y)
{
  cairo_move_to (cr, PX (frame, x), PY (frame, y));
}

void
pen_line (cairo_t *cr, const struct frame *frame, double x, double y)
{
  cairo_line_to (cr, PX (frame, x), PY (frame, y));
}

void
pen_rectangle (cairo_t *cr, const struct frame *frame, double left, double bottom, double right, double top)
{
  double x = PX (frame, frame->side > 0 ? left : right);

  cairo_rectangle (cr, x, PY (frame, top), (right - left) * frame->scale, (top - bottom) * frame->scale);
}

void
pen_circle (cairo_t *cr, const struct frame *frame, double x, double y, double radius)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, PX (frame, x), PY (frame, y), radius * frame->scale, 0, 2 * PI);
  cairo_close_path (cr);
}

void
pen_polygon (cairo_t *cr, const struct frame *frame, const double (*points)[2], int count)
{
  for (int i = 0; i < count; i++)
    if (i == 0)
      pen_move (cr, frame, points[i][0], points[i][1]);
    else
      pen_line (cr, frame, points[i][0], points[i][1]);
  cairo_close_path (cr);
}

static void
hatch_lines (cairo_t *cr, double spacing, bool rising)
{
  double x1, y1, x2, y2, first;

  cairo_clip_extents (cr, &x1, &y1, &x2, &y2);
  /* The lines lie on one grid of the whole sheet, so that pieces of one casting match. */
  if (rising) {
    first = floor ((x1 + y1) / spacing) * spacing;
    for (double c = first; c <= x2 + y2; c += spacing) {
      cairo_move_to (cr, c - y1, y1);
      cairo_line_to (cr, c - y2, y2);
    }
  } else {
    first = floor ((x1 - y2) / spacing) * spacing;
    for (double c = first; c <= x2 - y1; c += spacing) {
      cairo_move_to (cr, c + y1, y1);
      cairo_line_to (cr, c + y2, y2);
    }
  }
}

void
pen_hatch (cairo_t *cr, const struct scene *scene, const struct plan *plan, enum hatch hatch)
{
  const struct palette *palette = scene_palette (scene->theme);
  bool fine = hatch == HATCH_RISING_FINE || hatch == HATCH_FALLING_FINE;

  cairo_save (cr);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD); /* a contour inside another is a hollow */
  pen_fill (cr, palette->metal);
  cairo_clip (cr);
  hatch_lines (cr, (fine ? 5.5 : 9.5) * fmax (plan->unit, 0.7), hatch == HATCH_RISING || hatch == HATCH_RISING_FINE);
  pen_stroke (cr, scene, plan, WEIGHT_THIN);
  cairo_restore (cr);
}

void
pen_cut (cairo_t *cr, const struct scene *scene, const struct plan *plan, enum hatch hatch)
{
  cairo_path_t *outline = cairo_copy_path (cr);

  pen_hatch (cr, scene, plan, hatch);
  cairo_append_path (cr, outline);
  cairo_path_destroy (outline);
  pen_stroke (cr, scene, plan, WEIGHT_CUT);
}

void
pen_body (cairo_t *cr, const struct scene *scene, const struct plan *plan, struct ink ink, enum weight weight)
{
  pen_fill (cr, ink);
  pen_stroke (cr, scene, plan, weight);
}

void
pen_union (cairo_t *cr, const struct scene *scene, const struct plan *plan, struct ink ink, enum weight weight)
{
  pen_ink (cr, scene_palette (scene->theme)->line);
  cairo_set_line_width (cr, 2 * pen_width (scene, plan, weight));
  cairo_stroke_preserve (cr);
  pen_ink (cr, ink);
  cairo_fill (cr);
}

/* Discs at the places of the present path, as points stroked with a round pen: half the cost of circles. */
static void
discs (cairo_t *cr, struct ink rim, struct ink inside, double radius, double edge)
{
  cairo_save (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  pen_ink (cr, rim);
  cairo_set_line_width (cr, 2 * radius + edge);
  cairo_stroke_preserve (cr);
  pen_ink (cr, inside);
  cairo_set_line_width (cr, 2 * radius - edge);
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* Section of a coil spring: the cut wires as dots left and right, the half turns behind between them. */
static void
spring_turns (cairo_t *cr, const struct scene *scene, const struct plan *plan, double x1, double y1, double x2,
              double y2, double radius, int coils)
{
  double length = hypot (x2 - x1, y2 - y1), along_x = (x2 - x1) / fmax (length, 1e-9);
  double along_y = (y2 - y1) / fmax (length, 1e-9), pitch = length / coils;
  double wire = fmin (0.28 * pitch, 0.16 * radius + 1);

  for (int i = 0; i < coils; i++) {
    double a = (i + 0.25) * pitch, b = (i + 0.75) * pitch;
    cairo_move_to (cr, x1 + along_x * a - along_y * radius, y1 + along_y * a + along_x * radius);
    cairo_line_to (cr, x1 + along_x * b + along_y * radius, y1 + along_y * b - along_x * radius);
  }
  pen_stroke (cr, scene, plan, WEIGHT_EDGE);
  for (int i = 0; i < 2 * coils; i++) {
    double a = (i / 2 + (i % 2 ? 0.75 : 0.25)) * pitch, side = i % 2 ? radius : -radius;
    cairo_move_to (cr, x1 + along_x * a + along_y * side, y1 + along_y * a - along_x * side);
    cairo_close_path (cr);
  }
  discs (cr, scene_palette (scene->theme)->line, scene_palette (scene->theme)->moving, wire,
         pen_width (scene, plan, WEIGHT_EDGE));
}

void
pen_spring (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct frame *frame, double x,
            double bottom, double top, double radius, int coils)
{
  spring_turns (cr, scene, plan, PX (frame, x), PY (frame, top), PX (frame, x), PY (frame, bottom),
                radius * frame->scale, coils);
}

void
pen_spring_lying (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct frame *frame, double y,
                  double left, double right, double radius, int coils)
{
  spring_turns (cr, scene, plan, PX (frame, left), PY (frame, y), PX (frame, right), PY (frame, y),
                radius * frame->scale, coils);
}

void
pen_arrow_head (cairo_t *cr, double x, double y, double angle, double length)
{
  double spread = 0.2;

  cairo_move_to (cr, x, y);
  cairo_line_to (cr, x - length * cos (angle - spread), y - length * sin (angle - spread));
  cairo_line_to (cr, x - length * cos (angle + spread), y - length * sin (angle + spread));
  cairo_close_path (cr);
  cairo_fill (cr);
}
