#include "causes-report.h"

#include "causes.h"
#include "number-text.h"
#include "text-table.h"

#include <glib/gi18n.h>

#define SHOWN_LEAST 0.02 /* probability of a set that is listed */
#define SHOWN_MOST 8
#define WRONG_LEAST 0.3  /* probability from which a reading is asked for again */

/* "Slot fouled, cylinder 3" */
static char *
cause_name (const struct causes *causes, int number)
{
  const struct cause *cause = signatures_cause (causes->signatures, number);

  if (cause->cylinder < 0)
    return g_strdup (_(cause->fault->name));
  return g_strdup_printf (_("%s, cylinder %d"), _(cause->fault->name), cause->cylinder + 1);
}

static char *
set_name (const struct causes *causes, const struct fault_set *set)
{
  g_autofree char *first = NULL, *second = NULL;

  if (set->count == 0)
    return g_strdup (set->none ? _("None of the faults listed") : _("Nothing wrong"));
  first = cause_name (causes, set->cause[0]);
  if (set->count == 1)
    return g_steal_pointer (&first);
  second = cause_name (causes, set->cause[1]);
  return g_strdup_printf (_("%s + %s"), first, second);
}

static char *
percent (double share)
{
  g_autofree char *number = number_shown (100 * share, 0);

  return g_strdup_printf (_("%s %%"), number);
}

static char *
severity_text (const struct causes *causes, const struct fault_set *set)
{
  const struct cause_finding *finding;
  g_autofree char *low = NULL, *high = NULL;

  if (set->count != 1)
    return g_strdup ("");
  finding = &causes->posterior->cause[set->cause[0]];
  low = number_shown (100 * finding->low, 0);
  high = number_shown (100 * finding->high, 0);
  return g_strdup_printf (_("severity %s to %s %%"), low, high);
}

static void
add_sets (const struct causes *causes, GString *text)
{
  struct text_table *table = text_table_new ("lrl");

  for (int i = 0; i < causes->posterior->sets && i < SHOWN_MOST; i++)
    {
      const struct fault_set *set = &causes->posterior->set[i];
      g_autofree char *name = set_name (causes, set), *probability = percent (set->probability);
      g_autofree char *severity = severity_text (causes, set);

      if (i == 0 || set->probability >= SHOWN_LEAST)
        text_table_row (table, name, probability, severity, NULL);
    }
  text_table_end (table, text);
}

/* Causes that these readings cannot tell apart, one line a group. */
static void
add_groups (const struct causes *causes, GString *text)
{
  int count = signatures_causes (causes->signatures);

  for (int a = 0; a < count; a++)
    {
      g_autoptr (GString) names = g_string_new (NULL);

      if (causes->posterior->cause[a].group != a)
        continue;
      for (int b = 0; b < count; b++)
        if (causes->posterior->cause[b].group == a)
          {
            g_autofree char *name = cause_name (causes, b);
            g_string_append_printf (names, "%s%s", names->len > 0 ? "; " : "", name);
          }
      g_string_append_printf (text, _("These readings do not tell apart: %s.\n"), names->str);
    }
}

static char *
channel_name (const struct causes *causes, const struct evidence_channel *channel)
{
  const struct reading_kind *kind = causes->posterior->observation[channel->observation].kind;

  if (channel->cylinder < 0)
    return g_strdup (_(kind->name));
  return g_strdup_printf (_("%s, cylinder %d"), _(kind->name), channel->cylinder + 1);
}

static void
add_doubts (const struct causes *causes, GString *text)
{
  const struct posterior *p = causes->posterior;

  for (int j = 0; j < p->evidence.channels; j++)
    {
      g_autofree char *name = channel_name (causes, &p->evidence.channel[j]);
      g_autofree char *wrong = percent (p->reading[j].wrong);

      if (p->reading[j].wrong >= WRONG_LEAST)
        g_string_append_printf (text, _("%s: misread with a probability of %s. Take it again.\n"), name, wrong);
      else if (p->reading[j].unexplained)
        g_string_append_printf (text, _("%s: no cause in the list explains this value.\n"), name);
    }
  if (p->set[0].count == 2)
    g_string_append (text, _("Two faults at once are hard to tell from readings: repair one and read again.\n"));
  if (causes->left_out > 0)
    g_string_append_printf (text, ngettext ("%d reading could not be used for this.\n",
                                            "%d readings could not be used for this.\n", (gulong) causes->left_out),
                            causes->left_out);
}

static void
add_setups (unsigned setups, GString *text)
{
  gboolean first = TRUE;

  for (unsigned setup = 1; setup < 1u << SETUPS; setup <<= 1)
    if (setups & setup)
      {
        g_string_append_printf (text, "%s%s", first ? "" : "; ", _(setup_name ((enum setup) setup)));
        first = FALSE;
      }
}

/* What is advised is work on fuel: its cautions stand with it. */
static void
add_cautions (unsigned hazards, GString *text)
{
  g_string_append_printf (text, "%s\n", _("The manufacturer's data, local rules and licensed practice come first."));
  for (unsigned hazard = 1; hazard <= hazards; hazard <<= 1)
    if (hazards & hazard)
      g_string_append_printf (text, "%s\n", _(hazard_caution ((enum hazard) hazard)));
}

