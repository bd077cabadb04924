/* The air sensor: a variable-area meter whose pressure drop the lever's balance sets. */
#ifndef METERING_SENSOR_H
#define METERING_SENSOR_H

#include "car.h"

/* The air before the plate. */
struct sensor_air {
  double density;   /* kg/m3 */
  double viscosity; /* Pa s, dynamic */
};

/* Flow area in m2 round the plate at a lift in m: the least frustum between the plate's edge and the whole profile.
 * *slope (may be NULL) gets its derivative by lift in m. */
double sensor_area (const struct air_sensor *sensor, double lift, double *slope);

/* Length in m of the cylindrical land from the profile's start; 0 where the profile opens at once. */
double sensor_land (const struct air_sensor *sensor);

/* Mass flow in kg/s at a lift and a pressure drop in Pa: the gap's contraction in series with the laminar gap of as much
 * of the land as the plate still overlaps (plane Poiseuille flow). Rises with lift and drop. Derivatives may be NULL. */
double sensor_flow (const struct air_sensor *sensor, const struct sensor_air *air, double lift, double drop,
                    double *by_lift, double *by_drop);

/* Pressure drop in Pa that drives a mass flow past the plate at a lift. */
double sensor_drop (const struct air_sensor *sensor, const struct sensor_air *air, double lift, double flow);

/* Lift at which that flow makes that drop, between rest and buffer (clamped there); guess from a neighbouring state, or
 * negative for none. */
double sensor_lift (const struct air_sensor *sensor, const struct sensor_air *air, double flow, double drop,
                    double guess);

/* The same within some per cent, to begin a search with; no stop is looked for. */
double sensor_lift_roughly (const struct air_sensor *sensor, const struct sensor_air *air, double flow, double drop);

/* Pressure drop in Pa that balances a force in N on the plunger, friction by approach (conditions.h). May be negative:
 * then nothing closes the plate. */
double sensor_balance_drop (const struct air_sensor *sensor, double plunger_force, double approach);

/* Plunger lift in m at a plate lift, the mixture screw's offset added; never below 0. */
double sensor_plunger_lift (const struct air_sensor *sensor, double plate_lift, double mixture_offset);

#endif
