#include "draft-job.h"

#include "number-text.h"

#include <glib/gi18n.h>
#include <stdio.h>
#include <string.h>

#define GROUP "recovery"
#define UNFINISHED "unfinished"

static struct unfinished *
unfinished_new (void)
{
  return g_new0 (struct unfinished, JOB_FIELDS);
}

static void
unfinished_clear (struct unfinished *fields)
{
  for (int i = 0; i < JOB_FIELDS; i++) {
    g_clear_pointer (&fields[i].text, g_free);
    g_clear_pointer (&fields[i].why, g_free);
  }
}

static void
unfinished_free (gpointer fields)
{
  unfinished_clear (fields);
  g_free (fields);
}

static void
unfinished_copy (struct unfinished *to, const struct unfinished *from)
{
  for (int i = 0; i < JOB_FIELDS; i++) {
    to[i].text = g_strdup (from[i].text);
    to[i].why = g_strdup (from[i].why);
  }
}

static struct unfinished *
unfinished_of (const struct draft_job *draft, int reading)
{
  return reading == VISIT ? (struct unfinished *) draft->visit
                          : g_ptr_array_index (draft->readings, (guint) reading);
}

static struct job_reading *
reading_of (const struct draft_job *draft, int reading)
{
  return g_ptr_array_index (draft->job->readings, (guint) reading);
}

static struct typed *
typed_of (const struct draft_job *draft, int reading, int field)
{
  if (field >= FIELD_CONDITION) {
    struct typed_conditions *conditions
        = reading == VISIT ? &draft->job->conditions : &reading_of (draft, reading)->conditions;
    return typed_condition_in (conditions, &typed_condition_rows[field - FIELD_CONDITION]);
  }
  g_return_val_if_fail (reading != VISIT, NULL);
  return field == FIELD_UNCERTAINTY ? &reading_of (draft, reading)->uncertainty
                                    : &reading_of (draft, reading)->value[field];
}

/* One reading for every cylinder of the car, one value else. */
static void
fit_values (const struct draft_job *draft, struct job_reading *reading)
{
  reading->values = reading->kind->each_cylinder ? draft->job->vehicle->car.cylinders : 1;
}

static gboolean
in_measure (const struct draft_job *draft, int reading, int field, double si)
{
  double least = 0, most = G_MAXDOUBLE;

  if (field >= FIELD_CONDITION) {
    const struct condition *condition = condition_find (typed_condition_rows[field - FIELD_CONDITION].condition);
    least = condition->least;
    most = condition->most;
  } else if (field != FIELD_UNCERTAINTY)
    job_value_limits (draft_field_quantity (draft, reading, field), &least, &most);
  return field == FIELD_UNCERTAINTY ? si > 0 : si >= least && si <= most;
}

/* The number at the start of text without its unit: the longest beginning that is one. */
static char *
number_part (const char *typed)
{
  g_autofree char *text = g_strstrip (g_strdup (typed));
  double value;

  for (char *end = text + strlen (text); end > text; end = g_utf8_find_prev_char (text, end)) {
    *end = 0;
    if (number_parse (text, &value, NULL))
      return g_strdup (g_strstrip (text));
  }
  return NULL;
}

static void
keep_unfinished (struct unfinished *field, const char *typed, const char *why)
{
  g_free (field->text);
  g_free (field->why);
  field->text = g_strdup (typed);
  field->why = g_strdup (why);
}

struct draft_job *
draft_job_new (struct job *job)
{
  struct draft_job *draft = g_new0 (struct draft_job, 1);

  draft->job = job;
  draft->readings = g_ptr_array_new_with_free_func (unfinished_free);
  for (guint i = 0; i < job->readings->len; i++) {
    fit_values (draft, g_ptr_array_index (job->readings, i));
    g_ptr_array_add (draft->readings, unfinished_new ());
  }
  return draft;
}

struct draft_job *
draft_job_copy (const struct draft_job *draft)
{
  struct draft_job *copy = draft_job_new (job_copy (draft->job));

  unfinished_copy (copy->visit, draft->visit);
  for (guint i = 0; i < draft->readings->len; i++)
    unfinished_copy (g_ptr_array_index (copy->readings, i), g_ptr_array_index (draft->readings, i));
  return copy;
}

void
draft_job_free (struct draft_job *draft)
{
  if (!draft)
    return;
  unfinished_clear (draft->visit);
  g_ptr_array_unref (draft->readings);
  job_free (draft->job);
  g_free (draft);
}

enum quantity
draft_field_quantity (const struct draft_job *draft, int reading, int field)
{
  if (field >= FIELD_CONDITION)
    return condition_find (typed_condition_rows[field - FIELD_CONDITION].condition)->quantity;
  if (field == FIELD_UNCERTAINTY)
    return job_uncertainty_quantity (reading_of (draft, reading)->kind);
  return reading_of (draft, reading)->kind->quantity;
}

gboolean
draft_set_field (struct draft_job *draft, int reading, int field, const char *typed, const struct unit *fallback)
{
  struct unfinished *unfinished = &unfinished_of (draft, reading)[field];
  struct typed *place = typed_of (draft, reading, field);
  g_autoptr (GError) error = NULL;
  g_autofree char *number = NULL;
  const struct unit *unit = NULL;
  double si;

  g_return_val_if_fail (place, FALSE);
  g_clear_pointer (&unfinished->text, g_free);
  g_clear_pointer (&unfinished->why, g_free);
  if (measure_parse (typed, draft_field_quantity (draft, reading, field), fallback, &si, &unit, &error)
      && in_measure (draft, reading, field, si) && (number = number_part (typed))) {
    typed_set (place, number, unit);
    return TRUE;
  }
  typed_set (place, "", NULL);
  if (g_error_matches (error, NUMBER_ERROR, NUMBER_ERROR_EMPTY))
    return TRUE;
  keep_unfinished (unfinished, typed, error ? error->message : _("No gauge shows such a value."));
  return FALSE;
}

