#include "json-writer.h"
#include "number-text.h"

#include <string.h>

#define DEPTH_MAX 32

struct level {
  char closing;
  gboolean on_one_line;
  gboolean empty;
};

struct json_writer {
  GString *text;
  struct level levels[DEPTH_MAX];
  int depth;
};

static void
line (struct json_writer *writer)
{
  g_string_append_c (writer->text, '\n');
  for (int i = 0; i < writer->depth; i++)
    g_string_append (writer->text, "  ");
}

static void
append_text (GString *out, const char *text)
{
  g_string_append_c (out, '"');
  for (; *text; text++)
    switch (*text) {
    case '"':
    case '\\':
      g_string_append_c (out, '\\');
      g_string_append_c (out, *text);
      break;
    case '\n':
      g_string_append (out, "\\n");
      break;
    case '\r':
      g_string_append (out, "\\r");
      break;
    case '\t':
      g_string_append (out, "\\t");
      break;
    default:
      if ((guchar) *text < 0x20)
        g_string_append_printf (out, "\\u%04x", (guchar) *text);
      else
        g_string_append_c (out, *text);
    }
  g_string_append_c (out, '"');
}

/* Comma, line and name before a value. */
static void
prepare (struct json_writer *writer, const char *key)
{
  if (writer->depth > 0) {
    struct level *level = &writer->levels[writer->depth - 1];
    if (!level->empty)
      g_string_append_c (writer->text, ',');
    if (!level->on_one_line)
      line (writer);
    else if (!level->empty || level->closing == '}')
      g_string_append_c (writer->text, ' ');
    level->empty = FALSE;
  }
  if (key) {
    append_text (writer->text, key);
    g_string_append (writer->text, ": ");
  }
}

static void
begin (struct json_writer *writer, const char *key, char opening, gboolean on_one_line)
{
  g_return_if_fail (writer->depth < DEPTH_MAX);
  prepare (writer, key);
  if (writer->depth > 0 && writer->levels[writer->depth - 1].on_one_line)
    on_one_line = TRUE;
  g_string_append_c (writer->text, opening);
  writer->levels[writer->depth++] = (struct level) { opening == '{' ? '}' : ']', on_one_line, TRUE };
}

struct json_writer *
json_writer_new (void)
{
  struct json_writer *writer = g_new0 (struct json_writer, 1);
  writer->text = g_string_new (NULL);
  return writer;
}

char *
json_writer_finish (struct json_writer *writer)
{
  char *text;

  g_return_val_if_fail (writer && writer->depth == 0, NULL);
  g_string_append_c (writer->text, '\n');
  text = g_string_free (writer->text, FALSE);
  g_free (writer);
  return text;
}

void
json_writer_begin_object (struct json_writer *writer, const char *key)
{
  begin (writer, key, '{', FALSE);
}

void
json_writer_begin_object_inline (struct json_writer *writer, const char *key)
{
  begin (writer, key, '{', TRUE);
}

void
json_writer_begin_array (struct json_writer *writer, const char *key)
{
  begin (writer, key, '[', FALSE);
}

void
json_writer_begin_array_inline (struct json_writer *writer, const char *key)
{
  begin (writer, key, '[', TRUE);
}

void
json_writer_end (struct json_writer *writer)
{
  struct level *level;

  g_return_if_fail (writer->depth > 0);
  level = &writer->levels[--writer->depth];
  if (!level->on_one_line && !level->empty)
    line (writer);
  else if (level->closing == '}' && !level->empty)
    g_string_append_c (writer->text, ' ');
  g_string_append_c (writer->text, level->closing);
}

void
json_writer_text (struct json_writer *writer, const char *key, const char *text)
{
  prepare (writer, key);
  append_text (writer->text, text);
}

void
json_writer_number (struct json_writer *writer, const char *key, double value)
{
  g_autofree char *text = number_shortest (value);

  prepare (writer, key);
  g_string_append (writer->text, text);
}

void
json_writer_truth (struct json_writer *writer, const char *key, gboolean value)
{
  prepare (writer, key);
  g_string_append (writer->text, value ? "true" : "false");
}
