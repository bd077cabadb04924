#include "sensor.h"
#include "root.h"

#include <math.h>
#include <stddef.h>

#define PI 3.14159265358979323846

/* Points of the profile whose clearance equals the first one's form the land. */
static int
land_point (const struct air_sensor *sensor)
{
  int last = 0;

  while (last + 1 < sensor->funnel_points
         && sensor->funnel_clearance[last + 1] <= sensor->funnel_clearance[0] * (1 + 1e-12))
    last++;
  return last;
}

double
sensor_land (const struct air_sensor *sensor)
{
  return sensor->funnel_depth[land_point (sensor)];
}

/* Frustum between the plate's edge at depth lift and a point of the profile. */
struct frustum {
  double area; /* without pi */
  double along, slant, width;
};

static inline struct frustum
frustum_to (double radius, double lift, double depth, double clearance)
{
  struct frustum f;

  f.along = depth - lift;
  f.slant = sqrt (f.along * f.along + clearance * clearance);
  f.width = 2 * radius + clearance;
  f.area = f.slant * f.width;
  return f;
}

/* Least frustum to the straight piece of profile from point i to i + 1. Where the derivative of (slant x width)^2 by
 * depth vanishes is a quadratic in the depth; its smaller root is the minimum. */
static struct frustum
frustum_to_piece (const struct air_sensor *sensor, double lift, int i)
{
  double depth = sensor->funnel_depth[i], end = sensor->funnel_depth[i + 1];
  double g = (sensor->funnel_clearance[i + 1] - sensor->funnel_clearance[i]) / (end - depth);
  double c = sensor->funnel_clearance[i] + g * (lift - depth); /* the piece's line produced to the plate's depth */
  double w = 2 * sensor->plate_radius + c, g2 = 1 + g * g;
  double qa = 2 * g * g2, qb = g2 * w + 3 * g * g * c, qc = g * c * (w + c);
  double under = qb * qb - 4 * qa * qc;
  double at = under > 0 && qb > 0 ? lift - 2 * qc / (qb + sqrt (under)) : depth;

  at = at < depth ? depth : at > end ? end : at;
  return frustum_to (sensor->plate_radius, lift, at, c + g * (at - lift));
}

double
sensor_area (const struct air_sensor *sensor, double lift, double *slope)
{
  const int pieces = sensor->funnel_points - 1;
  double x = lift > 0 ? lift : 0; /* above the land the overlap grows, the gap does not */
  int here = 0;
  struct frustum least;

  while (here + 1 < pieces && sensor->funnel_depth[here + 1] <= x)
    here++;
  least = frustum_to_piece (sensor, x, here);
  /* A piece further away along the depth than the least slant so far cannot win: its width is not less downstream, and
   * upstream the clearance only falls toward pieces that are nearer in depth. */
  for (int i = here + 1; i < pieces && (sensor->funnel_depth[i] - x) * least.width < least.area; i++) {
    struct frustum f = frustum_to_piece (sensor, x, i);
    if (f.area < least.area)
      least = f;
  }
  for (int i = here - 1; i >= 0 && (x - sensor->funnel_depth[i + 1]) * 2 * sensor->plate_radius < least.area; i--) {
    struct frustum f = frustum_to_piece (sensor, x, i);
    if (f.area < least.area)
      least = f;
  }
  if (slope)
    *slope = lift > 0 ? -PI * least.along / least.slant * least.width : 0;
  return PI * least.area;
}

/* Laminar loss of the overlapped land: dp = 12 mu L v / gap^2. */
static inline double
land_loss (const struct air_sensor *sensor, const struct sensor_air *air, double lift, double *slope)
{
  double gap = sensor->funnel_clearance[0];
  double by_length = 12 * air->viscosity / (gap * gap);
  double overlap = sensor_land (sensor) - lift;

  *slope = overlap > 0 ? -by_length : 0;
  return overlap > 0 ? by_length * overlap : 0;
}

double
sensor_flow (const struct air_sensor *sensor, const struct sensor_air *air, double lift, double drop, double *by_lift,
             double *by_drop)
{
  double area_slope, loss_slope;
  double area = sensor_area (sensor, lift, &area_slope);
  double inertial = air->density / (2 * sensor->discharge * sensor->discharge);
  double laminar = land_loss (sensor, air, lift, &loss_slope);
  double speed = 2 * drop / (laminar + sqrt (laminar * laminar + 4 * inertial * drop));
  double stiffness = 2 * inertial * speed + laminar; /* of the drop by the speed */

  if (by_lift)
    *by_lift = air->density * (area_slope * speed - area * loss_slope * speed / stiffness);
  if (by_drop)
    *by_drop = air->density * area / stiffness;
  return air->density * area * speed;
}

double
sensor_drop (const struct air_sensor *sensor, const struct sensor_air *air, double lift, double flow)
{
  double loss_slope;
  double speed = flow / (air->density * sensor_area (sensor, lift, NULL));
  double inertial = air->density / (2 * sensor->discharge * sensor->discharge);

  return (inertial * speed + land_loss (sensor, air, lift, &loss_slope)) * speed;
}

/* The lift between the stops; x is a first guess inside the bracket. */
static double
lift_between (const struct air_sensor *sensor, const struct sensor_air *air, double flow, double drop, double x)
{
  struct bracket bracket = { sensor->rest_height, sensor->top_stop, 0 };

  while (bracket.steps < ROOT_STEPS_MAX) {
    double by_lift;
    double f = sensor_flow (sensor, air, x, drop, &by_lift, NULL) - flow;
    double next;

    if (fabs (f) <= 4e-15 * flow)
      break;
    next = bracket_next (&bracket, x, f, by_lift);
    if (fabs (next - x) <= 4e-16 * sensor->top_stop)
      return next;
    x = next;
  }
  return x;
}

double
sensor_lift (const struct air_sensor *sensor, const struct sensor_air *air, double flow, double drop, double guess)
{
  double rest = sensor->rest_height, top = sensor->top_stop;
  double least, most;

  /* A guess well inside comes from a neighbouring state; near a stop the stops decide first. */
  if (guess > rest + 1e-3 * (top - rest) && guess < top - 1e-3 * (top - rest))
    return lift_between (sensor, air, flow, drop, guess);
  least = sensor_flow (sensor, air, rest, drop, NULL, NULL);
  if (flow <= least)
    return rest;
  most = sensor_flow (sensor, air, top, drop, NULL, NULL);
  if (flow >= most)
    return top;
  return lift_between (sensor, air, flow, drop, rest + (top - rest) * (flow - least) / (most - least));
}

double
sensor_balance_drop (const struct air_sensor *sensor, double plunger_force, double approach)
{
  double area = PI * sensor->plate_radius * sensor->plate_radius;
  double moment = plunger_force * sensor->roller_arm + sensor->unbalance;

  return (moment / sensor->plate_arm - approach * sensor->friction) / area;
}

double
sensor_plunger_lift (const struct air_sensor *sensor, double plate_lift, double mixture_offset)
{
  double lift = (plate_lift - sensor->play) * sensor->roller_arm / sensor->plate_arm + mixture_offset;

  return lift > 0 ? lift : 0;
}
