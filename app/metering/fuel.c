#include "fuel.h"

#include <math.h>

#define PSI 6894.757
#define DISTILLATION_SLOPE 3.0 /* degF by per cent evaporated, the usual motor gasoline */

/* At 15 degC */
static double
expansion_at_15 (double density15)
{
  return 346.4228 / (density15 * density15) + 0.4388 / density15;
}

double
fuel_volume_correction (double density15, double temperature)
{
  double difference = temperature - 15;
  double alpha = expansion_at_15 (density15);

  return exp (-alpha * difference * (1 + 0.8 * alpha * difference));
}

double
fuel_expansion (double density15, double temperature)
{
  double alpha = expansion_at_15 (density15);

  return alpha * (1 + 1.6 * alpha * (temperature - 15));
}

double
fuel_density_at (const struct fuel *fuel, double temperature)
{
  return fuel->density * fuel_volume_correction (fuel->density, temperature);
}

double
fuel_viscosity_at (const struct fuel *fuel, double temperature)
{
  return fuel->viscosity * exp (-fuel->viscosity_slope * (temperature - 20));
}

double
fuel_vapour_pressure (double reid_pressure, double temperature)
{
  double logarithm = log (reid_pressure / PSI), root = sqrt (DISTILLATION_SLOPE);
  double a = 15.64 - 1.854 * root - (0.8742 - 0.3280 * root) * logarithm;
  double b = 8742 - 1042 * root - (1049 - 179.4 * root) * logarithm;
  double rankine = (temperature + 273.15) * 1.8;

  return PSI * exp (a - b / rankine);
}

double
fuel_stoichiometric (double hydrogen_carbon, double oxygen_carbon)
{
  /* 34.56 = (32 + 3.773 x 28.16) / 4: mass of air by quarter mole of oxygen */
  return 34.56 * (4 + hydrogen_carbon - 2 * oxygen_carbon)
         / (12.011 + 1.008 * hydrogen_carbon + 15.999 * oxygen_carbon);
}
