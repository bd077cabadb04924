#include "transient-solver.h"

#include <cvode/cvode.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <stdlib.h>
#include <string.h>
#include <sundials/sundials_context.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#define TIME_MOST 1e12 /* s */
#define STEP_MOST 600.0 /* s: a longer one could leap over what happens between two corners of the rates */

struct solver {
  SUNContext context;
  void *integrator;
  SUNMatrix matrix;
  SUNLinearSolver linear;
  N_Vector unknown, absolute, look;
  int unknowns, roots;
  int *passed;
  solver_rates rates;
  solver_roots root;
  const void *model;
};

static int
call_rates (realtype time, N_Vector unknown, N_Vector rate, void *data)
{
  const struct solver *s = data;

  return s->rates (s->model, time, N_VGetArrayPointer (unknown), N_VGetArrayPointer (rate)) ? 0 : 1;
}

static int
call_roots (realtype time, N_Vector unknown, realtype *root, void *data)
{
  const struct solver *s = data;

  s->root (s->model, time, N_VGetArrayPointer (unknown), root);
  return 0;
}

/* Outcomes are returned, never printed. */
static void
keep_quiet (int code, const char *module, const char *function, char *message, void *data)
{
}

static bool
set_up (struct solver *s, double relative)
{
  void *i = s->integrator;

  return CVodeSetErrHandlerFn (i, keep_quiet, NULL) == CV_SUCCESS
         && CVodeInit (i, call_rates, 0, s->unknown) == CV_SUCCESS
         && CVodeSVtolerances (i, relative, s->absolute) == CV_SUCCESS && CVodeSetUserData (i, s) == CV_SUCCESS
         && CVodeSetMaxStep (i, STEP_MOST) == CV_SUCCESS
         && CVodeSetLinearSolver (i, s->linear, s->matrix) == CV_SUCCESS
         && CVodeRootInit (i, s->roots, call_roots) == CV_SUCCESS && CVodeSetNoInactiveRootWarn (i) == CV_SUCCESS;
}

struct solver *
solver_new (int unknowns, int roots, solver_rates rates, solver_roots root, const void *model, double relative,
            const double *absolute)
{
  struct solver *s = calloc (1, sizeof *s);

  if (s == NULL)
    return NULL;
  s->unknowns = unknowns;
  s->roots = roots;
  s->rates = rates;
  s->root = root;
  s->model = model;
  s->passed = calloc ((size_t) roots, sizeof *s->passed);
  if (s->passed && SUNContext_Create (NULL, &s->context) == 0) {
    s->unknown = N_VNew_Serial (unknowns, s->context);
    s->absolute = N_VNew_Serial (unknowns, s->context);
    s->look = N_VNew_Serial (unknowns, s->context);
    s->matrix = SUNDenseMatrix (unknowns, unknowns, s->context);
    s->integrator = CVodeCreate (CV_BDF, s->context);
  }
  if (s->unknown && s->absolute && s->look && s->matrix && s->integrator) {
    s->linear = SUNLinSol_Dense (s->unknown, s->matrix, s->context);
    memcpy (N_VGetArrayPointer (s->absolute), absolute, (size_t) unknowns * sizeof *absolute);
    N_VConst (0, s->unknown);
    if (s->linear && set_up (s, relative))
      return s;
  }
  solver_free (s);
  return NULL;
}

void
solver_free (struct solver *s)
{
  if (s == NULL)
    return;
  if (s->integrator)
    CVodeFree (&s->integrator);
  if (s->linear)
    SUNLinSolFree (s->linear);
  if (s->matrix)
    SUNMatDestroy (s->matrix);
  if (s->look)
    N_VDestroy (s->look);
  if (s->absolute)
    N_VDestroy (s->absolute);
  if (s->unknown)
    N_VDestroy (s->unknown);
  if (s->context)
    SUNContext_Free (&s->context);
  free (s->passed);
  free (s);
}

bool
solver_start (struct solver *s, double time, const double *unknown)
{
  memcpy (N_VGetArrayPointer (s->unknown), unknown, (size_t) s->unknowns * sizeof *unknown);
  return CVodeReInit (s->integrator, time, s->unknown) == CV_SUCCESS;
}

enum solver_step
solver_step (struct solver *s, double stop, double *reached, double *unknown)
{
  double end = fmin (stop, TIME_MOST);
  int code;

  CVodeSetStopTime (s->integrator, end); /* always: an earlier one would stay */
  code = CVode (s->integrator, end, s->unknown, reached, CV_ONE_STEP);
  if (code < 0)
    return SOLVER_FAILED;
  memcpy (unknown, N_VGetArrayPointer (s->unknown), (size_t) s->unknowns * sizeof *unknown);
  if (code != CV_ROOT_RETURN)
    return SOLVER_STEPPED;
  CVodeGetRootInfo (s->integrator, s->passed);
  return SOLVER_ROOT;
}

bool
solver_interpolate (const struct solver *s, double time, double *unknown)
{
  if (CVodeGetDky (s->integrator, time, 0, s->look) != CV_SUCCESS)
    return false;
  memcpy (unknown, N_VGetArrayPointer (s->look), (size_t) s->unknowns * sizeof *unknown);
  return true;
}

int
solver_passed (const struct solver *s, int root)
{
  return s->passed[root];
}
