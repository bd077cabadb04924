/* What is set from outside for one steady state: by the driver, the weather and the person with the gauge. */
#ifndef METERING_CONDITIONS_H
#define METERING_CONDITIONS_H

#include "quantity.h"

#include <stdbool.h>
#include <stddef.h>

/* What is held fixed instead of computed (bits of conditions.held). */
enum held {
  HOLD_PLATE = 1,            /* plate locked at held_lift: the air flow becomes a result, air_flow is not used */
  HOLD_CONTROL_PRESSURE = 2, /* at held_control_pressure: an ideal regulator of any flow */
  HOLD_SYSTEM_PRESSURE = 4,  /* at held_system_pressure: an ideal supply */
  HOLD_BIMETAL = 8           /* bimetal at held_bimetal_temperature, whatever the time */
};

struct conditions {
  double air_flow;            /* kg/s metered by the plate */
  double block_temperature;   /* degC; the slider "coolant": block on which the warm-up regulator sits */
  double heater_time;         /* s since start with the heater on, block held; 0 = bimetal at block temperature */
  double vacuum;              /* Pa that the manifold lies under ambient */
  double altitude;            /* m, geopotential, standard atmosphere's pressure */
  double ambient_temperature; /* degC of the air before the plate; independent of the altitude */
  double humidity;            /* 0..1 relative */
  double fuel_temperature;    /* degC */
  double voltage;             /* V at the pump and the heater */

  bool heater_unplugged;
  bool tap_shut;              /* gauge tap between distributor and warm-up regulator: no control flow */
  double approach;            /* from where the plate came, for friction: -1 opening, +1 closing, 0 friction ignored */

  unsigned held;              /* bits of enum held */
  double held_lift;
  double held_control_pressure;
  double held_system_pressure;
  double held_bimetal_temperature;
};

struct condition {
  const char *key;            /* also the long option of the command line */
  size_t offset;              /* of the double in struct conditions */
  enum quantity quantity;
  double least, most, usual;
  const char *name;           /* marked for translation */
};

extern const struct condition condition_table[];
extern const int condition_count;

const struct condition *condition_find (const char *key);
double *condition_in (struct conditions *conditions, const struct condition *condition);

/* Every field at its usual value: 18 kg/h, 80 degC, 500 mbar, sea level, 20 degC, dry air, 13 V, nothing held. */
void conditions_usual (struct conditions *conditions);

/* The one border check: false, and the row whose value is out of its limits or not a number (held values against their
 * own sense; then *condition is NULL). condition may be NULL. */
bool conditions_check (const struct conditions *conditions, const struct condition **condition);

#endif
