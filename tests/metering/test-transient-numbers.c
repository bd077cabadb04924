/* The run as numbers: alike every time, however it is cut; at rest equal to the steady solve; equal to another library's
 * integration of the same rates; sound on random drives of random cars. */
#include "cars.h"
#include "fault.h"
#include "near.h"
#include "parameter.h"
#include "runs.h"
#include "solve.h"
#include "transient-equations.h"

#ifdef HAVE_GSL
#include <gsl/gsl_errno.h>
#include <gsl/gsl_matrix.h>
#include <gsl/gsl_odeiv2.h>
#endif
#include <string.h>

#define DRIVES 100
#define DRIVES_SLOW 1000

/* A minute with every kind of input, advanced in steps of a length. */
static void
drive (double step, struct machine_snapshot *end)
{
  static const struct {
    double time;
    bool key, crank;
    double throttle, load;
  } script[] = {
    { 0, true, true, 0, 0 },      { 3, true, false, 0, 0 },     { 10, true, false, 0.15, 0 }, { 14, true, false, 0.4, 60 },
    { 20, true, false, 0.05, 0 }, { 30, true, false, 0, 0 },    { 40, false, false, 0, 0 },   { 45, true, true, 0, 0 },
    { 46.5, true, false, 0, 0 },  { 60, true, false, 0, 0 },
  };
  struct machine *machine = run_at (&hollin_six, 10, 0);
  struct machine_inputs inputs = inputs_of (machine);

  for (unsigned i = 0; i < G_N_ELEMENTS (script); i++) {
    for (int k = 1; machine_time (machine) < script[i].time; k++)
      run_until (machine, fmin (machine_time (machine) + step, script[i].time));
    inputs.key = script[i].key;
    inputs.crank = script[i].crank;
    inputs.throttle = script[i].throttle;
    inputs.throttle_time = 0.3;
    inputs.load = script[i].load;
    set (machine, inputs);
  }
  machine_take_snapshot (machine, end);
  machine_free (machine);
}

static void
test_alike (void)
{
  static const double steps[] = { 100, 1.0 / 60, 1.0 / 144, 0.77, 0.0041 };
  struct machine_snapshot first, other;

  drive (steps[0], &first);
  drive (steps[0], &other);
  g_assert_cmpmem (&first, sizeof first, &other, sizeof other);
  for (unsigned i = 1; i < G_N_ELEMENTS (steps); i++) {
    drive (steps[i], &other);
    g_assert_cmpmem (first.unknown, sizeof first.unknown, other.unknown, sizeof other.unknown);
    g_assert_cmpint (first.events, ==, other.events);
    g_assert_true (first.time == other.time);
  }
}

static void
test_snapshot (void)
{
  struct machine *machine = run_at (&tarn_four, 20, 0), *copy = run_at (&tarn_four, 20, 0);
  struct machine_snapshot snapshot, on, again;

  crank (machine, 5);
  run_until (machine, 33.3);
  machine_take_snapshot (machine, &snapshot);
  run_until (machine, 80);
  for (int i = 0; i < 2; i++) {
    g_assert_cmpint (machine_restore (copy, &snapshot), ==, MACHINE_DONE);
    run_until (copy, 80);
    machine_take_snapshot (copy, i == 0 ? &on : &again);
  }
  g_assert_cmpmem (&on, sizeof on, &again, sizeof again);
  assert_near (seen (copy).engine_speed, seen (machine).engine_speed, 1e-4);
  assert_near (seen (copy).metering.lambda, seen (machine).metering.lambda, 1e-4);
  assert_near (seen (copy).metering.control_pressure, seen (machine).metering.control_pressure, 1e-4);
  snapshot.unknown[3] = NAN;
  g_assert_cmpint (machine_restore (copy, &snapshot), ==, MACHINE_BAD_INPUT);
  machine_free (machine);
  machine_free (copy);
}

