#include "sensor.h"
#include "root.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

#define PI 3.14159265358979323846
#define FLOW_TOLERANCE 1e-13 /* relative */
#define LIFT_STEP 1e-16      /* m: a Newton step as small as this is taken unseen */

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

/* Frustum between the plate's edge and a point of the profile. */
struct frustum {
  double along, width; /* depth difference; sum of the two radii */
  double slant2;       /* slant height squared */
  double square;       /* (slant x width)^2: what is compared */
};

static inline struct frustum
frustum_to (double diameter, double along, double clearance)
{
  struct frustum f;

  f.along = along;
  f.width = diameter + clearance;
  f.slant2 = along * along + clearance * clearance;
  f.square = f.slant2 * f.width * f.width;
  return f;
}

/* Least frustum to the straight piece of profile from point i to i + 1. Where the derivative of (slant x width)^2 by
 * depth vanishes is a quadratic in the depth; its smaller root is the minimum. */
static struct frustum
frustum_to_piece (const struct air_sensor *sensor, double lift, int i)
{
  double start = sensor->funnel_depth[i] - lift, end = sensor->funnel_depth[i + 1] - lift;
  double g = (sensor->funnel_clearance[i + 1] - sensor->funnel_clearance[i]) / (end - start);
  double c = sensor->funnel_clearance[i] - g * start; /* the piece's line produced to the plate's depth */
  double w = 2 * sensor->plate_radius + c, g2 = 1 + g * g;
  double qa = 2 * g * g2, qb = g2 * w + 3 * g * g * c, qc = g * c * (w + c);
  double under = qb * qb - 4 * qa * qc;
  double along = under > 0 && qb > 0 ? -2 * qc / (qb + sqrt (under)) : start;

  along = along < start ? start : along > end ? end : along;
  return frustum_to (2 * sensor->plate_radius, along, c + g * along);
}

/* No frustum to a piece is less than one to its nearest depth with its least clearance. */
static inline bool
piece_may_win (const struct air_sensor *sensor, int i, double along, const struct frustum *least)
{
  return frustum_to (2 * sensor->plate_radius, along, sensor->funnel_clearance[i]).square < least->square;
}

double
sensor_area (const struct air_sensor *sensor, double lift, double *slope)
{
  const int pieces = sensor->funnel_points - 1;
  const double narrowest = 4 * sensor->plate_radius * sensor->plate_radius;
  double x = lift > 0 ? lift : 0; /* above the land the overlap grows, the gap does not */
  struct frustum least;
  double slant;
  int here = 0;

  while (here + 1 < pieces && sensor->funnel_depth[here + 1] <= x)
    here++;
  least = frustum_to_piece (sensor, x, here);
  for (int i = here - 1; i >= 0; i--) {
    double along = x - sensor->funnel_depth[i + 1];
    if (along * along * narrowest >= least.square)
      break; /* too far upstream, whatever the clearance there */
    if (piece_may_win (sensor, i, along, &least)) {
      struct frustum f = frustum_to_piece (sensor, x, i);
      if (f.square < least.square)
        least = f;
    }
  }
  for (int i = here + 1; i < pieces && piece_may_win (sensor, i, sensor->funnel_depth[i] - x, &least); i++) {
    struct frustum f = frustum_to_piece (sensor, x, i);
    if (f.square < least.square)
      least = f;
  }
  slant = sqrt (least.slant2);
  if (slope)
    *slope = lift > 0 ? -PI * least.along / slant * least.width : 0;
  return PI * slant * least.width;
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
  double speed = drop > 0 ? 2 * drop / (laminar + sqrt (laminar * laminar + 4 * inertial * drop)) : 0;
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

/* A first guess of the lift: where the clearance alone would give the area that the flow needs. */
static double
lift_by_clearance (const struct air_sensor *sensor, const struct sensor_air *air, double flow, double drop)
{
  double needed = flow / (PI * sensor->discharge * sqrt (2 * air->density * drop));
  double before = 0, here = 0;
  int i;

  for (i = 0; i < sensor->funnel_points; i++) {
    double clearance = sensor->funnel_clearance[i];
    here = clearance * (2 * sensor->plate_radius + clearance);
    if (here >= needed)
      break;
    before = here;
  }
  if (i == 0 || i == sensor->funnel_points)
    return sensor->funnel_depth[i == 0 ? 0 : i - 1];
  return sensor->funnel_depth[i - 1]
         + (sensor->funnel_depth[i] - sensor->funnel_depth[i - 1]) * (needed - before) / (here - before);
}

double
sensor_lift_roughly (const struct air_sensor *sensor, const struct sensor_air *air, double flow, double drop)
{
  double x = lift_by_clearance (sensor, air, flow, drop), by_lift, f;

  for (int i = 0; i < 2; i++) {
    if (!(x > sensor->rest_height && x < sensor->top_stop))
      return 0.5 * (sensor->rest_height + sensor->top_stop);
    f = sensor_flow (sensor, air, x, drop, &by_lift, NULL) - flow;
    x -= f / by_lift;
  }
  return x;
}

/* Whether a Newton step past a stop means that the plate lies on it. */
static bool
lies_on (const struct air_sensor *sensor, const struct sensor_air *air, double flow, double drop, double stop, double sign)
{
  return sign * (sensor_flow (sensor, air, stop, drop, NULL, NULL) - flow) <= 0;
}

double
sensor_lift (const struct air_sensor *sensor, const struct sensor_air *air, double flow, double drop, double guess)
{
  const double rest = sensor->rest_height, top = sensor->top_stop;
  struct bracket bracket = { .low = rest, .high = top };
  double x = guess > rest && guess < top ? guess : lift_by_clearance (sensor, air, flow, drop);

  if (!(x > rest && x < top))
    x = 0.5 * (rest + top);
  while (bracket.steps < ROOT_STEPS_MAX) {
    double by_lift;
    double f = sensor_flow (sensor, air, x, drop, &by_lift, NULL) - flow;
    double newton = x - f / by_lift, next;

    if (fabs (f) <= FLOW_TOLERANCE * flow)
      break;
    if (bracket.low == rest && newton <= rest && lies_on (sensor, air, flow, drop, rest, -1))
      return rest;
    if (bracket.high == top && newton >= top && lies_on (sensor, air, flow, drop, top, 1))
      return top;
    next = bracket_next (&bracket, x, f, by_lift);
    if (fabs (next - x) <= LIFT_STEP)
      return next;
    x = next;
  }
  return x;
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
