#include "transient-equations.h"
#include "air.h"
#include "control.h"
#include "engine.h"
#include "fuel.h"
#include "intake.h"
#include "root.h"
#include "smooth.h"
#include "start.h"
#include "store.h"
#include "supply.h"
#include "thermal.h"

#include <math.h>
#include <string.h>

#define PI 3.14159265358979323846
#define AIR_BAND 2.0          /* Pa: below it the plate's flow passes smoothly through zero */
#define FUEL_BAND 2000.0      /* Pa: the same for the control orifice, where its flow is laminar anyway */
#define FRICTION_SPEED 0.001  /* m/s: dry friction of the plate is full from here on */
#define LOAD_SPEED 1.0        /* rad/s: the load only brakes */
#define MANIFOLD_WARMTH 0.25  /* share of the coolant's excess that the charge takes up; our own assumption */
#define LEAK_BAND 2000.0      /* Pa: leaks begin softly with the pressure, and draw nothing in */
#define FUEL_HEAT 2100.0      /* J/(kg K), petrol */
#define LAMBDA_MOST 5.0       /* "no fuel" */
#define TRACE 1e-12           /* kg/s */

static bool
meter_alike (const struct fuel_distributor *d, int i, int j)
{
  return d->slot_width[i] == d->slot_width[j] && d->slot_height[i] == d->slot_height[j]
         && d->slot_edge[i] == d->slot_edge[j] && d->valve_drop[i] == d->valve_drop[j]
         && d->valve_rate[i] == d->valve_rate[j] && d->nozzle_opening[i] == d->nozzle_opening[j]
         && d->nozzle_rate[i] == d->nozzle_rate[j];
}

void
model_set_up (struct model *m, const struct car *car, const struct machine_start *start)
{
  const struct conditions *weather = &start->weather;

  memset (m, 0, sizeof *m);
  m->car = *car;
  m->start = *start;
  m->ambient_pressure = air_standard_pressure (weather->altitude);
  m->air_temperature = weather->ambient_temperature;
  m->air.density = air_density (m->ambient_pressure, weather->ambient_temperature, weather->humidity);
  m->air.viscosity = air_viscosity (weather->ambient_temperature);
  m->tank_temperature = weather->fuel_temperature;
  m->stoichiometric = fuel_stoichiometric (car->fuel.hydrogen_carbon, car->fuel.oxygen_carbon);
  m->plate_area = PI * car->sensor.plate_radius * car->sensor.plate_radius;
  m->plunger_area = 0.25 * PI * car->distributor.plunger_diameter * car->distributor.plunger_diameter;
  m->lever = car->sensor.roller_arm / car->sensor.plate_arm;
  for (int i = 0; i < car->cylinders; i++)
    while (!meter_alike (&car->distributor, i, m->alike[i]))
      m->alike[i]++;
}

/* -- switches ------------------------------------------------------------------------------------------------------- */

static double
throttle_at (const struct machine_snapshot *now, double time)
{
  if (time >= now->ramp_end)
    return now->inputs.throttle;
  return now->throttle_from
         + (now->inputs.throttle - now->throttle_from) * (time - now->ramp_start) / (now->ramp_end - now->ramp_start);
}

static void
electric_flows (const struct model *m, double time, const double *y, struct flows *f)
{
  const struct machine_snapshot *now = &m->now;
  const struct machine_inputs *in = &now->inputs;
  bool cranking = in->key && in->crank;
  bool safe = m->car.start.pulse_speed > 0 ? now->pulses : now->contact_open;

  f->throttle = throttle_at (now, time);
  f->voltage = in->key ? start_voltage (&m->car.start, now->starter_engaged, y[ENGINE_SPEED]) : 0;
  f->relay_on = in->key && (in->pump_bridged || cranking || safe);
  f->heater_on = f->relay_on && !in->heater_unplugged;
  f->auxiliary_on = f->relay_on && !in->auxiliary_unplugged;
  f->cold_start_open = cranking && now->switch_closed && !in->cold_start_unplugged;
}

/* -- fuel ------------------------------------------------------------------------------------------------------------ */

/* The pressure by which a leak flows. */
static double
leak_pressure (double pressure)
{
  if (pressure <= 0)
    return 0;
  return pressure < LEAK_BAND ? 0.5 * pressure * pressure / LEAK_BAND : pressure - 0.5 * LEAK_BAND;
}

