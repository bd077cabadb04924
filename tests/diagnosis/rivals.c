#include "rivals.h"
#include "score.h"

#include <math.h>

static double
distance (const struct posterior *p, const double *expected)
{
  double sum = 0;

  for (int j = 0; j < p->evidence.channels; j++) {
    const struct evidence_channel *c = &p->evidence.channel[j];
    sum += (c->value - expected[c->channel]) * (c->value - expected[c->channel]) / c->noise;
  }
  return sum;
}

int
nearest_signature (const struct posterior *p)
{
  const struct signatures *s = p->evidence.signatures;
  double least = distance (p, s->healthy);
  int nearest = RIVAL_HEALTHY;

  for (int c = 0; c < s->causes; c++)
    for (int i = 0; p->cause[c].visible && i < SEVERITIES; i++)
      if (distance (p, signatures_single (s, c, i)) < least) {
        least = distance (p, signatures_single (s, c, i));
        nearest = c;
      }
  return nearest;
}

/* -1 low, 0 right, 1 high. */
static int
verdict (const struct posterior *p, int channel, double value)
{
  double low, high;

  if (!posterior_band (p, channel, -1, &low, &high))
    return 0;
  return (value > high) - (value < low);
}

int
rule_table (const struct posterior *p)
{
  const struct signatures *s = p->evidence.signatures;
  int best = RIVAL_HEALTHY, most = 0;

  for (int j = 0; j < p->evidence.channels; j++)
    most += verdict (p, j, p->evidence.channel[j].value) == 0;
  for (int c = 0; c < s->causes; c++) {
    int matches = 0;
    for (int j = 0; p->cause[c].visible && j < p->evidence.channels; j++) {
      double expected = signatures_single (s, c, 3)[p->evidence.channel[j].channel];
      matches += verdict (p, j, expected) == verdict (p, j, p->evidence.channel[j].value);
    }
    if (matches > most
        || (matches == most && best != RIVAL_HEALTHY && s->cause[c].fault->odds > s->cause[best].fault->odds)) {
      most = matches;
      best = c;
    }
  }
  return best;
}

bool
rival_is_right (const struct posterior *p, int cause, const struct hidden_case *hidden)
{
  struct fault_set set = { .count = cause != RIVAL_HEALTHY, .cause = { cause } };

  return set_is_right (p, &set, hidden);
}
