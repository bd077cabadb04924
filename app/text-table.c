#include "text-table.h"

#include <stdarg.h>
#include <string.h>

#define COLUMN_GAP 2

struct text_table {
  char *columns;
  GPtrArray *cells;
};

/* Columns of a terminal that text takes. */
static gsize
width_of (const char *text)
{
  gsize width = 0;

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar character = g_utf8_get_char (at);

      if (!g_unichar_iszerowidth (character))
        width += g_unichar_iswide (character) ? 2 : 1;
    }
  return width;
}

/* Columns from the decimal sign on. */
static gsize
fraction_width (const char *text)
{
  gsize whole = strcspn (text, ".,");

  return text[whole] == '\0' ? 0 : width_of (text + whole);
}

/* Makes numbers of a column as wide behind their decimal sign as the widest. */
static void
align_decimals (struct text_table *table, gsize column)
{
  gsize columns = strlen (table->columns), widest = 0;

  for (guint i = (guint) column; i < table->cells->len; i += (guint) columns)
    widest = MAX (widest, fraction_width (g_ptr_array_index (table->cells, i)));
  for (guint i = (guint) column; i < table->cells->len; i += (guint) columns)
    {
      char *cell = g_ptr_array_index (table->cells, i);

      g_ptr_array_index (table->cells, i)
        = g_strdup_printf ("%s%*s", cell, (int) (widest - fraction_width (cell)), "");
      g_free (cell);
    }
}

static void
append_cell (GString *line, const char *text, gsize width, char alignment)
{
  gsize pad = width - width_of (text);

  if (alignment != 'l')
    g_string_append_printf (line, "%*s%s", (int) pad, "", text);
  else
    g_string_append_printf (line, "%s%*s", text, (int) pad, "");
}

struct text_table *
text_table_new (const char *columns)
{
  struct text_table *table = g_new (struct text_table, 1);

  table->columns = g_strdup (columns);
  table->cells = g_ptr_array_new_with_free_func (g_free);
  return table;
}

void
text_table_row (struct text_table *table, ...)
{
  gsize columns = strlen (table->columns), filled = 0;
  const char *cell;
  va_list cells;

  va_start (cells, table);
  while ((cell = va_arg (cells, const char *)) != NULL)
    {
      g_ptr_array_add (table->cells, g_strdup (cell));
      filled++;
    }
  va_end (cells);
  g_assert (filled == columns);
}

void
text_table_end (struct text_table *table, GString *text)
{
  gsize columns = strlen (table->columns);
  g_autofree gsize *widths = g_new0 (gsize, columns);

  for (gsize column = 0; column < columns; column++)
    if (table->columns[column] == 'd')
      align_decimals (table, column);
  for (guint i = 0; i < table->cells->len; i++)
    widths[i % columns] = MAX (widths[i % columns], width_of (g_ptr_array_index (table->cells, i)));
  for (guint row = 0; row < table->cells->len / columns; row++)
    {
      g_autoptr (GString) line = g_string_new (NULL);

      for (gsize column = 0; column < columns; column++)
        if (widths[column] > 0)
          {
            if (line->len > 0)
              g_string_append_printf (line, "%*s", COLUMN_GAP, "");
            append_cell (line, g_ptr_array_index (table->cells, row * columns + column), widths[column],
                         table->columns[column]);
          }
      g_string_append (text, g_strchomp (line->str));
      g_string_append_c (text, '\n');
    }
  g_ptr_array_unref (table->cells);
  g_free (table->columns);
  g_free (table);
}