static void
store_flows (const struct model *m, const double *y, struct flows *f)
{
  const struct car *car = &m->car;
  const struct machine_inputs *in = &m->now.inputs;
  double slope, leak;

  f->fuel.density = fuel_density_at (&car->fuel, y[HOT_FUEL_TEMPERATURE]);
  f->fuel.viscosity = fuel_viscosity_at (&car->fuel, y[HOT_FUEL_TEMPERATURE]);
  f->vapour_pressure = fuel_vapour_pressure (car->fuel.reid_pressure, y[HOT_FUEL_TEMPERATURE]) - m->ambient_pressure;
  f->filling = store_expanded (&car->store, car->fuel.density, y[FUEL_EXCESS], m->air_temperature,
                               y[HOT_FUEL_TEMPERATURE]);
  f->system_pressure = fmax (store_filled_pressure (&car->store, f->filling), f->vapour_pressure);
  if (f->relay_on && !(in->clamps & CLAMP_PUMP_INLET)) {
    struct supply_line line = supply_pump_line (&car->supply, f->voltage);
    f->pump_flow = supply_pump_flow (&line, f->system_pressure, &slope, NULL);
  }
  leak = car->distributor.plunger_leak;
  if (!(in->clamps & CLAMP_PUMP_INLET) && f->pump_flow <= 0)
    leak += car->supply.check_valve_leak;
  if (!(in->clamps & CLAMP_ACCUMULATOR))
    leak += car->store.accumulator_leak;
  if (!(in->clamps & CLAMP_COLD_START))
    leak += car->start.valve_leak;
  f->store_leak = leak * leak_pressure (f->system_pressure);
  f->vent = store_vent (&car->store, f->system_pressure);
  if (f->cold_start_open && !(in->clamps & CLAMP_COLD_START))
    f->cold_start_flow = start_valve_flow (&car->start, f->system_pressure);
}

/* Flow out of the control circuit at a return pressure. */
static double
control_out_at (const struct model *m, const double *y, struct flows *f, double return_pressure)
{
  const struct control_circuit *control = &m->car.control;

  f->return_pressure = return_pressure;
  f->relief_flow = supply_relief_flow (&m->car.supply, f->system_pressure, return_pressure);
  f->base_pressure = control_base_pressure (control, f->bimetal_force, control_load_force (control, f->load_position),
                                            return_pressure);
  if (!m->now.shutoff_open || m->now.inputs.tap_shut)
    return 0;
  return fmax (0, f->control_pressure - f->base_pressure) / control->flow_rate;
}

/* Regulator and control flow against the return pressure that they make themselves. */
static void
return_flows (const struct model *m, const double *y, struct flows *f)
{
  const struct fuel_supply *supply = &m->car.supply;
  double free, flow, resistance = supply->return_resistance;
  struct bracket bracket = { 0 };

  f->control_out = control_out_at (m, y, f, 0);
  if (m->now.inputs.clamps & CLAMP_RETURN) {
    f->control_out = f->relief_flow = 0;
    return;
  }
  flow = free = f->relief_flow + f->control_out;
  if (resistance > 0 && free > 0) {
    bracket.high = 2 * free;
    while (bracket.steps < ROOT_STEPS_MAX) {
      double defect, slope, next;

      f->control_out = control_out_at (m, y, f, resistance * flow * flow);
      defect = flow - f->relief_flow - f->control_out;
      slope = 1 + (f->relief_flow > 0 ? 2 * resistance * flow / supply->regulator_rate : 0);
      if (fabs (defect) <= 1e-13 * flow)
        break;
      next = bracket_next (&bracket, flow, defect, slope);
      if (next == flow)
        break;
      flow = next;
    }
  }
  f->return_flow = f->relief_flow + f->control_out;
  if (f->relief_flow <= 0)
    f->store_leak += supply->regulator_leak * leak_pressure (f->system_pressure);
  if (!m->now.shutoff_open && !m->now.inputs.tap_shut)
    f->control_leak = supply->shutoff_leak * leak_pressure (f->control_pressure);
}

/* The warm-up regulator sits on the block: its fuel is the first to boil when a cooling system has lost its pressure. What
 * boils drives liquid back through the orifice, and the void has to be filled through the same narrow way. */
