#include "bimetal.h"

double
bimetal_curvature (double expansion_difference, double temperature_difference, double thickness, double thickness_ratio,
                   double modulus_ratio)
{
  double m = thickness_ratio, n = modulus_ratio;
  double square = (1 + m) * (1 + m);

  return 6 * expansion_difference * temperature_difference * square
         / (thickness * (3 * square + (1 + m * n) * (m * m + 1 / (m * n))));
}

double
bimetal_deflection (double curvature, double length)
{
  return 0.5 * curvature * length * length;
}

double
bimetal_blocked_force (double deflection, double length, double width, double thickness, double modulus)
{
  double second_moment = width * thickness * thickness * thickness / 12;

  return 3 * modulus * second_moment / (length * length * length) * deflection;
}
