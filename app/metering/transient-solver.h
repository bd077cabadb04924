/* Integration of a stiff system with located switch events. The only place that knows the integrator's library
 * (SUNDIALS CVODE: backward differentiation formulas, dense Newton). It always goes by whole steps of its own choice, so
 * that where a caller looks does not change where it steps. */
#ifndef METERING_TRANSIENT_SOLVER_H
#define METERING_TRANSIENT_SOLVER_H

#include <stdbool.h>

struct solver;

/* Rates of the unknowns; false where the unknowns make no sense (a shorter step is tried). */
typedef bool (*solver_rates) (const void *model, double time, const double *unknown, double *rate);

/* Functions whose passing through zero is an event. */
typedef void (*solver_roots) (const void *model, double time, const double *unknown, double *root);

enum solver_step { SOLVER_STEPPED, SOLVER_ROOT, SOLVER_FAILED };

/* model must outlive the solver. absolute: one tolerance for each unknown. NULL without memory. */
struct solver *solver_new (int unknowns, int roots, solver_rates rates, solver_roots root, const void *model,
                           double relative, const double *absolute);
void solver_free (struct solver *solver);

/* Begins anew at a moment. */
bool solver_start (struct solver *solver, double time, const double *unknown);

/* One step, not beyond stop (INFINITY for none). *reached: where it ended; unknown: there. */
enum solver_step solver_step (struct solver *solver, double stop, double *reached, double *unknown);

/* Inside the last step. */
bool solver_interpolate (const struct solver *solver, double time, double *unknown);

/* After SOLVER_ROOT: -1 falling, +1 rising through zero, 0 not passed. */
int solver_passed (const struct solver *solver, int root);

#endif
