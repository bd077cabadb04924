/* How far healthy units of one type differ by their build, and another such unit at random. */
#ifndef METERING_TOLERANCE_H
#define METERING_TOLERANCE_H

#include "car.h"
#include "parameter.h"

#include <stdbool.h>
#include <stdint.h>

#define TOLERANCES_MAX 96

enum tolerance_form {
  TOLERANCE_ABSOLUTE, /* value + sd x z, in the parameter's SI unit (differences of temperature in K) */
  TOLERANCE_RELATIVE, /* value x (1 + sd x z) */
  TOLERANCE_LOG       /* value x exp (sd x z): leaks, which differ by factors */
};

struct tolerance {
  const struct parameter *parameter;
  enum tolerance_form form;
  bool land;     /* of the funnel's cylindrical part only */
  double common; /* standard deviation that all values of the parameter share */
  double each;   /* and of every value by itself (cylinders, points) */
};

struct tolerances {
  int count;
  struct tolerance row[TOLERANCES_MAX];
  double idle_setting; /* relative standard deviation with which the workshop then sets lambda at idle by the mixture
                          screw; 0: it is left as built */
};

/* Another healthy unit of the nominal one's type: the same seed gives the same unit; a row more in the tolerances leaves
 * what the others draw. No deviation beyond three standard deviations: such a part would not have passed. Values stay
 * inside their parameter's limits, and the unit passes car_check where the nominal one does. */
void unit_draw (const struct car *nominal, const struct tolerances *tolerances, uint64_t seed, struct car *unit);

#endif
