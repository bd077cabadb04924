/* How long ten minutes of warm-up take to compute, against GSL's BDF stepper on the same rates, the same tolerance for every
 * unknown and the same start (ten seconds after a cold start, so that no switch event lies in between). Both take the
 * Jacobian from differences. The least time of several runs counts on both sides.
 *   warm-up [--json] */
#include "cars.h"
#include "transient-equations.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define TURNS 5
#define FROM 10.0 /* s */
#define TO 610.0
#define RELATIVE 1e-6

/* As in transient.c */
static const double absolute[UNKNOWNS] = { 1e-7, 1e-4, 0.5, 0.5, 1e-4, 1e-10, 2e-4, 2e-4, 2e-4, 2e-4, 1e-3, 1e-11, 5, 1e-4, 2e-4 };

static double
now (void)
{
  struct timespec t;

  clock_gettime (CLOCK_MONOTONIC, &t);
  return (double) t.tv_sec + 1e-9 * (double) t.tv_nsec;
}

static bool
go_to (struct machine *machine, double time)
{
  enum machine_outcome outcome;

  do
    outcome = machine_advance (machine, time);
  while (outcome == MACHINE_SLOW);
  return outcome == MACHINE_DONE;
}

/* A cold start at 20 degC up to FROM. */
static struct machine *
started (void)
{
  struct machine_start start;
  struct machine_inputs inputs = { .key = true, .crank = true };
  struct machine *machine;

  machine_start_usual (&start);
  machine = machine_new (&hollin_six, &start);
  if (machine == NULL || machine_set_inputs (machine, &inputs) != MACHINE_DONE || !go_to (machine, 3))
    exit (1);
  inputs.crank = false;
  if (machine_set_inputs (machine, &inputs) != MACHINE_DONE || !go_to (machine, FROM))
    exit (1);
  return machine;
}

static int
gsl_rates (double time, const double y[], double rate[], void *model)
{
  return transient_rates (model, time, y, rate) ? GSL_SUCCESS : GSL_EBADFUNC;
}

static int
gsl_jacobian (double time, const double y[], double *dfdy, double dfdt[], void *model)
{
  double trial[UNKNOWNS], base[UNKNOWNS], rate[UNKNOWNS];

  memcpy (trial, y, sizeof trial);
  transient_rates (model, time, trial, base);
  for (int j = 0; j < UNKNOWNS; j++) {
    double step = fmax (fabs (y[j]) * 1.5e-8, absolute[j] * 1e-2);
    trial[j] = y[j] + step;
    if (!transient_rates (model, time, trial, rate))
      return GSL_EBADFUNC;
    for (int i = 0; i < UNKNOWNS; i++)
      dfdy[i * UNKNOWNS + j] = (rate[i] - base[i]) / step;
    trial[j] = y[j];
    dfdt[j] = 0;
  }
  return GSL_SUCCESS;
}

static double
time_gsl (const struct machine_snapshot *from, double y[UNKNOWNS])
{
  struct machine_start start;
  struct model model;
  gsl_odeiv2_system system = { gsl_rates, gsl_jacobian, UNKNOWNS, &model };
  gsl_odeiv2_driver *driver;
  double time = FROM, begun;
  int code;

  machine_start_usual (&start);
  model_set_up (&model, &hollin_six, &start);
  model.now = *from;
  memcpy (y, from->unknown, sizeof model.now.unknown);
  begun = now ();
  driver = gsl_odeiv2_driver_alloc_scaled_new (&system, gsl_odeiv2_step_msbdf, 1e-4, 1, RELATIVE, 1, 0, absolute);
  code = gsl_odeiv2_driver_apply (driver, &time, TO, y);
  gsl_odeiv2_driver_free (driver);
  return code == GSL_SUCCESS ? now () - begun : -1;
}

int
main (int argc, char **argv)
{
  bool json = argc > 1 && strcmp (argv[1], "--json") == 0;
  double whole = INFINITY, own = INFINITY, gsl = INFINITY, y[UNKNOWNS], worst = 0;
  struct machine_snapshot from, to;
  long steps = 0;

  if (argc > 1 + json) {
    fprintf (stderr, "usage: warm-up [--json]\n");
    return 2;
  }
  for (int turn = 0; turn < TURNS; turn++) {
    double begun = now (), at_from, theirs;
    struct machine *machine = started ();
    struct machine_state state;

    at_from = now ();
    machine_take_snapshot (machine, &from);
    if (machine_restore (machine, &from) != MACHINE_DONE || !go_to (machine, TO))
      return 1;
    own = fmin (own, now () - at_from);
    whole = fmin (whole, now () - begun);
    machine_take_snapshot (machine, &to);
    machine_get_state (machine, &state);
    steps = state.steps;
    machine_free (machine);
    theirs = time_gsl (&from, y);
    if (theirs < 0) {
      gsl = NAN; /* not reached */
      break;
    }
    gsl = fmin (gsl, theirs);
  }
  for (int i = 0; i < UNKNOWNS; i++)
    if (i != PLATE_SPEED && i != FUEL_EXCESS && i != SWITCH_TEMPERATURE)
      worst = fmax (worst, fabs (to.unknown[i] / y[i] - 1));
  if (json) {
    printf ("{\"warmup_s\": %.6f, \"warmup_own_s\": %.6f, \"warmup_steps\": %ld, \"warmup_ratio_gsl\": ", whole, own, steps);
    printf (isfinite (gsl) ? "%.3f}\n" : "null}\n", gsl / own);
  } else {
    printf ("Cold start and ten minutes of warm-up, 15 unknowns with switch events: %.2f ms, %ld steps\n", 1e3 * whole, steps);
    printf ("The last 600 s of it: own %.2f ms; GSL msbdf on the same rates and tolerance %.2f ms, %.1f times as long;\n"
            "the two end within %.1e of each other\n", 1e3 * own, 1e3 * gsl, gsl / own, worst);
  }
  return 0;
}
