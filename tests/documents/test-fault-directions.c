/* The truth table of the shipped faults: which way each moves what a workshop reads, through the model, on every shipped
 * car. The directions are common practice, no source. A row for every fault; several where the pattern tells it apart. */
#include "fault-document.h"
#include "fault-procedures.h"
#include "solve.h"
#include "vehicle-document.h"

#include <math.h>
#include <string.h>

#define LEAST_EFFECT 0.01 /* relative, at severity 1: a fault that moves its reading less is not worth its name */
#define SAME 0.003        /* relative: what counts as not moved; a gauge shows 1 % */
#define STEPS 20
#define RUN_STEPS 4
#define AFFLICTED 1       /* index of the cylinder that one-cylinder faults are put in */

enum when {
  IDLE,    /* warm, high vacuum */
  CRUISE,
  FULL,    /* warm, largest air, little vacuum */
  COLD,    /* as idle with everything at 20 degC, heater just switched on */
  WARMING, /* the same after three minutes of heating; block still cold */
  OPENING, /* idle reached from below: friction holds the plate back */
  CLOSING, /* idle reached from above */
  STILL,   /* pump bridged, no air */
  WHENS
};

enum direction { DOWN = -1, STAYS = 0, UP = 1 };

struct row {
  const char *fault;
  const char *value; /* key of a reading, of a state value, or of a cylinder's value (then of the afflicted cylinder) */
  enum when when;
  enum direction direction;
};

