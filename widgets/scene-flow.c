/* What flows: streamlines of the air through the true gap, marks in the fuel by its computed flow. Air is long dashes,
 * fuel is dots: told apart by mark. */
#include "scene-parts.h"

#include <math.h>

#define LINES_A_SIDE 5

/* Edge of the plate on one side, turned with the lever. */
static void
plate_edge (const struct plan *plan, const struct pose *pose, int side, double *x, double *y)
{
  *x = pose->plate_x + side * plan->sensor.plate_radius * cos (pose->angle);
  *y = pose->plate_y + side * plan->sensor.plate_radius * sin (pose->angle);
}

/* Place on the funnel's wall nearest to the plate's edge. */
static void
nearest_wall (const struct plan *plan, int side, double x, double y, double *wall_x, double *wall_y)
{
  const struct sensor_plan *s = &plan->sensor;
  double best = INFINITY;

  for (int i = -40; i <= 160; i++) {
    double depth = i * s->depth[s->points - 1] / 120, wx = s->funnel_x + side * plan_funnel_radius (s, depth);
    double wy = s->opening * depth, distance = hypot (wx - x, wy - y);
    if (distance < best) {
      best = distance;
      *wall_x = wx;
      *wall_y = wy;
    }
  }
}

static void
streamline (cairo_t *cr, const struct plan *plan, int side, const double edge[2], const double wall[2], double share)
{
  const struct sensor_plan *s = &plan->sensor;
  const struct frame *f = &plan->section;
  double gx = wall[0] + share * (edge[0] - wall[0]), gy = wall[1] + share * (edge[1] - wall[1]);
  double down = s->opening, r = s->plate_radius, in = s->funnel_x + side * s->inlet_radius * (0.97 - 0.85 * share);
  double start = -down * s->inlet_height, end = down * s->outlet_depth;
  double out = s->funnel_x + side * s->outlet_radius * (0.96 - 0.62 * share);
  double gap = hypot (edge[0] - wall[0], edge[1] - wall[1]), dx, dy;

  if (gap < 1e-6)
    return;
  dx = side * fabs (edge[1] - wall[1]) / gap;
  dy = down * fabs (edge[0] - wall[0]) / gap;
  pen_move (cr, f, in, start);
  cairo_curve_to (cr, PX (f, in), PY (f, start + 0.55 * (gy - start)),
                  PX (f, gx - side * (0.10 + 0.5 * share) * r), PY (f, gy - down * (1.5 + 3 * (1 - share))), PX (f, gx),
                  PY (f, gy));
  cairo_curve_to (cr, PX (f, gx + dx * 0.16 * r), PY (f, gy + dy * 0.16 * r), PX (f, out),
                  PY (f, gy + 0.35 * (end - gy)), PX (f, out), PY (f, end));
}

/* Heads on some of the lines where the air comes in and where it leaves, so that a picture shows the direction too. */
static void
air_heads (cairo_t *cr, const struct plan *plan, int side, const double wall[2])
{
  const struct sensor_plan *s = &plan->sensor;
  const struct frame *f = &plan->section;
  double down = s->opening, start = -down * s->inlet_height, end = down * s->outlet_depth;

  for (int i = 1; i < LINES_A_SIDE; i += 2) {
    double share = (i + 0.5) / LINES_A_SIDE;
    pen_arrow_head (cr, PX (f, s->funnel_x + side * s->inlet_radius * (0.97 - 0.85 * share)),
                    PY (f, start + 0.2 * (wall[1] - start)), -down * M_PI / 2, 7 * plan->unit);
    pen_arrow_head (cr, PX (f, s->funnel_x + side * s->outlet_radius * (0.96 - 0.62 * share)), PY (f, end - down * 0.5),
                    -down * M_PI / 2, 7 * plan->unit);
  }
}

void
air_draw (MOVING_ARGUMENTS)
{
  const struct palette *palette = scene_palette (scene->theme);
  double dash = 11 * plan->unit, blank = 5 * plan->unit;

  if (!(scene->state->air_flow > 0))
    return;
  cairo_save (cr);
  cairo_set_tolerance (cr, 0.5);
  cairo_set_dash (cr, (double[]) { dash, blank }, 2, -scene->phase * (dash + blank));
  pen_ink (cr, palette->faint);
  cairo_set_line_width (cr, 0.8 * pen_width (scene, plan, WEIGHT_EDGE));
  for (int side = -1; side <= 1; side += 2) {
    double edge[2], wall[2] = { 0, 0 };
    plate_edge (plan, pose, side, &edge[0], &edge[1]);
    nearest_wall (plan, side, edge[0], edge[1], &wall[0], &wall[1]);
    for (int i = 0; i < LINES_A_SIDE; i++) {
      streamline (cr, plan, side, edge, wall, (i + 0.5) / LINES_A_SIDE);
      cairo_stroke (cr); /* one by one: a long path over the whole funnel costs three times as much */
    }
    air_heads (cr, plan, side, wall);
  }
  cairo_restore (cr);
}

