/* The steady state of one car under given conditions. */
#ifndef METERING_SOLVE_H
#define METERING_SOLVE_H

#include "car.h"
#include "conditions.h"
#include "state.h"

/* Checks car and conditions, solves, fills state, returns state->outcome. On any outcome but OUTCOME_SOLVED the values
 * are zeroes. Re-entrant, no heap, a bounded number of steps, no NaN. */
enum outcome metering_solve (const struct car *car, const struct conditions *conditions, struct state *state);

/* The same without the border checks, for callers that made car and conditions from checked ones (sweeps, fits). */
enum outcome metering_solve_checked (const struct car *car, const struct conditions *conditions, struct state *state);

#endif
