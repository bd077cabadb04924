#include "evidence.h"

#include <math.h>
#include <string.h>

#define LOG_2PI 1.8378770664093454836
#define ROOT_2 1.4142135623730951
#define FLOOR_SHARE 0.1  /* of the usual uncertainty: no reading is surer, whatever was typed */
#define WIDE_SHARE 10.0  /* a wrong reading lies within some ten usual uncertainties or where a fault would put it */
#define ODDS_MOST 600.0   /* e^600 is still a number */
#define LEFT_OUT 1e9      /* times its variance */
#define WRONG_MOST 4      /* readings left out in a row */
#define GOES_ON 1.0       /* odds of a wrong reading from which a further one is looked for */
#define COMMON_LIFT 0.3  /* the mean of the cylinders says nothing: wide against every deviation */

const struct diagnosis_options diagnosis_usual = {
  .healthy = 0.12, .one = 0.65, .two = 0.15, .none_of_these = 0.08,
  .wrong = 0.03,
  .effect_error = 0.2,
  .spread = true,
  .severity_within = true,
  .sign_least = 0.02,
  .temperature = 1.1, /* fitted by tests/calibration */
};

static double
log_normal (double residual, double variance)
{
  return -0.5 * (residual * residual / variance + log (variance) + LOG_2PI);
}

/* -- taking the observations ---------------------------------------------------------------------------------------------- */

static void
set_channel (const struct evidence *e, int observation, int channel, int cylinder, double value,
             struct evidence_channel *c)
{
  const struct signatures *s = e->signatures;
  const struct observation *o = &e->observation[observation];
  double floor = FLOOR_SHARE * s->usual[channel], wide = WIDE_SHARE * s->usual[channel];

  *c = (struct evidence_channel) { observation, cylinder, channel, value, 0, 0 };
  c->noise = o->uncertainty * o->uncertainty + floor * floor;
  if (o->instrument == 0 || !e->options->spread)
    c->noise += o->bias * o->bias;
  c->log_wide = log_normal (value - s->healthy[channel], wide * wide + s->rms[channel] * s->rms[channel]);
}

static void
take_set (struct evidence *e, int observation, const struct procedure *p)
{
  const struct observation *o = &e->observation[observation];
  double mean = 0;
  int n = 0;

  for (int i = 0; i < CYLINDERS_MAX; i++)
    if (o->cylinders >> i & 1)
      mean += o->value[i];
  mean /= p->channels;
  for (int i = 0; i < CYLINDERS_MAX; i++)
    if (o->cylinders >> i & 1)
      set_channel (e, observation, p->first + n++, i, o->value[i] / mean - 1, &e->channel[e->channels++]);
}

static bool
take_observation (struct evidence *e, int observation)
{
  const struct observation *o = &e->observation[observation];
  const struct procedure *p = &e->signatures->procedure[signatures_find (e->signatures, o)];

  if (e->channels + p->channels > CHANNELS_MAX)
    return false;
  if (o->kind->each_cylinder)
    take_set (e, observation, p);
  else if (o->form == OBSERVATION_VALUE)
    set_channel (e, observation, p->first, -1, o->value[0], &e->channel[e->channels++]);
  else
    set_channel (e, observation, p->first, -1, o->value[0], &e->limit[e->limits++]);
  if (o->bias > 0 && o->instrument > 0 && e->options->spread && e->instrument_column[o->instrument] < 0)
    e->instrument_column[o->instrument] = e->columns++;
  return true;
}

/* Columns that do not depend on the hypothesis. */
static void
fill_row (const struct evidence *e, int channel, int instrument, double bias, double *row)
{
  const struct signatures *s = e->signatures;

  memset (row, 0, sizeof (double) * COLUMNS_MAX);
  if (!e->options->spread)
    return;
  for (int k = 0; k < s->columns; k++)
    row[k] = s->row[channel][k];
  if (instrument > 0 && e->instrument_column[instrument] >= 0)
    row[e->instrument_column[instrument]] = bias;
}

static void
fill_rows (struct evidence *e)
{
  int before = -1;

  for (int j = 0; j < e->channels; j++) {
    const struct observation *o = &e->observation[e->channel[j].observation];
    fill_row (e, e->channel[j].channel, o->instrument, o->bias, e->covariance.row[j]);
  }
  for (int j = 0; j < e->limits; j++) {
    const struct observation *o = &e->observation[e->limit[j].observation];
    fill_row (e, e->limit[j].channel, o->instrument, o->bias, e->limit_row[j]);
  }
  for (int j = 0; j < e->channels; j++) { /* each set has a mean of its own */
    if (e->channel[j].cylinder < 0)
      continue;
    if (e->channel[j].observation != before)
      e->columns++;
    before = e->channel[j].observation;
    e->covariance.row[j][e->columns - 1] = COMMON_LIFT;
  }
}

