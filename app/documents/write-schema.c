/* Writes the JSON Schemas of the documents from the tables that the readers use: parameters, reading kinds, units and
 * conditions. "write-schema vehicle", "job", "faults" or "tolerances" prints one. What is committed under data/schemas is compared
 * with it by a test. What a schema cannot say (see the calls of cursor_problem_beyond) is left to the reader. */
#include "schema.h"

#include <stdio.h>

static void
begin_schema (struct json_writer *w, const char *id, const char *title)
{
  json_writer_begin_object (w, NULL);
  json_writer_text (w, "$schema", "https://json-schema.org/draft/2020-12/schema");
  json_writer_text (w, "$id", id);
  json_writer_text (w, "title", title);
}

static char *
vehicle_schema (void)
{
  struct json_writer *w = json_writer_new ();

  begin_schema (w, "urn:platelift:vehicle-1",
                "Vehicle data: one car's metering unit and the bands of its readings, in SI units");
  schema_vehicle_body (w);
  json_writer_begin_object (w, "$defs");
  schema_vehicle_definitions (w);
  json_writer_end (w);
  json_writer_end (w);
  return json_writer_finish (w);
}

static char *
job_schema (void)
{
  struct json_writer *w = json_writer_new ();

  begin_schema (w, "urn:platelift:job-1",
                "A job: one car on one visit, the conditions and the readings as they were typed");
  schema_job_body (w);
  json_writer_begin_object (w, "$defs");
  json_writer_begin_object (w, "vehicle");
  schema_vehicle_body (w);
  json_writer_end (w);
  schema_vehicle_definitions (w);
  schema_job_definitions (w);
  json_writer_end (w);
  json_writer_end (w);
  return json_writer_finish (w);
}

static char *
faults_schema (void)
{
  struct json_writer *w = json_writer_new ();

  begin_schema (w, "urn:platelift:faults-1", "Faults: each by the parameters it changes, in SI units");
  schema_faults_body (w);
  json_writer_end (w);
  return json_writer_finish (w);
}

static char *
tolerances_schema (void)
{
  struct json_writer *w = json_writer_new ();

  begin_schema (w, "urn:platelift:tolerances-1",
                "Build tolerances of healthy units: standard deviations of a car's parameters, in SI units");
  schema_tolerances_body (w);
  json_writer_end (w);
  return json_writer_finish (w);
}

int
main (int argc, char **argv)
{
  g_autofree char *schema = NULL;

  if (argc == 2 && g_str_equal (argv[1], "vehicle"))
    schema = vehicle_schema ();
  else if (argc == 2 && g_str_equal (argv[1], "job"))
    schema = job_schema ();
  else if (argc == 2 && g_str_equal (argv[1], "faults"))
    schema = faults_schema ();
  else if (argc == 2 && g_str_equal (argv[1], "tolerances"))
    schema = tolerances_schema ();
  else {
    fputs ("write-schema: say vehicle, job, faults or tolerances\n", stderr);
    return 2;
  }
  return fputs (schema, stdout) < 0 || fflush (stdout) != 0 ? 1 : 0;
}
