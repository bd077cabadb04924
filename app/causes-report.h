/* The causes behind a job's readings and the next reading, as text and as JSON. */
#ifndef APP_CAUSES_REPORT_H
#define APP_CAUSES_REPORT_H

#include "job-document.h"
#include "json-writer.h"

/* Appends a part of its own; nothing where no reading can be used. Translated. */
void causes_report_text (const struct job *job, GString *text);

/* Adds the member "causes": an object, or nothing where no reading can be used. Probabilities are fractions. */
void causes_report_json (const struct job *job, struct json_writer *json);

#endif
