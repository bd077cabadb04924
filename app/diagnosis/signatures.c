#include "draw.h"
#include "parameter.h"
#include "signatures-private.h"
#include "solve.h"
#include "spread.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define PAIR_ENTRIES 4096     /* a power of two; about 3 MB */
#define MOVED_SHARE 1e-6      /* of the usual uncertainty: less is the solver's rounding */
#define ROOT_12 3.4641016151377544

/* Edges in geometric steps from a tenth of the worst: below that a fault is within what is built. */
const struct severity_class severity_classes[SEVERITIES] = {
  { 0.1000, 0.12340, 0.1468, 0.0520 }, { 0.1468, 0.18115, 0.2155, 0.0763 }, { 0.2155, 0.26585, 0.3162, 0.1119 },
  { 0.3162, 0.39020, 0.4642, 0.1644 }, { 0.4642, 0.57280, 0.6814, 0.2413 }, { 0.6814, 0.84070, 1.0000, 0.3541 },
};

/* -- one procedure on one car ---------------------------------------------------------------------------------------- */

static bool
same_conditions (const struct conditions *a, const struct conditions *b)
{
  for (int i = 0; i < condition_count; i++)
    if (*condition_in ((struct conditions *) a, &condition_table[i])
        != *condition_in ((struct conditions *) b, &condition_table[i]))
      return false;
  return a->heater_unplugged == b->heater_unplugged && a->tap_shut == b->tap_shut && a->approach == b->approach
         && a->held == b->held && a->held_lift == b->held_lift
         && a->held_control_pressure == b->held_control_pressure && a->held_system_pressure == b->held_system_pressure
         && a->held_bimetal_temperature == b->held_bimetal_temperature;
}

/* Flows of the cylinders read become deviations from their mean; without any fuel all are 0. */
static void
take_cylinders (const struct procedure *p, const struct car *car, const struct conditions *conditions,
                const struct state *state, double *value)
{
  double mean = 0;
  int n = 0;

  for (int i = 0; i < car->cylinders; i++)
    if (p->cylinders >> i & 1)
      mean += value[n++] = p->kind->take (car, conditions, state, i);
  mean /= n;
  for (int i = 0; i < n; i++)
    value[i] = mean > 0 ? value[i] / mean - 1 : 0;
}

static bool
take (const struct procedure *p, const struct car *car, const struct conditions *conditions, double *value)
{
  struct state state;

  if (metering_solve_checked (car, conditions, &state) != OUTCOME_SOLVED)
    return false;
  if (p->kind->each_cylinder)
    take_cylinders (p, car, conditions, &state, value);
  else
    value[0] = p->kind->take (car, conditions, &state, 0);
  return true;
}

/* -- healthy units ---------------------------------------------------------------------------------------------------- */

/* What the person typed of the conditions is uncertain too, alike for all readings of a visit; standard deviations,
 * common practice, no source: thermometer 1.5 K, fuel 4 K, voltmeter 0.1 V, vacuum gauge 3 %, watch 5 %. */
static void
shift_conditions (const struct procedure *p, int unit, struct conditions *c)
{
  uint64_t number = (uint64_t) unit * 8;
  struct conditions before = *c;

  if (p->kind->asks_temperature)
    c->block_temperature += 1.5 * draw_normal (1, number);
  c->fuel_temperature += 4.0 * draw_normal (1, number + 1);
  if (p->kind->asks_voltage)
    c->voltage += 0.1 * draw_normal (1, number + 2);
  c->vacuum *= 1 + 0.03 * draw_normal (1, number + 3);
  c->heater_time *= fmax (1 + 0.05 * draw_normal (1, number + 4), 0);
  if (!conditions_check (c, NULL)) /* at the edge of what can be typed */
    *c = before;
}

static void
take_spread (struct signatures *s, const struct procedure *p)
{
  const double *healthy = s->healthy + p->first;
  double value[CYLINDERS_MAX];

  for (int u = 0; s->unit && u < UNITS; u++) {
    struct conditions c = p->arranged;
    double *deviation = s->spread + u * CHANNELS_MAX + p->first;
    shift_conditions (p, u, &c);
    if (!take (p, &s->unit[u], &c, value))
      memcpy (value, healthy, sizeof (double) * (size_t) p->channels);
    for (int i = 0; i < p->channels; i++)
      deviation[i] = value[i] - healthy[i];
  }
}

