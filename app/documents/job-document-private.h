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

/* From a document (typed-reader.c). NULL or FALSE: a problem was added. */
/* A text as typed, or a JSON number; "" = nothing typed. Caller frees. */
char *typed_read_number (const struct cursor *cursor);
const struct unit *typed_read_unit (const struct cursor *cursor, enum quantity quantity);
/* "unit" of the object at the cursor; NULL in unit where it may be and is left out. */
gboolean typed_read_unit_beside (const struct cursor *cursor, gboolean needed, enum quantity quantity,
                                 const struct unit **unit);
gboolean typed_read_set (const struct cursor *cursor, struct typed *typed, const char *text, const struct unit *unit);
/* "value" and "unit" of the object at the cursor. */
gboolean typed_read_measure (const struct cursor *cursor, enum quantity quantity, struct typed *typed);
void typed_read_conditions (const struct cursor *cursor, struct typed_conditions *conditions);

/* Whether what was typed lies in its limits; else a sentence, which the caller frees. */
gboolean job_value_sound (const struct typed *typed, enum quantity quantity, char **sentence);
gboolean job_condition_sound (const struct typed *typed, const struct typed_condition *row, char **sentence);

#endif
