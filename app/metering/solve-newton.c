#include "control.h"
#include "solve-private.h"

#include <math.h>

#define PI 3.14159265358979323846
#define STEPS_MAX 12
#define FLOW_TOLERANCE 1e-11 /* of the pump's delivery */
#define SETTLED 1e-7         /* relative step of the inner unknowns; the one after it is below 1e-13 */
#define LIFT_SCALE 1e-4      /* m: near the land's edge, where lift passes through 0 */

/* Derivatives that the elimination needs, by system pressure. */
struct slopes {
  double control; /* of the control pressure */
  double lift;    /* of the plate's lift */
};

/* Control circuit and return at the trial's pressure and return flow, the return flow improved by its own Newton step.
 * Returns its slope by system pressure. */
static double
step_return (const struct problem *p, struct trial *t, struct slopes *slopes)
{
  const struct control_circuit *control = &p->car->control;
  const struct fuel_supply *supply = &p->car->supply;
  double back = 2 * supply->return_resistance * t->return_flow; /* of return pressure by return flow */
  double relief_slope, base_slope = 0, control_slope = 0, flow, slope;

  t->return_pressure = supply->return_resistance * t->return_flow * t->return_flow;
  t->relief_flow = supply_relief_flow (supply, t->system_pressure, t->return_pressure);
  relief_slope = t->relief_flow > 0 ? 1 / supply->regulator_rate : 0;
  t->base_pressure = control_base_pressure (control, p->bimetal_force, p->load_force, t->return_pressure);
  if (t->base_pressure > control->floor_pressure && t->base_pressure > t->return_pressure)
    base_slope = -(control->diaphragm_area - control->seat_area) / control->seat_area;
  t->control_pressure = control_pressure_at (t->system_pressure, t->base_pressure, p->orifice, control->flow_rate, false,
                                             &t->control_flow, &t->control_by_system);
  if (t->control_flow > 0) /* flow by pressure; the orifice's law, for a regulator may be ideal (flow_rate 0) */
    control_slope = 0.5 * t->control_flow * (1 - t->control_by_system) / (t->system_pressure - t->control_pressure);
  /* return flow = relief (p_s, back) + control (p_s, back) */
  flow = t->relief_flow + t->control_flow;
  slope = 1 + back * (relief_slope + control_slope * base_slope);
  t->return_flow += (flow - t->return_flow) / slope;
  slope = (relief_slope + control_slope) / slope;
  slopes->control = t->control_by_system + (1 - t->control_by_system) * base_slope * back * slope;
  return slope;
}

/* One Newton step of the plate's lift; false on a stop. */
static bool
step_lift (const struct problem *p, struct trial *t, struct slopes *slopes, double *change)
{
  const struct air_sensor *sensor = &p->car->sensor;
  double area = PI * sensor->plate_radius * sensor->plate_radius, by_lift, by_drop, flow;

  t->plunger_force = t->control_pressure * p->plunger_area + p->car->distributor.counter_spring;
  t->balance_drop = t->drop = sensor_balance_drop (sensor, t->plunger_force, p->conditions->approach);
  if (!(t->drop > 0))
    return false;
  flow = sensor_flow (sensor, &p->air, t->lift, t->drop, &by_lift, &by_drop);
  *change = (p->conditions->air_flow - flow) / by_lift;
  t->lift += *change;
  slopes->lift = -by_drop / by_lift * p->plunger_area * sensor->roller_arm / (sensor->plate_arm * area)
                 * slopes->control;
  return t->lift > sensor->rest_height && t->lift < sensor->top_stop;
}

