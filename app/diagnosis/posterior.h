/* What the readings say: probabilities of fault sets, of each fault, of each reading being wrong. */
#ifndef DIAGNOSIS_POSTERIOR_H
#define DIAGNOSIS_POSTERIOR_H

#include "evidence.h"
#include "options.h"
#include "signatures.h"

#define PAIRS_KEPT 256 /* pairs run through the physics: the likeliest by the sum of their single effects */

struct scored {
  struct hypothesis hypothesis;
  double log_prior, log_likelihood, weight; /* weight: posterior probability */
  double distance;
  int set;
};

/* Hypotheses that differ in severity only. */
struct fault_set {
  int count;      /* of causes: 0 healthy (or none of these), 1, 2 */
  int cause[2];
  bool none;      /* none of the faults listed */
  double probability;
  int best;       /* its likeliest hypothesis, an index of posterior.hypothesis */
};

struct cause_finding {
  bool visible;                     /* at its worst some reading among the signatures moves by two standard deviations */
  bool silent;                      /* none of the readings taken moves */
  double probability;               /* that it is present, alone or with another */
  double low, middle, high;         /* severity if present: 5, 50, 95 %; zeroes where it is out of the question */
  int group;                        /* equal for causes that the readings taken cannot tell apart; else -1 */
};

struct reading_finding {
  double wrong;       /* probability that this value is plain wrong: take it again */
  bool unexplained;   /* more than three standard deviations from every hypothesis kept */
};

struct posterior {
  struct evidence evidence;
  struct diagnosis_options options;
  struct observation observation[OBSERVATIONS_MAX];
  struct sign sign[SIGNS_MAX];
  int hypotheses;
  struct scored *hypothesis;     /* likeliest first; what is left out has less than 1e-6 together */
  double dropped;                /* how much that is */
  int sets;
  struct fault_set *set;         /* likeliest first */
  struct cause_finding *cause;   /* by cause of the signatures */
  struct reading_finding reading[CHANNELS_MAX]; /* by channel of the evidence */
  double healthy, none_of_these; /* probabilities */
  double tail;                   /* of the likeliest hypothesis: probability of a worse fit if it were true */
};

enum posterior_outcome {
  POSTERIOR_SOUND,
  POSTERIOR_TOO_MUCH,  /* as enum evidence_outcome */
  POSTERIOR_BAD,
  POSTERIOR_NOT_ADDED,
  POSTERIOR_NO_MEMORY,
  POSTERIOR_STOPPED,   /* by keep_going */
  POSTERIOR_NOTHING    /* no hypothesis has a finite likelihood: values beyond all sense */
};

/* The readings of all these observations, whose procedures have been added to the signatures (which must outlive the
 * posterior and are changed: pairs are computed when needed). options NULL: the usual. On any outcome but sound
 * *posterior is NULL, and *which (may be NULL) the observation meant. Free with posterior_free. */
enum posterior_outcome posterior_make (struct signatures *signatures, const struct observation *observations,
                                       int observation_count, const struct sign *signs, int sign_count,
                                       const struct diagnosis_options *options, keep_going go, void *data,
                                       struct posterior **posterior, int *which);
void posterior_free (struct posterior *posterior);

/* Probability that a fault is present at all, at whichever cylinder. */
double posterior_fault (const struct posterior *posterior, const struct fault *fault);

/* Where 90 % of the values of a channel lie (5 to 95 %) under the likeliest hypothesis of a set; set -1: healthy. False
 * where the model has no state for it. */
bool posterior_band (const struct posterior *posterior, int channel, int set, double *low, double *high);

/* Weight of evidence (Good 1950) of each observation alone for the likeliest set against the second, in bits: positive
 * speaks for it. weight holds as many as there are observations. False where there are not two sets. */
bool posterior_weights (const struct posterior *posterior, double *weight);

/* Mean and variance of a candidate's values given all readings, under one of the kept hypotheses; covariance is
 * CYLINDERS_MAX x CYLINDERS_MAX, row by row. The candidate's procedure must have been added. */
bool posterior_predict (struct posterior *posterior, int hypothesis, const struct observation *candidate,
                        double *mean, double *covariance);

#endif
