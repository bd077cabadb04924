/* The fuel distributor: one slot, one pressure-difference valve and one nozzle line for every cylinder. */
#ifndef METERING_DISTRIBUTOR_H
#define METERING_DISTRIBUTOR_H

#include "car.h"
#include "state.h"

#include <stdbool.h>

/* The fuel as the slots meet it. */
struct distributor_fuel {
  double density;   /* kg/m3 */
  double viscosity; /* m2/s, kinematic */
};

/* Open height in m of a cylinder's slot at a plunger lift: 0..slot_height. */
double distributor_slot_opening (const struct fuel_distributor *distributor, int cylinder, double plunger_lift);

/* Volume flow in m3/s of one slot at an open height and a pressure drop. The discharge coefficient falls with the flow
 * number l = D_h sqrt(2 drop / rho) / nu as C = C_turbulent tanh(2 l / l_transition), a published smooth law for small
 * orifices. *discharge and *by_drop may be NULL. */
double distributor_slot_flow (const struct fuel_distributor *distributor, const struct distributor_fuel *fuel,
                              int cylinder, double opening, double drop, double *discharge, double *by_drop);

/* Volume flow that the valve's seat passes at an opening into a line at its own pressure: seat and nozzle in series; 0
 * below the nozzle's opening pressure. */
double distributor_outlet_flow (const struct fuel_distributor *distributor, const struct distributor_fuel *fuel,
                                int cylinder, double valve_opening, double upper_pressure);

/* Solves one cylinder at a slot opening and a system pressure: slot flow = valve flow, diaphragm in balance or on its
 * stop. cylinder_state's valve_opening is taken as the first guess where it is positive. *by_pressure and *by_opening
 * (may be NULL) get the derivatives of the flow. */
void distributor_cylinder (const struct fuel_distributor *distributor, const struct distributor_fuel *fuel, int cylinder,
                           double slot_opening, double system_pressure, struct cylinder_state *state,
                           double *by_pressure, double *by_opening);

/* For solving all cylinders together with the rest (solve-newton.c): one Newton step of one cylinder instead of its own
 * search. */
struct distributor_step {
  double valve_opening;      /* after the step */
  double flow;               /* m3/s there, to first order */
  double by_pressure, by_opening;             /* derivatives of the flow by system pressure and slot opening */
  double valve_by_pressure, valve_by_opening; /* and of the valve's opening */
};

/* Flow by opening and root of pressure of every valve's seat, m3/(s m Pa^1/2). */
double distributor_seat (const struct fuel_distributor *distributor, const struct distributor_fuel *fuel);

/* One step from valve_opening (0: a first guess). False where the cylinder is out of the ordinary (nothing flows, the
 * diaphragm on its stop): then only distributor_cylinder knows. */
bool distributor_step (const struct fuel_distributor *distributor, const struct distributor_fuel *fuel, int cylinder,
                       double seat, double slot_opening, double system_pressure, double valve_opening,
                       struct distributor_step *step);

/* Fills the state of a cylinder whose valve opening is known. */
void distributor_finish (const struct fuel_distributor *distributor, const struct distributor_fuel *fuel, int cylinder,
                         double slot_opening, double system_pressure, double valve_opening,
                         struct cylinder_state *state);

/* Relative defect of a solved cylinder's flow: what the pressure over the seat lacks against what the flow needs there. */
double distributor_cylinder_defect (const struct fuel_distributor *distributor, const struct distributor_fuel *fuel,
                                    int cylinder, const struct cylinder_state *state);

#endif
