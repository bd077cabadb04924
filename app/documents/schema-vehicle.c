#include "parameter.h"
#include "schema.h"
#include "vehicle-document-private.h"

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

  schema_begin_array_type (w, "funnel", 2, FUNNEL_POINTS_MAX);
  json_writer_text (w, "description", "Funnel profile: depth and clearance of each point, m");
  schema_begin_array_type (w, "items", 2, 2);
  json_writer_begin_array (w, "prefixItems");
  schema_number (w, NULL, depth->least, depth->most);
  schema_number (w, NULL, clearance->least, clearance->most);
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
  schema_number (w, NULL, parameter->least, parameter->most);
  schema_begin_array_type (w, NULL, 1, CYLINDERS_MAX);
  schema_number (w, "items", parameter->least, parameter->most);
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
  schema_begin_object_type (w, name);
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

void
schema_vehicle_body (struct json_writer *w)
{
  json_writer_text (w, "type", "object");
  json_writer_truth (w, "additionalProperties", FALSE);
  schema_required (w, "format", "version", "name");
  json_writer_begin_object (w, "properties");
  schema_head (w, VEHICLE_FORMAT, VEHICLE_VERSION);
  key_property (w);
  schema_text (w, "name", 1, sizeof ((struct vehicle *) NULL)->name - 1);
  schema_text (w, "notes", 0, sizeof ((struct vehicle *) NULL)->notes - 1);
  json_writer_begin_object_inline (w, "cylinders");
  json_writer_text (w, "type", "integer");
  json_writer_number (w, "minimum", 1);
  json_writer_number (w, "maximum", CYLINDERS_MAX);
  json_writer_end (w);
  schema_choice (w, "plate_direction", plate_direction_words);
  for (int i = 0; vehicle_groups[i]; i++)
    group (w, vehicle_groups[i]);
  schema_begin_object_type (w, "bands");
  json_writer_begin_object (w, "properties");
  for (int i = 0; i < READINGS; i++)
    schema_reference (w, reading_kinds[i].key, "", "band");
  json_writer_end (w);
  json_writer_end (w);
  json_writer_end (w);
}

void
schema_vehicle_definitions (struct json_writer *w)
{
  schema_begin_object_type (w, "band");
  schema_required (w, "form", NULL, NULL);
  schema_any_required (w, "low", "high");
  json_writer_begin_object (w, "properties");
  schema_choice (w, "form", band_form_words);
  schema_number (w, "low", -BAND_VALUE_MAX, BAND_VALUE_MAX);
  schema_number (w, "high", -BAND_VALUE_MAX, BAND_VALUE_MAX);
  schema_text (w, "source", 0, sizeof ((struct band *) NULL)->source - 1);
  json_writer_end (w);
  json_writer_end (w);
}