char *
draft_field_text (const struct draft_job *draft, int reading, int field)
{
  const struct unfinished *unfinished = &unfinished_of (draft, reading)[field];
  const struct typed *typed = typed_of (draft, reading, field);

  if (unfinished->text)
    return g_strdup (unfinished->text);
  if (!typed || !typed->text || !*typed->text)
    return g_strdup ("");
  return *typed->unit->symbol ? g_strdup_printf ("%s\u202f%s", typed->text, typed->unit->symbol)
                              : g_strdup (typed->text);
}

const char *
draft_field_problem (const struct draft_job *draft, int reading, int field)
{
  return unfinished_of (draft, reading)[field].why;
}

const struct typed *
draft_field_typed (const struct draft_job *draft, int reading, int field)
{
  const struct typed *typed = typed_of (draft, reading, field);

  return typed && typed->text && *typed->text ? typed : NULL;
}

unsigned
draft_unfinished_count (const struct draft_job *draft)
{
  unsigned count = 0;

  for (int reading = VISIT; reading < (int) draft->readings->len; reading++)
    for (int i = 0; i < JOB_FIELDS; i++)
      count += unfinished_of (draft, reading)[i].text != NULL;
  return count;
}

char **
draft_text_in (struct draft_job *draft, enum job_text text)
{
  struct job *job = draft->job;

  switch (text) {
  case TEXT_WORKSHOP:
    return &job->workshop;
  case TEXT_TECHNICIAN:
    return &job->technician;
  case TEXT_MARK:
    return &job->vehicle_mark;
  case TEXT_DATE:
    return &job->date;
  case TEXT_COMPLAINT:
    return &job->complaint;
  case TEXT_NOTES:
  case JOB_TEXTS:
  default:
    return &job->notes;
  }
}

void
draft_add_reading (struct draft_job *draft, const struct reading_kind *kind)
{
  struct job_reading *reading = job_reading_new (kind);

  fit_values (draft, reading);
  g_ptr_array_add (draft->job->readings, reading);
  g_ptr_array_add (draft->readings, unfinished_new ());
}

void
draft_remove_reading (struct draft_job *draft, int reading)
{
  g_ptr_array_remove_index (draft->job->readings, (guint) reading);
  g_ptr_array_remove_index (draft->readings, (guint) reading);
}

void
draft_append (struct draft_job *draft, const struct job *more)
{
  for (guint i = 0; i < more->readings->len; i++) {
    struct job_reading *reading = job_reading_copy (g_ptr_array_index (more->readings, i));
    fit_values (draft, reading);
    g_ptr_array_add (draft->job->readings, reading);
    g_ptr_array_add (draft->readings, unfinished_new ());
  }
}

void
draft_set_vehicle (struct draft_job *draft, const struct vehicle *vehicle)
{
  *draft->job->vehicle = *vehicle;
  for (guint i = 0; i < draft->job->readings->len; i++)
    fit_values (draft, g_ptr_array_index (draft->job->readings, i));
}

char *
draft_recovery_text (const struct draft_job *draft, const char *path, gsize *length)
{
  g_autoptr (GKeyFile) file = g_key_file_new ();
  g_autofree char *job = job_write (draft->job);

  g_key_file_set_string (file, GROUP, "job", job);
  if (path)
    g_key_file_set_string (file, GROUP, "path", path);
  for (int reading = VISIT; reading < (int) draft->readings->len; reading++)
    for (int i = 0; i < JOB_FIELDS; i++) {
      g_autofree char *key = g_strdup_printf ("%d.%d", reading, i);
      if (unfinished_of (draft, reading)[i].text)
        g_key_file_set_string (file, UNFINISHED, key, unfinished_of (draft, reading)[i].text);
    }
  return g_key_file_to_data (file, length, NULL);
}

static void
recover_unfinished (struct draft_job *draft, GKeyFile *file)
{
  g_auto (GStrv) keys = g_key_file_get_keys (file, UNFINISHED, NULL, NULL);

  for (int i = 0; keys && keys[i]; i++) {
    g_autofree char *text = g_key_file_get_string (file, UNFINISHED, keys[i], NULL);
    int reading, field;
    if (text && sscanf (keys[i], "%d.%d", &reading, &field) == 2 && reading >= VISIT
        && reading < (int) draft->readings->len && field >= (reading == VISIT ? FIELD_CONDITION : 0)
        && field < JOB_FIELDS)
      draft_set_field (draft, reading, field, text, NULL);
  }
}

struct draft_job *
draft_from_recovery (const char *text, gsize length, char **path)
{
  g_autoptr (GKeyFile) file = g_key_file_new ();
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree char *job_text = NULL;
  struct draft_job *draft;
  struct job *job;

  if (!g_key_file_load_from_data (file, text, length, G_KEY_FILE_NONE, NULL))
    return NULL;
  job_text = g_key_file_get_string (file, GROUP, "job", NULL);
  job = job_text ? job_parse (job_text, strlen (job_text), problems) : NULL;
  if (!job)
    return NULL;
  draft = draft_job_new (job);
  recover_unfinished (draft, file);
  *path = g_key_file_get_string (file, GROUP, "path", NULL);
  return draft;
}
