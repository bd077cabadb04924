#include "check-report.h"

#include "causes-report.h"
#include "json-writer.h"
#include "number-text.h"
#include "state-words.h"
#include "text-table.h"
#include "units.h"

#include <glib/gi18n.h>
#include <math.h>

static const struct checked_reading *
entry_at (const GArray *checked, guint index)
{
  return &g_array_index (checked, struct checked_reading, index);
}

static gboolean
is_out (enum agreement agreement)
{
  return agreement == AGREEMENT_OUT_LOW || agreement == AGREEMENT_OUT_HIGH;
}

static enum quantity
quantity_of (const struct checked_reading *entry)
{
  return entry->reading->kind->each_cylinder ? QUANTITY_FRACTION : entry->reading->kind->quantity;
}

/* The unit in which a person typed the reading; deviations between cylinders are per cent. */
static const struct unit *
unit_typed (const struct checked_reading *entry)
{
  if (entry->reading->kind->each_cylinder || entry->reading->value[0].unit == NULL)
    return unit_shown (quantity_of (entry), NULL);
  return entry->reading->value[0].unit;
}

static const char *
source_of (const struct job *job, const struct checked_reading *entry)
{
  const struct band *band = &job->vehicle->bands[entry->reading->kind - reading_kinds];

  if (!entry->has_band)
    return "";
  return band->source;
}

static char *
name_of (const struct checked_reading *entry)
{
  if (entry->cylinder < 0)
    return g_strdup (_(entry->reading->kind->name));
  return g_strdup_printf (_("%s, cylinder %d"), _(entry->reading->kind->name), entry->cylinder + 1);
}

static char *
shown (double si, const struct unit *unit)
{
  return number_shown (unit_from_si (unit, si), unit->decimals);
}

/* A limit may be absent on one side. */
static char *
band_text (const struct checked_reading *entry, const struct unit *unit)
{
  g_autofree char *low = NULL, *high = NULL;

  if (!entry->has_band)
    return g_strdup (_("none"));
  low = shown (entry->low, unit);
  high = shown (entry->high, unit);
  if (!isfinite (entry->low))
    return g_strdup_printf (_("at most %s"), high);
  if (!isfinite (entry->high))
    return g_strdup_printf (_("at least %s"), low);
  return g_strdup_printf (_("%s to %s"), low, high);
}

/* "[2]" for the second different source; "" without a band. sources collects them. Caller frees. */
static char *
source_mark (GPtrArray *sources, const char *source)
{
  guint index;

  if (*source == '\0')
    return g_strdup ("");
  if (!g_ptr_array_find_with_equal_func (sources, source, g_str_equal, &index))
    {
      index = sources->len;
      g_ptr_array_add (sources, (gpointer) source);
    }
  return g_strdup_printf ("[%u]", index + 1);
}

static void
add_row (struct text_table *table, GPtrArray *sources, const struct job *job, const struct checked_reading *entry)
{
  const struct unit *unit = unit_typed (entry);
  g_autofree char *name = name_of (entry);
  g_autofree char *value = shown (entry->value, unit);
  g_autofree char *uncertainty = g_strdup_printf ("± %.2g", 2 * entry->uncertainty / unit->factor);
  g_autofree char *expected = entry->outcome == OUTCOME_SOLVED ? shown (entry->expected, unit) : g_strdup ("–");
  g_autofree char *band = band_text (entry, unit);
  g_autofree char *mark = source_mark (sources, source_of (job, entry));

  text_table_row (table, name, value, uncertainty, unit->symbol, expected, band, mark,
                  _(agreement_word (entry->agreement)), NULL);
}

/* Once a kind: what a value out of its band points to, and what kept the model from an expected value. */
static void
add_meanings (GString *text, const GArray *checked)
{
  gboolean undecided = FALSE;

  for (guint i = 0; i < checked->len; i++)
    {
      const struct checked_reading *entry = entry_at (checked, i);
      g_autofree char *name = name_of (entry);

      if (is_out (entry->agreement))
        g_string_append_printf (text, "%s: %s. %s\n", name, _(agreement_word (entry->agreement)),
                                _(entry->reading->kind->out_means));
      else if (entry->outcome != OUTCOME_SOLVED)
        g_string_append_printf (text, "%s: %s\n", name, _(outcome_text (entry->outcome)));
      else if (!entry->has_band)
        g_string_append_printf (text, _("%s: the car's data give no band, so nothing is decided.\n"), name);
      else if (entry->agreement == AGREEMENT_UNDECIDED)
        undecided = TRUE;
    }
  if (undecided)
    g_string_append_printf (text, "%s\n", _("Undecided: too near to a limit for how sure the value is; a repetition or a "
                                            "better gauge decides."));
}