static void
draw_units (struct signatures *s, const struct signature_source *source)
{
  for (unsigned u = 0; u < UNITS; u++) {
    s->unit[u] = s->car;
    source->draw (source->draw_data, u, &s->unit[u]);
    if (!car_check (&s->unit[u], NULL))
      s->unit[u] = s->car;
  }
}

/* -- faults ------------------------------------------------------------------------------------------------------------ */

static double *
single_in (struct signatures *s, int cause, int severity)
{
  return s->single + ((size_t) cause * SEVERITIES + (size_t) severity) * CHANNELS_MAX;
}

const double *
signatures_single (const struct signatures *s, int cause, int severity)
{
  return s->single + ((size_t) cause * SEVERITIES + (size_t) severity) * CHANNELS_MAX;
}

static struct fault_dose
dose_of (const struct signatures *s, int cause, int severity)
{
  return (struct fault_dose) { s->cause[cause].fault, severity_classes[severity].middle,
                               s->cause[cause].cylinder < 0 ? 0 : s->cause[cause].cylinder };
}

static bool
differs (const struct signatures *s, const struct procedure *p, const double *value)
{
  for (int i = p->first; i < p->first + p->channels; i++)
    if (fabs (value[i] - s->healthy[i]) > MOVED_SHARE * s->usual[i])
      return true;
  return false;
}

/* All severities of a cause; one that the model cannot solve is left out of everything. */
static void
take_cause (struct signatures *s, int number, int cause)
{
  const struct procedure *p = &s->procedure[number];

  for (int severity = 0; severity < SEVERITIES; severity++) {
    struct fault_dose dose = dose_of (s, cause, severity);
    double *value = single_in (s, cause, severity);
    struct car car;
    bool valid = faults_apply (&s->car, &dose, 1, &car, NULL) && take (p, &car, &p->arranged, value + p->first);
    if (!valid) {
      s->failed[cause * SEVERITIES + severity] |= 1u << number;
      memcpy (value + p->first, s->healthy + p->first, sizeof (double) * (size_t) p->channels);
    } else if (differs (s, p, value)) {
      s->moved[cause] |= 1u << number;
    }
  }
}

static void
take_rms (struct signatures *s, const struct procedure *p, int number)
{
  for (int i = p->first; i < p->first + p->channels; i++) {
    double sum = 0;
    int n = 0;
    for (int cause = 0; cause < s->causes; cause++)
      for (int severity = 0; (s->moved[cause] >> number & 1) && severity < SEVERITIES; severity++, n++) {
        double effect = signatures_single (s, cause, severity)[i] - s->healthy[i];
        sum += effect * effect;
      }
    s->rms[i] = n ? sqrt (sum / n) : 0;
  }
}

/* -- pairs -------------------------------------------------------------------------------------------------------------- */

static struct pair_entry *
pair_find (struct signatures *s, const struct hypothesis *h)
{
  uint64_t key = 1;
  uint64_t at;

  for (int i = 0; i < 2; i++)
    key = (key * CAUSES_MAX + (uint64_t) h->cause[i]) * SEVERITIES + (uint64_t) h->severity[i];
  at = draw_bits (2, key) % PAIR_ENTRIES;
  while (s->pair[at].key && s->pair[at].key != key)
    at = (at + 1) % PAIR_ENTRIES;
  if (s->pair[at].key)
    return &s->pair[at];
  if (4 * s->pairs > 3 * PAIR_ENTRIES) { /* begin anew */
    memset (s->pair, 0, sizeof *s->pair * PAIR_ENTRIES);
    s->pairs = 0;
    at = draw_bits (2, key) % PAIR_ENTRIES;
  }
  s->pairs++;
  s->pair[at] = (struct pair_entry) { .key = key, .valid = true };
  return &s->pair[at];
}

