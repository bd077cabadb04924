/* The table of readings, how each procedure arranges the model, and the demo cars inside their own bands. */
#include "cars.h"
#include "near.h"
#include "reading.h"
#include "solve.h"

#include <string.h>

static void
test_table (void)
{
  for (int i = 0; i < READINGS; i++) {
    const struct reading_kind *kind = &reading_kinds[i];

    g_assert_nonnull (kind->key);
    g_assert_true (reading_find (kind->key) == kind);
    g_assert_cmpuint (strlen (kind->name), >, 5);
    g_assert_cmpuint (strlen (kind->procedure), >, 30);
    g_assert_cmpuint (strlen (kind->out_means), >, 20);
    g_assert_cmpfloat (kind->usual_uncertainty, >, 0);
    g_assert_nonnull (kind->arrange);
    g_assert_nonnull (kind->take);
    g_assert_cmpuint (kind->hazards & HAZARD_FIRE, !=, 0); /* every one of these opens the fuel system */
    g_assert_cmpuint (kind->hazards & HAZARD_FUEL_PRESSURE, !=, 0);
    if (kind->each_cylinder)
      g_assert_cmpuint (kind->hazards & (HAZARD_SPRAY | HAZARD_PLATE_LIFT), ==, HAZARD_SPRAY | HAZARD_PLATE_LIFT);
  }
  g_assert_null (reading_find ("no such thing"));
}

/* What the usual instruments are good for: EN 837-1 class 1 of a gauge to 6 bar; 20 ml of what is caught in half a
 * minute, 3 % of a graduate and 0.1 mm of a depth gauge are common practice, no source. */
static void
test_usual_uncertainties (void)
{
  for (int i = 0; i < READINGS; i++) {
    const struct reading_kind *kind = &reading_kinds[i];

    if (kind->quantity == QUANTITY_PRESSURE)
      assert_near (kind->usual_uncertainty, 0.01 * 6e5, 1e-12);
    else if (kind->each_cylinder)
      assert_near (kind->usual_uncertainty, 30e-6 / 1e-3, 1e-12);
    else if (kind->quantity == QUANTITY_VOLUME_FLOW)
      assert_near (kind->usual_uncertainty * 30, 20e-6, 1e-12); /* over the half minute that the procedure asks */
    else
      assert_near (kind->usual_uncertainty, 1e-4, 1e-12);
  }
}

/* Which typed conditions each value depends on: those that move it, by the model itself. */
static void
test_what_is_asked (void)
{
  for (int i = 0; i < READINGS; i++) {
    const struct reading_kind *kind = &reading_kinds[i];
    struct conditions c, other;
    double value = 0, moved = 0;

    g_test_message ("%s", kind->key);
    reading_reference (kind, &hollin_six, &c);
    c.block_temperature = 20;
    c.heater_time = kind->asks_minutes ? 60 : 0;
    g_assert_cmpint (reading_expected (kind, &hollin_six, &c, 0, &value), ==, OUTCOME_SOLVED);
    if (kind->asks_vacuum) {
      other = c;
      other.vacuum = 0;
      reading_expected (kind, &hollin_six, &other, 0, &moved);
      g_assert_cmpfloat (fabs (moved - value), >, kind->usual_uncertainty);
    }
    if (kind->asks_temperature) {
      other = c;
      other.block_temperature = 40;
      reading_expected (kind, &hollin_six, &other, 0, &moved);
      g_assert_cmpfloat (fabs (moved - value), >, kind->usual_uncertainty);
    }
    if (kind->asks_minutes) {
      other = c;
      other.heater_time = 120;
      reading_expected (kind, &hollin_six, &other, 0, &moved);
      g_assert_cmpfloat (fabs (moved - value), >, kind->usual_uncertainty);
    }
    g_assert_cmpint (kind->asks_voltage, ==, i == READING_DELIVERY || i == READING_SYSTEM_PRESSURE
                                               || i == READING_CONTROL_WARM || i == READING_CONTROL_WITHOUT_VACUUM);
    g_assert_cmpint (kind->asks_minutes, ==, i == READING_CONTROL_WARM || i == READING_CONTROL_WITHOUT_VACUUM);
    g_assert_cmpint (kind->asks_vacuum, ==, i == READING_CONTROL_COLD || i == READING_CONTROL_WARM);
    g_assert_cmpint (kind->asks_temperature, ==, i >= READING_CONTROL_COLD && i <= READING_CONTROL_WITHOUT_VACUUM);
    g_assert_cmpint (kind->each_cylinder, ==, i >= READING_CYLINDERS_SMALL && i <= READING_CYLINDERS_FULL);
  }
}