enum evidence_outcome
evidence_make (struct signatures *signatures, const struct diagnosis_options *options,
               const struct observation *observations, int observation_count, const struct sign *signs, int sign_count,
               struct evidence *e, int *which)
{
  int sets = 0;

  memset (e, 0, sizeof *e);
  e->signatures = signatures;
  e->options = options;
  e->observation = observations;
  e->sign = signs;
  e->columns = options->spread ? signatures->columns : 0;
  for (int i = 0; i <= INSTRUMENTS_MAX; i++)
    e->instrument_column[i] = -1;
  *which = 0;
  if (observation_count > OBSERVATIONS_MAX || sign_count > SIGNS_MAX)
    return EVIDENCE_TOO_MUCH;
  e->signs = sign_count;
  for (int i = 0; i < observation_count; i++) {
    *which = i;
    if (!observation_sound (&observations[i], &signatures->car))
      return EVIDENCE_BAD;
    if (signatures_find (signatures, &observations[i]) < 0)
      return EVIDENCE_NOT_ADDED;
    sets += observations[i].kind->each_cylinder;
    if (sets > SETS_MAX || !take_observation (e, i))
      return EVIDENCE_TOO_MUCH;
  }
  e->observations = observation_count;
  fill_rows (e);
  e->covariance.channels = e->channels;
  return EVIDENCE_SOUND;
}

/* -- one hypothesis ---------------------------------------------------------------------------------------------------------- */

double
evidence_own_variance (const struct evidence *e, const struct prediction *prediction, int channel)
{
  double share = e->options->effect_error;

  return share * share * prediction->error[channel] + prediction->wide[channel]
         + (e->options->spread ? e->signatures->rest[channel] : 0);
}

static void
put_severity (const struct evidence *e, const struct prediction *prediction, int channel, double *row)
{
  for (int k = 0; e->options->severity_within && k < prediction->columns; k++)
    row[e->columns + k] = prediction->severity[k][channel];
}

void
evidence_row (const struct evidence *e, const struct prediction *prediction, int channel, int instrument, double bias,
              double *row)
{
  fill_row (e, channel, instrument, bias, row);
  put_severity (e, prediction, channel, row);
}

bool
evidence_names (const struct evidence *e, int sign, int cause)
{
  for (int f = 0; f < e->sign[sign].fault_count; f++)
    if (e->sign[sign].faults[f] == e->signatures->cause[cause].fault)
      return true;
  return false;
}

double
evidence_signs (const struct evidence *e, const struct hypothesis *h)
{
  double probability = 1;

  for (int i = 0; i < e->signs; i++) {
    const struct sign *sign = &e->sign[i];
    double no = sign->specificity, least = e->options->sign_least;
    for (int k = 0; k < h->count; k++)
      if (evidence_names (e, i, h->cause[k]))
        no *= (1 - sign->sensitivity) / sign->specificity;
    no = fmin (fmax (no, least), 1 - least);
    probability *= sign->yes ? 1 - no : no;
  }
  return probability;
}

/* Each limit given the values; exact for one limit, several are taken as independent once the values are known. */
static double
log_limits (struct evidence *e, const struct prediction *prediction, const struct low_rank_fit *fit)
{
  double sum = 0;

  for (int j = 0; j < e->limits; j++) {
    const struct evidence_channel *c = &e->limit[j];
    double mean, variance, over;

    put_severity (e, prediction, c->channel, e->limit_row[j]);
    low_rank_predict (fit, e->limit_row[j], c->noise + evidence_own_variance (e, prediction, c->channel), &mean, &variance);
    over = (prediction->mean[c->channel] + mean - c->value) / sqrt (variance);
    if (e->observation[c->observation].form == OBSERVATION_AT_MOST)
      over = -over;
    sum += log ((1 - e->options->wrong) * 0.5 * erfc (-over / ROOT_2) + 0.5 * e->options->wrong + 1e-300);
  }
  return sum;
}

/* Odds that reading j is wrong rather than right, all others taken as they are; the one taken out for good has none. */
static double
wrong_odds (const struct evidence *e, const double *log_conditional, const bool *out, double *odds)
{
  double sum = 0;

  for (int j = 0; j < e->channels; j++) {
    double log_odds = e->channel[j].log_wide - log_conditional[j] + log (e->options->wrong / (1 - e->options->wrong));
    odds[j] = out[j] ? 0 : exp (fmin (log_odds, ODDS_MOST));
    sum += odds[j];
  }
  return sum;
}

