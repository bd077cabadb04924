#include "air.h"

#include <math.h>

/* CIPM-2007 constants, named as in the publication */
#define MOLAR_GAS_CONSTANT 8.314472
#define MOLAR_MASS_AIR 28.96546e-3 /* at 400 ppm CO2 */
#define MOLAR_MASS_VAPOUR 18.01528e-3

/* ISO 2533 */
#define SEA_LEVEL_PRESSURE 101325.0
#define SEA_LEVEL_TEMPERATURE 288.15 /* K */
#define LAPSE 0.0065                 /* K/m */
#define STANDARD_GRAVITY 9.80665

static double
vapour_fraction (double pressure, double temperature, double humidity)
{
  double kelvin = temperature + ZERO_CELSIUS;
  double saturation = exp (1.2378847e-5 * kelvin * kelvin - 1.9121316e-2 * kelvin + 33.93711047 - 6343.1645 / kelvin);
  double enhancement = 1.00062 + 3.14e-8 * pressure + 5.6e-7 * temperature * temperature;

  return humidity * enhancement * saturation / pressure;
}

static double
compressibility (double pressure, double temperature, double vapour)
{
  double ratio = pressure / (temperature + ZERO_CELSIUS);
  double first = 1.58123e-6 + temperature * (-2.9331e-8 + temperature * 1.1043e-10)
                 + (5.707e-6 - 2.051e-8 * temperature) * vapour
                 + (1.9898e-4 - 2.376e-6 * temperature) * vapour * vapour;

  return 1 - ratio * first + ratio * ratio * (1.83e-11 - 0.765e-8 * vapour * vapour);
}

double
air_density (double pressure, double temperature, double humidity)
{
  double vapour = humidity > 0 ? vapour_fraction (pressure, temperature, humidity) : 0;

  return pressure * MOLAR_MASS_AIR
         / (compressibility (pressure, temperature, vapour) * MOLAR_GAS_CONSTANT * (temperature + ZERO_CELSIUS))
         * (1 - vapour * (1 - MOLAR_MASS_VAPOUR / MOLAR_MASS_AIR));
}

double
air_standard_temperature (double altitude)
{
  return SEA_LEVEL_TEMPERATURE - LAPSE * altitude - ZERO_CELSIUS;
}

double
air_standard_pressure (double altitude)
{
  double ratio = 1 - LAPSE * altitude / SEA_LEVEL_TEMPERATURE;

  return SEA_LEVEL_PRESSURE * pow (ratio, STANDARD_GRAVITY / (LAPSE * AIR_GAS_CONSTANT));
}

double
air_viscosity (double temperature)
{
  double kelvin = temperature + ZERO_CELSIUS;

  return 1.458e-6 * kelvin * sqrt (kelvin) / (kelvin + 110.4);
}

double
air_isentropic_flow (double effective_area, double pressure, double temperature, double back_pressure)
{
  const double k = AIR_HEAT_RATIO;
  double choked = pow (2 / (k + 1), k / (k - 1));
  double ratio = fmax (back_pressure / pressure, choked);

  if (ratio >= 1)
    return 0;
  return effective_area * pressure / sqrt (AIR_GAS_CONSTANT * (temperature + ZERO_CELSIUS))
         * sqrt (2 * k / (k - 1) * (pow (ratio, 2 / k) - pow (ratio, (k + 1) / k)));
}
