/* Fuel distributor: casting, barrel, control passages and what fills them. */
#include "scene-parts.h"

#include <math.h>

static void
rectangle_at (cairo_t *cr, const struct plan *plan, double left, double bottom, double right, double top)
{
  double x = plan->distributor.x;

  pen_rectangle (cr, &plan->section, x + left, bottom, x + right, top);
}

/* Lower body, split from the upper one at the diaphragm; the control riser's wall widens it to the right. */
static void
lower_body (cairo_t *cr, const struct plan *plan)
{
  const struct distributor_plan *d = &plan->distributor;

  rectangle_at (cr, plan, -d->half_width, d->bottom, d->union_x, d->diaphragm);
}

static void
upper_body (cairo_t *cr, const struct plan *plan)
{
  const struct distributor_plan *d = &plan->distributor;

  rectangle_at (cr, plan, -d->half_width, d->diaphragm, d->union_x, d->top);
}

static void
cap (cairo_t *cr, const struct plan *plan)
{
  const struct distributor_plan *d = &plan->distributor;
  double w = d->barrel_radius + 6;
  const double points[][2] = { { d->x - w, d->top }, { d->x - w, d->cap_top - 3 }, { d->x - w + 3, d->cap_top },
                               { d->x + w - 3, d->cap_top }, { d->x + w, d->cap_top - 3 }, { d->x + w, d->top } };

  pen_polygon (cr, &plan->section, points, 6);
}

/* The barrel's two walls in section, each with its slot (no metal over the slot's height). */
static void
barrel_wall (cairo_t *cr, const struct plan *plan, int side)
{
  const struct distributor_plan *d = &plan->distributor;
  double in = side * d->plunger_radius, out = side * d->barrel_radius, end = d->bottom - 4;
  double left = fmin (in, out), right = fmax (in, out), port = d->diaphragm - 3.5;

  rectangle_at (cr, plan, left, end, right, port - 1.5);
  rectangle_at (cr, plan, left, port + 1.5, right, d->slot_bottom);
  rectangle_at (cr, plan, left, d->slot_bottom + d->slot_height, right, d->bore_top);
}

void
barrel_outline (STILL_ARGUMENTS)
{
  const struct distributor_plan *d = &plan->distributor;

  rectangle_at (cr, plan, -d->barrel_radius, d->bottom - 4, d->barrel_radius, d->bore_top);
}

/* The screwed-in restriction of the control circuit. */
void
orifice_outline (STILL_ARGUMENTS)
{
  const struct distributor_plan *d = &plan->distributor;

  rectangle_at (cr, plan, d->riser_x - 2.5, d->diaphragm + 7, d->riser_x + 2.5, d->diaphragm + 13);
}

/* Bore of the restriction: wide, narrow, wide. */
static void
orifice_bore (cairo_t *cr, const struct plan *plan)
{
  const struct distributor_plan *d = &plan->distributor;
  double x = d->x + d->riser_x, y = d->diaphragm + 7;
  const double points[][2] = { { x - 1.5, y }, { x - 0.5, y + 2 }, { x - 0.5, y + 4 }, { x - 1.5, y + 6 },
                               { x + 1.5, y + 6 }, { x + 0.5, y + 4 }, { x + 0.5, y + 2 }, { x + 1.5, y } };

  pen_polygon (cr, &plan->section, points, 8);
}

static void
barrel_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  barrel_outline (cr, scene, plan);
  pen_ink (cr, scene_palette (scene->theme)->paper);
  cairo_fill (cr);
  for (int side = -1; side <= 1; side += 2) {
    barrel_wall (cr, plan, side);
    pen_cut (cr, scene, plan, HATCH_FALLING_FINE);
  }
}

void
distributor_draw_still (STILL_ARGUMENTS)
{
  lower_body (cr, plan);
  pen_cut (cr, scene, plan, HATCH_FALLING);
  upper_body (cr, plan);
  pen_cut (cr, scene, plan, HATCH_RISING);
  cap (cr, plan);
  pen_cut (cr, scene, plan, HATCH_FALLING);
  barrel_draw (cr, scene, plan);
  orifice_outline (cr, scene, plan);
  pen_cut (cr, scene, plan, HATCH_FALLING_FINE);
}

static void
fuel (cairo_t *cr, const struct scene *scene, const struct plan *plan, double pressure)
{
  pen_body (cr, scene, plan, pressure_ink (scene, pressure), WEIGHT_EDGE);
}

/* Passage in another plane than the cut: dashed, as hidden edges are. */
static void
hidden_passage (cairo_t *cr, const struct scene *scene, const struct plan *plan, double pressure)
{
  const struct distributor_plan *d = &plan->distributor;
  double left = d->barrel_radius + 1.2, right = d->riser_x - 1.5;

  rectangle_at (cr, plan, left, d->passage - 1.1, right, d->passage + 1.1);
  pen_ink (cr, pressure_ink (scene, pressure));
  cairo_fill (cr);
  for (int edge = -1; edge <= 1; edge += 2) {
    pen_move (cr, &plan->section, d->x + left, d->passage + 1.1 * edge);
    pen_line (cr, &plan->section, d->x + right, d->passage + 1.1 * edge);
  }
  cairo_save (cr);
  cairo_set_dash (cr, (double[]) { 4 * plan->unit, 2 * plan->unit }, 2, 0);
  pen_stroke (cr, scene, plan, WEIGHT_EDGE);
  cairo_restore (cr);
}