static void
control_circuit_flows (const struct model *m, const double *y, struct flows *f)
{
  const struct fuel_store *store = &m->car.store;
  double orifice = control_orifice (&m->car.control, f->fuel.density);

  f->control_vapour = fuel_vapour_pressure (m->car.fuel.reid_pressure, y[HOUSING_TEMPERATURE]) - m->ambient_pressure;
  f->control_pressure = fmax (y[CONTROL_PRESSURE], f->control_vapour);
  f->control_void = store->control_compliance * (f->control_pressure - y[CONTROL_PRESSURE]);
  f->control_in = orifice * smooth_root (f->system_pressure - f->control_pressure, FUEL_BAND);
  f->control_liquid = clamp_share (1 - f->control_void / store->control_volume);
  if (f->control_in < 0)
    f->control_in *= f->control_liquid;
}

static void
control_flows (const struct model *m, const double *y, struct flows *f)
{
  const struct control_circuit *control = &m->car.control;
  const struct machine_inputs *in = &m->now.inputs;

  f->vacuum = fmax (m->ambient_pressure - y[MANIFOLD_PRESSURE], 0);
  f->felt_vacuum = in->hose == HOSE_ENGINE ? f->vacuum : in->hose == HOSE_HAND_PUMP ? in->hand_vacuum : 0;
  f->bimetal_force = control_bimetal_force (control, y[BIMETAL_TEMPERATURE]);
  f->load_position = control_load_position (control, f->felt_vacuum);
  control_circuit_flows (m, y, f);
  return_flows (m, y, f);
}

/* -- plate and air ----------------------------------------------------------------------------------------------------- */

/* The plate's law of flow, continued through zero. */
static double
plate_air (const struct model *m, double lift, double drop)
{
  double size = fabs (drop), share = drop / AIR_BAND;

  if (size < AIR_BAND)
    return sensor_flow (&m->car.sensor, &m->air, lift, AIR_BAND, NULL, NULL) * share * (1.25 - 0.25 * share * share);
  return copysign (sensor_flow (&m->car.sensor, &m->air, lift, size, NULL, NULL), drop);
}

/* Damping: the plunger's displacement leaves its chamber through the damping orifice and the gap beside it. */
static void
plate_flows (const struct model *m, const double *y, struct flows *f)
{
  const struct fuel_distributor *d = &m->car.distributor;
  double orifice = 0.25 * PI * d->damping_diameter * d->damping_diameter * d->damping_discharge;
  double flow = m->plunger_area * m->lever * y[PLATE_SPEED];
  double closing_least = m->car.sensor.closing_force / m->lever;

  f->plunger_speed_flow = flow;
  f->plunger_pressure = fmax (f->control_pressure + d->damping_resistance * flow
                                + 0.5 * f->fuel.density * flow * fabs (flow) / (orifice * orifice),
                              f->vapour_pressure);
  f->plunger_force = f->plunger_pressure * m->plunger_area + d->counter_spring;
  f->plunger_lift = sensor_plunger_lift (&m->car.sensor, y[PLATE_LIFT], d->mixture_offset);
  f->drop = m->ambient_pressure - y[CHAMBER_PRESSURE];
  f->balance_drop = sensor_balance_drop (&m->car.sensor, fmax (f->plunger_force, closing_least), 0);
  f->static_force = (f->drop - f->balance_drop) * m->plate_area;
}

static void
air_flows (const struct model *m, const double *y, struct flows *f)
{
  const struct intake *intake = &m->car.intake;
  double area;

  f->plate_air = plate_air (m, y[PLATE_LIFT], f->drop);
  f->auxiliary_area = intake_auxiliary_area (intake, y[AUXILIARY_TEMPERATURE]);
  area = intake_throttle_area (intake, f->throttle) + intake->bypass_area + f->auxiliary_area;
  f->throttle_air = intake_flow (area, y[CHAMBER_PRESSURE], m->air_temperature, y[MANIFOLD_PRESSURE]);
  f->unmetered_air = intake_flow (m->car.engine.unmetered_area, m->ambient_pressure, m->air_temperature,
                                  y[MANIFOLD_PRESSURE]);
  f->manifold_temperature = m->air_temperature + MANIFOLD_WARMTH * (y[COOLANT_TEMPERATURE] - m->air_temperature);
  f->cylinder_air = engine_air_flow (&m->car.engine, y[MANIFOLD_PRESSURE], f->manifold_temperature, y[ENGINE_SPEED]);
}

/* -- metering and burning ------------------------------------------------------------------------------------------------ */

