/* Inside the diagnosis room: channels are the single values of all procedures, one after the other. The value of an
 * each-cylinder procedure is a cylinder's deviation from the mean of the cylinders read. */
#ifndef DIAGNOSIS_SIGNATURES_PRIVATE_H
#define DIAGNOSIS_SIGNATURES_PRIVATE_H

#include "low-rank.h"
#include "signatures.h"

#include <stdint.h>

#define TOLERANCE_COLUMNS 14
#define UNITS 240 /* drawn healthy units: the standard deviation of a spread is known to 5 % */

struct procedure {
  const struct reading_kind *kind;
  struct conditions conditions; /* as given, to know it again */
  struct conditions arranged;
  unsigned cylinders;
  int first, channels;
};

struct pair_entry {
  uint64_t key;  /* 0 = free */
  unsigned done; /* bits of procedures */
  bool valid;
  double value[CHANNELS_MAX];
};

struct signatures {
  struct car car;
  struct cause *cause;
  int causes;
  struct procedure procedure[PROCEDURES_MAX];
  int procedures, channels;
  double healthy[CHANNELS_MAX];
  double usual[CHANNELS_MAX];  /* usual uncertainty: the scale on which a difference counts */
  double rms[CHANNELS_MAX];    /* of the fault effects, over the causes that move the channel */
  double *single;              /* by cause, severity, channel (CHANNELS_MAX apart) */
  unsigned *failed;            /* by cause, severity: bits of the procedures for which the model has no state */
  unsigned *moved;             /* by cause: bits of the procedures that it moves */
  struct car *unit;            /* UNITS, or NULL */
  double *spread;              /* by unit, channel: deviations of healthy units from the nominal one */
  int columns;
  double row[CHANNELS_MAX][TOLERANCE_COLUMNS]; /* leading components of the spread */
  double rest[CHANNELS_MAX];                   /* variance that they leave */
  struct pair_entry *pair;
  int pairs;
};

/* No fault, one or two at severities of the grid, or none of those listed: it moves one procedure alone, or all. */
struct hypothesis {
  int count;
  int cause[2], severity[2];
  bool none;
  int procedure; /* where none: the one that it moves, or EVERY_PROCEDURE */
};
#define EVERY_PROCEDURE PROCEDURES_MAX

struct prediction {
  double mean[CHANNELS_MAX];
  double wide[CHANNELS_MAX];  /* variance added: none of these may put a reading anywhere that a fault would */
  double error[CHANNELS_MAX]; /* sum of the squared effects of the single faults: the model is not the car */
  int columns;
  double severity[2][CHANNELS_MAX]; /* standard deviation by the place within the severity's class */
};

/* The number of an observation's procedure, or -1 where it has not been added. */
int signatures_find (const struct signatures *signatures, const struct observation *observation);

const double *signatures_single (const struct signatures *signatures, int cause, int severity);

/* False where the model has no state for it. */
bool signatures_predict (struct signatures *signatures, const struct hypothesis *hypothesis, struct prediction *prediction);

#endif
