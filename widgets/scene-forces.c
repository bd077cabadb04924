/* Forces on the lever as arrows to one scale: air on the plate, fuel on the plunger, and the pivot that carries both. */
#include "scene-parts.h"

#include <math.h>

static double
newton (const struct plan *plan)
{
  return 0.9 * plan->section.scale; /* px a newton */
}

static void
arrow (cairo_t *cr, const struct scene *scene, const struct plan *plan, double x, double y, double force, double align)
{
  const struct palette *palette = scene_palette (scene->theme);
  double tail = y + force * newton (plan), head = 9 * plan->unit;
  char text[MEASURE_MAX];

  if (fabs (force) * newton (plan) < 0.5)
    return;
  pen_ink (cr, palette->accent);
  cairo_set_line_width (cr, 2 * pen_width (scene, plan, WEIGHT_CUT));
  cairo_move_to (cr, x, tail);
  cairo_line_to (cr, x, y + (force > 0 ? 1 : -1) * fmin (head * 0.6, fabs (force) * newton (plan)));
  cairo_stroke (cr);
  pen_arrow_head (cr, x, y, force > 0 ? -M_PI / 2 : M_PI / 2, head);
  text_measure (scene, QUANTITY_FORCE, fabs (force), text);
  text_draw (cr, scene, plan, STYLE_NAME, palette->accent, text, x + (align > 0.5 ? -5 : 5) * plan->unit,
             fmin (tail, fmax (y, tail)) - (force > 0 ? 1.2 : 0) * text_size (scene, plan, STYLE_NAME), align);
}

void
forces_draw (MOVING_ARGUMENTS)
{
  const struct state *state = scene->state;
  const struct sensor_plan *s = &plan->sensor;
  const struct frame *f = &plan->section;
  double plate = s->opening * state->plate_force; /* positive pushes up */

  arrow (cr, scene, plan, PX (f, pose->plate_x), PY (f, pose->plate_y), plate, 0);
  arrow (cr, scene, plan, PX (f, pose->roller_x), PY (f, pose->roller_y + s->roller_radius), -state->plunger_force, 0);
  arrow (cr, scene, plan, PX (f, 0), PY (f, -s->boss_radius), state->plunger_force - plate, 1);
}