static double
line_flow (const struct scene *scene, enum line line)
{
  const struct state *state = scene->state;

  switch (line) {
  case LINE_NOZZLE_LEFT:
    return state->cylinder[valve_cylinder (scene, -1)].flow;
  case LINE_NOZZLE_RIGHT:
    return state->cylinder[valve_cylinder (scene, 1)].flow;
  case LINE_CONTROL:
  case LINE_CONTROL_RETURN:
    return state->control_flow;
  case LINE_RETURN:
    return state->return_flow;
  case LINE_FEED:
  default:
    return state->pump_flow;
  }
}

static double
route_length (const struct route *route)
{
  double length = 0;

  for (int i = 1; i < route->count; i++)
    length += hypot (route->point[i][0] - route->point[i - 1][0], route->point[i][1] - route->point[i - 1][1]);
  return length;
}

/* Dots along a route, but not in the unions at its ends; the phase moves them by one spacing, so a wider spacing is a
 * faster flow. */
static void
dots (cairo_t *cr, const struct route *route, double spacing, double first, double radius, double ends)
{
  double next = first, done = 0, whole = route_length (route);

  for (int i = 1; i < route->count; i++) {
    double x1 = route->point[i - 1][0], y1 = route->point[i - 1][1];
    double length = hypot (route->point[i][0] - x1, route->point[i][1] - y1);
    for (; next < length; next += spacing) {
      double part = next / length;
      if (done + next < ends || done + next > whole - ends)
        continue;
      cairo_new_sub_path (cr);
      cairo_arc (cr, x1 + part * (route->point[i][0] - x1), y1 + part * (route->point[i][1] - y1), radius, 0, 6.2832);
    }
    next -= length;
    done += length;
  }
}

/* How fuel crosses the distributor on one side: lower chamber, port, waist, slot, upper chamber, seat. */
static void
metering_route (const struct plan *plan, int side, struct route *route)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct frame *f = &plan->section;
  double waist = 0.72 * d->plunger_radius, edge = d->chamber_x - d->chamber_radius, slot = d->slot_bottom + 2.5;
  const double points[][2] = { { edge + 5, d->ring }, { edge + 4, d->diaphragm - 3.5 }, { waist, d->diaphragm - 3.5 },
                               { waist, d->slot_bottom + 0.6 }, { d->barrel_radius - 2, slot }, { edge + 2.5, slot },
                               { d->chamber_x - 5, d->diaphragm + 1.6 }, { d->chamber_x, d->diaphragm + 0.6 } };

  route->count = 0;
  for (unsigned i = 0; i < sizeof points / sizeof points[0]; i++, route->count++) {
    route->point[i][0] = PX (f, d->x + side * points[i][0]);
    route->point[i][1] = PY (f, points[i][1]);
  }
}

static void
marks (cairo_t *cr, const struct scene *scene, const struct plan *plan, const struct route *route, double flow,
       double pressure, double ends)
{
  double spacing = (9 + 16 * sqrt (fmin (1, flow * 3.6e6 / 120))) * plan->unit;
  double radius = 0.36 * plan->section.scale;

  if (!(flow > 1e-12))
    return;
  dots (cr, route, spacing, scene->phase * spacing, radius, ends * plan->section.scale);
  if (scene->layers & LAYER_PRESSURES && pressure / pressure_scale_end (scene->car) < 0.5)
    cairo_set_source_rgb (cr, 1, 1, 1);
  else
    pen_ink (cr, (struct ink) { 0.1, 0.1, 0.12 });
  cairo_fill (cr);
}

void
fuel_marks_draw (MOVING_ARGUMENTS)
{
  struct route route;

  for (int i = 0; i < LINES; i++) {
    line_route (scene, plan, (enum line) i, &route);
    marks (cr, scene, plan, &route, line_flow (scene, (enum line) i), line_pressure (scene, (enum line) i),
           i == LINE_RETURN ? 0 : 3.4);
  }
  if (scene->state->pump_flow > 0) {
    line_route (scene, plan, LINE_FEED, &route);
    pen_ink (cr, scene_palette (scene->theme)->line);
    pen_arrow_head (cr, route.point[0][0] - 2 * plan->unit, route.point[0][1], 0, 3.2 * plan->section.scale);
  }
  for (int side = -1; side <= 1; side += 2) {
    metering_route (plan, side, &route);
    marks (cr, scene, plan, &route, scene->state->cylinder[valve_cylinder (scene, side)].flow,
           scene->state->system_pressure, 0);
  }
}
