#include "generator.h"
#include "cars.h"
#include "draw.h"
#include "parameter.h"
#include "solve.h"

#include <glib.h>
#include <math.h>
#include <string.h>

#define EFFECT_ERROR 0.2      /* standard, of each fault's effect on each value */
#define INTERACTION 0.3       /* standard, of the geometric mean of two effects on one value */
#define GROSS_SHARE 0.02      /* of values that are plain wrong */
#define THERMOMETER 2.0       /* K, standard; all of these are typed as if exact */
#define FUEL_THERMOMETER 5.0  /* K */
#define VOLTMETER 0.15        /* V */
#define VACUUM_GAUGE 0.04     /* of the value */
#define WATCH 0.08            /* of the time */

/* -- car types ------------------------------------------------------------------------------------------------------- */

static const struct { const char *parameter; double least, most; } type_ranges[] = {
  { "regulator_opening", 0.96, 1.06 }, { "pump_flow", 0.92, 1.2 },       { "spring_force", 0.96, 1.04 },
  { "slot_width", 0.9, 1.1 },          { "valve_drop", 0.9, 1.1 },       { "nozzle_opening", 0.95, 1.05 },
  { "bimetal_expansion", 0.9, 1.1 },   { "load_spring_rate", 0.8, 1.2 }, { "orifice_diameter", 0.95, 1.08 },
  { "flow_rate", 0.8, 1.3 },           { "filter_resistance", 0.6, 1.8 },
};

static double
between (uint64_t seed, uint64_t number, double least, double most)
{
  return least + (most - least) * draw_uniform (seed, number);
}

bool
generator_type (uint64_t seed, struct car_type *type)
{
  double soak = between (seed, 900, 5, 28), voltage = between (seed, 901, 11.5, 12.8), vacuum = between (seed, 902, 45e3, 60e3);

  type->car = *demo_cars[seed % DEMO_CARS].car;
  for (unsigned i = 0; i < G_N_ELEMENTS (type_ranges); i++) {
    const struct parameter *parameter = parameter_find (type_ranges[i].parameter);
    double factor = between (seed, i, type_ranges[i].least, type_ranges[i].most);
    for (int j = 0; j < parameter_values (&type->car, parameter); j++)
      *parameter_in (&type->car, parameter, j) *= factor;
  }
  for (int i = 0; i < READINGS; i++) {
    struct conditions *c = &type->conditions[i];
    conditions_usual (c);
    c->block_temperature = c->ambient_temperature = c->fuel_temperature = soak;
    c->voltage = voltage;
    c->vacuum = i == READING_CONTROL_COLD ? 0 : vacuum;
    c->heater_time = i == READING_CONTROL_WARM ? 300 : i == READING_CONTROL_WITHOUT_VACUUM ? 360 : 0;
  }
  return car_check (&type->car, NULL);
}

void
generator_blank (const struct car_type *type, struct observation reading[READINGS])
{
  for (int i = 0; i < READINGS; i++)
    observation_usual (&reading_kinds[i], &type->car, &type->conditions[i], &reading[i]);
}

/* -- faults that no list has ------------------------------------------------------------------------------------------- */

static const struct {
  const char *key;
  bool one_cylinder;
  struct { const char *parameter; enum fault_form form; double worst; } effect[2];
} unlisted_rows[] = {
  { "pump-relief-tired", false, { { "pump_relief", FAULT_SCALE, 0.55 } } },
  { "pump-lead-corroded", false, { { "pump_resistance", FAULT_SCALE, 6 } } },
  { "control-orifice-wide", false, { { "orifice_diameter", FAULT_SCALE, 1.9 } } },
  { "regulator-floor-raised", false, { { "floor_pressure", FAULT_ADD, 250e3 } } },
  { "load-stage-stiff", false, { { "load_vacuum_low", FAULT_SCALE, 3.5 }, { "load_vacuum_high", FAULT_SCALE, 3.2 } } },
  { "release-early", false, { { "release_temperature", FAULT_ADD, -35 } } },
  { "outer-spring-strong", false, { { "load_spring_rate", FAULT_SCALE, 2 } } },
  { "valve-diaphragm-stiff", true, { { "valve_rate", FAULT_SCALE, 12 } } },
  { "slot-wide", true, { { "slot_width", FAULT_SCALE, 1.4 } } },
  { "slot-edge-worn", true, { { "slot_edge", FAULT_ADD, -40e-6 } } },
};

