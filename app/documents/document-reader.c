#include "document-reader.h"
#include "json-strict.h"
#include "number-text.h"

#include <glib/gi18n.h>

#include <math.h>
#include <string.h>

/* A name as RFC 6901 writes it in a path. */
static void
append_name (GString *path, const char *name)
{
  g_string_append_c (path, '/');
  for (; *name; name++)
    if (*name == '~')
      g_string_append (path, "~0");
    else if (*name == '/')
      g_string_append (path, "~1");
    else
      g_string_append_c (path, *name);
}

static void
append_path (GString *path, const struct cursor *cursor)
{
  if (cursor->parent == NULL)
    return;
  append_path (path, cursor->parent);
  if (cursor->key)
    append_name (path, cursor->key);
  else
    g_string_append_printf (path, "/%u", cursor->index);
}

char *
cursor_path (const struct cursor *cursor)
{
  GString *path = g_string_new (NULL);

  append_path (path, cursor);
  return g_string_free (path, FALSE);
}

void
cursor_problem (const struct cursor *cursor, const char *format, ...)
{
  g_autofree char *path = cursor_path (cursor);
  va_list arguments;

  va_start (arguments, format);
  problems_add_v (cursor->problems, *path ? path : "/", format, arguments);
  va_end (arguments);
}

void
cursor_problem_beyond (const struct cursor *cursor, const char *format, ...)
{
  g_autofree char *path = cursor_path (cursor);
  va_list arguments;

  va_start (arguments, format);
  problems_add_v (cursor->problems, *path ? path : "/", format, arguments);
  va_end (arguments);
  cursor->problems->beyond_schema++;
}

struct cursor
cursor_root (JsonNode *root, struct problems *problems)
{
  return (struct cursor) { NULL, NULL, 0, root, problems };
}

gboolean
cursor_has_type_object (const struct cursor *cursor)
{
  if (JSON_NODE_HOLDS_OBJECT (cursor->node))
    return TRUE;
  cursor_problem (cursor, _("An object in braces should stand here"));
  return FALSE;
}

/* The known word that a slip of the keyboard made into this one, or NULL: alike at the start and at the end, with at
 * most two letters apart between. */
static const char *
nearest (const char *word, const char *const *known)
{
  g_autofree char *lower = g_utf8_strdown (word, -1);
  gsize length = strlen (lower);

  for (int i = 0; known[i]; i++) {
    gsize wanted = strlen (known[i]), shorter = MIN (length, wanted), head = 0, tail = 0;
    while (head < shorter && lower[head] == known[i][head])
      head++;
    while (tail < shorter - head && lower[length - 1 - tail] == known[i][wanted - 1 - tail])
      tail++;
    if (head + tail >= 3 && MAX (length, wanted) - head - tail <= 2)
      return known[i];
  }
  return NULL;
}

static void
unknown_name (const struct cursor *cursor, const char *name, const char *const *known)
{
  struct cursor at = { cursor, name, 0, NULL, cursor->problems };
  const char *meant = nearest (name, known);

  if (meant)
    cursor_problem (&at, _("This name is not known here; is “%s” meant?"), meant);
  else
    cursor_problem (&at, _("This name is not known here"));
}

gboolean
cursor_is_object (const struct cursor *cursor, const char *const *known)
{
  g_autoptr (GList) names = NULL;
  gboolean good = TRUE;

  if (!cursor_has_type_object (cursor))
    return FALSE;
  names = json_object_get_members (json_node_get_object (cursor->node));
  for (GList *at = names; at; at = at->next)
    if (!g_strv_contains (known, at->data)) {
      unknown_name (cursor, at->data, known);
      good = FALSE;
    }
  return good;
}

gboolean
cursor_is_array (const struct cursor *cursor, unsigned least, unsigned most, unsigned *length)
{
  if (!JSON_NODE_HOLDS_ARRAY (cursor->node)) {
    cursor_problem (cursor, _("A list in brackets should stand here"));
    return FALSE;
  }
  *length = json_array_get_length (json_node_get_array (cursor->node));
  if (*length >= least && *length <= most)
    return TRUE;
  if (least == most)
    cursor_problem (cursor, _("%u entries should stand here, not %u"), least, *length);
  else if (*length < least)
    cursor_problem (cursor, _("At least %u entries should stand here, not %u"), least, *length);
  else
    cursor_problem (cursor, _("At most %u entries may stand here, not %u"), most, *length);
  return FALSE;
}

gboolean
cursor_member (const struct cursor *cursor, const char *key, struct cursor *member)
{
  JsonNode *node;

  if (!JSON_NODE_HOLDS_OBJECT (cursor->node))
    return FALSE;
  node = json_object_get_member (json_node_get_object (cursor->node), key);
  if (node == NULL)
    return FALSE;
  *member = (struct cursor) { cursor, key, 0, node, cursor->problems };
  return TRUE;
}

void
cursor_missing (const struct cursor *cursor, const char *key)
{
  struct cursor at = { cursor, key, 0, NULL, cursor->problems };
  cursor_problem (&at, _("“%s” is missing"), key);
}

gboolean
cursor_needs (const struct cursor *cursor, const char *key, struct cursor *member)
{
  if (cursor_member (cursor, key, member))
    return TRUE;
  if (JSON_NODE_HOLDS_OBJECT (cursor->node))
    cursor_missing (cursor, key);
  return FALSE;
}

