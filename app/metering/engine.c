#include "engine.h"
#include "air.h"
#include "smooth.h"

#include <math.h>

#define PI 3.14159265358979323846
#define BAR 1e5
#define BEST_LAMBDA 0.9
#define LEAN_LIMIT 1.38       /* half of the charges fail */
#define LEAN_WIDTH 0.035
#define RICH_LIMIT 0.45
#define RICH_WIDTH 0.03
#define WARM_WALL 80.0        /* degC: above it all fuel evaporates */
#define FRICTION_POWER 0.24   /* of viscosity */
#define FRICTION_START 1.0    /* rad/s: below it friction fades, so that it only brakes */
#define FILM_TIME_LEAST 0.05  /* s */

double
engine_air_flow (const struct engine_air *engine, double manifold_pressure, double temperature, double speed)
{
  return engine->volumetric_efficiency * manifold_pressure * engine->displacement * speed
         / (4 * PI * AIR_GAS_CONSTANT * (temperature + ZERO_CELSIUS));
}

double
engine_ignites (double lambda)
{
  return 1 / ((1 + exp ((lambda - LEAN_LIMIT) / LEAN_WIDTH)) * (1 + exp ((RICH_LIMIT - lambda) / RICH_WIDTH)));
}

double
engine_efficiency (double lambda)
{
  double off = lambda - BEST_LAMBDA;
  double shape = 1 - (off > 0 ? 2.2 : 1.2) * off * off;

  return shape > 0 ? shape * engine_ignites (lambda) : 0;
}

double
engine_evaporated (double wall_temperature)
{
  double cold = fmax (0, WARM_WALL - wall_temperature) / 100;

  return fmax (1 - 0.62 * cold * cold, 0.05);
}

static double
twice_logarithm (double viscosity)
{
  return log10 (log10 (viscosity * 1e6 + 0.7)); /* in mm2/s, as the equation has it */
}

double
engine_oil_viscosity (const struct engine_air *engine, double temperature)
{
  double cold = twice_logarithm (engine->oil_cold), hot = twice_logarithm (engine->oil_hot);
  double from = log10 (20 + ZERO_CELSIUS), to = log10 (90 + ZERO_CELSIUS);
  double at = cold + (hot - cold) * (log10 (temperature + ZERO_CELSIUS) - from) / (to - from);

  return (pow (10, pow (10, at)) - 0.7) * 1e-6;
}

double
engine_friction (const struct engine_air *engine, double speed, double oil_temperature)
{
  double thousands = speed * 30 / PI / 1000;
  double warm = (0.97 + 0.15 * thousands + 0.05 * thousands * thousands) * BAR;

  return engine->friction_factor * warm
         * pow (engine_oil_viscosity (engine, oil_temperature) / engine->oil_hot, FRICTION_POWER);
}

double
engine_drag (const struct engine_air *engine, double speed, double depression, double oil_temperature)
{
  double pressure = depression + engine_friction (engine, speed, oil_temperature);

  return (pressure * engine->displacement / (4 * PI) + engine->accessory_torque) * tanh (speed / FRICTION_START);
}

double
engine_film_share (double manifold_pressure, double speed)
{
  return clamp_share (-0.277 * manifold_pressure / BAR - 0.055 * speed * 30 / PI / 1000 + 0.68);
}

double
engine_film_time (double manifold_pressure, double speed, double wall_temperature)
{
  double thousands = speed * 30 / PI / 1000, off = manifold_pressure / BAR - 0.825;
  double warm = 1.35 * (-0.672 * thousands + 1.68) * off * off + (-0.06 * thousands + 0.15) + 0.56;

  return fmax (warm, FILM_TIME_LEAST) * exp (fmax (0, WARM_WALL - wall_temperature) / WARM_WALL);
}
