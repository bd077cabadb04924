/* What moves: from the state to places in the frames. */
#include "scene-plan.h"

#include "bimetal.h"

#include <math.h>

#define MM 1000.0 /* millimetres a metre */

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
  pose->control_edge = d->slot_bottom + fmin (h * d->plunger_factor, PLAN_SLOT_ROOM);
  pose->plunger_foot = d->plunger_foot + h;
  for (int i = 0; i < scene->car->cylinders; i++)
    pose->valve[i] = fmin (state->cylinder[i].valve_opening * MM * d->valve_factor, PLAN_VALVE_ROOM);
  bend = strip_lift (&scene->car->control, state->bimetal_temperature) * w->strip_factor;
  pose->strip_free = w->strip_y + bend;
  pose->strip_tip = w->strip_y + fmax (bend, 0);
  pose->load = w->lower_stop + fmin (state->load_position * MM, w->load_travel) * w->load_factor;
  pose->relief = fmin (1, state->relief_flow / fmax (1e-9, scene->car->supply.pump_flow));
}
