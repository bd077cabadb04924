/* Several faults at once, at random, on every shipped car: the model still closes. */
#include "fault-document.h"
#include "parameter.h"
#include "solve.h"
#include "transient.h"
#include "vehicle-document.h"

#include <math.h>
#include <string.h>

#define STATES 100000
#define RUNS 300
#define AT_ONCE_MAX 6

static const struct fault_catalogue *catalogue;
static struct vehicle *cars[8];
static int car_count;

static void
load (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  const char *const *names = vehicle_shipped ();

  catalogue = fault_catalogue_shipped (problems);
  for (int i = 0; names[i] && car_count < 7; i++)
    cars[car_count++] = vehicle_load (names[i], problems);
  cars[car_count++] = vehicle_load ("generic", problems);
  g_assert_cmpuint (problems_count (problems), ==, 0);
}

/* Different faults, but for those of one cylinder, which may stand in several. */
static gboolean
is_new (const struct fault *fault, const struct fault_dose *doses, int count)
{
  for (int i = 0; i < count; i++)
    if (doses[i].fault == fault)
      return fault->one_cylinder;
  return TRUE;
}

static int
draw_doses (GRand *random, const struct car *car, struct fault_dose *doses)
{
  int count = g_rand_int_range (random, 1, AT_ONCE_MAX + 1);

  for (int i = 0; i < count; i++) {
    do
      doses[i].fault = &catalogue->fault[g_rand_int_range (random, 0, (int) catalogue->count)];
    while (!is_new (doses[i].fault, doses, i));
    doses[i].severity = g_rand_int_range (random, 0, 4) == 0 ? 1 : g_rand_double (random);
    doses[i].cylinder = g_rand_int_range (random, 0, car->cylinders);
  }
  return count;
}

/* Any weather, any load up to the car's largest air. */
static struct conditions
draw_conditions (GRand *random, const struct car *car)
{
  struct conditions c;

  conditions_usual (&c);
  c.air_flow = g_rand_int_range (random, 0, 10) == 0 ? 0 : car->engine.full_air * pow (0.02, g_rand_double (random));
  c.block_temperature = g_rand_double_range (random, -30, 110);
  c.heater_time = g_rand_int_range (random, 0, 2) ? g_rand_double_range (random, 0, 900) : 0;
  c.vacuum = g_rand_double_range (random, 0, 80e3);
  c.altitude = g_rand_double_range (random, 0, 3000);
  c.ambient_temperature = g_rand_double_range (random, -30, 45);
  c.humidity = g_rand_double (random);
  c.fuel_temperature = g_rand_double_range (random, -20, 60);
  c.voltage = g_rand_double_range (random, 0, 15);
  c.approach = g_rand_int_range (random, -1, 2);
  c.tap_shut = g_rand_int_range (random, 0, 10) == 0;
  c.heater_unplugged = g_rand_int_range (random, 0, 4) == 0;
  return c;
}

/* Nothing that is not a number, nothing negative that cannot be, and the fuel accounted for. */
static gboolean
sound (const struct state *state)
{
  double leaving = state->fuel_volume_flow + state->relief_flow + state->control_flow, cylinders = 0;

  for (int i = 0; i < state_value_count; i++)
    if (!isfinite (state_value_get (state, &state_values[i])))
      return FALSE;
  for (int i = 0; i < state->cylinders; i++) {
    for (int j = 0; j < cylinder_value_count; j++)
      if (!isfinite (cylinder_value_get (&state->cylinder[i], &cylinder_values[j])))
        return FALSE;
    if (!(state->cylinder[i].flow >= 0 && state->cylinder[i].lambda >= 0))
      return FALSE;
    cylinders += state->cylinder[i].flow;
  }
  return state->system_pressure >= 0 && state->control_pressure >= 0 && state->plunger_lift >= 0
         && fabs (leaving - state->pump_flow) <= 1e-9 * fmax (state->pump_flow, 1e-9)
         && fabs (cylinders - state->fuel_volume_flow) <= 1e-12 * state->fuel_volume_flow;
}

