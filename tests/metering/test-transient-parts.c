/* The parts of the system in time, each by itself or alone in a machine, against published or closed-form figures. */
#include "air.h"
#include "cars.h"
#include "engine.h"
#include "fuel.h"
#include "intake.h"
#include "near.h"
#include "runs.h"
#include "start.h"
#include "store.h"
#include "thermal.h"

#include <string.h>

/* One lumped body by the classical fourth-order Runge-Kutta method. */
static double
heated (double capacity, double power, double conductance, double temperature, double surroundings, double time)
{
  const int steps = 20000;
  double h = time / steps, t = temperature;

  for (int i = 0; i < steps; i++) {
    double a = thermal_rate (capacity, power, conductance, t, surroundings);
    double b = thermal_rate (capacity, power, conductance, t + 0.5 * h * a, surroundings);
    double c = thermal_rate (capacity, power, conductance, t + 0.5 * h * b, surroundings);
    double d = thermal_rate (capacity, power, conductance, t + h * c, surroundings);
    t += h / 6 * (a + 2 * b + 2 * c + d);
  }
  return t;
}

static void
test_lumped_heat (void)
{
  const double pi = 3.14159265358979323846;
  double ball_area = pi * 0.05 * 0.05, ball = 7800 * 460 * pi * 0.05 * 0.05 * 0.05 / 6;
  double bead_area = pi * 1e-6, bead = 8500 * 320 * pi * 1e-9 / 6;

  /* Holman, Heat Transfer, ex. 4.1: steel ball from 450 to 150 degC in 100 degC; printed 5819 s */
  assert_within (heated (ball, 0, 10 * ball_area, 450, 100, 5818), 150, 0.01);
  /* Cengel, Heat Transfer, ex. 4-1: a thermocouple bead takes 99 % of a step in 10 s */
  assert_within (heated (bead, 0, 210 * bead_area, 0, 1, 9.9413), 0.99, 2e-5);
  /* Closed form T = Ta + P/G (1 - exp(-t G/C)) */
  assert_within (heated (6, 10, 0.12, 20, 20, 50), 72.67671, 1e-5);
  assert_within (heated (6, 10, 0.12, 20, 20, 150), 99.18441, 1e-5);
}

/* Fox and McDonald, ex. 12.2: 1 MPa, 333 K, back pressure 591 kPa, 0.001 m2: 2.20 kg/s. */
static void
test_intake_flow (void)
{
  double flow = intake_flow (0.001, 1e6, 333 - ZERO_CELSIUS, 591e3), before = 0;

  assert_near (flow, 2.19562, 2e-4);
  for (double p = 120e3; p > 20e3; p -= 50) {
    double here = intake_flow (1e-4, 1e5, 20, p);
    if (p < 120e3)
      g_assert_cmpfloat (here, >=, before);
    before = here;
  }
  g_assert_cmpfloat (intake_flow (1e-4, 1e5, 20, 1e5), ==, 0);
  assert_near (intake_flow (1e-4, 9e4, 20, 1e5), -intake_flow (1e-4, 1e5, 20, 9e4), 1e-15);
  assert_near (intake_flow (1e-4, 1e5, 20, 99800 - 1e-3), intake_flow (1e-4, 1e5, 20, 99800 + 1e-3), 1e-5);
}

static void
test_intake_areas (void)
{
  const struct intake *intake = &hollin_six.intake;

  g_assert_cmpfloat (intake_throttle_area (intake, 0), ==, 0);
  assert_near (intake_throttle_area (intake, 1), intake->throttle_area, 1e-12);
  /* a round disc turned by 60 degrees leaves half of the bore */
  assert_near (intake_throttle_area (intake, 2.0 / 3), intake->throttle_area / 2, 1e-12);
  g_assert_cmpfloat (intake_auxiliary_area (intake, 60), ==, 0);
  assert_near (intake_auxiliary_area (intake, 20), 14e-6, 1e-12);
  assert_near (intake_auxiliary_area (intake, -40), 28e-6, 1e-12);
  assert_near (intake_auxiliary_power (intake, 13.6), 13.6 * 13.6 / 45, 1e-12);
  struct intake poor = *intake; /* half of the volts reach it: a quarter of the power */
  poor.auxiliary_supply = 0.5;
  assert_near (intake_auxiliary_power (&poor, 13.6), 13.6 * 13.6 / 45 / 4, 1e-12);
}

