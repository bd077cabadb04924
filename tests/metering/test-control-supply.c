/* Warm-up regulator, control orifice, pump and system pressure regulator, each by hand. */
#include "bimetal.h"
#include "cars.h"
#include "control.h"
#include "near.h"
#include "supply.h"

#define BAR 1e5

static void
test_bimetal_temperature (void)
{
  const struct control_circuit *c = &hollin_six.control;
  double before = -20, volts = 13;

  g_assert_cmpfloat (control_bimetal_temperature (c, -20, -20, volts, 0), ==, -20);
  for (double t = 10; t < 3000; t *= 1.3) {
    double now = control_bimetal_temperature (c, -20, -20, volts, t);
    g_assert_cmpfloat (now, >=, before - 1e-9);
    before = now;
  }
  /* Without volts and with air at the block's temperature nothing happens */
  assert_near (control_bimetal_temperature (c, 20, 20, 0, 500), 20, 1e-12);
  g_assert_cmpfloat (control_bimetal_temperature (c, 80, 0, 0, 500), <, 80);
  /* More volts, warmer; half of them reach the heater: as half the voltage */
  g_assert_cmpfloat (control_bimetal_temperature (c, 20, 20, 14, 60), >, control_bimetal_temperature (c, 20, 20, 12, 60));
  struct control_circuit half = *c;
  half.heater_supply = 0.5;
  assert_near (control_bimetal_temperature (&half, 20, 20, 12, 60), control_bimetal_temperature (c, 20, 20, 6, 60), 1e-12);
}

/* At rest: what the heater gives leaves through the housing to block and air. */
static void
test_bimetal_end (void)
{
  const struct control_circuit *c = &hollin_six.control;
  double block = 10, air = 0, volts = 13, end = control_bimetal_temperature (c, block, air, volts, 86400);
  double power = volts * volts / (c->heater_resistance * (1 + c->heater_coefficient * (end - 20)));
  double housing = end - power / c->bimetal_housing;

  assert_near (power, c->housing_block * (housing - block) + c->housing_air * (housing - air), 1e-4);
}

/* Runge-Kutta of the two heat balances in steps of 0.05 s, as an independent course. */
static double
bimetal_by_steps (const struct control_circuit *c, double block, double air, double volts, double time)
{
  double y[2] = { block, block }, h = 0.05;

  for (int n = 0; n < (int) lround (time / h); n++) {
    double k[4][2], at[2] = { y[0], y[1] };
    for (int s = 0; s < 4; s++) {
      double power = volts * volts / (c->heater_resistance * (1 + c->heater_coefficient * (at[0] - 20)));
      double step = s < 2 ? h / 2 : h;
      k[s][0] = (power - c->bimetal_housing * (at[0] - at[1])) / c->bimetal_capacity;
      k[s][1] = (c->bimetal_housing * (at[0] - at[1]) - c->housing_block * (at[1] - block) - c->housing_air * (at[1] - air))
                / c->housing_capacity;
      at[0] = y[0] + step * k[s][0];
      at[1] = y[1] + step * k[s][1];
    }
    for (int j = 0; j < 2; j++)
      y[j] += h / 6 * (k[0][j] + 2 * k[1][j] + 2 * k[2][j] + k[3][j]);
  }
  return y[0];
}

static void
test_bimetal_course (void)
{
  static const double times[] = { 5, 30, 60, 120, 300, 900 };

  for (unsigned i = 0; i < G_N_ELEMENTS (times); i++)
    assert_within (control_bimetal_temperature (&hollin_six.control, 5, -5, 13, times[i]),
                   bimetal_by_steps (&hollin_six.control, 5, -5, 13, times[i]), 0.02);
}

static void
test_bimetal_force (void)
{
  const struct control_circuit *c = &hollin_six.control;
  double bend = bimetal_deflection (bimetal_curvature (1.88e-5, 30, 9e-4, 1, 1), 0.03);

  g_assert_cmpfloat (control_bimetal_deflection (c, 70), ==, 0);
  g_assert_cmpfloat (control_bimetal_deflection (c, 95), ==, 0);
  g_assert_cmpfloat (control_bimetal_force (c, 95), ==, 0);
  assert_near (control_bimetal_deflection (c, 40), bend, 1e-12);
  assert_near (control_bimetal_force (c, 40),
               bimetal_blocked_force (bend, c->bimetal_length, c->bimetal_width, c->bimetal_thickness, c->bimetal_modulus),
               1e-12);
  assert_near (control_bimetal_force (c, 40), 2 * control_bimetal_force (c, 55), 1e-12);
  assert_near (control_bimetal_force (c, 40) / c->seat_area / 30, 0.036 * BAR, 1e-3); /* bar by kelvin, as documented */
}

