/* Writes the JSON Schemas of the documents from the tables that the readers use: parameters, reading kinds, units and
 * conditions. "write-schema vehicle" or "write-schema job" prints one. What is committed under data/schemas is compared
 * with it by a test. What a schema cannot say (see the calls of cursor_problem_beyond) is left to the reader. */
#include "job-document-private.h"
#include "json-writer.h"
#include "parameter.h"
#include "vehicle-document-private.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

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

/* -- small pieces ----------------------------------------------------------------------------------------------------- */

static void
words (struct json_writer *w, const char *key, const char *const *list)
{
  json_writer_begin_array_inline (w, key);
  for (int i = 0; list[i]; i++)
    json_writer_text (w, NULL, list[i]);
  json_writer_end (w);
}

static void
choice (struct json_writer *w, const char *key, const char *const *list)
{
  json_writer_begin_object (w, key);
  words (w, "enum", list);
  json_writer_end (w);
}

static void
reference (struct json_writer *w, const char *key, const char *prefix, const char *name)
{
  g_autofree char *target = g_strconcat ("#/$defs/", prefix, name, NULL);

  json_writer_begin_object_inline (w, key);
  json_writer_text (w, "$ref", target);
  json_writer_end (w);
}

static void
text (struct json_writer *w, const char *key, unsigned least, unsigned most)
{
  json_writer_begin_object_inline (w, key);
  json_writer_text (w, "type", "string");
  if (least > 0)
    json_writer_number (w, "minLength", least);
  json_writer_number (w, "maxLength", most);
  json_writer_end (w);
}

static void
number (struct json_writer *w, const char *key, double least, double most)
{
  json_writer_begin_object_inline (w, key);
  json_writer_text (w, "type", "number");
  json_writer_number (w, "minimum", least);
  json_writer_number (w, "maximum", most);
  json_writer_end (w);
}

static void
required (struct json_writer *w, const char *first, const char *second, const char *third)
{
  const char *const list[] = { first, second, third, NULL };
  words (w, "required", list);
}

static void
begin_object_type (struct json_writer *w, const char *key)
{
  json_writer_begin_object (w, key);
  json_writer_text (w, "type", "object");
  json_writer_truth (w, "additionalProperties", FALSE);
}

static void
begin_array_type (struct json_writer *w, const char *key, unsigned least, unsigned most)
{
  json_writer_begin_object (w, key);
  json_writer_text (w, "type", "array");
  json_writer_number (w, "minItems", least);
  json_writer_number (w, "maxItems", most);
}

/* Either member of the two. */
static void
any_required (struct json_writer *w, const char *first, const char *second)
{
  json_writer_begin_array (w, "anyOf");
  for (int i = 0; i < 2; i++) {
    json_writer_begin_object_inline (w, NULL);
    required (w, i == 0 ? first : second, NULL, NULL);
    json_writer_end (w);
  }
  json_writer_end (w);
}

static void
head (struct json_writer *w, const char *format, int version)
{
  text (w, "$schema", 0, TEXT_CHARACTERS_MAX);
  json_writer_begin_object_inline (w, "format");
  json_writer_text (w, "const", format);
  json_writer_end (w);
  json_writer_begin_object_inline (w, "version");
  json_writer_number (w, "const", version);
  json_writer_end (w);
}

/* -- a vehicle -------------------------------------------------------------------------------------------------------- */

/* "Plate radius, m" */
static void
description (struct json_writer *w, const struct parameter *parameter)
{
  const char *unit = quantity_unit (parameter->quantity);
  g_autofree char *line = *unit ? g_strdup_printf ("%s, %s", parameter->name, unit) : g_strdup (parameter->name);

  json_writer_text (w, "description", line);
}

static void
funnel (struct json_writer *w)
{
  const struct parameter *depth = parameter_find ("funnel_depth");
  const struct parameter *clearance = parameter_find ("funnel_clearance");

  begin_array_type (w, "funnel", 2, FUNNEL_POINTS_MAX);
  json_writer_text (w, "description", "Funnel profile: depth and clearance of each point, m");
  begin_array_type (w, "items", 2, 2);
  json_writer_begin_array (w, "prefixItems");
  number (w, NULL, depth->least, depth->most);
  number (w, NULL, clearance->least, clearance->most);
  json_writer_end (w);
  json_writer_end (w);
  json_writer_end (w);
}

