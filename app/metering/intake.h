/* Between plate and inlet ports: throttle, idle bypass, auxiliary air valve. Areas are discharge coefficient x area, m2. */
#ifndef METERING_INTAKE_H
#define METERING_INTAKE_H

#include "car.h"

/* Area of the throttle, opened by a share 0..1 of its quarter turn: the projected gap of a round disc, 1 - cos. */
double intake_throttle_area (const struct intake *intake, double opening);

/* Area of the auxiliary air valve at its own temperature in degC. */
double intake_auxiliary_area (const struct intake *intake, double temperature);

/* Power in W of the auxiliary air valve's heater. */
double intake_auxiliary_power (const struct intake *intake, double voltage);

/* Mass flow in kg/s from an absolute pressure and a temperature in degC to a back pressure: isentropic with choking,
 * linear for the last 2 per mille before equal pressures, and backwards beyond them. */
double intake_flow (double area, double pressure, double temperature, double back_pressure);

#endif