static void
test_cautions (void)
{
  for (unsigned bit = 1; bit <= HAZARD_PLATE_LIFT; bit *= 2)
    g_assert_cmpuint (strlen (hazard_caution ((enum hazard) bit)), >, 20);
  g_assert_cmpstr (hazard_caution ((enum hazard) 64), ==, "");
}

static void
test_arrangement (void)
{
  struct conditions dirty, c;

  conditions_usual (&dirty);
  dirty.held = HOLD_SYSTEM_PRESSURE | HOLD_CONTROL_PRESSURE;
  dirty.tap_shut = dirty.heater_unplugged = true;
  dirty.approach = 1;
  for (int i = 0; i < READINGS; i++) {
    c = dirty;
    reading_kinds[i].arrange (&hollin_six, &c);
    g_assert_cmpfloat (c.air_flow, ==, 0);
    g_assert_cmpfloat (c.approach, ==, 0);
    g_assert_cmpuint (c.held, ==, reading_kinds[i].each_cylinder ? HOLD_PLATE : 0);
    g_assert_cmpint (c.tap_shut, ==, i == READING_SYSTEM_PRESSURE);
    g_assert_cmpint (c.heater_unplugged, ==, i == READING_CONTROL_COLD);
    g_assert_cmpfloat (c.vacuum, ==, i == READING_CONTROL_WITHOUT_VACUUM ? 0 : dirty.vacuum);
    g_assert_true (conditions_check (&c, NULL));
  }
}

/* The lifts at which cylinders are compared: a small one just off the play, the largest air flow's own one for full. */
static void
test_lifts (void)
{
  struct conditions small, middle, full;
  struct state state;

  conditions_usual (&full);
  full.air_flow = hollin_six.engine.full_air;
  g_assert_cmpint (metering_solve (&hollin_six, &full, &state), ==, OUTCOME_SOLVED);
  reading_reference (&reading_kinds[READING_CYLINDERS_SMALL], &hollin_six, &small);
  reading_reference (&reading_kinds[READING_CYLINDERS_MIDDLE], &hollin_six, &middle);
  reading_reference (&reading_kinds[READING_CYLINDERS_FULL], &hollin_six, &full);
  assert_near (full.held_lift, state.plate_lift, 1e-9);
  assert_near (small.held_lift, 0.001 + 0.04 * (state.plate_lift - 0.001), 1e-9);
  assert_near (middle.held_lift, 0.001 + 0.30 * (state.plate_lift - 0.001), 1e-9);
}

static void
test_reference (void)
{
  for (int i = 0; i < READINGS; i++) {
    struct conditions c;
    reading_reference (&reading_kinds[i], &hollin_six, &c);
    g_assert_cmpfloat (c.voltage, ==, 12);
    g_assert_cmpfloat (c.block_temperature, ==, i == READING_CONTROL_COLD ? 20 : 80);
    g_assert_cmpfloat (c.heater_time, ==, reading_kinds[i].asks_minutes ? 600 : 0);
    g_assert_true (conditions_check (&c, NULL));
  }
}

