#include "thermal.h"
#include "smooth.h"

#include <math.h>

#define WALL_SPEED 40.0 /* rad/s: from here on the walls take their full rise */

double
thermal_rate (double capacity, double power, double conductance, double temperature, double surroundings)
{
  return (power - conductance * (temperature - surroundings)) / capacity;
}

double
thermal_engine_rate (const struct thermal *t, bool turning, double burnt_power, double coolant, double air)
{
  double loss = turning ? t->engine_loss : t->engine_still_loss;

  if (turning)
    loss += t->radiator * clamp_share ((coolant - t->thermostat_opening) / t->thermostat_span);
  return thermal_rate (t->engine_capacity, t->engine_share * burnt_power, loss, coolant, air);
}

double
thermal_wall_end (const struct thermal *t, double speed, double coolant)
{
  return coolant + t->wall_rise * clamp_share (speed / WALL_SPEED);
}

double
thermal_wall_time (const struct thermal *t, bool turning)
{
  return turning ? t->wall_time : t->wall_still_time;
}

double
thermal_fuel_rate (const struct thermal *t, double fuel, double coolant, double air, double flow, double tank)
{
  return (t->fuel_engine * (coolant - fuel) + t->fuel_air * (air - fuel) + flow * (tank - fuel)) / t->fuel_capacity;
}
