/* What the whole system must show by itself. Where no source stands beside a figure it is common practice, no source. */
#include "cars.h"
#include "near.h"
#include "runs.h"

#include "sensor.h"

#define BAR 1e5

/* Seconds after which a machine's control pressure first reaches a value, looking every second; -1 for not within most. */
static double
control_reaches (struct machine *machine, double pressure, double most)
{
  double begun = machine_time (machine);

  while (machine_time (machine) < begun + most) {
    if (seen (machine).metering.control_pressure >= pressure && seen (machine).running)
      return machine_time (machine) - begun;
    run_for (machine, 1);
  }
  return -1;
}

static void
test_starts_and_idles (void)
{
  static const double temperatures[] = { 20, 0, -20 };

  for (int c = 0; c < DEMO_CARS; c++)
    for (unsigned t = 0; t < G_N_ELEMENTS (temperatures); t++) {
      struct machine *machine = run_at (demo_cars[c].car, temperatures[t], 0);
      double took = crank (machine, 10);
      struct machine_state state;

      g_assert_true (took > 0.2 && took < 6);
      run_until (machine, 60);
      state = seen (machine);
      g_assert_true (state.running && state.metering.lambda < 0.9 && state.engine_speed > 950 * RPM);
      run_until (machine, 1200);
      state = seen (machine);
      g_assert_true (state.engine_speed > 850 * RPM && state.engine_speed < 950 * RPM);
      g_assert_cmpfloat (state.auxiliary_area, ==, 0);
      assert_within (state.coolant_temperature, 87, 3);
      machine_free (machine);
    }
}

/* Never without fuel, without a spark, or with the starter only. */
static void
test_does_not_start (void)
{
  struct car car = hollin_six;
  struct machine *machine;

  car.supply.pump_flow = car.supply.pump_slip = 0;
  car.start.valve_flow = 0;
  machine = run_at (&car, 20, 0);
  g_assert_cmpfloat (crank (machine, 8), <, 0);
  g_assert_false (seen (machine).injecting);
  run_for (machine, 5);
  g_assert_false (seen (machine).turning);
  g_assert_cmpfloat (seen (machine).engine_speed, ==, 0);
  machine_free (machine);
  car = hollin_six;
  for (int i = 0; i < car.cylinders; i++)
    car.engine.misfire[i] = 1;
  machine = run_at (&car, 20, 0);
  g_assert_cmpfloat (crank (machine, 8), <, 0);
  g_assert_true (seen (machine).metering.system_pressure > 4.5 * BAR);
  machine_free (machine);
}

/* The heater brings the control pressure back to normal in 2 to 5 minutes; without it the block alone takes far longer. */
static void
test_warm_up (void)
{
  static const double temperatures[] = { 20, 0 };
  double last = 0;

  for (unsigned t = 0; t < G_N_ELEMENTS (temperatures); t++) {
    struct machine *machine = run_at (&hollin_six, temperatures[t], 0);
    struct machine_inputs inputs;
    double heated, alone;

    crank (machine, 10);
    heated = control_reaches (machine, 3.5 * BAR, 1000);
    machine_free (machine);
    g_assert_true (heated > 120 && heated < 300 && heated > last);
    last = heated;
    machine = run_at (&hollin_six, temperatures[t], 0);
    inputs = inputs_of (machine);
    inputs.heater_unplugged = true;
    set (machine, inputs);
    crank (machine, 10);
    alone = control_reaches (machine, 3.5 * BAR, 4000);
    machine_free (machine);
    g_assert_true (alone < 0 || alone > 4 * heated);
  }
}

static void
test_high_idle (void)
{
  struct machine *machine = run_at (&hollin_six, 20, 0);
  struct machine_inputs inputs = inputs_of (machine);
  double fast, area, shut = -1;

  crank (machine, 10);
  run_until (machine, 30);
  fast = seen (machine).engine_speed;
  area = seen (machine).auxiliary_area;
  while (machine_time (machine) < 700 && shut < 0) {
    run_for (machine, 5);
    g_assert_cmpfloat (seen (machine).auxiliary_area, <=, area);
    area = seen (machine).auxiliary_area;
    if (area == 0)
      shut = machine_time (machine);
  }
  g_assert_true (shut > 240 && shut < 600);
  run_until (machine, 1200);
  g_assert_cmpfloat (fast, >, seen (machine).engine_speed + 80 * RPM);
  machine_free (machine);
  /* with its plug off it stays open until the engine's own heat reaches it */
  machine = run_at (&hollin_six, 20, 0);
  inputs.auxiliary_unplugged = true;
  set (machine, inputs);
  crank (machine, 10);
  run_until (machine, shut);
  g_assert_cmpfloat (seen (machine).auxiliary_area, >, 5e-6);
  machine_free (machine);
}

