#include "observation.h"

#include <math.h>
#include <string.h>

#define GAUGE_SHARE 0.70710678118654752 /* sqrt(1/2): half of the variance each; common practice, no source */

void
observation_usual (const struct reading_kind *kind, const struct car *car, const struct conditions *conditions,
                   struct observation *observation)
{
  bool gauge = kind->quantity == QUANTITY_PRESSURE;

  memset (observation, 0, sizeof *observation);
  observation->kind = kind;
  observation->conditions = *conditions;
  observation->cylinders = kind->each_cylinder ? (1u << car->cylinders) - 1 : 0;
  observation->uncertainty = kind->usual_uncertainty * (gauge ? GAUGE_SHARE : 1);
  observation->bias = gauge ? kind->usual_uncertainty * GAUGE_SHARE : 0;
  observation->instrument = gauge ? 1 : 0;
}

static bool
cylinders_sound (const struct observation *o, const struct car *car)
{
  double sum = 0;
  int read = 0;

  if (o->form != OBSERVATION_VALUE || o->cylinders >> car->cylinders)
    return false;
  for (int i = 0; i < car->cylinders; i++)
    if (o->cylinders >> i & 1) {
      if (!(o->value[i] >= 0) || !isfinite (o->value[i]))
        return false;
      sum += o->value[i];
      read++;
    }
  return read >= 2 && sum > 0;
}

bool
observation_sound (const struct observation *o, const struct car *car)
{
  if (!(o->uncertainty > 0) || !isfinite (o->uncertainty) || !(o->bias >= 0) || !isfinite (o->bias)
      || o->instrument < 0 || o->instrument > INSTRUMENTS_MAX)
    return false;
  return o->kind->each_cylinder ? cylinders_sound (o, car) : isfinite (o->value[0]);
}
