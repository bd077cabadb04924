#include "json-text.h"

#include "number-text.h"

#include <math.h>

#define DEPTH_MAX 16

struct json_text {
  GString *text;
  char closing[DEPTH_MAX];
  int depth;
  gboolean first; /* nothing stands yet in the innermost object or array */
};

static void
append_quoted (GString *text, const char *value)
{
  g_string_append_c (text, '"');
  for (const char *at = value; *at != '\0'; at++)
    if (*at == '"' || *at == '\\')
      g_string_append_printf (text, "\\%c", *at);
    else if ((unsigned char) *at < 0x20 || *at == 0x7f)
      g_string_append_printf (text, "\\u%04x", (unsigned char) *at);
    else
      g_string_append_c (text, *at);
  g_string_append_c (text, '"');
}

static void
begin (struct json_text *json, const char *key)
{
  if (json->depth > 0)
    {
      g_assert ((key != NULL) == (json->closing[json->depth - 1] == '}'));
      g_string_append_printf (json->text, "%s\n%*s", json->first ? "" : ",", 2 * json->depth, "");
    }
  if (key != NULL)
    {
      append_quoted (json->text, key);
      g_string_append (json->text, ": ");
    }
  json->first = FALSE;
}

static void
open (struct json_text *json, const char *key, char opening, char closing)
{
  begin (json, key);
  g_assert (json->depth < DEPTH_MAX);
  g_string_append_c (json->text, opening);
  json->closing[json->depth++] = closing;
  json->first = TRUE;
}

struct json_text *
json_text_new (void)
{
  struct json_text *json = g_new0 (struct json_text, 1);

  json->text = g_string_new (NULL);
  return json;
}

void
json_text_object (struct json_text *json, const char *key)
{
  open (json, key, '{', '}');
}

void
json_text_array (struct json_text *json, const char *key)
{
  open (json, key, '[', ']');
}

void
json_text_close (struct json_text *json)
{
  g_assert (json->depth > 0);
  json->depth--;
  if (!json->first)
    g_string_append_printf (json->text, "\n%*s", 2 * json->depth, "");
  g_string_append_c (json->text, json->closing[json->depth]);
  json->first = FALSE;
}

void
json_text_string (struct json_text *json, const char *key, const char *value)
{
  g_autofree char *valid = g_utf8_make_valid (value, -1);

  begin (json, key);
  append_quoted (json->text, valid);
}

void
json_text_number (struct json_text *json, const char *key, double value)
{
  g_autofree char *number = NULL;

  if (!isfinite (value))
    {
      json_text_null (json, key);
      return;
    }
  begin (json, key);
  number = number_shortest (value);
  g_string_append (json->text, number);
}

void
json_text_null (struct json_text *json, const char *key)
{
  begin (json, key);
  g_string_append (json->text, "null");
}

char *
json_text_end (struct json_text *json)
{
  GString *text = json->text;

  g_assert (json->depth == 0);
  g_free (json);
  g_string_append_c (text, '\n');
  return g_string_free (text, FALSE);
}