static void
test_expected (void)
{
  struct conditions c;
  struct state state;
  double value = -1;
  struct car car = hollin_six;

  /* Each value is what the model says of the arranged state */
  reading_reference (&reading_kinds[READING_DELIVERY], &car, &c);
  g_assert_cmpint (metering_solve (&car, &c, &state), ==, OUTCOME_SOLVED);
  g_assert_cmpint (reading_expected (&reading_kinds[READING_DELIVERY], &car, &c, 0, &value), ==, OUTCOME_SOLVED);
  g_assert_cmpfloat (value, ==, state.return_flow);
  g_assert_cmpint (reading_expected (&reading_kinds[READING_SYSTEM_PRESSURE], &car, &c, 0, &value), ==, OUTCOME_SOLVED);
  c.tap_shut = true;
  g_assert_cmpint (metering_solve (&car, &c, &state), ==, OUTCOME_SOLVED);
  g_assert_cmpfloat (value, ==, state.system_pressure);
  g_assert_cmpfloat (state.control_flow, ==, 0);
  reading_reference (&reading_kinds[READING_CONTROL_COLD], &car, &c);
  g_assert_cmpint (metering_solve (&car, &c, &state), ==, OUTCOME_SOLVED);
  reading_expected (&reading_kinds[READING_CONTROL_COLD], &car, &c, 0, &value);
  g_assert_cmpfloat (value, ==, state.control_pressure);
  car.distributor.slot_width[3] *= 0.8;
  reading_reference (&reading_kinds[READING_CYLINDERS_MIDDLE], &car, &c);
  g_assert_cmpint (metering_solve (&car, &c, &state), ==, OUTCOME_SOLVED);
  reading_expected (&reading_kinds[READING_CYLINDERS_MIDDLE], &car, &c, 3, &value);
  g_assert_cmpfloat (value, ==, state.cylinder[3].flow);
  g_assert_cmpfloat (value, <, 0.82 * state.cylinder[2].flow);
  car.sensor.rest_height = 0.0003;
  reading_expected (&reading_kinds[READING_REST_HEIGHT], &car, &c, 0, &value);
  g_assert_cmpfloat (value, ==, 0.0003);
  /* What cannot be solved leaves the value alone */
  value = 77;
  c.voltage = NAN;
  g_assert_cmpint (reading_expected (&reading_kinds[READING_DELIVERY], &car, &c, 0, &value), ==, OUTCOME_BAD_CONDITIONS);
  g_assert_cmpfloat (value, ==, 77);
}

static void
test_bands (void)
{
  const struct reading_kind *delivery = &reading_kinds[READING_DELIVERY], *system = &reading_kinds[READING_SYSTEM_PRESSURE];
  struct band band = { BAND_LIMITS, 2e-5, 3e-5, "" };
  struct conditions reference, weak;
  double low = 1, high = 1, at_reference, expected;

  reading_reference (delivery, &hollin_six, &reference);
  weak = reference;
  weak.voltage = 10;
  g_assert_true (band_limits (&band, delivery, &hollin_six, &reference, &low, &high));
  assert_near (low, 2e-5, 1e-12);
  assert_near (high, 3e-5, 1e-12);
  /* At less voltage the flow band shrinks as the expected flow does */
  reading_expected (delivery, &hollin_six, &reference, 0, &at_reference);
  reading_expected (delivery, &hollin_six, &weak, 0, &expected);
  g_assert_cmpfloat (expected, <, 0.9 * at_reference);
  g_assert_true (band_limits (&band, delivery, &hollin_six, &weak, &low, &high));
  assert_near (low, 2e-5 * expected / at_reference, 1e-9);
  assert_near (high, 3e-5 * expected / at_reference, 1e-9);
  /* A pressure band moves by the difference */
  band = (struct band) { BAND_LIMITS, 4.6e5, 5.2e5, "" };
  reading_expected (system, &hollin_six, &reference, 0, &at_reference);
  reading_expected (system, &hollin_six, &weak, 0, &expected);
  g_assert_true (band_limits (&band, system, &hollin_six, &weak, &low, &high));
  assert_near (low, 4.6e5 + expected - at_reference, 1e-9);
  assert_near (high, 5.2e5 + expected - at_reference, 1e-9);
  band.form = BAND_ABOUT;
  band.low = 1e4;
  band.high = 2e4;
  g_assert_true (band_limits (&band, system, &hollin_six, &weak, &low, &high));
  assert_near (low, expected - 1e4, 1e-9);
  assert_near (high, expected + 2e4, 1e-9);
  g_assert_true (band_limits (&band, &reading_kinds[READING_CYLINDERS_FULL], &hollin_six, &weak, &low, &high));
  g_assert_cmpfloat (low, ==, -1e4);
  g_assert_cmpfloat (high, ==, 2e4);
  band.form = BAND_FIXED;
  weak.voltage = NAN; /* asks the model nothing */
  g_assert_true (band_limits (&band, system, &hollin_six, &weak, &low, &high));
  g_assert_cmpfloat (low, ==, 1e4);
  g_assert_cmpfloat (high, ==, 2e4);
  low = 5;
  band.form = BAND_ABOUT;
  g_assert_false (band_limits (&band, system, &hollin_six, &weak, &low, &high));
  band.form = BAND_LIMITS;
  g_assert_false (band_limits (&band, system, &hollin_six, &weak, &low, &high));
  band.form = BAND_NONE;
  g_assert_false (band_limits (&band, system, &hollin_six, &reference, &low, &high));
  g_assert_cmpfloat (low, ==, 5);
  struct car dead = hollin_six; /* no flow at the reference: nothing to be in proportion to */
  dead.supply.pump_flow = 0;
  dead.supply.pump_slip = 0;
  band.form = BAND_LIMITS;
  g_assert_false (band_limits (&band, delivery, &dead, &reference, &low, &high));
}

