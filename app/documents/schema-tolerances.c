#include "tolerance-document-private.h"

#include "document-reader.h"
#include "parameter.h"
#include "schema.h"

static void
parameter_choice (struct json_writer *w)
{
  json_writer_begin_object (w, "parameter");
  json_writer_begin_array (w, "enum");
  for (int i = 0; i < parameter_count; i++)
    json_writer_text (w, NULL, parameters[i].key);
  json_writer_end (w);
  json_writer_end (w);
}

/* The deviations of an absolute tolerance are in the parameter's unit, the others are shares. */
static void
deviations (struct json_writer *w, const char *key, double most)
{
  json_writer_begin_object (w, key);
  json_writer_begin_object (w, "properties");
  schema_number (w, "common", 0, most);
  schema_number (w, "each", 0, most);
  json_writer_end (w);
  json_writer_end (w);
}

static void
row (struct json_writer *w)
{
  static const char *const absolute[] = { "absolute", NULL };

  schema_begin_object_type (w, "items");
  schema_required (w, "parameter", "form", NULL);
  schema_any_required (w, "common", "each");
  json_writer_begin_object (w, "properties");
  parameter_choice (w);
  schema_choice (w, "part", tolerance_part_words);
  schema_choice (w, "form", tolerance_form_words);
  json_writer_truth (w, "common", TRUE);
  json_writer_truth (w, "each", TRUE);
  json_writer_end (w);
  json_writer_begin_object (w, "if");
  json_writer_begin_object (w, "properties");
  schema_choice (w, "form", absolute);
  json_writer_end (w);
  json_writer_end (w);
  deviations (w, "then", TOLERANCE_MAX);
  deviations (w, "else", TOLERANCE_SHARE_MAX);
  json_writer_end (w);
}

void
schema_tolerances_body (struct json_writer *w)
{
  json_writer_text (w, "type", "object");
  json_writer_truth (w, "additionalProperties", FALSE);
  schema_required (w, "format", "version", "tolerances");
  json_writer_begin_object (w, "properties");
  schema_head (w, TOLERANCES_FORMAT, TOLERANCES_VERSION);
  schema_text (w, "notes", 0, TEXT_CHARACTERS_MAX);
  schema_number (w, "idle_setting", 0, IDLE_SETTING_MAX);
  schema_begin_array_type (w, "tolerances", 1, TOLERANCES_MAX);
  row (w);
  json_writer_end (w);
  json_writer_end (w);
}