static void
add_next (const struct causes *causes, GString *text)
{
  const struct advised *advised = &causes->advice.reading[0];
  const struct reading_kind *kind;
  g_autofree char *bits = NULL, *minutes = NULL;

  if (causes->advice.stop != STOP_NOT_YET)
    {
      g_string_append_printf (text, "\n%s\n", _(stop_text (causes->advice.stop)));
      return;
    }
  kind = causes->candidate[advised->candidate].kind;
  bits = number_shown (advised->bits, 2);
  minutes = number_shown (advised->minutes, 0);
  g_string_append_printf (text, _("\nNext reading: %s (%s bit expected, about %s min with its set-up).\n"), _(kind->name),
                          bits, minutes);
  if (advised->perishes)
    g_string_append_printf (text, "%s\n", _("It needs a cold engine, so it comes before anything that warms."));
  g_string_append_printf (text, "%s\n%s: ", _(kind->procedure), _("Set up"));
  add_setups (reading_effort ((enum reading_id) (kind - reading_kinds))->setups, text);
  g_string_append_c (text, '\n');
  add_cautions (kind->hazards, text);
}

void
causes_report_text (const struct job *job, GString *text)
{
  g_autoptr (causes_t) causes = job_causes (job);

  if (causes == NULL)
    return;
  g_string_append_printf (text, "\n%s\n", _("Causes by these readings"));
  add_sets (causes, text);
  add_groups (causes, text);
  add_doubts (causes, text);
  add_next (causes, text);
  g_string_append_printf (text,
                          _("\nLooked at: %d of the %u faults in the catalogue; the others move none of these %d kinds of "
                            "reading on this car.\nProbabilities rest on the model and on judged frequencies; they were "
                            "tried on simulated cases, not on cars.\n"),
                          causes->covered, causes->catalogue->count, READINGS);
}

/* -- JSON -------------------------------------------------------------------------------------------------------------- */

static void
json_cause (const struct causes *causes, int number, struct json_writer *json)
{
  const struct cause *cause = signatures_cause (causes->signatures, number);

  json_writer_begin_object_inline (json, NULL);
  json_writer_text (json, "fault", cause->fault->key);
  if (cause->cylinder >= 0)
    json_writer_number (json, "cylinder", cause->cylinder + 1);
  json_writer_number (json, "severity_low", causes->posterior->cause[number].low);
  json_writer_number (json, "severity_high", causes->posterior->cause[number].high);
  json_writer_end (json);
}

static void
json_sets (const struct causes *causes, struct json_writer *json)
{
  const struct posterior *p = causes->posterior;

  json_writer_begin_array (json, "sets");
  for (int i = 0; i < p->sets && i < SHOWN_MOST; i++)
    {
      json_writer_begin_object (json, NULL);
      json_writer_number (json, "probability", p->set[i].probability);
      json_writer_text (json, "kind", p->set[i].count > 0 ? "faults" : p->set[i].none ? "none-of-these" : "healthy");
      json_writer_begin_array (json, "faults");
      for (int k = 0; k < p->set[i].count; k++)
        json_cause (causes, p->set[i].cause[k], json);
      json_writer_end (json);
      json_writer_end (json);
    }
  json_writer_end (json);
}

/* Each fault by itself, whatever stands beside it and at whichever cylinder. */
static void
json_faults (const struct causes *causes, struct json_writer *json)
{
  json_writer_begin_array (json, "faults");
  for (unsigned i = 0; i < causes->catalogue->count; i++)
    {
      double probability = posterior_fault (causes->posterior, &causes->catalogue->fault[i]);

      if (probability < SHOWN_LEAST)
        continue;
      json_writer_begin_object_inline (json, NULL);
      json_writer_text (json, "fault", causes->catalogue->fault[i].key);
      json_writer_number (json, "probability", probability);
      json_writer_end (json);
    }
  json_writer_end (json);
}

static void
json_readings (const struct causes *causes, struct json_writer *json)
{
  const struct posterior *p = causes->posterior;

  json_writer_begin_array (json, "readings");
  for (int j = 0; j < p->evidence.channels; j++)
    {
      const struct evidence_channel *channel = &p->evidence.channel[j];

      json_writer_begin_object_inline (json, NULL);
      json_writer_text (json, "reading", p->observation[channel->observation].kind->key);
      if (channel->cylinder >= 0)
        json_writer_number (json, "cylinder", channel->cylinder + 1);
      json_writer_number (json, "wrong", p->reading[j].wrong);
      json_writer_truth (json, "unexplained", p->reading[j].unexplained);
      json_writer_end (json);
    }
  json_writer_end (json);
}

static void
json_next (const struct causes *causes, struct json_writer *json)
{
  static const char *const stops[] = { "not-yet", "sure", "same-repair", "not-worth", "held-back", "none-left" };

  json_writer_text (json, "stop", stops[causes->advice.stop]);
  json_writer_begin_array (json, "next");
  for (int i = 0; i < causes->advice.count; i++)
    {
      const struct advised *advised = &causes->advice.reading[i];

      json_writer_begin_object_inline (json, NULL);
      json_writer_text (json, "reading", causes->candidate[advised->candidate].kind->key);
      json_writer_number (json, "bits", advised->bits);
      json_writer_number (json, "minutes", advised->minutes);
      json_writer_truth (json, "too_late", advised->too_late);
      json_writer_end (json);
    }
  json_writer_end (json);
}

void
causes_report_json (const struct job *job, struct json_writer *json)
{
  g_autoptr (causes_t) causes = job_causes (job);

  if (causes == NULL)
    return;
  json_writer_begin_object (json, "causes");
  json_writer_number (json, "healthy", causes->posterior->healthy);
  json_writer_number (json, "none_of_these", causes->posterior->none_of_these);
  json_writer_number (json, "worse_fit", causes->posterior->tail);
  json_sets (causes, json);
  json_faults (causes, json);
  json_readings (causes, json);
  json_next (causes, json);
  json_writer_number (json, "readings_left_out", causes->left_out);
  json_writer_number (json, "faults_looked_at", causes->covered);
  json_writer_number (json, "faults_in_catalogue", causes->catalogue->count);
  json_writer_text (json, "basis", "model and judged frequencies; tried on simulated cases, not on cars");
  json_writer_end (json);
}