/* No reading wrong, or exactly one of them, whichever: exact. Beyond that along the likeliest chain: the one most likely
 * wrong is left out (its variance grows until it says nothing) and the same is asked of the others, for as long as that
 * is where the probability lies. What is predicted from the readings is predicted without those left out. */
static double
log_with_wrong (struct evidence *e, const double *residual, struct evaluation *v)
{
  double log_sum = 0, log_chain = 0, odds[CHANNELS_MAX], log_conditional[CHANNELS_MAX];
  double kept[WRONG_MOST];
  int worst_of[WRONG_MOST], left_out = 0;
  bool out[CHANNELS_MAX] = { false };

  memset (v->wrong, 0, sizeof (double) * (size_t) e->channels);
  if (e->options->wrong <= 0)
    return v->log_plain;
  for (;;) {
    double sum, before = log_sum, step;
    int worst = 0;
    low_rank_leave_one_out (&e->covariance, residual, &v->fit, log_conditional);
    sum = wrong_odds (e, log_conditional, out, odds);
    for (int j = 1; j < e->channels; j++)
      worst = odds[j] > odds[worst] ? j : worst;
    /* Adds chain x sum of the odds; the part of `worst` goes on to the next round as the chain */
    step = log_chain + log (sum + 1e-300);
    log_sum = fmax (before, step) + log1p (exp (-fabs (before - step)));
    for (int j = 0; j < e->channels; j++)
      v->wrong[j] = v->wrong[j] * exp (before - log_sum)
                    + (odds[j] + (out[j] ? sum : 0)) * exp (log_chain - log_sum);
    if (left_out == WRONG_MOST || odds[worst] < GOES_ON)
      break;
    log_chain += log (odds[worst]);
    out[worst] = true;
    worst_of[left_out] = worst;
    kept[left_out++] = e->covariance.diagonal[worst];
    e->covariance.diagonal[worst] *= LEFT_OUT;
    if (!low_rank_fit (&e->covariance, residual, &v->fit))
      return -INFINITY;
  }
  while (left_out-- > 0)
    e->covariance.diagonal[worst_of[left_out]] = kept[left_out];
  return v->log_plain + e->channels * log (1 - e->options->wrong) + log_sum;
}

bool
evidence_evaluate (struct evidence *e, const struct hypothesis *h, const struct prediction *prediction,
                   struct evaluation *v)
{
  struct low_rank *covariance = &e->covariance;
  double residual[CHANNELS_MAX];

  covariance->columns = e->columns + (e->options->severity_within ? prediction->columns : 0);
  for (int j = 0; j < e->channels; j++) {
    const struct evidence_channel *c = &e->channel[j];
    residual[j] = c->value - prediction->mean[c->channel];
    covariance->diagonal[j] = c->noise + evidence_own_variance (e, prediction, c->channel);
    put_severity (e, prediction, c->channel, covariance->row[j]);
  }
  if (!low_rank_fit (covariance, residual, &v->fit))
    return false;
  v->distance = v->fit.distance;
  v->log_plain = v->fit.log_density;
  v->log_likelihood = log_with_wrong (e, residual, v) + log_limits (e, prediction, &v->fit) + log (evidence_signs (e, h));
  return isfinite (v->log_likelihood);
}

void
evidence_marginal (const struct evidence *e, const struct prediction *prediction, const struct evidence_channel *c,
                   double *mean, double *variance)
{
  const struct observation *o = &e->observation[c->observation];
  double row[COLUMNS_MAX];

  evidence_row (e, prediction, c->channel, o->instrument, o->bias, row);
  *mean = prediction->mean[c->channel];
  *variance = c->noise + evidence_own_variance (e, prediction, c->channel);
  for (int k = 0; k < COLUMNS_MAX; k++)
    *variance += row[k] * row[k];
}

double
evidence_alone (const struct evidence *e, const struct prediction *prediction, const struct evidence_channel *c)
{
  double mean, variance, plain, most;

  evidence_marginal (e, prediction, c, &mean, &variance);
  plain = log1p (-e->options->wrong) + log_normal (c->value - mean, variance);
  if (e->options->wrong <= 0)
    return plain;
  most = fmax (plain, c->log_wide + log (e->options->wrong));
  return most + log (exp (plain - most) + exp (c->log_wide + log (e->options->wrong) - most));
}
