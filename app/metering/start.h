/* Starter, supply voltage, cold-start valve and thermo-time switch. */
#ifndef METERING_START_H
#define METERING_START_H

#include "car.h"

/* Torque in N m of the engaged starter at an engine speed in rad/s; its freewheel never brakes. */
double start_torque (const struct start_gear *start, double speed);

/* Voltage in V behind the ignition switch: of the battery, loaded by the starter, or charged by the turning engine. */
double start_voltage (const struct start_gear *start, int starter_engaged, double speed);

/* Flow in m3/s of the open cold-start valve at a system pressure. */
double start_valve_flow (const struct start_gear *start, double system_pressure);

#endif
