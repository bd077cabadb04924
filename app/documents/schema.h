/* The pieces of which the schemas are built. Strings are borrowed; key as for the JSON writer. */
#ifndef DOCUMENTS_SCHEMA_H
#define DOCUMENTS_SCHEMA_H

#include "json-writer.h"

void schema_words (struct json_writer *w, const char *key, const char *const *list);
void schema_choice (struct json_writer *w, const char *key, const char *const *list); /* one of the words */
void schema_reference (struct json_writer *w, const char *key, const char *prefix, const char *name);
void schema_text (struct json_writer *w, const char *key, unsigned least, unsigned most); /* characters */
void schema_number (struct json_writer *w, const char *key, double least, double most);
void schema_required (struct json_writer *w, const char *first, const char *second, const char *third);
void schema_any_required (struct json_writer *w, const char *first, const char *second); /* one or the other */
void schema_begin_object_type (struct json_writer *w, const char *key);
void schema_begin_array_type (struct json_writer *w, const char *key, unsigned least, unsigned most);
void schema_head (struct json_writer *w, const char *format, int version); /* "$schema", "format", "version" */

/* The members of a vehicle's, a job's and a fault catalogue's schema, and the definitions that they refer to. */
void schema_vehicle_body (struct json_writer *w);
void schema_vehicle_definitions (struct json_writer *w);
void schema_job_body (struct json_writer *w);
void schema_job_definitions (struct json_writer *w);
void schema_faults_body (struct json_writer *w);
void schema_tolerances_body (struct json_writer *w);

#endif
