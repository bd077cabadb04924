#include "solve.h"
#include "air.h"
#include "control.h"
#include "distributor.h"
#include "fuel.h"
#include "parameter.h"
#include "root.h"
#include "sensor.h"
#include "solve-private.h"
#include "supply.h"

#include <float.h>
#include <math.h>
#include <string.h>

#define PI 3.14159265358979323846
#define RESIDUAL_MOST 1e-9      /* what a solution must keep; reached is 1e-12 and better */
#define FLOW_TOLERANCE 1e-12    /* of the pump's delivery: fuel in against fuel out */
#define CHOKING_SHARE 0.5       /* of ambient pressure: no plate drop beyond it is computed */
#define STALLED 1e-2            /* of its free delivery: a pump almost against shut valves, whose flow is rounding */
#define SCAN_POINTS 16
#define CREST_STEPS 16          /* of the golden section towards a crest between two scanned points */

/* -- the control circuit and the return ------------------------------------------------------------------------- */

static void
control_at_return (const struct problem *p, struct trial *t, double return_pressure)
{
  const struct control_circuit *control = &p->car->control;

  t->return_pressure = return_pressure;
  t->relief_flow = supply_relief_flow (&p->car->supply, t->system_pressure, return_pressure);
  t->base_pressure = control_base_pressure (control, p->bimetal_force, p->load_force, return_pressure);
  if (problem_holds (p, HOLD_CONTROL_PRESSURE)) {
    double over = t->system_pressure - p->conditions->held_control_pressure;
    t->control_pressure = p->conditions->held_control_pressure;
    t->control_by_system = 0;
    t->control_flow = over > 0 && !p->conditions->tap_shut ? p->orifice * sqrt (over) : 0;
  } else {
    t->control_pressure = control_pressure_at (t->system_pressure, t->base_pressure, p->orifice, control->flow_rate,
                                               p->conditions->tap_shut, &t->control_flow, &t->control_by_system);
  }
}

/* Return flow = relief + control flow at the return pressure that it makes itself. */
static void
solve_return (const struct problem *p, struct trial *t)
{
  double resistance = p->car->supply.return_resistance;
  double flow;
  struct bracket bracket = { 0 };

  control_at_return (p, t, t->return_given ? t->return_pressure : 0);
  flow = t->relief_flow + t->control_flow;
  if (resistance > 0 && flow > 0 && !t->return_given) {
    /* The relief falls with the return pressure, the control flow may rise: to what the orifice passes at most */
    bracket.high = 2 * flow + p->orifice * sqrt (t->system_pressure);
    while (bracket.steps < ROOT_STEPS_MAX) {
      double slope, next, defect;

      control_at_return (p, t, resistance * flow * flow);
      defect = flow - t->relief_flow - t->control_flow;
      slope = 1 + (t->relief_flow > 0 ? 2 * resistance * flow / p->car->supply.regulator_rate : 0);
      if (fabs (defect) <= 1e-14 * flow)
        break;
      next = bracket_next (&bracket, flow, defect, slope);
      if (next == flow)
        break;
      flow = next;
    }
  }
  t->return_flow = flow;
}

/* -- the plate and the plunger ------------------------------------------------------------------------------------ */