static void
test_engine (void)
{
  const struct engine_air *engine = &hollin_six.engine;
  double best = 0, last = INFINITY;

  /* ASTM D341 passes through its two points and falls in between */
  assert_near (engine_oil_viscosity (engine, 20), 280e-6, 1e-9);
  assert_near (engine_oil_viscosity (engine, 90), 17e-6, 1e-9);
  for (double t = -30; t < 120; t += 5) {
    g_assert_cmpfloat (engine_oil_viscosity (engine, t), <, last);
    last = engine_oil_viscosity (engine, t);
  }
  /* Heywood 1988 eq. 13.6 at 2000 rpm: 0.97 + 0.30 + 0.20 bar */
  assert_near (engine_friction (engine, 2000 * RPM, 90), 1.47e5, 1e-9);
  g_assert_cmpfloat (engine_drag (engine, 0, 60e3, 90), ==, 0);
  /* best torque a little rich, half of the charges lost at each limit, nothing beyond */
  for (double lambda = 0.3; lambda < 2; lambda += 0.001)
    if (engine_efficiency (lambda) > engine_efficiency (best))
      best = lambda;
  assert_within (best, 0.9, 0.01);
  assert_within (engine_ignites (1.38), 0.5, 1e-6);
  assert_within (engine_ignites (0.45), 0.5, 1e-6);
  g_assert_cmpfloat (engine_efficiency (1.7), <, 1e-3);
  g_assert_cmpfloat (engine_efficiency (0.2), <, 1e-3);
  /* what must be metered for lambda 1: colder is richer */
  assert_within (engine_evaporated (20), 0.78, 0.005);
  assert_within (engine_evaporated (-20), 0.38, 0.005);
  g_assert_cmpfloat (engine_evaporated (90), ==, 1);
  /* 0.8 x 1 bar x 2.8 l by two turns at 600 rpm and 20 degC: ideal gas */
  assert_near (engine_air_flow (engine, 1e5, 20, 600 * RPM), 0.8 * 1e5 * 2.8e-3 * 5 / (287.05287 * 293.15), 1e-9);
}

static void
test_film (void)
{
  /* Hendricks and Sorenson, SAE 900616 (from memory), at 0.5 bar and 1500 rpm */
  assert_near (engine_film_share (0.5e5, 1500 * RPM), -0.277 * 0.5 - 0.055 * 1.5 + 0.68, 1e-9);
  assert_near (engine_film_time (0.5e5, 1500 * RPM, 90),
               1.35 * (-0.672 * 1.5 + 1.68) * 0.325 * 0.325 + (-0.06 * 1.5 + 0.15) + 0.56, 1e-9);
  g_assert_cmpfloat (engine_film_time (0.5e5, 1500 * RPM, 0), >, 2 * engine_film_time (0.5e5, 1500 * RPM, 80));
  for (double n = 0; n < 7000; n += 100)
    for (double p = 1e4; p < 1.1e5; p += 5e3) {
      double share = engine_film_share (p, n * RPM);
      g_assert_true (share >= 0 && share <= 1 && engine_film_time (p, n * RPM, -30) > 0);
    }
}

static void
test_store (void)
{
  const struct fuel_store *store = &hollin_six.store;

  for (double p = -5e4; p < 6e5; p += 1234)
    assert_within (store_filled_pressure (store, store_filling (store, p)), p, 1e-4);
  /* from stop to stop the accumulator gives its volume */
  assert_near (store_filling (store, 2.6e5) - store_filling (store, 1.2e5), 35e-6 + 3e-12 * 1.4e5, 1e-9);
  for (double hot = -30; hot < 100; hot += 13)
    assert_within (store_expanded (store, 745, store_excess (store, 745, 3e-5, 10, hot), 10, hot), 3e-5, 1e-16);
  /* API MPMS 11.1: 330 cm3 at 20 degC become 330 x .99386/.94404 (740 kg/m3) at 60 degC */
  assert_within (store_expanded (store, 740, 0, 20, 60) - store_expanded (store, 740, 0, 20, 20),
                 330e-6 * (0.99386 / 0.94404 - 1), 4e-8);
  g_assert_cmpfloat (store_vent (store, -1000), ==, 0);
  g_assert_cmpfloat (store_vent (store, -12000), >, 1.9e-6);
  /* It opens softly: quadratic at first, never steeper than its conductance, which it reaches */
  assert_near (store_vent (store, -store->vent_opening - 20) / store_vent (store, -store->vent_opening - 10), 4, 1e-9);
  for (double over = 0; over < 2e4; over += 10)
    g_assert_cmpfloat (store_vent (store, -store->vent_opening - over - 10) - store_vent (store, -store->vent_opening - over),
                       <=, 10 * store->vent_conductance * (1 + 1e-9));
  assert_near (store_vent (store, -store->vent_opening - 2e4) - store_vent (store, -store->vent_opening - 1.9e4),
               1e3 * store->vent_conductance, 1e-9);
}

