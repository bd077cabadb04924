#include "scene-plan.h"

#include "bimetal.h"

#include <math.h>

#define PI 3.14159265358979323846
#define MM 1000.0 /* millimetres a metre */

/* Proportions of our own, in millimetres. */
#define UPPER_CHAMBER 18.0
#define LOWER_CHAMBER 12.0
#define WARMUP_WIDTH 66.0
#define WARMUP_HEIGHT 92.0

static double
rounded_down (double factor)
{
  static const double steps[] = { 1, 1.5, 2, 3, 4, 5 };
  double decade, best;

  if (!(factor > 1))
    return 1;
  decade = pow (10, floor (log10 (factor)));
  best = decade;
  for (unsigned i = 0; i < sizeof steps / sizeof steps[0]; i++)
    if (steps[i] * decade <= factor * (1 + 1e-9))
      best = steps[i] * decade;
  return best;
}

double
plan_funnel_radius (const struct sensor_plan *sensor, double depth)
{
  if (depth <= sensor->depth[0])
    return sensor->radius[0];
  for (int i = 1; i < sensor->points; i++)
    if (depth <= sensor->depth[i]) {
      double part = (depth - sensor->depth[i - 1]) / (sensor->depth[i] - sensor->depth[i - 1]);
      return sensor->radius[i - 1] + part * (sensor->radius[i] - sensor->radius[i - 1]);
    }
  return sensor->radius[sensor->points - 1];
}

int
plan_left_cylinder (const struct scene *scene)
{
  return scene->car->cylinders / 2;
}

static void
plan_funnel (const struct air_sensor *car, struct sensor_plan *sensor)
{
  sensor->points = car->funnel_points;
  for (int i = 0; i < sensor->points; i++) {
    sensor->depth[i] = car->funnel_depth[i] * MM;
    sensor->radius[i] = sensor->plate_radius + car->funnel_clearance[i] * MM;
  }
  sensor->outlet_depth = fmax (sensor->depth[sensor->points - 1], sensor->top_stop) + 10;
  sensor->outlet_radius = sensor->radius[sensor->points - 1] + 1;
  sensor->inlet_height = 22;
  sensor->inlet_radius = sensor->radius[0] + 9;
  sensor->wall = PLAN_WALL;
  sensor->window_depth = 6.5;
}

static void
plan_sensor (const struct car *car, struct sensor_plan *sensor)
{
  double swing;

  sensor->opening = car->direction == PLATE_LIFTED ? 1 : -1;
  sensor->plate_radius = car->sensor.plate_radius * MM;
  sensor->plate_thickness = car->sensor.plate_thickness * MM;
  sensor->plate_arm = car->sensor.plate_arm * MM;
  sensor->roller_arm = car->sensor.roller_arm * MM;
  sensor->roller_x = car->direction == PLATE_LIFTED ? -sensor->roller_arm : sensor->roller_arm;
  sensor->roller_radius = fmin (5, 0.28 * sensor->roller_arm);
  sensor->boss_radius = fmin (8, 0.4 * sensor->roller_arm);
  sensor->funnel_x = -sensor->plate_arm;
  sensor->top_stop = car->sensor.top_stop * MM;
  plan_funnel (&car->sensor, sensor);

  sensor->weight_width = 22;
  sensor->weight_height = 19;
  sensor->weight_x = fmax (sensor->roller_x, 0) + (car->direction == PLATE_LIFTED ? 34 : 24);
  sensor->weight_y = car->direction == PLATE_LIFTED ? -3 : -11;
  swing = sensor->top_stop / sensor->plate_arm;

  sensor->left = sensor->funnel_x - sensor->outlet_radius - PLAN_WALL;
  sensor->right = sensor->weight_x + sensor->weight_width / 2 + PLAN_WALL + 5;
  if (car->direction == PLATE_LIFTED) {
    double reach = 62 - sensor->roller_x;
    sensor->deck = fmax (14, 2.4 + 3.5 + swing * reach + 5);
    sensor->floor = sensor->weight_y - sensor->weight_height / 2 - swing * (sensor->weight_x + 11) - 3;
  } else {
    sensor->deck = 12;
    sensor->floor = -sensor->outlet_depth + 5;
  }
  sensor->base = sensor->deck + 6;
}

