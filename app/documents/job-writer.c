#include "job-document-private.h"
#include "vehicle-document-private.h"

/* "value" and "unit"; a unit kept beside nothing is kept. */
static void
write_measure (struct json_writer *writer, const struct typed *typed)
{
  json_writer_text (writer, "value", typed->text);
  if (typed->unit)
    json_writer_text (writer, "unit", typed->unit->symbol);
}

static gboolean
was_typed (const struct typed *typed)
{
  return *typed->text || typed->unit;
}

static gboolean
any_typed (const struct typed_conditions *conditions)
{
  for (int i = 0; i < TYPED_CONDITIONS; i++)
    if (was_typed (typed_condition_get (conditions, &typed_condition_rows[i])))
      return TRUE;
  return conditions->vacuum_source_given;
}

static void
write_conditions (struct json_writer *writer, const struct typed_conditions *conditions)
{
  if (!any_typed (conditions))
    return;
  json_writer_begin_object (writer, "conditions");
  for (int i = 0; i < TYPED_CONDITIONS; i++) {
    const struct typed *typed = typed_condition_get (conditions, &typed_condition_rows[i]);
    if (!was_typed (typed))
      continue;
    json_writer_begin_object_inline (writer, typed_condition_rows[i].key);
    write_measure (writer, typed);
    json_writer_end (writer);
  }
  if (conditions->vacuum_source_given)
    json_writer_text (writer, "vacuum_source", vacuum_source_words[conditions->vacuum_source]);
  json_writer_end (writer);
}

static gboolean
one_unit (const struct job_reading *reading)
{
  for (int i = 1; i < reading->values; i++)
    if (reading->value[i].unit != reading->value[0].unit)
      return FALSE;
  return TRUE;
}

static void
write_values (struct json_writer *writer, const struct job_reading *reading)
{
  json_writer_begin_array_inline (writer, "values");
  for (int i = 0; i < reading->values; i++)
    json_writer_text (writer, NULL, reading->value[i].text);
  json_writer_end (writer);
  if (!one_unit (reading)) {
    json_writer_begin_array_inline (writer, "unit");
    for (int i = 0; i < reading->values; i++)
      json_writer_text (writer, NULL, reading->value[i].unit ? reading->value[i].unit->symbol : "");
    json_writer_end (writer);
  } else if (reading->value[0].unit)
    json_writer_text (writer, "unit", reading->value[0].unit->symbol);
}

static void
write_uncertainty (struct json_writer *writer, const struct job_reading *reading)
{
  if (reading->uncertainty_form == UNCERTAINTY_USUAL)
    return;
  json_writer_begin_object_inline (writer, "uncertainty");
  write_measure (writer, &reading->uncertainty);
  json_writer_text (writer, "form", uncertainty_words[reading->uncertainty_form - 1]);
  json_writer_end (writer);
}

static void
write_reading (struct json_writer *writer, const struct job_reading *reading)
{
  json_writer_begin_object (writer, NULL);
  json_writer_text (writer, "kind", reading->kind->key);
  if (reading->kind->each_cylinder)
    write_values (writer, reading);
  else
    write_measure (writer, &reading->value[0]);
  write_uncertainty (writer, reading);
  write_conditions (writer, &reading->conditions);
  if (*reading->note)
    json_writer_text (writer, "note", reading->note);
  json_writer_end (writer);
}

char *
job_write (const struct job *job)
{
  struct json_writer *writer;

  g_return_val_if_fail (job, NULL);
  writer = json_writer_new ();
  json_writer_begin_object (writer, NULL);
  json_writer_text (writer, "$schema", "../schemas/job-1.schema.json");
  json_writer_text (writer, "format", JOB_FORMAT);
  json_writer_number (writer, "version", JOB_VERSION);
  for (int i = 0; i < JOB_TEXTS; i++)
    json_writer_text (writer, job_texts[i].key,
                      *(char *const *) (const void *) ((const char *) job + job_texts[i].offset));
  write_conditions (writer, &job->conditions);
  json_writer_begin_array (writer, "readings");
  for (guint i = 0; i < job->readings->len; i++)
    write_reading (writer, g_ptr_array_index (job->readings, i));
  json_writer_end (writer);
  vehicle_write_in (writer, "car", NULL, job->vehicle);
  json_writer_end (writer);
  return json_writer_finish (writer);
}
