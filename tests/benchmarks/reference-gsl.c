#include "references.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_multiroots.h>

#define STEPS_MAX 200

static int
residual (const gsl_vector *x, void *equations, gsl_vector *f)
{
  equations_residual (equations, x->data, f->data); /* both of stride 1 */
  return GSL_SUCCESS;
}

static int
jacobian (const gsl_vector *x, void *equations, gsl_matrix *j)
{
  equations_jacobian (equations, x->data, j->data); /* square: rows follow each other without gaps */
  return GSL_SUCCESS;
}

static int
both (const gsl_vector *x, void *equations, gsl_vector *f, gsl_matrix *j)
{
  residual (x, equations, f);
  return jacobian (x, equations, j);
}

static bool
small (const gsl_vector *f)
{
  for (size_t i = 0; i < f->size; i++)
    if (!(f->data[i] <= RESIDUAL_TOLERANCE && f->data[i] >= -RESIDUAL_TOLERANCE))
      return false;
  return true;
}

static bool
solve_hybrids (const struct equations *equations, double *x)
{
  static gsl_multiroot_fsolver *solvers[UNKNOWNS_MAX + 1];
  const size_t n = (size_t) equations->unknowns;
  gsl_multiroot_function function = { residual, n, (void *) equations };
  gsl_vector_view start = gsl_vector_view_array (x, n);
  gsl_multiroot_fsolver *s;

  gsl_set_error_handler_off ();
  if (solvers[n] == NULL)
    solvers[n] = gsl_multiroot_fsolver_alloc (gsl_multiroot_fsolver_hybrids, n);
  s = solvers[n];
  gsl_multiroot_fsolver_set (s, &function, &start.vector);
  for (int step = 0; step < STEPS_MAX && !small (s->f); step++)
    if (gsl_multiroot_fsolver_iterate (s))
      break;
  gsl_vector_memcpy (&start.vector, s->x);
  return small (s->f);
}

static bool
solve_hybridsj (const struct equations *equations, double *x)
{
  static gsl_multiroot_fdfsolver *solvers[UNKNOWNS_MAX + 1];
  const size_t n = (size_t) equations->unknowns;
  gsl_multiroot_function_fdf function = { residual, jacobian, both, n, (void *) equations };
  gsl_vector_view start = gsl_vector_view_array (x, n);
  gsl_multiroot_fdfsolver *s;

  gsl_set_error_handler_off ();
  if (solvers[n] == NULL)
    solvers[n] = gsl_multiroot_fdfsolver_alloc (gsl_multiroot_fdfsolver_hybridsj, n);
  s = solvers[n];
  gsl_multiroot_fdfsolver_set (s, &function, &start.vector);
  for (int step = 0; step < STEPS_MAX && !small (s->f); step++)
    if (gsl_multiroot_fdfsolver_iterate (s))
      break;
  gsl_vector_memcpy (&start.vector, s->x);
  return small (s->f);
}

const struct reference gsl_hybrids = { "GSL hybrids", solve_hybrids };
const struct reference gsl_hybridsj = { "GSL hybridsj", solve_hybridsj };
