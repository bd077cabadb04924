#include "tolerance.h"
#include "random.h"
#include "sensor.h"
#include "solve.h"

#include <math.h>

#define DEVIATIONS_MOST 3.0
#define ATTEMPTS 20        /* for a unit that hangs together: with any sensible tolerances the first does */
#define IDLE_VACUUM 50e3   /* Pa */
#define SETTING_STEPS 50   /* halvings of the screw's whole range: below a nanometre */

static double
deviation (struct random_stream *stream)
{
  return fmin (fmax (random_normal (stream), -DEVIATIONS_MOST), DEVIATIONS_MOST);
}

static double
deviated (const struct tolerance *t, double value, double common, double each)
{
  double sum = t->common * common + t->each * each;

  switch (t->form) {
  case TOLERANCE_RELATIVE:
    value *= 1 + sum;
    break;
  case TOLERANCE_LOG:
    value *= exp (sum);
    break;
  case TOLERANCE_ABSOLUTE:
  default:
    value += sum;
    break;
  }
  return fmin (fmax (value, t->parameter->least), t->parameter->most);
}

static void
deviate (const struct tolerance *t, uint64_t seed, struct car *unit)
{
  struct random_stream stream;
  double common;

  random_start (&stream, seed, random_sequence (t->parameter->key) + t->land);
  common = deviation (&stream);
  for (int i = 0; i < parameter_values (unit, t->parameter); i++) {
    double each = deviation (&stream), *value = parameter_in (unit, t->parameter, i);

    if (!t->land || unit->sensor.funnel_depth[i] <= sensor_land (&unit->sensor))
      *value = deviated (t, *value, common, each);
  }
}

static double
idle_lambda (const struct car *car, const struct conditions *idle)
{
  struct state state;

  return metering_solve (car, idle, &state) == OUTCOME_SOLVED ? state.lambda : 0;
}

/* The workshop's last hand: the mixture screw, until lambda at idle is what it takes for right. Leaner the lower the
 * plunger; where the slots shut altogether lambda counts as endless. */
static void
set_idle (const struct car *nominal, double sd, uint64_t seed, struct car *unit)
{
  const struct parameter *offset = parameter_find ("mixture_offset");
  double low = offset->least, high = offset->most, wanted;
  struct random_stream stream;
  struct conditions idle;

  conditions_usual (&idle);
  idle.air_flow = nominal->engine.idle_air;
  idle.vacuum = IDLE_VACUUM;
  random_start (&stream, seed, random_sequence ("idle setting"));
  wanted = idle_lambda (nominal, &idle) * (1 + sd * deviation (&stream));
  if (!(wanted > 0))
    return;
  for (int i = 0; i < SETTING_STEPS; i++) {
    double lambda;

    unit->distributor.mixture_offset = 0.5 * (low + high);
    lambda = idle_lambda (unit, &idle);
    if (lambda <= 0 || lambda > wanted)
      low = unit->distributor.mixture_offset;
    else
      high = unit->distributor.mixture_offset;
  }
}

void
unit_draw (const struct car *nominal, const struct tolerances *tolerances, uint64_t seed, struct car *unit)
{
  for (uint64_t attempt = 0; attempt < ATTEMPTS; attempt++) {
    uint64_t try = seed + (attempt << 48);

    *unit = *nominal;
    for (int i = 0; i < tolerances->count; i++)
      deviate (&tolerances->row[i], try, unit);
    if (tolerances->idle_setting > 0)
      set_idle (nominal, tolerances->idle_setting, try, unit);
    if (car_check (unit, NULL))
      return;
  }
  *unit = *nominal;
}
