/* Keeping the score of claims against what was hidden. */
#ifndef TESTS_SCORE_H
#define TESTS_SCORE_H

#include "generator.h"
#include "posterior.h"

#define SCORE_BINS 10

struct score {
  int cases, top1, top3, covered, sure, sure_right, grouped;
  double log_loss, brier, truth;
  double claimed[SCORE_BINS], right[SCORE_BINS];
  int claims[SCORE_BINS];
};

/* Whether the set is exactly what was hidden: the same faults at the same cylinders; healthy; none of these. */
bool set_is_right (const struct posterior *posterior, const struct fault_set *set, const struct hidden_case *hidden);

/* Probability that the posterior gives to what was hidden. */
double truth_probability (const struct posterior *posterior, const struct hidden_case *hidden);

void score_add (struct score *score, const struct posterior *posterior, const struct hidden_case *hidden);

/* Expected calibration error of the leading claims. */
double score_calibration_error (const struct score *score);

#endif
