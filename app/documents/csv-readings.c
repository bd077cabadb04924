/* A table of readings into a job. */
#include "csv-table.h"
#include "job-document-private.h"
#include "number-text.h"

#include <glib/gi18n.h>

#include <math.h>
#include <string.h>

enum column {
  COLUMN_READING,
  COLUMN_VALUE,
  COLUMN_UNIT,
  COLUMN_CYLINDER,
  COLUMN_UNCERTAINTY,
  COLUMN_FORM,
  COLUMN_NOTE,
  COLUMN_VACUUM_SOURCE,
  COLUMN_CONDITIONS, /* the first of TYPED_CONDITIONS */
  COLUMNS = COLUMN_CONDITIONS + TYPED_CONDITIONS
};

static const char *const column_names[COLUMN_CONDITIONS] = {
  "reading", "value", "unit", "cylinder", "uncertainty", "form", "note", "vacuum_source",
};

struct columns {
  int place[COLUMNS];  /* in the rows, -1 where there is none */
  char *unit[COLUMNS]; /* of the header's brackets, or NULL; owned */
  int count;           /* of the header's fields */
};

/* One line while it is read. */
struct line {
  const struct csv_row *row;
  const struct columns *columns;
  struct problems *problems;
  gboolean good;
};

static const char *
column_name (int column)
{
  return column < COLUMN_CONDITIONS ? column_names[column] : typed_condition_rows[column - COLUMN_CONDITIONS].key;
}

static void
clear_columns (struct columns *columns)
{
  for (int i = 0; i < COLUMNS; i++)
    g_free (columns->unit[i]);
}

static void G_GNUC_PRINTF (3, 4)
tell (struct line *line, int column, const char *format, ...)
{
  g_autofree char *place = NULL;
  va_list arguments;

  if (column >= 0)
    place = g_strdup_printf (_("line %d, %s"), line->row->line, column_name (column));
  else
    place = g_strdup_printf (_("line %d"), line->row->line);
  va_start (arguments, format);
  problems_add_v (line->problems, place, format, arguments);
  va_end (arguments);
  line->good = FALSE;
}

static const char *
field (const struct line *line, int column)
{
  return csv_row_field (line->row, line->columns->place[column]);
}

/* -- the header ------------------------------------------------------------------------------------------------------- */

/* "Temperature [°C]" into "temperature" and "°C". */
static char *
split_header (const char *text, char **unit)
{
  g_autofree char *copy = g_strdup (text);
  char *open = strpbrk (copy, "[(");
  char *name;

  if (open && (g_str_has_suffix (copy, "]") || g_str_has_suffix (copy, ")"))) {
    open[strlen (open) - 1] = 0;
    *unit = g_strdup (g_strstrip (open + 1));
    *open = 0;
  }
  g_strstrip (copy);
  g_strdelimit (copy, " -", '_');
  name = g_utf8_strdown (copy, -1);
  return name;
}

static void
read_header_field (struct line *header, struct columns *columns, int place)
{
  g_autofree char *unit = NULL;
  const char *text = csv_row_field (header->row, place);
  g_autofree char *name = split_header (text, &unit);

  for (int i = 0; i < COLUMNS; i++)
    if (g_str_equal (name, column_name (i))) {
      if (columns->place[i] >= 0)
        tell (header, -1, _("the column “%s” stands twice"), text);
      columns->place[i] = place;
      g_free (columns->unit[i]);
      columns->unit[i] = g_steal_pointer (&unit);
      return;
    }
  tell (header, -1,
        _("the column “%s” is not known; there are reading, value, unit, cylinder, uncertainty, form, note, "
                      "vacuum_source, ambient, altitude, temperature, voltage, vacuum, minutes and fuel"), text);
}

static gboolean
read_header (const struct csv_table *table, struct columns *columns, struct problems *problems)
{
  struct line header = { csv_table_row (table, 0), columns, problems, TRUE };

  for (int i = 0; i < COLUMNS; i++)
    columns->place[i] = -1;
  columns->count = (int) header.row->fields->len;
  for (guint i = 0; i < header.row->fields->len; i++)
    read_header_field (&header, columns, (int) i);
  if (!header.good)
    return FALSE;
  for (int i = COLUMN_READING; i <= COLUMN_VALUE; i++)
    if (columns->place[i] < 0)
      tell (&header, -1, _("the header line has no column “%s”"), column_names[i]);
  return header.good;
}

/* -- one line --------------------------------------------------------------------------------------------------------- */

