/* Centre lines (ISO 128: long dash, dot) and the screws that hold the castings together. */
#include "scene-parts.h"

static void
axis (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct frame *f, double x, double y1,
      double y2)
{
  double u = plan->unit;

  pen_move (cr, f, x, y1);
  pen_line (cr, f, x, y2);
  cairo_save (cr);
  cairo_set_dash (cr, (double[]) { 12 * u, 2.5 * u, 2 * u, 2.5 * u }, 4, 0);
  pen_stroke (cr, scene, plan, WEIGHT_THIN);
  cairo_restore (cr);
}

/* Head of a screw seen from its side, on a face at y. */
static void
screw (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct frame *f, double x, double y)
{
  pen_rectangle (cr, f, x - 3, y, x + 3, y + 0.7);
  pen_rectangle (cr, f, x - 2.1, y + 0.7, x + 2.1, y + 3);
  pen_body (cr, scene, plan, scene_palette (scene->theme)->moving, WEIGHT_EDGE);
  axis (cr, scene, plan, f, x, y + 4.5, y - 5);
}

void
axes_draw_still (STILL_ARGUMENTS)
{
  const struct sensor_plan *s = &plan->sensor;
  const struct distributor_plan *d = &plan->distributor;
  const struct warmup_plan *w = &plan->regulator;
  double top = -s->opening * s->inlet_height, end = s->opening * s->outlet_depth;

  axis (cr, scene, plan, &plan->section, s->funnel_x, top - s->opening * 4, end + s->opening * 2);
  axis (cr, scene, plan, &plan->section, d->x, d->cap_top + 4, d->bottom - 4);
  axis (cr, scene, plan, &plan->warmup, w->seat_x, w->seat_y - 2, w->lower_stop - 4);
  screw (cr, scene, plan, &plan->section, d->x - d->half_width + 3.5, d->top);
  screw (cr, scene, plan, &plan->section, d->x + d->union_x - 3.5, d->top);
  screw (cr, scene, plan, &plan->warmup, 4, w->height);
}