static void
metered_flows (const struct model *m, const double *y, struct flows *f)
{
  const struct fuel_distributor *d = &m->car.distributor;

  for (int i = 0; i < m->car.cylinders; i++) {
    if (m->alike[i] < i) {
      f->cylinder[i] = f->cylinder[m->alike[i]];
    } else {
      f->cylinder[i].valve_opening = m->now.valve_guess[i];
      distributor_cylinder (d, &f->fuel, i, distributor_slot_opening (d, i, f->plunger_lift), f->system_pressure,
                            &f->cylinder[i], NULL, NULL);
    }
    f->slot_flow += f->cylinder[i].flow;
  }
  f->injected = (f->slot_flow + f->cold_start_flow) * f->fuel.density;
  f->film_share = engine_film_share (y[MANIFOLD_PRESSURE], y[ENGINE_SPEED]);
  f->film_time = engine_film_time (y[MANIFOLD_PRESSURE], y[ENGINE_SPEED], y[WALL_TEMPERATURE]);
  f->evaporated = engine_evaporated (y[WALL_TEMPERATURE]);
  f->to_cylinders = (1 - f->film_share) * f->injected + y[FUEL_FILM] / f->film_time;
}

static void
burning_flows (const struct model *m, const double *y, struct flows *f)
{
  const struct engine_air *engine = &m->car.engine;
  const int cylinders = m->car.cylinders;
  double air = f->cylinder_air / cylinders;
  double by_turn = engine_air_flow (engine, y[MANIFOLD_PRESSURE], f->manifold_temperature, 1) / cylinders;
  double energy = m->car.fuel.heating_value / m->stoichiometric; /* by mass of air */

  for (int i = 0; i < cylinders; i++) {
    const int first = m->alike[i];
    double share = f->slot_flow > 0 ? f->cylinder[i].flow / f->slot_flow : 1.0 / cylinders;
    double needed = m->stoichiometric * f->evaporated * f->to_cylinders * share, fired;

    f->lambda[i] = fmin (air / fmax (needed, TRACE), LAMBDA_MOST);
    f->efficiency[i] = first < i ? f->efficiency[first] : m->now.inputs.key ? engine_efficiency (f->lambda[i]) : 0;
    fired = f->efficiency[i] * (1 - engine->misfire[i]) * energy;
    f->burnt_power += fired * air;
    f->indicated_torque += engine->indicated_efficiency * fired * by_turn;
  }
  f->drag = engine_drag (engine, y[ENGINE_SPEED], f->vacuum, y[COOLANT_TEMPERATURE])
            + m->now.inputs.load * tanh (y[ENGINE_SPEED] / LOAD_SPEED);
}

void
model_flows (const struct model *model, double time, const double unknown[UNKNOWNS], struct flows *flows)
{
  memset (flows, 0, sizeof *flows);
  electric_flows (model, time, unknown, flows);
  store_flows (model, unknown, flows);
  control_flows (model, unknown, flows);
  plate_flows (model, unknown, flows);
  air_flows (model, unknown, flows);
  metered_flows (model, unknown, flows);
  burning_flows (model, unknown, flows);
}

/* -- rates --------------------------------------------------------------------------------------------------------------- */

static void
motion_rates (const struct model *m, const double *y, const struct flows *f, double *rate)
{
  const struct air_sensor *sensor = &m->car.sensor;
  const struct machine_snapshot *now = &m->now;
  double speed = now->plate == PLATE_FREE ? y[PLATE_SPEED] : 0;
  double brake = sensor->damping * y[PLATE_SPEED] + sensor->friction * tanh (y[PLATE_SPEED] / FRICTION_SPEED);
  double starter = now->starter_engaged ? start_torque (&m->car.start, y[ENGINE_SPEED]) : 0;

  rate[PLATE_LIFT] = speed;
  rate[PLATE_SPEED] = now->plate == PLATE_FREE ? (f->static_force - brake) / sensor->moving_mass : 0;
  rate[ENGINE_SPEED] = now->turning && !now->inputs.hold_speed
                         ? (f->indicated_torque + starter - f->drag) / m->car.engine.inertia
                         : 0;
}