/* Plate lift under the present control pressure; *by_control its derivative. */
static void
solve_plate (const struct problem *p, struct trial *t, double guess, double *by_control)
{
  const struct air_sensor *sensor = &p->car->sensor;
  double flow = p->conditions->air_flow, by_lift, by_drop;

  *by_control = 0;
  t->plunger_force = t->control_pressure * p->plunger_area + p->car->distributor.counter_spring;
  t->balance_drop = t->drop = sensor_balance_drop (sensor, t->plunger_force, p->conditions->approach);
  t->at_rest = t->at_buffer = false;
  if (problem_holds (p, HOLD_PLATE)) {
    t->lift = p->conditions->held_lift;
  } else if (flow <= 0) {
    t->lift = sensor->rest_height;
    t->drop = 0;
    t->at_rest = true;
  } else {
    t->lift = t->drop > 0 ? sensor_lift (sensor, &p->air, flow, t->drop, guess) : sensor->top_stop;
    t->at_rest = t->lift <= sensor->rest_height;
    t->at_buffer = t->lift >= sensor->top_stop;
    if (t->at_rest || t->at_buffer) {
      t->drop = sensor_drop (sensor, &p->air, t->lift, flow);
    } else {
      sensor_flow (sensor, &p->air, t->lift, t->drop, &by_lift, &by_drop);
      *by_control = -by_drop / by_lift * p->plunger_area * sensor->roller_arm
                    / (sensor->plate_arm * PI * sensor->plate_radius * sensor->plate_radius);
    }
  }
  t->plunger_lift = sensor_plunger_lift (sensor, t->lift, p->offset);
}

/* -- one trial ----------------------------------------------------------------------------------------------------- */

/* How the return flow goes with the system pressure: relief and control orifice open wider, the return pressure that
 * they make shuts the relief again. */
static double
return_slope (const struct problem *p, const struct trial *t)
{
  const struct fuel_supply *supply = &p->car->supply;
  double relief = t->relief_flow > 0 ? 1 / supply->regulator_rate : 0, control = 0;

  if (t->control_flow > 0)
    control = (1 - t->control_by_system) * 0.5 * t->control_flow / (t->system_pressure - t->control_pressure);
  return (relief + control) / (1 + 2 * supply->return_resistance * t->return_flow * relief);
}

/* Everything at one system pressure. Returns what leaves less what the pump delivers (rising with the pressure but for
 * the cases that lowest_root is for); *slope its derivative. */
static double
try_pressure (const struct problem *p, struct trial *t, double system_pressure, double *slope)
{
  const struct car *car = p->car;
  double by_control, lever = car->sensor.roller_arm / car->sensor.plate_arm, pump_slope;
  double by_pressure = 0, by_opening = 0;

  t->system_pressure = system_pressure;
  solve_return (p, t);
  solve_plate (p, t, t->lift, &by_control);
  t->fuel_flow = 0;
  for (int i = 0; i < car->cylinders; i++) {
    double opening = distributor_slot_opening (&car->distributor, i, t->plunger_lift), pressure_part, opening_part;

    distributor_cylinder (&car->distributor, &p->fuel, i, opening, system_pressure, &t->cylinder[i], &pressure_part,
                          &opening_part);
    t->fuel_flow += t->cylinder[i].flow;
    by_pressure += pressure_part;
    if (opening < car->distributor.slot_height[i])
      by_opening += opening_part;
  }
  t->pump_flow = supply_pump_flow (&p->pump, system_pressure, &pump_slope, NULL);
  *slope = pump_slope + return_slope (p, t) + by_pressure
           + by_opening * lever * by_control * t->control_by_system;
  return t->fuel_flow + t->return_flow - t->pump_flow;
}

/* The root between low (more delivered than leaves) and high. */
static void
root_between (const struct problem *p, struct trial *t, double low, double high, double guess)
{
  struct bracket bracket = { .low = low, .high = high };
  double pressure = guess > low && guess < high ? guess : 0.5 * (low + high);
  double last_pressure = 0, last_defect = 0;

  for (;;) {
    double slope, defect = try_pressure (p, t, pressure, &slope), next;

    /* The slope leaves out small couplings; two trials know them all */
    if (bracket.steps > 0 && (defect - last_defect) / (pressure - last_pressure) > 0.5 * slope)
      slope = (defect - last_defect) / (pressure - last_pressure);
    last_pressure = pressure;
    last_defect = defect;
    if (fabs (defect) <= FLOW_TOLERANCE * t->pump_flow || bracket.steps >= ROOT_STEPS_MAX)
      return;
    next = bracket_next (&bracket, pressure, defect, slope);
    if (fabs (next - pressure) <= DBL_EPSILON * pressure)
      return; /* two neighbouring numbers bracket the root: no better one exists */
    pressure = next;
  }
}

