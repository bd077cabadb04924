/* General solvers of nonlinear systems, each set up once for a number of unknowns and used again for every state. */
#ifndef BENCHMARKS_REFERENCES_H
#define BENCHMARKS_REFERENCES_H

#include "equations.h"

#include <stdbool.h>

#define RESIDUAL_TOLERANCE 1e-9 /* of each scaled equation: what the room's own solver promises */

/* Improves x in place; whether it got under the tolerance. */
struct reference {
  const char *name;
  bool (*solve) (const struct equations *equations, double *x);
};

/* GSL multiroot: hybrids (own difference quotients) and hybridsj (Jacobian by formulas). */
extern const struct reference gsl_hybrids, gsl_hybridsj;

/* KINSOL of SUNDIALS: Newton with a dense Jacobian by formulas, plain and with line search. */
extern const struct reference kinsol_newton, kinsol_line_search;

#endif
