/* What limits the lever: a sprung stop at rest, which yields when the engine fires back, and a rubber buffer at full
 * lift; and what turns the roller against it: the mixture screw under its plug. */
#include "scene-parts.h"

#include <math.h>

/* Height of the lever's long arm at rest: its face towards the plate (near) or away from it, at x. */
static double
face (const struct sensor_plan *s, double x, bool near)
{
  double from_x = -s->plate_arm + (near ? 30 : 34), to_x = near ? -2 * s->boss_radius : -1.2 * s->boss_radius;
  double from = s->opening * (near ? LEVER_HUB : LEVER_HUB + LEVER_HEIGHT);
  double to = s->opening * (near ? -0.15 : 0.8) * s->boss_radius;

  return from + (to - from) * fmin (fmax ((x - from_x) / (to_x - from_x), 0), 1);
}

/* Plate pressed down: a spring on the floor under the weight. Plate lifted: a leaf under the long arm. */
static void
rest_stop (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct palette *palette = scene_palette (scene->theme);
  const struct sensor_plan *s = &plan->sensor;
  const struct frame *f = &plan->section;
  double x = s->weight_x, y = s->weight_y - s->weight_height / 2;

  if (s->opening < 0) {
    pen_spring (cr, scene, plan, f, x, s->floor + 0.5, y - 2.5, 3, 4);
    pen_rectangle (cr, f, x - 1, s->floor, x + 1, y - 2.5);
    pen_rectangle (cr, f, x - 4.5, y - 2.5, x + 4.5, y - 0.4);
    pen_union (cr, scene, plan, palette->moving, WEIGHT_EDGE);
    return;
  }
  x = -0.46 * s->plate_arm;
  y = face (s, x, true);
  pen_rectangle (cr, f, x + 8, s->floor, x + 15, s->floor + 2.4);
  pen_body (cr, scene, plan, palette->moving, WEIGHT_EDGE);
  pen_move (cr, f, x + 14, s->floor + 2.4);
  pen_line (cr, f, x + 9, s->floor + 2.4);
  cairo_curve_to (cr, PX (f, x + 2), PY (f, s->floor + 2.4), PX (f, x + 5), PY (f, y - 1.2), PX (f, x - 3),
                  PY (f, y - 0.4));
  pen_stroke (cr, scene, plan, WEIGHT_CUT);
}

static void
buffer (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct palette *palette = scene_palette (scene->theme);
  const struct sensor_plan *s = &plan->sensor;
  double share = s->opening > 0 ? -0.36 : -0.46, x = share * s->plate_arm, angle = s->top_stop / s->plate_arm;
  double y = s->opening * fabs (x) * sin (angle) + face (s, x, false) * cos (angle);
  double base = s->opening > 0 ? s->deck : s->floor;

  pen_rectangle (cr, &plan->section, x - 4, fmin (base, y), x + 4, fmax (base, y));
  pen_body (cr, scene, plan, palette->weight, WEIGHT_EDGE);
}

/* Plug in the deck over the mixture screw. */
static void
plug (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct palette *palette = scene_palette (scene->theme);
  const struct sensor_plan *s = &plan->sensor;
  const struct frame *f = &plan->section;
  double x = screw_x (plan);

  pen_rectangle (cr, f, x - 3, s->deck, x + 3, s->base);
  pen_body (cr, scene, plan, palette->paper, WEIGHT_EDGE);
  pen_rectangle (cr, f, x - 3, s->deck + 2, x + 3, s->base);
  pen_rectangle (cr, f, x - 4.5, s->base, x + 4.5, s->base + 1.6);
  pen_union (cr, scene, plan, palette->moving, WEIGHT_EDGE);
}

double
screw_x (const struct plan *plan)
{
  const struct sensor_plan *s = &plan->sensor;

  return s->opening > 0 ? plan->distributor.x - plan->distributor.half_width - 9 : -1.9 * s->boss_radius - 9;
}

void
stops_draw_still (STILL_ARGUMENTS)
{
  rest_stop (cr, scene, plan);
  buffer (cr, scene, plan);
  plug (cr, scene, plan);
}

/* Points of the screw and of the arm that it sets, on the lever at lift 0. */
void
screw_points (const struct plan *plan, double arm[4][2], double screw[8][2])
{
  const struct sensor_plan *s = &plan->sensor;
  double x = screw_x (plan), top = fmax (face (s, x, true), face (s, x, false)),
         low = fmin (face (s, x, true), face (s, x, false));
  const double arm_points[4][2] = {
    { 0, -0.55 * s->boss_radius }, { x - 4, low - 1.6 }, { x - 4, low - 4.2 }, { 0, -0.95 * s->boss_radius }
  };
  const double screw_points_[8][2] = { { x - 1.1, low - 1.6 }, { x - 1.1, top + 0.6 }, { x - 2.4, top + 0.6 },
                                       { x - 2.4, top + 2.6 }, { x + 2.4, top + 2.6 }, { x + 2.4, top + 0.6 },
                                       { x + 1.1, top + 0.6 }, { x + 1.1, low - 1.6 } };

  for (int i = 0; i < 4; i++)
    for (int k = 0; k < 2; k++)
      arm[i][k] = arm_points[i][k];
  for (int i = 0; i < 8; i++)
    for (int k = 0; k < 2; k++)
      screw[i][k] = screw_points_[i][k];
}