/* The throttle is opened at a held engine speed. */
struct opening {
  double overshoot;    /* of the plate, share of its travel */
  double settled;      /* s until it stays within 5 % of its travel */
  double richest;      /* metered fuel against the cylinders' air: least lambda by the last one */
  double leanest;      /* burnt lambda, greatest */
};

static struct opening
open_throttle (const struct car *car)
{
  struct machine *machine = run_warm (car);
  struct machine_inputs inputs = inputs_of (machine);
  struct opening opening = { 0, 0, INFINITY, 0 };
  double lift[400], from, to, at_end;

  inputs.throttle = 0.13;
  inputs.throttle_time = 1;
  set (machine, inputs);
  while (seen (machine).engine_speed < 1500 * RPM)
    run_for (machine, 0.05);
  inputs.hold_speed = true;
  set (machine, inputs);
  run_for (machine, 30);
  from = seen (machine).metering.plate_lift;
  inputs.throttle = 0.36;
  inputs.throttle_time = 0.05;
  set (machine, inputs);
  for (int i = 0; i < 400; i++) {
    struct machine_state state;
    run_for (machine, 0.0025);
    state = seen (machine);
    lift[i] = state.metering.plate_lift;
    opening.richest = fmin (opening.richest,
                            state.cylinder_air / (state.metering.fuel_flow * state.metering.stoichiometric));
    opening.leanest = fmax (opening.leanest, state.burnt_lambda);
  }
  run_for (machine, 20);
  to = seen (machine).metering.plate_lift;
  at_end = seen (machine).cylinder_air / (seen (machine).metering.fuel_flow * seen (machine).metering.stoichiometric);
  for (int i = 0; i < 400; i++) {
    opening.overshoot = fmax (opening.overshoot, (lift[i] - to) / (to - from));
    if (fabs (lift[i] - to) > 0.05 * (to - from))
      opening.settled = 0.0025 * (i + 1);
  }
  opening.richest /= at_end;
  machine_free (machine);
  return opening;
}

static void
test_throttle_opening (void)
{
  struct car blocked = hollin_six;
  struct opening healthy = open_throttle (&hollin_six), stumbling;

  /* The plate swings over while the manifold fills, and the fuel follows it: a short enrichment without any device */
  g_assert_true (healthy.overshoot > 0.1 && healthy.overshoot < 2);
  g_assert_true (healthy.settled > 0.05 && healthy.settled < 0.5);
  g_assert_cmpfloat (healthy.richest, <, 0.9);
  blocked.distributor.damping_resistance *= 40;
  stumbling = open_throttle (&blocked);
  g_assert_cmpfloat (stumbling.overshoot, <, healthy.overshoot);
  g_assert_cmpfloat (stumbling.leanest, >, healthy.leanest + 0.05);
}

/* The condition under which the plate settles, linearised about idle, against the run: damping well under it flutters, well
 * over it dies out. Own derivation; b is the damping at the plate, k0 the fall of force by lift at constant flow. */
static void
test_damping (void)
{
  const double pi = 3.14159265358979323846;

  for (int enough = 0; enough < 2; enough++) {
    struct car car = hollin_six;
    struct machine *machine = run_warm (&car);
    struct machine_state s = seen (machine);
    struct machine_inputs inputs;
    double area = pi * 0.04 * 0.04, drop = s.metering.plate_drop;
    double by_lift, by_drop, critical = 0, step = 0.01, peak = 0;
    struct sensor_air air = { s.metering.air_density, 1.8e-5 };
    double mass = car.sensor.moving_mass, volume = car.intake.chamber_volume;
    double k, leak, stiffness, gas = 1.4 * 287.05287 * 293.15;

    sensor_flow (&car.sensor, &air, s.metering.plate_lift, drop, &by_lift, &by_drop);
    k = area * by_lift / by_drop;
    leak = gas * by_drop / volume;
    stiffness = 1.4 * s.chamber_pressure * area * area / volume;
    while ((mass * leak + critical) * (critical * leak + stiffness) < mass * k * leak)
      critical += step;
    g_assert_true (critical > 5 && critical < 15);
    machine_free (machine);
    car.sensor.damping = enough ? 1.3 * critical : 0.9 * critical;
    car.distributor.damping_resistance = 0;
    car.distributor.damping_diameter = 0.003;
    car.store.control_compliance = 5e-11; /* so that the plunger's displacement does not brake it */
    machine = run_warm (&car);
    inputs = inputs_of (machine);
    inputs.hold_speed = true;
    inputs.throttle = 0.02; /* a nudge: without one even an unstable rest is a rest */
    set (machine, inputs);
    run_for (machine, 3);
    for (int i = 0; i < 200; i++) {
      run_for (machine, 0.0013);
      peak = fmax (peak, fabs (seen (machine).plate_speed));
    }
    if (enough)
      g_assert_cmpfloat (peak, <, 5e-3); /* what the integration's tolerance keeps alive so near the limit */
    else
      g_assert_cmpfloat (peak, >, 0.03);
    machine_free (machine);
  }
}