static void
control_fuel (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct distributor_plan *d = &plan->distributor;
  double p = scene->state->control_pressure, bore = d->barrel_radius + 2.2, over = d->bore_top + 4;

  hidden_passage (cr, scene, plan, p);
  rectangle_at (cr, plan, d->riser_x - 1.5, d->diaphragm + 13, d->riser_x + 1.5, d->passage + 1.5);
  rectangle_at (cr, plan, d->riser_x - 1.5, d->passage - 1.5, d->union_x, d->passage + 1.5);
  pen_ink (cr, pressure_ink (scene, p));
  cairo_fill (cr);
  rectangle_at (cr, plan, d->riser_x - 1.5, d->diaphragm + 13, d->riser_x + 1.5, d->passage + 1.5);
  fuel (cr, scene, plan, p);
  rectangle_at (cr, plan, d->riser_x - 1.5, d->passage - 1.5, d->union_x, d->passage + 1.5);
  fuel (cr, scene, plan, p);
  /* up inside the cap and over to the damping restriction above the plunger */
  rectangle_at (cr, plan, bore - 1.1, d->passage - 1.1, bore + 1.1, over + 1.1);
  fuel (cr, scene, plan, p);
  rectangle_at (cr, plan, -1.1, over - 1.1, bore + 1.1, over + 1.1);
  fuel (cr, scene, plan, p);
  rectangle_at (cr, plan, -0.4, d->bore_top, 0.4, over - 1);
  fuel (cr, scene, plan, p);
}

static void
system_fuel (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct distributor_plan *d = &plan->distributor;
  double p = scene->state->system_pressure, chamber = d->chamber_x + d->chamber_radius;

  rectangle_at (cr, plan, chamber - 0.5, d->ring - 1.5, d->union_x + 3, d->ring + 1.5);
  fuel (cr, scene, plan, p);
  rectangle_at (cr, plan, d->riser_x - 1.5, d->ring, d->riser_x + 1.5, d->diaphragm + 7);
  fuel (cr, scene, plan, p);
  rectangle_at (cr, plan, -d->half_width, d->ring - 2, -chamber + 0.5, d->ring + 2);
  fuel (cr, scene, plan, p);
  for (int side = -1; side <= 1; side += 2) {
    double port = d->diaphragm - 3.5, in = d->plunger_radius - 0.3, out = d->chamber_x - d->chamber_radius + 0.5;
    rectangle_at (cr, plan, side > 0 ? in : -out, port - 1.5, side > 0 ? out : -in, port + 1.5);
    fuel (cr, scene, plan, p);
  }
}

void
distributor_draw_fuel (MOVING_ARGUMENTS)
{
  const struct distributor_plan *d = &plan->distributor;

  system_fuel (cr, scene, plan);
  control_fuel (cr, scene, plan);
  orifice_bore (cr, plan);
  fuel (cr, scene, plan, scene->state->system_pressure);
  /* control chamber above the plunger, system pressure round its waist */
  rectangle_at (cr, plan, -d->plunger_radius, d->diaphragm - 12, d->plunger_radius, d->bore_top);
  fuel (cr, scene, plan, scene->state->control_pressure);
}

/* The waist: below the control edge (moved by the factor) and above the lower land (true). */
static void
waist (cairo_t *cr, const struct plan *plan, const struct pose *pose)
{
  const struct distributor_plan *d = &plan->distributor;
  double lower = d->diaphragm - 9 + (pose->plunger_foot - d->plunger_foot);

  rectangle_at (cr, plan, -d->plunger_radius, lower, d->plunger_radius, pose->control_edge);
}

static void
plunger_lands (cairo_t *cr, const struct plan *plan, const struct pose *pose)
{
  const struct distributor_plan *d = &plan->distributor;
  double r = d->plunger_radius, lower = d->diaphragm - 9 + (pose->plunger_foot - d->plunger_foot);

  rectangle_at (cr, plan, -r, pose->control_edge, r, pose->control_edge + d->land);
  rectangle_at (cr, plan, -0.42 * r, lower, 0.42 * r, pose->control_edge);
  rectangle_at (cr, plan, -r, d->bottom - 2 + (pose->plunger_foot - d->plunger_foot), r, lower);
  rectangle_at (cr, plan, -0.6 * r, pose->plunger_foot, 0.6 * r,
                d->bottom - 2 + (pose->plunger_foot - d->plunger_foot));
}

void
plunger_outline (MOVING_ARGUMENTS)
{
  plunger_lands (cr, plan, pose);
}

/* Break line in the waist: below it the plunger moves true, above it by the factor written beside. */
static void
break_line (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct palette *palette = scene_palette (scene->theme);
  double r = 0.42 * d->plunger_radius, y = d->diaphragm - 3.5, s = plan->section.scale;

  for (int line = 0; line < 2; line++) {
    double py = PY (&plan->section, y - 0.6 + 1.2 * line);
    cairo_move_to (cr, PX (&plan->section, d->x - r) - 0.6 * s, py);
    cairo_curve_to (cr, PX (&plan->section, d->x) - 0.3 * r * s, py - 1.2 * s, PX (&plan->section, d->x) + 0.3 * r * s,
                    py + 1.2 * s, PX (&plan->section, d->x + r) + 0.6 * s, py);
  }
  pen_ink (cr, palette->line);
  cairo_set_line_width (cr, pen_width (scene, plan, WEIGHT_EDGE));
  cairo_stroke (cr);
}

void
plunger_draw (MOVING_ARGUMENTS)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct palette *palette = scene_palette (scene->theme);

  waist (cr, plan, pose);
  fuel (cr, scene, plan, scene->state->system_pressure);
  plunger_lands (cr, plan, pose);
  pen_union (cr, scene, plan, palette->moving, WEIGHT_EDGE);
  if (d->plunger_factor > 1)
    break_line (cr, scene, plan);
}
