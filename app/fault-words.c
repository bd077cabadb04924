#include "fault-words.h"

#include "fault-document.h"
#include "json-writer.h"
#include "number-text.h"
#include "text-table.h"

#include <glib/gi18n.h>
#include <string.h>

static const struct fault_catalogue *
catalogue (void)
{
  g_autoptr (problems_t) problems = problems_new ();

  return fault_catalogue_shipped (problems);
}

static gboolean G_GNUC_PRINTF (2, 3)
refuse (GError **error, const char *format, ...)
{
  va_list arguments;

  va_start (arguments, format);
  if (error != NULL)
    *error = g_error_new_valist (G_OPTION_ERROR, G_OPTION_ERROR_BAD_VALUE, format, arguments);
  va_end (arguments);
  return FALSE;
}

/* Letters that two keys share at their start. */
static gsize
shared (const char *a, const char *b)
{
  gsize length = 0;

  while (a[length] != '\0' && a[length] == b[length])
    length++;
  return length;
}

static gboolean
unknown_key (const char *key, GError **error)
{
  const struct fault *nearest = NULL;
  gsize most = 2;

  for (unsigned i = 0; i < catalogue ()->count; i++)
    if (shared (catalogue ()->fault[i].key, key) > most)
      {
        nearest = &catalogue ()->fault[i];
        most = shared (nearest->key, key);
      }
  if (nearest != NULL)
    return refuse (error, _("there is no fault “%s”; is “%s” meant? --list-faults names all"), key, nearest->key);
  return refuse (error, _("there is no fault “%s”; --list-faults names all"), key);
}

/* A decimal comma cannot be: a comma separates faults. */
static gboolean
read_severity (const char *text, double *severity, GError **error)
{
  if (number_parse (text, severity, NULL) && *severity >= 0 && *severity <= 1)
    return TRUE;
  return refuse (error, _("“%s” is no severity: a number from 0 (healthy) to 1 (worst) with a decimal point"), text);
}

static gboolean
read_cylinder (const char *text, int *cylinder, GError **error)
{
  guint64 number;

  if (!g_ascii_string_to_unsigned (text, 10, 1, CYLINDERS_MAX, &number, NULL))
    return refuse (error, _("“%s” is no cylinder: a whole number from 1"), text);
  *cylinder = (int) number - 1;
  return TRUE;
}

static gboolean
add_dose (const struct fault_dose *dose, GArray *doses, GError **error)
{
  for (guint i = 0; i < doses->len; i++)
    {
      const struct fault_dose *other = &g_array_index (doses, struct fault_dose, i);

      if (other->fault == dose->fault && other->cylinder == dose->cylinder)
        return refuse (error, _("the fault “%s” is given twice"), dose->fault->key);
    }
  if (doses->len >= FAULTS_AT_ONCE_MAX)
    return refuse (error, _("at most %d faults may stand together"), FAULTS_AT_ONCE_MAX);
  g_array_append_val (doses, *dose);
  return TRUE;
}

static gboolean
read_word (char *word, GArray *doses, GError **error)
{
  struct fault_dose dose = { NULL, 1, 0 };
  char *at = strchr (word, '@'), *equals;

  if (at != NULL)
    *at++ = '\0';
  equals = strchr (word, '=');
  if (equals != NULL)
    *equals++ = '\0';
  dose.fault = fault_catalogue_find (catalogue (), word);
  if (dose.fault == NULL)
    return unknown_key (word, error);
  if (equals != NULL && !read_severity (equals, &dose.severity, error))
    return FALSE;
  if (at != NULL && !dose.fault->one_cylinder)
    return refuse (error, _("the fault “%s” is not one of a single cylinder"), word);
  if (at != NULL && !read_cylinder (at, &dose.cylinder, error))
    return FALSE;
  return add_dose (&dose, doses, error);
}

gboolean
fault_words_read (const char *text, GArray *doses, GError **error)
{
  g_auto (GStrv) words = NULL;

  if (!g_utf8_validate (text, -1, NULL))
    return refuse (error, "%s", _("the value is not UTF-8 text"));
  if (*text == '\0')
    return refuse (error, "%s", _("the value is empty"));
  words = g_strsplit (text, ",", -1);
  for (int i = 0; words[i] != NULL; i++)
    if (!read_word (g_strstrip (words[i]), doses, error))
      return FALSE;
  return TRUE;
}

gboolean
fault_words_apply (const GArray *doses, struct car *car, GError **error)
{
  const struct car healthy = *car;
  const struct fault_dose *all = (const struct fault_dose *) (gpointer) doses->data;

  for (guint i = 0; i < doses->len; i++)
    if (all[i].cylinder >= car->cylinders)
      return refuse (error, _("“%s”: the car has %d cylinders, no cylinder %d"), all[i].fault->key, car->cylinders,
                     all[i].cylinder + 1);
  if (!faults_apply (&healthy, all, (int) doses->len, car, NULL))
    return refuse (error, "%s", _("these faults together make a car whose numbers do not hang together"));
  return TRUE;
}

char *
fault_words_shown (const GArray *doses)
{
  const struct unit *percent = unit_find ("%", QUANTITY_FRACTION);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < doses->len; i++)
    {
      const struct fault_dose *dose = &g_array_index (doses, struct fault_dose, i);
      g_autofree char *number = number_shown (unit_from_si (percent, dose->severity), 0);

      if (i > 0)
        g_string_append (text, "; ");
      if (dose->fault->one_cylinder)
        g_string_append_printf (text, _("%s, cylinder %d, %s\u202f%%"), _(dose->fault->name), dose->cylinder + 1, number);
      else
        g_string_append_printf (text, _("%s, %s\u202f%%"), _(dose->fault->name), number);
    }
  return g_string_free (text, FALSE);
}

static void
list_json (struct json_writer *json, const struct fault *fault)
{
  json_writer_begin_object (json, NULL);
  json_writer_text (json, "fault", fault->key);
  json_writer_text (json, "fault_name", _(fault->name));
  json_writer_text (json, "system", _(fault_system_name (fault->system)));
  json_writer_text (json, "what", _(fault->what));
  json_writer_text (json, "repair", _(fault->repair));
  json_writer_truth (json, "one_cylinder", fault->one_cylinder);
  json_writer_begin_array_inline (json, "parameters");
  for (int i = 0; i < fault->effects; i++)
    json_writer_text (json, NULL, fault->effect[i].parameter->key);
  json_writer_end (json);
  json_writer_end (json);
}

char *
fault_words_list (gboolean as_json)
{
  struct json_writer *json = as_json ? json_writer_new () : NULL;
  struct text_table *table = text_table_new ("ll");
  g_autoptr (GString) text = g_string_new (NULL);

  if (json != NULL)
    json_writer_begin_array (json, NULL);
  for (unsigned i = 0; i < catalogue ()->count; i++)
    {
      const struct fault *fault = &catalogue ()->fault[i];

      text_table_row (table, fault->key, _(fault->name), NULL);
      if (json != NULL)
        list_json (json, fault);
    }
  text_table_end (table, text);
  if (json == NULL)
    return g_string_free (g_steal_pointer (&text), FALSE);
  json_writer_end (json);
  return json_writer_finish (json);
}