static const struct row rows[] = {
  { "pump-worn", "delivery", IDLE, DOWN },
  { "pump-worn", "lambda", IDLE, STAYS },
  { "pump-voltage-low", "delivery", IDLE, DOWN },
  { "pump-voltage-low", "suction_pressure", IDLE, UP },
  { "strainer-blocked", "delivery", IDLE, DOWN },
  { "strainer-blocked", "suction_pressure", IDLE, DOWN },
  { "tank-vent-blocked", "suction_pressure", IDLE, DOWN },
  { "tank-vent-blocked", "delivery", IDLE, DOWN },
  { "relay-dead", "delivery", IDLE, DOWN },
  { "relay-dead", "system-pressure", IDLE, DOWN },
  { "filter-blocked", "delivery", IDLE, DOWN },
  { "filter-blocked", "pump_pressure", IDLE, UP },
  { "filter-blocked", "pump_current", IDLE, UP },
  { "system-regulator-low", "system-pressure", IDLE, DOWN },
  { "system-regulator-low", "delivery", IDLE, UP },
  { "system-regulator-high", "system-pressure", IDLE, UP },
  { "system-regulator-high", "delivery", IDLE, DOWN },
  { "system-regulator-stuck", "system-pressure", IDLE, UP },
  { "return-restricted", "system-pressure", IDLE, UP },
  { "return-restricted", "return_pressure", IDLE, UP },

  { "warm-up-regulator-high", "control-pressure-warm", IDLE, UP },
  { "warm-up-regulator-high", "control-pressure-cold", IDLE, UP },
  { "warm-up-regulator-high", "lambda", IDLE, UP },
  { "warm-up-regulator-high", "system-pressure", IDLE, STAYS },
  { "warm-up-regulator-low", "control-pressure-warm", IDLE, DOWN },
  { "warm-up-regulator-low", "control-pressure-cold", IDLE, DOWN },
  { "warm-up-regulator-low", "lambda", IDLE, DOWN },
  { "warm-up-regulator-wrong", "control-pressure-warm", IDLE, STAYS },
  { "warm-up-regulator-wrong", "control-pressure-cold", IDLE, DOWN },
  { "heater-open", "control-pressure-warm", WARMING, DOWN },
  { "heater-open", "lambda", WARMING, DOWN },
  { "heater-open", "control-pressure-cold", IDLE, STAYS },
  { "heater-supply-lost", "control-pressure-warm", WARMING, DOWN },
  { "heater-supply-lost", "control-pressure-cold", IDLE, STAYS },
  { "bimetal-weak", "control-pressure-cold", IDLE, UP },
  { "bimetal-weak", "lambda", COLD, UP },
  { "bimetal-weak", "control-pressure-warm", IDLE, STAYS },
  { "bimetal-strong", "control-pressure-cold", IDLE, DOWN },
  { "bimetal-strong", "lambda", COLD, DOWN },
  { "bimetal-strong", "control-pressure-warm", IDLE, STAYS },
  { "vacuum-hose-off", "control-pressure-warm", IDLE, DOWN },
  { "vacuum-hose-off", "control-pressure-without-vacuum", IDLE, STAYS },
  { "vacuum-hose-off", "unmetered_air", IDLE, UP },
  { "load-diaphragm-torn", "control-pressure-warm", IDLE, DOWN },
  { "load-diaphragm-torn", "control-pressure-without-vacuum", IDLE, STAYS },
  { "load-diaphragm-torn", "unmetered_air", IDLE, UP },
  { "load-stage-stuck", "control-pressure-without-vacuum", IDLE, UP },
  { "load-stage-stuck", "control-pressure-warm", IDLE, STAYS },
  { "load-stage-stuck", "lambda", FULL, UP },
  { "regulator-outlet-blocked", "control-pressure-warm", IDLE, UP },
  { "regulator-outlet-blocked", "control_flow", IDLE, DOWN },
  { "regulator-outlet-blocked", "lambda", IDLE, UP },
  { "regulator-gauze-blocked", "control-pressure-warm", IDLE, UP },
  { "regulator-gauze-blocked", "control_flow", IDLE, DOWN },
  { "control-orifice-blocked", "control_flow", IDLE, DOWN },
  { "control-orifice-blocked", "control-pressure-warm", IDLE, DOWN },
  { "control-orifice-blocked", "system-pressure", IDLE, STAYS },

  { "plunger-sticks", "lambda", OPENING, UP },
  { "plunger-sticks", "lambda", CLOSING, DOWN },
  { "plunger-worn", "lambda", IDLE, DOWN },
  { "plunger-worn", "cylinders-small", IDLE, STAYS },
  { "slot-gummed", "cylinders-small", IDLE, DOWN },
  { "slot-gummed", "lambda", IDLE, UP },
  { "slot-narrow", "cylinders-small", IDLE, DOWN },
  { "slot-narrow", "cylinders-full", IDLE, DOWN },
  { "slots-gummed", "lambda", IDLE, UP },
  { "slots-gummed", "cylinders-small", IDLE, STAYS },
  { "difference-valve-weak", "cylinders-small", IDLE, DOWN },
  { "difference-valve-weak", "cylinders-full", IDLE, DOWN },
  { "difference-valve-weak", "slot_drop", IDLE, DOWN },
  { "plate-rubs", "plate_lift", OPENING, DOWN },
  { "plate-rubs", "plate_lift", CLOSING, UP },
  { "plate-rubs", "lambda", OPENING, UP },
  { "plate-high", "rest-height", IDLE, UP },
  { "plate-high", "fuel_flow", STILL, UP },
  { "plate-low", "rest-height", IDLE, DOWN },
  { "plate-low", "lambda", IDLE, STAYS },
  { "lever-worn", "lambda", IDLE, UP },
  { "lever-worn", "plate_lift", IDLE, STAYS },
  { "lever-bent", "lambda", IDLE, UP },
  { "lever-bent", "rest-height", IDLE, DOWN },
  { "weight-shifted", "plate_drop", IDLE, UP },
  { "weight-shifted", "lambda", IDLE, UP },
  { "weight-shifted", "control-pressure-warm", IDLE, STAYS },
  { "mixture-screw-rich", "lambda", IDLE, DOWN },
  { "mixture-screw-lean", "lambda", IDLE, UP },
  { "distributor-wrong", "lambda", IDLE, DOWN },
  { "distributor-wrong", "lambda", FULL, DOWN },
  { "distributor-wrong", "cylinders-small", IDLE, STAYS },

  { "unmetered-air", "lambda", IDLE, UP },
  { "unmetered-air", "fuel_flow", IDLE, STAYS },
  { "crankcase-air", "lambda", IDLE, UP },

  { "nozzle-opens-high", "line_pressure", IDLE, UP },
  { "nozzle-opens-high", "cylinders-small", IDLE, STAYS },
  { "nozzle-opens-low", "line_pressure", IDLE, DOWN },
  { "nozzle-opens-low", "cylinders-small", IDLE, STAYS },
  { "nozzle-strainer-blocked", "cylinders-full", IDLE, DOWN },
  { "nozzle-strainer-blocked", "cylinders-small", IDLE, STAYS },

  { "fuel-light", "lambda", IDLE, UP },
  { "fuel-light", "lambda", FULL, UP },
  { "fuel-alcohol", "lambda", IDLE, UP },
  { "fuel-alcohol", "stoichiometric", IDLE, DOWN },
  { "dirt-in-fuel", "lambda", IDLE, UP },
  { "dirt-in-fuel", "delivery", IDLE, DOWN },
};

