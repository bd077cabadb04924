/* Forces on the lever as arrows to one scale: air on the plate, fuel on the plunger, and the pivot that carries both.
 */
#include "scene-parts.h"

#include <glib.h>
#include <math.h>

/* Millimetres of the section a newton: so that the largest force that the system pressure can make has room. */
static double
newton (const struct scene *scene, const struct plan *plan)
{
  static const double steps[] = { 2, 1.5, 1, 0.8, 0.6, 0.5, 0.4, 0.3, 0.25, 0.2, 0.15, 0.1, 0.05 };
  const struct sensor_plan *s = &plan->sensor;
  double radius = scene->car->distributor.plunger_diameter / 2, share = 1 - s->opening * s->roller_arm / s->plate_arm;
  double most = 0.85 * share * M_PI * radius * radius * scene->car->supply.regulator_opening;
  double room = -s->floor - s->boss_radius - 1;

  for (unsigned i = 0; i < sizeof steps / sizeof steps[0]; i++)
    if (steps[i] * most <= room)
      return steps[i];
  return 0.02;
}

/* A force that ends at x, y (mm); positive pushes up. */
static void
arrow (cairo_t *cr, const struct scene *scene, const struct plan *plan, double x, double y, double force)
{
  double size = newton (scene, plan) * fabs (force) * plan->section.scale, head = fmin (9 * plan->unit, size);
  double px = PX (&plan->section, x), py = PY (&plan->section, y), back = force > 0 ? 1 : -1;

  pen_ink (cr, scene_palette (scene->theme)->accent);
  if (size < 0.5)
    return;
  cairo_set_line_width (cr, 2 * pen_width (scene, plan, WEIGHT_CUT));
  cairo_move_to (cr, px, py + back * size);
  cairo_line_to (cr, px, py + back * 0.6 * head);
  cairo_stroke (cr);
  pen_arrow_head (cr, px, py, -back * M_PI / 2, head);
}

static void
value (cairo_t *cr, const struct scene *scene, const struct plan *plan, double force, double x, double y, double align)
{
  char text[MEASURE_MAX];

  text_measure (scene, QUANTITY_FORCE, fabs (force), text);
  text_draw (cr, scene, plan, STYLE_NAME, scene_palette (scene->theme)->accent, text, PX (&plan->section, x),
             PY (&plan->section, y), align);
}

/* The moments about the pivot, and the scale of the arrows. */
static void
balance (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct sensor_plan *s = &plan->sensor;
  const struct frame *f = &plan->section;
  double y = PY (f, plan->under - 3), x = PX (f, s->roller_arm + 8), long_mark = 10 * newton (scene, plan) * f->scale;
  struct ink ink = scene_palette (scene->theme)->accent;
  char plate[MEASURE_MAX], plunger[MEASURE_MAX], ten[MEASURE_MAX], text[6 * MEASURE_MAX];
  char long_arm[MEASURE_MAX], short_arm[MEASURE_MAX];

  text_measure (scene, QUANTITY_FORCE, scene->state->plate_force, plate);
  text_measure (scene, QUANTITY_FORCE, scene->state->plunger_force, plunger);
  text_millimetres (s->plate_arm, long_arm);
  text_millimetres (s->roller_arm, short_arm);
  g_snprintf (text, sizeof text, "%s × %s mm = %s × %s mm", plate, long_arm, plunger, short_arm);
  text_draw (cr, scene, plan, STYLE_VALUE, ink, text, x, y, 0);
  y += 2.2 * text_size (scene, plan, STYLE_VALUE);
  pen_ink (cr, ink);
  cairo_set_line_width (cr, 2 * pen_width (scene, plan, WEIGHT_CUT));
  cairo_move_to (cr, x, y);
  cairo_rel_line_to (cr, long_mark, 0);
  cairo_stroke (cr);
  text_whole (scene, QUANTITY_FORCE, 10, ten);
  text_draw (cr, scene, plan, STYLE_VALUE, ink, ten, x + long_mark + 6 * plan->unit,
             y - 0.68 * text_size (scene, plan, STYLE_VALUE), 0);
}

void
forces_draw (MOVING_ARGUMENTS)
{
  const struct state *state = scene->state;
  const struct sensor_plan *s = &plan->sensor;
  double plate = s->opening * state->plate_force, plunger = -state->plunger_force; /* positive: up */
  double side = s->opening > 0 ? -1 : 1, reaction = state->plunger_force - plate, boss = s->boss_radius;

  arrow (cr, scene, plan, pose->plate_x, pose->plate_y, plate);
  value (cr, scene, plan, plate, pose->plate_x + 3, pose->plate_y - s->opening * 7 + (s->opening > 0 ? -1 : 4), 0);
  arrow (cr, scene, plan, pose->roller_x, pose->roller_y + s->roller_radius, plunger);
  value (cr, scene, plan, plunger, plan->distributor.x + side * 6, s->deck - 1.5, side > 0 ? 0 : 1);
  arrow (cr, scene, plan, 0, -boss, reaction);
  value (cr, scene, plan, reaction, side * 1.8, -boss - 2, side > 0 ? 0 : 1);
  balance (cr, scene, plan);
}
