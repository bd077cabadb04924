/* Slots, pressure-difference valves and nozzles: each solution is put back into equations written out here again. */
#include "cars.h"
#include "distributor.h"
#include "near.h"

static const struct distributor_fuel fuel = { 742, 6e-7 };

static void
test_slot_opening (void)
{
  struct fuel_distributor d = { .slot_height = { 0.005, 0.004 }, .slot_edge = { 0, 2e-4 } };

  static const struct { int cylinder; double lift, expected; } rows[] = {
    { 0, 0, 0 },      { 0, 0.001, 0.001 }, { 0, 0.005, 0.005 }, { 0, 0.009, 0.005 },
    { 1, 1e-4, 0 },   { 1, 2e-4, 0 },      { 1, 1e-3, 8e-4 },   { 1, 0.0042, 0.004 }, { 1, 0.009, 0.004 },
  };
  for (unsigned i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_within (distributor_slot_opening (&d, rows[i].cylinder, rows[i].lift), rows[i].expected, 1e-15);
  /* An edge below its place opens early, but not with the plunger on its stop */
  d.slot_edge[0] = -5e-5;
  assert_within (distributor_slot_opening (&d, 0, 1e-5), 6e-5, 1e-15);
  g_assert_cmpfloat (distributor_slot_opening (&d, 0, 0), ==, 0);
}

static void
test_slot_flow (void)
{
  const struct fuel_distributor *d = &hollin_six.distributor;

  for (double h = 1e-6; h < 5e-3; h *= 3)
    for (double drop = 1; drop < 1e6; drop *= 30) {
      double cd, by_drop, e = drop * 1e-5;
      double area = 0.0002 * h, hydraulic = 4 * area / (2 * (0.0002 + h));
      double ideal = sqrt (2 * drop / fuel.density), number = hydraulic * ideal / fuel.viscosity;
      double q = distributor_slot_flow (d, &fuel, 0, h, drop, &cd, &by_drop);

      assert_near (cd, 0.67 * tanh (2 * number / 300), 1e-12);
      assert_near (q, cd * area * ideal, 1e-12);
      assert_near (by_drop, (distributor_slot_flow (d, &fuel, 0, h, drop + e, NULL, NULL)
                             - distributor_slot_flow (d, &fuel, 0, h, drop - e, NULL, NULL)) / (2 * e), 1e-6);
    }
}

static void
test_outlet_flow (void)
{
  struct fuel_distributor d = hollin_six.distributor;
  double q;

  g_assert_cmpfloat (distributor_outlet_flow (&d, &fuel, 0, 1e-5, 340000), ==, 0);
  g_assert_cmpfloat (distributor_outlet_flow (&d, &fuel, 0, 1e-5, 100000), ==, 0);
  g_assert_cmpfloat (distributor_outlet_flow (&d, &fuel, 0, 0, 400000), ==, 0);
  q = distributor_outlet_flow (&d, &fuel, 0, 1e-5, 400000);
  assert_near (q, 0.72 * G_PI * 0.003 * 1e-5 * sqrt (2 * (400000 - 340000 - 6.66e9 * q) / fuel.density), 1e-12);
  d.nozzle_rate[0] = 0;
  assert_near (distributor_outlet_flow (&d, &fuel, 0, 1e-5, 400000),
               0.72 * G_PI * 0.003 * 1e-5 * sqrt (2 * 60000 / fuel.density), 1e-12);
}

/* What every solved cylinder must keep, from the values handed out alone. */
static void
assert_cylinder (const struct fuel_distributor *d, int i, double opening, double system, const struct cylinder_state *c)
{
  double area, ideal, number, speed, over, held;

  g_assert_cmpfloat (c->slot_opening, ==, opening);
  assert_within (c->upper_pressure + c->slot_drop, system, 1e-9 * system);
  g_assert_cmpfloat (c->valve_opening, >=, 0);
  g_assert_cmpfloat (c->valve_opening, <=, d->valve_travel);
  if (opening <= 0 || system <= d->nozzle_opening[i]) {
    g_assert_cmpfloat (c->flow, ==, 0);
    return;
  }
  g_assert_cmpfloat (c->flow, >, 0);
  area = d->slot_width[i] * opening;
  ideal = sqrt (2 * c->slot_drop / fuel.density);
  number = 2 * area / (d->slot_width[i] + opening) * ideal / fuel.viscosity;
  assert_near (c->flow, d->slot_discharge * tanh (2 * number / d->slot_transition) * area * ideal, 1e-9);
  assert_near (c->line_pressure, d->nozzle_opening[i] + d->nozzle_rate[i] * c->flow, 1e-12);
  /* Over the seat: 1e-9, and what rounding leaves of a small difference of large pressures */
  speed = c->flow / (d->valve_seat_discharge * G_PI * d->valve_seat_diameter * c->valve_opening);
  over = 0.5 * fuel.density * speed * speed;
  assert_within (c->upper_pressure - c->line_pressure, over, 2e-9 * over + 1e-15 * system);
  /* The diaphragm: spring against the difference, or the valve on its stop with the spring still pushing */
  held = d->valve_drop[i] - d->valve_rate[i] / d->valve_area * c->valve_opening;
  if (c->valve_opening < d->valve_travel)
    assert_within (c->slot_drop, held, 1e-9 * d->valve_drop[i]);
  else
    g_assert_cmpfloat (c->slot_drop, <=, held);
}

static void
test_cylinder (void)
{
  struct fuel_distributor d = hollin_six.distributor;
  int at_stop = 0, still = 0;

  for (int stiff = 0; stiff < 3; stiff++) {
    d.valve_rate[0] = (double[]) { 1000, 10000, 90000 }[stiff];
    for (double opening = 1e-6; opening < 0.006; opening *= 1.6)
      for (double system = 3.3e5; system < 8e5; system += 9e3) {
        struct cylinder_state c = { 0 }, near = { 0 }, beside = { 0 };
        double by_pressure, by_opening, e = 1;

        distributor_cylinder (&d, &fuel, 0, opening, system, &c, &by_pressure, &by_opening);
        assert_cylinder (&d, 0, opening, system, &c);
        g_assert_cmpfloat (distributor_cylinder_defect (&d, &fuel, 0, &c), <=, 1e-9);
        at_stop += c.flow > 0 && c.valve_opening >= d.valve_travel;
        still += c.flow <= 0;
        near.valve_opening = c.valve_opening * 0.9; /* a guess changes nothing */
        distributor_cylinder (&d, &fuel, 0, opening, system, &near, NULL, NULL);
        assert_within (near.flow, c.flow, 1e-9 * c.flow);
        distributor_cylinder (&d, &fuel, 0, opening, system + e, &beside, NULL, NULL);
        if (c.flow > 0 && (beside.valve_opening >= d.valve_travel) == (c.valve_opening >= d.valve_travel)
            && system > d.nozzle_opening[0] + (c.valve_opening >= d.valve_travel ? 3e3 : 5e4))
          assert_within (by_pressure, (beside.flow - c.flow) / e, 0.01 * by_pressure + 1e-9 * c.flow);
      }
  }
  g_assert_cmpint (at_stop, >, 20);
  g_assert_cmpint (still, >, 20);
}

static void
test_cylinder_still (void)
{
  struct fuel_distributor d = hollin_six.distributor;
  struct cylinder_state c = { 0 };
  double by_pressure = 1, by_opening = 1;

  /* Shut slot: the spring's difference stands over it and the valve is just shut */
  distributor_cylinder (&d, &fuel, 0, 0, 5e5, &c, &by_pressure, &by_opening);
  g_assert_cmpfloat (c.flow, ==, 0);
  g_assert_cmpfloat (c.slot_drop, ==, 10500);
  g_assert_cmpfloat (c.valve_opening, ==, 0);
  g_assert_cmpfloat (c.upper_pressure, ==, 5e5 - 10500);
  g_assert_cmpfloat (by_pressure, ==, 0);
  g_assert_cmpfloat (by_opening, ==, 0);
  /* Open slot under the nozzle's opening pressure: no difference, the spring opens the valve */
  distributor_cylinder (&d, &fuel, 0, 1e-3, 3e5, &c, NULL, NULL);
  g_assert_cmpfloat (c.flow, ==, 0);
  g_assert_cmpfloat (c.slot_drop, ==, 0);
  g_assert_cmpfloat (c.valve_opening, ==, d.valve_travel);
  g_assert_cmpfloat (c.line_pressure, ==, 3e5);
  d.valve_rate[0] = 100000; /* 10 500 Pa x 4 cm2 / 100 N/mm = 0.042 mm */
  distributor_cylinder (&d, &fuel, 0, 1e-3, 3e5, &c, NULL, NULL);
  assert_near (c.valve_opening, 4.2e-5, 1e-12);
  /* Pressure too low for the spring's difference */
  distributor_cylinder (&d, &fuel, 0, 0, 4000, &c, NULL, NULL);
  g_assert_cmpfloat (c.slot_drop, ==, 4000);
  g_assert_cmpfloat (c.upper_pressure, ==, 0);
  g_assert_cmpfloat (c.line_pressure, ==, 0);
  /* A defect is noticed */
  distributor_cylinder (&d, &fuel, 0, 1e-4, 5e5, &c, NULL, NULL);
  c.flow *= 1.01;
  g_assert_cmpfloat (distributor_cylinder_defect (&d, &fuel, 0, &c), >, 5e-3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/distributor/slot-opening", test_slot_opening);
  g_test_add_func ("/distributor/slot-flow", test_slot_flow);
  g_test_add_func ("/distributor/outlet-flow", test_outlet_flow);
  g_test_add_func ("/distributor/cylinder", test_cylinder);
  g_test_add_func ("/distributor/cylinder-still", test_cylinder_still);
  return g_test_run ();
}
