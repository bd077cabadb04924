/* Lines outside the castings: feed, nozzle lines, control line with its damper, return. */
#include "scene-parts.h"

#include <math.h>

/* A line as two edges with its fuel between, in px. */
static void
tube (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct route *route, double pressure,
      double bore)
{
  double width = bore * plan->section.scale;

  for (int i = 0; i < route->count; i++)
    cairo_line_to (cr, route->point[i][0], route->point[i][1]);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  pen_ink (cr, scene_palette (scene->theme)->line);
  cairo_set_line_width (cr, width + 2 * pen_width (scene, plan, WEIGHT_EDGE));
  cairo_stroke_preserve (cr);
  pen_ink (cr, pressure_ink (scene, pressure));
  cairo_set_line_width (cr, width);
  cairo_stroke (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
}

static void
add (struct route *route, double x, double y)
{
  route->point[route->count][0] = x;
  route->point[route->count][1] = y;
  route->count++;
}

/* Up from the outlet and over to the nozzle; where the nozzles stand under the section, round its right end. The line
 * from the left outlet always lies outside the other. */
static void
route_nozzle (const struct scene *scene, const struct plan *plan, int side, struct route *route)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct frame *f = &plan->section;
  double x = PX (f, d->x + side * d->chamber_x),
         nozzle = PX (&plan->nozzles, nozzle_x (valve_cylinder (scene, side), plan));
  double over = PY (&plan->nozzles, side > 0 ? 2 : 6);

  add (route, x, PY (f, d->top + 7));
  if (plan->stacked) {
    double round = PX (f, d->x + d->regulator_end + (side > 0 ? 28 : 32)), top = PY (f, d->top + (side > 0 ? 25 : 29));
    add (route, x, top);
    add (route, round, top);
    over = PY (&plan->nozzles, side > 0 ? 6 : 2);
    add (route, round, over);
  } else {
    add (route, x, over);
  }
  add (route, nozzle, over);
  add (route, nozzle, PY (&plan->nozzles, -3));
}

static void
route_control (const struct plan *plan, struct route *route)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct frame *f = &plan->section;
  double turn = PX (f, d->x + d->corner), seat = PX (&plan->warmup, plan->regulator.seat_x);
  double across = PY (f, plan->stacked ? plan->under - 9 : d->ring + 17);

  add (route, PX (f, d->x + d->union_x + 2), PY (f, d->passage));
  add (route, turn, PY (f, d->passage));
  add (route, turn, across);
  add (route, seat, across);
  add (route, seat, PY (&plan->warmup, plan->regulator.height));
}

static void
route_control_return (const struct plan *plan, struct route *route)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct frame *f = &plan->section;
  double port = PX (&plan->warmup, plan->regulator.return_x), ring = PY (f, d->ring);

  add (route, port, PY (&plan->warmup, plan->regulator.height));
  if (plan->stacked) {
    double turn = PX (f, d->x + d->regulator_end + 4), across = PY (f, plan->under - 4);
    add (route, port, across);
    add (route, turn, across);
    add (route, turn, ring);
  } else {
    add (route, port, ring);
  }
  add (route, PX (f, d->x + d->regulator_end), ring);
}

/* The return goes down beside the sensor housing. */
static double
tank_x (const struct plan *plan)
{
  const struct distributor_plan *d = &plan->distributor;

  return fmax (d->x + d->regulator_x + 21, plan->sensor.right + 9);
}

void
line_route (const struct scene *scene, const struct plan *plan, enum line line, struct route *route)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct frame *f = &plan->section;
  double tank = PX (f, d->x + d->regulator_x + 21), feed = PX (f, d->x - d->half_width);

  route->count = 0;
  switch (line) {
  case LINE_NOZZLE_RIGHT:
  case LINE_NOZZLE_LEFT:
    route_nozzle (scene, plan, line == LINE_NOZZLE_RIGHT ? 1 : -1, route);
    break;
  case LINE_CONTROL:
    route_control (plan, route);
    break;
  case LINE_CONTROL_RETURN:
    route_control_return (plan, route);
    break;
  case LINE_RETURN:
    add (route, tank, PY (f, d->ring - 9));
    add (route, tank, PY (f, d->ring - 13));
    add (route, PX (f, tank_x (plan)), PY (f, d->ring - 13));
    add (route, PX (f, tank_x (plan)), PY (f, d->ring - 22));
    break;
  case LINE_FEED:
  default:
    add (route, feed - 9 * f->scale, PY (f, d->ring));
    add (route, feed, PY (f, d->ring));
  }
}