/* Whether the slots could swallow the delivery at some pressure below a root whose relief is open. Below it the control
 * pressure is not less than at the nozzles' opening, where the plate stands highest; the valves never hold more than the
 * drop at no flow; and the delivery is least at the root. So: would the plate, at that least control pressure, have to
 * stand higher than where the slots pass that much? */
static bool
lower_root_possible (const struct problem *p, const struct trial *root)
{
  const struct car *car = p->car;
  const struct air_sensor *sensor = &car->sensor;
  struct trial t = { .system_pressure = root->system_pressure };
  double spare = root->pump_flow - 2 * root->control_flow, by_height = 0, height, lift, drop;

  for (int i = 0; i < car->cylinders; i++) {
    const struct fuel_distributor *d = &car->distributor;
    t.system_pressure = fmin (t.system_pressure, d->nozzle_opening[i]);
    by_height += d->slot_discharge * d->slot_width[i] * sqrt (2 * d->valve_drop[i] / p->fuel.density);
    spare += fmin (d->slot_edge[i], 0) * by_height; /* an edge that lies low opens early */
  }
  height = spare / by_height; /* of every slot, so that they could pass it all */
  if (!(height > 0))
    return true;
  if (problem_holds (p, HOLD_PLATE))
    return sensor_plunger_lift (sensor, p->conditions->held_lift, p->offset) >= height;
  control_at_return (p, &t, 0);
  drop = sensor_balance_drop (sensor,
                              fmin (t.control_pressure, root->control_pressure) * p->plunger_area
                                  + car->distributor.counter_spring,
                              p->conditions->approach);
  lift = sensor->play + (height - p->offset) * sensor->plate_arm / sensor->roller_arm;
  if (lift >= sensor->top_stop)
    return false;
  return drop <= 0 || sensor_flow (sensor, &p->air, lift, drop, NULL, NULL) < p->conditions->air_flow;
}

/* Pressures to look at on the way up to a root: even steps, where the cylinders begin to inject and where their valves begin
 * to hold the drop, where regulators open. Sorted; returns their number. */
static int
scan_points (const struct problem *p, const struct trial *t, double points[])
{
  const struct fuel_distributor *d = &p->car->distributor;
  int count = 0;

  for (int i = 1; i <= SCAN_POINTS; i++)
    points[count++] = t->system_pressure * i / (SCAN_POINTS + 1);
  for (int i = 0; i < p->car->cylinders; i++) {
    points[count++] = d->nozzle_opening[i];
    points[count++] = d->nozzle_opening[i] + d->nozzle_rate[i] * t->cylinder[i].flow + 1.2 * d->valve_drop[i];
  }
  points[count++] = t->base_pressure;
  points[count++] = p->car->supply.regulator_opening;
  for (int i = 1; i < count; i++) /* insertion sort: a handful */
    for (int j = i; j > 0 && points[j] < points[j - 1]; j--) {
      double swap = points[j];
      points[j] = points[j - 1];
      points[j - 1] = swap;
    }
  return count;
}

/* Whether the surplus, under 0 at both ends, crests above 0 between low and high: then *at. Golden section. */
static bool
crests (const struct problem *p, struct trial *t, double low, double high, double *at)
{
  const double golden = 0.61803398874989485;
  double left = high - golden * (high - low), right = low + golden * (high - low), slope;
  double at_left = try_pressure (p, t, left, &slope), at_right = try_pressure (p, t, right, &slope);

  for (int i = 0; i < CREST_STEPS && at_left <= 0 && at_right <= 0; i++)
    if (at_left > at_right) {
      high = right;
      right = left;
      at_right = at_left;
      left = high - golden * (high - low);
      at_left = try_pressure (p, t, left, &slope);
    } else {
      low = left;
      left = right;
      at_left = at_right;
      right = low + golden * (high - low);
      at_right = try_pressure (p, t, right, &slope);
    }
  *at = at_left > 0 ? left : right;
  return at_left > 0 || at_right > 0;
}