static const struct fault *
unlisted (unsigned number)
{
  static struct fault faults[G_N_ELEMENTS (unlisted_rows)];
  struct fault *fault = &faults[number % G_N_ELEMENTS (unlisted_rows)];

  if (fault->effects == 0) {
    unsigned i = number % G_N_ELEMENTS (unlisted_rows);
    g_strlcpy (fault->key, unlisted_rows[i].key, sizeof fault->key);
    fault->one_cylinder = unlisted_rows[i].one_cylinder;
    for (int k = 0; k < 2 && unlisted_rows[i].effect[k].parameter; k++)
      fault->effect[fault->effects++]
          = (struct fault_effect) { parameter_find (unlisted_rows[i].effect[k].parameter), unlisted_rows[i].effect[k].form,
                                    FAULT_LINEAR, unlisted_rows[i].effect[k].worst };
  }
  return fault;
}

/* -- one case ------------------------------------------------------------------------------------------------------------- */

static bool
run (const struct car_type *type, const struct car *car, uint64_t seed, int reading, double *value)
{
  const struct reading_kind *kind = &reading_kinds[reading];
  struct conditions c = type->conditions[reading];
  struct state state;

  kind->arrange (&type->car, &c);
  c.block_temperature += THERMOMETER * draw_normal (seed, 200);
  c.fuel_temperature += FUEL_THERMOMETER * draw_normal (seed, 201);
  c.voltage += VOLTMETER * draw_normal (seed, 202);
  c.vacuum *= 1 + VACUUM_GAUGE * draw_normal (seed, 203);
  c.heater_time *= 1 + WATCH * draw_normal (seed, 204 + (uint64_t) reading);
  if (metering_solve (car, &c, &state) != OUTCOME_SOLVED)
    return false;
  for (int i = 0; i < (kind->each_cylinder ? car->cylinders : 1); i++)
    value[i] = kind->take (car, &c, &state, i);
  return true;
}

/* What a person reads off several cylinders is their mean and each one's deviation from it; elsewhere one value. */
struct shares {
  double mean, deviation[CYLINDERS_MAX];
};

static struct shares
shares_of (const double *value, int n)
{
  struct shares s = { 0 };

  for (int i = 0; i < n; i++)
    s.mean += value[i] / n;
  for (int i = 0; n > 1 && i < n; i++)
    s.deviation[i] = s.mean > 0 ? value[i] / s.mean - 1 : 0;
  return s;
}

/* The model is wrong about an effect by a factor of its own; two that meet on one value disturb each other. */
static double
true_value (double both, double healthy, const double *single, int doses, uint64_t seed, uint64_t n)
{
  double value = both;

  for (int k = 0; k < doses; k++)
    value += EFFECT_ERROR * draw_normal (seed, n + (uint64_t) k) * (single[k] - healthy);
  if (doses == 2)
    value += INTERACTION * draw_normal (seed, n + 2) * sqrt (fabs ((single[0] - healthy) * (single[1] - healthy)));
  return value;
}

