#include "draw.h"
#include "information.h"
#include "low-rank.h"
#include "next-reading.h"
#include "text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SURE 0.90
#define SHARED 0.95         /* of the mass under one repair */
#define BITS_LEAST 0.02     /* a reading that tells less is not worth taking */
#define OUTLOOKS_MAX 160    /* hypotheses looked at: the likeliest */
#define MASS_LOOKED_AT 0.999
#define SAMPLES 96          /* of possible outcomes, for readings of several values */
#define WIDE_SHARE 10.0     /* as in evidence.c */
#define UNKNOWN_MINUTES 240.0 /* what is none of these, or was repaired in vain: searched from the beginning */
#define REPAIRS_MAX 64

const double setup_minutes[SETUPS] = { 3, 12, 6, 5, 30, 6 };

static const struct effort efforts[READINGS] = {
  [READING_DELIVERY] = { 3, SETUP_BRIDGE | SETUP_RETURN_GLASS, false },
  [READING_SYSTEM_PRESSURE] = { 2, SETUP_BRIDGE | SETUP_GAUGE, false },
  [READING_CONTROL_COLD] = { 3, SETUP_BRIDGE | SETUP_GAUGE, true },
  [READING_CONTROL_WARM] = { 3, SETUP_BRIDGE | SETUP_GAUGE | SETUP_HEATED, false },
  [READING_CONTROL_WITHOUT_VACUUM] = { 2, SETUP_BRIDGE | SETUP_GAUGE | SETUP_HEATED, false },
  [READING_CYLINDERS_SMALL] = { 5, SETUP_BRIDGE | SETUP_PLATE_OPEN | SETUP_GRADUATES, false },
  [READING_CYLINDERS_MIDDLE] = { 4, SETUP_BRIDGE | SETUP_PLATE_OPEN | SETUP_GRADUATES, false },
  [READING_CYLINDERS_FULL] = { 4, SETUP_BRIDGE | SETUP_PLATE_OPEN | SETUP_GRADUATES, false },
  [READING_REST_HEIGHT] = { 4, SETUP_PLATE_OPEN, false },
};

const char *
setup_name (enum setup setup)
{
  switch (setup) {
  case SETUP_BRIDGE:
    return N_("pump relay bridged");
  case SETUP_GAUGE:
    return N_("gauge and tap in the control line, bled");
  case SETUP_RETURN_GLASS:
    return N_("return line into the measuring glass");
  case SETUP_PLATE_OPEN:
    return N_("air duct off the sensor plate");
  case SETUP_GRADUATES:
    return N_("nozzles out and in graduates, ignition disabled, vessel earthed");
  case SETUP_HEATED:
    return N_("warm-up regulator heated");
  case SETUPS:
  default:
    return "";
  }
}

const struct effort *
reading_effort (enum reading_id id)
{
  return &efforts[id];
}

const char *
stop_text (enum stop stop)
{
  switch (stop) {
  case STOP_SURE:
    return N_("The leading answer is above 90 %.");
  case STOP_SAME_REPAIR:
    return N_("All that remain are mended by the same repair.");
  case STOP_NOT_WORTH:
    return N_("No further reading in the catalogue is worth its minutes.");
  case STOP_HELD_BACK:
    return N_("What is left may not be taken as things stand.");
  case STOP_NONE_LEFT:
    return N_("All readings in the catalogue have been taken.");
  case STOP_NOT_YET:
  default:
    return "";
  }
}

/* -- repairs --------------------------------------------------------------------------------------------------------------- */

double
repair_minutes (const struct fault *fault)
{
  static const double minutes[FAULT_SYSTEMS] = {
    [FAULT_IN_SUPPLY] = 60, [FAULT_IN_CONTROL] = 45, [FAULT_IN_METERING] = 90, [FAULT_IN_AIR] = 45,
    [FAULT_IN_NOZZLES] = 30, [FAULT_IN_STARTING] = 45, [FAULT_IN_FUEL] = 60, [FAULT_OUTSIDE] = 120,
  };

  return (unsigned) fault->system < FAULT_SYSTEMS ? minutes[fault->system] : UNKNOWN_MINUTES;
}

static int
compare_repairs (const void *a, const void *b)
{
  const struct repair *x = a, *y = b;

  if (x->probability != y->probability)
    return x->probability < y->probability ? 1 : -1;
  return x->what - y->what;
}

