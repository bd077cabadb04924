#include "posterior-private.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define VISIBLE 2.0         /* standard deviations that a cause must reach at its worst */
#define DROPPED_MOST 1e-6   /* posterior mass left out */
#define UNEXPLAINED 3.0     /* standard deviations */
#define GROUP_LEAST 0.02    /* probability from which a cause is worth grouping */
#define GROUP_DISTANCE 1.0  /* squared: less than one standard deviation apart */
#define BAND 1.6448536269514722 /* 5 to 95 % of a normal */
#define NATS_PER_BIT 0.69314718055994531

/* -- priors -------------------------------------------------------------------------------------------------------------- */

double
prior_odds (const struct priors *priors, int cause)
{
  const struct cause *c = &priors->signatures->cause[cause];

  return c->cylinder < 0 ? c->fault->odds : c->fault->odds / priors->signatures->car.cylinders;
}

double
log_prior_single (const struct priors *priors, int cause, int severity)
{
  return log (priors->options->one * prior_odds (priors, cause) / priors->sum * severity_classes[severity].weight);
}

double
log_prior_pair (const struct priors *priors, int a, int b, int severity_a, int severity_b)
{
  double all = 0.5 * (priors->sum * priors->sum - priors->square);

  return log (priors->options->two * prior_odds (priors, a) * prior_odds (priors, b) / all
              * severity_classes[severity_a].weight * severity_classes[severity_b].weight);
}

static bool
is_visible (const struct signatures *s, int cause)
{
  for (int i = 0; i < s->channels; i++) {
    double variance = s->usual[i] * s->usual[i] + s->rest[i];
    double effect = signatures_single (s, cause, SEVERITIES - 1)[i] - s->healthy[i];
    for (int k = 0; k < s->columns; k++)
      variance += s->row[i][k] * s->row[i][k];
    if (effect * effect > VISIBLE * VISIBLE * variance)
      return true;
  }
  return false;
}

static void
look_at_causes (struct posterior *p, struct priors *priors)
{
  const struct signatures *s = p->evidence.signatures;
  unsigned taken = 0;

  for (int i = 0; i < p->evidence.observations; i++)
    taken |= 1u << signatures_find (s, &p->observation[i]);
  for (int c = 0; c < s->causes; c++) {
    p->cause[c].visible = is_visible (s, c) && s->cause[c].fault->odds > 0;
    p->cause[c].silent = !(s->moved[c] & taken);
    p->cause[c].group = -1;
    if (p->cause[c].visible) {
      priors->sum += prior_odds (priors, c);
      priors->square += prior_odds (priors, c) * prior_odds (priors, c);
    }
  }
}

/* -- scoring ------------------------------------------------------------------------------------------------------------- */

/* Adds one hypothesis; its wrong readings are kept aside, CHANNELS_MAX a hypothesis. */
static void
score (struct posterior *p, const struct hypothesis *h, double log_prior, double *wrong)
{
  struct prediction prediction;
  struct evaluation evaluation;
  struct scored *scored = &p->hypothesis[p->hypotheses];

  if (!signatures_predict (p->evidence.signatures, h, &prediction)
      || !evidence_evaluate (&p->evidence, h, &prediction, &evaluation))
    return;
  *scored = (struct scored) { *h, log_prior, evaluation.log_likelihood, 0, evaluation.distance, -1 };
  memcpy (wrong + (size_t) p->hypotheses * CHANNELS_MAX, evaluation.wrong,
          sizeof (double) * (size_t) p->evidence.channels);
  p->hypotheses++;
}

/* Half of the prior for a fault that moves everything somehow, half for one that moves a single procedure. */
static void
score_none (struct posterior *p, double *wrong)
{
  int procedures = p->evidence.signatures->procedures;
  struct hypothesis none = { .none = true, .procedure = EVERY_PROCEDURE };

  score (p, &none, log (p->options.none_of_these * (procedures ? 0.5 : 1)), wrong);
  for (none.procedure = 0; none.procedure < procedures; none.procedure++)
    score (p, &none, log (p->options.none_of_these * 0.5 / procedures), wrong);
}

