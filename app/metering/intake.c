#include "intake.h"
#include "air.h"
#include "smooth.h"

#include <math.h>

#define PI 3.14159265358979323846
#define LINEAR_RATIO 0.998 /* pressure ratio above which the flow's slope would grow without limit */

double
intake_throttle_area (const struct intake *intake, double opening)
{
  return intake->throttle_area * (1 - cos (0.5 * PI * clamp_share (opening)));
}

double
intake_auxiliary_area (const struct intake *intake, double temperature)
{
  return intake->auxiliary_area * clamp_share ((intake->auxiliary_shut - temperature) / intake->auxiliary_span);
}

double
intake_auxiliary_power (const struct intake *intake, double voltage)
{
  double felt = voltage * intake->auxiliary_supply;

  return felt * felt / intake->auxiliary_resistance;
}

double
intake_flow (double area, double pressure, double temperature, double back_pressure)
{
  double linear = LINEAR_RATIO * pressure;

  if (back_pressure > pressure)
    return -intake_flow (area, back_pressure, temperature, pressure);
  if (back_pressure <= linear)
    return air_isentropic_flow (area, pressure, temperature, back_pressure);
  return air_isentropic_flow (area, pressure, temperature, linear) * (pressure - back_pressure) / (pressure - linear);
}
