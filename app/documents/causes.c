#include "causes.h"
#include "tolerance-document.h"

#include <math.h>

#define GAUGE_SHARE M_SQRT1_2 /* as observation_usual: half of a pressure's variance is the gauge's */
#define WARM_TIME 600.0       /* s with the heater on, where nobody has said otherwise */
#define WARM 80.0             /* degC */

/* Any number does, as long as it stays: the same job gives the same answer. */
#define UNITS_SEED 7700

static void
draw_unit_by_tolerances (void *data, unsigned number, struct car *unit)
{
  const struct car nominal = *unit;

  unit_draw (&nominal, data, UNITS_SEED + number, unit);
}

static gboolean
take_reading (const struct job *job, const struct job_reading *reading, struct observation *o)
{
  struct conditions conditions;
  double total = job_reading_uncertainty (reading);

  job_conditions (job, reading, &conditions);
  observation_usual (reading->kind, &job->vehicle->car, &conditions, o);
  if (o->instrument > 0)
    o->bias = total * GAUGE_SHARE;
  o->uncertainty = o->instrument > 0 ? total * GAUGE_SHARE : total;
  o->cylinders = 0;
  for (int i = 0; i < reading->values && i < CYLINDERS_MAX; i++) {
    o->value[i] = reading->value[i].si;
    if (reading->kind->each_cylinder && *reading->value[i].text)
      o->cylinders |= 1u << i;
  }
  return observation_sound (o, &job->vehicle->car);
}

static gboolean
has_value (const struct job_reading *reading)
{
  for (int i = 0; i < reading->values; i++)
    if (*reading->value[i].text)
      return TRUE;
  return FALSE;
}

static void
take_readings (const struct job *job, struct causes *causes, struct observation *observations)
{
  for (guint i = 0; i < job->readings->len; i++) {
    const struct job_reading *reading = g_ptr_array_index (job->readings, i);
    struct observation o;

    if (!has_value (reading))
      continue;
    if (causes->takens == OBSERVATIONS_MAX || !take_reading (job, reading, &o)
        || signatures_add (causes->signatures, &o, NULL, NULL) < 0) {
      causes->left_out++;
      continue;
    }
    causes->taken[causes->takens] = i;
    observations[causes->takens++] = o;
  }
}

/* A kind that has not been read yet, under the visit's conditions; what they leave open is as it usually is there. */
static void
candidate_conditions (const struct job *job, const struct reading_kind *kind, struct conditions *c)
{
  struct job_reading *blank = job_reading_new (kind);
  gboolean cold = reading_effort ((enum reading_id) (kind - reading_kinds))->needs_cold;

  job_conditions (job, blank, c);
  if (*job->conditions.temperature.text == 0)
    c->block_temperature = cold ? c->ambient_temperature : WARM;
  if (kind->asks_minutes && *job->conditions.minutes.text == 0)
    c->heater_time = WARM_TIME;
  job_reading_free (blank);
}

static void
add_candidates (const struct job *job, struct causes *causes, const struct observation *taken)
{
  for (int i = 0; i < READINGS; i++) {
    struct conditions conditions;
    gboolean known = FALSE;

    for (int k = 0; k < causes->takens; k++)
      known |= taken[k].kind == &reading_kinds[i];
    if (known)
      continue;
    candidate_conditions (job, &reading_kinds[i], &conditions);
    observation_usual (&reading_kinds[i], &job->vehicle->car, &conditions, &causes->candidate[causes->candidates]);
    if (signatures_add (causes->signatures, &causes->candidate[causes->candidates], NULL, NULL) >= 0)
      causes->candidates++;
  }
}

/* What the readings taken have set up. Precautions are told with the reading; who asks here cannot tick them off. */
static struct situation
situation_after (const struct observation *taken, int count)
{
  struct situation situation = { .engine_cold = true, .cleared = ~0u };

  for (int i = 0; i < count; i++)
    situation.setups |= reading_effort ((enum reading_id) (taken[i].kind - reading_kinds))->setups;
  if (situation.setups & SETUP_HEATED)
    situation.engine_cold = false;
  return situation;
}

static int
count_covered (const struct causes *causes)
{
  const struct fault *last = NULL;
  int covered = 0;

  for (int c = 0; c < signatures_causes (causes->signatures); c++) {
    const struct fault *fault = signatures_cause (causes->signatures, c)->fault;
    if (causes->posterior->cause[c].visible && fault != last) {
      covered++;
      last = fault;
    }
  }
  return covered;
}

static gboolean
infer (const struct job *job, struct causes *causes)
{
  struct observation taken[OBSERVATIONS_MAX];
  struct situation situation;

  take_readings (job, causes, taken);
  if (causes->takens == 0)
    return FALSE;
  add_candidates (job, causes, taken);
  situation = situation_after (taken, causes->takens);
  if (posterior_make (causes->signatures, taken, causes->takens, NULL, 0, NULL, NULL, NULL, &causes->posterior, NULL)
          != POSTERIOR_SOUND
      || !next_reading (causes->posterior, causes->candidate, causes->candidates, &situation, NULL, NULL,
                        &causes->advice))
    return FALSE;
  causes->covered = count_covered (causes);
  return TRUE;
}

struct causes *
job_causes (const struct job *job)
{
  g_autoptr (problems_t) problems = problems_new ();
  struct signature_source source = { .draw = draw_unit_by_tolerances };
  struct causes *causes;

  g_return_val_if_fail (job && job->vehicle, NULL);
  causes = g_new0 (struct causes, 1);
  causes->catalogue = fault_catalogue_shipped (problems);
  source.draw_data = (gpointer) tolerances_shipped (problems);
  source.car = &job->vehicle->car;
  source.faults = causes->catalogue->fault;
  source.fault_count = (int) causes->catalogue->count;
  causes->signatures = signatures_new (&source);
  if (causes->signatures && infer (job, causes))
    return causes;
  causes_free (causes);
  return NULL;
}

void
causes_free (struct causes *causes)
{
  if (!causes)
    return;
  posterior_free (causes->posterior);
  signatures_free (causes->signatures);
  g_free (causes);
}
