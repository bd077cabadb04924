#include "transient-events.h"
#include "store.h"

#define CORNER_BAND 500.0 /* Pa: so far back before a corner counts as left, that resting on it makes no events */
#define STOP_BAND 1e-8 /* m: a plate let go on its stop begins inside of it, or falling back it would pass unseen */
#define STALL_SPEED 3.0 /* rad/s: an engine without starter that turns slower stands */

static double
rest_root (const struct model *m, const double *y, const struct flows *f)
{
  const struct air_sensor *sensor = &m->car.sensor;

  if (m->now.plate == PLATE_FREE)
    return y[PLATE_LIFT] - sensor->rest_height + STOP_BAND;
  return m->now.plate == PLATE_ON_REST ? f->static_force - sensor->friction : 1;
}

static double
buffer_root (const struct model *m, const double *y, const struct flows *f)
{
  const struct air_sensor *sensor = &m->car.sensor;

  if (m->now.plate == PLATE_FREE)
    return sensor->top_stop - y[PLATE_LIFT] + STOP_BAND;
  return m->now.plate == PLATE_ON_BUFFER ? -f->static_force - sensor->friction : 1;
}

static double
contact_height (const struct model *m, const double *y)
{
  return y[PLATE_LIFT] - m->car.sensor.rest_height - m->car.start.contact_lift;
}

static double
shutoff_height (const struct model *m, const struct flows *f)
{
  const struct fuel_supply *supply = &m->car.supply;

  return f->system_pressure - (m->now.shutoff_open ? supply->shutoff_closing : supply->shutoff_opening);
}

void
transient_roots (const void *data, double time, const double *y, double *root)
{
  const struct model *m = data;
  const struct machine_snapshot *now = &m->now;
  const struct start_gear *start = &m->car.start;
  struct flows f;

  model_flows (m, time, y, &f);
  root[EVENT_REST] = rest_root (m, y, &f);
  root[EVENT_BUFFER] = buffer_root (m, y, &f);
  root[EVENT_CONTACT] = contact_height (m, y);
  root[EVENT_SHUTOFF] = shutoff_height (m, &f);
  root[EVENT_SWITCH] = now->switch_closed ? start->switch_opening - y[SWITCH_TEMPERATURE] : 1;
  root[EVENT_STARTER] = now->starter_engaged ? start->starter_release - y[ENGINE_SPEED] : 1;
  root[EVENT_STALL] = now->turning && !now->starter_engaged ? y[ENGINE_SPEED] - STALL_SPEED : 1;
  root[EVENT_PULSE] = start->pulse_speed > 0 ? y[ENGINE_SPEED] - start->pulse_speed : 1;
  root[EVENT_VENT] = f.system_pressure + m->car.store.vent_opening - (now->venting ? CORNER_BAND : 0);
  root[EVENT_VAPOUR] = store_filled_pressure (&m->car.store, f.filling) - f.vapour_pressure
                       - (now->boiling ? CORNER_BAND : 0);
  root[EVENT_CONTROL_VAPOUR] = y[CONTROL_PRESSURE] - f.control_vapour - (now->control_boiling ? CORNER_BAND : 0);
}

/* The plate meets a stop: no bounce. It stays free where the force already draws it away again. */
static void
meet_stop (struct model *m, double time, double *y, enum plate_mode stop, double lift)
{
  struct flows f;

  y[PLATE_LIFT] = lift;
  y[PLATE_SPEED] = 0;
  model_flows (m, time, y, &f);
  if (stop == PLATE_ON_REST ? f.static_force <= m->car.sensor.friction : f.static_force >= -m->car.sensor.friction)
    m->now.plate = stop;
}

static void
stand_still (struct model *m, double *y)
{
  m->now.turning = 0;
  y[ENGINE_SPEED] = 0;
}

void
model_switch (struct model *m, const int passed[EVENTS], double time, double y[UNKNOWNS])
{
  struct machine_snapshot *now = &m->now;
  const struct air_sensor *sensor = &m->car.sensor;

  if (passed[EVENT_CONTACT])
    now->contact_open = passed[EVENT_CONTACT] > 0;
  if (passed[EVENT_SHUTOFF])
    now->shutoff_open = passed[EVENT_SHUTOFF] > 0;
  if (passed[EVENT_SWITCH])
    now->switch_closed = 0;
  if (passed[EVENT_VENT])
    now->venting = passed[EVENT_VENT] < 0;
  if (passed[EVENT_VAPOUR])
    now->boiling = passed[EVENT_VAPOUR] < 0;
  if (passed[EVENT_CONTROL_VAPOUR])
    now->control_boiling = passed[EVENT_CONTROL_VAPOUR] < 0;
  if (passed[EVENT_PULSE])
    now->pulses = passed[EVENT_PULSE] > 0;
  if (passed[EVENT_STARTER]) {
    now->starter_engaged = 0;
    now->starter_spent = 1;
  }
  if (passed[EVENT_STALL] < 0)
    stand_still (m, y);
  if (now->plate != PLATE_FREE && (passed[EVENT_REST] > 0 || passed[EVENT_BUFFER] > 0))
    now->plate = PLATE_FREE;
  else if (now->plate == PLATE_FREE && passed[EVENT_REST] < 0)
    meet_stop (m, time, y, PLATE_ON_REST, sensor->rest_height);
  else if (now->plate == PLATE_FREE && passed[EVENT_BUFFER] < 0)
    meet_stop (m, time, y, PLATE_ON_BUFFER, sensor->top_stop);
  now->events++;
}

static double
throttle_now (const struct model *m, double time, const double *y)
{
  struct flows f;

  model_flows (m, time, y, &f);
  return f.throttle;
}

void
model_take_inputs (struct model *m, const struct machine_inputs *inputs, double time, double y[UNKNOWNS])
{
  struct machine_snapshot *now = &m->now;
  double throttle = throttle_now (m, time, y);
  bool cranked = now->inputs.key && now->inputs.crank, cranks = inputs->key && inputs->crank;

  if (inputs->throttle != now->inputs.throttle) {
    now->throttle_from = throttle;
    now->ramp_start = time;
    now->ramp_end = time + inputs->throttle_time;
  }
  now->inputs = *inputs;
  if (cranks && !cranked) {
    now->turning = now->starter_engaged = 1;
    now->starter_spent = 0;
    now->switch_closed = y[SWITCH_TEMPERATURE] < m->car.start.switch_opening;
  } else if (!cranks) {
    now->starter_engaged = now->starter_spent = 0;
    if (now->turning && y[ENGINE_SPEED] < STALL_SPEED)
      stand_still (m, y);
  }
}
