/* A reading is a procedure on the model: the conditions are arranged as the procedure asks, the state is solved, the
 * value is taken. One table for the check, the pages, exercises and diagnosis. */
#ifndef METERING_READING_H
#define METERING_READING_H

#include "car.h"
#include "conditions.h"
#include "quantity.h"
#include "state.h"

#include <stdbool.h>

enum reading_id {
  READING_DELIVERY,                /* fuel from the return line by time, engine still, pump bridged */
  READING_SYSTEM_PRESSURE,         /* gauge in the control line, tap shut to the warm-up regulator */
  READING_CONTROL_COLD,            /* control pressure, heater unplugged, regulator at the typed temperature */
  READING_CONTROL_WARM,            /* control pressure, heater on for the typed time */
  READING_CONTROL_WITHOUT_VACUUM,  /* the same with the regulator's vacuum taken away */
  READING_CYLINDERS_SMALL,         /* delivery by cylinder, plate held at a small lift */
  READING_CYLINDERS_MIDDLE,
  READING_CYLINDERS_FULL,
  READING_REST_HEIGHT,             /* of the plate, signed along its opening direction */
  READINGS
};

/* Hazards whose cautions a procedure must show (bits). */
enum hazard {
  HAZARD_FUEL_PRESSURE = 1, /* let the pressure down slowly, rag, gloves, eye protection */
  HAZARD_FIRE = 2,          /* no ignition source, extinguisher, closed vessels, never over a pit */
  HAZARD_EXHAUST = 4,       /* running engine: extraction */
  HAZARD_MOVING_HOT = 8,    /* hot and turning parts */
  HAZARD_SPRAY = 16,        /* nozzles out: ignition disabled, vessel earthed */
  HAZARD_PLATE_LIFT = 32    /* never lift the plate with the pump on and the nozzles fitted */
};

struct reading_kind {
  const char *key;           /* identity in documents: "system-pressure" */
  const char *name;          /* marked for translation */
  const char *procedure;     /* how it is taken, a few sentences, marked for translation */
  const char *out_means;     /* what a value out of its band points to, marked for translation */
  enum quantity quantity;
  bool each_cylinder;        /* one value for every cylinder, judged by deviation from their mean */
  double usual_uncertainty;  /* standard, SI; for each_cylinder a fraction of the mean */
  unsigned hazards;          /* bits of enum hazard */
  bool asks_temperature, asks_vacuum, asks_minutes, asks_voltage; /* conditions that the value depends on */
  void (*arrange) (const struct car *car, struct conditions *conditions);
  double (*take) (const struct car *car, const struct conditions *conditions, const struct state *state, int cylinder);
};

extern const struct reading_kind reading_kinds[READINGS];

const struct reading_kind *reading_find (const char *key); /* or NULL */

/* A hazard's caution, marked for translation; hazard is one bit. */
const char *hazard_caution (enum hazard hazard);

/* Conditions under which the car's band is given: usual ones at 12 V, 20 degC where cold, and arranged. */
void reading_reference (const struct reading_kind *kind, const struct car *car, struct conditions *conditions);

/* Expected value under the typed conditions (arranged inside); cylinder 0 where there is one value only. The outcome of
 * the solve; *value untouched unless solved. */
enum outcome reading_expected (const struct reading_kind *kind, const struct car *car, const struct conditions *conditions,
                               int cylinder, double *value);

/* A band of the car's data. */
enum band_form {
  BAND_NONE,   /* the data are silent */
  BAND_LIMITS, /* low..high at the reference conditions; moved by what the model says of the conditions at hand */
  BAND_ABOUT,  /* low below and high above the expected value */
  BAND_FIXED   /* low..high whatever the conditions */
};

struct band {
  enum band_form form;
  double low, high; /* SI */
  char source[160]; /* where it was read, UTF-8 */
};

/* The band's limits for these conditions. False (limits untouched) without a band or where the model has no value. */
bool band_limits (const struct band *band, const struct reading_kind *kind, const struct car *car,
                  const struct conditions *conditions, double *low, double *high);

#endif
