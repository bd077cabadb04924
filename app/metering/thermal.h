/* Lumped heat balances of engine, inlet walls and fuel. Temperatures in degC, rates in K/s. */
#ifndef METERING_THERMAL_H
#define METERING_THERMAL_H

#include "car.h"

#include <stdbool.h>

/* Rate of one body of a heat capacity (J/K) that takes a power (W) and gives heat to surroundings. */
double thermal_rate (double capacity, double power, double conductance, double temperature, double surroundings);

/* Rate of the engine and its coolant with a burnt power in W. */
double thermal_engine_rate (const struct thermal *thermal, bool turning, double burnt_power, double coolant, double air);

/* Temperature that the inlet walls tend to at a speed in rad/s, and the time in s in which they do. */
double thermal_wall_end (const struct thermal *thermal, double speed, double coolant);
double thermal_wall_time (const struct thermal *thermal, bool turning);

/* Rate of the fuel in the hot part; flow: heat capacity flow in W/K of fuel from a tank at its temperature. */
double thermal_fuel_rate (const struct thermal *thermal, double fuel, double coolant, double air, double flow, double tank);

#endif
