#include "transient-report.h"
#include "air.h"
#include "control.h"
#include "engine.h"
#include "intake.h"
#include "store.h"
#include "supply.h"
#include "text.h"

#include <math.h>
#include <string.h>

#define GRAVITY 9.80665
#define BURNS 0.02 /* share of ignitions under which the exhaust is no exhaust */

const struct machine_value machine_values[] = {
#define MACHINE_VALUE(key_, member_, quantity_, name_) \
  { #key_, offsetof (struct machine_state, member_), QUANTITY_##quantity_, name_ },
#include "machine-values.def"
#undef MACHINE_VALUE
};

const int machine_value_count = (int) (sizeof machine_values / sizeof machine_values[0]);

const struct machine_value *
machine_value_find (const char *key)
{
  for (int i = 0; i < machine_value_count; i++)
    if (strcmp (machine_values[i].key, key) == 0)
      return &machine_values[i];
  return NULL;
}

double
machine_value_get (const struct machine_state *state, const struct machine_value *value)
{
  double number;

  memcpy (&number, (const char *) state + value->offset, sizeof number);
  return number;
}

/* -- the steady unit's values -------------------------------------------------------------------------------------------- */

static void
report_pressures (const struct model *m, const double *y, const struct flows *f, struct state *s)
{
  const struct fuel_supply *supply = &m->car.supply;
  const struct control_circuit *control = &m->car.control;

  s->fuel_density = f->fuel.density;
  s->fuel_viscosity = f->fuel.viscosity;
  s->bimetal_temperature = y[BIMETAL_TEMPERATURE];
  s->bimetal_force = f->bimetal_force;
  s->bimetal_deflection = control_bimetal_deflection (control, y[BIMETAL_TEMPERATURE]);
  s->load_position = f->load_position;
  s->load_force = control_load_force (control, f->load_position);
  s->base_pressure = f->base_pressure;
  s->pump_flow = f->pump_flow;
  s->system_pressure = f->system_pressure;
  s->suction_pressure = supply_suction (supply, f->pump_flow);
  s->pump_pressure = f->system_pressure + supply->filter_resistance * f->pump_flow;
  s->pump_current = f->relay_on ? supply_pump_current (supply, f->voltage, s->pump_pressure) : 0;
  s->control_pressure = f->control_pressure;
  s->control_flow = f->control_out;
  s->relief_flow = f->relief_flow;
  s->return_flow = f->return_flow;
  s->return_pressure = f->return_pressure;
  if (f->control_out <= 0)
    s->regime |= REGIME_CONTROL_SHUT;
  if (f->relief_flow <= 0)
    s->regime |= REGIME_RELIEF_SHUT;
  if (f->pump_flow > 0 && s->pump_pressure > supply->pump_relief)
    s->regime |= REGIME_PUMP_RELIEF;
}

static void
report_plate (const struct model *m, const double *y, const struct flows *f, struct state *s)
{
  s->ambient_pressure = m->ambient_pressure;
  s->air_density = m->air.density;
  s->plunger_force = f->plunger_force;
  s->plate_drop = fmax (f->drop, 0);
  s->plate_force = s->plate_drop * m->plate_area;
  s->air_flow = fmax (f->plate_air, 0);
  s->plate_lift = y[PLATE_LIFT];
  s->flow_area = sensor_area (&m->car.sensor, y[PLATE_LIFT], NULL);
  s->plunger_lift = f->plunger_lift;
  if (m->now.plate == PLATE_ON_REST)
    s->regime |= REGIME_PLATE_AT_REST;
  if (m->now.plate == PLATE_ON_BUFFER)
    s->regime |= REGIME_PLATE_AT_BUFFER;
  if (f->plunger_lift <= 0)
    s->regime |= REGIME_PLUNGER_DOWN;
}

static void
report_mixture (const struct model *m, const struct flows *f, struct state *s)
{
  const struct fuel_distributor *d = &m->car.distributor;
  double air = s->air_flow + fmax (f->unmetered_air, 0);

  s->cylinders = m->car.cylinders;
  s->unmetered_air = fmax (f->unmetered_air, 0);
  s->stoichiometric = m->stoichiometric;
  s->fuel_volume_flow = f->slot_flow;
  s->fuel_flow = f->slot_flow * f->fuel.density;
  for (int i = 0; i < s->cylinders; i++) {
    struct cylinder_state *c = &s->cylinder[i];

    *c = f->cylinder[i];
    if (c->flow > 0) {
      c->lambda = air / s->cylinders / (c->flow * f->fuel.density * m->stoichiometric);
      if (c->valve_opening >= d->valve_travel)
        s->regime |= REGIME_VALVE_FULLY_OPEN;
    }
    if (c->slot_opening >= d->slot_height[i])
      s->regime |= REGIME_SLOT_FULL;
  }
  if (air <= 0)
    s->regime |= REGIME_NO_AIR;
  if (s->fuel_flow <= 0)
    s->regime |= REGIME_NO_FUEL;
  else
    s->air_fuel_ratio = air / s->fuel_flow;
  s->lambda = s->air_fuel_ratio / s->stoichiometric;
}

/* -- exhaust ------------------------------------------------------------------------------------------------------------- */

static void
report_exhaust (const struct model *m, const struct flows *f, struct machine_state *s)
{
  const struct car *car = &m->car;
  struct exhaust_moles sum = { 0 };
  double ignited = 0, air = 0, fuel = 0;

  for (int i = 0; i < car->cylinders; i++) {
    double ignites = engine_ignites (f->lambda[i]) * (1 - car->engine.misfire[i]);
    double share = f->lambda[i] > 0 ? 1 / f->lambda[i] : 0; /* equal air: fuel goes with 1/lambda */
    struct exhaust_moles moles;

    exhaust_of_cylinder (&car->fuel, car->exhaust.mixture_spread, f->lambda[i], ignites, &moles);
    exhaust_add (&sum, &moles, share);
    ignited += ignites / car->cylinders;
    air += 1;
    fuel += share;
  }
  if (!m->now.turning || !m->now.inputs.key || fuel <= 0 || ignited < BURNS)
    return;
  s->burnt_lambda = air / fuel;
  exhaust_shown (&sum, car->exhaust.leak_share, &s->gases);
  s->gas_lambda = exhaust_lambda (&s->gases, car->fuel.hydrogen_carbon, car->fuel.oxygen_carbon);
}

/* -- the rest ------------------------------------------------------------------------------------------------------------ */

static void
report_engine (const struct model *m, const double *y, const struct flows *f, struct machine_state *s)
{
  s->engine_speed = y[ENGINE_SPEED];
  s->manifold_pressure = y[MANIFOLD_PRESSURE];
  s->vacuum = f->vacuum;
  s->chamber_pressure = y[CHAMBER_PRESSURE];
  s->throttle = f->throttle;
  s->throttle_air = f->throttle_air;
  s->cylinder_air = f->cylinder_air;
  s->plate_speed = y[PLATE_SPEED];
  s->plunger_pressure = f->plunger_pressure;
  s->voltage = f->voltage;
  s->indicated_torque = f->indicated_torque;
  s->needed_lambda = f->evaporated;
  s->film = y[FUEL_FILM];
  s->cold_start_flow = f->cold_start_flow;
  s->coolant_temperature = y[COOLANT_TEMPERATURE];
  s->housing_temperature = y[HOUSING_TEMPERATURE];
  s->auxiliary_temperature = y[AUXILIARY_TEMPERATURE];
  s->switch_temperature = y[SWITCH_TEMPERATURE];
  s->hot_fuel_temperature = y[HOT_FUEL_TEMPERATURE];
  s->wall_temperature = y[WALL_TEMPERATURE];
  s->auxiliary_area = f->auxiliary_area;
}

static void
report_store (const struct model *m, const struct flows *f, struct machine_state *s)
{
  const struct fuel_store *store = &m->car.store;
  double inside = (f->system_pressure - store->accumulator_empty) / (store->accumulator_full - store->accumulator_empty);

  s->accumulator_filling = store->accumulator_volume * fmin (fmax (inside, 0), 1);
  s->vapour_pressure = f->vapour_pressure;
  s->vapour_volume = fmax (store_filling (store, f->system_pressure) - f->filling, 0);
  if (store_filled_pressure (store, f->filling) >= f->vapour_pressure)
    s->vapour_volume = 0;
  s->vapour_volume += f->control_void;
}

static void
report_switches (const struct model *m, const double *y, const struct flows *f, struct machine_state *s)
{
  const struct machine_snapshot *now = &m->now;

  s->turning = now->turning;
  s->running = now->turning && !now->starter_engaged;
  s->starter_engaged = now->starter_engaged;
  s->contact_open = now->contact_open;
  s->relay_on = f->relay_on;
  s->switch_closed = now->inputs.key && now->inputs.crank ? now->switch_closed
                                                           : y[SWITCH_TEMPERATURE] < m->car.start.switch_opening;
  s->cold_start_open = f->cold_start_open;
  s->shutoff_open = now->shutoff_open;
  s->injecting = f->slot_flow > 0;
  s->plunger_raised = f->plunger_force + m->car.distributor.plunger_mass * GRAVITY < 0;
  s->events = now->events;
}

void
model_report (const struct model *m, struct machine_state *state)
{
  const double *y = m->now.unknown;
  struct flows f;

  memset (state, 0, sizeof *state);
  model_flows (m, m->now.time, y, &f);
  state->time = m->now.time;
  state->metering.outcome = OUTCOME_SOLVED;
  report_pressures (m, y, &f, &state->metering);
  report_plate (m, y, &f, &state->metering);
  report_mixture (m, &f, &state->metering);
  report_engine (m, y, &f, state);
  report_store (m, &f, state);
  report_switches (m, y, &f, state);
  report_exhaust (m, &f, state);
}