static bool
score_singles (struct posterior *p, const struct priors *priors, double *wrong, keep_going go, void *data)
{
  int causes = p->evidence.signatures->causes;
  struct hypothesis healthy = { 0 };

  score (p, &healthy, log (p->options.healthy), wrong);
  score_none (p, wrong);
  for (int c = 0; c < causes; c++) {
    if (go && !go (data, 0.5 * c / causes))
      return false;
    for (int severity = 0; p->cause[c].visible && severity < SEVERITIES; severity++) {
      struct hypothesis h = { 1, { c, 0 }, { severity, 0 }, false };
      score (p, &h, log_prior_single (priors, c, severity), wrong);
    }
  }
  return true;
}

static bool
score_pairs (struct posterior *p, const struct priors *priors, double *wrong, keep_going go, void *data)
{
  struct hypothesis pair[PAIRS_KEPT];
  int pairs;

  if (p->options.two <= 0)
    return true;
  pairs = pairs_search (p, priors, pair);
  for (int i = 0; i < pairs; i++) {
    if (go && !go (data, 0.6 + 0.4 * i / pairs))
      return false;
    score (p, &pair[i],
           log_prior_pair (priors, pair[i].cause[0], pair[i].cause[1], pair[i].severity[0], pair[i].severity[1]), wrong);
  }
  return true;
}

static bool
normalise (struct posterior *p)
{
  double most = -INFINITY, sum = 0;

  for (int i = 0; i < p->hypotheses; i++)
    most = fmax (most, p->hypothesis[i].log_prior + p->hypothesis[i].log_likelihood / p->options.temperature);
  if (!isfinite (most))
    return false;
  for (int i = 0; i < p->hypotheses; i++) {
    struct scored *h = &p->hypothesis[i];
    h->weight = exp (h->log_prior + h->log_likelihood / p->options.temperature - most);
    sum += h->weight;
  }
  for (int i = 0; i < p->hypotheses; i++)
    p->hypothesis[i].weight /= sum;
  return true;
}

static void
average_wrong (struct posterior *p, const double *wrong)
{
  for (int i = 0; i < p->hypotheses; i++)
    for (int j = 0; j < p->evidence.channels; j++)
      p->reading[j].wrong += p->hypothesis[i].weight * wrong[(size_t) i * CHANNELS_MAX + (size_t) j];
}

static int
compare_scored (const void *a, const void *b)
{
  const struct scored *x = a, *y = b;

  if (x->weight != y->weight)
    return x->weight < y->weight ? 1 : -1;
  return memcmp (&x->hypothesis, &y->hypothesis, sizeof x->hypothesis);
}

static void
sort_and_drop (struct posterior *p)
{
  double sum = 0;
  int kept;

  qsort (p->hypothesis, (size_t) p->hypotheses, sizeof *p->hypothesis, compare_scored);
  for (kept = 0; kept < p->hypotheses && sum < 1 - DROPPED_MOST; kept++)
    sum += p->hypothesis[kept].weight;
  p->hypotheses = kept;
  p->dropped = fmax (1 - sum, 0);
}

/* -- what is shown -------------------------------------------------------------------------------------------------------- */

static bool
same_set (const struct fault_set *set, const struct hypothesis *h)
{
  if (set->count != h->count || set->none != h->none)
    return false;
  for (int k = 0; k < h->count; k++)
    if (set->cause[k] != h->cause[k])
      return false;
  return true;
}

static int
compare_sets (const void *a, const void *b)
{
  const struct fault_set *x = a, *y = b;

  if (x->probability != y->probability)
    return x->probability < y->probability ? 1 : -1;
  return x->best - y->best;
}

/* Sorted twice: hypotheses point at sets and sets at hypotheses. */
static void
gather_sets (struct posterior *p)
{
  for (int i = 0; i < p->hypotheses; i++) {
    const struct hypothesis *h = &p->hypothesis[i].hypothesis;
    int at = 0;
    while (at < p->sets && !same_set (&p->set[at], h))
      at++;
    if (at == p->sets)
      p->set[p->sets++] = (struct fault_set) { h->count, { h->cause[0], h->cause[1] }, h->none, 0, i };
    p->set[at].probability += p->hypothesis[i].weight;
  }
  qsort (p->set, (size_t) p->sets, sizeof *p->set, compare_sets);
  for (int i = 0; i < p->hypotheses; i++)
    for (int at = 0; at < p->sets; at++)
      if (same_set (&p->set[at], &p->hypothesis[i].hypothesis))
        p->hypothesis[i].set = at;
  for (int at = 0; at < p->sets; at++) {
    if (p->set[at].count == 0)
      *(p->set[at].none ? &p->none_of_these : &p->healthy) = p->set[at].probability;
    for (int k = 0; k < p->set[at].count; k++)
      p->cause[p->set[at].cause[k]].probability += p->set[at].probability;
  }
}