static void
each_cylinder (struct json_writer *w, const struct parameter *parameter)
{
  json_writer_begin_object (w, parameter->key);
  description (w, parameter);
  json_writer_begin_array (w, "anyOf");
  number (w, NULL, parameter->least, parameter->most);
  begin_array_type (w, NULL, 1, CYLINDERS_MAX);
  number (w, "items", parameter->least, parameter->most);
  json_writer_end (w);
  json_writer_end (w);
  json_writer_end (w);
}

static void
one (struct json_writer *w, const struct parameter *parameter)
{
  json_writer_begin_object (w, parameter->key);
  description (w, parameter);
  json_writer_text (w, "type", "number");
  json_writer_number (w, "minimum", parameter->least);
  json_writer_number (w, "maximum", parameter->most);
  json_writer_end (w);
}

static void
group (struct json_writer *w, const char *name)
{
  begin_object_type (w, name);
  json_writer_begin_object (w, "properties");
  for (int i = 0; i < parameter_count; i++) {
    const struct parameter *parameter = &parameters[i];
    if (!g_str_equal (parameter->group, name))
      continue;
    if (parameter->many == ONE)
      one (w, parameter);
    else if (parameter->many == EACH_CYLINDER)
      each_cylinder (w, parameter);
    else if (g_str_equal (parameter->key, "funnel_depth"))
      funnel (w);
  }
  json_writer_end (w);
  json_writer_end (w);
}

static void
key_property (struct json_writer *w)
{
  json_writer_begin_object (w, "key");
  json_writer_text (w, "type", "string");
  json_writer_number (w, "maxLength", sizeof ((struct vehicle *) NULL)->key - 1);
  json_writer_begin_object_inline (w, "not");
  json_writer_text (w, "pattern", "[^A-Za-z0-9-]");
  json_writer_end (w);
  json_writer_end (w);
}

static void
vehicle_body (struct json_writer *w)
{
  json_writer_text (w, "type", "object");
  json_writer_truth (w, "additionalProperties", FALSE);
  required (w, "format", "version", "name");
  json_writer_begin_object (w, "properties");
  head (w, VEHICLE_FORMAT, VEHICLE_VERSION);
  key_property (w);
  text (w, "name", 1, sizeof ((struct vehicle *) NULL)->name - 1);
  text (w, "notes", 0, sizeof ((struct vehicle *) NULL)->notes - 1);
  json_writer_begin_object_inline (w, "cylinders");
  json_writer_text (w, "type", "integer");
  json_writer_number (w, "minimum", 1);
  json_writer_number (w, "maximum", CYLINDERS_MAX);
  json_writer_end (w);
  choice (w, "plate_direction", plate_direction_words);
  for (int i = 0; vehicle_groups[i]; i++)
    group (w, vehicle_groups[i]);
  begin_object_type (w, "bands");
  json_writer_begin_object (w, "properties");
  for (int i = 0; i < READINGS; i++)
    reference (w, reading_kinds[i].key, "", "band");
  json_writer_end (w);
  json_writer_end (w);
  json_writer_end (w);
}

static void
band (struct json_writer *w)
{
  begin_object_type (w, "band");
  required (w, "form", NULL, NULL);
  any_required (w, "low", "high");
  json_writer_begin_object (w, "properties");
  choice (w, "form", band_form_words);
  number (w, "low", -BAND_VALUE_MAX, BAND_VALUE_MAX);
  number (w, "high", -BAND_VALUE_MAX, BAND_VALUE_MAX);
  text (w, "source", 0, sizeof ((struct band *) NULL)->source - 1);
  json_writer_end (w);
  json_writer_end (w);
}

/* -- a job ------------------------------------------------------------------------------------------------------------ */

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
  required (w, "unit", NULL, NULL);
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

  begin_object_type (w, name);
  required (w, "value", uncertainty ? "form" : NULL, NULL);
  unit_or_nothing (w, FALSE);
  json_writer_begin_object (w, "properties");
  reference (w, "value", "", "number_as_typed");
  reference (w, "unit", "unit_of_", word_of (quantity));
  if (uncertainty)
    choice (w, "form", uncertainty_words);
  json_writer_end (w);
  json_writer_end (w);
}