static void
test_load_stage (void)
{
  struct machine *machine = run_warm (&hollin_six);
  struct machine_inputs inputs = inputs_of (machine);
  double normal = seen (machine).metering.control_pressure;

  inputs.hose = HOSE_OFF;
  set (machine, inputs);
  run_for (machine, 3);
  assert_within (normal - seen (machine).metering.control_pressure, 0.7 * BAR, 0.1 * BAR);
  g_assert_cmpfloat (seen (machine).metering.lambda, <, 0.95);
  inputs.hose = HOSE_HAND_PUMP;
  inputs.hand_vacuum = 0.5 * BAR;
  set (machine, inputs);
  run_for (machine, 3);
  assert_near (seen (machine).metering.control_pressure, normal, 1e-4);
  machine_free (machine);
}

/* The pump runs while cranking and with the plate lifted; the engine that dies takes it along, the ignition still on. */
static void
test_safety (void)
{
  struct machine *machine = run_at (&hollin_six, 20, 0);
  struct machine_inputs inputs = inputs_of (machine);

  inputs.key = true;
  set (machine, inputs);
  run_for (machine, 2);
  g_assert_false (seen (machine).relay_on);
  inputs.crank = true;
  set (machine, inputs);
  g_assert_true (seen (machine).relay_on);
  inputs.crank = false;
  set (machine, inputs);
  g_assert_false (seen (machine).relay_on);
  machine_free (machine);

  machine = run_warm (&hollin_six);
  inputs = inputs_of (machine);
  g_assert_true (seen (machine).relay_on && seen (machine).contact_open);
  inputs.load = 400;
  set (machine, inputs);
  run_for (machine, 5);
  g_assert_false (seen (machine).turning || seen (machine).relay_on || seen (machine).contact_open);
  g_assert_cmpfloat (seen (machine).metering.pump_flow, ==, 0);
  g_assert_true (inputs_of (machine).key);
  inputs.pump_bridged = true;
  set (machine, inputs);
  run_for (machine, 2);
  g_assert_cmpfloat (seen (machine).metering.system_pressure, >, 4.5 * BAR);
  machine_free (machine);
}

/* The other way to be safe: the relay lives on ignition pulses. */
static void
test_pulses (void)
{
  struct car car = hollin_six;
  struct machine *machine;
  struct machine_inputs inputs;

  car.start.pulse_speed = 20;
  machine = run_warm (&car);
  g_assert_true (seen (machine).relay_on);
  inputs = inputs_of (machine);
  inputs.load = 400;
  set (machine, inputs);
  run_for (machine, 5);
  g_assert_false (seen (machine).relay_on);
  machine_free (machine);
}

/* Why a clamp is never fitted or left with the pump on: a clamped return is the pump's relief pressure; a clamped inlet
 * starves it. A shut tap shows system pressure on the gauge. */
static void
test_workshop (void)
{
  struct machine *machine = run_at (&hollin_six, 20, 0);
  struct machine_inputs inputs = inputs_of (machine);
  double system;

  inputs.key = inputs.pump_bridged = inputs.heater_unplugged = true;
  set (machine, inputs);
  run_for (machine, 20);
  system = seen (machine).metering.system_pressure;
  g_assert_true (system > 4.7 * BAR && system < 5.2 * BAR);
  assert_near (seen (machine).metering.control_pressure, 1.3 * BAR, 0.1); /* 20 degC, no vacuum */
  inputs.tap_shut = true;
  set (machine, inputs);
  run_for (machine, 20);
  assert_near (seen (machine).metering.control_pressure, seen (machine).metering.system_pressure, 1e-4);
  inputs.tap_shut = false;
  inputs.clamps = CLAMP_RETURN;
  set (machine, inputs);
  run_for (machine, 20);
  g_assert_cmpfloat (seen (machine).metering.system_pressure, >, 7 * BAR);
  g_assert_true (seen (machine).metering.regime & REGIME_PUMP_RELIEF);
  g_assert_cmpfloat (seen (machine).metering.return_flow, ==, 0);
  inputs.clamps = CLAMP_PUMP_INLET;
  set (machine, inputs);
  run_for (machine, 20);
  g_assert_cmpfloat (seen (machine).metering.pump_flow, ==, 0);
  g_assert_cmpfloat (seen (machine).metering.system_pressure, <, 3.4 * BAR);
  machine_free (machine);
}

