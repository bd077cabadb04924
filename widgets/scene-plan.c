#include "scene-plan.h"

#include "scene-text.h"

#include "bimetal.h"

#include <math.h>

#define PI 3.14159265358979323846
#define MM 1000.0 /* millimetres a metre */

/* Proportions of our own, in millimetres. */
#define WALL 5.0
#define UPPER_CHAMBER 18.0
#define LOWER_CHAMBER 12.0
#define SLOT_ROOM 15.0         /* largest drawn height of a slot */
#define VALVE_ROOM 10.0        /* largest drawn opening of a diaphragm */
#define WARMUP_WIDTH 66.0
#define WARMUP_HEIGHT 92.0
#define COLUMN_GAP 14.0
#define LABEL_ROOM 42.0        /* for texts left of the warm-up regulator */
#define LEGEND_ROOM 14.0       /* under the section */
#define LINES_ROOM 31.0        /* over the distributor's body: unions, cap and nozzle lines */
#define MARGIN 16.0            /* px at unit 1 */

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
  sensor->wall = WALL;
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

  sensor->left = sensor->funnel_x - sensor->outlet_radius - WALL;
  sensor->right = sensor->weight_x + sensor->weight_width / 2 + WALL + 5;
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
  most = rounded_down (SLOT_ROOM / slot);
  plan->plunger_factor = asked > 0 ? fmin (fmax (asked, 1), SLOT_ROOM / slot) : most;
  plan->valve_factor = rounded_down (VALVE_ROOM / (d->valve_travel * MM));
  plan->slot_bottom = plan->diaphragm + 1.5;
  plan->slot_height = slot * plan->plunger_factor;
  plan->land = SLOT_ROOM + 2;
  plan->plunger_foot = sensor->roller_radius + car->sensor.play * MM * sensor->roller_arm / sensor->plate_arm;
  plan->bore_top = plan->slot_bottom + 2 * SLOT_ROOM + 5;
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

/* Extent of a drawing in the section's millimetres: the section itself, then either a column beside it or a row
 * under it, whichever comes out larger. */
struct sheet { double left, right, bottom, top, under; };

static double
row_width (const struct scene *scene, const struct plan *plan)
{
  return plan->nozzle_pitch * scene->car->cylinders;
}

static struct sheet
section_sheet (const struct plan *plan)
{
  const struct distributor_plan *d = &plan->distributor;
  const struct sensor_plan *s = &plan->sensor;
  double under = fmin (s->floor - WALL, s->opening < 0 ? -s->outlet_depth : -s->inlet_height);

  return (struct sheet) { s->left, d->x + d->regulator_end, under - LEGEND_ROOM, d->top + LINES_ROOM, under };
}

static struct sheet
beside_sheet (const struct scene *scene, const struct plan *plan)
{
  struct sheet sheet = section_sheet (plan);

  sheet.right = fmax (sheet.right + 8, plan->sensor.right + LABEL_ROOM) + COLUMN_GAP;
  sheet.right += fmax (plan->regulator.width, row_width (scene, plan)) + 2;
  sheet.bottom = fmin (sheet.bottom, plan->distributor.bottom + 8 - plan->regulator.height);
  return sheet;
}

static struct sheet
stacked_sheet (const struct plan *plan)
{
  struct sheet sheet = section_sheet (plan);

  sheet.right += 36;
  sheet.bottom = sheet.under - 16 - plan->regulator.height;
  return sheet;
}

static double
sheet_scale (const struct scene *scene, const struct plan *plan, const struct sheet *sheet, double strip)
{
  double margin = MARGIN * plan->unit;

  return fmin ((scene->width - 2 * margin) / (sheet->right - sheet->left),
               (scene->height - 1.2 * margin - strip) / (sheet->top - sheet->bottom));
}

static struct frame
frame_at (const struct frame *section, double x, double y, double side)
{
  return (struct frame) { PX (section, x), PY (section, y), section->scale, side };
}

static void
plan_frames (const struct scene *scene, struct plan *plan, const struct sheet *sheet)
{
  struct distributor_plan *d = &plan->distributor;
  double row = row_width (scene, plan), column;

  plan->under = sheet->under;
  if (plan->stacked) {
    d->corner = d->regulator_end + 10;
    plan->nozzles = frame_at (&plan->section, sheet->right - row - 2, sheet->under - 24, 1);
    plan->warmup = frame_at (&plan->section, sheet->right - row - 14, sheet->bottom, -1);
    return;
  }
  d->corner = d->regulator_end;
  column = sheet->right - 2 - fmax (plan->regulator.width, row);
  plan->nozzles = frame_at (&plan->section, column + fmax (0, plan->regulator.width - row) / 2, sheet->top - 8, 1);
  plan->warmup = frame_at (&plan->section, column + plan->regulator.width, d->bottom + 8 - plan->regulator.height, -1);
}

