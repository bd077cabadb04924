/* The exhaust as a four-gas analyser shows it, and what is computed back from it. */
#ifndef METERING_EXHAUST_H
#define METERING_EXHAUST_H

#include "car.h"

#define EXHAUST_WATER_GAS 3.5 /* water-gas constant that four-gas lambda formulas and Heywood 1988 use */

/* Moles by mole of carbon in the fuel. */
struct exhaust_moles {
  double co2, co, o2, h2, h2o, n2;
  double hexane; /* unburnt fuel as n-hexane of as many carbon atoms */
};

/* Dry gas as shown: CO2, CO, O2 in vol %, HC in ppm n-hexane. */
struct exhaust_gases {
  double co2, co, o2, hc;
};

/* Burnt CHyOz at a lambda (taken inside 0.5..4) with the water-gas balance (Heywood 1988, section 4.9). */
void exhaust_composition (double hydrogen_carbon, double oxygen_carbon, double water_gas, double lambda,
                          struct exhaust_moles *moles);

/* One cylinder's exhaust: burnt at lambda with its inner spread, misfiring charges unburnt. ignites 0..1 */
void exhaust_of_cylinder (const struct fuel *fuel, double spread, double lambda, double ignites,
                          struct exhaust_moles *moles);

/* What the analyser shows of gases of which a share is air drawn in at the probe. moles: of the mixed exhaust. */
void exhaust_shown (const struct exhaust_moles *moles, double leak_share, struct exhaust_gases *gases);

/* Adds weight times from to to. */
void exhaust_add (struct exhaust_moles *to, const struct exhaust_moles *from, double weight);

/* Lambda from four gases: Brettschneider's formula as in OIML R 99-1&2:2008. 0 where nothing was burnt. */
double exhaust_lambda (const struct exhaust_gases *gases, double hydrogen_carbon, double oxygen_carbon);

/* Air/fuel ratio from the same gases and the fuel's composition: Spindt, SAE 650507. 0 where nothing was burnt. */
double exhaust_spindt (const struct exhaust_gases *gases, double hydrogen_carbon);

#endif
