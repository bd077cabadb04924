/* Air: density, viscosity, pressure at altitude, flow through an opening with choking. */
#ifndef METERING_AIR_H
#define METERING_AIR_H

#define AIR_GAS_CONSTANT 287.05287 /* J/(kg K), dry air, ISO 2533 */
#define AIR_HEAT_RATIO 1.4
#define ZERO_CELSIUS 273.15 /* K */

/* Density in kg/m3 of moist air: CIPM-2007 (Picard et al., Metrologia 45 (2008) 149), 400 ppm CO2. pressure absolute in
 * Pa, temperature in degC, humidity 0..1 relative. Outside 600-1100 hPa and 15-27 degC it is an extrapolation. */
double air_density (double pressure, double temperature, double humidity);

/* Absolute pressure in Pa at a geopotential altitude in m up to 11 km, and the temperature in degC that goes with it:
 * ISO 2533 standard atmosphere. */
double air_standard_pressure (double altitude);
double air_standard_temperature (double altitude);

/* Dynamic viscosity in Pa s at temperature in degC: Sutherland's formula as in ISO 2533. */
double air_viscosity (double temperature);

/* Isentropic mass flow in kg/s through an effective area (discharge coefficient x area, m2) from rest at pressure
 * (absolute) and temperature (degC) into back_pressure (absolute); constant once choked. */
double air_isentropic_flow (double effective_area, double pressure, double temperature, double back_pressure);

#endif
