/* Numbers as typed, with their units, and the conditions made of them, from a document. */
#include "job-document-private.h"
#include "number-text.h"

#include <glib/gi18n.h>

static gboolean
out_of_limits (double si, double least, double most, const struct unit *unit, char **sentence)
{
  g_autofree char *low = NULL;
  g_autofree char *high = NULL;

  if (si >= least && si <= most)
    return FALSE;
  low = measure_shown (least, unit, TRUE);
  high = measure_shown (most, unit, TRUE);
  *sentence = g_strdup_printf (_("This value is out of range: %s to %s; is the unit right?"), low, high);
  return TRUE;
}

gboolean
job_value_sound (const struct typed *typed, enum quantity quantity, char **sentence)
{
  double least, most;

  if (*typed->text == 0)
    return TRUE;
  job_value_limits (quantity, &least, &most);
  return !out_of_limits (typed->si, least, most, typed->unit, sentence);
}

gboolean
job_condition_sound (const struct typed *typed, const struct typed_condition *row, char **sentence)
{
  const struct condition *condition = condition_find (row->condition);

  return *typed->text == 0 || !out_of_limits (typed->si, condition->least, condition->most, typed->unit, sentence);
}

/* A number as typed (a text), or a JSON number; "" where nothing was typed. NULL with a problem. Caller frees. */
char *
typed_read_number (const struct cursor *cursor)
{
  g_autoptr (GError) error = NULL;
  const char *text = NULL;
  double value;

  if (cursor_is_number (cursor))
    return number_shortest (json_node_get_double (cursor->node));
  if (!cursor_is_text (cursor)) {
    cursor_problem (cursor, _("A number, best as a text in quotation marks as it was typed, should stand here"));
    return NULL;
  }
  text = json_node_get_string (cursor->node);
  if (*text == 0 || number_parse (text, &value, &error))
    return g_strdup (text);
  if (error->code == NUMBER_ERROR_RANGE)
    cursor_problem_beyond (cursor, "%s", error->message);
  else
    cursor_problem (cursor, "%s", error->message);
  return NULL;
}

const struct unit *
typed_read_unit (const struct cursor *cursor, enum quantity quantity)
{
  const struct unit *unit;
  const char *text = NULL;

  if (!cursor_text (cursor, 0, TEXT_CHARACTERS_MAX, &text))
    return NULL;
  unit = unit_find (text, quantity);
  if (unit && unit_is_spelled (unit, text))
    return unit;
  if (*text == 0)
    cursor_problem (cursor, _("The unit is missing"));
  else if (unit == NULL && unit_any (text))
    cursor_problem (cursor, _("“%s” is a unit of something else"), text);
  else
    cursor_problem (cursor, _("“%s” is not a unit known here"), text);
  return NULL;
}

/* "unit" beside a value; may be left out where nothing was typed. FALSE with a problem. */
gboolean
typed_read_unit_beside (const struct cursor *cursor, gboolean needed, enum quantity quantity, const struct unit **unit)
{
  struct cursor member;

  *unit = NULL;
  if (!cursor_member (cursor, "unit", &member)) {
    if (needed) {
      struct cursor at = { cursor, "unit", 0, NULL, cursor->problems };
      cursor_problem (&at, _("“unit” is missing; a unit is never guessed"));
    }
    return !needed;
  }
  *unit = typed_read_unit (&member, quantity);
  return *unit != NULL;
}

/* typed_set for a text that parses, with the one thing that can still go wrong. */
gboolean
typed_read_set (const struct cursor *cursor, struct typed *typed, const char *text, const struct unit *unit)
{
  double si;

  if (*text && !measure_parse (text, unit->quantity, unit, &si, NULL, NULL)) {
    cursor_problem_beyond (cursor, _("This number is too large or too small to compute with"));
    return FALSE;
  }
  typed_set (typed, text, unit);
  return TRUE;
}

/* "value" and "unit" of the object at the cursor. */
gboolean
typed_read_measure (const struct cursor *cursor, enum quantity quantity, struct typed *typed)
{
  g_autofree char *text = NULL;
  const struct unit *unit;
  struct cursor value;
  gboolean unit_good;

  if (cursor_needs (cursor, "value", &value))
    text = typed_read_number (&value);
  unit_good = typed_read_unit_beside (cursor, text ? *text != 0 : TRUE, quantity, &unit);
  return text && unit_good && typed_read_set (&value, typed, text, unit);
}

static void
read_condition (const struct cursor *cursor, const struct typed_condition *row, struct typed *typed)
{
  static const char *const known[] = { "value", "unit", NULL };
  g_autofree char *sentence = NULL;

  cursor_is_object (cursor, known);
  if (JSON_NODE_HOLDS_OBJECT (cursor->node)
      && typed_read_measure (cursor, condition_find (row->condition)->quantity, typed)
      && !job_condition_sound (typed, row, &sentence))
    cursor_problem_beyond (cursor, "%s", sentence);
}

void
typed_read_conditions (const struct cursor *cursor, struct typed_conditions *conditions)
{
  const char *known[TYPED_CONDITIONS + 2] = { NULL };
  struct cursor member;
  int source;

  for (int i = 0; i < TYPED_CONDITIONS; i++)
    known[i] = typed_condition_rows[i].key;
  known[TYPED_CONDITIONS] = "vacuum_source";
  cursor_is_object (cursor, known);
  for (int i = 0; i < TYPED_CONDITIONS; i++)
    if (cursor_member (cursor, known[i], &member))
      read_condition (&member, &typed_condition_rows[i], typed_condition_in (conditions, &typed_condition_rows[i]));
  if (cursor_member (cursor, "vacuum_source", &member) && cursor_word (&member, vacuum_source_words, &source)) {
    conditions->vacuum_source = (enum vacuum_source) source;
    conditions->vacuum_source_given = TRUE;
  }
}
