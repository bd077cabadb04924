/* Sensor housing: funnel, lever chamber and deck in one casting; the sensor plate. */
#include "scene-parts.h"

#include <math.h>

struct outline { double point[4 * FUNNEL_POINTS_MAX][2]; int count; };

static void
add (struct outline *outline, double x, double y)
{
  outline->point[outline->count][0] = x;
  outline->point[outline->count][1] = y;
  outline->count++;
}

/* The funnel's inner wall on one side (side -1 left, +1 right), from the air's entrance to a depth. */
static void
add_profile (struct outline *outline, const struct sensor_plan *s, int side, double depth_to)
{
  static const double entrance[][2] = { { 1, 1 }, { 0.82, 0.62 }, { 0.55, 0.33 }, { 0.28, 0.12 }, { 0.1, 0.02 } };
  double flare = s->inlet_radius - s->radius[0];

  for (unsigned i = 0; i < sizeof entrance / sizeof entrance[0]; i++)
    add (outline, s->funnel_x + side * (s->radius[0] + flare * entrance[i][1]),
         -s->opening * s->inlet_height * entrance[i][0]);
  for (int i = 0; i < s->points && s->depth[i] < depth_to; i++)
    add (outline, s->funnel_x + side * s->radius[i], s->opening * s->depth[i]);
  add (outline, s->funnel_x + side * plan_funnel_radius (s, depth_to), s->opening * depth_to);
}

static void
left_wall (struct outline *outline, const struct sensor_plan *s)
{
  double end = s->opening * s->outlet_depth, start = -s->opening * s->inlet_height;

  outline->count = 0;
  add_profile (outline, s, -1, s->depth[s->points - 1]);
  add (outline, s->funnel_x - s->outlet_radius, end);
  add (outline, s->left, end);
  add (outline, s->left, s->opening * 9);
  add (outline, s->funnel_x - s->inlet_radius - s->wall - 1, start + s->opening * 6);
  add (outline, s->funnel_x - s->inlet_radius - s->wall - 1, start);
}

static double
deck_hole (const struct plan *plan)
{
  return plan->distributor.barrel_radius + 1;
}

/* Right of the funnel, plate pressed down: the land runs out into the deck, the floor into the duct's end. */
static void
right_wall_down (struct outline *deck, struct outline *floor_part, const struct plan *plan)
{
  const struct sensor_plan *s = &plan->sensor;
  double edge = s->funnel_x + s->inlet_radius + s->wall + 1, hole = deck_hole (plan), x = plan->distributor.x;

  deck->count = floor_part->count = 0;
  add_profile (deck, s, 1, s->window_depth);
  add (deck, edge + 3, -s->window_depth);
  add (deck, edge + 10, s->deck);
  add (deck, x - hole, s->deck);
  add (deck, x - hole, s->base);
  add (deck, edge, s->base);
  add (deck, edge, s->inlet_height);

  add (floor_part, x + hole, s->base);
  add (floor_part, x + hole, s->deck);
  add (floor_part, s->right - s->wall, s->deck);
  add (floor_part, s->right - s->wall, s->floor);
  add (floor_part, s->funnel_x + s->outlet_radius, s->floor);
  add (floor_part, s->funnel_x + s->outlet_radius, -s->outlet_depth);
  add (floor_part, s->right, -s->outlet_depth);
  add (floor_part, s->right, s->base);
}

/* The same, plate lifted: the land stands on the floor, the deck comes from the funnel's upper end. */
static void
right_wall_lifted (struct outline *floor_part, struct outline *deck, const struct plan *plan)
{
  const struct sensor_plan *s = &plan->sensor;
  double edge = s->funnel_x + s->inlet_radius + s->wall + 1, hole = deck_hole (plan), x = plan->distributor.x;
  double wall = s->funnel_x + s->outlet_radius, out = wall + s->wall;

  deck->count = floor_part->count = 0;
  add_profile (floor_part, s, 1, s->window_depth);
  add (floor_part, edge + 6, s->window_depth);
  add (floor_part, edge + 14, s->floor);
  add (floor_part, s->right - s->wall, s->floor);
  add (floor_part, s->right - s->wall, s->deck);
  add (floor_part, x + hole, s->deck);
  add (floor_part, x + hole, s->base);
  add (floor_part, s->right, s->base);
  add (floor_part, s->right, s->floor - s->wall);
  add (floor_part, edge, s->floor - s->wall);
  add (floor_part, edge, -s->inlet_height);

  add (deck, wall, s->outlet_depth);
  add (deck, wall, s->outlet_depth - 5);
  add (deck, out + 2, s->outlet_depth - 8);
  add (deck, out + 6, s->deck);
  add (deck, x - hole, s->deck);
  add (deck, x - hole, s->base);
  add (deck, out + 9, s->base);
  add (deck, out + 5, s->outlet_depth - 3);
  add (deck, out, s->outlet_depth);
}