int
posterior_repairs (const struct posterior *p, struct repair *repairs, int most)
{
  const struct signatures *s = p->evidence.signatures;
  struct repair *all = calloc ((size_t) s->causes + 1, sizeof *all);
  int count = 0;

  for (int c = 0; all && c < s->causes; c++) {
    if (c > 0 && s->cause[c].fault == s->cause[c - 1].fault) {
      if (p->cause[c].probability > p->cause[all[count - 1].what].probability)
        all[count - 1].what = c;
      continue;
    }
    all[count++] = (struct repair) { c, posterior_fault (p, s->cause[c].fault), repair_minutes (s->cause[c].fault) };
  }
  if (count > 0)
    qsort (all, (size_t) count, sizeof *all, compare_repairs);
  count = count < most ? count : most;
  while (count > 0 && all[count - 1].probability < 0.001)
    count--;
  if (count > 0)
    memcpy (repairs, all, sizeof *all * (size_t) count);
  free (all);
  repair_order (repairs, count);
  return count;
}

/* -- what a reading saves ------------------------------------------------------------------------------------------------- */

/* The fault sets as alternatives, each with the repair that mends it: sets of one repair count together. */
struct bench {
  int sets, repairs;
  double minutes[REPAIRS_MAX];
  const char *text[REPAIRS_MAX];
  int *repair_of;   /* by set: number of its repair; REPAIR_NONE, REPAIR_UNKNOWN */
  double sum, mass; /* expected minutes over the outcomes seen */
};

enum { REPAIR_NONE = -1, REPAIR_UNKNOWN = -2 };

static int
repair_of_set (struct bench *b, const struct signatures *s, const struct fault_set *set)
{
  double minutes = 0;
  const char *text = NULL;

  if (set->count == 0)
    return set->none ? REPAIR_UNKNOWN : REPAIR_NONE;
  for (int k = 0; k < set->count; k++)
    minutes += repair_minutes (s->cause[set->cause[k]].fault);
  if (set->count == 1)
    text = s->cause[set->cause[0]].fault->repair;
  for (int i = 0; text && i < b->repairs; i++)
    if (b->text[i] && strcmp (b->text[i], text) == 0)
      return i;
  if (b->repairs == REPAIRS_MAX)
    return REPAIR_UNKNOWN;
  b->minutes[b->repairs] = minutes;
  b->text[b->repairs] = text;
  return b->repairs++;
}

static bool
set_up_bench (const struct posterior *p, struct bench *b)
{
  *b = (struct bench) { .sets = p->sets };
  b->repair_of = calloc ((size_t) p->sets + 1, sizeof *b->repair_of);
  for (int i = 0; b->repair_of && i < p->sets; i++)
    b->repair_of[i] = repair_of_set (b, p->evidence.signatures, &p->set[i]);
  return b->repair_of != NULL;
}

/* Expected minutes of the best plan: so many repairs in the order p/c, then the car goes; what is still wrong with it
 * then costs a search from the beginning. */
static double
minutes_of_plan (const struct bench *b, const double *probability)
{
  struct repair repair[REPAIRS_MAX];
  double ill = 1, left = 1, spent = 0, best;

  for (int i = 0; i < b->repairs; i++)
    repair[i] = (struct repair) { i, 0, b->minutes[i] };
  for (int i = 0; i < b->sets; i++) {
    if (b->repair_of[i] >= 0)
      repair[b->repair_of[i]].probability += probability[i];
    if (b->repair_of[i] == REPAIR_NONE)
      ill -= probability[i];
  }
  repair_order (repair, b->repairs);
  best = ill * UNKNOWN_MINUTES;
  for (int i = 0; i < b->repairs && repair[i].probability > 0; i++) {
    spent += left * repair[i].minutes;
    left -= repair[i].probability;
    ill -= repair[i].probability;
    best = fmin (best, spent + fmax (ill, 0) * UNKNOWN_MINUTES);
  }
  return best;
}

static void
see_outcome (void *data, double density, const double *after)
{
  struct bench *b = data;

  b->sum += density * minutes_of_plan (b, after);
  b->mass += density;
}

static double
minutes_now (const struct posterior *p, const struct bench *b)
{
  double *probability = calloc ((size_t) p->sets + 1, sizeof *probability);
  double minutes = 0;

  if (!probability)
    return 0;
  for (int i = 0; i < p->sets; i++)
    probability[i] = p->set[i].probability;
  minutes = minutes_of_plan (b, probability);
  free (probability);
  return minutes;
}

/* -- what a reading tells --------------------------------------------------------------------------------------------------- */

