#include "reading-words.h"

#include "number-text.h"
#include "value-text.h"

#include <glib/gi18n.h>
#include <math.h>

static void
take_values (const GArray *checked, const struct job_reading *reading, struct judged *judged)
{
  for (guint i = 0; i < checked->len; i++) {
    const struct checked_reading *entry = &g_array_index (checked, struct checked_reading, i);
    if (entry->reading != reading || judged->count >= CYLINDERS_MAX)
      continue;
    judged->values[judged->count] = entry->value;
    judged->cylinders[judged->count] = entry->cylinder;
    judged->agreements[judged->count++] = entry->agreement;
  }
}

void
judge_reading (const struct job *job, int index, const GArray *checked, const struct unit *unit, struct judged *judged)
{
  const struct job_reading *reading = g_ptr_array_index (job->readings, (guint) index);
  const struct reading_kind *kind = reading->kind;
  const struct car *car = &job->vehicle->car;
  struct conditions conditions;

  *judged = (struct judged) { .kind = kind, .band = &job->vehicle->bands[kind - reading_kinds], .unit = unit };
  job_conditions (job, reading, &conditions);
  judged->outcome = reading_expected (kind, car, &conditions, 0, &judged->expected);
  judged->has_expected = judged->outcome == OUTCOME_SOLVED;
  if (kind->each_cylinder) { /* judged by deviation from the mean: a healthy distributor's cylinders are alike */
    judged->expected = 0;
    judged->unit = unit_shown (QUANTITY_FRACTION, NULL);
  }
  judged->has_band = band_limits (judged->band, kind, car, &conditions, &judged->low, &judged->high);
  judged->uncertainty = job_reading_uncertainty (reading);
  take_values (checked, reading, judged);
}

/* Out before undecided before in. */
static enum agreement
worst (const struct judged *judged)
{
  enum agreement found = AGREEMENT_IN;

  for (int i = 0; i < judged->count; i++) {
    enum agreement one = judged->agreements[i];
    if (one == AGREEMENT_OUT_LOW || one == AGREEMENT_OUT_HIGH)
      return one;
    if (one == AGREEMENT_UNDECIDED)
      found = one;
  }
  return found;
}

const char *
verdict_words (const struct judged *judged)
{
  if (judged->count == 0)
    return judged->kind->each_cylinder ? _("– type two cylinders or more") : _("– no value yet");
  if (!judged->has_band)
    return judged->outcome == OUTCOME_SOLVED ? _("– no band in the data") : _("– the model has no value");
  switch (worst (judged)) {
  case AGREEMENT_IN:
    return _("✓ in");
  case AGREEMENT_OUT_LOW:
    return _("▼ out, low");
  case AGREEMENT_OUT_HIGH:
    return _("▲ out, high");
  case AGREEMENT_UNDECIDED:
  default:
    return _("? undecided");
  }
}

const char *
verdict_style (const struct judged *judged)
{
  if (judged->count == 0 || !judged->has_band)
    return "none";
  if (verdict_out (judged))
    return "out";
  return worst (judged) == AGREEMENT_IN ? "in" : "undecided";
}

gboolean
verdict_out (const struct judged *judged)
{
  enum agreement agreement = judged->has_band && judged->count > 0 ? worst (judged) : AGREEMENT_IN;

  return agreement == AGREEMENT_OUT_LOW || agreement == AGREEMENT_OUT_HIGH;
}

static char *
band_words (const struct judged *judged)
{
  g_autofree char *low = measure_shown (judged->low, judged->unit, !isfinite (judged->high));
  g_autofree char *high = measure_shown (judged->high, judged->unit, TRUE);

  if (!isfinite (judged->low))
    return g_strdup_printf (_("Band: at most %s"), high);
  if (!isfinite (judged->high))
    return g_strdup_printf (_("Band: at least %s"), low);
  return g_strdup_printf (_("Band %s to %s"), low, high);
}

char *
expected_words (const struct judged *judged)
{
  GString *text = g_string_new (NULL);

  if (!judged->has_expected)
    g_string_append (text, gettext (outcome_text (judged->outcome)));
  else if (judged->kind->each_cylinder)
    g_string_append (text, _("Each cylinder is held against the mean of those typed."));
  else {
    g_autofree char *expected = measure_shown (judged->expected, judged->unit, TRUE);
    g_string_append_printf (text, _("The model expects %s under these conditions."), expected);
  }
  if (judged->has_band) {
    g_autofree char *band = band_words (judged);
    g_string_append_printf (text, " %s.", band);
  }
  return g_string_free (text, FALSE);
}

char *
source_words (const struct judged *judged)
{
  if (!judged->has_band)
    return g_strdup (_("The car's data have no band for this reading."));
  if (judged->band->source[0])
    return g_strdup_printf (_("Band from: %s"), judged->band->source);
  return g_strdup (_("The data do not say where this band comes from."));
}

/* A band of cylinders is one of fractions; a pressure's uncertainty is shown in the pressure's unit. */
char *
sureness_words (const struct judged *judged)
{
  g_autofree char *sure = number_shown (judged->uncertainty / judged->unit->factor, judged->unit->decimals);
  g_autofree char *guard
      = number_shown (GUARD_FACTOR * judged->uncertainty / judged->unit->factor, judged->unit->decimals);

  return g_strdup_printf (_("Sure to ± %s %s (standard); nearer than %s %s to a limit is undecided."), sure,
                          judged->unit->symbol, guard, judged->unit->symbol);
}
