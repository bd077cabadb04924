/* System pressure regulator: a piston on a shimmed spring returns what the pump delivers too much; its movement pushes
 * the shut-off valve of the control return open. */
#include "scene-parts.h"

#define BORE 4.5
#define TRAVEL 1.6 /* drawn travel at the pump's whole delivery: a picture of open and shut, not a measure */

static double
at (const struct plan *plan, double x)
{
  return plan->distributor.x + plan->distributor.regulator_x + x;
}

void
supply_outline (STILL_ARGUMENTS)
{
  double y = plan->distributor.ring;

  pen_rectangle (cr, &plan->section, at (plan, 0), y - 9, at (plan, 40), y + 9);
}

void
supply_draw_still (STILL_ARGUMENTS)
{
  supply_outline (cr, scene, plan);
  pen_cut (cr, scene, plan, HATCH_FALLING);
}

static void
fuel (cairo_t *cr, const struct scene *scene, const struct plan *plan, double left, double bottom, double right,
      double top, double pressure)
{
  double y = plan->distributor.ring;

  pen_rectangle (cr, &plan->section, at (plan, left), y + bottom, at (plan, right), y + top);
  pen_body (cr, scene, plan, pressure_ink (scene, pressure), WEIGHT_EDGE);
}

static void
piston (cairo_t *cr, const struct scene *scene, const struct plan *plan, double moved)
{
  const struct palette *palette = scene_palette (scene->theme);
  const struct frame *f = &plan->section;
  double y = plan->distributor.ring;

  pen_rectangle (cr, f, at (plan, 5 + moved), y - 3.4, at (plan, 7 + moved), y + 3.4);   /* seat plate with O-ring */
  pen_rectangle (cr, f, at (plan, 7 + moved), y - BORE, at (plan, 13 + moved), y + BORE);
  pen_rectangle (cr, f, at (plan, 13 + moved), y - 0.8, at (plan, 29.2 + moved),
                 y + 0.8); /* pin to the shut-off valve */
  pen_union (cr, scene, plan, palette->moving, WEIGHT_EDGE);
  for (int side = -1; side <= 1; side += 2)
    pen_circle (cr, f, at (plan, 4.6 + moved), y + side * 2.6, 0.8);
  pen_body (cr, scene, plan, palette->line, WEIGHT_THIN);
}

static void
shut_off (cairo_t *cr, const struct scene *scene, const struct plan *plan, double moved)
{
  const struct palette *palette = scene_palette (scene->theme);
  const struct frame *f = &plan->section;
  double y = plan->distributor.ring, open = moved > 0 ? 0.6 + moved * 0.5 : 0;

  pen_rectangle (cr, f, at (plan, 29.4 + open), y - 2.6, at (plan, 31.2 + open), y + 2.6);
  pen_body (cr, scene, plan, palette->moving, WEIGHT_EDGE);
  pen_spring_lying (cr, scene, plan, f, y, at (plan, 31.2 + open), at (plan, 35.5), 1.7, 3);
}

void
supply_draw (MOVING_ARGUMENTS)
{
  const struct state *state = scene->state;
  const struct palette *palette = scene_palette (scene->theme);
  double moved = TRAVEL * pose->relief, back = state->return_pressure, y = plan->distributor.ring;

  fuel (cr, scene, plan, 3, -3.2, 8, 3.2, state->system_pressure);
  fuel (cr, scene, plan, 6.4, -BORE, 27, BORE, back);
  fuel (cr, scene, plan, 19, -9, 23, -BORE, back);
  fuel (cr, scene, plan, 27, -1.6, 29.4, 1.6, back);
  fuel (cr, scene, plan, 29.4, -3.6, 35.5, 3.6, back);
  fuel (cr, scene, plan, 35.5, -1.3, 40, 1.3, back);
  pen_rectangle (cr, &plan->section, at (plan, 25.4), y - 4, at (plan, 26.2), y + 4);
  pen_rectangle (cr, &plan->section, at (plan, 26.2), y - 4, at (plan, 27), y + 4);
  pen_body (cr, scene, plan, palette->moving, WEIGHT_EDGE); /* shims */
  pen_spring_lying (cr, scene, plan, &plan->section, y, at (plan, 13 + moved), at (plan, 25.4), 3, 5);
  piston (cr, scene, plan, moved);
  shut_off (cr, scene, plan, moved);
}