/* What shows only in time: on the running engine, after the stop, at the start. */
struct run_row {
  const char *fault, *value;
  enum procedure procedure;
  enum direction direction;
};

static const struct run_row run_rows[] = {
  { "check-valve-leaks", "system_pressure", RESIDUAL, DOWN },
  { "check-valve-leaks", "system_pressure", HOT_IDLE, STAYS },
  { "accumulator-burst", "system_pressure", RESIDUAL, DOWN },
  { "accumulator-weak", "system_pressure", RESIDUAL, DOWN },
  { "accumulator-weak", "system_pressure", HOT_IDLE, STAYS },
  { "compensating-valve-stuck", "system_pressure", OVERNIGHT, DOWN },
  { "compensating-valve-stuck", "system_pressure", HOT_IDLE, STAYS },
  { "system-regulator-leaks", "system_pressure", RESIDUAL, DOWN },
  { "system-regulator-leaks", "system_pressure", HOT_IDLE, STAYS },
  { "shut-off-valve-leaks", "system_pressure", RESIDUAL, DOWN },
  { "shut-off-valve-stuck", "control_pressure", HOT_IDLE, UP },
  { "plunger-seal-leaks", "system_pressure", RESIDUAL, DOWN },
  { "cold-start-valve-leaks", "system_pressure", RESIDUAL, DOWN },
  { "fuel-volatile", "vapour_pressure", SOAKED, UP },
  { "fuel-volatile", "lambda", HOT_IDLE, STAYS },

  { "damper-dead", "kick", THROTTLE, UP },
  { "damping-orifice-blocked", "overshoot", THROTTLE, DOWN },
  { "damping-orifice-blocked", "late", THROTTLE, UP },
  { "damping-orifice-wide", "overshoot", THROTTLE, UP },

  { "auxiliary-valve-shut", "engine_speed", COLD_IDLE, DOWN },
  { "auxiliary-valve-shut", "engine_speed", HOT_IDLE, STAYS },
  { "auxiliary-valve-open", "engine_speed", HOT_IDLE, UP },
  { "auxiliary-heater-dead", "auxiliary_area", WARMED, UP },
  { "idle-bypass-shut", "engine_speed", HOT_IDLE, DOWN },
  { "idle-bypass-open", "engine_speed", HOT_IDLE, UP },
  { "unmetered-air", "co", HOT_IDLE, DOWN },
  { "mixture-screw-rich", "co", HOT_IDLE, UP },

  { "nozzles-spray-badly", "co", HOT_IDLE, UP },
  { "nozzles-spray-badly", "o2", HOT_IDLE, UP },
  { "nozzles-spray-badly", "fuel_flow", HOT_IDLE, STAYS },

  { "cold-start-valve-dead", "cold_start_flow", COLD_CRANK, DOWN },
  { "thermo-time-switch-open", "cold_start_flow", COLD_CRANK, DOWN },
  { "thermo-time-switch-closed", "cold_start_flow", HOT_CRANK, UP },
  { "safety-switch-stuck", "engine_speed", AFTER_START, DOWN },
  { "safety-switch-stuck", "system_pressure", COLD_CRANK, STAYS },
  { "battery-weak", "engine_speed", FIRST_TURNS, DOWN },
  { "battery-weak", "voltage", FIRST_TURNS, DOWN },

  { "misfire", "hc", HOT_IDLE, UP },
  { "misfire", "o2", HOT_IDLE, UP },
  { "engine-worn", "engine_speed", HOT_IDLE, DOWN },
  { "exhaust-leak", "o2", HOT_IDLE, UP },
  { "exhaust-leak", "co", HOT_IDLE, DOWN },
  { "exhaust-leak", "lambda", HOT_IDLE, STAYS },
};

static const struct fault_catalogue *
catalogue (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  const struct fault_catalogue *shipped = fault_catalogue_shipped (problems);
  g_autofree char *text = problems_text (problems, "faults.json");

  g_assert_cmpstr (text, ==, "");
  return shipped;
}

/* The shipped cars and the generic one, NULL at the end. */
static struct vehicle **
cars (void)
{
  static struct vehicle **list;
  const char *const *names = vehicle_shipped ();

  if (list == NULL) {
    g_autoptr (problems_t) problems = problems_new ();
    GPtrArray *loaded = g_ptr_array_new ();
    for (int i = 0; names[i]; i++)
      g_ptr_array_add (loaded, vehicle_load (names[i], problems));
    g_ptr_array_add (loaded, vehicle_load ("generic", problems));
    g_assert_cmpuint (problems_count (problems), ==, 0);
    g_assert_cmpuint (loaded->len, >=, 4);
    g_ptr_array_add (loaded, NULL);
    list = (struct vehicle **) g_ptr_array_free (loaded, FALSE);
  }
  return list;
}

