#include "posterior-private.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define LEADS 10          /* single causes that a second one is sought for */
#define LEAD_SHARE 0.02   /* of a lead's own weight: severities below are not looked at */
#define AMPLITUDE 16.0    /* 1/0.25^2: the second effect may be a quarter stronger or weaker, as within its class */

struct lead {
  int cause;
  double log_weight[SEVERITIES]; /* prior and likelihood; -INFINITY where not scored */
  double log_sum;
};

struct found {
  struct hypothesis pair;
  double score;
};

/* The residuals with the lead taken out, in coordinates in which they are independent and of variance 1. */
struct white {
  int n;
  double factor[CHANNELS_MAX][CHANNELS_MAX];
  double residual[CHANNELS_MAX];
  double square, log_density_at_zero;
};

static double
log_add (double a, double b)
{
  double most = fmax (a, b);

  return isinf (most) ? most : most + log (exp (a - most) + exp (b - most));
}

static int
compare_leads (const void *a, const void *b)
{
  const struct lead *x = a, *y = b;

  if (x->log_sum != y->log_sum)
    return x->log_sum < y->log_sum ? 1 : -1;
  return x->cause - y->cause;
}

static int
compare_found (const void *a, const void *b)
{
  const struct found *x = a, *y = b;

  if (x->score != y->score)
    return x->score < y->score ? 1 : -1;
  return memcmp (&x->pair, &y->pair, sizeof x->pair);
}

static struct lead *
rank_leads (const struct posterior *p, int causes)
{
  struct lead *lead = calloc ((size_t) causes, sizeof *lead);

  if (!lead)
    return NULL;
  for (int c = 0; c < causes; c++) {
    lead[c].cause = c;
    lead[c].log_sum = -INFINITY;
    for (int s = 0; s < SEVERITIES; s++)
      lead[c].log_weight[s] = -INFINITY;
  }
  for (int i = 0; i < p->hypotheses; i++) {
    const struct scored *h = &p->hypothesis[i];
    if (h->hypothesis.count != 1)
      continue;
    lead[h->hypothesis.cause[0]].log_weight[h->hypothesis.severity[0]] = h->log_prior + h->log_likelihood;
    lead[h->hypothesis.cause[0]].log_sum
        = log_add (lead[h->hypothesis.cause[0]].log_sum, h->log_prior + h->log_likelihood);
  }
  qsort (lead, (size_t) causes, sizeof *lead, compare_leads);
  return lead;
}

static void
solve_lower (const struct white *w, double *x)
{
  for (int i = 0; i < w->n; i++) {
    double sum = x[i];
    for (int k = 0; k < i; k++)
      sum -= w->factor[i][k] * x[k];
    x[i] = sum / w->factor[i][i];
  }
}

static bool
whiten (struct posterior *p, int cause, int severity, struct white *w)
{
  struct evidence *e = &p->evidence;
  struct hypothesis h = { 1, { cause, 0 }, { severity, 0 }, false };
  struct prediction prediction;
  struct evaluation evaluation;

  if (!signatures_predict (e->signatures, &h, &prediction)
      || !evidence_evaluate (e, &h, &prediction, &evaluation))
    return false;
  w->n = e->channels;
  for (int i = 0; i < w->n; i++) {
    w->residual[i] = e->channel[i].value - prediction.mean[e->channel[i].channel];
    for (int j = 0; j <= i; j++) {
      double sum = i == j ? e->covariance.diagonal[i] : 0;
      for (int k = 0; k < e->covariance.columns; k++)
        sum += e->covariance.row[i][k] * e->covariance.row[j][k];
      w->factor[i][j] = sum;
    }
  }
  if (!cholesky (w->factor[0], w->n, CHANNELS_MAX))
    return false;
  solve_lower (w, w->residual);
  w->square = 0;
  for (int i = 0; i < w->n; i++)
    w->square += w->residual[i] * w->residual[i];
  w->log_density_at_zero = evaluation.log_plain + 0.5 * evaluation.distance;
  return true;
}