static void
conditions (struct json_writer *w)
{
  begin_object_type (w, "conditions");
  json_writer_begin_object (w, "properties");
  for (int i = 0; i < TYPED_CONDITIONS; i++)
    reference (w, typed_condition_rows[i].key, "measure_of_",
               word_of (condition_find (typed_condition_rows[i].condition)->quantity));
  choice (w, "vacuum_source", vacuum_source_words);
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
  begin_array_type (w, "values", 1, CYLINDERS_MAX);
  reference (w, "items", "", "number_as_typed");
  json_writer_end (w);
  json_writer_begin_object (w, "unit");
  json_writer_begin_array (w, "anyOf");
  reference (w, NULL, "unit_of_", word_of (quantity));
  begin_array_type (w, NULL, 1, CYLINDERS_MAX);
  json_writer_begin_object (w, "items");
  json_writer_begin_array (w, "anyOf");
  reference (w, NULL, "unit_of_", word_of (quantity));
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

  begin_object_type (w, name);
  required (w, kind->each_cylinder ? "values" : "value", NULL, NULL);
  unit_or_nothing (w, kind->each_cylinder);
  json_writer_begin_object (w, "properties");
  json_writer_truth (w, "kind", TRUE);
  if (kind->each_cylinder)
    values_and_units (w, kind->quantity);
  else {
    reference (w, "value", "", "number_as_typed");
    reference (w, "unit", "unit_of_", word_of (kind->quantity));
  }
  reference (w, "uncertainty", "uncertainty_in_", word_of (job_uncertainty_quantity (kind)));
  reference (w, "conditions", "", "conditions");
  text (w, "note", 0, TEXT_CHARACTERS_MAX);
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
  required (w, "kind", NULL, NULL);
  json_writer_begin_object (w, "properties");
  choice (w, "kind", keys);
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
    reference (w, "then", "", name);
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

static void
job_body (struct json_writer *w)
{
  json_writer_text (w, "type", "object");
  json_writer_truth (w, "additionalProperties", FALSE);
  required (w, "format", "version", "car");
  json_writer_begin_object (w, "properties");
  head (w, JOB_FORMAT, JOB_VERSION);
  for (int i = 0; i < JOB_TEXTS; i++)
    text (w, job_texts[i].key, 0, TEXT_CHARACTERS_MAX);
  json_writer_begin_object (w, "car");
  json_writer_begin_array (w, "anyOf");
  json_writer_begin_object_inline (w, NULL);
  json_writer_text (w, "type", "string");
  json_writer_end (w);
  reference (w, NULL, "", "vehicle");
  json_writer_end (w);
  json_writer_end (w);
  reference (w, "conditions", "", "conditions");
  begin_array_type (w, "readings", 0, JOB_READINGS_MAX);
  reference (w, "items", "", "reading");
  json_writer_end (w);
  json_writer_end (w);
}

/* -- the two schemas --------------------------------------------------------------------------------------------------- */

static void
begin_schema (struct json_writer *w, const char *id, const char *title)
{
  json_writer_begin_object (w, NULL);
  json_writer_text (w, "$schema", "https://json-schema.org/draft/2020-12/schema");
  json_writer_text (w, "$id", id);
  json_writer_text (w, "title", title);
}

static char *
vehicle_schema (void)
{
  struct json_writer *w = json_writer_new ();

  begin_schema (w, "urn:platelift:vehicle-1", "Vehicle data: one car's metering unit and the bands of its readings, in SI units");
  vehicle_body (w);
  json_writer_begin_object (w, "$defs");
  band (w);
  json_writer_end (w);
  json_writer_end (w);
  return json_writer_finish (w);
}

static char *
job_schema (void)
{
  struct json_writer *w = json_writer_new ();

  begin_schema (w, "urn:platelift:job-1", "A job: one car on one visit, the conditions and the readings as they were typed");
  job_body (w);
  json_writer_begin_object (w, "$defs");
  json_writer_begin_object (w, "vehicle");
  vehicle_body (w);
  json_writer_end (w);
  band (w);
  typed_number (w);
  conditions (w);
  measures (w);
  any_reading (w);
  json_writer_end (w);
  json_writer_end (w);
  return json_writer_finish (w);
}

int
main (int argc, char **argv)
{
  g_autofree char *schema = NULL;

  if (argc == 2 && g_str_equal (argv[1], "vehicle"))
    schema = vehicle_schema ();
  else if (argc == 2 && g_str_equal (argv[1], "job"))
    schema = job_schema ();
  else {
    fputs ("write-schema: say vehicle or job\n", stderr);
    return 2;
  }
  return fputs (schema, stdout) < 0 || fflush (stdout) != 0 ? 1 : 0;
}
