/* The shut-in fuel: how much liquid makes which pressure. Accumulator, compliance of the lines, thermal expansion, and the
 * fuel's own vapour where the liquid no longer fills the space. */
#ifndef METERING_STORE_H
#define METERING_STORE_H

#include "car.h"

/* Volume in m3 beyond the store's volume that the lines and the accumulator hold at a pressure in Pa, and back. Three
 * slopes: below, inside and above the accumulator's working range; below 0 as if drawn out of the lines. */
double store_filling (const struct fuel_store *store, double pressure);
double store_filled_pressure (const struct fuel_store *store, double filling);

/* Filling that an excess of liquid (m3 at 15 degC beyond the store's volume) makes with the cold part at one temperature
 * in degC and the hot part at another; and the excess for a filling. */
double store_expanded (const struct fuel_store *store, double density15, double excess, double cold, double hot);
double store_excess (const struct fuel_store *store, double density15, double filling, double cold, double hot);

/* Inflow in m3/s through the compensating valve from the tank at a pressure in the store. */
double store_vent (const struct fuel_store *store, double pressure);

#endif
