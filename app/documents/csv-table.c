#include "csv-table.h"
#include "json-strict.h"

#include <glib/gi18n.h>

#include <string.h>

struct scan {
  const char *at, *end;
  int line;
  char separator;
  struct problems *problems;
};

static void
free_row (gpointer data)
{
  struct csv_row *row = data;
  g_ptr_array_unref (row->fields);
  g_free (row);
}

void
csv_table_free (struct csv_table *table)
{
  if (table == NULL)
    return;
  g_ptr_array_unref (table->rows);
  g_free (table);
}

const struct csv_row *
csv_table_row (const struct csv_table *table, unsigned index)
{
  return g_ptr_array_index (table->rows, index);
}

const char *
csv_row_field (const struct csv_row *row, int column)
{
  return column >= 0 && (guint) column < row->fields->len ? g_ptr_array_index (row->fields, column) : "";
}

static gboolean
fault (const struct scan *scan, int line, const char *sentence)
{
  g_autofree char *place = g_strdup_printf (_("line %d"), line);
  problems_add (scan->problems, place, "%s", sentence);
  return FALSE;
}

/* The separator of the header line: a semicolon wherever there is one, else a tab, else a comma. */
static char
find_separator (const char *text, const char *end)
{
  gboolean quoted = FALSE, tab = FALSE;

  for (; text < end; text++)
    if (*text == '"')
      quoted = !quoted;
    else if (!quoted && *text == ';')
      return ';';
    else if (!quoted && *text == '\t')
      tab = TRUE;
    else if (!quoted && (*text == '\n' || *text == '\r'))
      break;
  return tab ? '\t' : ',';
}

static gboolean
at_line_end (const struct scan *scan)
{
  return scan->at >= scan->end || *scan->at == '\n' || *scan->at == '\r';
}

static void
skip_line_end (struct scan *scan)
{
  if (scan->at < scan->end && *scan->at == '\r')
    scan->at++;
  if (scan->at < scan->end && *scan->at == '\n')
    scan->at++;
  scan->line++;
}

/* What stands between quotation marks; the cursor is behind the opening one. */
static gboolean
scan_quoted (struct scan *scan, GString *field)
{
  int begin = scan->line;

  for (;;) {
    if (scan->at >= scan->end)
      return fault (scan, begin, _("a quotation mark opens here and is not closed"));
    if (*scan->at == '"') {
      scan->at++;
      if (scan->at >= scan->end || *scan->at != '"')
        return TRUE;
    } else if (*scan->at == '\n')
      scan->line++;
    g_string_append_c (field, *scan->at++);
  }
}

static gboolean
is_blank (char c, char separator)
{
  return (c == ' ' || c == '\t') && c != separator;
}

static gboolean
scan_field (struct scan *scan, char **out)
{
  g_autoptr (GString) field = g_string_new (NULL);

  while (scan->at < scan->end && is_blank (*scan->at, scan->separator))
    scan->at++;
  if (scan->at < scan->end && *scan->at == '"') {
    scan->at++;
    if (!scan_quoted (scan, field))
      return FALSE;
    while (scan->at < scan->end && is_blank (*scan->at, scan->separator))
      scan->at++;
    if (!at_line_end (scan) && *scan->at != scan->separator)
      return fault (scan, scan->line, _("text follows a closing quotation mark"));
  } else
    while (!at_line_end (scan) && *scan->at != scan->separator)
      g_string_append_c (field, *scan->at++);
  if (g_utf8_strlen (field->str, -1) > CSV_FIELD_MAX)
    return fault (scan, scan->line, _("a field has more than 4096 characters"));
  *out = g_strdup (g_strstrip (field->str));
  return TRUE;
}

/* One line, which may be blank (no field but empty ones). */
static gboolean
scan_row (struct scan *scan, struct csv_row *row, gboolean *blank)
{
  *blank = TRUE;
  for (;;) {
    char *field = NULL;
    if (!scan_field (scan, &field))
      return FALSE;
    g_ptr_array_add (row->fields, field);
    *blank = *blank && *field == 0;
    if (row->fields->len > CSV_COLUMNS_MAX)
      return fault (scan, scan->line, _("a line has more than 64 fields"));
    if (at_line_end (scan))
      break;
    scan->at++; /* the separator */
  }
  while (row->fields->len > 0 && *csv_row_field (row, (int) row->fields->len - 1) == 0)
    g_ptr_array_set_size (row->fields, (int) row->fields->len - 1); /* spreadsheets end every line with separators */
  skip_line_end (scan);
  return TRUE;
}

static gboolean
scan_rows (struct scan *scan, struct csv_table *table)
{
  while (scan->at < scan->end) {
    struct csv_row *row = g_new0 (struct csv_row, 1);
    gboolean blank = TRUE, good;
    row->line = scan->line;
    row->fields = g_ptr_array_new_with_free_func (g_free);
    good = scan_row (scan, row, &blank);
    if (good && !blank)
      g_ptr_array_add (table->rows, row);
    else
      free_row (row);
    if (!good)
      return FALSE;
    if (table->rows->len > CSV_ROWS_MAX)
      return fault (scan, scan->line, _("the table has more than 5000 lines"));
  }
  return TRUE;
}

/* Whether the text is UTF-8 and not too long. */
static gboolean
is_text (struct scan *scan, const char *text, gsize length)
{
  const char *bad = NULL;

  if (length > JSON_SIZE_MAX) {
    g_autofree char *has = g_format_size_full (length, G_FORMAT_SIZE_IEC_UNITS);
    problems_add (scan->problems, "", _("The text is too large: %s; the limit is 4 MiB"), has);
    return FALSE;
  }
  if (length >= 2 && ((text[0] == '\377' && text[1] == '\376') || (text[0] == '\376' && text[1] == '\377')))
    return fault (scan, 1, _("the table is in UTF-16; save it as UTF-8"));
  if (g_utf8_validate (text, (gssize) length, &bad))
    return TRUE;
  for (const char *p = text; p < bad; p++)
    if (*p == '\n')
      scan->line++;
  return fault (scan, scan->line, _("this line is not UTF-8 text; save the table as UTF-8"));
}

struct csv_table *
csv_table_parse (const char *text, gsize length, struct problems *problems)
{
  struct scan scan = { text, text + length, 1, ',', problems };
  g_autoptr (csv_table_t) table = NULL;

  g_return_val_if_fail ((text || length == 0) && problems, NULL);
  if (!is_text (&scan, text, length))
    return NULL;
  if (length >= 3 && memcmp (text, "\357\273\277", 3) == 0)
    scan.at += 3;
  while (scan.at < scan.end && at_line_end (&scan))
    skip_line_end (&scan);
  scan.separator = find_separator (scan.at, scan.end);
  table = g_new0 (struct csv_table, 1);
  table->separator = scan.separator;
  table->rows = g_ptr_array_new_with_free_func (free_row);
  if (!scan_rows (&scan, table))
    return NULL;
  if (table->rows->len == 0) {
    problems_add (problems, "", _("The table is empty"));
    return NULL;
  }
  return g_steal_pointer (&table);
}