static void
tell (const struct vehicle *vehicle, const struct fault_dose *doses, int count, const struct state *state)
{
  for (int i = 0; i < state_value_count; i++)
    if (!(state_value_get (state, &state_values[i]) >= 0))
      g_test_message ("  %s %g", state_values[i].key, state_value_get (state, &state_values[i]));
  g_test_message ("  fuel in %.17g, out %.17g", state->pump_flow,
                  state->fuel_volume_flow + state->relief_flow + state->control_flow);
  for (int i = 0; i < count; i++)
    g_test_message ("  %s=%.17g in cylinder %d", doses[i].fault->key, doses[i].severity, doses[i].cylinder);
  g_test_message ("%s: outcome %d", vehicle->key, (int) state->outcome);
  g_test_fail_printf ("%s: outcome %d or an unsound state", vehicle->key, state->outcome);
}

static void
test_random (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (20);
  int solved = 0, too_much = 0, refused = 0, failures = 0;

  for (int n = 0; n < STATES && failures < 5; n++) {
    const struct vehicle *vehicle = cars[n % car_count];
    struct fault_dose doses[AT_ONCE_MAX];
    int count = draw_doses (random, &vehicle->car, doses);
    struct conditions c = draw_conditions (random, &vehicle->car);
    struct state state;
    struct car car;

    if (!faults_apply (&vehicle->car, doses, count, &car, NULL)) {
      refused++;
      continue;
    }
    metering_solve (&car, &c, &state);
    if (state.outcome == OUTCOME_SOLVED && sound (&state))
      solved++;
    else if (state.outcome == OUTCOME_TOO_MUCH_AIR)
      too_much++;
    else {
      failures++;
      tell (vehicle, doses, count, &state);
    }
  }
  g_test_message ("%d solved, %d with more air than passes, %d refused", solved, too_much, refused);
  g_assert_cmpint (failures, ==, 0);
  g_assert_cmpint (refused, ==, 0);
  g_assert_cmpint (too_much, <, STATES / 1000);
}

static void
check_machine (const struct machine *machine, const struct vehicle *vehicle, const struct fault_dose *doses, int count,
               enum machine_outcome outcome)
{
  struct machine_state state;
  gboolean good = outcome == MACHINE_DONE || outcome == MACHINE_SLOW;

  machine_get_state (machine, &state);
  for (int i = 0; i < machine_value_count; i++)
    good &= isfinite (machine_value_get (&state, &machine_values[i]));
  for (int i = 0; i < state_value_count; i++)
    good &= isfinite (state_value_get (&state.metering, &state_values[i]));
  good &= state.metering.plate_lift >= machine_car (machine)->sensor.rest_height - 1e-6
          && state.metering.plate_lift <= machine_car (machine)->sensor.top_stop + 1e-6;
  good &= state.engine_speed >= -1e-9 && state.vapour_volume >= -1e-12 && state.metering.fuel_volume_flow >= 0
          && isfinite (state.gases.co) && isfinite (state.gases.hc) && isfinite (state.gas_lambda);
  if (!good) {
    g_test_message ("%s at %g s: %s; speed %g, vapour %g m3, fuel %g", vehicle->key, state.time,
                    machine_outcome_text (outcome), state.engine_speed, state.vapour_volume,
                    state.metering.fuel_volume_flow);
    tell (vehicle, doses, count, &state.metering);
  }
}

/* Cranked, idled, driven, stopped with several faults: whatever happens, it is a state. */
static void
test_runs (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (22);
  static const struct machine_inputs drive[] = {
    { .key = true, .crank = true },
    { .key = true },
    { .key = true, .throttle = 0.4, .throttle_time = 0.1, .load = 60 },
    { .key = true },
    { .key = false },
  };
  static const double until[] = { 4, 40, 50, 60, 600 };

  for (int n = 0; n < RUNS; n++) {
    const struct vehicle *vehicle = cars[n % car_count];
    struct fault_dose doses[AT_ONCE_MAX];
    int count = draw_doses (random, &vehicle->car, doses);
    struct machine_start start;
    struct machine *machine;
    struct car car;

    machine_start_usual (&start);
    start.weather = draw_conditions (random, &vehicle->car);
    g_assert_true (faults_apply (&vehicle->car, doses, count, &car, NULL));
    machine = machine_new (&car, &start);
    g_assert_nonnull (machine);
    for (gsize i = 0; i < G_N_ELEMENTS (drive); i++) {
      machine_set_inputs (machine, &drive[i]);
      check_machine (machine, vehicle, doses, count, machine_advance (machine, until[i]));
    }
    machine_free (machine);
  }
}