/* Only a procedure that both faults move is run again; else the value is that of the fault that moves it. */
static const struct pair_entry *
take_pair (struct signatures *s, const struct hypothesis *h)
{
  struct pair_entry *entry = pair_find (s, h);
  unsigned both = s->moved[h->cause[0]] & s->moved[h->cause[1]];
  bool applied = false, sound = false;
  struct car car;

  for (int k = 0; k < s->procedures; k++) {
    const struct procedure *p = &s->procedure[k];
    int mover = s->moved[h->cause[1]] >> k & 1;
    if (entry->done >> k & 1)
      continue;
    entry->done |= 1u << k;
    memcpy (entry->value + p->first, signatures_single (s, h->cause[mover], h->severity[mover]) + p->first,
            sizeof (double) * (size_t) p->channels);
    if (!(both >> k & 1))
      continue;
    if (!applied) {
      struct fault_dose doses[2] = { dose_of (s, h->cause[0], h->severity[0]), dose_of (s, h->cause[1], h->severity[1]) };
      sound = faults_apply (&s->car, doses, 2, &car, NULL);
      applied = true;
    }
    entry->valid = sound && take (p, &car, &p->arranged, entry->value + p->first) && entry->valid;
  }
  return entry;
}

/* -- prediction ---------------------------------------------------------------------------------------------------------- */

/* How the readings move within the class: slope between its neighbours times the class's width, as a rectangle's. */
static void
severity_column (const struct signatures *s, int cause, int severity, double *column)
{
  int before = severity - 1, after = severity + 1 < SEVERITIES ? severity + 1 : severity;
  const double *low = before < 0 ? s->healthy : signatures_single (s, cause, before);
  const double *high = signatures_single (s, cause, after);
  double from = before < 0 ? 0 : severity_classes[before].middle, to = severity_classes[after].middle;
  double width = severity_classes[severity].high - severity_classes[severity].low;

  for (int i = 0; i < s->channels; i++)
    column[i] = (high[i] - low[i]) / (to - from) * width / ROOT_12;
}

bool
signatures_predict (struct signatures *s, const struct hypothesis *h, struct prediction *prediction)
{
  const double *mean = s->healthy;

  prediction->columns = h->count;
  for (int k = 0; k < h->count; k++)
    if (s->failed[h->cause[k] * SEVERITIES + h->severity[k]])
      return false;
  if (h->count == 1)
    mean = signatures_single (s, h->cause[0], h->severity[0]);
  if (h->count == 2) {
    const struct pair_entry *entry = take_pair (s, h);
    mean = entry->value;
    if (!entry->valid)
      return false;
  }
  for (int i = 0; i < s->channels; i++) {
    prediction->mean[i] = mean[i];
    prediction->error[i] = 0;
    prediction->wide[i] = 0;
  }
  for (int k = 0; h->none && k < s->procedures; k++)
    for (int i = s->procedure[k].first; i < s->procedure[k].first + s->procedure[k].channels; i++)
      if (h->procedure == k || h->procedure == EVERY_PROCEDURE)
        prediction->wide[i] = s->rms[i] * s->rms[i];
  for (int k = 0; k < h->count; k++) {
    const double *single = signatures_single (s, h->cause[k], h->severity[k]);
    for (int i = 0; i < s->channels; i++)
      prediction->error[i] += (single[i] - s->healthy[i]) * (single[i] - s->healthy[i]);
    severity_column (s, h->cause[k], h->severity[k], prediction->severity[k]);
  }
  return true;
}

/* -- public --------------------------------------------------------------------------------------------------------------- */

static int
count_causes (const struct signature_source *source)
{
  int causes = 0;

  for (int i = 0; i < source->fault_count; i++)
    causes += source->faults[i].one_cylinder ? source->car->cylinders : 1;
  return causes;
}

static void
list_causes (struct signatures *s, const struct signature_source *source)
{
  for (int i = 0; i < source->fault_count; i++) {
    const struct fault *fault = &source->faults[i];
    for (int j = 0; j < (fault->one_cylinder ? s->car.cylinders : 1); j++)
      s->cause[s->causes++] = (struct cause) { fault, fault->one_cylinder ? j : -1 };
  }
}