/* A spring accumulator leaking through a laminar gap: p = p0 exp(-t/tau), tau = (A^2/k + V/K)/G (own closed form).
 * 40 mm, 12 N/mm, 60 ml, 1.2 GPa, G 2e-14 m3/(s Pa), 2.5 bar: 2.28219 bar at 10 min, 2.08336 at 20. */
static void
test_leak_down (void)
{
  const double pi = 3.14159265358979323846;
  double area = pi * 0.02 * 0.02, compliance = area * area / 12e3 + 60e-6 / 1.2e9;
  struct car car = hollin_six;
  struct machine *machine;

  car.store.accumulator_empty = 1e3;
  car.store.accumulator_full = 6e5;
  car.store.control_compliance = 1e-13;
  car.store.compliance = 1e-13;
  car.store.accumulator_volume = (compliance - 2e-13) * (6e5 - 1e3);
  car.supply.check_valve_leak = 2e-14;
  car.supply.regulator_leak = car.supply.shutoff_leak = car.distributor.plunger_leak = 0;
  car.store.accumulator_leak = car.start.valve_leak = 0;
  machine = run_at (&car, 15, 2.5e5);
  run_until (machine, 600);
  /* the leak counts from a thousandth of a bar less than the pressure */
  assert_near (seen (machine).metering.system_pressure, 2.28219e5, 1e-3);
  run_until (machine, 1200);
  assert_near (seen (machine).metering.system_pressure, 2.08336e5, 2e-3);
  machine_free (machine);
}

/* The switch's contact opens after t = -C/G ln(1 - G (T_open - T)/P): a heated body, closed form. */
static void
test_thermo_time (void)
{
  static const double temperatures[] = { -30, -20, -10, 0, 10, 20, 30, 36 };
  double last = INFINITY;

  for (unsigned i = 0; i < G_N_ELEMENTS (temperatures); i++) {
    struct car car = hollin_six;
    struct machine *machine;
    struct machine_inputs inputs;
    double share = car.start.switch_coolant * (35 - temperatures[i]) / car.start.switch_power;
    double expected = share > 0 ? -car.start.switch_capacity / car.start.switch_coolant * log (1 - share) : 0;
    double closed = 0;

    for (int c = 0; c < car.cylinders; c++)
      car.engine.misfire[c] = 1;
    machine = run_at (&car, temperatures[i], 0);
    inputs = inputs_of (machine);
    inputs.key = inputs.crank = true;
    set (machine, inputs);
    while (seen (machine).cold_start_open && machine_time (machine) < 20)
      run_for (machine, 0.01);
    closed = machine_time (machine);
    assert_within (closed, expected, 0.02);
    g_assert_true (closed < last || closed == 0);
    last = closed;
    /* a second attempt at once gets nothing: the contact is armed anew only below its temperature */
    inputs.crank = false;
    set (machine, inputs);
    run_for (machine, 0.1);
    inputs.crank = true;
    set (machine, inputs);
    run_for (machine, 2);
    g_assert_cmpfloat (seen (machine).time, >, closed);
    g_assert_false (seen (machine).cold_start_open);
    machine_free (machine);
  }
}

static void
test_start_gear (void)
{
  const struct start_gear *start = &hollin_six.start;

  g_assert_cmpfloat (start_torque (start, 0), ==, 150);
  g_assert_cmpfloat (start_torque (start, 60), ==, 0);
  g_assert_cmpfloat (start_voltage (start, 1, 0), ==, 10);
  g_assert_cmpfloat (start_voltage (start, 0, 0), ==, 12.4);
  g_assert_cmpfloat (start_voltage (start, 0, 100), ==, 13.6);
  assert_near (start_valve_flow (start, 4.5e5), 80e-6 / 60, 1e-6);
  assert_near (start_valve_flow (start, 4 * 4.5e5), 2 * 80e-6 / 60, 1e-6);
  g_assert_cmpfloat (start_valve_flow (start, -1e4), ==, 0);
}