/* The steady unit has no leaks: they are taken out here, and only here. */
static struct car
without_leaks (const struct car *car)
{
  struct car tight = *car;

  tight.distributor.plunger_leak = tight.start.valve_leak = tight.store.accumulator_leak = 0;
  return tight;
}

static void
assert_as_steady (const struct car *car, const struct machine_state *s)
{
  struct conditions conditions;
  struct state steady;

  conditions_usual (&conditions);
  conditions.air_flow = s->metering.air_flow;
  conditions.held = HOLD_BIMETAL;
  conditions.held_bimetal_temperature = s->metering.bimetal_temperature;
  conditions.vacuum = s->vacuum;
  conditions.fuel_temperature = s->hot_fuel_temperature;
  conditions.voltage = s->voltage;
  g_assert_cmpint (metering_solve (car, &conditions, &steady), ==, OUTCOME_SOLVED);
  assert_near (s->metering.system_pressure, steady.system_pressure, 1e-6);
  assert_near (s->metering.control_pressure, steady.control_pressure, 1e-6);
  assert_near (s->metering.control_flow, steady.control_flow, 1e-6);
  assert_near (s->metering.relief_flow, steady.relief_flow, 1e-6);
  assert_near (s->metering.plate_lift, steady.plate_lift, 1e-6);
  assert_near (s->metering.fuel_flow, steady.fuel_flow, 1e-6);
  assert_near (s->metering.lambda, steady.lambda, 1e-6);
  assert_near (s->metering.pump_flow, steady.pump_flow, 1e-6);
  for (int i = 0; i < car->cylinders; i++) {
    assert_near (s->metering.cylinder[i].flow, steady.cylinder[i].flow, 1e-6);
    assert_near (s->metering.cylinder[i].valve_opening, steady.cylinder[i].valve_opening, 1e-6);
  }
}

static void
test_steady (void)
{
  static const double throttles[] = { 0, 0.12, 0.2 };

  for (int c = 0; c < DEMO_CARS; c++)
    for (unsigned k = 0; k < G_N_ELEMENTS (throttles); k++) {
      struct car car = without_leaks (demo_cars[c].car);
      struct machine *machine = run_warm (&car);
      struct machine_inputs inputs = inputs_of (machine);
      struct machine_state state;

      if (k > 0) {
        inputs.throttle = throttles[k];
        inputs.throttle_time = 1;
        set (machine, inputs);
        while (seen (machine).engine_speed < 1800 * RPM)
          run_for (machine, 0.05);
        inputs.hold_speed = true;
        set (machine, inputs);
      }
      run_for (machine, 20000);
      state = seen (machine);
      assert_as_steady (&car, &state);
      /* and nothing is left that comes or goes */
      assert_near (state.metering.air_flow, state.cylinder_air, 1e-6);
      assert_near (state.throttle_air, state.cylinder_air, 1e-6);
      machine_free (machine);
    }
}

