/* A bimetal strip clamped at one end: thermostat-metal theory (Timoshenko, J. Opt. Soc. Am. 11 (1925) 233). */
#ifndef METERING_BIMETAL_H
#define METERING_BIMETAL_H

/* Curvature in 1/m that a change of temperature in K gives a straight strip. thickness: both layers together, m;
 * thickness_ratio m = t1/t2 and modulus_ratio n = E1/E2 of the layer that expands less to the other; expansion_difference
 * in 1/K. */
double bimetal_curvature (double expansion_difference, double temperature_difference, double thickness,
                          double thickness_ratio, double modulus_ratio);

/* Deflection in m of the free end of a strip of that length under that curvature (small angles). */
double bimetal_deflection (double curvature, double length);

/* Force in N with which the end, held where it was, pushes: 3 E I / L^3 times the deflection. */
double bimetal_blocked_force (double deflection, double length, double width, double thickness, double modulus);

#endif
