#include "start.h"
#include "smooth.h"

#include <math.h>

#define CHARGE_FROM 40.0 /* rad/s: the alternator begins to charge */
#define CHARGE_FULL 75.0 /* and holds its regulated voltage */
#define ROOT_BAND 100.0  /* Pa */

double
start_torque (const struct start_gear *start, double speed)
{
  return start->starter_torque * fmax (0, 1 - speed / start->starter_speed);
}

double
start_voltage (const struct start_gear *start, int starter_engaged, double speed)
{
  double charged = clamp_share ((speed - CHARGE_FROM) / (CHARGE_FULL - CHARGE_FROM));

  if (starter_engaged)
    return start->cranking_voltage;
  return start->battery_voltage + (start->charging_voltage - start->battery_voltage) * charged;
}

double
start_valve_flow (const struct start_gear *start, double system_pressure)
{
  return start->valve_flow * fmax (0, smooth_root (system_pressure, ROOT_BAND)) / sqrt (start->valve_pressure);
}