static void
pressure_rates (const struct model *m, const double *y, const struct flows *f, double *rate)
{
  const struct intake *intake = &m->car.intake;
  double ambient = AIR_GAS_CONSTANT * (m->air_temperature + ZERO_CELSIUS);
  double manifold = AIR_GAS_CONSTANT * (f->manifold_temperature + ZERO_CELSIUS);
  double to_15 = f->fuel.density / m->car.fuel.density, swelling;

  rate[CHAMBER_PRESSURE] = AIR_HEAT_RATIO / intake->chamber_volume
                           * (ambient * (f->plate_air - f->throttle_air)
                              + y[CHAMBER_PRESSURE] * m->plate_area * rate[PLATE_LIFT]);
  rate[MANIFOLD_PRESSURE] = manifold / intake->manifold_volume * (f->throttle_air + f->unmetered_air - f->cylinder_air);
  rate[FUEL_EXCESS] = to_15
                      * (f->pump_flow + f->vent - f->slot_flow - f->cold_start_flow - f->control_in - f->relief_flow
                         - f->store_leak);
  swelling = f->control_liquid * m->car.store.control_volume * fuel_expansion (m->car.fuel.density, y[HOUSING_TEMPERATURE])
             * rate[HOUSING_TEMPERATURE];
  rate[CONTROL_PRESSURE] = (f->control_in + m->plunger_area * m->lever * rate[PLATE_LIFT] + swelling - f->control_out
                            - f->control_leak)
                           / m->car.store.control_compliance;
  rate[FUEL_FILM] = f->film_share * f->injected - y[FUEL_FILM] / f->film_time;
}

static void
heat_rates (const struct model *m, const double *y, const struct flows *f, double *rate)
{
  const struct control_circuit *c = &m->car.control;
  const struct intake *intake = &m->car.intake;
  const struct start_gear *start = &m->car.start;
  const struct thermal *thermal = &m->car.thermal;
  const struct machine_snapshot *now = &m->now;
  double coolant = y[COOLANT_TEMPERATURE], air = m->air_temperature, bimetal = y[BIMETAL_TEMPERATURE];
  double heater = f->heater_on ? control_heater_power (c, f->voltage, bimetal) : 0;
  double auxiliary = f->auxiliary_on ? intake_auxiliary_power (intake, f->voltage) : 0;
  double contact = now->inputs.key && now->inputs.crank && now->switch_closed ? start->switch_power : 0;
  double passing = f->fuel.density * FUEL_HEAT * f->pump_flow;

  rate[BIMETAL_TEMPERATURE] = thermal_rate (c->bimetal_capacity, heater, c->bimetal_housing, bimetal,
                                            y[HOUSING_TEMPERATURE]);
  rate[HOUSING_TEMPERATURE]
    = thermal_rate (c->housing_capacity,
                    c->bimetal_housing * (bimetal - y[HOUSING_TEMPERATURE])
                      - c->housing_air * (y[HOUSING_TEMPERATURE] - air),
                    c->housing_block, y[HOUSING_TEMPERATURE], coolant);
  rate[COOLANT_TEMPERATURE] = thermal_engine_rate (thermal, now->turning, f->burnt_power, coolant, air);
  rate[AUXILIARY_TEMPERATURE]
    = thermal_rate (intake->auxiliary_capacity, auxiliary - intake->auxiliary_air * (y[AUXILIARY_TEMPERATURE] - air),
                    intake->auxiliary_coolant, y[AUXILIARY_TEMPERATURE], coolant);
  rate[SWITCH_TEMPERATURE] = thermal_rate (start->switch_capacity, contact, start->switch_coolant,
                                           y[SWITCH_TEMPERATURE], coolant);
  rate[HOT_FUEL_TEMPERATURE] = thermal_fuel_rate (thermal, y[HOT_FUEL_TEMPERATURE], coolant, air, passing,
                                                  m->tank_temperature);
  rate[WALL_TEMPERATURE] = (thermal_wall_end (thermal, y[ENGINE_SPEED], coolant) - y[WALL_TEMPERATURE])
                           / thermal_wall_time (thermal, now->turning);
}

void
model_rates (const struct model *model, const double unknown[UNKNOWNS], const struct flows *flows, double rate[UNKNOWNS])
{
  motion_rates (model, unknown, flows, rate);
  heat_rates (model, unknown, flows, rate);
  pressure_rates (model, unknown, flows, rate);
}

bool
transient_rates (const void *data, double time, const double *unknown, double *rate)
{
  const struct model *model = data;
  struct flows flows;

  if (!(unknown[CHAMBER_PRESSURE] > 0 && unknown[MANIFOLD_PRESSURE] > 0))
    return false;
  model_flows (model, time, unknown, &flows);
  model_rates (model, unknown, &flows, rate);
  for (int i = 0; i < UNKNOWNS; i++)
    if (!isfinite (rate[i]))
      return false;
  return true;
}
