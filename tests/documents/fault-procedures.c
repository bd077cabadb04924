#include "fault-procedures.h"
#include "transient.h"

#include <glib.h>

#include <math.h>
#include <string.h>

#define HOT 85.0
#define THROTTLE_OPEN 0.3
#define SAMPLE 0.002
#define SAMPLES 500

struct swing {
  double overshoot, late, kick;
};

static struct machine *
machine_at (const struct car *car, double air, double block)
{
  struct machine_start start;
  struct machine *machine;

  machine_start_usual (&start);
  start.weather.ambient_temperature = start.weather.fuel_temperature = air;
  start.weather.block_temperature = block;
  machine = machine_new (car, &start);
  g_assert_nonnull (machine);
  return machine;
}

static void
run_for (struct machine *machine, double time)
{
  double end = machine_time (machine) + time;
  enum machine_outcome outcome = MACHINE_SLOW;

  for (int i = 0; i < 200 && outcome == MACHINE_SLOW; i++)
    outcome = machine_advance (machine, end);
  g_assert_cmpint (outcome, ==, MACHINE_DONE);
}

static void
turn (struct machine *machine, bool key, bool crank)
{
  struct machine_inputs inputs;

  machine_get_inputs (machine, &inputs);
  inputs.key = key;
  inputs.crank = crank;
  g_assert_cmpint (machine_set_inputs (machine, &inputs), ==, MACHINE_DONE);
}

static struct machine_state
seen (const struct machine *machine)
{
  struct machine_state state;

  machine_get_state (machine, &state);
  return state;
}

/* Cranks until the engine runs, at most 8 s. */
static void
start_engine (struct machine *machine)
{
  turn (machine, true, true);
  for (int i = 0; i < 80 && !seen (machine).running; i++)
    run_for (machine, 0.1);
  turn (machine, true, false);
}

static struct swing
open_throttle (struct machine *machine)
{
  struct swing swing = { 0, 0, 0 };
  struct machine_inputs inputs;
  double from = seen (machine).metering.plate_lift, pressure = seen (machine).metering.control_pressure;
  double lift[SAMPLES], to;

  machine_get_inputs (machine, &inputs);
  inputs.hold_speed = true;
  inputs.throttle = THROTTLE_OPEN;
  inputs.throttle_time = 0.02;
  machine_set_inputs (machine, &inputs);
  for (int i = 0; i < SAMPLES; i++) {
    run_for (machine, SAMPLE);
    lift[i] = seen (machine).metering.plate_lift;
    swing.kick = fmax (swing.kick, seen (machine).metering.control_pressure - pressure);
  }
  run_for (machine, 5);
  to = seen (machine).metering.plate_lift;
  for (int i = 0; i < SAMPLES; i++)
    swing.overshoot = fmax (swing.overshoot, (lift[i] - to) / (to - from));
  swing.late = (to - lift[25]) / (to - from);
  return swing;
}

/* What each begins with, and how long it lasts. */
static const struct {
  double air, block; /* degC */
  enum { CRANK, BRIDGE, START } how;
  double running, stopped; /* s after that; stopped 0: not */
} procedures[] = {
  [HOT_IDLE] = { 20, HOT, START, 90, 0 },
  [COLD_CRANK] = { -10, -10, CRANK, 2, 0 },
  [FIRST_TURNS] = { -10, -10, CRANK, 0.3, 0 },
  [HOT_CRANK] = { 20, 50, CRANK, 0.5, 0 },
  [COLD_IDLE] = { 10, 10, START, 60, 0 },
  [AFTER_START] = { 10, 10, START, 3, 0 },
  [WARMED] = { 10, 10, START, 360, 0 },
  [RESIDUAL] = { 20, 20, BRIDGE, 10, 600 },
  [OVERNIGHT] = { -5, HOT, START, 90, 12 * 3600 },
  [SOAKED] = { 35, HOT, START, 90, 1800 },
  [THROTTLE] = { 20, HOT, START, 90, 0 },
};

static void
bridge_pump (struct machine *machine, bool bridged)
{
  struct machine_inputs inputs;

  machine_get_inputs (machine, &inputs);
  inputs.key = inputs.pump_bridged = bridged;
  g_assert_cmpint (machine_set_inputs (machine, &inputs), ==, MACHINE_DONE);
}

static struct machine *
run (enum procedure procedure, const struct car *car)
{
  struct machine *machine = machine_at (car, procedures[procedure].air, procedures[procedure].block);

  if (procedures[procedure].how == CRANK)
    turn (machine, true, true);
  else if (procedures[procedure].how == BRIDGE)
    bridge_pump (machine, true);
  else
    start_engine (machine);
  run_for (machine, procedures[procedure].running);
  if (procedures[procedure].stopped > 0) {
    bridge_pump (machine, false);
    run_for (machine, procedures[procedure].stopped);
  }
  return machine;
}

static double
value_of (const struct machine_state *state, const char *key)
{
  const struct state_value *value = state_value_find (key);
  const struct machine_value *machine_value = machine_value_find (key);

  if (machine_value)
    return machine_value_get (state, machine_value);
  if (value)
    return state_value_get (&state->metering, value);
  if (strcmp (key, "co") == 0)
    return state->gases.co;
  if (strcmp (key, "o2") == 0)
    return state->gases.o2;
  if (strcmp (key, "hc") == 0)
    return state->gases.hc;
  if (strcmp (key, "gas_lambda") == 0)
    return state->gas_lambda;
  g_error ("no value “%s” of a machine", key);
}

double
procedure_value (enum procedure procedure, const struct car *car, const char *key)
{
  struct machine *machine = run (procedure, car);
  struct machine_state state = seen (machine);
  struct swing swing = procedure == THROTTLE ? open_throttle (machine) : (struct swing) { 0, 0, 0 };

  machine_free (machine);
  if (procedure != THROTTLE)
    return value_of (&state, key);
  return strcmp (key, "overshoot") == 0 ? swing.overshoot : strcmp (key, "late") == 0 ? swing.late : swing.kick;
}
