/* The causes behind a job's readings, and what to read next: the job's readings put to the diagnosis room with the shipped
 * catalogue of faults. */
#ifndef DOCUMENTS_CAUSES_H
#define DOCUMENTS_CAUSES_H

#include "fault-document.h"
#include "job-document.h"
#include "next-reading.h"

struct causes {
  const struct fault_catalogue *catalogue;
  struct signatures *signatures;
  struct posterior *posterior;
  unsigned taken[OBSERVATIONS_MAX]; /* by observation of the posterior: the job's reading */
  int takens, left_out;             /* readings without a value count as neither */
  int covered;                      /* faults of the catalogue that some reading of today's set can show on this car */
  struct observation candidate[CANDIDATES_MAX];
  int candidates;
  struct advice advice;
};

/* NULL where no reading can be used, or memory is short. A second's work at most. Free with causes_free. */
struct causes *job_causes (const struct job *job);
void causes_free (struct causes *causes);

typedef struct causes causes_t;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (causes_t, causes_free)

#endif
