/* The control circuit: orifice, warm-up regulator with bimetal, heater and load diaphragm. */
#ifndef METERING_CONTROL_H
#define METERING_CONTROL_H

#include "car.h"

#include <stdbool.h>

/* Temperature in degC of the bimetal a time in s after the heater was switched on, everything at the block's temperature
 * before and the block held there. Two heat capacities, bimetal and housing, between heater, block and air. */
double control_bimetal_temperature (const struct control_circuit *control, double block_temperature,
                                    double air_temperature, double voltage, double time);

/* Power in W of the regulator's heater at a voltage at its plug and the bimetal's temperature in degC. */
double control_heater_power (const struct control_circuit *control, double voltage, double temperature);

/* Free deflection in m of the bimetal's end at that temperature (0 above its release), and the force in N with which it
 * takes load off the regulator's spring. */
double control_bimetal_deflection (const struct control_circuit *control, double temperature);
double control_bimetal_force (const struct control_circuit *control, double temperature);

/* Height in m of the load diaphragm above its lower stop under a vacuum in Pa at the hose, and the spring force in N
 * that is missing against its upper stop. */
double control_load_position (const struct control_circuit *control, double vacuum);
double control_load_force (const struct control_circuit *control, double load_position);

/* Pressure in Pa that the regulator holds at no flow: the moments' balance on its diaphragm. A pressure in the return
 * acts on the dry side together with the control pressure and lowers it; it never lies under the return's. */
double control_base_pressure (const struct control_circuit *control, double bimetal_force, double load_force,
                              double return_pressure);

/* Flow by root of pressure of the control orifice, m3/(s Pa^1/2). */
double control_orifice (const struct control_circuit *control, double fuel_density);

/* Control pressure and flow at a system pressure: orifice flow = (p_c - base) / flow_rate, a quadratic in
 * sqrt(p_s - p_c). shut: no flow (tap shut). *by_system: derivative of the control pressure. */
double control_pressure_at (double system_pressure, double base_pressure, double orifice, double flow_rate, bool shut,
                            double *flow, double *by_system);

#endif
