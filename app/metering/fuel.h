/* The fuel as a liquid and as something to burn. */
#ifndef METERING_FUEL_H
#define METERING_FUEL_H

#include "car.h"

/* Density in kg/m3 at a temperature in degC: volume correction of API MPMS chapter 11.1 (ASTM D1250 table 54B, gasolines
 * 653-770 kg/m3). */
double fuel_density_at (const struct fuel *fuel, double temperature);

/* The correction alone: volume at 15 degC by volume at temperature. */
double fuel_volume_correction (double density15, double temperature);

/* Relative rise of volume in 1/K of the liquid at a temperature in degC: that correction's derivative. */
double fuel_expansion (double density15, double temperature);

/* Kinematic viscosity in m2/s at a temperature in degC: exponential about 20 degC. */
double fuel_viscosity_at (const struct fuel *fuel, double temperature);

/* True vapour pressure in Pa, absolute, at a temperature in degC of a fuel of that Reid vapour pressure in Pa: EPA AP-42,
 * chapter 7.1, motor gasolines with a distillation slope of 3 (constants from memory). */
double fuel_vapour_pressure (double reid_pressure, double temperature);

/* Mass of air by mass of fuel for complete combustion of CHyOz in air of 20.95 % oxygen (Heywood 1988, eq. 3.6 extended
 * by the fuel's own oxygen). */
double fuel_stoichiometric (double hydrogen_carbon, double oxygen_carbon);

#endif
