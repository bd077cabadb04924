/* Words and limits of a job document, shared by its reader, its writer and its schema. */
#ifndef DOCUMENTS_JOB_DOCUMENT_PRIVATE_H
#define DOCUMENTS_JOB_DOCUMENT_PRIVATE_H

#include "document-reader.h"
#include "job-document.h"

#define JOB_FORMAT "platelift-job"
#define JOB_VERSION 1

extern const char *const uncertainty_words[];   /* by enum uncertainty_form less one, NULL at the end */
extern const char *const vacuum_source_words[]; /* by enum vacuum_source, NULL at the end */

/* The texts at the head of a job, in the order of the document. */
struct job_text {
  const char *key;
  gsize offset; /* of the char * in struct job */
};
#define JOB_TEXTS 6
extern const struct job_text job_texts[JOB_TEXTS];

/* Problems beyond a schema in what was typed, at the cursor; FALSE where there is one. */
gboolean job_value_sound (const struct typed *typed, enum quantity quantity, char **sentence);
gboolean job_condition_sound (const struct typed *typed, const struct typed_condition *row, char **sentence);

#endif
