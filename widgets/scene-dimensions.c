/* Dimensions as on a workshop drawing (ISO 129): extension lines, arrows, the number above the line. */
#include "scene-parts.h"

#include <glib.h>
#include <math.h>

static void
number (cairo_t *cr, const struct scene *scene, const struct plan *plan, const char *prefix, double millimetres,
        int decimals, double x, double y, double align)
{
  char text[MEASURE_MAX], value[MEASURE_MAX];

  if (decimals > 0)
    text_number (millimetres, decimals, value);
  else
    text_millimetres (millimetres, value);
  g_snprintf (text, sizeof text, "%s%s", prefix, value);
  text_draw (cr, scene, plan, STYLE_VALUE, scene_palette (scene->theme)->line, text, x, y, align);
}

/* Level dimension between two places at one height (px). */
static void
level (cairo_t *cr, const struct scene *scene, const struct plan *plan, double x1, double from1, double x2,
       double from2, double y)
{
  double over = (y > from1 ? 1 : -1) * 4 * plan->unit, head = 8 * plan->unit;

  cairo_move_to (cr, x1, from1);
  cairo_line_to (cr, x1, y + over);
  cairo_move_to (cr, x2, from2);
  cairo_line_to (cr, x2, y + over);
  cairo_move_to (cr, x1, y);
  cairo_line_to (cr, x2, y);
  pen_stroke (cr, scene, plan, WEIGHT_THIN);
  pen_ink (cr, scene_palette (scene->theme)->line);
  pen_arrow_head (cr, fmin (x1, x2), y, M_PI, head);
  pen_arrow_head (cr, fmax (x1, x2), y, 0, head);
}

/* From the plate's height at lift 0 to where it is now, left of its centre. */
static void
lift (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct pose *pose)
{
  const struct frame *f = &plan->section;
  const struct sensor_plan *s = &plan->sensor;
  double x = PX (f, s->funnel_x - 0.42 * s->plate_radius), rest = PY (f, 0), now = PY (f, pose->plate_y);
  double away = s->opening > 0 ? -1 : 1, head = 8 * plan->unit, tail = 15 * plan->unit;
  double size = text_size (scene, plan, STYLE_VALUE), y = now + (away > 0 ? 4 * plan->unit : -1.4 * size);

  cairo_move_to (cr, x - 12 * plan->unit, rest);
  cairo_line_to (cr, PX (f, s->funnel_x), rest);
  cairo_move_to (cr, x - 5 * plan->unit, now);
  cairo_line_to (cr, PX (f, pose->plate_x), now);
  cairo_move_to (cr, x, rest - away * tail);
  cairo_line_to (cr, x, now + away * tail);
  pen_stroke (cr, scene, plan, WEIGHT_THIN);
  pen_ink (cr, scene_palette (scene->theme)->line);
  pen_arrow_head (cr, x, rest, away * M_PI / 2, head);
  pen_arrow_head (cr, x, now, -away * M_PI / 2, head);
  if (fabs (now - rest) > 2 * size)
    y = (now + rest) / 2 - 0.68 * size;
  number (cr, scene, plan, "", scene->state->plate_lift * 1e3, 2, x - 5 * plan->unit, y, 1);
}

void
dimensions_draw (MOVING_ARGUMENTS)
{
  const struct frame *f = &plan->section;
  const struct sensor_plan *s = &plan->sensor;
  double c = s->plate_radius * cos (pose->angle), n = s->plate_radius * sin (pose->angle);
  double line = 1.25 * text_size (scene, plan, STYLE_VALUE), arms = PY (f, plan->under - 7),
         wide = PY (f, plan->under - 14);

  level (cr, scene, plan, PX (f, pose->plate_x - c), PY (f, pose->plate_y - n), PX (f, pose->plate_x + c),
         PY (f, pose->plate_y + n), wide);
  number (cr, scene, plan, "\u2300", 2 * s->plate_radius, 0, PX (f, pose->plate_x), wide - line, 0.5);
  level (cr, scene, plan, PX (f, pose->plate_x), PY (f, pose->plate_y), PX (f, 0), PY (f, 0), arms);
  number (cr, scene, plan, "", s->plate_arm, 0, PX (f, -s->plate_arm / 2), arms - line, 0.5);
  level (cr, scene, plan, PX (f, 0), PY (f, 0), PX (f, pose->roller_x), PY (f, pose->roller_y),
         arms + (s->opening < 0 ? 0 : line));
  number (cr, scene, plan, "", s->roller_arm, 0, PX (f, s->roller_x / 2), arms + (s->opening < 0 ? 0 : line) - line,
          0.5);
  lift (cr, scene, plan, pose);
}
