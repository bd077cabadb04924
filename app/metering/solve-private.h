/* What the two ways of solving share: solve.c (every unknown in its own bracket: certain) and solve-newton.c (all together:
 * fast where nothing is out of the ordinary). */
#ifndef METERING_SOLVE_PRIVATE_H
#define METERING_SOLVE_PRIVATE_H

#include "conditions.h"
#include "distributor.h"
#include "sensor.h"
#include "supply.h"

#include <stdbool.h>

/* What does not change while the pressures are sought. */
struct problem {
  const struct car *car;
  const struct conditions *conditions;
  struct sensor_air air;
  struct distributor_fuel fuel;
  struct supply_line pump;
  double orifice;
  double bimetal_force, load_force;
  double offset;
  double plunger_area;
};

/* What follows from one trial of the system pressure. Openings and lift of the trial before serve as guesses. */
struct trial {
  double system_pressure;
  double control_pressure, control_by_system, control_flow;
  double base_pressure;
  double return_flow, return_pressure, relief_flow;
  bool return_given; /* return_pressure is set from outside, not found */
  double plunger_force, balance_drop, drop, lift;
  double plunger_lift;
  bool at_rest, at_buffer;
  double pump_flow, fuel_flow;
  struct cylinder_state cylinder[CYLINDERS_MAX];
};

static inline bool
problem_holds (const struct problem *problem, enum held what)
{
  return (problem->conditions->held & (unsigned) what) != 0;
}

/* Newton's method on all equations at once from a guess of the system pressure, by eliminating lift and valves: their
 * equations each have one unknown of their own beside the pressures. False, and trial without meaning, where a stop, a
 * shut regulator or the end of a valve's travel is met, or it does not settle: then solve.c takes its certain way. */
bool newton_solve (const struct problem *problem, struct trial *trial, double pressure_guess);

#endif
