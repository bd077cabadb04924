#include "fuel.h"

#include <math.h>

double
fuel_volume_correction (double density15, double temperature)
{
  double difference = temperature - 15;
  double alpha = 346.4228 / (density15 * density15) + 0.4388 / density15;

  return exp (-alpha * difference * (1 + 0.8 * alpha * difference));
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
fuel_stoichiometric (double hydrogen_carbon, double oxygen_carbon)
{
  /* 34.56 = (32 + 3.773 x 28.16) / 4: mass of air by quarter mole of oxygen */
  return 34.56 * (4 + hydrogen_carbon - 2 * oxygen_carbon)
         / (12.011 + 1.008 * hydrogen_carbon + 15.999 * oxygen_carbon);
}
