/* Cases drawn from the very model that the inference assumes: what comes out must be calibrated. This checks the code and
 * says nothing about cars. */
#include "cars.h"
#include "draw.h"
#include "near.h"
#include "posterior.h"
#include "signatures-private.h"
#include "workshop.h"

#include <string.h>

#define CASES 800
#define BINS 10

static int
draw_from (const double *weight, int count, double u)
{
  int i = 0;

  for (; i < count - 1 && (u -= weight[i]) >= 0; i++)
    ;
  return i;
}

/* By the priors: how many faults, which by their odds, how severe. A pair of the same cause is drawn again. */
static struct hypothesis
draw_hypothesis (const struct signatures *s, const struct posterior *prior, uint64_t seed)
{
  const struct diagnosis_options *o = &diagnosis_usual;
  const double kind[] = { o->healthy, o->one, o->two, o->none_of_these };
  double odds[CAUSES_MAX], severity[SEVERITIES], sum = 0;
  int what = draw_from (kind, 4, draw_uniform (seed, 0));
  struct hypothesis h = { .count = what == 3 ? 0 : what, .none = what == 3 };
  uint64_t n = 1;

  h.procedure = draw_uniform (seed, 20) < 0.5 ? EVERY_PROCEDURE : (int) (s->procedures * draw_uniform (seed, 21));

  for (int c = 0; c < s->causes; c++)
    sum += odds[c] = prior->cause[c].visible ? s->cause[c].fault->odds / (s->cause[c].cylinder < 0 ? 1 : s->car.cylinders) : 0;
  for (int c = 0; c < s->causes; c++)
    odds[c] /= sum;
  for (int i = 0; i < SEVERITIES; i++)
    severity[i] = severity_classes[i].weight;
  do
    for (int k = 0; k < h.count; k++) {
      h.cause[k] = draw_from (odds, s->causes, draw_uniform (seed, n++));
      h.severity[k] = draw_from (severity, SEVERITIES, draw_uniform (seed, n++));
    }
  while (h.count == 2 && h.cause[0] >= h.cause[1]);
  return h;
}

/* Readings by mean, columns and own variance; each of them may be wrong. */
static void
draw_readings (struct signatures *s, const struct hypothesis *h, uint64_t seed, struct observation *o)
{
  struct evidence *e = g_new (struct evidence, 1);
  struct prediction prediction;
  double column[COLUMNS_MAX], share = diagnosis_usual.wrong;
  int which;

  g_assert_cmpint (evidence_make (s, &diagnosis_usual, o, READINGS, NULL, 0, e, &which), ==, EVIDENCE_SOUND);
  g_assert_true (signatures_predict (s, h, &prediction));
  for (int k = 0; k < COLUMNS_MAX; k++)
    column[k] = draw_normal (seed, 5000 + (uint64_t) k);
  for (int j = 0; j < e->channels; j++) {
    const struct evidence_channel *c = &e->channel[j];
    struct observation *to = &o[c->observation];
    double row[COLUMNS_MAX], value = prediction.mean[c->channel];

    evidence_row (e, &prediction, c->channel, to->instrument, to->bias, row);
    for (int k = 0; k < COLUMNS_MAX; k++)
      value += row[k] * column[k];
    value += draw_normal (seed, 7000 + (uint64_t) j) * sqrt (c->noise + evidence_own_variance (e, &prediction, c->channel));
    if (draw_uniform (seed, 6000 + (uint64_t) j) < share) {
      double wide = 10 * s->usual[c->channel];
      value = s->healthy[c->channel]
              + draw_normal (seed, 8000 + (uint64_t) j) * sqrt (wide * wide + s->rms[c->channel] * s->rms[c->channel]);
    }
    to->value[MAX (c->cylinder, 0)] = c->cylinder < 0 ? value : fmax (1 + value, 0);
  }
  g_free (e);
}

struct tally {
  double claimed[BINS], right[BINS];
  int n[BINS], covered, top, sure, sure_right;
};

static void
count_case (const struct posterior *p, const struct hypothesis *h, struct tally *tally)
{
  double sum = 0;
  bool covered = false;

  for (int i = 0; i < p->sets && i < 5; i++) { /* every claim counts, not the first alone */
    const struct fault_set *set = &p->set[i];
    bool right = set->count == h->count && set->none == h->none
                 && memcmp (set->cause, h->cause, sizeof (int) * (size_t) h->count) == 0;
    int bin = MIN ((int) (set->probability * BINS), BINS - 1);
    tally->claimed[bin] += set->probability;
    tally->right[bin] += right;
    tally->n[bin]++;
    tally->top += i == 0 && right;
    if (set->probability > 0.9) {
      tally->sure++;
      tally->sure_right += right;
    }
  }
  for (int i = 0; i < p->sets && sum < 0.9; i++) {
    const struct fault_set *set = &p->set[i];
    sum += set->probability;
    covered |= set->count == h->count && set->none == h->none
               && memcmp (set->cause, h->cause, sizeof (int) * (size_t) h->count) == 0;
  }
  tally->covered += covered;
}

static void
test_calibrated (void)
{
  struct signatures *s = workshop_signatures (&hollin_six);
  struct diagnosis_options options = diagnosis_usual;
  struct observation blank[READINGS];
  struct tally tally = { 0 };
  struct posterior *prior;
  double error = 0, coverage;
  int claims = 0;

  for (int i = 0; i < READINGS; i++)
    g_assert_true (workshop_read (&hollin_six, &hollin_six, (enum reading_id) i, &blank[i]));
  g_assert_cmpint (posterior_make (s, NULL, 0, NULL, 0, NULL, NULL, NULL, &prior, NULL), ==, POSTERIOR_SOUND);
  options.temperature = 1; /* the generator is matched: nothing to make up for */
  for (uint64_t seed = 1; seed <= CASES; seed++) {
    struct hypothesis h = draw_hypothesis (s, prior, seed);
    struct observation o[READINGS];
    struct posterior *p;

    memcpy (o, blank, sizeof o);
    draw_readings (s, &h, seed, o);
    g_assert_cmpint (posterior_make (s, o, READINGS, NULL, 0, &options, NULL, NULL, &p, NULL), ==, POSTERIOR_SOUND);
    count_case (p, &h, &tally);
    posterior_free (p);
  }
  for (int i = 0; i < BINS; i++) {
    claims += tally.n[i];
    error += fabs (tally.claimed[i] - tally.right[i]);
    g_test_message ("claims %.1f: %d, claimed %.3f, right %.3f", i / 10.0, tally.n[i],
                    tally.claimed[i] / MAX (tally.n[i], 1), tally.right[i] / MAX (tally.n[i], 1));
  }
  error /= claims;
  coverage = (double) tally.covered / CASES;
  g_test_message ("top %d of %d, calibration error %.4f, coverage %.3f, above 0.9: %d of %d right", tally.top, CASES, error,
                  coverage, tally.sure_right, tally.sure);
  g_assert_cmpfloat (error, <, 0.02);
  g_assert_cmpfloat (coverage, >, 0.88); /* sets are whole: a little above 0.9 is meant */
  g_assert_cmpfloat (tally.sure_right, >=, 0.93 * tally.sure);
  g_assert_cmpint (tally.sure, >, CASES / 10);
  posterior_free (prior);
  signatures_free (s);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/matched/calibrated", test_calibrated);
  return g_test_run ();
}
