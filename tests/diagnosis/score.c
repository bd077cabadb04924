#include "score.h"

#include <math.h>

#define LEAST 1e-6 /* no claim is scored as if it had been impossible */

static bool
cause_is (const struct cause *cause, const struct fault_dose *dose)
{
  return cause->fault == dose->fault && (cause->cylinder < 0 || cause->cylinder == dose->cylinder);
}

bool
set_is_right (const struct posterior *p, const struct fault_set *set, const struct hidden_case *hidden)
{
  const struct signatures *s = p->evidence.signatures;
  int right = 0;

  if (hidden->kind == CASE_HEALTHY || hidden->kind == CASE_UNLISTED)
    return set->count == 0 && set->none == (hidden->kind == CASE_UNLISTED);
  if (set->count != (hidden->kind == CASE_TWO ? 2 : 1))
    return false;
  for (int k = 0; k < set->count; k++)
    for (int d = 0; d < set->count; d++)
      right += cause_is (signatures_cause (s, set->cause[k]), &hidden->dose[d]);
  return right == set->count;
}

double
truth_probability (const struct posterior *p, const struct hidden_case *hidden)
{
  for (int i = 0; i < p->sets; i++)
    if (set_is_right (p, &p->set[i], hidden))
      return p->set[i].probability;
  return 0;
}

/* The leading single fault and the hidden one cannot be told apart by what was read. */
static bool
same_group (const struct posterior *p, const struct hidden_case *hidden)
{
  int group = p->set[0].count == 1 ? p->cause[p->set[0].cause[0]].group : -1;

  for (int c = 0; group >= 0 && c < signatures_causes (p->evidence.signatures); c++)
    if (p->cause[c].group == group && cause_is (signatures_cause (p->evidence.signatures, c), &hidden->dose[0]))
      return true;
  return false;
}

void
score_add (struct score *score, const struct posterior *p, const struct hidden_case *hidden)
{
  double truth = truth_probability (p, hidden), sum = 0, square = 0;
  bool first = set_is_right (p, &p->set[0], hidden);
  int bin = (int) fmin (p->set[0].probability * SCORE_BINS, SCORE_BINS - 1);

  score->cases++;
  score->top1 += first;
  score->grouped += first || (hidden->kind == CASE_ONE && same_group (p, hidden));
  for (int i = 0; i < 3 && i < p->sets; i++)
    score->top3 += set_is_right (p, &p->set[i], hidden);
  for (int i = 0; i < p->sets && sum < 0.9; i++) {
    sum += p->set[i].probability;
    score->covered += set_is_right (p, &p->set[i], hidden);
  }
  for (int i = 0; i < p->sets; i++)
    square += p->set[i].probability * p->set[i].probability;
  score->brier += square - 2 * truth + 1;
  score->log_loss -= log (fmax (truth, LEAST));
  score->truth += truth;
  score->claims[bin]++;
  score->claimed[bin] += p->set[0].probability;
  score->right[bin] += first;
  if (p->set[0].probability > 0.9) {
    score->sure++;
    score->sure_right += first;
  }
}

double
score_calibration_error (const struct score *score)
{
  double error = 0;

  for (int i = 0; i < SCORE_BINS; i++)
    error += fabs (score->claimed[i] - score->right[i]);
  return score->cases ? error / score->cases : 0;
}
