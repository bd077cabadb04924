/* A job in memory: made, copied, freed, and what is derived from it. */
#include "job-document.h"
#include "number-text.h"

#include <math.h>

#define COVERAGE_95 1.96 /* of a normal distribution, JCGM 100:2008 G.2.3 table G.1 */

#define ROW(member, condition) { #member, offsetof (struct typed_conditions, member), condition }
const struct typed_condition typed_condition_rows[TYPED_CONDITIONS] = {
  ROW (ambient, "ambient"), ROW (altitude, "altitude"), ROW (temperature, "coolant"), ROW (voltage, "voltage"),
  ROW (vacuum, "vacuum"),   ROW (minutes, "minutes"),   ROW (fuel, "fuel"),
};
#undef ROW

struct typed *
typed_condition_in (struct typed_conditions *conditions, const struct typed_condition *row)
{
  return (struct typed *) (void *) ((char *) conditions + row->offset);
}

const struct typed *
typed_condition_get (const struct typed_conditions *conditions, const struct typed_condition *row)
{
  return (const struct typed *) (const void *) ((const char *) conditions + row->offset);
}

static void
typed_init (struct typed *typed)
{
  *typed = (struct typed) { g_strdup (""), NULL, 0 };
}

void
typed_clear (struct typed *typed)
{
  g_free (typed->text);
  typed_init (typed);
}

void
typed_set (struct typed *typed, const char *text, const struct unit *unit)
{
  double value = 0;
  char *copy;

  g_return_if_fail (typed && text);
  g_return_if_fail (*text == 0 || (unit && number_parse (text, &value, NULL)));
  copy = g_strdup (text); /* text may be the one that is replaced */
  g_free (typed->text);
  *typed = (struct typed) { copy, unit, *text ? unit_to_si (unit, value) : 0 };
}

static void
typed_copy (struct typed *typed, const struct typed *from)
{
  *typed = *from;
  typed->text = g_strdup (from->text);
}

static void
conditions_init (struct typed_conditions *conditions)
{
  *conditions = (struct typed_conditions) { .vacuum_source = VACUUM_NONE };
  for (int i = 0; i < TYPED_CONDITIONS; i++)
    typed_init (typed_condition_in (conditions, &typed_condition_rows[i]));
}

static void
conditions_copy (struct typed_conditions *conditions, const struct typed_conditions *from)
{
  *conditions = *from;
  for (int i = 0; i < TYPED_CONDITIONS; i++)
    typed_copy (typed_condition_in (conditions, &typed_condition_rows[i]),
                typed_condition_get (from, &typed_condition_rows[i]));
}

static void
conditions_free (struct typed_conditions *conditions)
{
  for (int i = 0; i < TYPED_CONDITIONS; i++)
    g_free (typed_condition_in (conditions, &typed_condition_rows[i])->text);
}

struct job_reading *
job_reading_new (const struct reading_kind *kind)
{
  struct job_reading *reading;

  g_return_val_if_fail (kind, NULL);
  reading = g_new0 (struct job_reading, 1);
  reading->kind = kind;
  reading->values = 1;
  for (int i = 0; i < CYLINDERS_MAX; i++)
    typed_init (&reading->value[i]);
  typed_init (&reading->uncertainty);
  conditions_init (&reading->conditions);
  reading->note = g_strdup ("");
  return reading;
}

struct job_reading *
job_reading_copy (const struct job_reading *from)
{
  struct job_reading *reading;

  g_return_val_if_fail (from, NULL);
  reading = g_memdup2 (from, sizeof *from);
  for (int i = 0; i < CYLINDERS_MAX; i++)
    typed_copy (&reading->value[i], &from->value[i]);
  typed_copy (&reading->uncertainty, &from->uncertainty);
  conditions_copy (&reading->conditions, &from->conditions);
  reading->note = g_strdup (from->note);
  return reading;
}

void
job_reading_free (struct job_reading *reading)
{
  if (reading == NULL)
    return;
  for (int i = 0; i < CYLINDERS_MAX; i++)
    g_free (reading->value[i].text);
  g_free (reading->uncertainty.text);
  conditions_free (&reading->conditions);
  g_free (reading->note);
  g_free (reading);
}

static void
free_reading (gpointer data)
{
  job_reading_free (data);
}