double
line_pressure (const struct scene *scene, enum line line)
{
  const struct state *state = scene->state;

  switch (line) {
  case LINE_NOZZLE_RIGHT:
    return state->cylinder[valve_cylinder (scene, 1)].line_pressure;
  case LINE_NOZZLE_LEFT:
    return state->cylinder[valve_cylinder (scene, -1)].line_pressure;
  case LINE_CONTROL:
    return state->control_pressure;
  case LINE_FEED:
    return state->system_pressure;
  case LINE_CONTROL_RETURN:
  case LINE_RETURN:
  default:
    return state->return_pressure;
  }
}

/* An open tank (ISO 1219-1: reservoir). */
static void
tank_draw (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct distributor_plan *d = &plan->distributor;
  double x = tank_x (plan), y = d->ring;

  pen_move (cr, &plan->section, x - 6, y - 19);
  pen_line (cr, &plan->section, x - 6, y - 25);
  pen_line (cr, &plan->section, x + 6, y - 25);
  pen_line (cr, &plan->section, x + 6, y - 19);
  pen_stroke (cr, scene, plan, WEIGHT_CUT);
}

/* Damper on the control line, a small diaphragm between fuel and spring: its casting and spring, which do not move. */
static void
damper_draw_still (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct frame *f = &plan->section;
  double x = d->x + d->corner + 0.8, y = d->passage;

  pen_rectangle (cr, f, x + 2, y - 7, x + 13, y + 7);
  pen_cut (cr, scene, plan, HATCH_RISING_FINE);
  pen_rectangle (cr, f, x + 6, y - 5, x + 11.2, y + 5);
  pen_body (cr, scene, plan, scene_palette (scene->theme)->paper, WEIGHT_EDGE);
  pen_spring_lying (cr, scene, plan, f, y, x + 6.4, x + 11, 2.4, 3);
}

static void
damper_fuel (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct frame *f = &plan->section;
  double x = d->x + d->corner + 0.8, y = d->passage;

  pen_rectangle (cr, f, x + 3.5, y - 5, x + 6, y + 5);
  pen_rectangle (cr, f, x - 0.2, y - 0.8, x + 3.6, y + 0.8);
  pen_ink (cr, pressure_ink (scene, scene->state->control_pressure));
  cairo_fill (cr);
  pen_move (cr, f, x + 6, y - 6);
  pen_line (cr, f, x + 6, y + 6);
  pen_stroke (cr, scene, plan, WEIGHT_CUT);
}

static void
unions (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct frame *f = &plan->section;

  pen_rectangle (cr, f, d->x + d->union_x, d->passage - 3, d->x + d->union_x + 3, d->passage + 3);
  pen_rectangle (cr, f, d->x + d->regulator_end, d->ring - 2.6, d->x + d->regulator_end + 3, d->ring + 2.6);
  pen_rectangle (cr, f, d->x - d->half_width - 3, d->ring - 3.4, d->x - d->half_width, d->ring + 3.4);
  pen_rectangle (cr, &plan->warmup, plan->regulator.seat_x - 3, plan->regulator.height, plan->regulator.seat_x + 3,
                 plan->regulator.height + 3);
  pen_rectangle (cr, &plan->warmup, plan->regulator.return_x - 3, plan->regulator.height, plan->regulator.return_x + 3,
                 plan->regulator.height + 3);
  pen_body (cr, scene, plan, scene_palette (scene->theme)->moving, WEIGHT_EDGE);
}

void
lines_draw_still (STILL_ARGUMENTS)
{
  tank_draw (cr, scene, plan);
  damper_draw_still (cr, scene, plan);
}

void
lines_draw (MOVING_ARGUMENTS)
{
  static const double bores[LINES] = {
    [LINE_FEED] = 2.4,           [LINE_RETURN] = 2.4,       [LINE_CONTROL] = 1.6,
    [LINE_CONTROL_RETURN] = 1.6, [LINE_NOZZLE_RIGHT] = 1.3, [LINE_NOZZLE_LEFT] = 1.3
  };

  for (int i = 0; i < LINES; i++) {
    struct route route;
    line_route (scene, plan, (enum line) i, &route);
    tube (cr, scene, plan, &route, line_pressure (scene, (enum line) i), bores[i]);
  }
  damper_fuel (cr, scene, plan);
  unions (cr, scene, plan);
}