/* The state that the last step left, made exact in what follows explicitly from pressure, lift and valves. */
static void
finish (const struct problem *p, struct trial *t, const double *valve)
{
  t->fuel_flow = 0;
  t->plunger_lift = sensor_plunger_lift (&p->car->sensor, t->lift, p->offset);
  for (int i = 0; i < p->car->cylinders; i++) {
    double opening = distributor_slot_opening (&p->car->distributor, i, t->plunger_lift);
    distributor_finish (&p->car->distributor, &p->fuel, i, opening, t->system_pressure, valve[i], &t->cylinder[i]);
    t->fuel_flow += t->cylinder[i].flow;
  }
}

bool
newton_solve (const struct problem *p, struct trial *t, double pressure_guess)
{
  const struct car *car = p->car;
  const struct fuel_distributor *d = &car->distributor;
  const double seat = distributor_seat (d, &p->fuel), lever = car->sensor.roller_arm / car->sensor.plate_arm;
  double valve[CYLINDERS_MAX] = { 0 };
  struct slopes slopes;

  if (p->conditions->held || p->conditions->tap_shut || p->conditions->air_flow <= 0)
    return false;
  t->system_pressure = pressure_guess;
  t->return_flow = 0;
  step_return (p, t, &slopes);
  step_return (p, t, &slopes);
  t->plunger_force = t->control_pressure * p->plunger_area + d->counter_spring;
  t->drop = sensor_balance_drop (&car->sensor, t->plunger_force, p->conditions->approach);
  if (!(t->drop > 0))
    return false;
  t->lift = sensor_lift_roughly (&car->sensor, &p->air, p->conditions->air_flow, t->drop);
  for (int step = 0; step < STEPS_MAX; step++) {
    double return_slope = step_return (p, t, &slopes), lift_change, pump_slope, worst, fuel = 0, change;
    double by_pressure[CYLINDERS_MAX], by_opening = 0, by_pressure_all = 0, valve_by_opening[CYLINDERS_MAX];
    double lift_by_pressure, defect;

    if (t->relief_flow <= 0 || t->control_flow <= 0 || !step_lift (p, t, &slopes, &lift_change))
      return false;
    worst = fabs (lift_change) / fmax (fabs (t->lift), LIFT_SCALE);
    t->plunger_lift = sensor_plunger_lift (&car->sensor, t->lift, p->offset);
    for (int i = 0; i < car->cylinders; i++) {
      double opening = distributor_slot_opening (d, i, t->plunger_lift);
      struct distributor_step s = { 0 };

      by_pressure[i] = valve_by_opening[i] = 0;
      if (opening <= 0) {
        valve[i] = 0;
        continue;
      }
      if (!distributor_step (d, &p->fuel, i, seat, opening, t->system_pressure, valve[i], &s))
        return false;
      worst = fmax (worst, fabs (s.valve_opening - valve[i]) / s.valve_opening);
      valve[i] = s.valve_opening;
      by_pressure[i] = s.valve_by_pressure;
      by_pressure_all += s.by_pressure;
      if (opening < d->slot_height[i]) {
        valve_by_opening[i] = s.valve_by_opening;
        by_opening += s.by_opening;
      }
      fuel += s.flow;
    }
    t->pump_flow = supply_pump_flow (&p->pump, t->system_pressure, &pump_slope, NULL);
    lift_by_pressure = t->plunger_lift > 0 ? lever * slopes.lift : 0;
    defect = fuel + t->relief_flow + t->control_flow - t->pump_flow;
    if (fabs (defect) <= FLOW_TOLERANCE * t->pump_flow && worst <= SETTLED) {
      finish (p, t, valve);
      return true;
    }
    defect = fuel + t->return_flow - t->pump_flow;
    change = -defect / (pump_slope + return_slope + by_pressure_all + by_opening * lift_by_pressure);
    t->system_pressure += change;
    if (!(t->system_pressure > 0))
      return false;
    t->return_flow += return_slope * change;
    t->lift += slopes.lift * change;
    for (int i = 0; i < car->cylinders; i++)
      valve[i] += (by_pressure[i] + valve_by_opening[i] * lift_by_pressure) * change;
  }
  return false;
}
