#include "reading.h"
#include "solve.h"
#include "text.h"

#include <math.h>
#include <string.h>

#define REFERENCE_VOLTAGE 12.0
#define COLD 20.0 /* degC */
#define WARM 80.0
#define WARM_TIME 600.0
#define IDLE_VACUUM 50000.0

/* Plate lifts at which the cylinders are compared: shares of the plunger stroke at the largest air flow. */
#define SMALL_SHARE 0.04
#define MIDDLE_SHARE 0.30
#define FULL_SHARE 1.00

/* -- how each procedure arranges things ---------------------------------------------------------------------------- */

/* Engine still, pump bridged: the plate at rest, no air, nothing injected. */
static void
still (struct conditions *c)
{
  c->air_flow = 0;
  c->heater_unplugged = c->tap_shut = false;
  c->approach = 0;
  c->held = 0;
}

static void
arrange_still (const struct car *car, struct conditions *c)
{
  (void) car;
  still (c);
}

static void
arrange_tap_shut (const struct car *car, struct conditions *c)
{
  (void) car;
  still (c);
  c->tap_shut = true;
}

static void
arrange_heater_unplugged (const struct car *car, struct conditions *c)
{
  (void) car;
  still (c);
  c->heater_unplugged = true;
}

static void
arrange_without_vacuum (const struct car *car, struct conditions *c)
{
  (void) car;
  still (c);
  c->vacuum = 0;
}

/* The plate held where the plunger stands at a share of what the largest air flow needs. */
static void
hold_plate (const struct car *car, struct conditions *c, double share)
{
  struct conditions full;
  struct state state;
  double most = car->sensor.top_stop;

  conditions_usual (&full);
  full.air_flow = car->engine.full_air;
  if (metering_solve_checked (car, &full, &state) == OUTCOME_SOLVED)
    most = state.plate_lift;
  still (c);
  c->held = HOLD_PLATE;
  c->held_lift = car->sensor.play + share * (most - car->sensor.play);
}

static void
arrange_small (const struct car *car, struct conditions *c)
{
  hold_plate (car, c, SMALL_SHARE);
}

static void
arrange_middle (const struct car *car, struct conditions *c)
{
  hold_plate (car, c, MIDDLE_SHARE);
}

static void
arrange_full (const struct car *car, struct conditions *c)
{
  hold_plate (car, c, FULL_SHARE);
}

/* -- what each takes ------------------------------------------------------------------------------------------------ */

static double
take_return_flow (const struct car *car, const struct conditions *c, const struct state *state, int cylinder)
{
  (void) car, (void) c, (void) cylinder;
  return state->return_flow;
}

static double
take_system_pressure (const struct car *car, const struct conditions *c, const struct state *state, int cylinder)
{
  (void) car, (void) c, (void) cylinder;
  return state->system_pressure;
}

static double
take_control_pressure (const struct car *car, const struct conditions *c, const struct state *state, int cylinder)
{
  (void) car, (void) c, (void) cylinder;
  return state->control_pressure;
}

static double
take_cylinder_flow (const struct car *car, const struct conditions *c, const struct state *state, int cylinder)
{
  (void) car, (void) c;
  return state->cylinder[cylinder].flow;
}

static double
take_rest_height (const struct car *car, const struct conditions *c, const struct state *state, int cylinder)
{
  (void) c, (void) state, (void) cylinder;
  return car->sensor.rest_height;
}

/* -- the table --------------------------------------------------------------------------------------------------------- */

#define FUEL_OPEN (HAZARD_FUEL_PRESSURE | HAZARD_FIRE)
#define CYLINDERS_PROCEDURE \
  N_("Ignition disabled, nozzles out and in graduates, vessel earthed. Bridge the pump, hold the plate at the lift " \
     "until the first graduate is nearly full. Compare the cylinders: the lift need not be exact, it is the same for all.")