static void
plan_place (const struct scene *scene, struct plan *plan)
{
  struct sheet beside = beside_sheet (scene, plan), under = stacked_sheet (plan), *sheet = &beside;
  double margin = MARGIN * plan->unit, strip = scene->own_readout ? fmin (0.24 * scene->height, 190 * plan->unit) : 0;
  double scale = sheet_scale (scene, plan, &beside, strip), spare, top;

  plan->stacked = sheet_scale (scene, plan, &under, 0) > scale;
  if (plan->stacked) {
    sheet = &under;
    strip = 0;
    scale = sheet_scale (scene, plan, &under, 0);
  }
  spare = scene->height - 1.2 * margin - strip - (sheet->top - sheet->bottom) * scale;
  top = 0.6 * margin + spare / 2;
  plan->section = (struct frame) { (scene->width - (sheet->right + sheet->left) * scale) / 2, top + sheet->top * scale,
                                   scale, 1 };
  plan_frames (scene, plan, sheet);
  if (!scene->own_readout)
    return;
  plan->readout = (struct scene_box) { margin, scene->height - margin - strip, scene->width - 2 * margin, strip };
  if (plan->stacked)
    plan->readout = (struct scene_box) { PX (&plan->section, sheet->left), PY (&plan->section, sheet->under - 26),
                                         PX (&plan->warmup, plan->regulator.width + LABEL_ROOM + 12) - PX (&plan->section, sheet->left),
                                         (sheet->under - 26 - sheet->bottom) * scale };
}

static void
plan_insets (const struct scene *scene, struct plan *plan)
{
  const struct sensor_plan *s = &plan->sensor;
  const struct distributor_plan *d = &plan->distributor;
  double left = PX (&plan->section, s->left), letter = text_size (scene, plan, STYLE_NAME) / 12.5; /* 1 at unit 1 */
  double right = fmin (PX (&plan->section, s->funnel_x + s->inlet_radius - 5),
                       PX (&plan->section, d->x - d->half_width - 5) - 180 * letter);
  double least = fmin (left + 190 * letter, PX (&plan->section, d->x - d->half_width - 15));
  double bottom = PY (&plan->section, (s->opening > 0 ? s->outlet_depth : s->inlet_height) + 12);
  double top = PY (&plan->section, d->top + 31);

  right = fmax (right, least); /* the inset comes before the labels beside it */
  plan->slots = (struct scene_box) { left, top, right - left, bottom - top };
  plan->legend = (struct scene_box) { PX (&plan->section, d->x - d->half_width - 8) - 150 * plan->unit,
                                      PY (&plan->section, d->top + 30), 130 * plan->unit, 9 * plan->unit };
}

void
plan_make (const struct scene *scene, struct plan *plan)
{
  *plan = (struct plan) { 0 };
  plan->unit = fmin (scene->width / 1240, scene->height / 500);
  plan_sensor (scene->car, &plan->sensor);
  plan_distributor (scene->car, scene->magnifier, &plan->sensor, &plan->distributor);
  plan_regulator (scene->car, &plan->regulator);
  plan->nozzle_pitch = 9;
  plan_place (scene, plan);
  plan_insets (scene, plan);
}

static double
strip_lift (const struct control_circuit *control, double temperature)
{
  double above = temperature - control->release_temperature;
  double curvature = bimetal_curvature (control->bimetal_expansion, above, control->bimetal_thickness, 1, 1);

  return bimetal_deflection (curvature, control->bimetal_length) * MM;
}

void
pose_make (const struct scene *scene, const struct plan *plan, struct pose *pose)
{
  const struct sensor_plan *s = &plan->sensor;
  const struct distributor_plan *d = &plan->distributor;
  const struct warmup_plan *w = &plan->regulator;
  const struct state *state = scene->state;
  double lift = state->plate_lift * MM, h = state->plunger_lift * MM, bend;

  pose->angle = -s->opening * lift / s->plate_arm;
  pose->plate_x = -s->plate_arm * cos (pose->angle);
  pose->plate_y = -s->plate_arm * sin (pose->angle);
  pose->roller_x = s->roller_x * cos (pose->angle);
  pose->roller_y = s->roller_x * sin (pose->angle);
  pose->control_edge = d->slot_bottom + fmin (h * d->plunger_factor, SLOT_ROOM);
  pose->plunger_foot = d->plunger_foot + h;
  for (int i = 0; i < scene->car->cylinders; i++)
    pose->valve[i] = fmin (state->cylinder[i].valve_opening * MM * d->valve_factor, VALVE_ROOM);
  bend = strip_lift (&scene->car->control, state->bimetal_temperature) * w->strip_factor;
  pose->strip_free = w->strip_y + bend;
  pose->strip_tip = w->strip_y + fmax (bend, 0);
  pose->load = w->lower_stop + fmin (state->load_position * MM, w->load_travel) * w->load_factor;
  pose->relief = fmin (1, state->relief_flow / fmax (1e-9, scene->car->supply.pump_flow));
}