/* Severity below which a share of the weight lies, straight within the class. */
static double
severity_at (const double *weight, double sum, double share)
{
  double before = 0;

  for (int i = 0; i < SEVERITIES; i++) {
    if (weight[i] > 0 && before + weight[i] >= share * sum)
      return severity_classes[i].low
             + (severity_classes[i].high - severity_classes[i].low) * (share * sum - before) / weight[i];
    before += weight[i];
  }
  return severity_classes[SEVERITIES - 1].high;
}

static void
severity_intervals (struct posterior *p)
{
  for (int c = 0; c < p->evidence.signatures->causes; c++) {
    double weight[SEVERITIES] = { 0 }, sum = 0;
    for (int i = 0; i < p->hypotheses && p->cause[c].probability > 0; i++) {
      const struct scored *h = &p->hypothesis[i];
      for (int k = 0; k < h->hypothesis.count; k++)
        if (h->hypothesis.cause[k] == c) {
          weight[h->hypothesis.severity[k]] += h->weight;
          sum += h->weight;
        }
    }
    if (sum <= 0)
      continue;
    p->cause[c].low = severity_at (weight, sum, 0.05);
    p->cause[c].middle = severity_at (weight, sum, 0.50);
    p->cause[c].high = severity_at (weight, sum, 0.95);
  }
}

/* Wilson and Hilferty 1931: the cube root of a chi-square is nearly normal. */
static double
chi_square_tail (double distance, int degrees)
{
  double share = 2.0 / (9 * degrees);
  double z = (cbrt (distance / degrees) - (1 - share)) / sqrt (share);

  return 0.5 * erfc (z / sqrt (2.0));
}

static void
look_at_tails (struct posterior *p)
{
  int degrees = p->evidence.channels;

  for (int i = 0; i < p->evidence.observations; i++)
    degrees -= p->observation[i].kind->each_cylinder; /* its mean is used up */
  p->tail = degrees > 0 ? chi_square_tail (p->hypothesis[0].distance, degrees) : 1;
  for (int j = 0; j < p->evidence.channels; j++)
    p->reading[j].unexplained = true;
  for (int i = 0; i < p->hypotheses; i++) {
    struct prediction prediction;
    if (p->hypothesis[i].hypothesis.none
        || !signatures_predict (p->evidence.signatures, &p->hypothesis[i].hypothesis, &prediction))
      continue;
    for (int j = 0; j < p->evidence.channels; j++) {
      double mean, variance, off;
      evidence_marginal (&p->evidence, &prediction, &p->evidence.channel[j], &mean, &variance);
      off = p->evidence.channel[j].value - mean;
      if (off * off <= UNEXPLAINED * UNEXPLAINED * variance)
        p->reading[j].unexplained = false;
    }
  }
}

/* -- groups ----------------------------------------------------------------------------------------------------------------- */

/* Mean, by a's severities, of the squared distance to the nearest severity of b. */
static double
distance_to (struct posterior *p, int a, int b)
{
  struct evidence *e = &p->evidence;
  double sum = 0, weights = 0;

  for (int i = 0; i < p->hypotheses; i++) {
    const struct hypothesis *h = &p->hypothesis[i].hypothesis;
    struct prediction prediction;
    struct evaluation evaluation;
    double nearest = INFINITY;

    if (h->count != 1 || h->cause[0] != a
        || !signatures_predict (e->signatures, h, &prediction)
        || !evidence_evaluate (e, h, &prediction, &evaluation))
      continue;
    for (int severity = 0; severity < SEVERITIES; severity++) {
      double difference[CHANNELS_MAX];
      struct low_rank_fit fit;
      for (int j = 0; j < e->channels; j++) {
        int channel = e->channel[j].channel;
        difference[j] = signatures_single (e->signatures, b, severity)[channel] - prediction.mean[channel];
      }
      if (low_rank_fit (&e->covariance, difference, &fit))
        nearest = fmin (nearest, fit.distance);
    }
    sum += p->hypothesis[i].weight * nearest;
    weights += p->hypothesis[i].weight;
  }
  return weights > 0 ? sum / weights : INFINITY;
}