/* Where control pressure hangs on system pressure there can be three roots; the one that start-up reaches is the lowest.
 * Scans up to a root found and takes the first change of sign, looking closer where the surplus has a crest. */
static void
lowest_root (const struct problem *p, struct trial *t)
{
  double top = t->system_pressure, points[SCAN_POINTS + 2 * CYLINDERS_MAX + 2], slope, at;
  double before = 0, here = 0, before_surplus = -INFINITY, here_surplus = -INFINITY; /* the last two, under 0 */
  int count = scan_points (p, t, points);

  for (int i = 0; i < count && points[i] < top; i++) {
    double surplus;

    if (points[i] <= here)
      continue;
    surplus = try_pressure (p, t, points[i], &slope);

    if (surplus <= 0 && here_surplus > before_surplus && here_surplus > surplus
        && crests (p, t, before, points[i], &at)) {
      root_between (p, t, before, at, 0.5 * (before + at));
      return;
    }
    if (surplus > 0) {
      root_between (p, t, here, points[i], 0.5 * (here + points[i]));
      return;
    }
    before = here;
    before_surplus = here_surplus;
    here = points[i];
    here_surplus = surplus;
  }
  root_between (p, t, here, top * (1 + 1e-9) + 1, top);
}

/* A first guess of the system pressure: relief open, the fuel guessed. */
static double
guess_pressure (const struct problem *p, double fuel_guess)
{
  const struct fuel_supply *s = &p->car->supply;
  double rate = 1 / s->regulator_rate;
  double returned = p->pump.at_zero[0] - p->pump.slope[0] * s->regulator_opening - fuel_guess;
  struct trial t = { .system_pressure = s->regulator_opening };

  if (returned <= 0)
    return 0;
  control_at_return (p, &t, s->return_resistance * returned * returned);
  return (p->pump.at_zero[0] - fuel_guess - t.control_flow + (s->regulator_opening + t.return_pressure) * rate)
         / (p->pump.slope[0] + rate);
}

/* What the return's pressure lacks against what its flow makes, relative to the system pressure. */
static double
return_defect (const struct problem *p, const struct trial *t)
{
  double flow = t->relief_flow + t->control_flow;
  double lack = fabs (p->car->supply.return_resistance * flow * flow - t->return_pressure);

  return t->system_pressure > 0 ? lack / t->system_pressure : 0;
}

static bool
balanced (const struct problem *p, const struct trial *t)
{
  return fabs (t->pump_flow - t->fuel_flow - t->relief_flow - t->control_flow)
                 <= 0.1 * RESIDUAL_MOST * fmax (t->pump_flow, STALLED * p->pump.at_zero[0])
         && return_defect (p, t) <= 0.1 * RESIDUAL_MOST;
}

/* The system pressure that sends this flow into the return at the return pressure of the trial: relief and control flow
 * rise with it, and the relief alone would pass it all at the upper end. */
static double
pressure_for_return (const struct problem *p, struct trial *t, double flow)
{
  const struct fuel_supply *supply = &p->car->supply;
  struct bracket bracket = { 0, supply->regulator_opening + t->return_pressure + supply->regulator_rate * flow, 0 };
  double pressure = bracket.high;

  while (bracket.steps < ROOT_STEPS_MAX) {
    double defect, slope, next;

    t->system_pressure = pressure;
    control_at_return (p, t, t->return_pressure);
    defect = t->relief_flow + t->control_flow - flow;
    slope = t->relief_flow > 0 ? 1 / supply->regulator_rate : 0;
    if (t->control_flow > 0)
      slope += (1 - t->control_by_system) * 0.5 * t->control_flow / (pressure - t->control_pressure);
    if (fabs (defect) <= 1e-15 * flow)
      break;
    next = bracket_next (&bracket, pressure, defect, slope);
    if (next == pressure)
      break;
    pressure = next;
  }
  return pressure;
}

