/* Pump, filter, system pressure regulator and return line. */
#ifndef METERING_SUPPLY_H
#define METERING_SUPPLY_H

#include "car.h"

/* Delivery by system pressure as the least of two straight lines: below the pump's relief and above it. */
struct supply_line {
  double at_zero[2]; /* m3/s */
  double slope[2];   /* m3/(s Pa), positive falling */
};

/* The pump at a voltage behind its filter. */
struct supply_line supply_pump_line (const struct fuel_supply *supply, double voltage);

/* Delivery in m3/s at a system pressure, never negative (the check valve); *slope its fall by pressure; *relief_open (may
 * be NULL) whether the pump's own relief is open. */
double supply_pump_flow (const struct supply_line *line, double system_pressure, double *slope, int *relief_open);

/* Current in A of the pump at the pressure behind it; 0 at no voltage. */
double supply_pump_current (const struct fuel_supply *supply, double voltage, double pump_pressure);

/* Flow in m3/s through the system pressure regulator. */
double supply_relief_flow (const struct fuel_supply *supply, double system_pressure, double return_pressure);

#endif
