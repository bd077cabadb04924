#include "workshop.h"
#include "draw.h"
#include "parameter.h"
#include "solve.h"

#include <math.h>
#include <string.h>

static const struct {
  const char *key, *parameter;
  enum fault_form form;
  enum fault_course course;
  double worst, odds;
  bool one_cylinder;
} rows[WORKSHOP_FAULTS] = {
  [PUMP_WORN] = { "pump-worn", "pump_flow", FAULT_SCALE, FAULT_LINEAR, 0.45, 3 },
  [REGULATOR_LOW] = { "regulator-low", "regulator_opening", FAULT_ADD, FAULT_LINEAR, -90e3, 3 },
  [REGULATOR_HIGH] = { "regulator-high", "regulator_opening", FAULT_ADD, FAULT_LINEAR, 90e3, 1.5 },
  [WARM_UP_LOW] = { "warm-up-low", "spring_force", FAULT_ADD, FAULT_LINEAR, -4.5, 3 },
  [WARM_UP_HIGH] = { "warm-up-high", "spring_force", FAULT_ADD, FAULT_LINEAR, 3.5, 2 },
  [HEATER_OPEN] = { "heater-open", "heater_resistance", FAULT_SCALE, FAULT_RECIPROCAL, 1e7, 2.5 },
  [HEATER_SUPPLY] = { "heater-supply", "heater_supply", FAULT_SCALE, FAULT_LINEAR, 0, 2.5 },
  [DIAPHRAGM_TORN] = { "diaphragm-torn", "load_tightness", FAULT_SCALE, FAULT_LINEAR, 0, 1.5 },
  [BIMETAL_WEAK] = { "bimetal-weak", "bimetal_expansion", FAULT_SCALE, FAULT_LINEAR, 0.5, 1 },
  [SLOT_GUMMED] = { "slot-gummed", "slot_edge", FAULT_ADD, FAULT_LINEAR, 60e-6, 2, true },
  [SLOT_NARROW] = { "slot-narrow", "slot_width", FAULT_SCALE, FAULT_LINEAR, 0.6, 1.5, true },
  [NOZZLE_STRAINER] = { "nozzle-strainer", "nozzle_rate", FAULT_SCALE, FAULT_GEOMETRIC, 30, 2, true },
  [PLATE_HIGH] = { "plate-high", "rest_height", FAULT_ADD, FAULT_LINEAR, 2.2e-3, 1.5 },
  [UNMETERED_AIR] = { "unmetered-air", "unmetered_area", FAULT_ADD, FAULT_LINEAR, 12e-6, 5 },
};

const struct fault *
workshop_faults (void)
{
  static struct fault faults[WORKSHOP_FAULTS];

  for (int i = 0; i < WORKSHOP_FAULTS && faults[WORKSHOP_FAULTS - 1].effects == 0; i++) {
    strcpy (faults[i].key, rows[i].key);
    strcpy (faults[i].repair, rows[i].key);
    faults[i].odds = rows[i].odds;
    faults[i].one_cylinder = rows[i].one_cylinder;
    faults[i].effect[0]
        = (struct fault_effect) { parameter_find (rows[i].parameter), rows[i].form, rows[i].course, rows[i].worst };
    faults[i].effects = 1;
  }
  return faults;
}

/* Standard deviations of build: share of the value, or in SI where the healthy value is 0. Judged. */
static const struct {
  const char *parameter;
  double share, distance;
} tolerances[] = {
  { "pump_flow", 0.06, 0 },         { "pump_slip", 0.1, 0 },         { "filter_resistance", 0.3, 0 },
  { "regulator_opening", 0.012, 0 },{ "return_resistance", 0.2, 0 }, { "orifice_diameter", 0.02, 0 },
  { "spring_force", 0.012, 0 },     { "flow_rate", 0.1, 0 },         { "bimetal_expansion", 0.03, 0 },
  { "load_spring_rate", 0.03, 0 },  { "heater_resistance", 0.05, 0 },{ "slot_width", 0.015, 0 },
  { "slot_edge", 0, 1.5e-6 },       { "valve_drop", 0.03, 0 },       { "nozzle_opening", 0.04, 0 },
  { "rest_height", 0, 1e-4 },
};

void
workshop_unit (void *data, unsigned number, struct car *unit)
{
  uint64_t seed = 1000 + (data ? *(const uint64_t *) data : 0), n = (uint64_t) number * 1024;

  for (unsigned i = 0; i < sizeof tolerances / sizeof *tolerances; i++) {
    const struct parameter *parameter = parameter_find (tolerances[i].parameter);
    for (int j = 0; j < parameter_values (unit, parameter); j++) {
      double *value = parameter_in (unit, parameter, j);
      double z = fmin (fmax (draw_normal (seed, n++), -3), 3);
      *value += z * (tolerances[i].share * fabs (*value) + tolerances[i].distance);
      *value = fmin (fmax (*value, parameter->least), parameter->most);
    }
  }
}

struct signatures *
workshop_signatures (const struct car *car)
{
  struct signature_source source = { car, workshop_faults (), WORKSHOP_FAULTS, workshop_unit, NULL };
  struct signatures *signatures = signatures_new (&source);

  for (int i = 0; signatures && i < READINGS; i++) {
    struct observation o;
    struct conditions c;
    reading_reference (&reading_kinds[i], car, &c);
    observation_usual (&reading_kinds[i], car, &c, &o);
    if (signatures_add (signatures, &o, NULL, NULL) != i) {
      signatures_free (signatures);
      return NULL;
    }
  }
  return signatures;
}

bool
workshop_read (const struct car *nominal, const struct car *actual, enum reading_id id, struct observation *o)
{
  const struct reading_kind *kind = &reading_kinds[id];
  struct conditions arranged;
  struct state state;

  reading_reference (kind, nominal, &arranged);
  observation_usual (kind, nominal, &arranged, o);
  kind->arrange (nominal, &arranged);
  if (metering_solve (actual, &arranged, &state) != OUTCOME_SOLVED)
    return false;
  for (int i = 0; i < (kind->each_cylinder ? nominal->cylinders : 1); i++)
    o->value[i] = kind->take (actual, &arranged, &state, i);
  return true;
}