#ifdef HAVE_GSL
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
  if (!transient_rates (model, time, trial, base))
    return GSL_EBADFUNC;
  for (int j = 0; j < UNKNOWNS; j++) {
    double step = fmax (fabs (y[j]) * 1e-7, 1e-9);
    if (j == FUEL_EXCESS)
      step = 1e-12;
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

/* From ten seconds after a cold start on, through the warm-up: GSL's own BDF stepper on the same rates. */
static void
test_other_library (void)
{
  struct machine *machine = run_at (&hollin_six, 20, 0);
  struct machine_start start;
  struct model model;
  gsl_odeiv2_system system = { gsl_rates, gsl_jacobian, UNKNOWNS, &model };
  gsl_odeiv2_driver *driver;
  static const double absolute[UNKNOWNS] = { 1e-9, 1e-7, 0.05, 0.05, 1e-5, 1e-10, 1e-5, 1e-5, 1e-5, 1e-5,
                                             1e-5, 1e-13, 0.5, 1e-6, 1e-5 };
  struct machine_state ours;
  struct flows theirs;
  double time = 10, y[UNKNOWNS];

  machine_start_usual (&start);
  model_set_up (&model, &hollin_six, &start);
  crank (machine, 5);
  run_until (machine, time);
  machine_take_snapshot (machine, &model.now);
  memcpy (y, model.now.unknown, sizeof y);
  driver = gsl_odeiv2_driver_alloc_scaled_new (&system, gsl_odeiv2_step_msbdf, 1e-4, 1, 1e-8, 1, 0, absolute);
  for (int i = 0; i < 4; i++) {
    static const double ends[] = { 20, 60, 200, 610 };
    run_until (machine, ends[i]);
    ours = seen (machine);
    g_assert_cmpint (gsl_odeiv2_driver_apply (driver, &time, ends[i], y), ==, GSL_SUCCESS);
    model_flows (&model, time, y, &theirs);
    assert_near (ours.metering.plate_lift, y[PLATE_LIFT], 1e-5);
    assert_near (ours.chamber_pressure, y[CHAMBER_PRESSURE], 1e-5);
    assert_near (ours.manifold_pressure, y[MANIFOLD_PRESSURE], 1e-5);
    assert_near (ours.engine_speed, y[ENGINE_SPEED], 1e-5);
    assert_near (ours.film, y[FUEL_FILM], 1e-5);
    assert_near (ours.metering.bimetal_temperature, y[BIMETAL_TEMPERATURE], 1e-5);
    assert_near (ours.coolant_temperature, y[COOLANT_TEMPERATURE], 1e-5);
    assert_near (ours.auxiliary_temperature, y[AUXILIARY_TEMPERATURE], 1e-5);
    assert_near (ours.wall_temperature, y[WALL_TEMPERATURE], 1e-5);
    assert_near (ours.hot_fuel_temperature, y[HOT_FUEL_TEMPERATURE], 1e-5);
    assert_near (ours.metering.control_pressure, y[CONTROL_PRESSURE], 1e-5);
    assert_near (ours.metering.system_pressure, theirs.system_pressure, 1e-5);
    assert_near (ours.metering.fuel_flow, theirs.slot_flow * theirs.fuel.density, 1e-5);
  }
  gsl_odeiv2_driver_free (driver);
  machine_free (machine);
}
#endif

/* -- random drives -------------------------------------------------------------------------------------------------- */

static void
assert_sound (const struct machine *machine, const struct machine_state *s)
{
  const struct air_sensor *sensor = &machine_car (machine)->sensor;

  for (int i = 0; i < machine_value_count; i++)
    g_assert_true (isfinite (machine_value_get (s, &machine_values[i])));
  for (int i = 0; i < state_value_count; i++)
    g_assert_true (isfinite (state_value_get (&s->metering, &state_values[i])));
  g_assert_true (s->metering.plate_lift > sensor->rest_height - 1e-6 && s->metering.plate_lift < sensor->top_stop + 1e-6);
  g_assert_true (s->engine_speed > -0.01 && s->manifold_pressure > 0 && s->chamber_pressure > 0);
  g_assert_cmpfloat (s->metering.system_pressure, >, -s->metering.ambient_pressure);
  g_assert_cmpfloat (s->film, >, -1e-7);
  g_assert_true (s->metering.fuel_flow >= 0 && s->metering.pump_flow >= 0 && s->metering.relief_flow >= 0);
  g_assert_true (s->gases.co2 >= 0 && s->gases.co >= 0 && s->gases.o2 >= 0 && s->gases.hc >= 0 && s->gases.co < 30);
  g_assert_cmpfloat (s->gases.co2 + s->gases.co + s->gases.o2, <, 100);
}

/* Every parameter that a run in time uses, off by up to a third; leaks up to a hundredfold. */
static struct car
drawn_car (GRand *random)
{
  static const char *const groups[] = { "supply", "engine", "intake", "store", "start", "thermal" };
  struct car car = *demo_cars[g_rand_int_range (random, 0, DEMO_CARS)].car, sound = car;

  for (int i = 0; i < parameter_count; i++)
    for (unsigned g = 0; g < G_N_ELEMENTS (groups); g++)
      if (strcmp (parameters[i].group, groups[g]) == 0 && g_rand_boolean (random)) {
        double scale = strstr (parameters[i].key, "leak") ? pow (10, g_rand_double_range (random, -1, 2))
                                                          : g_rand_double_range (random, 0.67, 1.5);
        for (int j = 0; j < parameter_values (&car, &parameters[i]); j++) {
          double *value = parameter_in (&car, &parameters[i], j);
          *value = fmin (fmax (*value * scale, parameters[i].least), parameters[i].most);
        }
      }
  return car_check (&car, NULL) ? car : sound;
}

static struct machine_inputs
drawn_inputs (GRand *random)
{
  return (struct machine_inputs) {
    .key = g_rand_int_range (random, 0, 8) > 0,
    .crank = g_rand_int_range (random, 0, 4) == 0,
    .throttle = g_rand_boolean (random) ? 0 : g_rand_double_range (random, 0, 0.5),
    .throttle_time = g_rand_boolean (random) ? 0 : g_rand_double_range (random, 0, 3),
    .load = g_rand_boolean (random) ? 0 : g_rand_double_range (random, 0, 250),
    .hold_speed = g_rand_int_range (random, 0, 5) == 0,
    .hose = (enum vacuum_hose) g_rand_int_range (random, 0, 3),
    .hand_vacuum = g_rand_double_range (random, 0, 9e4),
    .pump_bridged = g_rand_int_range (random, 0, 6) == 0,
    .heater_unplugged = g_rand_int_range (random, 0, 6) == 0,
    .tap_shut = g_rand_int_range (random, 0, 6) == 0,
    .clamps = g_rand_int_range (random, 0, 3) == 0 ? (unsigned) g_rand_int_range (random, 0, 16) : 0,
  };
}

static void
test_random_drives (void)
{
  GRand *random = g_rand_new_with_seed (41);
  int drives = g_test_slow () ? DRIVES_SLOW : DRIVES, slow = 0, broken = 0, calls = 0;

  for (int i = 0; i < drives; i++) {
    struct car car = drawn_car (random);
    struct machine *machine = run_at (&car, g_rand_double_range (random, -30, 40),
                                      g_rand_boolean (random) ? 0 : g_rand_double_range (random, 0, 5e5));

    for (int k = 0; k < 12; k++) {
      struct machine_inputs inputs = drawn_inputs (random);
      struct machine_state state;
      enum machine_outcome outcome;

      if (k == 0)
        inputs.key = inputs.crank = true;
      set (machine, inputs);
      outcome = machine_advance (machine, machine_time (machine) + pow (10, g_rand_double_range (random, -2, 2)));
      calls++;
      slow += outcome == MACHINE_SLOW;
      if (outcome == MACHINE_FAILED) {
        broken++;
        break;
      }
      state = seen (machine);
      assert_sound (machine, &state);
    }
    machine_free (machine);
  }
  g_test_message ("%d drives, %d calls, %d slow, %d broken off", drives, calls, slow, broken);
  g_assert_cmpint (broken, ==, 0);
  g_assert_cmpint (slow, <, calls / 10);
  g_rand_free (random);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/metering/transient-numbers/alike", test_alike);
  g_test_add_func ("/metering/transient-numbers/snapshot", test_snapshot);
  g_test_add_func ("/metering/transient-numbers/steady", test_steady);
#ifdef HAVE_GSL
  g_test_add_func ("/metering/transient-numbers/other-library", test_other_library);
#endif
  g_test_add_func ("/metering/transient-numbers/random-drives", test_random_drives);
  return g_test_run ();
}