static void
walls (struct outline wall[3], const struct plan *plan)
{
  left_wall (&wall[0], &plan->sensor);
  if (plan->sensor.opening < 0)
    right_wall_down (&wall[1], &wall[2], plan);
  else
    right_wall_lifted (&wall[1], &wall[2], plan);
}

/* Everything that air fills, as one flat ground under the castings. */
static void
air_ground (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct sensor_plan *s = &plan->sensor;
  double start = -s->opening * s->inlet_height, end = s->opening * s->outlet_depth;
  double wide = s->inlet_radius, chamber = s->opening < 0 ? s->floor : s->floor;

  pen_rectangle (cr, &plan->section, s->funnel_x - wide, fmin (start, end), s->funnel_x + wide, fmax (start, end));
  pen_rectangle (cr, &plan->section, s->funnel_x - s->outlet_radius, fmin (s->opening * 9, end),
                 s->funnel_x + s->outlet_radius, fmax (s->opening * 9, end));
  pen_rectangle (cr, &plan->section, s->funnel_x + s->radius[0] + (s->opening > 0 ? 16 : 0), chamber, s->right - 1,
                 s->deck);
  pen_rectangle (cr, &plan->section, s->funnel_x + s->radius[0], fmin (0, s->opening * 20),
                 s->funnel_x + s->outlet_radius + 6, fmax (0, s->opening * 20));
  if (s->opening > 0)
    pen_rectangle (cr, &plan->section, s->funnel_x + s->radius[0] + 6, s->deck, s->funnel_x + s->outlet_radius + 8,
                   s->outlet_depth - 6);
  pen_ink (cr, scene_palette (scene->theme)->air);
  cairo_fill (cr);
}

/* The profile behind the lever's window, seen beyond the cut. */
static void
window_edge (cairo_t *cr, const struct scene *scene, const struct plan *plan)
{
  const struct sensor_plan *s = &plan->sensor;

  pen_move (cr, &plan->section, s->funnel_x + plan_funnel_radius (s, s->window_depth), s->opening * s->window_depth);
  for (int i = 0; i < s->points; i++)
    if (s->depth[i] > s->window_depth)
      pen_line (cr, &plan->section, s->funnel_x + s->radius[i], s->opening * s->depth[i]);
  pen_line (cr, &plan->section, s->funnel_x + s->outlet_radius, s->opening * s->outlet_depth);
  pen_stroke (cr, scene, plan, WEIGHT_EDGE);
}

void
funnel_draw_still (STILL_ARGUMENTS)
{
  struct outline wall[3];

  air_ground (cr, scene, plan);
  window_edge (cr, scene, plan);
  walls (wall, plan);
  for (int i = 0; i < 3; i++) {
    pen_polygon (cr, &plan->section, wall[i].point, wall[i].count);
    pen_cut (cr, scene, plan, HATCH_RISING);
  }
}

void
funnel_outline (STILL_ARGUMENTS)
{
  struct outline wall[3];

  walls (wall, plan);
  for (int i = 0; i < 3; i++)
    pen_polygon (cr, &plan->section, wall[i].point, wall[i].count);
}

/* Corner of the plate: along the lever's turned axes from the plate's centre. */
static void
plate_point (cairo_t *cr, const struct plan *plan, const struct pose *pose, double along, double up, bool start)
{
  double x = pose->plate_x + along * cos (pose->angle) - up * sin (pose->angle);
  double y = pose->plate_y + along * sin (pose->angle) + up * cos (pose->angle);

  if (start)
    pen_move (cr, &plan->section, x, y);
  else
    pen_line (cr, &plan->section, x, y);
}

void
plate_outline (MOVING_ARGUMENTS)
{
  const struct sensor_plan *s = &plan->sensor;
  double thick = s->opening * s->plate_thickness;

  plate_point (cr, plan, pose, -s->plate_radius, 0, true);
  plate_point (cr, plan, pose, s->plate_radius, 0, false);
  plate_point (cr, plan, pose, s->plate_radius, thick, false);
  plate_point (cr, plan, pose, -s->plate_radius, thick, false);
  cairo_close_path (cr);
}

/* A section so thin is filled black (ISO 128: narrow sections). */
void
plate_draw (MOVING_ARGUMENTS)
{
  plate_outline (cr, scene, plan, pose);
  pen_fill (cr, scene_palette (scene->theme)->line);
  pen_stroke (cr, scene, plan, WEIGHT_EDGE);
}
