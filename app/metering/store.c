#include "store.h"
#include "fuel.h"

#include <math.h>

#define VENT_BAND 200.0 /* Pa */

static double
working_compliance (const struct fuel_store *s)
{
  return s->compliance + s->accumulator_volume / (s->accumulator_full - s->accumulator_empty);
}

double
store_filling (const struct fuel_store *s, double pressure)
{
  double inside = fmin (fmax (pressure - s->accumulator_empty, 0), s->accumulator_full - s->accumulator_empty);

  return s->compliance * (pressure - inside) + working_compliance (s) * inside;
}

double
store_filled_pressure (const struct fuel_store *s, double filling)
{
  double empty = s->compliance * s->accumulator_empty;
  double full = empty + working_compliance (s) * (s->accumulator_full - s->accumulator_empty);

  if (filling <= empty)
    return filling / s->compliance;
  if (filling <= full)
    return s->accumulator_empty + (filling - empty) / working_compliance (s);
  return s->accumulator_full + (filling - full) / s->compliance;
}

double
store_expanded (const struct fuel_store *s, double density15, double excess, double cold, double hot)
{
  double cold_correction = fuel_volume_correction (density15, cold);
  double hot_correction = fuel_volume_correction (density15, hot);

  return (excess + s->volume) / cold_correction + s->hot_volume * (cold_correction / hot_correction - 1) - s->volume;
}

double
store_excess (const struct fuel_store *s, double density15, double filling, double cold, double hot)
{
  double cold_correction = fuel_volume_correction (density15, cold);
  double hot_correction = fuel_volume_correction (density15, hot);

  return (filling + s->volume - s->hot_volume * (cold_correction / hot_correction - 1)) * cold_correction - s->volume;
}

double
store_vent (const struct fuel_store *s, double pressure)
{
  double over = -pressure - s->vent_opening;

  if (over <= 0)
    return 0;
  /* Its spring lets it open softly: without a corner for the integrator */
  return s->vent_conductance * (over < VENT_BAND ? 0.5 * over * over / VENT_BAND : over - 0.5 * VENT_BAND);
}
