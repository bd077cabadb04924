/* The right-hand side of the system in time. Private to the transient files, and to the test that integrates it with
 * another library. */
#ifndef METERING_TRANSIENT_EQUATIONS_H
#define METERING_TRANSIENT_EQUATIONS_H

#include "distributor.h"
#include "sensor.h"
#include "transient.h"

#include <stdbool.h>

enum unknown {
  PLATE_LIFT,            /* m */
  PLATE_SPEED,           /* m/s */
  CHAMBER_PRESSURE,      /* Pa absolute, between plate and throttle */
  MANIFOLD_PRESSURE,     /* Pa absolute */
  ENGINE_SPEED,          /* rad/s */
  FUEL_FILM,             /* kg */
  BIMETAL_TEMPERATURE,   /* degC, as all temperatures */
  HOUSING_TEMPERATURE,
  COOLANT_TEMPERATURE,
  AUXILIARY_TEMPERATURE,
  SWITCH_TEMPERATURE,
  FUEL_EXCESS,           /* m3 of liquid at 15 degC beyond the store's volume: the whole volume would lose digits */
  CONTROL_PRESSURE,      /* Pa; under the vapour pressure it counts the void: compliance x what lies between */
  HOT_FUEL_TEMPERATURE,
  WALL_TEMPERATURE,
  UNKNOWNS
};

enum plate_mode { PLATE_FREE, PLATE_ON_REST, PLATE_ON_BUFFER };

/* What does not change during a run, and now: the moment's inputs and switches. Plain values. */
struct model {
  struct car car;
  struct machine_start start;
  double ambient_pressure, air_temperature;
  struct sensor_air air;
  double tank_temperature;
  double stoichiometric;
  double plate_area, plunger_area, lever; /* lever: plunger lift by plate lift */
  int alike[CYLINDERS_MAX];               /* the first cylinder whose metering has the same values: computed once */
  struct machine_snapshot now;
};

/* Everything that follows from the unknowns at one moment. */
struct flows {
  double throttle, voltage;
  bool relay_on, heater_on, auxiliary_on, cold_start_open;
  struct distributor_fuel fuel;
  double filling, vapour_pressure, system_pressure; /* filling: of the store, m3 */
  double pump_flow, relief_flow, return_flow, return_pressure;
  double vacuum, felt_vacuum, bimetal_force, load_position, base_pressure;
  double control_vapour, control_pressure, control_void, control_liquid; /* void: m3 of vapour in
                                                                       the control circuit; liquid: share that is left */
  double control_in, control_out, control_leak, store_leak, vent;
  double plunger_speed_flow, plunger_pressure, plunger_force, plunger_lift;
  double drop, balance_drop, static_force; /* static_force: net, opening, of a plate at rest */
  double plate_air, auxiliary_area, throttle_air, unmetered_air, cylinder_air, manifold_temperature;
  struct cylinder_state cylinder[CYLINDERS_MAX];
  double slot_flow, cold_start_flow, injected, film_share, film_time, evaporated, to_cylinders;
  double lambda[CYLINDERS_MAX], efficiency[CYLINDERS_MAX]; /* as burnt, by cylinder, misfires apart */
  double burnt_power, indicated_torque, drag;
};

/* The part of the model that a car and a start fix; now: everything at rest. */
void model_set_up (struct model *model, const struct car *car, const struct machine_start *start);

void model_flows (const struct model *model, double time, const double unknown[UNKNOWNS], struct flows *flows);

/* Rates of the unknowns from the flows. */
void model_rates (const struct model *model, const double unknown[UNKNOWNS], const struct flows *flows,
                  double rate[UNKNOWNS]);

/* Both, in the solver's form: model is a struct model. False where a rate is not a finite number. */
bool transient_rates (const void *model, double time, const double *unknown, double *rate);

#endif
