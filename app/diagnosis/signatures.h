/* What every reading would be on this car: healthy, with each single fault at six severities, with pairs of faults; and
 * how far healthy units differ by their build. All of it computed by the metering model, nothing written down. A reading
 * is computed when it is added, and once only for the same kind under the same conditions. Not for two threads at once
 * (pairs are computed when asked for); several of them side by side are independent. */
#ifndef DIAGNOSIS_SIGNATURES_H
#define DIAGNOSIS_SIGNATURES_H

#include "car.h"
#include "fault.h"
#include "observation.h"

#include <stdbool.h>

#define SEVERITIES 6
#define PROCEDURES_MAX 24
#define CAUSES_MAX 1024

/* A fault at its place: one cause for every cylinder where a fault sits at one. */
struct cause {
  const struct fault *fault;
  int cylinder; /* 0.., or -1 */
};

/* A severity class: from edge to edge, all equally likely a priori by width (weights sum to 1); reckoned at its middle. */
struct severity_class {
  double low, middle, high, weight;
};
extern const struct severity_class severity_classes[SEVERITIES];

/* Called between pieces of work with the share done, 0..1; false stops it. */
typedef bool (*keep_going) (void *data, double share);

/* Another healthy unit of the same type: changes *unit, a copy of the nominal car. The same number gives the same unit. */
typedef void (*draw_unit) (void *data, unsigned number, struct car *unit);

struct signature_source {
  const struct car *car;      /* copied */
  const struct fault *faults; /* kept: must outlive the signatures */
  int fault_count;
  draw_unit draw;             /* NULL: every unit is the nominal car */
  void *draw_data;            /* used in signatures_new only */
};

struct signatures;

/* NULL where memory is short, the car is unsound or there are more than CAUSES_MAX causes. Free with signatures_free. */
struct signatures *signatures_new (const struct signature_source *source);
void signatures_free (struct signatures *signatures);

enum signatures_added {
  SIGNATURES_ADDED = 0,
  SIGNATURES_FULL = -1,    /* PROCEDURES_MAX or CHANNELS_MAX reached */
  SIGNATURES_UNSOLVED = -2, /* the model has no value for the healthy car under these conditions */
  SIGNATURES_STOPPED = -3  /* by keep_going; nothing added */
};

/* The procedure of that reading (its values are not looked at): its number from 0, or one of the negative answers.
 * go may be NULL. */
int signatures_add (struct signatures *signatures, const struct observation *observation, keep_going go, void *data);

int signatures_causes (const struct signatures *signatures);
const struct cause *signatures_cause (const struct signatures *signatures, int cause);
const struct car *signatures_car (const struct signatures *signatures);

#endif