/* System pressure a time after a warm stop. */
static double
residual (const struct car *car, double minutes, unsigned clamps)
{
  struct machine *machine = run_at (car, 20, 0);
  struct machine_inputs inputs = inputs_of (machine);
  double pressure;

  inputs.key = inputs.pump_bridged = true;
  set (machine, inputs);
  run_for (machine, 20);
  inputs.key = inputs.pump_bridged = false;
  inputs.clamps = clamps;
  set (machine, inputs);
  run_for (machine, minutes * 60);
  pressure = seen (machine).metering.system_pressure;
  machine_free (machine);
  return pressure;
}

static void
test_residual_pressure (void)
{
  for (int c = 0; c < DEMO_CARS; c++) {
    const struct car *car = demo_cars[c].car;
    double at_once = residual (car, 0.1, 0), ten = residual (car, 10, 0), twenty = residual (car, 20, 0);
    g_assert_cmpfloat (at_once, <, car->distributor.nozzle_opening[0]);
    g_assert_true (ten > 1.8 * BAR && ten < at_once && twenty > 1.5 * BAR && twenty < ten);
  }
}

/* Each leak by itself lowers the residual pressure; clamping its part takes the effect away again. */
static void
test_leaks (void)
{
  static const struct {
    const char *where;
    size_t offset;
    unsigned clamp; /* 0: no clamp helps */
  } leaks[] = {
    { "check valve", offsetof (struct car, supply.check_valve_leak), CLAMP_PUMP_INLET },
    { "regulator", offsetof (struct car, supply.regulator_leak), CLAMP_RETURN },
    { "shut-off valve", offsetof (struct car, supply.shutoff_leak), CLAMP_RETURN },
    { "plunger", offsetof (struct car, distributor.plunger_leak), 0 },
    { "cold-start valve", offsetof (struct car, start.valve_leak), CLAMP_COLD_START },
    { "accumulator", offsetof (struct car, store.accumulator_leak), CLAMP_ACCUMULATOR },
  };
  double healthy = residual (&hollin_six, 20, 0);

  for (unsigned i = 0; i < G_N_ELEMENTS (leaks); i++) {
    struct car car = hollin_six;
    double *leak = (double *) (void *) ((char *) &car + leaks[i].offset);
    double small, large;

    *leak = 5e-14;
    small = residual (&car, 20, 0);
    *leak = 2e-13;
    large = residual (&car, 20, 0);
    g_test_message ("%s: %.2f, %.2f, %.2f bar", leaks[i].where, healthy / BAR, small / BAR, large / BAR);
    g_assert_true (small < healthy - 0.2 * BAR && large < small - 0.5 * BAR);
    if (leaks[i].clamp)
      g_assert_cmpfloat (residual (&car, 20, leaks[i].clamp), >, healthy - 0.02 * BAR);
  }
}

static void
test_weak_accumulator (void)
{
  struct car weak = hollin_six, stiff = hollin_six;

  weak.store.accumulator_empty *= 0.6;
  weak.store.accumulator_full *= 0.6;
  stiff.store.accumulator_volume = 1e-7;
  g_assert_cmpfloat (residual (&weak, 10, 0), <, 1.6 * BAR);
  g_assert_cmpfloat (residual (&stiff, 10, 0), <, 0.5 * BAR);
}

/* After a warm stop the engine's heat swells the shut-in fuel before the leaks win. */
static void
test_hot_soak (void)
{
  struct machine *machine = run_warm (&hollin_six);
  double shut_in, most = 0;

  key_off (machine);
  run_for (machine, 3);
  shut_in = seen (machine).metering.system_pressure;
  g_assert_false (seen (machine).turning);
  for (int i = 0; i < 60; i++) {
    run_for (machine, 10);
    most = fmax (most, seen (machine).metering.system_pressure);
  }
  g_assert_true (most > shut_in + 0.2 * BAR);
  g_assert_cmpfloat (most, <, hollin_six.supply.shutoff_opening + 0.01 * BAR);
  run_for (machine, 3000);
  g_assert_cmpfloat (seen (machine).metering.system_pressure, <, 2.3 * BAR);
  g_assert_cmpfloat (seen (machine).hot_fuel_temperature, >, 40);
  machine_free (machine);
}

