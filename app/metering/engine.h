/* The engine as a cycle's mean: air, torque, friction, what mixture burns, fuel on the inlet walls. Coefficients without a
 * source named are assumptions of this program, chosen so that the whole lands where engines of this kind do. */
#ifndef METERING_ENGINE_H
#define METERING_ENGINE_H

#include "car.h"

/* Air in kg/s that the cylinders take at a manifold pressure (absolute), temperature (degC) and speed (rad/s). */
double engine_air_flow (const struct engine_air *engine, double manifold_pressure, double temperature, double speed);

/* Share of charges of that lambda that ignite: falls over a few hundredths at the rich and the lean misfire limit. */
double engine_ignites (double lambda);

/* Indicated efficiency at that lambda against the best one, misfires counted. The fall to both sides of lambda 0.9 after
 * the published shape of torque against mixture. 0..1 */
double engine_efficiency (double lambda);

/* Share of the fuel at the ports that has evaporated by ignition, at an inlet wall temperature in degC. The mixture that
 * must be metered for a burnt lambda of 1 is this share. */
double engine_evaporated (double wall_temperature);

/* Oil viscosity in m2/s: Walther's equation (ASTM D341) through the car's two points. */
double engine_oil_viscosity (const struct engine_air *engine, double temperature);

/* Friction mean effective pressure in Pa at a speed (rad/s) and oil temperature (degC); the speed's polynomial after
 * Heywood 1988 eq. 13.6 (from memory), times a power of the viscosity. */
double engine_friction (const struct engine_air *engine, double speed, double oil_temperature);

/* Torque in N m that brakes: pumping against the manifold's depression (Pa), friction, accessories. 0 at rest. */
double engine_drag (const struct engine_air *engine, double speed, double depression, double oil_temperature);

/* Fuel film after the x-tau model, coefficients of a warm engine after Hendricks and Sorenson, SAE 900616 (from memory);
 * the slower evaporation from cold walls is an assumption. Share of the metered fuel that goes to the film, and the time
 * in s in which the film leaves. */
double engine_film_share (double manifold_pressure, double speed);
double engine_film_time (double manifold_pressure, double speed, double wall_temperature);

#endif
