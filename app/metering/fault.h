/* A fault is a change of a car's parameters with a severity, kept as data: no part of the model knows of faults.
 *   value = healthy x product of all scales + sum of all adds, clamped to the parameter's limits
 * so any number of faults may stand together, in any order, to the last bit. Severity 0 is the healthy car, 1 the worst
 * that the fault is drawn for. A leak is a parameter whose healthy value is 0 (or nearly), so it is added. */
#ifndef METERING_FAULT_H
#define METERING_FAULT_H

#include "car.h"
#include "parameter.h"

#include <stdbool.h>

#define FAULT_EFFECTS_MAX 8
#define FAULTS_AT_ONCE_MAX 16

enum fault_form {
  FAULT_SCALE, /* the healthy value is multiplied; nothing happens where the car has none (0) */
  FAULT_ADD    /* something is added, in the parameter's SI unit */
};

/* How the effect grows with the severity s towards its worst w. */
enum fault_course {
  FAULT_LINEAR,     /* scale 1 + s (w - 1); add s w */
  FAULT_GEOMETRIC,  /* scale w^s: for a resistance that grows by orders of magnitude; w > 0 */
  FAULT_RECIPROCAL, /* scale 1 / (1 - s (1 - 1/w)): the conductance falls evenly; w > 0 */
  FAULT_SQUARE      /* add s^2 w: for leaks and gaps that matter over decades */
};

/* Where the fault sits. */
enum fault_system {
  FAULT_IN_SUPPLY,
  FAULT_IN_CONTROL,
  FAULT_IN_METERING,
  FAULT_IN_AIR,
  FAULT_IN_NOZZLES,
  FAULT_IN_STARTING,
  FAULT_IN_FUEL,
  FAULT_OUTSIDE, /* not the injection at all */
  FAULT_SYSTEMS
};

struct fault_effect {
  const struct parameter *parameter;
  enum fault_form form;
  enum fault_course course;
  double worst; /* factor, or what is added in SI, at severity 1 */
};

struct fault {
  char key[48];      /* "pump-worn" */
  char name[96];     /* to translate */
  char what[384];    /* what is wrong with the part and what it does, to translate */
  char repair[192];  /* what mends it, to translate */
  enum fault_system system;
  bool one_cylinder; /* parameters kept by cylinder change at one of them; else at all */
  double odds;       /* how often against the other faults; a judgement, no count */
  int effects;
  struct fault_effect effect[FAULT_EFFECTS_MAX];
};

/* A fault as it stands in one car. */
struct fault_dose {
  const struct fault *fault;
  double severity; /* 0..1 */
  int cylinder;    /* 0..; where the fault has one_cylinder, else not used */
};

/* Name of a system, marked for translation. */
const char *fault_system_name (enum fault_system system);

/* Factor (FAULT_SCALE) or addend (FAULT_ADD) of an effect at a severity in 0..1. */
double fault_effect_at (const struct fault_effect *effect, double severity);

/* The healthy car with these faults, at most FAULTS_AT_ONCE_MAX; the same fault may stand more than once (in two
 * cylinders). False, and *faulty = *healthy, for a severity out of 0..1, a cylinder that the car does not have, too many
 * faults, or where the faults together make a car that car_check refuses; complaint (may be NULL) says the last. */
bool faults_apply (const struct car *healthy, const struct fault_dose *doses, int count, struct car *faulty,
                   struct car_complaint *complaint);

/* One fault in place. False, and the car unchanged, as faults_apply. Not for several in a row: on an already faulty car
 * the scales would take hold of what others have added. */
bool fault_apply (struct car *car, const struct fault *fault, double severity, int cylinder);

#endif