struct job *
job_new (const struct vehicle *vehicle)
{
  struct job *job;

  g_return_val_if_fail (vehicle, NULL);
  job = g_new0 (struct job, 1);
  job->workshop = g_strdup ("");
  job->technician = g_strdup ("");
  job->vehicle_mark = g_strdup ("");
  job->date = g_strdup ("");
  job->complaint = g_strdup ("");
  job->notes = g_strdup ("");
  job->vehicle = g_memdup2 (vehicle, sizeof *vehicle);
  conditions_init (&job->conditions);
  job->readings = g_ptr_array_new_with_free_func (free_reading);
  return job;
}

struct job *
job_copy (const struct job *from)
{
  struct job *job;

  g_return_val_if_fail (from, NULL);
  job = g_memdup2 (from, sizeof *from);
  job->workshop = g_strdup (from->workshop);
  job->technician = g_strdup (from->technician);
  job->vehicle_mark = g_strdup (from->vehicle_mark);
  job->date = g_strdup (from->date);
  job->complaint = g_strdup (from->complaint);
  job->notes = g_strdup (from->notes);
  job->vehicle = g_memdup2 (from->vehicle, sizeof *from->vehicle);
  conditions_copy (&job->conditions, &from->conditions);
  job->readings = g_ptr_array_new_full (from->readings->len, free_reading);
  for (guint i = 0; i < from->readings->len; i++)
    g_ptr_array_add (job->readings, job_reading_copy (g_ptr_array_index (from->readings, i)));
  return job;
}

void
job_free (struct job *job)
{
  if (job == NULL)
    return;
  g_free (job->workshop);
  g_free (job->technician);
  g_free (job->vehicle_mark);
  g_free (job->date);
  g_free (job->complaint);
  g_free (job->notes);
  g_free (job->vehicle);
  conditions_free (&job->conditions);
  g_ptr_array_unref (job->readings);
  g_free (job);
}

static void
overlay (const struct typed_conditions *typed, struct conditions *conditions)
{
  for (int i = 0; i < TYPED_CONDITIONS; i++) {
    const struct typed *value = typed_condition_get (typed, &typed_condition_rows[i]);
    if (*value->text)
      *condition_in (conditions, condition_find (typed_condition_rows[i].condition)) = value->si;
  }
}

void
job_conditions (const struct job *job, const struct job_reading *reading, struct conditions *conditions)
{
  const struct typed_conditions *source = &job->conditions;

  g_return_if_fail (job && reading && conditions);
  conditions_usual (conditions);
  overlay (&job->conditions, conditions);
  overlay (&reading->conditions, conditions);
  if (reading->conditions.vacuum_source_given)
    source = &reading->conditions;
  else if (*reading->conditions.vacuum.text)
    return; /* a vacuum typed at the reading itself stands against a source named for the visit */
  if (source->vacuum_source_given && source->vacuum_source == VACUUM_NONE)
    conditions->vacuum = 0;
}

enum quantity
job_uncertainty_quantity (const struct reading_kind *kind)
{
  if (kind->each_cylinder)
    return QUANTITY_FRACTION;
  if (kind->quantity == QUANTITY_PRESSURE)
    return QUANTITY_PRESSURE_DIFFERENCE;
  if (kind->quantity == QUANTITY_TEMPERATURE)
    return QUANTITY_TEMPERATURE_DIFFERENCE;
  return kind->quantity;
}

void
job_value_limits (enum quantity quantity, double *least, double *most)
{
  switch (quantity) {
  case QUANTITY_PRESSURE:
  case QUANTITY_PRESSURE_DIFFERENCE:
    *least = -1e5;
    *most = 1e7;
    break;
  case QUANTITY_VOLUME_FLOW:
    *least = 0;
    *most = 1e-3;
    break;
  case QUANTITY_LENGTH:
    *least = -0.1;
    *most = 0.1;
    break;
  default:
    *least = -1e9;
    *most = 1e9;
  }
}

double
job_reading_uncertainty (const struct job_reading *reading)
{
  double half = reading->uncertainty.si;

  if (*reading->uncertainty.text == 0 || !(half > 0))
    return reading->kind->usual_uncertainty;
  switch (reading->uncertainty_form) {
  case UNCERTAINTY_STANDARD:
    return half;
  case UNCERTAINTY_95:
    return half / COVERAGE_95;
  case UNCERTAINTY_LIMITS:
    return half / sqrt (3);
  case UNCERTAINTY_USUAL:
  default:
    return reading->kind->usual_uncertainty;
  }
}
