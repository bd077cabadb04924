/* The search for pairs worth running through the physics. */
#ifndef DIAGNOSIS_POSTERIOR_PRIVATE_H
#define DIAGNOSIS_POSTERIOR_PRIVATE_H

#include "posterior.h"

struct priors {
  const struct signatures *signatures;
  const struct diagnosis_options *options;
  double sum, square; /* of the visible causes' odds */
};

double prior_odds (const struct priors *priors, int cause);
double log_prior_single (const struct priors *priors, int cause, int severity);
double log_prior_pair (const struct priors *priors, int a, int b, int severity_a, int severity_b);

/* The likeliest pairs by the sum of their effects, from the scored singles in posterior->hypothesis: at most PAIRS_KEPT
 * into pair, the number of them. Only faults that bear on what was read or asked: of others nothing is known, and a pair
 * with one of them says no more than the other fault alone. */
int pairs_search (struct posterior *posterior, const struct priors *priors, struct hypothesis *pair);

#endif