static struct conditions
conditions_of (const struct car *healthy, enum when when)
{
  struct conditions c;

  conditions_usual (&c);
  c.air_flow = healthy->engine.idle_air;
  if (when == CRUISE) {
    c.air_flow = sqrt (healthy->engine.idle_air * healthy->engine.full_air);
    c.vacuum = 35e3;
  } else if (when == FULL) {
    c.air_flow = healthy->engine.full_air;
    c.vacuum = 2e3;
  } else if (when == COLD || when == WARMING) {
    c.block_temperature = 20;
    c.heater_time = when == WARMING ? 180 : 0;
  } else if (when == OPENING || when == CLOSING)
    c.approach = when == OPENING ? -1 : 1;
  else if (when == STILL)
    c.air_flow = 0;
  return c;
}

/* A reading of the afflicted cylinder is its deviation from the mean, as the workshop judges it. */
static double
take_reading (const struct reading_kind *kind, const struct car *car, const struct conditions *typed)
{
  double value = NAN, mean = 0;

  g_assert_cmpint (reading_expected (kind, car, typed, AFFLICTED, &value), ==, OUTCOME_SOLVED);
  if (!kind->each_cylinder)
    return value;
  for (int i = 0; i < car->cylinders; i++) {
    double one = NAN;
    g_assert_cmpint (reading_expected (kind, car, typed, i, &one), ==, OUTCOME_SOLVED);
    mean += one / car->cylinders;
  }
  return value / mean;
}

static double
take (const struct row *row, const struct car *healthy, const struct car *car)
{
  const struct reading_kind *kind = reading_find (row->value);
  const struct state_value *value = state_value_find (row->value);
  struct conditions c = conditions_of (healthy, row->when);
  struct state state;

  if (kind) {
    struct conditions typed;
    reading_reference (kind, healthy, &typed);
    if (row->when != IDLE) {
      typed.block_temperature = c.block_temperature;
      typed.heater_time = c.heater_time;
    }
    return take_reading (kind, car, &typed);
  }
  g_assert_cmpint (metering_solve (car, &c, &state), ==, OUTCOME_SOLVED);
  if (value)
    return state_value_get (&state, value);
  for (int i = 0; i < cylinder_value_count; i++)
    if (strcmp (cylinder_values[i].key, row->value) == 0)
      return cylinder_value_get (&state.cylinder[AFFLICTED], &cylinder_values[i]);
  g_error ("no reading or value “%s”", row->value);
}

static double
take_faulty (const struct row *row, const struct fault *fault, const struct car *healthy, double severity)
{
  struct car car = *healthy;

  g_assert_true (fault_apply (&car, fault, severity, AFFLICTED));
  return take (row, healthy, &car);
}

/* Lengths about 0 (the rest height) by a millimetre, all else relative. */
static double
change_from (const struct row *row, double healthy, double faulty)
{
  return (faulty - healthy) / (strcmp (row->value, "rest-height") == 0 ? 1e-3 : fmax (fabs (healthy), 1e-9));
}

static void
check_row (const struct row *row, const struct vehicle *vehicle)
{
  const struct fault *fault = fault_catalogue_find (catalogue (), row->fault);
  double healthy = take (row, &vehicle->car, &vehicle->car), before = 0, change = 0, scale;

  g_assert_nonnull (fault);
  for (int i = 1; i <= STEPS; i++) {
    change = change_from (row, healthy, take_faulty (row, fault, &vehicle->car, (double) i / STEPS));
    if (row->direction == STAYS && !(fabs (change) <= SAME))
      g_test_fail_printf ("%s: %s moves %s by %g", vehicle->key, row->fault, row->value, change);
    if (row->direction != STAYS && !((change - before) * row->direction >= -1e-9))
      g_test_fail_printf ("%s: %s: %s turns back at severity %g: %g after %g", vehicle->key, row->fault, row->value,
               (double) i / STEPS, change, before);
    before = change;
  }
  scale = change * row->direction;
  if (row->direction != STAYS && !(scale >= LEAST_EFFECT))
    g_test_fail_printf ("%s: %s should move %s %s, but moves it by %g", vehicle->key, row->fault, row->value,
             row->direction == UP ? "up" : "down", change);
  g_test_message ("%-14s %-26s %-32s %d %+.4f", vehicle->key, row->fault, row->value, (int) row->when, change);
}

