/* The check: every reading of a job against the model under its conditions and against the car's band. */
#ifndef DOCUMENTS_CHECK_H
#define DOCUMENTS_CHECK_H

#include "agreement.h"
#include "job-document.h"

struct checked_reading {
  const struct job_reading *reading;
  int cylinder;             /* 0.. for each-cylinder readings, else -1 */
  enum outcome outcome;     /* of the model; expected only when solved */
  double value, expected;   /* SI; for each-cylinder readings deviations from the mean, fractions */
  gboolean has_band;
  double low, high;         /* SI, under these conditions */
  double uncertainty;       /* standard, SI */
  enum agreement agreement; /* undecided without a band */
};

/* One entry a value, in the job's order; the array owns its entries. */
GArray *job_check (const struct job *job); /* of struct checked_reading */

#endif