/* A kind by its key or its name, whatever the case. */
static const struct reading_kind *
read_kind (struct line *line)
{
  const char *text = field (line, COLUMN_READING);
  g_autofree char *wanted = g_utf8_casefold (text, -1);

  for (int i = 0; i < READINGS; i++) {
    g_autofree char *key = g_utf8_casefold (reading_kinds[i].key, -1);
    g_autofree char *name = g_utf8_casefold (reading_kinds[i].name, -1);
    g_autofree char *translated = g_utf8_casefold (_(reading_kinds[i].name), -1);
    if (g_str_equal (wanted, key) || g_str_equal (wanted, name) || g_str_equal (wanted, translated))
      return &reading_kinds[i];
  }
  if (*text)
    tell (line, COLUMN_READING, _("“%s” is not a reading known here"), text);
  else
    tell (line, COLUMN_READING, _("the name of the reading is missing"));
  return NULL;
}

/* The field of a column with the unit behind its number or fallback's. FALSE where nothing stands there or with a
 * problem. */
static gboolean
read_measure (struct line *line, int column, enum quantity quantity, const char *fallback, struct typed *typed)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *number = NULL;
  const struct unit *usual = NULL, *unit = NULL;
  const char *text = field (line, column);
  double si;

  if (g_str_has_prefix (text, "±"))
    text += strlen ("±");
  if (*text == 0)
    return FALSE;
  if (fallback && *fallback && (usual = unit_find (fallback, quantity)) == NULL) {
    if (unit_any (fallback))
      tell (line, column, _("“%s” is a unit of something else"), fallback);
    else
      tell (line, column, _("“%s” is not a unit known here"), fallback);
    return FALSE;
  }
  if (!measure_parse (text, quantity, usual, &si, &unit, &error)) {
    tell (line, column, "%s", error->message);
    return FALSE;
  }
  number = measure_number (text);
  typed_set (typed, number, unit);
  return TRUE;
}

static void
read_value (struct line *line, struct job_reading *reading, int index)
{
  const char *unit = field (line, COLUMN_UNIT);
  g_autofree char *sentence = NULL;

  if (*field (line, COLUMN_VALUE) == 0)
    tell (line, COLUMN_VALUE, _("the value is missing"));
  else if (read_measure (line, COLUMN_VALUE, reading->kind->quantity,
                         *unit ? unit : line->columns->unit[COLUMN_VALUE], &reading->value[index])
           && !job_value_sound (&reading->value[index], reading->kind->quantity, &sentence))
    tell (line, COLUMN_VALUE, "%s", sentence);
}

/* From 0; -1 with a problem. */
static int
read_cylinder (struct line *line, const struct reading_kind *kind, int cylinders)
{
  const char *text = field (line, COLUMN_CYLINDER);
  double number = 0;

  if (!kind->each_cylinder) {
    if (*text)
      tell (line, COLUMN_CYLINDER, _("“%s” is not taken by cylinder"), _(kind->name));
    return *text ? -1 : 0;
  }
  if (*text == 0)
    tell (line, COLUMN_CYLINDER, _("the number of the cylinder is missing"));
  else if (!number_parse (text, &number, NULL) || number != floor (number) || number < 1 || number > cylinders)
    tell (line, COLUMN_CYLINDER, _("“%s” is not a cylinder of this car, which has %d"), text, cylinders);
  else
    return (int) number - 1;
  return -1;
}

static void
read_uncertainty (struct line *line, struct job_reading *reading, int index)
{
  const char *form = field (line, COLUMN_FORM);
  const char *unit = line->columns->unit[COLUMN_UNCERTAINTY];
  int found = -1;

  for (int i = 0; uncertainty_words[i]; i++)
    if (g_ascii_strcasecmp (form, uncertainty_words[i]) == 0)
      found = i;
  if (*form && found < 0) {
    tell (line, COLUMN_FORM, _("“%s” is none of standard, 95 and limits"), form);
    return;
  }
  if (unit == NULL && !reading->kind->each_cylinder && reading->value[index].unit)
    unit = reading->value[index].unit->symbol;
  if (!read_measure (line, COLUMN_UNCERTAINTY, job_uncertainty_quantity (reading->kind), unit, &reading->uncertainty))
    return;
  if (!(reading->uncertainty.si > 0))
    tell (line, COLUMN_UNCERTAINTY, _("an uncertainty must be above 0"));
  reading->uncertainty_form = found < 0 ? UNCERTAINTY_LIMITS : (enum uncertainty_form) (found + 1);
}