/* Seconds from the starter until fuel is injected, half an hour after a hot stop. */
static double
hot_restart (const struct car *car, double *vapour)
{
  struct machine_start start;
  struct machine *machine;
  struct machine_inputs inputs;
  double begun;

  machine_start_usual (&start);
  start.weather.ambient_temperature = start.weather.fuel_temperature = 35;
  start.weather.block_temperature = 95;
  start.system_pressure = 2.5 * BAR;
  machine = machine_new (car, &start);
  run_until (machine, 1800);
  *vapour = seen (machine).vapour_volume;
  inputs = inputs_of (machine);
  inputs.key = inputs.crank = true;
  set (machine, inputs);
  begun = machine_time (machine);
  while (!seen (machine).injecting && machine_time (machine) < begun + 10)
    run_for (machine, 0.01);
  begun = machine_time (machine) - begun;
  machine_free (machine);
  return begun;
}

/* Pressure keeps hot fuel liquid: only a system that leaks boils, the more volatile its fuel. */
static void
test_vapour_lock (void)
{
  struct car car = hollin_six;
  double none, some, much, healthy, leaking, volatile_too;

  healthy = hot_restart (&car, &none);
  car.supply.check_valve_leak = 4e-13;
  leaking = hot_restart (&car, &some);
  car.fuel.reid_pressure = 100e3;
  volatile_too = hot_restart (&car, &much);
  g_test_message ("%.2f, %.2f, %.2f s; %.1f, %.1f, %.1f cm3", healthy, leaking, volatile_too, none * 1e6, some * 1e6,
                  much * 1e6);
  g_assert_cmpfloat (none, ==, 0);
  g_assert_cmpfloat (much, >, some);
  g_assert_cmpfloat (much, >, 1e-6);
  g_assert_true (healthy < 1.2 && leaking > healthy + 0.3 && volatile_too > leaking);
}

/* A warm stop, a night, a start: fuel metered by the end of cranking or 4 s. */
struct night {
  double least;  /* Pa, system pressure */
  bool raised;   /* the plunger, by the vacuum */
  double void_;  /* m3 of vapour in the morning */
  double fuel;   /* kg metered while cranking */
};

static struct night
pass_night (const struct car *car)
{
  struct machine *machine = run_warm (car);
  struct machine_inputs inputs;
  struct night night = { 0 };

  key_off (machine);
  for (int hour = 0; hour < 10; hour++) {
    run_for (machine, 3600);
    night.least = fmin (night.least, seen (machine).metering.system_pressure);
    night.raised = night.raised || seen (machine).plunger_raised;
  }
  night.void_ = seen (machine).vapour_volume;
  inputs = inputs_of (machine);
  inputs.key = inputs.crank = true;
  set (machine, inputs);
  for (int i = 0; i < 400; i++) {
    run_for (machine, 0.01);
    night.fuel += 0.01 * seen (machine).metering.fuel_flow;
  }
  machine_free (machine);
  return night;
}

/* Over night the fuel cools and shrinks: the compensating valve lets some in from the tank. Where it sticks, a vacuum is
 * left that draws the plunger up; fuel boils in the warm-up regulator, and until that void is filled through the control
 * orifice nothing holds plate and plunger down: the next start is far too rich. */
static void
test_cooling (void)
{
  struct car car = hollin_six;
  struct night healthy, stuck;

  car.supply.check_valve_leak = 2e-13; /* so that no residual pressure is left to take up the shrinking */
  healthy = pass_night (&car);
  car.store.vent_conductance = 0;
  stuck = pass_night (&car);
  g_test_message ("%.2f, %.2f bar; %.2f, %.2f cm3; %.2f, %.2f g", healthy.least / BAR, stuck.least / BAR,
                  healthy.void_ * 1e6, stuck.void_ * 1e6, healthy.fuel * 1e3, stuck.fuel * 1e3);
  g_assert_true (healthy.least > -0.025 * BAR && !healthy.raised && healthy.void_ == 0);
  g_assert_true (stuck.least < -0.2 * BAR && stuck.least > -1.01325 * BAR && stuck.raised && stuck.void_ > 1e-6);
  g_assert_cmpfloat (stuck.fuel, >, 2 * healthy.fuel);
}