/* What is advised above is work on fuel: its cautions stand with it. */
static void
add_cautions (GString *text, const GArray *checked)
{
  unsigned hazards = 0;

  for (guint i = 0; i < checked->len; i++)
    if (is_out (entry_at (checked, i)->agreement))
      hazards |= entry_at (checked, i)->reading->kind->hazards;
  if (hazards == 0)
    return;
  g_string_append_printf (text, "\n%s\n", _("The manufacturer's data, local rules and licensed practice come first."));
  for (unsigned hazard = 1; hazard <= hazards; hazard <<= 1)
    if (hazards & hazard)
      g_string_append_printf (text, "%s\n", _(hazard_caution ((enum hazard) hazard)));
}

gboolean
check_any_out (const GArray *checked)
{
  for (guint i = 0; i < checked->len; i++)
    if (is_out (entry_at (checked, i)->agreement))
      return TRUE;
  return FALSE;
}

char *
check_report_text (const struct job *job, const GArray *checked)
{
  GString *text = g_string_new (NULL);
  struct text_table *table = text_table_new ("ldlldlll");
  g_autoptr (GPtrArray) sources = g_ptr_array_new ();

  g_string_append_printf (text, "%s\n\n", job->vehicle->name);
  if (checked->len == 0)
    g_string_append_printf (text, "%s\n", _("There are no readings in it."));
  else
    text_table_row (table, _("Reading"), _("Value"), _("(95 %)"), "", _("Expected"), _("Band here"), "", _("Verdict"),
                    NULL);
  for (guint i = 0; i < checked->len; i++)
    add_row (table, sources, job, entry_at (checked, i));
  text_table_end (table, text);
  for (guint i = 0; i < sources->len; i++)
    g_string_append_printf (text, "%s[%u] %s\n", i == 0 ? "\n" : "", i + 1,
                            (const char *) g_ptr_array_index (sources, i));
  if (checked->len > 0)
    g_string_append_c (text, '\n');
  add_meanings (text, checked);
  add_cautions (text, checked);
  causes_report_text (job, text);
  return g_string_free (text, FALSE);
}

static void
json_measure (struct json_writer *json, const char *name, const struct unit *unit, double si)
{
  g_autofree char *key = *unit->key == '\0' ? g_strdup (name) : g_strconcat (name, "_", unit->key, NULL);

  json_writer_number (json, key, isfinite (si) ? unit_from_si (unit, si) : NAN);
}

static const char *
agreement_key (enum agreement agreement)
{
  static const char *const keys[] = {
    [AGREEMENT_IN] = "in",
    [AGREEMENT_OUT_LOW] = "out-low",
    [AGREEMENT_OUT_HIGH] = "out-high",
    [AGREEMENT_UNDECIDED] = "undecided",
  };

  return keys[agreement];
}

static void
json_entry (struct json_writer *json, const struct job *job, const struct checked_reading *entry)
{
  const struct unit *unit = unit_shown (quantity_of (entry), NULL);
  const struct typed *typed = &entry->reading->value[MAX (entry->cylinder, 0)];
  g_autofree char *as_typed = g_strconcat (typed->text, " ", typed->unit != NULL ? typed->unit->symbol : "", NULL);

  json_writer_begin_object (json, NULL);
  json_writer_text (json, "reading", entry->reading->kind->key);
  if (entry->cylinder >= 0)
    json_writer_number (json, "cylinder", entry->cylinder + 1);
  json_writer_text (json, "typed", g_strchomp (as_typed));
  json_measure (json, "value", unit, entry->value);
  /* An uncertainty is a difference: the unit's offset does not count. */
  json_measure (json, "standard_uncertainty", unit, entry->uncertainty + unit->offset);
  json_measure (json, "expected", unit, entry->outcome == OUTCOME_SOLVED ? entry->expected : NAN);
  json_measure (json, "low", unit, entry->has_band ? entry->low : NAN);
  json_measure (json, "high", unit, entry->has_band ? entry->high : NAN);
  if (entry->has_band)
    json_writer_text (json, "band_source", source_of (job, entry));
  else
    json_writer_number (json, "band_source", NAN);
  json_writer_text (json, "outcome", outcome_key (entry->outcome));
  json_writer_text (json, "verdict", agreement_key (entry->agreement));
  json_writer_end (json);
}

char *
check_report_json (const struct job *job, const GArray *checked)
{
  struct json_writer *json = json_writer_new ();

  json_writer_begin_object (json, NULL);
  json_writer_text (json, "car", job->vehicle->key);
  json_writer_text (json, "car_name", job->vehicle->name);
  json_writer_begin_array (json, "readings");
  for (guint i = 0; i < checked->len; i++)
    json_entry (json, job, entry_at (checked, i));
  json_writer_end (json);
  json_writer_text (json, "verdict", check_any_out (checked) ? "out" : "not-out");
  causes_report_json (job, json);
  json_writer_end (json);
  return json_writer_finish (json);
}