const struct reading_kind reading_kinds[READINGS] = {
  [READING_DELIVERY] = {
    .key = "delivery",
    .name = N_("Delivery at the return"),
    .procedure = N_("Engine still, return line led into a measuring glass, pump bridged for 30 s. Note the voltage at "
                    "the pump while it runs."),
    .out_means = N_("Low: voltage at the pump, strainer, filter, pump. Measure again before the filter to tell them apart."),
    .quantity = QUANTITY_VOLUME_FLOW,
    .usual_uncertainty = 20e-6 / 30, /* 20 cm3 in 30 s */
    .hazards = FUEL_OPEN,
    .asks_voltage = true,
    .arrange = arrange_still,
    .take = take_return_flow,
  },
  [READING_SYSTEM_PRESSURE] = {
    .key = "system-pressure",
    .name = N_("System pressure"),
    .procedure = N_("Gauge in the control line, bled, its tap shut to the warm-up regulator. Engine still, pump bridged."),
    .out_means = N_("Low: pump or system pressure regulator. High: regulator, or the return restricted."),
    .quantity = QUANTITY_PRESSURE,
    .usual_uncertainty = 6e3,
    .hazards = FUEL_OPEN,
    .asks_voltage = true,
    .arrange = arrange_tap_shut,
    .take = take_system_pressure,
  },
  [READING_CONTROL_COLD] = {
    .key = "control-pressure-cold",
    .name = N_("Control pressure, cold"),
    .procedure = N_("Engine cold overnight, heater unplugged, thermometer on the warm-up regulator. Gauge tap open, pump "
                    "bridged. Say which vacuum the regulator had: none, hand pump or engine."),
    .out_means = N_("High: lean while cold. Low: rich while cold. Regulator setting, bimetal, vacuum."),
    .quantity = QUANTITY_PRESSURE,
    .usual_uncertainty = 6e3,
    .hazards = FUEL_OPEN,
    .asks_temperature = true,
    .asks_vacuum = true,
    .arrange = arrange_heater_unplugged,
    .take = take_control_pressure,
  },
  [READING_CONTROL_WARM] = {
    .key = "control-pressure-warm",
    .name = N_("Control pressure, warm"),
    .procedure = N_("Gauge tap open, heater plugged in, read when the pressure no longer rises; note the minutes. Say "
                    "which vacuum the regulator had."),
    .out_means = N_("Low although warm: heater or its supply, regulator setting, vacuum. High: setting, or the outlet "
                    "blocked."),
    .quantity = QUANTITY_PRESSURE,
    .usual_uncertainty = 6e3,
    .hazards = FUEL_OPEN | HAZARD_EXHAUST | HAZARD_MOVING_HOT,
    .asks_temperature = true,
    .asks_vacuum = true,
    .asks_minutes = true,
    .asks_voltage = true,
    .arrange = arrange_still,
    .take = take_control_pressure,
  },
  [READING_CONTROL_WITHOUT_VACUUM] = {
    .key = "control-pressure-without-vacuum",
    .name = N_("Control pressure, vacuum taken away"),
    .procedure = N_("As warm, then vent the hand pump or pull the vacuum hose off the regulator and close it: the needle "
                    "follows in seconds."),
    .out_means = N_("No change: torn diaphragm (the pump will not hold) or stuck load stage. Low with and without: "
                    "setting, heater or bimetal."),
    .quantity = QUANTITY_PRESSURE,
    .usual_uncertainty = 6e3,
    .hazards = FUEL_OPEN | HAZARD_EXHAUST | HAZARD_MOVING_HOT,
    .asks_temperature = true,
    .asks_minutes = true,
    .asks_voltage = true,
    .arrange = arrange_without_vacuum,
    .take = take_control_pressure,
  },
  [READING_CYLINDERS_SMALL] = {
    .key = "cylinders-small",
    .name = N_("Delivery by cylinder, small lift"),
    .procedure = CYLINDERS_PROCEDURE,
    .out_means = N_("One apart: exchange two nozzles. The fault moves with the nozzle, or it stays with slot or valve. "
                    "A loss that fades with lift is gum on the slot's lower edge."),
    .quantity = QUANTITY_VOLUME_FLOW,
    .each_cylinder = true,
    .usual_uncertainty = 0.03,
    .hazards = FUEL_OPEN | HAZARD_SPRAY | HAZARD_PLATE_LIFT,
    .arrange = arrange_small,
    .take = take_cylinder_flow,
  },
  [READING_CYLINDERS_MIDDLE] = {
    .key = "cylinders-middle",
    .name = N_("Delivery by cylinder, middle lift"),
    .procedure = CYLINDERS_PROCEDURE,
    .out_means = N_("One apart at every lift: slot width, valve spring or nozzle. Exchange two nozzles to tell them apart."),
    .quantity = QUANTITY_VOLUME_FLOW,
    .each_cylinder = true,
    .usual_uncertainty = 0.03,
    .hazards = FUEL_OPEN | HAZARD_SPRAY | HAZARD_PLATE_LIFT,
    .arrange = arrange_middle,
    .take = take_cylinder_flow,
  },
  [READING_CYLINDERS_FULL] = {
    .key = "cylinders-full",
    .name = N_("Delivery by cylinder, full lift"),
    .procedure = CYLINDERS_PROCEDURE,
    .out_means = N_("One low only here: nozzle or its strainer, valve at the end of its travel."),
    .quantity = QUANTITY_VOLUME_FLOW,
    .each_cylinder = true,
    .usual_uncertainty = 0.03,
    .hazards = FUEL_OPEN | HAZARD_SPRAY | HAZARD_PLATE_LIFT,
    .arrange = arrange_full,
    .take = take_cylinder_flow,
  },
  [READING_REST_HEIGHT] = {
    .key = "rest-height",
    .name = N_("Rest height of the plate"),
    .procedure = N_("Pressure let down or present, as the car's data say. Depth gauge from the land's edge, signed along "
                    "the opening: 0 is flush."),
    .out_means = N_("Too high: cylinders are fed at rest, hot start suffers. Too low: the plate hangs. Bend or turn the "
                    "rest stop."),
    .quantity = QUANTITY_LENGTH,
    .usual_uncertainty = 0.1e-3,
    .hazards = FUEL_OPEN | HAZARD_PLATE_LIFT,
    .arrange = arrange_still,
    .take = take_rest_height,
  },
};