/* Log density with a second effect added, its amplitude fitted. */
static double
with_second (const struct white *w, const struct evidence *e, int cause, int severity)
{
  const double *single = signatures_single (e->signatures, cause, severity);
  double effect[CHANNELS_MAX], product = 0, square = 0, a;

  for (int i = 0; i < w->n; i++)
    effect[i] = single[e->channel[i].channel] - e->signatures->healthy[e->channel[i].channel];
  solve_lower (w, effect);
  for (int i = 0; i < w->n; i++) {
    product += w->residual[i] * effect[i];
    square += effect[i] * effect[i];
  }
  a = (product + AMPLITUDE) / (square + AMPLITUDE);
  return w->log_density_at_zero
         - 0.5 * (w->square - 2 * a * product + a * a * square + AMPLITUDE * (a - 1) * (a - 1));
}

static bool
bears_on_evidence (const struct evidence *e, int cause)
{
  for (int i = 0; i < e->observations; i++)
    if (e->signatures->moved[cause] >> signatures_find (e->signatures, &e->observation[i]) & 1)
      return true;
  for (int i = 0; i < e->signs; i++)
    if (evidence_names (e, i, cause))
      return true;
  return false;
}

/* Keeps the best; the last place is the worst once all are taken. */
static void
keep (struct found *found, int *count, const struct found *one)
{
  int at;

  for (int i = 0; i < *count; i++)
    if (memcmp (&found[i].pair, &one->pair, sizeof one->pair) == 0) { /* met before, from its other fault */
      found[i].score = fmax (found[i].score, one->score);
      return;
    }
  if (*count < PAIRS_KEPT) {
    found[(*count)++] = *one;
    return;
  }
  at = 0;
  for (int i = 1; i < *count; i++)
    if (found[i].score < found[at].score)
      at = i;
  if (one->score > found[at].score)
    found[at] = *one;
}

static struct hypothesis
pair_of (int a, int severity_a, int b, int severity_b)
{
  struct hypothesis h;

  memset (&h, 0, sizeof h); /* compared byte by byte */
  h.count = 2;
  h.cause[0] = a < b ? a : b;
  h.cause[1] = a < b ? b : a;
  h.severity[0] = a < b ? severity_a : severity_b;
  h.severity[1] = a < b ? severity_b : severity_a;
  return h;
}

struct search {
  struct posterior *posterior;
  const struct priors *priors;
  const bool *moves;
  struct found found[PAIRS_KEPT];
  int count;
  double best;
};

#define HOPELESS 14.0 /* e^-14: less than 1e-6 of the best */

static void
second_for (struct search *s, const struct white *w, int lead, int severity)
{
  const struct posterior *p = s->posterior;

  for (int b = 0; b < p->evidence.signatures->causes; b++) {
    if (b == lead || !s->moves[b])
      continue;
    for (int j = 0; j < SEVERITIES; j++) {
      struct found one = { pair_of (lead, severity, b, j), 0 };
      one.score = with_second (w, &p->evidence, b, j) + log_prior_pair (s->priors, lead, b, severity, j)
                  + log (evidence_signs (&p->evidence, &one.pair));
      s->best = fmax (s->best, one.score);
      if (one.score > s->best - HOPELESS)
        keep (s->found, &s->count, &one);
    }
  }
}

int
pairs_search (struct posterior *p, const struct priors *priors, struct hypothesis *pair)
{
  const struct signatures *signatures = p->evidence.signatures;
  struct search *s = calloc (1, sizeof *s);
  struct white *w = malloc (sizeof *w);
  bool *moves = calloc ((size_t) signatures->causes + 1, sizeof *moves);
  struct lead *lead = rank_leads (p, signatures->causes);
  int count = 0;

  if (s && w && moves && lead) {
    for (int c = 0; c < signatures->causes; c++)
      moves[c] = p->cause[c].visible && bears_on_evidence (&p->evidence, c);
    *s = (struct search) { .posterior = p, .priors = priors, .moves = moves, .best = -INFINITY };
    for (int i = 0; i < LEADS && i < signatures->causes && isfinite (lead[i].log_sum); i++)
      for (int severity = 0; severity < SEVERITIES && moves[lead[i].cause]; severity++)
        if (lead[i].log_weight[severity] > lead[i].log_sum + log (LEAD_SHARE)
            && whiten (p, lead[i].cause, severity, w))
          second_for (s, w, lead[i].cause, severity);
    qsort (s->found, (size_t) s->count, sizeof *s->found, compare_found);
    for (; count < s->count && s->found[count].score > s->best - HOPELESS; count++)
      pair[count] = s->found[count].pair;
  }
  free (s);
  free (w);
  free (moves);
  free (lead);
  return count;
}