/* A restricted return opens the warm-up regulator further (its diaphragm is larger than its seat), which may snap: then no
 * system pressure balances with the return found inside. The other order always has a root: return flow outside, and the
 * one system pressure that goes with it. Rare, hence plain halving. */
static void
solve_by_return (const struct problem *p, struct trial *t)
{
  double low = 0, high = p->pump.at_zero[0], least = INFINITY;
  struct trial best = *t;

  t->return_given = true;
  for (int i = 0; i < ROOT_STEPS_MAX && high - low > 1e-16 * high; i++) {
    double flow = 0.5 * (low + high), defect, slope;

    t->return_pressure = p->car->supply.return_resistance * flow * flow;
    defect = try_pressure (p, t, pressure_for_return (p, t, flow), &slope);
    if (fabs (defect) < least) { /* near a knee the last digits step over the balance: the nearest counts */
      least = fabs (defect);
      best = *t;
    }
    if (defect < 0)
      low = flow;
    else
      high = flow;
  }
  *t = best;
}

static void
solve_pressures (const struct problem *p, struct trial *t, double fuel_guess, bool together)
{
  double slope, top, guess;

  if (problem_holds (p, HOLD_SYSTEM_PRESSURE)) {
    try_pressure (p, t, p->conditions->held_system_pressure, &slope);
    return;
  }
  /* No delivery beyond the pressure at which the least of the two lines ends */
  top = fmin (p->pump.at_zero[0] / p->pump.slope[0], p->pump.at_zero[1] / p->pump.slope[1]);
  if (!(p->pump.at_zero[0] > 0 && top > 0)) {
    try_pressure (p, t, 0, &slope);
    return;
  }
  guess = guess_pressure (p, fuel_guess);
  if (!(together && guess > 0 && guess < top && newton_solve (p, t, guess)))
    root_between (p, t, 0, top, guess);
  if (!problem_holds (p, HOLD_CONTROL_PRESSURE) && (t->relief_flow <= 0 || lower_root_possible (p, t)))
    lowest_root (p, t);
  if (!balanced (p, t) && p->car->supply.return_resistance > 0)
    solve_by_return (p, t);
}

/* -- setting up and handing out ------------------------------------------------------------------------------------ */

static void
set_up (const struct car *car, const struct conditions *conditions, struct problem *p, struct state *state)
{
  const struct control_circuit *control = &car->control;

  state->cylinders = car->cylinders;
  state->ambient_pressure = air_standard_pressure (conditions->altitude);
  state->air_density = air_density (state->ambient_pressure, conditions->ambient_temperature, conditions->humidity);
  state->fuel_density = fuel_density_at (&car->fuel, conditions->fuel_temperature);
  state->fuel_viscosity = fuel_viscosity_at (&car->fuel, conditions->fuel_temperature);
  state->bimetal_temperature
      = (conditions->held & HOLD_BIMETAL) ? conditions->held_bimetal_temperature
        : conditions->heater_unplugged
            ? conditions->block_temperature
            : control_bimetal_temperature (control, conditions->block_temperature, conditions->ambient_temperature,
                                           conditions->voltage, conditions->heater_time);
  state->bimetal_deflection = control_bimetal_deflection (control, state->bimetal_temperature);
  state->bimetal_force = control_bimetal_force (control, state->bimetal_temperature);
  state->load_position = control_load_position (control, conditions->vacuum);
  state->load_force = control_load_force (control, state->load_position);
  state->stoichiometric = fuel_stoichiometric (car->fuel.hydrogen_carbon, car->fuel.oxygen_carbon);

  p->car = car;
  p->conditions = conditions;
  p->air = (struct sensor_air) { state->air_density, air_viscosity (conditions->ambient_temperature) };
  p->fuel = (struct distributor_fuel) { state->fuel_density, state->fuel_viscosity };
  p->pump = supply_pump_line (&car->supply, conditions->voltage);
  p->orifice = control_orifice (control, state->fuel_density);
  p->bimetal_force = state->bimetal_force;
  p->load_force = state->load_force;
  p->offset = car->distributor.mixture_offset;
  p->plunger_area = 0.25 * PI * car->distributor.plunger_diameter * car->distributor.plunger_diameter;
}