/* What a candidate would read under each of the likeliest hypotheses. */
struct prospect {
  int hypotheses, classes, values;
  struct outlook *outlook;                      /* of the first value */
  double (*mean)[CYLINDERS_MAX];
  double (*factor)[CYLINDERS_MAX * CYLINDERS_MAX]; /* lower Cholesky factor of the covariance */
};

static void
prospect_free (struct prospect *t)
{
  free (t->outlook);
  free (t->mean);
  free (t->factor);
}

static bool
prospect_make (struct posterior *p, const struct observation *candidate, struct prospect *t)
{
  const struct signatures *s = p->evidence.signatures;
  double sum = 0;

  *t = (struct prospect) { .classes = p->sets, .values = s->procedure[signatures_find (s, candidate)].channels };
  t->outlook = calloc (OUTLOOKS_MAX, sizeof *t->outlook);
  t->mean = calloc (OUTLOOKS_MAX, sizeof *t->mean);
  t->factor = calloc (OUTLOOKS_MAX, sizeof *t->factor);
  if (!t->outlook || !t->mean || !t->factor)
    return false;
  for (int i = 0; i < p->hypotheses && t->hypotheses < OUTLOOKS_MAX && sum < MASS_LOOKED_AT; i++) {
    int n = t->hypotheses;
    if (!posterior_predict (p, i, candidate, t->mean[n], t->factor[n]))
      continue;
    t->outlook[n] = (struct outlook) { p->hypothesis[i].weight, t->mean[n][0], t->factor[n][0], p->hypothesis[i].set };
    if (!cholesky (t->factor[n], t->values, CYLINDERS_MAX))
      continue;
    sum += p->hypothesis[i].weight;
    t->hypotheses++;
  }
  for (int i = 0; i < t->hypotheses; i++)
    t->outlook[i].weight /= sum;
  return true;
}

static double
log_density (const struct prospect *t, int hypothesis, const double *y)
{
  const double *factor = t->factor[hypothesis];
  double x[CYLINDERS_MAX], log_sum = 0;

  for (int i = 0; i < t->values; i++) {
    double sum = y[i] - t->mean[hypothesis][i];
    for (int k = 0; k < i; k++)
      sum -= factor[i * CYLINDERS_MAX + k] * x[k];
    x[i] = sum / factor[i * CYLINDERS_MAX + i];
    log_sum -= 0.5 * x[i] * x[i] + log (factor[i * CYLINDERS_MAX + i]);
  }
  return log_sum;
}

/* One possible outcome of several values, drawn from a hypothesis. */
static void
draw_outcome (const struct prospect *t, int hypothesis, int sample, double *y)
{
  double z[CYLINDERS_MAX];

  for (int i = 0; i < t->values; i++)
    z[i] = draw_normal (3, (uint64_t) sample * CYLINDERS_MAX + (uint64_t) i);
  for (int i = 0; i < t->values; i++) {
    y[i] = t->mean[hypothesis][i];
    for (int k = 0; k <= i; k++)
      y[i] += t->factor[hypothesis][i * CYLINDERS_MAX + k] * z[k];
  }
}

/* Several values: outcomes drawn in proportion to the hypotheses. A set with one wrong value is taken to tell nothing. */
static double
information_by_samples (const struct prospect *t, double wrong, struct bench *bench)
{
  double *joint = calloc ((size_t) t->classes * 3, sizeof *joint), *prior = joint + t->classes, *after = prior + t->classes;
  double bits = 0, reached = 0;
  int hypothesis = -1;

  if (!joint || t->hypotheses == 0) {
    free (joint);
    return 0;
  }
  for (int i = 0; i < t->hypotheses; i++)
    prior[t->outlook[i].class] += t->outlook[i].weight;
  for (int g = 0; g < SAMPLES; g++) {
    double y[CYLINDERS_MAX], most = -INFINITY, density[OUTLOOKS_MAX];
    while (hypothesis + 1 < t->hypotheses && (hypothesis < 0 || reached < (g + 0.5) / SAMPLES))
      reached += t->outlook[++hypothesis].weight;
    draw_outcome (t, hypothesis, g, y);
    for (int i = 0; i < t->hypotheses; i++)
      most = fmax (most, density[i] = log_density (t, i, y));
    memset (joint, 0, sizeof *joint * (size_t) t->classes);
    for (int i = 0; i < t->hypotheses; i++)
      joint[t->outlook[i].class] += t->outlook[i].weight * exp (density[i] - most);
    bits += information_gained (joint, prior, t->classes, after);
    see_outcome (bench, 1, after);
  }
  free (joint);
  return bits / SAMPLES * pow (1 - wrong, t->values);
}