/* The same in time; what jumps (a switch) may do so at any severity, but not back. */
static void
check_run_row (const struct run_row *row, const struct vehicle *vehicle)
{
  const struct fault *fault = fault_catalogue_find (catalogue (), row->fault);
  double healthy = procedure_value (row->procedure, &vehicle->car, row->value), before = 0, change = 0;
  double scale = fmax (fabs (healthy), g_str_has_suffix (row->value, "pressure") ? 1e5 : 1e-9); /* below 1 bar: bar */

  double back = row->procedure == THROTTLE ? 0.05 : 0.01; /* a plate that hunts starts from a phase of its own */

  g_assert_nonnull (fault);
  for (int i = 1; i <= RUN_STEPS; i++) {
    struct car car = vehicle->car;
    g_assert_true (fault_apply (&car, fault, (double) i / RUN_STEPS, AFFLICTED));
    change = (procedure_value (row->procedure, &car, row->value) - healthy) / scale;
    if (row->direction == STAYS && !(fabs (change) <= SAME))
      g_test_fail_printf ("%s: %s moves %s by %g", vehicle->key, row->fault, row->value, change);
    if (row->direction != STAYS && !((change - before) * row->direction >= -back))
      g_test_fail_printf ("%s: %s: %s turns back at severity %g: %g after %g", vehicle->key, row->fault, row->value,
                          (double) i / RUN_STEPS, change, before);
    before = change;
  }
  if (row->direction != STAYS && !(change * row->direction >= LEAST_EFFECT))
    g_test_fail_printf ("%s: %s should move %s %s, but moves it by %g", vehicle->key, row->fault, row->value,
                        row->direction == UP ? "up" : "down", change);
  g_test_message ("%-14s %-26s %-32s %g %+.4f", vehicle->key, row->fault, row->value, healthy, change);
}

/* What moves the control pressure through the load diaphragm has no hold on a car without a load stage. */
static gboolean
is_of_load_stage (const struct row *row)
{
  static const char *const faults[] = { "vacuum-hose-off", "load-diaphragm-torn", "load-stage-stuck", NULL };

  return g_strv_contains (faults, row->fault) && !g_str_equal (row->value, "unmetered_air");
}

static void
test_directions (gconstpointer data)
{
  const char *fault = data;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    for (struct vehicle **vehicle = cars (); strcmp (rows[i].fault, fault) == 0 && *vehicle; vehicle++)
      if (!is_of_load_stage (&rows[i]) || (*vehicle)->car.control.load_spring_rate > 0)
        check_row (&rows[i], *vehicle);
  for (gsize i = 0; i < G_N_ELEMENTS (run_rows); i++)
    for (struct vehicle **vehicle = cars (); strcmp (run_rows[i].fault, fault) == 0 && *vehicle; vehicle++)
      check_run_row (&run_rows[i], *vehicle);
}

/* Every fault stands in the table with something that it moves, and the table names no other. */
static void
test_complete (void)
{
  for (unsigned i = 0; i < catalogue ()->count; i++) {
    gboolean moved = FALSE;
    for (gsize j = 0; j < G_N_ELEMENTS (rows); j++)
      if (strcmp (rows[j].fault, catalogue ()->fault[i].key) == 0 && rows[j].direction != STAYS)
        moved = TRUE;
    for (gsize j = 0; j < G_N_ELEMENTS (run_rows); j++)
      if (strcmp (run_rows[j].fault, catalogue ()->fault[i].key) == 0 && run_rows[j].direction != STAYS)
        moved = TRUE;
    if (!moved)
      g_test_fail_printf ("no row for the fault “%s”", catalogue ()->fault[i].key);
  }
  for (gsize j = 0; j < G_N_ELEMENTS (rows); j++)
    g_assert_nonnull (fault_catalogue_find (catalogue (), rows[j].fault));
  for (gsize j = 0; j < G_N_ELEMENTS (run_rows); j++)
    g_assert_nonnull (fault_catalogue_find (catalogue (), run_rows[j].fault));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/documents/fault-directions/complete", test_complete);
  for (unsigned i = 0; i < catalogue ()->count; i++) {
    g_autofree char *path = g_strconcat ("/documents/fault-directions/", catalogue ()->fault[i].key, NULL);
    g_test_add_data_func (path, catalogue ()->fault[i].key, test_directions);
  }
  return g_test_run ();
}
