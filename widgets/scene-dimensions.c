/* Dimensions as on a workshop drawing (ISO 129): extension lines, arrows, the number above the line. */
#include "scene-parts.h"

#include <glib.h>
#include <math.h>

#define ALONG 1 /* which way a dimension lies */
#define UP 0

static void
number (cairo_t *cr, const struct scene *scene, const struct plan *plan, const char *prefix, double millimetres,
        int decimals, double x, double y, double align)
{
  char text[MEASURE_MAX], value[MEASURE_MAX];

  text_number (millimetres, decimals, value);
  g_snprintf (text, sizeof text, "%s%s", prefix, value);
  text_draw (cr, scene, plan, STYLE_VALUE, scene_palette (scene->theme)->line, text, x, y, align);
}

/* Level dimension between two places at one height (px). */
static void
level (cairo_t *cr, const struct scene *scene, const struct plan *plan, double x1, double from1, double x2, double from2,
       double y)
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

static void
lift (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct pose *pose)
{
  const struct frame *f = &plan->section;
  const struct sensor_plan *s = &plan->sensor;
  double x = PX (f, s->left - 5), rest = PY (f, 0), now = PY (f, pose->plate_y), head = 8 * plan->unit;
  double away = s->opening > 0 ? -1 : 1;

  cairo_move_to (cr, PX (f, s->funnel_x - s->plate_radius), rest);
  cairo_line_to (cr, x - 4 * plan->unit, rest);
  cairo_move_to (cr, PX (f, pose->plate_x), now);
  cairo_line_to (cr, x - 4 * plan->unit, now);
  cairo_move_to (cr, x, rest - away * 16 * plan->unit);
  cairo_line_to (cr, x, rest);
  cairo_move_to (cr, x, now);
  cairo_line_to (cr, x, now + away * 16 * plan->unit);
  pen_stroke (cr, scene, plan, WEIGHT_THIN);
  pen_ink (cr, scene_palette (scene->theme)->line);
  pen_arrow_head (cr, x, rest, away * M_PI / 2, head);
  pen_arrow_head (cr, x, now, -away * M_PI / 2, head);
  number (cr, scene, plan, "", scene->state->plate_lift * 1e3, 2, x - 4 * plan->unit,
          now + (away > 0 ? 3 * plan->unit : -1.4 * text_size (scene, plan, STYLE_VALUE)), 1);
}

void
dimensions_draw (MOVING_ARGUMENTS)
{
  const struct frame *f = &plan->section;
  const struct sensor_plan *s = &plan->sensor;
  double r = s->plate_radius, top = PY (f, -s->opening * (s->inlet_height + 7)), line = 1.35 * text_size (scene, plan, STYLE_VALUE);
  double arms = s->opening < 0 ? PY (f, -s->outlet_depth - 7) : PY (f, s->floor - s->wall - 8);

  level (cr, scene, plan, PX (f, s->funnel_x - r), PY (f, pose->plate_y), PX (f, s->funnel_x + r), PY (f, pose->plate_y), top);
  number (cr, scene, plan, "\u2300", 2 * r, 0, PX (f, s->funnel_x), top - line, 0.5);
  level (cr, scene, plan, PX (f, pose->plate_x), PY (f, pose->plate_y), PX (f, 0), PY (f, 0), arms);
  number (cr, scene, plan, "", s->plate_arm, 0, PX (f, -s->plate_arm / 2), arms - line, 0.5);
  level (cr, scene, plan, PX (f, 0), PY (f, 0), PX (f, pose->roller_x), PY (f, pose->roller_y),
         arms + (s->opening < 0 ? 0 : line));
  number (cr, scene, plan, "", s->roller_arm, 0, PX (f, s->roller_x / 2), arms + (s->opening < 0 ? -line : 0), 0.5);
  lift (cr, scene, plan, pose);
}