static void
test_load (void)
{
  struct control_circuit c = hollin_six.control;

  static const struct { double vacuum, tightness, position; } rows[] = {
    { 0, 1, 0 },         { 15000, 1, 0 },       { 22500, 1, 0.0007 }, { 30000, 1, 0.0014 }, { 60000, 1, 0.0014 },
    { 60000, 0, 0 },     { 45000, 0.5, 0.0007 }, { 18000, 1, 0.00028 },
  };
  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++) {
    c.load_tightness = rows[i].tightness;
    assert_within (control_load_position (&c, rows[i].vacuum), rows[i].position, 1e-12);
    assert_within (control_load_force (&c, rows[i].position), 2500 * (0.0014 - rows[i].position), 1e-12);
  }
  assert_near (control_load_force (&c, 0) / c.seat_area, 0.70 * BAR, 1e-12); /* the whole stage */
}

static void
test_base_pressure (void)
{
  const struct control_circuit *c = &hollin_six.control;

  static const struct { double bimetal, load, back, expected; } rows[] = {
    { 0, 0, 0, 3.65 },    { 5, 0, 0, 2.65 },      { 0, 3.5, 0, 2.95 },  { 5, 3.5, 0, 1.95 },
    { 18, 0, 0, 0.40 },   { 18.25, 3.5, 0, 0.4 }, { 0, 0, 0.2, 3.55 },  { 18, 0, 0.8, 0.8 },
    { 16.25, 0, 0, 0.4 }, { 16, 0, 0.1, 0.4 },
  };
  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_near (control_base_pressure (c, rows[i].bimetal, rows[i].load, rows[i].back * BAR), rows[i].expected * BAR, 1e-9);
}

static void
test_control_pressure (void)
{
  const struct control_circuit *c = &hollin_six.control;
  double orifice = control_orifice (c, 742), flow, slope, above, below, other;

  assert_near (orifice, 0.72 * G_PI / 4 * 1.6e-7 * sqrt (2 / 742.0), 1e-12);
  for (double system = 0.5 * BAR; system < 8 * BAR; system += 0.3 * BAR) {
    double p = control_pressure_at (system, 3.65 * BAR, orifice, c->flow_rate, false, &flow, &slope);
    if (system <= 3.65 * BAR) {
      g_assert_cmpfloat (p, ==, system);
      g_assert_cmpfloat (flow, ==, 0);
      g_assert_cmpfloat (slope, ==, 1);
      continue;
    }
    assert_near (flow, orifice * sqrt (system - p), 1e-9);
    assert_near (p, 3.65 * BAR + c->flow_rate * flow, 1e-12);
    above = control_pressure_at (system + 1, 3.65 * BAR, orifice, c->flow_rate, false, &flow, &other);
    below = control_pressure_at (system - 1, 3.65 * BAR, orifice, c->flow_rate, false, &flow, &other);
    assert_near (slope, (above - below) / 2, 1e-5);
  }
  g_assert_cmpfloat (control_pressure_at (5 * BAR, 2 * BAR, orifice, c->flow_rate, true, &flow, &slope), ==, 5 * BAR);
  g_assert_cmpfloat (flow, ==, 0);
  g_assert_cmpfloat (slope, ==, 1);
}

static void
test_pump (void)
{
  struct fuel_supply s = hollin_six.supply;
  struct supply_line line;
  double slope, q;
  int relief;

  s.filter_resistance = 0;
  line = supply_pump_line (&s, 12);
  assert_near (supply_pump_flow (&line, 5 * BAR, &slope, &relief), s.pump_flow, 1e-9); /* its rated point */
  g_assert_false (relief);
  /* Slope by hand: slip, and the speed that the current costs in the windings */
  assert_near (slope, s.pump_slip + (s.pump_flow + s.pump_slip * 5e5) / (12 - 0.2 * 7) * 0.2 * 1e-5, 1e-9);
  /* Speed with the volts left: U - R I */
  line = supply_pump_line (&s, 10);
  q = supply_pump_flow (&line, 5 * BAR, &slope, NULL);
  assert_near (q + s.pump_slip * 5e5, (s.pump_flow + s.pump_slip * 5e5) * (10 - 1.4) / (12 - 1.4), 1e-9);
  /* The pump's own relief takes over above its opening */
  line = supply_pump_line (&s, 12);
  q = supply_pump_flow (&line, 7.5 * BAR - 1, &slope, &relief);
  g_assert_false (relief);
  assert_near (supply_pump_flow (&line, 7.6 * BAR, &slope, &relief), q - 1e4 * slope, 1e-3);
  g_assert_true (relief);
  assert_near (slope, s.pump_relief_slope, 0.15);
  g_assert_cmpfloat (supply_pump_flow (&line, 15 * BAR, &slope, NULL), ==, 0);
  g_assert_cmpfloat (slope, ==, 0);
  line = supply_pump_line (&s, 0);
  g_assert_cmpfloat (supply_pump_flow (&line, 5 * BAR, &slope, NULL), ==, 0);
}