static void
take_pressures (const struct problem *p, const struct trial *t, struct state *state)
{
  const struct fuel_supply *supply = &p->car->supply;
  int relief_open = 0;
  double slope;

  state->system_pressure = t->system_pressure;
  state->control_pressure = t->control_pressure;
  state->control_flow = t->control_flow;
  state->base_pressure = t->base_pressure;
  state->relief_flow = t->relief_flow;
  state->return_flow = t->return_flow;
  state->return_pressure = t->return_pressure;
  state->pump_flow = supply_pump_flow (&p->pump, t->system_pressure, &slope, &relief_open);
  state->suction_pressure = supply_suction (supply, state->pump_flow);
  state->pump_pressure = t->system_pressure + supply->filter_resistance * state->pump_flow;
  state->pump_current = supply_pump_current (supply, p->conditions->voltage, state->pump_pressure);
  if (t->control_flow <= 0)
    state->regime |= REGIME_CONTROL_SHUT;
  if (t->relief_flow <= 0)
    state->regime |= REGIME_RELIEF_SHUT;
  if (relief_open && state->pump_flow > 0)
    state->regime |= REGIME_PUMP_RELIEF;
}

static void
take_plate (const struct problem *p, const struct trial *t, struct state *state)
{
  const struct air_sensor *sensor = &p->car->sensor;
  double plate_area = PI * sensor->plate_radius * sensor->plate_radius;

  state->plunger_force = t->plunger_force;
  state->plate_drop = fmax (t->drop, 0);
  state->plate_force = state->plate_drop * plate_area;
  state->plate_lift = t->lift;
  state->plunger_lift = t->plunger_lift;
  state->flow_area = sensor_area (sensor, t->lift, NULL);
  state->air_flow = problem_holds (p, HOLD_PLATE)
                        ? sensor_flow (sensor, &p->air, t->lift, state->plate_drop, NULL, NULL)
                        : p->conditions->air_flow;
  if (t->at_rest)
    state->regime |= REGIME_PLATE_AT_REST;
  if (t->at_buffer)
    state->regime |= REGIME_PLATE_AT_BUFFER;
  if (t->plunger_lift <= 0)
    state->regime |= REGIME_PLUNGER_DOWN;
}

static void
take_mixture (const struct problem *p, const struct trial *t, struct state *state)
{
  const struct fuel_distributor *d = &p->car->distributor;
  double air, share;

  if (p->car->engine.unmetered_area > 0)
    state->unmetered_air
      = air_isentropic_flow (p->car->engine.unmetered_area, state->ambient_pressure,
                             p->conditions->ambient_temperature, state->ambient_pressure - p->conditions->vacuum);
  air = state->air_flow + state->unmetered_air;
  share = air / state->cylinders;
  state->fuel_volume_flow = t->fuel_flow;
  state->fuel_flow = t->fuel_flow * state->fuel_density;
  for (int i = 0; i < state->cylinders; i++) {
    struct cylinder_state *c = &state->cylinder[i];

    *c = t->cylinder[i];
    if (c->flow > 0)
      c->lambda = share / (c->flow * state->fuel_density * state->stoichiometric);
    if (c->flow > 0 && c->valve_opening >= d->valve_travel)
      state->regime |= REGIME_VALVE_FULLY_OPEN;
    if (c->slot_opening >= d->slot_height[i])
      state->regime |= REGIME_SLOT_FULL;
  }
  if (air <= 0)
    state->regime |= REGIME_NO_AIR;
  if (state->fuel_flow <= 0)
    state->regime |= REGIME_NO_FUEL;
  else
    state->air_fuel_ratio = air / state->fuel_flow;
  state->lambda = state->air_fuel_ratio / state->stoichiometric;
}

