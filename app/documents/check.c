#include "check.h"

#include <math.h>

/* Judged only where there are a band and a value to hold against it. */
static void
judge (const struct job *job, const struct conditions *conditions, struct checked_reading *entry)
{
  const struct reading_kind *kind = entry->reading->kind;
  const struct band *band = &job->vehicle->bands[kind - reading_kinds];

  entry->agreement = AGREEMENT_UNDECIDED;
  entry->uncertainty = job_reading_uncertainty (entry->reading);
  entry->has_band = band_limits (band, kind, &job->vehicle->car, conditions, &entry->low, &entry->high);
  if (entry->has_band)
    entry->agreement = agreement_judge (entry->value, entry->low, entry->high, entry->uncertainty);
}

static void
check_one (const struct job *job, const struct conditions *conditions, struct checked_reading *entry, GArray *checked)
{
  entry->cylinder = -1;
  entry->value = entry->reading->value[0].si;
  entry->outcome = reading_expected (entry->reading->kind, &job->vehicle->car, conditions, 0, &entry->expected);
  judge (job, conditions, entry);
  g_array_append_val (checked, *entry);
}

/* Every cylinder that was typed, as its deviation from the mean of those typed; the model's over the same ones. A mean
 * of one says nothing. */
static void
check_each (const struct job *job, const struct conditions *conditions, struct checked_reading *entry, GArray *checked)
{
  const struct job_reading *reading = entry->reading;
  double expected[CYLINDERS_MAX] = { 0 }, mean = 0, expected_mean = 0;
  int values = MIN (reading->values, job->vehicle->car.cylinders), typed = 0;

  entry->outcome = OUTCOME_SOLVED;
  for (int i = 0; i < values; i++) {
    enum outcome outcome;
    if (*reading->value[i].text == 0)
      continue;
    outcome = reading_expected (reading->kind, &job->vehicle->car, conditions, i, &expected[i]);
    if (outcome != OUTCOME_SOLVED)
      entry->outcome = outcome;
    mean += reading->value[i].si;
    expected_mean += expected[i];
    typed++;
  }
  if (typed < 2 || !(mean > 0))
    return;
  mean /= typed;
  expected_mean /= typed;
  for (int i = 0; i < values; i++) {
    if (*reading->value[i].text == 0)
      continue;
    entry->cylinder = i;
    entry->value = reading->value[i].si / mean - 1;
    entry->expected = entry->outcome == OUTCOME_SOLVED && expected_mean > 0 ? expected[i] / expected_mean - 1 : 0;
    judge (job, conditions, entry);
    g_array_append_val (checked, *entry);
  }
}

GArray *
job_check (const struct job *job)
{
  GArray *checked;

  g_return_val_if_fail (job, NULL);
  checked = g_array_new (FALSE, TRUE, sizeof (struct checked_reading));
  for (guint i = 0; i < job->readings->len; i++) {
    struct checked_reading entry = { .reading = g_ptr_array_index (job->readings, i) };
    struct conditions conditions;
    job_conditions (job, entry.reading, &conditions);
    if (entry.reading->kind->each_cylinder)
      check_each (job, &conditions, &entry, checked);
    else if (*entry.reading->value[0].text)
      check_one (job, &conditions, &entry, checked);
  }
  return checked;
}
