/* Nozzles in a row, with a spray in proportion to each one's fuel. */
#include "scene-parts.h"

#include <glib.h>
#include <math.h>

#define BODY 14.0
#define SPRAY 13.0  /* at the car's largest air flow */
#define FOOT 37.5   /* under it the numbers end */

double
nozzle_x (int cylinder, const struct plan *plan)
{
  return (cylinder + 0.5) * plan->nozzle_pitch;
}

void
nozzles_outline (STILL_ARGUMENTS)
{
  for (int i = 0; i < scene->car->cylinders; i++) {
    double x = nozzle_x (i, plan);
    pen_rectangle (cr, &plan->nozzles, x - 3.2, -3 - BODY, x + 3.2, -3);
  }
}

static double
largest_flow (const struct scene *scene)
{
  /* the fuel of the car's largest air flow, shared: its rated full load, at lambda 0.9 and 14.5 */
  const struct car *car = scene->car;

  return car->engine.full_air / (0.9 * 14.5) / fmax (car->fuel.density, 1) / car->cylinders;
}

static void
spray (cairo_t *cr, const struct scene *scene, const struct plan *plan, double x, double flow)
{
  const struct frame *f = &plan->nozzles;
  double share = fmin (1.1, flow / largest_flow (scene)), length = SPRAY * (0.25 + 0.75 * share);
  int rays = 3 + 2 * (int) lround (2 * fmin (1, share));

  if (!(flow > 0))
    return;
  for (int i = 0; i < rays; i++) {
    double angle = (i - (rays - 1) / 2.0) / (rays - 1) * 0.62;
    double tip = -4.4 - BODY, s = sin (angle), c = cos (angle);
    pen_move (cr, f, x + 0.6 * s, tip - 0.6 * c);
    pen_line (cr, f, x + s * length, tip - c * length);
  }
  cairo_save (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_dash (cr, (double[]) { 0, 1.5 * f->scale }, 2, -scene->phase * 1.5 * f->scale);
  cairo_set_line_width (cr, (0.35 + 0.3 * share) * f->scale);
  pen_ink (cr, scene_palette (scene->theme)->line);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
nozzle (cairo_t *cr, const struct scene *scene, const struct plan *plan, int index)
{
  const struct frame *f = &plan->nozzles;
  const struct palette *palette = scene_palette (scene->theme);
  const struct cylinder_state *cylinder = &scene->state->cylinder[index];
  double x = nozzle_x (index, plan), lift = cylinder->flow > 0 ? 0.7 : 0;

  pen_rectangle (cr, f, x - 0.8, -2 - BODY, x + 0.8, -3);
  pen_body (cr, scene, plan, pressure_ink (scene, cylinder->line_pressure), WEIGHT_THIN);
  /* pin on its seat */
  pen_rectangle (cr, f, x - 0.3, -3.4 - BODY - lift, x + 0.3, -12 - lift);
  pen_rectangle (cr, f, x - 1.1, -3.9 - BODY - lift, x + 1.1, -3.1 - BODY - lift);
  pen_ink (cr, palette->line);
  cairo_fill (cr);
  spray (cr, scene, plan, x, cylinder->flow);
}

static void
stub (cairo_t *cr, const struct scene *scene, const struct plan *plan, int index)
{
  const struct frame *f = &plan->nozzles;
  double x = nozzle_x (index, plan);

  pen_rectangle (cr, f, x - 0.65, -3, x + 0.65, -0.6);
  pen_body (cr, scene, plan, pressure_ink (scene, scene->state->cylinder[index].line_pressure), WEIGHT_EDGE);
  pen_move (cr, f, x - 1.6, -0.9);
  pen_line (cr, f, x + 1.6, -0.3);
  pen_stroke (cr, scene, plan, WEIGHT_EDGE);
}

void
nozzles_draw_still (STILL_ARGUMENTS)
{
  const struct palette *palette = scene_palette (scene->theme);
  const struct frame *f = &plan->nozzles;

  for (int i = 0; i < scene->car->cylinders; i++) {
    double x = nozzle_x (i, plan);
    char number[8];
    pen_rectangle (cr, f, x - 1.6, -6, x + 1.6, -3);
    pen_rectangle (cr, f, x - 3.2, -11, x + 3.2, -6);
    pen_rectangle (cr, f, x - 2.4, -3 - BODY, x + 2.4, -11);
    pen_union (cr, scene, plan, palette->metal, WEIGHT_EDGE);
    g_snprintf (number, sizeof number, "%d", i + 1);
    text_draw (cr, scene, plan, STYLE_SMALL, palette->quiet, number, PX (f, x),
               PY (f, -FOOT) - 1.3 * text_size (scene, plan, STYLE_SMALL), 0.5);
  }
}

void
nozzles_draw (MOVING_ARGUMENTS)
{
  for (int i = 0; i < scene->car->cylinders; i++) {
    nozzle (cr, scene, plan, i);
    if (i != valve_cylinder (scene, 1) && i != valve_cylinder (scene, -1))
      stub (cr, scene, plan, i);
  }
}
