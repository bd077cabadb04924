#include "problems.h"

#include <glib/gi18n.h>

static void
problem_free (gpointer data)
{
  struct problem *problem = data;
  g_free (problem->place);
  g_free (problem->sentence);
  g_free (problem);
}

/* Names and words of a bad file are repeated in places and sentences: control characters in them would break the line
 * or the terminal. */
static char *
printable (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  GString *out = g_string_new (NULL);

  for (const char *p = valid; *p; p = g_utf8_next_char (p))
    g_string_append_unichar (out, g_unichar_iscntrl (g_utf8_get_char (p)) ? 0xfffd : g_utf8_get_char (p));
  return g_string_free (out, FALSE);
}

struct problems *
problems_new (void)
{
  struct problems *problems = g_new0 (struct problems, 1);
  problems->list = g_ptr_array_new_with_free_func (problem_free);
  return problems;
}

void
problems_free (struct problems *problems)
{
  if (problems == NULL)
    return;
  g_ptr_array_unref (problems->list);
  g_free (problems);
}

void
problems_add_v (struct problems *problems, const char *place, const char *format, va_list arguments)
{
  g_autofree char *sentence = NULL;
  struct problem *problem;

  g_return_if_fail (problems && place && format);
  if (problems->list->len >= PROBLEMS_MAX) {
    problems->omitted++;
    return;
  }
  problem = g_new0 (struct problem, 1);
  sentence = g_strdup_vprintf (format, arguments);
  problem->place = printable (place);
  problem->sentence = printable (sentence);
  g_ptr_array_add (problems->list, problem);
}

void
problems_add (struct problems *problems, const char *place, const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  problems_add_v (problems, place, format, arguments);
  va_end (arguments);
}

unsigned
problems_count (const struct problems *problems)
{
  g_return_val_if_fail (problems, 0);
  return problems->list->len + problems->omitted;
}

const struct problem *
problems_at (const struct problems *problems, unsigned index)
{
  g_return_val_if_fail (problems && index < problems->list->len, NULL);
  return g_ptr_array_index (problems->list, index);
}

char *
problems_text (const struct problems *problems, const char *file)
{
  GString *text = g_string_new (NULL);

  g_return_val_if_fail (problems, NULL);
  for (guint i = 0; i < problems->list->len; i++) {
    const struct problem *problem = g_ptr_array_index (problems->list, i);
    if (file && *file)
      g_string_append_printf (text, "%s: ", file);
    if (*problem->place)
      g_string_append_printf (text, "%s: ", problem->place);
    g_string_append_printf (text, "%s\n", problem->sentence);
  }
  if (problems->omitted > 0)
    g_string_append_printf (
        text, ngettext ("… and %u more problem\n", "… and %u more problems\n", problems->omitted), problems->omitted);
  return g_string_free (text, FALSE);
}