/* The order of the faults does not matter, to the last bit; nor does a fault of severity 0. */
static void
test_order (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (21);

  for (int n = 0; n < STATES / 10; n++) {
    const struct car *healthy = &cars[n % car_count]->car;
    struct fault_dose doses[AT_ONCE_MAX + 1], shuffled[AT_ONCE_MAX + 1];
    int count = draw_doses (random, healthy, doses);
    struct car one, other;

    memcpy (shuffled, doses, sizeof doses);
    for (int i = count - 1; i > 0; i--) {
      int j = g_rand_int_range (random, 0, i + 1);
      struct fault_dose swap = shuffled[i];
      shuffled[i] = shuffled[j];
      shuffled[j] = swap;
    }
    shuffled[count] = (struct fault_dose) { &catalogue->fault[n % (int) catalogue->count], 0, 0 };
    g_assert_true (faults_apply (healthy, doses, count, &one, NULL));
    g_assert_true (faults_apply (healthy, shuffled, count + 1, &other, NULL));
    g_assert_cmpmem (&one, sizeof one, &other, sizeof other);
  }
}

static void
test_healthy (void)
{
  for (int n = 0; n < car_count; n++)
    for (unsigned i = 0; i < catalogue->count; i++) {
      struct car car = cars[n]->car;
      g_assert_true (fault_apply (&car, &catalogue->fault[i], 0, 0));
      g_assert_cmpmem (&car, sizeof car, &cars[n]->car, sizeof car);
    }
}

/* Whether the effect went its way from before to car, and in the cylinder of index 1 alone where it has one. */
static void
check_step (const struct fault *fault, const struct fault_effect *effect, const struct car *healthy,
            const struct car *before, const struct car *car)
{
  double sign = effect->form == FAULT_ADD ? effect->worst : effect->worst - 1;
  int values = parameter_values (healthy, effect->parameter);

  for (int i = 0; i < values; i++) {
    double here = parameter_get (car, effect->parameter, i);
    g_assert_cmpfloat ((here - parameter_get (before, effect->parameter, i)) * sign, >=, 0);
    if (fault->one_cylinder && values > 1 && i != 1)
      g_assert_cmpfloat (here, ==, parameter_get (healthy, effect->parameter, i));
  }
}

/* A severity up moves no parameter back, and a fault of one cylinder leaves the others alone. On a car without the part
 * meant a fault may change nothing, but not on all. */
static void
test_monotone (void)
{
  for (unsigned i = 0; i < catalogue->count; i++) {
    const struct fault *fault = &catalogue->fault[i];
    int changed = 0;

    for (int n = 0; n < car_count; n++) {
      const struct car *healthy = &cars[n]->car;
      struct car before = *healthy;

      for (int step = 1; step <= 50; step++) {
        struct car car = *healthy;
        g_assert_true (fault_apply (&car, fault, step / 50.0, 1));
        for (int j = 0; j < fault->effects; j++)
          check_step (fault, &fault->effect[j], healthy, &before, &car);
        before = car;
      }
      changed += memcmp (&before, healthy, sizeof before) != 0;
    }
    g_assert_cmpint (changed, >=, car_count - 1);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  load ();
  g_test_add_func ("/documents/faulty-states/healthy", test_healthy);
  g_test_add_func ("/documents/faulty-states/monotone", test_monotone);
  g_test_add_func ("/documents/faulty-states/order", test_order);
  g_test_add_func ("/documents/faulty-states/random", test_random);
  g_test_add_func ("/documents/faulty-states/runs", test_runs);
  return g_test_run ();
}
