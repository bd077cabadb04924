/* Pump, filter, system pressure regulator and return line. */
#ifndef METERING_SUPPLY_H
#define METERING_SUPPLY_H

#include "car.h"

/* Delivery by system pressure as the least of three straight lines: below the pump's relief, above it, and what can be
 * drawn through the strainer before the fuel boils at the inlet. */
struct supply_line {
  double at_zero[3]; /* m3/s; INFINITY where nothing throttles the inlet */
  double slope[3];   /* m3/(s Pa), positive falling */
};

/* The pump at a voltage behind its filter. */
struct supply_line supply_pump_line (const struct fuel_supply *supply, double voltage);

/* Delivery in m3/s at a system pressure, never negative (the check valve); *slope its fall by pressure; *relief_open (may
 * be NULL) whether the pump's own relief is open. */
double supply_pump_flow (const struct supply_line *line, double system_pressure, double *slope, int *relief_open);

/* Pressure in Pa, gauge, at the pump's inlet. */
double supply_suction (const struct fuel_supply *supply, double pump_flow);

/* Current in A of the pump at the pressure behind it; 0 at no voltage. */
double supply_pump_current (const struct fuel_supply *supply, double voltage, double pump_pressure);

/* Flow in m3/s through the system pressure regulator. */
double supply_relief_flow (const struct fuel_supply *supply, double system_pressure, double return_pressure);

#endif