struct signatures *
signatures_new (const struct signature_source *source)
{
  struct signatures *s;
  size_t causes;

  if (source->fault_count < 0 || !car_check (source->car, NULL) || count_causes (source) > CAUSES_MAX)
    return NULL;
  s = calloc (1, sizeof *s);
  if (!s)
    return NULL;
  causes = (size_t) count_causes (source) + 1;
  s->car = *source->car;
  s->cause = calloc (causes, sizeof *s->cause);
  s->single = calloc (causes * SEVERITIES * CHANNELS_MAX, sizeof *s->single);
  s->failed = calloc (causes * SEVERITIES, sizeof *s->failed);
  s->moved = calloc (causes, sizeof *s->moved);
  s->pair = calloc (PAIR_ENTRIES, sizeof *s->pair);
  s->spread = calloc ((size_t) UNITS * CHANNELS_MAX, sizeof *s->spread);
  s->unit = source->draw ? calloc (UNITS, sizeof *s->unit) : NULL;
  if (!s->cause || !s->single || !s->failed || !s->moved || !s->pair || !s->spread || (source->draw && !s->unit)) {
    signatures_free (s);
    return NULL;
  }
  list_causes (s, source);
  if (s->unit)
    draw_units (s, source);
  return s;
}

void
signatures_free (struct signatures *s)
{
  if (!s)
    return;
  free (s->cause);
  free (s->single);
  free (s->failed);
  free (s->moved);
  free (s->pair);
  free (s->spread);
  free (s->unit);
  free (s);
}

int
signatures_find (const struct signatures *s, const struct observation *o)
{
  for (int k = 0; k < s->procedures; k++)
    if (s->procedure[k].kind == o->kind && s->procedure[k].cylinders == o->cylinders
        && same_conditions (&s->procedure[k].conditions, &o->conditions))
      return k;
  return -1;
}

static int
count_bits (unsigned bits)
{
  int n = 0;

  for (; bits; bits &= bits - 1)
    n++;
  return n;
}

int
signatures_add (struct signatures *s, const struct observation *o, keep_going go, void *data)
{
  int number = signatures_find (s, o), channels = o->kind->each_cylinder ? count_bits (o->cylinders) : 1;
  struct procedure *p = &s->procedure[s->procedures];
  unsigned bit;

  if (number >= 0)
    return number;
  if (s->procedures == PROCEDURES_MAX || s->channels + channels > CHANNELS_MAX)
    return SIGNATURES_FULL;
  number = s->procedures;
  bit = 1u << number;
  *p = (struct procedure) { o->kind, o->conditions, o->conditions, o->cylinders, s->channels, channels };
  p->kind->arrange (&s->car, &p->arranged);
  if (!conditions_check (&p->arranged, NULL) || !take (p, &s->car, &p->arranged, s->healthy + p->first))
    return SIGNATURES_UNSOLVED;
  for (int i = 0; i < channels; i++)
    s->usual[p->first + i] = p->kind->usual_uncertainty;
  for (int cause = 0; cause < s->causes; cause++) { /* one that was stopped may have left its marks */
    s->moved[cause] &= ~bit;
    for (int severity = 0; severity < SEVERITIES; severity++)
      s->failed[cause * SEVERITIES + severity] &= ~bit;
  }
  for (int cause = 0; cause < s->causes; cause++) {
    if (go && !go (data, 0.8 * cause / s->causes))
      return SIGNATURES_STOPPED;
    take_cause (s, number, cause);
  }
  take_rms (s, p, number);
  take_spread (s, p);
  s->procedures++;
  s->channels += channels;
  s->columns = s->unit ? spread_columns (s->spread, UNITS, s->channels, s->usual, s->row, s->rest) : 0;
  return number;
}

int
signatures_causes (const struct signatures *s)
{
  return s->causes;
}

const struct cause *
signatures_cause (const struct signatures *s, int cause)
{
  return cause >= 0 && cause < s->causes ? &s->cause[cause] : NULL;
}

const struct car *
signatures_car (const struct signatures *s)
{
  return &s->car;
}