static void
test_values (void)
{
  struct machine *machine = run_at (&hollin_six, 20, 0);
  struct machine_state state = seen (machine);
  struct machine_inputs inputs = inputs_of (machine);

  for (int i = 0; i < machine_value_count; i++) {
    g_assert_true (machine_value_find (machine_values[i].key) == &machine_values[i]);
    g_assert_true (isfinite (machine_value_get (&state, &machine_values[i])));
    g_assert_cmpstr (machine_values[i].name, !=, "");
  }
  g_assert_null (machine_value_find ("no such value"));
  inputs.throttle = NAN;
  g_assert_cmpint (machine_set_inputs (machine, &inputs), ==, MACHINE_BAD_INPUT);
  inputs.throttle = 0;
  inputs.hand_vacuum = 2e5;
  g_assert_cmpint (machine_set_inputs (machine, &inputs), ==, MACHINE_BAD_INPUT);
  g_assert_cmpint (machine_advance (machine, -1), ==, MACHINE_BAD_INPUT);
  g_assert_cmpint (machine_advance (machine, INFINITY), ==, MACHINE_BAD_INPUT);
  for (int i = MACHINE_DONE; i <= MACHINE_FAILED; i++)
    g_assert_cmpstr (machine_outcome_text ((enum machine_outcome) i), !=, "");
  machine_free (machine);
  machine_free (NULL);
}

/* Each input has its range, and each change of one is taken. */
static void
test_inputs (void)
{
  static const struct machine_inputs bad[] = {
    { .throttle = -0.1 },     { .throttle = 1.1 },       { .throttle_time = -1 }, { .throttle_time = 1e5 }, { .load = -1 },
    { .load = 1e5 },          { .hand_vacuum = -1 },     { .hand_vacuum = 1e6 },  { .load = NAN },
    { .hose = (enum vacuum_hose) 7 },
  };
  static const struct machine_inputs good[] = {
    { .key = true },          { .crank = true },         { .throttle = 0.5 },         { .throttle_time = 2 },
    { .load = 5 },            { .hold_speed = true },    { .hose = HOSE_OFF },        { .hand_vacuum = 5e4 },
    { .pump_bridged = true }, { .heater_unplugged = true }, { .auxiliary_unplugged = true },
    { .cold_start_unplugged = true }, { .tap_shut = true }, { .clamps = CLAMP_RETURN | CLAMP_ACCUMULATOR },
  };
  struct machine *machine = run_at (&tarn_four, 20, 1e5);
  struct machine_inputs taken;

  g_assert_true (machine_car (machine)->cylinders == 4 && machine_time (machine) == 0);
  for (unsigned i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_cmpint (machine_set_inputs (machine, &bad[i]), ==, MACHINE_BAD_INPUT);
  for (unsigned i = 0; i < G_N_ELEMENTS (good); i++) {
    struct machine_snapshot before, after;
    set (machine, (struct machine_inputs) { 0 });
    machine_take_snapshot (machine, &before);
    set (machine, good[i]); /* one input alone: it is taken */
    taken = inputs_of (machine);
    machine_take_snapshot (machine, &after);
    g_assert_true (memcmp (&after.inputs, &before.inputs, sizeof after.inputs) != 0);
    g_assert_true (taken.key == good[i].key && taken.clamps == good[i].clamps && taken.throttle == good[i].throttle);
    run_for (machine, 0.2);
  }
  machine_free (machine);
}

static void
test_bad_start (void)
{
  struct machine_start start;
  struct car car = hollin_six;

  machine_start_usual (&start);
  start.system_pressure = -1;
  g_assert_null (machine_new (&car, &start));
  machine_start_usual (&start);
  start.weather.altitude = NAN;
  g_assert_null (machine_new (&car, &start));
  machine_start_usual (&start);
  car.store.accumulator_full = car.store.accumulator_empty;
  g_assert_null (machine_new (&car, &start));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/metering/transient-parts/lumped-heat", test_lumped_heat);
  g_test_add_func ("/metering/transient-parts/intake-flow", test_intake_flow);
  g_test_add_func ("/metering/transient-parts/intake-areas", test_intake_areas);
  g_test_add_func ("/metering/transient-parts/engine", test_engine);
  g_test_add_func ("/metering/transient-parts/film", test_film);
  g_test_add_func ("/metering/transient-parts/store", test_store);
  g_test_add_func ("/metering/transient-parts/leak-down", test_leak_down);
  g_test_add_func ("/metering/transient-parts/thermo-time", test_thermo_time);
  g_test_add_func ("/metering/transient-parts/start-gear", test_start_gear);
  g_test_add_func ("/metering/transient-parts/values", test_values);
  g_test_add_func ("/metering/transient-parts/inputs", test_inputs);
  g_test_add_func ("/metering/transient-parts/bad-start", test_bad_start);
  return g_test_run ();
}
