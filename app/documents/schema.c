#include "schema.h"
#include "document-reader.h"

void
schema_words (struct json_writer *w, const char *key, const char *const *list)
{
  json_writer_begin_array_inline (w, key);
  for (int i = 0; list[i]; i++)
    json_writer_text (w, NULL, list[i]);
  json_writer_end (w);
}

void
schema_choice (struct json_writer *w, const char *key, const char *const *list)
{
  json_writer_begin_object (w, key);
  schema_words (w, "enum", list);
  json_writer_end (w);
}

void
schema_reference (struct json_writer *w, const char *key, const char *prefix, const char *name)
{
  g_autofree char *target = g_strconcat ("#/$defs/", prefix, name, NULL);

  json_writer_begin_object_inline (w, key);
  json_writer_text (w, "$ref", target);
  json_writer_end (w);
}

void
schema_text (struct json_writer *w, const char *key, unsigned least, unsigned most)
{
  json_writer_begin_object_inline (w, key);
  json_writer_text (w, "type", "string");
  if (least > 0)
    json_writer_number (w, "minLength", least);
  json_writer_number (w, "maxLength", most);
  json_writer_end (w);
}

void
schema_number (struct json_writer *w, const char *key, double least, double most)
{
  json_writer_begin_object_inline (w, key);
  json_writer_text (w, "type", "number");
  json_writer_number (w, "minimum", least);
  json_writer_number (w, "maximum", most);
  json_writer_end (w);
}

void
schema_required (struct json_writer *w, const char *first, const char *second, const char *third)
{
  const char *const list[] = { first, second, third, NULL };
  schema_words (w, "required", list);
}

void
schema_begin_object_type (struct json_writer *w, const char *key)
{
  json_writer_begin_object (w, key);
  json_writer_text (w, "type", "object");
  json_writer_truth (w, "additionalProperties", FALSE);
}

void
schema_begin_array_type (struct json_writer *w, const char *key, unsigned least, unsigned most)
{
  json_writer_begin_object (w, key);
  json_writer_text (w, "type", "array");
  json_writer_number (w, "minItems", least);
  json_writer_number (w, "maxItems", most);
}

/* Either member of the two. */
void
schema_any_required (struct json_writer *w, const char *first, const char *second)
{
  json_writer_begin_array (w, "anyOf");
  for (int i = 0; i < 2; i++) {
    json_writer_begin_object_inline (w, NULL);
    schema_required (w, i == 0 ? first : second, NULL, NULL);
    json_writer_end (w);
  }
  json_writer_end (w);
}

void
schema_head (struct json_writer *w, const char *format, int version)
{
  schema_text (w, "$schema", 0, TEXT_CHARACTERS_MAX);
  json_writer_begin_object_inline (w, "format");
  json_writer_text (w, "const", format);
  json_writer_end (w);
  json_writer_begin_object_inline (w, "version");
  json_writer_number (w, "const", version);
  json_writer_end (w);
}
