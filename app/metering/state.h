/* One steady state of the metering unit: every unknown and how well each equation is met. Plain values. */
#ifndef METERING_STATE_H
#define METERING_STATE_H

#include "car.h"
#include "quantity.h"

#include <stddef.h>

enum outcome {
  OUTCOME_SOLVED,
  OUTCOME_BAD_CAR,        /* car_check says what */
  OUTCOME_BAD_CONDITIONS, /* conditions_check says what */
  OUTCOME_TOO_MUCH_AIR,   /* more air than passes the plate at its buffer with half an atmosphere of drop */
  OUTCOME_NOT_FOUND       /* an equation was not met to its tolerance: a fault of the solver, never shown as a value */
};

/* Regimes worth telling (bits of state.regime). */
enum regime {
  REGIME_PLATE_AT_REST = 1,     /* the air does not lift the plate */
  REGIME_PLATE_AT_BUFFER = 2,
  REGIME_NO_FUEL = 4,           /* no cylinder injects: lambda is not defined (0 in the struct) */
  REGIME_NO_AIR = 8,            /* no air: lambda is not defined (0 in the struct) */
  REGIME_CONTROL_SHUT = 16,     /* no control flow: control pressure = system pressure */
  REGIME_RELIEF_SHUT = 32,      /* the system pressure regulator returns nothing */
  REGIME_VALVE_FULLY_OPEN = 64, /* at least one pressure-difference valve is out of its travel */
  REGIME_PUMP_RELIEF = 128,     /* the pump's own relief is open */
  REGIME_SLOT_FULL = 256,       /* at least one slot is open over its whole height */
  REGIME_PLUNGER_DOWN = 512     /* the plunger sits on its lower stop: the slots are shut */
};

struct cylinder_state {
  double slot_opening;   /* m, >= 0 */
  double slot_drop;      /* Pa */
  double slot_discharge; /* at this flow number */
  double valve_opening;  /* m, 0..valve_travel */
  double upper_pressure; /* Pa */
  double line_pressure;  /* Pa before the nozzle; its opening pressure where nothing flows */
  double flow;           /* m3/s */
  double lambda;         /* 0 where not defined */
};

/* Relative defects of the equations (0 = met exactly). */
struct residuals {
  double plate_moment; /* of the moments about the pivot; 0 on a stop */
  double air;          /* of the plate's flow equation */
  double control;      /* of orifice against regulator */
  double cylinder;     /* the worst of slot flow against valve and nozzle flow */
  double fuel;         /* pump delivery against all that leaves (0 with the system pressure held), return flow against
                        the return's pressure */
};

struct state {
  enum outcome outcome;
  unsigned regime; /* bits of enum regime */
  int cylinders;

  double ambient_pressure; /* absolute */
  double air_density, fuel_density, fuel_viscosity;
  double bimetal_temperature, bimetal_force, bimetal_deflection;
  double load_position, load_force;
  double base_pressure;
  double suction_pressure;
  double pump_current, pump_flow, pump_pressure;
  double system_pressure, control_pressure;
  double control_flow, relief_flow, return_flow, return_pressure;
  double plunger_force, plate_drop, plate_force;
  double air_flow, flow_area, plate_lift, plunger_lift;
  double fuel_volume_flow, fuel_flow;
  double unmetered_air;
  double stoichiometric, air_fuel_ratio, lambda; /* ratios 0 where not defined: see regime */

  struct cylinder_state cylinder[CYLINDERS_MAX];
  struct residuals residual;
};

struct state_value {
  const char *key;
  size_t offset; /* in struct state, or in struct cylinder_state for cylinder values */
  enum quantity quantity;
  const char *name; /* marked for translation */
};

extern const struct state_value state_values[];
extern const int state_value_count;
extern const struct state_value cylinder_values[];
extern const int cylinder_value_count;

const struct state_value *state_value_find (const char *key);
double state_value_get (const struct state *state, const struct state_value *value);
double cylinder_value_get (const struct cylinder_state *cylinder, const struct state_value *value);

/* A sentence for an outcome, marked for translation. */
const char *outcome_text (enum outcome outcome);

#endif
