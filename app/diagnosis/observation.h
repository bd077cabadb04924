/* A reading as the engine takes it. Plain values; SI. */
#ifndef DIAGNOSIS_OBSERVATION_H
#define DIAGNOSIS_OBSERVATION_H

#include "fault.h"
#include "reading.h"

#include <stdbool.h>

enum observation_form {
  OBSERVATION_VALUE,
  OBSERVATION_AT_LEAST, /* known only as a limit: "over 3 bar"; for kinds with one value */
  OBSERVATION_AT_MOST
};

#define INSTRUMENTS_MAX 4

struct observation {
  const struct reading_kind *kind;
  struct conditions conditions;  /* as typed; the kind arranges them */
  enum observation_form form;
  unsigned cylinders;            /* each-cylinder kinds: bits of the cylinders read, at least two; else 0 */
  double value[CYLINDERS_MAX];   /* value[0], or by cylinder: flows, only their ratios count */
  double uncertainty;            /* standard, of one value alone; > 0; for each-cylinder kinds a fraction of the mean */
  double bias;                   /* standard uncertainty that all readings of the same instrument have in common */
  int instrument;                /* 1..INSTRUMENTS_MAX, or 0: shared with no other reading */
};

/* A yes or no that no model value stands behind: a check by eye or ear, a driver's complaint. P(yes) is sensitivity
 * with one of these faults present, 1 - specificity without any; two of them are independent causes of a yes. Every
 * probability is kept in the options' sign_least to 1 - sign_least. specificity > 0. */
struct sign {
  bool yes;
  double sensitivity, specificity;
  const struct fault *const *faults;
  int fault_count;
};

/* The kind's usual uncertainty shared out: half of the variance of a pressure belongs to the gauge (instrument 1), the
 * rest to the single reading. Values are zeroes; all cylinders of the car read. */
void observation_usual (const struct reading_kind *kind, const struct car *car, const struct conditions *conditions,
                        struct observation *observation);

/* False where the engine cannot take it: value or uncertainty not finite, uncertainty not positive, fewer than two
 * cylinders or none with fuel, a cylinder that the car does not have, a limit by cylinder, instrument out of range. */
bool observation_sound (const struct observation *observation, const struct car *car);

#endif