static void
read_conditions (struct line *line, struct typed_conditions *conditions)
{
  const char *source = field (line, COLUMN_VACUUM_SOURCE);

  for (int i = 0; i < TYPED_CONDITIONS; i++) {
    const struct typed_condition *row = &typed_condition_rows[i];
    struct typed *typed = typed_condition_in (conditions, row);
    int column = COLUMN_CONDITIONS + i;
    g_autofree char *sentence = NULL;
    if (read_measure (line, column, condition_find (row->condition)->quantity, line->columns->unit[column], typed)
        && !job_condition_sound (typed, row, &sentence))
      tell (line, column, "%s", sentence);
  }
  if (*source == 0)
    return;
  for (int i = 0; vacuum_source_words[i]; i++)
    if (g_ascii_strcasecmp (source, vacuum_source_words[i]) == 0) {
      conditions->vacuum_source = (enum vacuum_source) i;
      conditions->vacuum_source_given = TRUE;
      return;
    }
  tell (line, COLUMN_VACUUM_SOURCE, _("“%s” is none of none, hand-pump and engine"), source);
}

/* -- lines of one reading --------------------------------------------------------------------------------------------- */

static gboolean
same_typed (const struct typed *a, const struct typed *b)
{
  return g_str_equal (a->text, b->text) && a->unit == b->unit;
}

/* What a later line leaves empty stands as in the first. */
static gboolean
belongs (const struct job_reading *first, const struct job_reading *next)
{
  if (*next->uncertainty.text && !same_typed (&first->uncertainty, &next->uncertainty))
    return FALSE;
  if (*next->note && !g_str_equal (first->note, next->note))
    return FALSE;
  for (int i = 0; i < TYPED_CONDITIONS; i++) {
    const struct typed *typed = typed_condition_get (&next->conditions, &typed_condition_rows[i]);
    if (*typed->text && !same_typed (typed_condition_get (&first->conditions, &typed_condition_rows[i]), typed))
      return FALSE;
  }
  return !next->conditions.vacuum_source_given || next->conditions.vacuum_source == first->conditions.vacuum_source;
}

/* A cylinder's value into the last reading of its kind among those of this table; FALSE where it begins a new one. */
static gboolean
join (GPtrArray *readings, const struct job_reading *next, int cylinder)
{
  for (guint i = readings->len; i > 0; i--) {
    struct job_reading *reading = g_ptr_array_index (readings, i - 1);
    if (reading->kind != next->kind)
      continue;
    if (*reading->value[cylinder].text || !belongs (reading, next))
      return FALSE;
    typed_set (&reading->value[cylinder], next->value[cylinder].text, next->value[cylinder].unit);
    return TRUE;
  }
  return FALSE;
}

static void
read_line (struct line *line, int cylinders, GPtrArray *readings)
{
  g_autoptr (job_reading_t) reading = NULL;
  const struct reading_kind *kind = read_kind (line);
  int cylinder;

  if ((int) line->row->fields->len > line->columns->count)
    tell (line, -1, _("this line has more fields than the header; in a table separated by commas a decimal comma must "
                      "stand in quotation marks"));
  if (kind == NULL || !line->good)
    return;
  cylinder = read_cylinder (line, kind, cylinders);
  if (cylinder < 0)
    return;
  reading = job_reading_new (kind);
  if (kind->each_cylinder)
    reading->values = cylinders;
  read_value (line, reading, cylinder);
  read_uncertainty (line, reading, cylinder);
  read_conditions (line, &reading->conditions);
  g_free (reading->note);
  reading->note = g_strdup (field (line, COLUMN_NOTE));
  if (line->good && !(kind->each_cylinder && join (readings, reading, cylinder)))
    g_ptr_array_add (readings, g_steal_pointer (&reading));
}

gboolean
csv_readings_parse (const char *text, gsize length, struct job *job, struct problems *problems)
{
  g_autoptr (csv_table_t) table = NULL;
  g_autoptr (GPtrArray) readings = NULL;
  struct columns columns = { { 0 }, { NULL }, 0 };
  unsigned before;

  g_return_val_if_fail ((text || length == 0) && job && problems, FALSE);
  before = problems_count (problems);
  table = csv_table_parse (text, length, problems);
  if (table && read_header (table, &columns, problems)) {
    readings = g_ptr_array_new ();
    for (guint i = 1; i < table->rows->len; i++) {
      struct line line = { csv_table_row (table, i), &columns, problems, TRUE };
      read_line (&line, job->vehicle->car.cylinders, readings);
    }
    if (readings->len == 0 && problems_count (problems) == before)
      problems_add (problems, "", _("The table has a header line, but no reading"));
    if (job->readings->len + readings->len > JOB_READINGS_MAX)
      problems_add (problems, "", _("A job holds at most %d readings; what is beyond them is left out"),
                    JOB_READINGS_MAX);
    for (guint i = 0; i < readings->len; i++)
      if (job->readings->len < JOB_READINGS_MAX)
        g_ptr_array_add (job->readings, g_ptr_array_index (readings, i));
      else
        job_reading_free (g_ptr_array_index (readings, i));
  }
  clear_columns (&columns);
  return problems_count (problems) == before;
}