struct cursor
cursor_item (const struct cursor *cursor, unsigned index)
{
  JsonNode *node = json_array_get_element (json_node_get_array (cursor->node), index);
  return (struct cursor) { cursor, NULL, index, node, cursor->problems };
}

gboolean
cursor_is_number (const struct cursor *cursor)
{
  GType type;

  if (!JSON_NODE_HOLDS_VALUE (cursor->node))
    return FALSE;
  type = json_node_get_value_type (cursor->node);
  return type == G_TYPE_INT64 || type == G_TYPE_DOUBLE;
}

gboolean
cursor_is_text (const struct cursor *cursor)
{
  return JSON_NODE_HOLDS_VALUE (cursor->node) && json_node_get_value_type (cursor->node) == G_TYPE_STRING;
}

gboolean
cursor_number (const struct cursor *cursor, double least, double most, double *value)
{
  double read;

  if (!cursor_is_number (cursor)) {
    cursor_problem (cursor, _("A number should stand here"));
    return FALSE;
  }
  read = json_node_get_double (cursor->node);
  if (!(read >= least && read <= most)) {
    g_autofree char *low = number_shortest (least);
    g_autofree char *high = number_shortest (most);
    g_autofree char *has = number_shortest (read);
    cursor_problem (cursor, _("%s is out of range: %s to %s"), has, low, high);
    return FALSE;
  }
  *value = read;
  return TRUE;
}

gboolean
cursor_whole (const struct cursor *cursor, int least, int most, int *value)
{
  double read;

  if (!cursor_number (cursor, least, most, &read))
    return FALSE;
  if (read != floor (read)) {
    cursor_problem (cursor, _("A whole number should stand here"));
    return FALSE;
  }
  *value = (int) read;
  return TRUE;
}

gboolean
cursor_text (const struct cursor *cursor, unsigned least, unsigned most, const char **text)
{
  const char *read;
  glong length;

  if (!cursor_is_text (cursor)) {
    cursor_problem (cursor, _("A text in quotation marks should stand here"));
    return FALSE;
  }
  read = json_node_get_string (cursor->node);
  length = g_utf8_strlen (read, -1);
  if (length < (glong) least) {
    cursor_problem (cursor, _("This text must not be empty"));
    return FALSE;
  }
  if (length > (glong) most) {
    cursor_problem (cursor, _("This text has %ld characters; the limit is %u"), length, most);
    return FALSE;
  }
  *text = read;
  return TRUE;
}

gboolean
cursor_text_into (const struct cursor *cursor, unsigned least, char *buffer, gsize size)
{
  const char *text = NULL;

  if (!cursor_text (cursor, least, (unsigned) size - 1, &text))
    return FALSE;
  if (strlen (text) >= size) {
    cursor_problem_beyond (cursor, _("This text has %zu bytes; the limit is %zu"), strlen (text), size - 1);
    return FALSE;
  }
  memset (buffer, 0, size); /* equal documents give equal bytes, behind the text too */
  memcpy (buffer, text, strlen (text));
  return TRUE;
}

gboolean
cursor_word (const struct cursor *cursor, const char *const *words, int *index)
{
  g_autofree char *list = NULL;
  const char *meant = NULL;

  if (cursor_is_text (cursor)) {
    meant = nearest (json_node_get_string (cursor->node), words);
    for (int i = 0; words[i]; i++)
      if (g_str_equal (words[i], json_node_get_string (cursor->node))) {
        *index = i;
        return TRUE;
      }
  }
  list = g_strjoinv ("”, “", (char **) words);
  if (meant)
    cursor_problem (cursor, _("This word is not known here; is “%s” meant?"), meant);
  else if (words[1] == NULL)
    cursor_problem (cursor, _("“%s” should stand here"), words[0]);
  else
    cursor_problem (cursor, _("One of “%s” should stand here"), list);
  return FALSE;
}

static gboolean
version_fits (const struct cursor *version, int newest)
{
  int read = 0;

  if (!cursor_is_number (version) || !(json_node_get_double (version->node) > newest))
    return cursor_whole (version, 1, newest, &read);
  cursor_problem (version, _("This document was written by a newer version of the program (document version %g; this "
                             "program reads up to %d)"),
                  json_node_get_double (version->node), newest);
  return FALSE;
}

gboolean
cursor_is_document (const struct cursor *cursor, const char *format, int version)
{
  const char *const formats[] = { format, NULL };
  struct cursor member;
  gboolean good;
  int index;

  if (!cursor_has_type_object (cursor))
    return FALSE;
  good = cursor_needs (cursor, "format", &member) && cursor_word (&member, formats, &index);
  return cursor_needs (cursor, "version", &member) && version_fits (&member, version) && good;
}

JsonNode *
document_open (const char *text, gsize length, const char *format, int version, struct problems *problems)
{
  g_autoptr (JsonNode) root = json_strict_parse (text, length, problems);
  struct cursor cursor;

  if (root == NULL)
    return NULL;
  cursor = cursor_root (root, problems);
  if (!cursor_is_document (&cursor, format, version))
    return NULL;
  return g_steal_pointer (&root);
}