/* Every healthy car reads inside its own bands in every reading, with the guard band of a usual gauge to spare, at the
 * reference and at other voltages, temperatures and vacuums. */
static void
test_demo_cars_in_their_bands (void)
{
  static const struct { double volts, block, vacuum; } conditions[] = {
    { 12, -1, 50000 }, { 11, -1, 50000 }, { 13.5, -1, 0 }, { 12, 10, 50000 }, { 12, 30, 0 },
  };

  for (int i = 0; i < DEMO_CARS; i++)
    for (int r = 0; r < READINGS; r++)
      for (unsigned k = 0; k < G_N_ELEMENTS (conditions); k++) {
        const struct reading_kind *kind = &reading_kinds[r];
        struct conditions c;
        double low, high, values[CYLINDERS_MAX], mean = 0, u = kind->usual_uncertainty;
        int many = kind->each_cylinder ? demo_cars[i].car->cylinders : 1;

        reading_reference (kind, demo_cars[i].car, &c);
        c.voltage = conditions[k].volts;
        c.vacuum = conditions[k].vacuum;
        if (conditions[k].block >= 0)
          c.block_temperature = conditions[k].block;
        g_assert_cmpint (demo_cars[i].bands[r].form, !=, BAND_NONE);
        g_assert_true (band_limits (&demo_cars[i].bands[r], kind, demo_cars[i].car, &c, &low, &high));
        for (int j = 0; j < many; j++) {
          g_assert_cmpint (reading_expected (kind, demo_cars[i].car, &c, j, &values[j]), ==, OUTCOME_SOLVED);
          mean += values[j] / many;
        }
        for (int j = 0; j < many; j++) {
          double value = kind->each_cylinder ? values[j] / mean - 1 : values[j];
          g_test_message ("%s %s: %g in %g..%g", demo_cars[i].name, kind->key, value, low, high);
          g_assert_cmpfloat (value, >, low + 1.64 * u);
          g_assert_cmpfloat (value, <, high - 1.64 * u);
        }
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reading/table", test_table);
  g_test_add_func ("/reading/usual-uncertainties", test_usual_uncertainties);
  g_test_add_func ("/reading/what-is-asked", test_what_is_asked);
  g_test_add_func ("/reading/cautions", test_cautions);
  g_test_add_func ("/reading/arrangement", test_arrangement);
  g_test_add_func ("/reading/lifts", test_lifts);
  g_test_add_func ("/reading/reference", test_reference);
  g_test_add_func ("/reading/expected", test_expected);
  g_test_add_func ("/reading/bands", test_bands);
  g_test_add_func ("/reading/demo-cars-in-their-bands", test_demo_cars_in_their_bands);
  return g_test_run ();
}