static void
test_warm_restart (void)
{
  struct machine *machine = run_warm (&hollin_six);

  key_off (machine);
  run_for (machine, 60);
  g_assert_true (seen (machine).metering.plate_lift == hollin_six.sensor.rest_height && !seen (machine).injecting);
  g_assert_cmpfloat (crank (machine, 5), >, 0);
  run_for (machine, 20);
  g_assert_true (seen (machine).running && seen (machine).engine_speed > 800 * RPM);
  g_assert_false (seen (machine).cold_start_open);
  machine_free (machine);
}

/* Lambda with an air leak of some mm2 behind the plate, at idle and at part load. */
static void
test_unmetered_air (void)
{
  double lambda[2][2];

  for (int leaking = 0; leaking < 2; leaking++) {
    struct car car = hollin_six;
    struct machine *machine;
    struct machine_inputs inputs;

    car.engine.unmetered_area = leaking ? 3e-6 : 0;
    machine = run_warm (&car);
    lambda[leaking][0] = seen (machine).metering.lambda;
    inputs = inputs_of (machine);
    inputs.throttle = 0.22;
    inputs.throttle_time = 1;
    set (machine, inputs);
    while (seen (machine).engine_speed < 2500 * RPM)
      run_for (machine, 0.05);
    inputs.hold_speed = true;
    set (machine, inputs);
    run_for (machine, 60);
    lambda[leaking][1] = seen (machine).metering.lambda;
    machine_free (machine);
  }
  g_test_message ("lambda %.3f -> %.3f at idle, %.3f -> %.3f at load", lambda[0][0], lambda[1][0], lambda[0][1], lambda[1][1]);
  g_assert_cmpfloat (lambda[1][0], >, 1.1 * lambda[0][0]);
  g_assert_true (lambda[1][1] > lambda[0][1]);
  g_assert_cmpfloat (lambda[1][1] / lambda[0][1] - 1, <, (lambda[1][0] / lambda[0][0] - 1) / 4);
}

/* One of six cylinders does not fire: slower, rough in the gases, not in the metering. */
static void
test_dead_cylinder (void)
{
  struct car car = hollin_six;
  struct machine *healthy = run_warm (&car), *dead;

  car.engine.misfire[3] = 1;
  dead = run_warm (&car);
  g_assert_cmpfloat (seen (dead).engine_speed, <, seen (healthy).engine_speed - 50 * RPM);
  g_assert_cmpfloat (seen (dead).gases.hc, >, 3000);
  g_assert_cmpfloat (seen (healthy).gases.hc, <, 300);
  assert_near (seen (dead).metering.lambda, seen (healthy).metering.lambda, 0.02);
  machine_free (healthy);
  machine_free (dead);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/metering/transient-run/starts-and-idles", test_starts_and_idles);
  g_test_add_func ("/metering/transient-run/does-not-start", test_does_not_start);
  g_test_add_func ("/metering/transient-run/warm-up", test_warm_up);
  g_test_add_func ("/metering/transient-run/high-idle", test_high_idle);
  g_test_add_func ("/metering/transient-run/throttle-opening", test_throttle_opening);
  g_test_add_func ("/metering/transient-run/damping", test_damping);
  g_test_add_func ("/metering/transient-run/load-stage", test_load_stage);
  g_test_add_func ("/metering/transient-run/safety", test_safety);
  g_test_add_func ("/metering/transient-run/pulses", test_pulses);
  g_test_add_func ("/metering/transient-run/workshop", test_workshop);
  g_test_add_func ("/metering/transient-run/residual-pressure", test_residual_pressure);
  g_test_add_func ("/metering/transient-run/leaks", test_leaks);
  g_test_add_func ("/metering/transient-run/weak-accumulator", test_weak_accumulator);
  g_test_add_func ("/metering/transient-run/hot-soak", test_hot_soak);
  g_test_add_func ("/metering/transient-run/vapour-lock", test_vapour_lock);
  g_test_add_func ("/metering/transient-run/cooling", test_cooling);
  g_test_add_func ("/metering/transient-run/warm-restart", test_warm_restart);
  g_test_add_func ("/metering/transient-run/unmetered-air", test_unmetered_air);
  g_test_add_func ("/metering/transient-run/dead-cylinder", test_dead_cylinder);
  return g_test_run ();
}
