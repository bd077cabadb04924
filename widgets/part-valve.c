/* Pressure-difference valve: lower and upper chamber, diaphragm, spring, seat tube; the pocket behind the slot. */
#include "scene-parts.h"

#include <math.h>

int
valve_cylinder (const struct scene *scene, int side)
{
  return side > 0 ? 0 : plan_left_cylinder (scene) % scene->car->cylinders;
}

static double
centre (const struct plan *plan, int side)
{
  return plan->distributor.x + side * plan->distributor.chamber_x;
}

void
valve_outline (STILL_ARGUMENTS, int side)
{
  const struct distributor_plan *d = &plan->distributor;
  double x = centre (plan, side), r = d->chamber_radius;

  pen_rectangle (cr, &plan->section, x - r, d->diaphragm - d->lower_depth, x + r, d->diaphragm + d->upper_depth);
}

/* The diaphragm: clamped at its rim, drawn down by its magnified opening. */
static void
diaphragm_path (cairo_t *cr, const struct plan *plan, double x, double open, bool start)
{
  const struct frame *f = &plan->section;
  double r = plan->distributor.chamber_radius, y = plan->distributor.diaphragm, flat = 0.3 * r;

  if (start)
    pen_move (cr, f, x - r, y);
  else
    pen_line (cr, f, x - r, y);
  cairo_curve_to (cr, PX (f, x - 0.66 * r), PY (f, y), PX (f, x - 0.62 * r), PY (f, y - open), PX (f, x - flat),
                  PY (f, y - open));
  pen_line (cr, f, x + flat, y - open);
  cairo_curve_to (cr, PX (f, x + 0.62 * r), PY (f, y - open), PX (f, x + 0.66 * r), PY (f, y), PX (f, x + r),
                  PY (f, y));
}

static void
chambers (cairo_t *cr, const struct scene *scene, const struct plan *plan, double x, double open,
          const struct cylinder_state *cylinder)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct frame *f = &plan->section;
  double r = d->chamber_radius;

  diaphragm_path (cr, plan, x, open, true);
  pen_line (cr, f, x + r, d->diaphragm - d->lower_depth);
  pen_line (cr, f, x - r, d->diaphragm - d->lower_depth);
  cairo_close_path (cr);
  pen_body (cr, scene, plan, pressure_ink (scene, scene->state->system_pressure), WEIGHT_EDGE);
  diaphragm_path (cr, plan, x, open, true);
  pen_line (cr, f, x + r, d->diaphragm + d->upper_depth);
  pen_line (cr, f, x - r, d->diaphragm + d->upper_depth);
  cairo_close_path (cr);
  pen_body (cr, scene, plan, pressure_ink (scene, cylinder->upper_pressure), WEIGHT_EDGE);
}

/* Pocket behind the slot and the bore from it to the upper chamber. */
static void
slot_pocket (cairo_t *cr, const struct scene *scene, const struct plan *plan, int side,
             const struct cylinder_state *cylinder)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct frame *f = &plan->section;
  double in = d->plunger_radius, out = d->chamber_x - d->chamber_radius;
  const double points[][2] = { { in, d->slot_bottom },
                               { d->barrel_radius, d->slot_bottom },
                               { d->barrel_radius, d->slot_bottom + 1 },
                               { out + 0.5, d->slot_bottom + 1 },
                               { out + 0.5, d->slot_bottom + 4 },
                               { d->barrel_radius, d->slot_bottom + 4 },
                               { d->barrel_radius, d->slot_bottom + d->slot_height },
                               { in, d->slot_bottom + d->slot_height } };

  for (int i = 0; i < 8; i++)
    if (i == 0)
      pen_move (cr, f, d->x + side * points[i][0], points[i][1]);
    else
      pen_line (cr, f, d->x + side * points[i][0], points[i][1]);
  cairo_close_path (cr);
  pen_body (cr, scene, plan, pressure_ink (scene, cylinder->upper_pressure), WEIGHT_EDGE);
}

/* Seat tube from the diaphragm through the upper body to the union on top. */
static void
seat_tube (cairo_t *cr, const struct scene *scene, const struct plan *plan, double x,
           const struct cylinder_state *cylinder)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct frame *f = &plan->section;
  double in = fmin (d->seat_radius, 2), out = in + 1.4, thread = out + 2;

  pen_rectangle (cr, f, x - thread, d->top - 6, x + thread, d->top + 3);
  pen_body (cr, scene, plan, scene_palette (scene->theme)->moving, WEIGHT_EDGE);
  for (int side = -1; side <= 1; side += 2)
    pen_rectangle (cr, f, x + (side > 0 ? in : -out), d->diaphragm, x + (side > 0 ? out : -in), d->top + 7);
  pen_body (cr, scene, plan, scene_palette (scene->theme)->moving, WEIGHT_EDGE);
  pen_rectangle (cr, f, x - in, d->diaphragm, x + in, d->top + 7.5);
  pen_ink (cr, pressure_ink (scene, cylinder->line_pressure));
  cairo_fill (cr);
  pen_polygon (cr, f,
               (const double[][2]) { { x - thread - 1, d->top },
                                    { x - thread - 1, d->top + 3.5 },
                                    { x - thread, d->top + 4.5 },
                                    { x - in, d->top + 4.5 },
                                    { x - in, d->top } },
               5);
  pen_polygon (cr, f,
               (const double[][2]) { { x + thread + 1, d->top },
                                    { x + thread + 1, d->top + 3.5 },
                                    { x + thread, d->top + 4.5 },
                                    { x + in, d->top + 4.5 },
                                    { x + in, d->top } },
               5);
  pen_body (cr, scene, plan, scene_palette (scene->theme)->moving, WEIGHT_EDGE);
}

void
valve_draw (MOVING_ARGUMENTS, int side)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct frame *f = &plan->section;
  int index = valve_cylinder (scene, side);
  const struct cylinder_state *cylinder = &scene->state->cylinder[index];
  double x = centre (plan, side), open = pose->valve[index], plate = 0.46 * d->chamber_radius;

  chambers (cr, scene, plan, x, open, cylinder);
  slot_pocket (cr, scene, plan, side, cylinder);
  pen_spring (cr, scene, plan, f, x, d->diaphragm - open + 1.2, d->diaphragm + d->upper_depth - 1,
              0.42 * d->chamber_radius, 5);
  pen_rectangle (cr, f, x - plate - 1, d->diaphragm - open + 0.1, x - fmin (d->seat_radius, 2) - 2,
                 d->diaphragm - open + 1.1);
  pen_rectangle (cr, f, x + fmin (d->seat_radius, 2) + 2, d->diaphragm - open + 0.1, x + plate + 1,
                 d->diaphragm - open + 1.1);
  pen_body (cr, scene, plan, scene_palette (scene->theme)->moving, WEIGHT_EDGE);
  seat_tube (cr, scene, plan, x, cylinder);
  diaphragm_path (cr, plan, x, open, true);
  pen_line (cr, f, x + d->chamber_radius + 2.5, d->diaphragm);
  pen_move (cr, f, x - d->chamber_radius, d->diaphragm);
  pen_line (cr, f, x - d->chamber_radius - 2.5, d->diaphragm);
  pen_stroke (cr, scene, plan, WEIGHT_CUT);
}