const struct reading_kind *
reading_find (const char *key)
{
  for (int i = 0; i < READINGS; i++)
    if (strcmp (reading_kinds[i].key, key) == 0)
      return &reading_kinds[i];
  return NULL;
}

const char *
hazard_caution (enum hazard hazard)
{
  switch (hazard) {
  case HAZARD_FUEL_PRESSURE:
    return N_("Fuel stands at about 5 bar: let the pressure down slowly under a rag, with gloves and eye protection.");
  case HAZARD_FIRE:
    return N_("No ignition source, a class B extinguisher at hand, never over a pit, closed vessels.");
  case HAZARD_EXHAUST:
    return N_("Running engine: exhaust extraction.");
  case HAZARD_MOVING_HOT:
    return N_("Keep clear of hot and turning parts.");
  case HAZARD_SPRAY:
    return N_("Disable the ignition before spraying into vessels, earth the vessel.");
  case HAZARD_PLATE_LIFT:
    return N_("Never lift the plate with the pump on and the nozzles fitted: the cylinders fill.");
  default:
    return "";
  }
}

void
reading_reference (const struct reading_kind *kind, const struct car *car, struct conditions *conditions)
{
  conditions_usual (conditions);
  conditions->voltage = REFERENCE_VOLTAGE;
  conditions->vacuum = IDLE_VACUUM;
  conditions->block_temperature = kind == &reading_kinds[READING_CONTROL_COLD] ? COLD : WARM;
  conditions->heater_time = kind->asks_minutes ? WARM_TIME : 0;
  kind->arrange (car, conditions);
}

/* Several values of one reading share one run. */
static enum outcome
run (const struct reading_kind *kind, const struct car *car, const struct conditions *conditions,
     struct conditions *arranged, struct state *state)
{
  *arranged = *conditions;
  kind->arrange (car, arranged);
  return metering_solve (car, arranged, state);
}

enum outcome
reading_expected (const struct reading_kind *kind, const struct car *car, const struct conditions *conditions,
                  int cylinder, double *value)
{
  struct conditions arranged;
  struct state state;
  enum outcome outcome = run (kind, car, conditions, &arranged, &state);

  if (outcome == OUTCOME_SOLVED)
    *value = kind->take (car, &arranged, &state, cylinder);
  return outcome;
}

bool
band_limits (const struct band *band, const struct reading_kind *kind, const struct car *car,
             const struct conditions *conditions, double *low, double *high)
{
  struct conditions reference;
  double expected, at_reference;

  if (kind->each_cylinder && band->form != BAND_NONE) { /* deviations from the mean: the conditions fall out */
    *low = band->form == BAND_ABOUT ? -band->low : band->low;
    *high = band->high;
    return true;
  }
  switch (band->form) {
  case BAND_FIXED:
    *low = band->low;
    *high = band->high;
    return true;
  case BAND_ABOUT:
    if (reading_expected (kind, car, conditions, 0, &expected) != OUTCOME_SOLVED)
      return false;
    *low = expected - band->low;
    *high = expected + band->high;
    return true;
  case BAND_LIMITS:
    reading_reference (kind, car, &reference);
    if (reading_expected (kind, car, conditions, 0, &expected) != OUTCOME_SOLVED
        || reading_expected (kind, car, &reference, 0, &at_reference) != OUTCOME_SOLVED)
      return false;
    if (kind->quantity == QUANTITY_VOLUME_FLOW) { /* flows move in proportion, all else by difference */
      if (at_reference <= 0)
        return false;
      *low = band->low * expected / at_reference;
      *high = band->high * expected / at_reference;
    } else {
      *low = band->low + expected - at_reference;
      *high = band->high + expected - at_reference;
    }
    return true;
  case BAND_NONE:
  default:
    return false;
  }
}