static void
join (struct posterior *p, int a, int b)
{
  int from = p->cause[b].group, to = p->cause[a].group;

  if (to < 0)
    to = p->cause[a].group = a;
  if (from < 0)
    from = p->cause[b].group = b;
  for (int c = 0; c < p->evidence.signatures->causes; c++)
    if (p->cause[c].group == from)
      p->cause[c].group = to;
}

static void
find_groups (struct posterior *p)
{
  int causes = p->evidence.signatures->causes;

  for (int a = 0; a < causes; a++)
    for (int b = a + 1; b < causes && p->cause[a].probability >= GROUP_LEAST; b++)
      if (p->cause[b].probability >= GROUP_LEAST && distance_to (p, a, b) + distance_to (p, b, a) < 2 * GROUP_DISTANCE)
        join (p, a, b);
}

/* -- public ----------------------------------------------------------------------------------------------------------------- */

static struct posterior *
allocate (const struct signatures *signatures, size_t hypotheses)
{
  struct posterior *p = calloc (1, sizeof *p);

  if (!p)
    return NULL;
  p->hypothesis = calloc (hypotheses, sizeof *p->hypothesis);
  p->set = calloc (hypotheses, sizeof *p->set);
  p->cause = calloc ((size_t) signatures->causes + 1, sizeof *p->cause);
  if (p->hypothesis && p->set && p->cause)
    return p;
  posterior_free (p);
  return NULL;
}

static enum posterior_outcome
infer (struct posterior *p, double *wrong, keep_going go, void *data)
{
  struct priors priors = { p->evidence.signatures, &p->options, 0, 0 };

  look_at_causes (p, &priors);
  if (!score_singles (p, &priors, wrong, go, data) || !score_pairs (p, &priors, wrong, go, data))
    return POSTERIOR_STOPPED;
  if (!normalise (p))
    return POSTERIOR_NOTHING;
  average_wrong (p, wrong);
  sort_and_drop (p);
  gather_sets (p);
  severity_intervals (p);
  look_at_tails (p);
  find_groups (p);
  return POSTERIOR_SOUND;
}

static enum posterior_outcome
take_evidence (struct posterior *p, struct signatures *signatures, const struct observation *observations,
               int observation_count, const struct sign *signs, int sign_count, int *which)
{
  if (observation_count > OBSERVATIONS_MAX || sign_count > SIGNS_MAX || observation_count < 0 || sign_count < 0)
    return POSTERIOR_TOO_MUCH;
  if (observation_count > 0)
    memcpy (p->observation, observations, sizeof *observations * (size_t) observation_count);
  if (sign_count > 0)
    memcpy (p->sign, signs, sizeof *signs * (size_t) sign_count);
  return (enum posterior_outcome) evidence_make (signatures, &p->options, p->observation, observation_count, p->sign,
                                                 sign_count, &p->evidence, which);
}

enum posterior_outcome
posterior_make (struct signatures *signatures, const struct observation *observations, int observation_count,
                const struct sign *signs, int sign_count, const struct diagnosis_options *options, keep_going go,
                void *data, struct posterior **posterior, int *which)
{
  size_t hypotheses = 2 + PROCEDURES_MAX + (size_t) signatures->causes * SEVERITIES + PAIRS_KEPT;
  struct posterior *p = allocate (signatures, hypotheses);
  double *wrong = calloc (hypotheses * CHANNELS_MAX, sizeof *wrong);
  enum posterior_outcome outcome = POSTERIOR_NO_MEMORY;
  int ignored;

  *posterior = NULL;
  if (p && wrong) {
    p->options = options ? *options : diagnosis_usual;
    outcome = take_evidence (p, signatures, observations, observation_count, signs, sign_count, which ? which : &ignored);
    if (outcome == POSTERIOR_SOUND)
      outcome = infer (p, wrong, go, data);
  }
  free (wrong);
  if (outcome == POSTERIOR_SOUND)
    *posterior = p;
  else
    posterior_free (p);
  return outcome;
}

