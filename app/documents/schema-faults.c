#include "fault-document-private.h"

#include "document-reader.h"
#include "parameter.h"
#include "schema.h"

static void
parameter_choice (struct json_writer *w)
{
  g_autoptr (GPtrArray) keys = g_ptr_array_new ();

  for (int i = 0; i < parameter_count; i++)
    if (fault_may_change (&parameters[i]))
      g_ptr_array_add (keys, (gpointer) parameters[i].key);
  g_ptr_array_add (keys, NULL);
  json_writer_begin_object (w, "parameter");
  json_writer_begin_array (w, "enum");
  for (guint i = 0; keys->pdata[i]; i++)
    json_writer_text (w, NULL, keys->pdata[i]);
  json_writer_end (w);
  json_writer_end (w);
}

/* One way of changing a parameter: which member it needs, and the courses that go with it. */
static void
way (struct json_writer *w, const char *member, const char *other, const char *const *courses)
{
  const char *const needed[] = { member, NULL };

  json_writer_begin_object (w, NULL);
  schema_words (w, "required", needed);
  json_writer_begin_object (w, "properties");
  json_writer_truth (w, other, FALSE);
  schema_choice (w, "course", courses);
  json_writer_end (w);
  json_writer_end (w);
}

/* A geometric or reciprocal course towards 0 has no sense. */
static void
scale_above_zero (struct json_writer *w)
{
  const char *const courses[] = { "geometric", "reciprocal", NULL };
  const char *const needed[] = { "course", NULL };

  json_writer_begin_object (w, "if");
  schema_words (w, "required", needed);
  json_writer_begin_object (w, "properties");
  schema_choice (w, "course", courses);
  json_writer_end (w);
  json_writer_end (w);
  json_writer_begin_object (w, "then");
  json_writer_begin_object (w, "properties");
  json_writer_begin_object_inline (w, "scale");
  json_writer_number (w, "exclusiveMinimum", 0);
  json_writer_end (w);
  json_writer_end (w);
  json_writer_end (w);
}

static void
effect (struct json_writer *w)
{
  static const char *const needed[] = { "parameter", NULL };

  schema_begin_object_type (w, "items");
  schema_words (w, "required", needed);
  json_writer_begin_object (w, "properties");
  parameter_choice (w);
  schema_number (w, "scale", 0, FAULT_SCALE_MAX);
  schema_number (w, "add", -FAULT_ADD_MAX, FAULT_ADD_MAX);
  json_writer_truth (w, "course", TRUE);
  json_writer_end (w);
  json_writer_begin_array (w, "oneOf");
  way (w, "scale", "add", fault_scale_courses);
  way (w, "add", "scale", fault_add_courses);
  json_writer_end (w);
  scale_above_zero (w);
  json_writer_end (w);
}

static void
fault (struct json_writer *w)
{
  static const char *const needed[] = { "key", "name", "what", "repair", "system", "odds", "effects", NULL };
  const struct fault *sizes = NULL;

  schema_begin_object_type (w, "items");
  schema_words (w, "required", needed);
  json_writer_begin_object (w, "properties");
  json_writer_begin_object (w, "key");
  json_writer_text (w, "type", "string");
  json_writer_number (w, "minLength", 1);
  json_writer_number (w, "maxLength", sizeof sizes->key - 1);
  json_writer_begin_object_inline (w, "not");
  json_writer_text (w, "pattern", "[^a-z0-9-]");
  json_writer_end (w);
  json_writer_end (w);
  schema_text (w, "name", 1, sizeof sizes->name - 1);
  schema_text (w, "what", 1, sizeof sizes->what - 1);
  schema_text (w, "repair", 1, sizeof sizes->repair - 1);
  schema_choice (w, "system", fault_system_words);
  json_writer_begin_object_inline (w, "one_cylinder");
  json_writer_text (w, "type", "boolean");
  json_writer_end (w);
  schema_number (w, "odds", 0, FAULT_ODDS_MAX);
  schema_begin_array_type (w, "effects", 1, FAULT_EFFECTS_MAX);
  effect (w);
  json_writer_end (w);
  json_writer_end (w);
  json_writer_end (w);
}

void
schema_faults_body (struct json_writer *w)
{
  json_writer_text (w, "type", "object");
  json_writer_truth (w, "additionalProperties", FALSE);
  schema_required (w, "format", "version", "faults");
  json_writer_begin_object (w, "properties");
  schema_head (w, FAULTS_FORMAT, FAULTS_VERSION);
  schema_text (w, "notes", 0, TEXT_CHARACTERS_MAX);
  schema_begin_array_type (w, "faults", 1, FAULTS_MAX);
  fault (w);
  json_writer_end (w);
  json_writer_end (w);
}
