/* Test bench of the diagnosis: a few faults, healthy units that differ, and readings taken on a car that is given. */
#ifndef TESTS_WORKSHOP_H
#define TESTS_WORKSHOP_H

#include "observation.h"
#include "signatures.h"

#include <stdint.h>

enum workshop_fault {
  PUMP_WORN,
  REGULATOR_LOW,
  REGULATOR_HIGH,
  WARM_UP_LOW,
  WARM_UP_HIGH,
  HEATER_OPEN,
  HEATER_SUPPLY,
  DIAPHRAGM_TORN,
  BIMETAL_WEAK,
  SLOT_GUMMED,
  SLOT_NARROW,
  NOZZLE_STRAINER,
  PLATE_HIGH,
  UNMETERED_AIR, /* moves none of the readings that exist */
  WORKSHOP_FAULTS
};

/* Filled on the first call. */
const struct fault *workshop_faults (void);

/* A draw_unit; data is a const uint64_t * seed, or NULL for 0. */
void workshop_unit (void *data, unsigned number, struct car *unit);

/* Signatures of that car with these faults and all readings under reference conditions added, in the order of
 * reading_kinds. NULL where something of it fails. */
struct signatures *workshop_signatures (const struct car *car);

/* The reading of that kind under reference conditions as it would be on this car, without any error. False where the
 * model has no state. nominal is the car by which the procedure is arranged. */
bool workshop_read (const struct car *nominal, const struct car *actual, enum reading_id id, struct observation *o);

#endif