static bool
judge (struct posterior *p, const struct observation *candidate, struct bench *bench, double now,
       struct advised *advised)
{
  const struct signatures *s = p->evidence.signatures;
  int channel = s->procedure[signatures_find (s, candidate)].first;
  double width = WIDE_SHARE * s->usual[channel];
  struct wide wide = { p->options.wrong, s->healthy[channel], width * width + s->rms[channel] * s->rms[channel] };
  struct prospect prospect;
  bool made = prospect_make (p, candidate, &prospect);

  bench->sum = bench->mass = 0;
  if (made && prospect.values == 1)
    advised->bits = information_over_grid (prospect.outlook, prospect.hypotheses, p->sets, &wide, see_outcome, bench);
  else if (made)
    advised->bits = information_by_samples (&prospect, p->options.wrong, bench);
  advised->minutes_saved = bench->mass > 0 ? fmax (now - bench->sum / bench->mass, 0) : 0;
  prospect_free (&prospect);
  return made;
}

/* -- the list ------------------------------------------------------------------------------------------------------------------ */

static void
weigh (const struct observation *candidate, const struct situation *situation, struct advised *advised)
{
  const struct effort *effort = &efforts[candidate->kind - reading_kinds];

  advised->minutes = effort->minutes;
  for (int i = 0; i < SETUPS; i++)
    if (effort->setups & ~situation->setups & 1u << i)
      advised->minutes += setup_minutes[i];
  advised->held_back = candidate->kind->hazards & ~situation->cleared;
  advised->too_late = effort->needs_cold && !situation->engine_cold;
  advised->perishes = effort->needs_cold && situation->engine_cold;
}

/* What may be taken before what may not; then what perishes and tells anything; then bits by minute. */
static int
compare_advised (const void *a, const void *b)
{
  const struct advised *x = a, *y = b;
  bool x_barred = x->held_back || x->too_late, y_barred = y->held_back || y->too_late;
  bool x_perishes = x->perishes && x->bits >= BITS_LEAST, y_perishes = y->perishes && y->bits >= BITS_LEAST;
  double left = x->bits * y->minutes, right = y->bits * x->minutes;

  if (x_barred != y_barred)
    return x_barred - y_barred;
  if (x_perishes != y_perishes)
    return y_perishes - x_perishes;
  if (left != right)
    return left < right ? 1 : -1;
  return x->candidate - y->candidate;
}

static bool
shares_one_repair (const struct posterior *p, const struct bench *b)
{
  double mass[REPAIRS_MAX] = { 0 };

  for (int i = 0; i < p->sets; i++)
    if (b->repair_of[i] >= 0 && (mass[b->repair_of[i]] += p->set[i].probability) >= SHARED)
      return true;
  return false;
}

static enum stop
when_to_stop (const struct posterior *p, const struct bench *bench, const struct advice *advice)
{
  bool free_left = false;

  if (p->sets > 0 && p->set[0].probability > SURE && !p->set[0].none)
    return STOP_SURE;
  if (shares_one_repair (p, bench))
    return STOP_SAME_REPAIR;
  if (advice->count == 0)
    return STOP_NONE_LEFT;
  for (int i = 0; i < advice->count; i++) {
    const struct advised *a = &advice->reading[i];
    if (a->held_back || a->too_late)
      continue;
    free_left = true;
    if (a->bits >= BITS_LEAST && a->minutes_saved > a->minutes)
      return STOP_NOT_YET;
  }
  return free_left ? STOP_NOT_WORTH : STOP_HELD_BACK;
}

bool
next_reading (struct posterior *p, const struct observation *candidates, int count,
              const struct situation *situation, keep_going go, void *data, struct advice *advice)
{
  struct bench bench;
  bool complete = set_up_bench (p, &bench);

  memset (advice, 0, sizeof *advice);
  if (complete)
    advice->expected_minutes = minutes_now (p, &bench);
  for (int i = 0; complete && i < count && advice->count < CANDIDATES_MAX; i++) {
    struct advised *advised = &advice->reading[advice->count];
    if (go && !go (data, (double) i / count))
      complete = false;
    if (!complete || signatures_find (p->evidence.signatures, &candidates[i]) < 0)
      continue;
    advised->candidate = i;
    weigh (&candidates[i], situation, advised);
    complete = judge (p, &candidates[i], &bench, advice->expected_minutes, advised);
    advice->count++;
  }
  if (complete) {
    qsort (advice->reading, (size_t) advice->count, sizeof *advice->reading, compare_advised);
    advice->stop = when_to_stop (p, &bench, advice);
  }
  free (bench.repair_of);
  return complete;
}