void
posterior_free (struct posterior *p)
{
  if (!p)
    return;
  free (p->hypothesis);
  free (p->set);
  free (p->cause);
  free (p);
}

double
posterior_fault (const struct posterior *p, const struct fault *fault)
{
  double sum = 0;

  for (int i = 0; i < p->sets; i++)
    for (int k = 0; k < p->set[i].count; k++)
      if (p->evidence.signatures->cause[p->set[i].cause[k]].fault == fault) {
        sum += p->set[i].probability;
        break;
      }
  return sum;
}

static const struct hypothesis *
best_of (const struct posterior *p, int set)
{
  static const struct hypothesis healthy;

  return set < 0 ? &healthy : &p->hypothesis[p->set[set].best].hypothesis;
}

bool
posterior_band (const struct posterior *p, int channel, int set, double *low, double *high)
{
  struct prediction prediction;
  double mean, variance;

  if (!signatures_predict (p->evidence.signatures, best_of (p, set), &prediction))
    return false;
  evidence_marginal (&p->evidence, &prediction, &p->evidence.channel[channel], &mean, &variance);
  *low = mean - BAND * sqrt (variance);
  *high = mean + BAND * sqrt (variance);
  return true;
}

bool
posterior_weights (const struct posterior *p, double *weight)
{
  struct signatures *s = p->evidence.signatures;
  struct prediction prediction[2];
  int ignored;

  if (p->sets < 2 || !signatures_predict (s, best_of (p, 0), &prediction[0])
      || !signatures_predict (s, best_of (p, 1), &prediction[1]))
    return false;
  for (int i = 0; i < p->evidence.observations; i++) {
    struct evidence alone;
    struct evaluation evaluation[2];
    weight[i] = 0;
    if (evidence_make (s, &p->options, &p->observation[i], 1, NULL, 0, &alone, &ignored) == EVIDENCE_SOUND
        && evidence_evaluate (&alone, best_of (p, 0), &prediction[0], &evaluation[0])
        && evidence_evaluate (&alone, best_of (p, 1), &prediction[1], &evaluation[1]))
      weight[i] = (evaluation[0].log_likelihood - evaluation[1].log_likelihood) / NATS_PER_BIT;
  }
  return true;
}

bool
posterior_predict (struct posterior *p, int hypothesis, const struct observation *candidate, double *mean,
                   double *covariance)
{
  struct evidence *e = &p->evidence;
  struct signatures *s = e->signatures;
  const struct hypothesis *h = &p->hypothesis[hypothesis].hypothesis;
  int number = signatures_find (s, candidate);
  bool shared = candidate->instrument > 0 && e->instrument_column[candidate->instrument] >= 0;
  struct prediction prediction;
  struct evaluation evaluation;
  double x[CYLINDERS_MAX][COLUMNS_MAX];

  if (number < 0 || !signatures_predict (s, h, &prediction)
      || !evidence_evaluate (e, h, &prediction, &evaluation))
    return false;
  for (int i = 0; i < s->procedure[number].channels; i++) {
    int channel = s->procedure[number].first + i;
    double row[COLUMNS_MAX];
    evidence_row (e, &prediction, channel, candidate->instrument, candidate->bias, row);
    low_rank_whiten (&evaluation.fit, row, x[i]);
    mean[i] = prediction.mean[channel];
    for (int k = 0; k < evaluation.fit.columns; k++)
      mean[i] += row[k] * evaluation.fit.latent[k];
    for (int j = 0; j <= i; j++) {
      double sum = 0;
      for (int k = 0; k < evaluation.fit.columns; k++)
        sum += x[i][k] * x[j][k];
      covariance[i * CYLINDERS_MAX + j] = covariance[j * CYLINDERS_MAX + i] = sum;
    }
    covariance[i * CYLINDERS_MAX + i] += candidate->uncertainty * candidate->uncertainty
                                         + (shared ? 0 : candidate->bias * candidate->bias)
                                         + evidence_own_variance (e, &prediction, channel);
  }
  return true;
}
