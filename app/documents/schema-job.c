#include "job-document-private.h"
#include "schema.h"

/* The white space, sign, digits and exponent that number-text.c accepts. */
#define SPACES "[ \\t-\\r\\u00a0\\u2007\\u2009\\u202f]*"
#define NUMBER_PATTERN \
  "^" SPACES "[+\\-\\u2212]?([0-9]+[.,]?[0-9]*|[.,][0-9]+)([eE][+\\-\\u2212]?[0-9]+)?" SPACES "$"
#define NUMBER_CHARACTERS_MAX 64

static const char *const quantity_words[QUANTITIES] = {
  [QUANTITY_NUMBER] = "number",
  [QUANTITY_FRACTION] = "fraction",
  [QUANTITY_PRESSURE] = "pressure",
  [QUANTITY_PRESSURE_DIFFERENCE] = "pressure_difference",
  [QUANTITY_TEMPERATURE] = "temperature",
  [QUANTITY_TEMPERATURE_DIFFERENCE] = "temperature_difference",
  [QUANTITY_LENGTH] = "length",
  [QUANTITY_VOLUME_FLOW] = "volume_flow",
  [QUANTITY_MASS_FLOW] = "mass_flow",
  [QUANTITY_VOLTAGE] = "voltage",
  [QUANTITY_CURRENT] = "current",
  [QUANTITY_RESISTANCE] = "resistance",
  [QUANTITY_TIME] = "time",
};

static const char *
word_of (enum quantity quantity)
{
  if (quantity_words[quantity] == NULL)
    g_error ("write-schema.c: the table quantity_words has no word for quantity %d", quantity);
  return quantity_words[quantity];
}

/* A number as text, as a number, or nothing typed. */
static void
typed_number (struct json_writer *w)
{
  json_writer_begin_object (w, "number_as_typed");
  json_writer_begin_array (w, "anyOf");
  json_writer_begin_object_inline (w, NULL);
  json_writer_text (w, "type", "number");
  json_writer_end (w);
  json_writer_begin_object_inline (w, NULL);
  json_writer_text (w, "const", "");
  json_writer_end (w);
  json_writer_begin_object (w, NULL);
  json_writer_text (w, "type", "string");
  json_writer_number (w, "maxLength", NUMBER_CHARACTERS_MAX);
  json_writer_text (w, "pattern", NUMBER_PATTERN);
  json_writer_end (w);
  json_writer_end (w);
  json_writer_end (w);
}

static void
unit_of (struct json_writer *w, enum quantity quantity)
{
  g_autofree char *name = g_strconcat ("unit_of_", word_of (quantity), NULL);
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  json_writer_begin_object (w, name);
  json_writer_begin_array_inline (w, "enum");
  for (int i = 0; i < unit_count; i++) {
    g_auto (GStrv) spellings = unit_spellings (&units[i]);
    for (int j = 0; spellings[j]; j++) {
      const struct unit *found = unit_find (spellings[j], quantity);
      if (found && unit_is_spelled (found, spellings[j]) && g_hash_table_add (seen, g_strdup (spellings[j])))
        json_writer_text (w, NULL, spellings[j]);
    }
  }
  json_writer_end (w);
  json_writer_end (w);
}

/* A unit must stand beside a value unless nothing was typed. */
static void
unit_or_nothing (struct json_writer *w, gboolean each)
{
  json_writer_begin_array (w, "anyOf");
  json_writer_begin_object_inline (w, NULL);
  schema_required (w, "unit", NULL, NULL);
  json_writer_end (w);
  json_writer_begin_object_inline (w, NULL);
  json_writer_begin_object (w, "properties");
  json_writer_begin_object (w, each ? "values" : "value");
  if (each)
    json_writer_begin_object (w, "items");
  json_writer_text (w, "const", "");
  if (each)
    json_writer_end (w);
  json_writer_end (w);
  json_writer_end (w);
  json_writer_end (w);
  json_writer_end (w);
}

static void
measure (struct json_writer *w, enum quantity quantity, gboolean uncertainty)
{
  g_autofree char *name = g_strconcat (uncertainty ? "uncertainty_in_" : "measure_of_", word_of (quantity), NULL);

  schema_begin_object_type (w, name);
  schema_required (w, "value", uncertainty ? "form" : NULL, NULL);
  unit_or_nothing (w, FALSE);
  json_writer_begin_object (w, "properties");
  schema_reference (w, "value", "", "number_as_typed");
  schema_reference (w, "unit", "unit_of_", word_of (quantity));
  if (uncertainty)
    schema_choice (w, "form", uncertainty_words);
  json_writer_end (w);
  json_writer_end (w);
}

static void
conditions (struct json_writer *w)
{
  schema_begin_object_type (w, "conditions");
  json_writer_begin_object (w, "properties");
  for (int i = 0; i < TYPED_CONDITIONS; i++)
    schema_reference (w, typed_condition_rows[i].key, "measure_of_",
               word_of (condition_find (typed_condition_rows[i].condition)->quantity));
  schema_choice (w, "vacuum_source", vacuum_source_words);
  json_writer_end (w);
  json_writer_end (w);
}

static char *
reading_name (const struct reading_kind *kind)
{
  return g_strconcat (kind->each_cylinder ? "reading_by_cylinder_of_" : "reading_of_", word_of (kind->quantity), NULL);
}