/* Behind a filter: the pump works against system pressure and what its own delivery costs there. */
static void
test_filter (void)
{
  struct fuel_supply s = hollin_six.supply, bare = s;
  struct supply_line with = supply_pump_line (&s, 12), without;
  double slope, q = supply_pump_flow (&with, 5 * BAR, &slope, NULL);

  bare.filter_resistance = 0;
  without = supply_pump_line (&bare, 12);
  assert_near (supply_pump_flow (&without, 5 * BAR + s.filter_resistance * q, &slope, NULL), q, 1e-9);
  q = supply_pump_flow (&with, 7.8 * BAR, &slope, NULL); /* and with its relief open */
  assert_near (supply_pump_flow (&without, 7.8 * BAR + s.filter_resistance * q, &slope, NULL), q, 1e-9);
}

static void
test_current_and_relief (void)
{
  const struct fuel_supply *s = &hollin_six.supply;

  assert_near (supply_pump_current (s, 12, 5 * BAR), 7, 1e-12);
  assert_near (supply_pump_current (s, 12, 6 * BAR), 8, 1e-12);
  g_assert_cmpfloat (supply_pump_current (s, 0, 5 * BAR), ==, 0);
  assert_near (supply_pump_current (s, 1, 5 * BAR), 5, 1e-12); /* stalled: U / R */
  struct fuel_supply other = *s;
  other.pump_current_rate = 1e-4;
  g_assert_cmpfloat (supply_pump_current (&other, 12, 0), ==, 0); /* never negative */
  g_assert_cmpfloat (supply_relief_flow (s, 4.8 * BAR, 0), ==, 0);
  g_assert_cmpfloat (supply_relief_flow (s, 4.85 * BAR, 0), ==, 0);
  assert_near (supply_relief_flow (s, 4.97 * BAR, 0), 0.12 * BAR / 3.6e8, 1e-9);
  assert_near (supply_relief_flow (s, 5.07 * BAR, 0.1 * BAR), 0.12 * BAR / 3.6e8, 1e-9); /* return pressure adds */
}

/* A lossy supply is less voltage; a strainer caps what the tank's pressure and the pump's suction can draw through it. */
static void
test_starved_pump (void)
{
  struct fuel_supply s = hollin_six.supply, lossy = s;
  struct supply_line nine = supply_pump_line (&s, 9), line;
  double slope, drawn;
  int relieved;

  lossy.pump_supply_loss = 0.25;
  line = supply_pump_line (&lossy, 12);
  assert_near (supply_pump_flow (&line, 4 * BAR, &slope, NULL), supply_pump_flow (&nine, 4 * BAR, &slope, NULL), 1e-12);
  assert_near (supply_pump_current (&lossy, 12, 5 * BAR), supply_pump_current (&s, 9, 5 * BAR), 1e-12);

  s.suction_limit = 0.3 * BAR;
  s.tank_pressure = -0.1 * BAR;
  s.strainer_resistance = 2e9;
  drawn = 0.2 * BAR / 2e9;
  line = supply_pump_line (&s, 12);
  assert_near (supply_pump_flow (&line, 1 * BAR, &slope, &relieved), drawn, 1e-12);
  g_assert_cmpfloat (slope, ==, 0);
  g_assert_cmpint (relieved, ==, 0);
  assert_near (supply_suction (&s, drawn), -0.3 * BAR, 1e-12);
  s.tank_pressure = -0.4 * BAR; /* more than the pump can draw against */
  line = supply_pump_line (&s, 12);
  g_assert_cmpfloat (supply_pump_flow (&line, 1 * BAR, &slope, NULL), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/control/bimetal-temperature", test_bimetal_temperature);
  g_test_add_func ("/control/bimetal-end", test_bimetal_end);
  g_test_add_func ("/control/bimetal-course", test_bimetal_course);
  g_test_add_func ("/control/bimetal-force", test_bimetal_force);
  g_test_add_func ("/control/load", test_load);
  g_test_add_func ("/control/base-pressure", test_base_pressure);
  g_test_add_func ("/control/pressure", test_control_pressure);
  g_test_add_func ("/supply/pump", test_pump);
  g_test_add_func ("/supply/filter", test_filter);
  g_test_add_func ("/supply/starved", test_starved_pump);
  g_test_add_func ("/supply/current-and-relief", test_current_and_relief);
  return g_test_run ();
}
