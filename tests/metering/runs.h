/* Runs of a machine that several tests share. */
#ifndef TESTS_RUNS_H
#define TESTS_RUNS_H

#include "transient.h"

#include <glib.h>

#include <math.h>

#define RPM (3.14159265358979323846 / 30)

/* A machine with everything at one temperature and an empty system; with residual pressure where that is above 0. */
static inline struct machine *
run_at (const struct car *car, double temperature, double pressure)
{
  struct machine_start start;
  struct machine *machine;

  machine_start_usual (&start);
  start.weather.ambient_temperature = start.weather.fuel_temperature = start.weather.block_temperature = temperature;
  start.system_pressure = pressure;
  machine = machine_new (car, &start);
  g_assert_nonnull (machine);
  return machine;
}

static inline void
run_until (struct machine *machine, double time)
{
  for (int i = 0; i < 50; i++) {
    enum machine_outcome outcome = machine_advance (machine, time);
    if (outcome == MACHINE_DONE)
      return;
    g_assert_cmpint (outcome, ==, MACHINE_SLOW);
  }
  g_error ("%g s were not reached", time);
}

static inline void
run_for (struct machine *machine, double time)
{
  run_until (machine, machine_time (machine) + time);
}

static inline struct machine_state
seen (const struct machine *machine)
{
  struct machine_state state;

  machine_get_state (machine, &state);
  return state;
}

static inline struct machine_inputs
inputs_of (const struct machine *machine)
{
  struct machine_inputs inputs;

  machine_get_inputs (machine, &inputs);
  return inputs;
}

static inline void
set (struct machine *machine, struct machine_inputs inputs)
{
  g_assert_cmpint (machine_set_inputs (machine, &inputs), ==, MACHINE_DONE);
}

/* Cranks for up to most seconds, lets go as soon as the engine runs; returns the cranking time, or -1 without a start. */
static inline double
crank (struct machine *machine, double most)
{
  struct machine_inputs inputs = inputs_of (machine);
  double begun = machine_time (machine), took = -1;

  inputs.key = inputs.crank = true;
  set (machine, inputs);
  while (machine_time (machine) < begun + most && took < 0) {
    run_for (machine, 0.05);
    if (seen (machine).running)
      took = machine_time (machine) - begun;
  }
  inputs.crank = false;
  set (machine, inputs);
  return took;
}

static inline void
key_off (struct machine *machine)
{
  struct machine_inputs inputs = inputs_of (machine);

  inputs.key = inputs.crank = false;
  inputs.throttle = 0;
  set (machine, inputs);
}

/* Started and run until warm, one machine for every demo car and test. */
static inline struct machine *
run_warm (const struct car *car)
{
  struct machine *machine = run_at (car, 20, 0);

  g_assert_cmpfloat (crank (machine, 10), >, 0);
  run_until (machine, 900);
  return machine;
}

#endif
