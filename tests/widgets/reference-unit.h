/* A metering unit of our own invention for the drawing's tests: numbers that hang together, not a check of anything. */
#ifndef TESTS_WIDGETS_REFERENCE_UNIT_H
#define TESTS_WIDGETS_REFERENCE_UNIT_H

#include "car.h"
#include "conditions.h"
#include "state.h"

void reference_unit (struct car *car, int cylinders, enum plate_direction direction);

/* Solves for an air flow in kg/h, a coolant temperature in degC and a vacuum in mbar; aborts where that fails. */
void reference_state (const struct car *car, double air, double coolant, double vacuum, struct conditions *conditions,
                      struct state *state);

#endif
