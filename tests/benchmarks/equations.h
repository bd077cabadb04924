/* The steady unit's equations as one system of 4 + cylinders unknowns, for general solvers: scaled unknowns, constants
 * computed beforehand, the Jacobian by formulas. The same functions of the room that its own solver calls. */
#ifndef BENCHMARKS_EQUATIONS_H
#define BENCHMARKS_EQUATIONS_H

#include "car.h"
#include "conditions.h"
#include "distributor.h"
#include "sensor.h"
#include "state.h"
#include "supply.h"

#define UNKNOWNS_MAX (4 + CYLINDERS_MAX)

struct equations {
  const struct car *car;
  int unknowns;
  struct sensor_air air;
  struct distributor_fuel fuel;
  struct supply_line pump;
  double orifice, seat, bimetal_force, load_force, air_flow, approach;
  double plunger_area, lever, drop_by_control;
};

/* What does not hang on the unknowns: densities, bimetal, load diaphragm, pump, orifice. */
void equations_set (struct equations *equations, const struct car *car, const struct conditions *conditions);

/* The scaled unknowns of a solved state: system pressure, control pressure, lift, return flow, valve openings. */
void equations_solution (const struct equations *equations, const struct state *state, double *x);

/* Scaled residuals; roots of negative pressures are continued oddly, so that a solver finds its way back. */
void equations_residual (const struct equations *equations, const double *x, double *f);

/* jacobian[row x unknowns + column] */
void equations_jacobian (const struct equations *equations, const double *x, double *jacobian);

#endif