static bool
true_values (const struct car_type *type, const struct car *unit, const struct hidden_case *hidden, int doses, uint64_t seed,
             int reading, double *value)
{
  int n = reading_kinds[reading].each_cylinder ? unit->cylinders : 1;
  double read[4][CYLINDERS_MAX]; /* healthy, both, each of them */
  struct shares shares[4] = { 0 };
  struct car car;

  for (int k = 0; k < 2 + doses; k++) {
    if (!faults_apply (unit, k < 2 ? hidden->dose : &hidden->dose[k - 2], k == 0 ? 0 : k == 1 ? doses : 1, &car, NULL)
        || !run (type, &car, seed, reading, read[k]))
      return false;
    shares[k] = shares_of (read[k], n);
  }
  for (int i = -1; i < (n > 1 ? n : 0); i++) {
    const double single[2] = { i < 0 ? shares[2].mean : shares[2].deviation[i],
                               i < 0 ? shares[3].mean : shares[3].deviation[i] };
    double here = true_value (i < 0 ? shares[1].mean : shares[1].deviation[i], i < 0 ? shares[0].mean : shares[0].deviation[i],
                              single, doses, seed, 300 + (uint64_t) (reading * (CYLINDERS_MAX + 1) + i + 1) * 4);
    if (i < 0)
      value[0] = shares[1].mean = here;
    else
      value[i] = shares[1].mean * (1 + here);
  }
  return true;
}

/* Student's t with four degrees of freedom, made to a standard deviation of 1. */
static double
heavy (uint64_t seed, uint64_t n)
{
  double chi = -2 * log (draw_uniform (seed, n + 1) * draw_uniform (seed, n + 2));

  return draw_normal (seed ^ 0x5bd1, n) / sqrt (chi / 4) / sqrt (2.0);
}

static void
misread (const struct observation *o, uint64_t seed, double *value)
{
  for (int i = 0; i < CYLINDERS_MAX; i++) {
    uint64_t n = 2000 + (uint64_t) (o->kind - reading_kinds) * 64 + (uint64_t) i * 4;
    double scale = o->kind->each_cylinder ? value[i] : 1;

    value[i] += scale * o->uncertainty * heavy (seed, n) + o->bias * draw_normal (seed, 1900 + (uint64_t) o->instrument);
    if (draw_uniform (seed, n + 3) < GROSS_SHARE)
      value[i] += scale * o->kind->usual_uncertainty * between (seed, n + 10000, 5, 20)
                  * (draw_uniform (seed, n + 20000) < 0.5 ? -1 : 1);
    if (o->kind->each_cylinder || o->kind->quantity == QUANTITY_VOLUME_FLOW)
      value[i] = fmax (value[i], 0);
  }
}

static int
draw_fault (const struct fault *const *faults, int count, double u)
{
  double sum = 0;
  int i = 0;

  for (int k = 0; k < count; k++)
    sum += faults[k]->odds;
  for (u *= sum; i < count - 1 && (u -= faults[i]->odds) >= 0; i++)
    ;
  return i;
}

bool
generator_case (const struct car_type *type, const struct tolerances *tolerances, const struct fault *const *faults,
                int count, uint64_t seed, struct hidden_case *hidden)
{
  double kind = draw_uniform (seed, 0);
  struct car unit;
  int doses;

  hidden->kind = kind < 0.12 ? CASE_HEALTHY : kind < 0.77 ? CASE_ONE : kind < 0.92 ? CASE_TWO : CASE_UNLISTED;
  doses = hidden->kind == CASE_HEALTHY ? 0 : hidden->kind == CASE_TWO ? 2 : 1;
  for (int k = 0; k < doses; k++)
    hidden->dose[k] = (struct fault_dose) {
      hidden->kind == CASE_UNLISTED ? unlisted ((unsigned) (draw_uniform (seed, 10) * 1000))
                                    : faults[draw_fault (faults, count, draw_uniform (seed, 11 + (uint64_t) k))],
      between (seed, 13 + (uint64_t) k, 0.1, 1),
      (int) between (seed, 15 + (uint64_t) k, 0, type->car.cylinders),
    };
  if (doses == 2 && hidden->dose[0].fault == hidden->dose[1].fault)
    return false;
  unit_draw (&type->car, tolerances, seed, &unit);
  generator_blank (type, hidden->reading);
  for (int i = 0; i < READINGS; i++) {
    double value[CYLINDERS_MAX] = { 0 };
    if (!true_values (type, &unit, hidden, doses, seed, i, value))
      return false;
    misread (&hidden->reading[i], seed, value);
    memcpy (hidden->reading[i].value, value, sizeof value);
    if (!observation_sound (&hidden->reading[i], &type->car))
      return false;
  }
  return true;
}
