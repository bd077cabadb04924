/* The likelihood of all readings under one hypothesis: normal with covariance D + L L', any one reading possibly wrong,
 * limits as probabilities of an interval, signs by sensitivity and specificity. */
#ifndef DIAGNOSIS_EVIDENCE_H
#define DIAGNOSIS_EVIDENCE_H

#include "observation.h"
#include "options.h"
#include "signatures-private.h"

#define OBSERVATIONS_MAX 32
#define SIGNS_MAX 32
#define SETS_MAX 12 /* each-cylinder observations */

struct evidence_channel {
  int observation, cylinder; /* cylinder -1 where there is one value */
  int channel;               /* in the signatures */
  double value;              /* for cylinders the deviation from the mean of those read */
  double noise;              /* variance */
  double log_wide;           /* log density of a wrong reading's value */
};

struct evidence {
  struct signatures *signatures;
  const struct diagnosis_options *options;
  const struct observation *observation;
  const struct sign *sign;
  int observations, signs;
  int channels; /* values */
  struct evidence_channel channel[CHANNELS_MAX];
  int limits;
  struct evidence_channel limit[OBSERVATIONS_MAX];
  int columns;                           /* without those of severity */
  int instrument_column[INSTRUMENTS_MAX + 1]; /* -1 where not used */
  struct low_rank covariance;            /* rows of all value channels; the diagonal is written by hypothesis */
  double limit_row[OBSERVATIONS_MAX][COLUMNS_MAX];
};

struct evaluation {
  double log_likelihood;
  double distance;            /* squared, of the values; under the right hypothesis about the number of channels */
  double log_plain;           /* the values' log density with no reading wrong */
  double wrong[CHANNELS_MAX]; /* given the hypothesis: probability that this value is the wrong one */
  struct low_rank_fit fit;    /* without the readings that are more likely wrong than right */
};

enum evidence_outcome {
  EVIDENCE_SOUND,
  EVIDENCE_TOO_MUCH,   /* more observations, channels, sets or signs than there is room for */
  EVIDENCE_BAD,        /* an observation is not sound: its number in *which */
  EVIDENCE_NOT_ADDED   /* its procedure is not among the signatures */
};

/* Points into all that it is given. */
enum evidence_outcome evidence_make (struct signatures *signatures, const struct diagnosis_options *options,
                                     const struct observation *observations, int observation_count,
                                     const struct sign *signs, int sign_count, struct evidence *evidence, int *which);

/* Writes the hypothesis' part into evidence->covariance, which the fit belongs to until the next call. False where the
 * numbers are not finite: the hypothesis is left out. */
bool evidence_evaluate (struct evidence *evidence, const struct hypothesis *hypothesis, const struct prediction *prediction,
                        struct evaluation *evaluation);

/* Variance of a signature's channel that is its own: what the spread's columns leave, what the model may err. */
double evidence_own_variance (const struct evidence *evidence, const struct prediction *prediction, int channel);

/* The row of L for a channel of the signatures read with that instrument (severity columns included); bias in SI. */
void evidence_row (const struct evidence *evidence, const struct prediction *prediction, int channel, int instrument,
                   double bias, double *row);

/* Whether a sign names that cause's fault. */
bool evidence_names (const struct evidence *evidence, int sign, int cause);

/* Probability of the signs under a hypothesis; 0 rules it out. */
double evidence_signs (const struct evidence *evidence, const struct hypothesis *hypothesis);

/* Mean and variance of one channel's value under a hypothesis, all else unknown; noise included. */
void evidence_marginal (const struct evidence *evidence, const struct prediction *prediction,
                        const struct evidence_channel *channel, double *mean, double *variance);

/* Natural log density of that value alone, possibly wrong. */
double evidence_alone (const struct evidence *evidence, const struct prediction *prediction,
                       const struct evidence_channel *channel);

#endif
