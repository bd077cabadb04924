#include "references.h"

#include <kinsol/kinsol.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <math.h>
#include <string.h>

struct solver {
  void *memory;
  N_Vector x, ones;
  SUNMatrix matrix;
  SUNLinearSolver linear;
};

static int
residual (N_Vector x, N_Vector f, void *equations)
{
  equations_residual (equations, NV_DATA_S (x), NV_DATA_S (f));
  return 0;
}

static int
jacobian (N_Vector x, N_Vector f, SUNMatrix matrix, void *equations, N_Vector work1, N_Vector work2)
{
  double rows[UNKNOWNS_MAX * UNKNOWNS_MAX];
  const int n = ((const struct equations *) equations)->unknowns;

  (void) f, (void) work1, (void) work2;
  equations_jacobian (equations, NV_DATA_S (x), rows);
  for (int column = 0; column < n; column++)
    for (int row = 0; row < n; row++)
      SM_ELEMENT_D (matrix, row, column) = rows[row * n + column];
  return 0;
}

static void
quiet (int code, const char *module, const char *function, char *message, void *data)
{
  (void) code, (void) module, (void) function, (void) message, (void) data;
}

static struct solver *
solver_for (int n)
{
  static struct solver solvers[UNKNOWNS_MAX + 1];
  static SUNContext context;
  struct solver *s = &solvers[n];

  if (context == NULL)
    SUNContext_Create (NULL, &context);
  if (s->memory)
    return s;
  s->x = N_VNew_Serial (n, context);
  s->ones = N_VNew_Serial (n, context);
  N_VConst (1, s->ones);
  s->matrix = SUNDenseMatrix (n, n, context);
  s->linear = SUNLinSol_Dense (s->x, s->matrix, context);
  s->memory = KINCreate (context);
  KINSetErrHandlerFn (s->memory, quiet, NULL);
  KINSetNumMaxIters (s->memory, 200);
  KINInit (s->memory, residual, s->x);
  KINSetLinearSolver (s->memory, s->linear, s->matrix);
  KINSetJacFn (s->memory, jacobian);
  KINSetMaxSetupCalls (s->memory, 1); /* a fresh Jacobian each step: full Newton */
  KINSetFuncNormTol (s->memory, RESIDUAL_TOLERANCE);
  KINSetScaledStepTol (s->memory, 1e-15);
  return s;
}

static bool
solve (const struct equations *equations, double *x, int strategy)
{
  struct solver *s = solver_for (equations->unknowns);
  const size_t bytes = (size_t) equations->unknowns * sizeof *x;
  double f[UNKNOWNS_MAX];
  int flag;

  memcpy (NV_DATA_S (s->x), x, bytes);
  KINSetUserData (s->memory, (void *) equations);
  flag = KINSol (s->memory, s->x, strategy, s->ones, s->ones);
  memcpy (x, NV_DATA_S (s->x), bytes);
  if (flag == KIN_SUCCESS || flag == KIN_INITIAL_GUESS_OK)
    return true;
  equations_residual (equations, x, f); /* it may call a good end a failure */
  for (int i = 0; i < equations->unknowns; i++)
    if (!(fabs (f[i]) <= RESIDUAL_TOLERANCE))
      return false;
  return true;
}

static bool
solve_newton (const struct equations *equations, double *x)
{
  return solve (equations, x, KIN_NONE);
}

static bool
solve_line_search (const struct equations *equations, double *x)
{
  return solve (equations, x, KIN_LINESEARCH);
}

const struct reference kinsol_newton = { "KINSOL Newton", solve_newton };
const struct reference kinsol_line_search = { "KINSOL line search", solve_line_search };