/* Relative, of the flow through the orifice: what the pressure over it lacks against what the flow needs there. It may be a
 * small difference of large pressures: what their rounding leaves is no defect. */
static double
control_defect (const struct problem *p, const struct state *state)
{
  double root = state->control_flow / p->orifice, over = root * root;
  double lack = fabs (state->system_pressure - state->control_pressure - over) - 4 * DBL_EPSILON * state->system_pressure;

  return over > 0 && lack > 0 ? lack / (2 * over) : 0;
}

/* Every equation recomputed from the values handed out. */
static void
take_residuals (const struct problem *p, const struct trial *t, struct state *state)
{
  const struct air_sensor *sensor = &p->car->sensor;
  struct residuals *r = &state->residual;
  bool on_stop = t->at_rest || t->at_buffer;

  r->plate_moment
      = on_stop || t->balance_drop <= 0 ? 0 : fabs (state->plate_drop - t->balance_drop) / t->balance_drop;
  if (state->air_flow > 0)
    r->air = fabs (sensor_flow (sensor, &p->air, t->lift, state->plate_drop, NULL, NULL) - state->air_flow)
             / state->air_flow;
  r->control = control_defect (p, state);
  for (int i = 0; i < state->cylinders; i++)
    r->cylinder = fmax (r->cylinder, distributor_cylinder_defect (&p->car->distributor, &p->fuel, i, &state->cylinder[i]));
  if (!problem_holds (p, HOLD_SYSTEM_PRESSURE) && state->pump_flow > 0)
    r->fuel = fabs (state->pump_flow - state->fuel_volume_flow - state->relief_flow - state->control_flow)
              / fmax (state->pump_flow, STALLED * p->pump.at_zero[0]);
  r->fuel = fmax (r->fuel, return_defect (p, t));
}

static bool
residuals_kept (const struct residuals *r)
{
  /* Written so that a NaN fails */
  return r->plate_moment <= RESIDUAL_MOST && r->air <= RESIDUAL_MOST && r->control <= RESIDUAL_MOST
         && r->cylinder <= RESIDUAL_MOST && r->fuel <= RESIDUAL_MOST;
}

static enum outcome
fail (struct state *state, enum outcome outcome)
{
  memset (state, 0, sizeof *state);
  return state->outcome = outcome;
}

/* One try at a problem, with or without the fast way. */
static enum outcome
solve_once (const struct problem *p, struct state *state, bool together)
{
  struct trial t;

  memset (&t, 0, sizeof t);
  memset (&state->residual, 0, sizeof state->residual);
  state->regime = 0;
  state->air_fuel_ratio = 0;
  t.lift = -INFINITY; /* no guess yet */
  solve_pressures (p, &t, p->conditions->air_flow / (state->stoichiometric * state->fuel_density), together);
  take_pressures (p, &t, state);
  take_plate (p, &t, state);
  if (state->plate_drop > CHOKING_SHARE * state->ambient_pressure)
    return OUTCOME_TOO_MUCH_AIR;
  take_mixture (p, &t, state);
  take_residuals (p, &t, state);
  return residuals_kept (&state->residual) ? OUTCOME_SOLVED : OUTCOME_NOT_FOUND;
}

enum outcome
metering_solve_checked (const struct car *car, const struct conditions *conditions, struct state *state)
{
  struct problem p;
  enum outcome outcome;

  memset (state, 0, sizeof *state);
  set_up (car, conditions, &p, state);
  outcome = solve_once (&p, state, true);
  if (outcome == OUTCOME_NOT_FOUND)
    outcome = solve_once (&p, state, false);
  return outcome == OUTCOME_SOLVED ? state->outcome = outcome : fail (state, outcome);
}

enum outcome
metering_solve (const struct car *car, const struct conditions *conditions, struct state *state)
{
  if (!car_check (car, NULL))
    return fail (state, OUTCOME_BAD_CAR);
  if (!conditions_check (conditions, NULL))
    return fail (state, OUTCOME_BAD_CONDITIONS);
  return metering_solve_checked (car, conditions, state);
}