static void
values_and_units (struct json_writer *w, enum quantity quantity)
{
  schema_begin_array_type (w, "values", 1, CYLINDERS_MAX);
  schema_reference (w, "items", "", "number_as_typed");
  json_writer_end (w);
  json_writer_begin_object (w, "unit");
  json_writer_begin_array (w, "anyOf");
  schema_reference (w, NULL, "unit_of_", word_of (quantity));
  schema_begin_array_type (w, NULL, 1, CYLINDERS_MAX);
  json_writer_begin_object (w, "items");
  json_writer_begin_array (w, "anyOf");
  schema_reference (w, NULL, "unit_of_", word_of (quantity));
  json_writer_begin_object_inline (w, NULL);
  json_writer_text (w, "const", "");
  json_writer_end (w);
  json_writer_end (w);
  json_writer_end (w);
  json_writer_end (w);
  json_writer_end (w);
  json_writer_end (w);
}

static void
reading (struct json_writer *w, const struct reading_kind *kind)
{
  g_autofree char *name = reading_name (kind);

  schema_begin_object_type (w, name);
  schema_required (w, kind->each_cylinder ? "values" : "value", NULL, NULL);
  unit_or_nothing (w, kind->each_cylinder);
  json_writer_begin_object (w, "properties");
  json_writer_truth (w, "kind", TRUE);
  if (kind->each_cylinder)
    values_and_units (w, kind->quantity);
  else {
    schema_reference (w, "value", "", "number_as_typed");
    schema_reference (w, "unit", "unit_of_", word_of (kind->quantity));
  }
  schema_reference (w, "uncertainty", "uncertainty_in_", word_of (job_uncertainty_quantity (kind)));
  schema_reference (w, "conditions", "", "conditions");
  schema_text (w, "note", 0, TEXT_CHARACTERS_MAX);
  json_writer_end (w);
  json_writer_end (w);
}

/* Each kind of reading has the members of its quantity. */
static void
any_reading (struct json_writer *w)
{
  const char *keys[READINGS + 1] = { NULL };

  for (int i = 0; i < READINGS; i++)
    keys[i] = reading_kinds[i].key;
  json_writer_begin_object (w, "reading");
  json_writer_text (w, "type", "object");
  schema_required (w, "kind", NULL, NULL);
  json_writer_begin_object (w, "properties");
  schema_choice (w, "kind", keys);
  json_writer_end (w);
  json_writer_begin_array (w, "allOf");
  for (int i = 0; i < READINGS; i++) {
    g_autofree char *name = reading_name (&reading_kinds[i]);
    json_writer_begin_object (w, NULL);
    json_writer_begin_object_inline (w, "if");
    json_writer_begin_object (w, "properties");
    json_writer_begin_object (w, "kind");
    json_writer_text (w, "const", keys[i]);
    json_writer_end (w);
    json_writer_end (w);
    json_writer_end (w);
    schema_reference (w, "then", "", name);
    json_writer_end (w);
  }
  json_writer_end (w);
  json_writer_end (w);
}

/* The definitions that the kinds of reading and the conditions need, each once. */
static void
measures (struct json_writer *w)
{
  gboolean units_needed[QUANTITIES] = { FALSE }, measured[QUANTITIES] = { FALSE }, unsure[QUANTITIES] = { FALSE };
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (int i = 0; i < TYPED_CONDITIONS; i++)
    measured[condition_find (typed_condition_rows[i].condition)->quantity] = TRUE;
  for (int i = 0; i < READINGS; i++) {
    units_needed[reading_kinds[i].quantity] = TRUE;
    unsure[job_uncertainty_quantity (&reading_kinds[i])] = TRUE;
  }
  for (int i = 0; i < QUANTITIES; i++) {
    if (units_needed[i] || measured[i] || unsure[i])
      unit_of (w, (enum quantity) i);
    if (measured[i])
      measure (w, (enum quantity) i, FALSE);
    if (unsure[i])
      measure (w, (enum quantity) i, TRUE);
  }
  for (int i = 0; i < READINGS; i++)
    if (g_hash_table_add (seen, reading_name (&reading_kinds[i])))
      reading (w, &reading_kinds[i]);
}

void
schema_job_body (struct json_writer *w)
{
  json_writer_text (w, "type", "object");
  json_writer_truth (w, "additionalProperties", FALSE);
  schema_required (w, "format", "version", "car");
  json_writer_begin_object (w, "properties");
  schema_head (w, JOB_FORMAT, JOB_VERSION);
  for (int i = 0; i < JOB_TEXTS; i++)
    schema_text (w, job_texts[i].key, 0, TEXT_CHARACTERS_MAX);
  json_writer_begin_object (w, "car");
  json_writer_begin_array (w, "anyOf");
  json_writer_begin_object_inline (w, NULL);
  json_writer_text (w, "type", "string");
  json_writer_end (w);
  schema_reference (w, NULL, "", "vehicle");
  json_writer_end (w);
  json_writer_end (w);
  schema_reference (w, "conditions", "", "conditions");
  schema_begin_array_type (w, "readings", 0, JOB_READINGS_MAX);
  schema_reference (w, "items", "", "reading");
  json_writer_end (w);
  json_writer_end (w);
}

void
schema_job_definitions (struct json_writer *w)
{
  typed_number (w);
  conditions (w);
  measures (w);
  any_reading (w);
}