static void
plan_distributor (const struct car *car, double asked, const struct sensor_plan *sensor, struct distributor_plan *plan)
{
  const struct fuel_distributor *d = &car->distributor;
  double slot = 0, most;

  for (int i = 0; i < car->cylinders; i++)
    slot = fmax (slot, d->slot_height[i] * MM);
  plan->x = sensor->roller_x;
  plan->bottom = sensor->base;
  plan->plunger_radius = d->plunger_diameter * MM / 2;
  plan->barrel_radius = plan->plunger_radius + 4;
  plan->chamber_radius = fmin (sqrt (d->valve_area / PI) * MM, 16);
  plan->chamber_x = plan->barrel_radius + 4 + plan->chamber_radius;
  plan->lower_depth = LOWER_CHAMBER;
  plan->upper_depth = UPPER_CHAMBER;
  plan->diaphragm = plan->bottom + 6 + LOWER_CHAMBER;
  plan->top = plan->diaphragm + UPPER_CHAMBER + 9;
  most = rounded_down (PLAN_SLOT_ROOM / slot);
  plan->plunger_factor = asked > 0 ? fmin (fmax (asked, 1), PLAN_SLOT_ROOM / slot) : most;
  plan->valve_factor = rounded_down (PLAN_VALVE_ROOM / (d->valve_travel * MM));
  plan->slot_bottom = plan->diaphragm + 1.5;
  plan->slot_height = slot * plan->plunger_factor;
  plan->land = PLAN_SLOT_ROOM + 2;
  plan->plunger_foot = sensor->roller_radius + car->sensor.play * MM * sensor->roller_arm / sensor->plate_arm;
  plan->bore_top = plan->slot_bottom + 2 * PLAN_SLOT_ROOM + 5;
  plan->cap_top = plan->bore_top + 10;
  plan->half_width = plan->chamber_x + plan->chamber_radius + 4;
  plan->ring = plan->bottom + 10;
  plan->passage = plan->diaphragm + UPPER_CHAMBER + 4.5;
  plan->riser_x = plan->half_width + 4;
  plan->union_x = plan->half_width + 9;
  plan->regulator_x = plan->union_x;
  plan->regulator_end = plan->regulator_x + 40;
  plan->seat_radius = fmax (d->valve_seat_diameter * MM / 2, 0.8);
}

static void
plan_regulator (const struct car *car, struct warmup_plan *plan)
{
  const struct control_circuit *control = &car->control;
  double slope;

  plan->width = WARMUP_WIDTH;
  plan->height = WARMUP_HEIGHT;
  plan->seat_x = 22;
  plan->seat_y = 74;
  plan->retainer_y = 66;
  plan->strip_length = fmin (control->bimetal_length * MM, 46);
  plan->strip_thickness = control->bimetal_thickness * MM;
  plan->clamp_x = plan->seat_x + 7 + plan->strip_length;
  plan->width = fmax (plan->width, plan->clamp_x + 11);
  plan->strip_y = plan->retainer_y;
  slope = fabs (bimetal_deflection (bimetal_curvature (control->bimetal_expansion, 1, control->bimetal_thickness, 1, 1),
                                    control->bimetal_length)) * MM;
  plan->strip_factor = rounded_down (6 / fmax (1e-9, slope * 100));
  plan->load_stage = control->load_spring_rate > 0;
  plan->load_travel = fmin (control->load_travel * MM, 10);
  plan->load_factor = rounded_down (6 / fmax (plan->load_travel, 0.1));
  plan->lower_stop = 14;
  plan->rim = plan->lower_stop + 0.5 * plan->load_travel * plan->load_factor - 1;
  plan->inner_seat_y = 36;
  plan->vacuum_y = 46;
  plan->return_x = plan->width - 12;
}

void
plan_make (const struct scene *scene, struct plan *plan)
{
  *plan = (struct plan) { 0 };
  plan->unit = fmin (scene->width / 1240, scene->height / 500);
  plan_sensor (scene->car, &plan->sensor);
  plan_distributor (scene->car, scene->magnifier, &plan->sensor, &plan->distributor);
  plan_regulator (scene->car, &plan->regulator);
  plan_arrange (scene, plan);
}
