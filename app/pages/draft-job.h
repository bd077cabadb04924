/* A job as it stands on the page: the document, and beside it whatever was typed that is no number yet. Such text is
 * kept, undone and recovered like everything else; it only never reaches the model or a file. */
#ifndef PAGES_DRAFT_JOB_H
#define PAGES_DRAFT_JOB_H

#include "job-document.h"

#define VISIT (-1) /* in place of a reading's index: the conditions of the whole visit */

/* Fields in which a number is typed. */
enum job_field {
  FIELD_VALUE = 0, /* + cylinder */
  FIELD_UNCERTAINTY = CYLINDERS_MAX,
  FIELD_CONDITION = CYLINDERS_MAX + 1, /* + row of typed_condition_rows */
  JOB_FIELDS = FIELD_CONDITION + TYPED_CONDITIONS
};

/* Texts of the visit that are words, not numbers. */
enum job_text { TEXT_WORKSHOP, TEXT_TECHNICIAN, TEXT_MARK, TEXT_DATE, TEXT_COMPLAINT, TEXT_NOTES, JOB_TEXTS };

struct unfinished {
  char *text; /* as typed, or NULL */
  char *why;  /* what is wrong with it, translated */
};

struct draft_job {
  struct job *job;
  struct unfinished visit[JOB_FIELDS];
  GPtrArray *readings; /* of struct unfinished[JOB_FIELDS], one a reading of the job, same order */
};

struct draft_job *draft_job_new (struct job *job); /* takes the job */
struct draft_job *draft_job_copy (const struct draft_job *draft);
void draft_job_free (struct draft_job *draft);
typedef struct draft_job draft_job_t;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (draft_job_t, draft_job_free)

/* What the field measures. */
enum quantity draft_field_quantity (const struct draft_job *draft, int reading, int field);

/* Takes typed text: a number with or without its unit (then fallback is meant), or nothing. FALSE where it is neither or
 * out of all measure: then it is kept as unfinished. */
gboolean draft_set_field (struct draft_job *draft, int reading, int field, const char *typed,
                          const struct unit *fallback);
/* The text as it should stand in the field: with its unit, or unfinished as typed. Caller frees. */
char *draft_field_text (const struct draft_job *draft, int reading, int field);
/* What is wrong with it, or NULL. */
const char *draft_field_problem (const struct draft_job *draft, int reading, int field);
/* The number, or NULL where there is none. */
const struct typed *draft_field_typed (const struct draft_job *draft, int reading, int field);
/* How many fields hold text that is no number. */
unsigned draft_unfinished_count (const struct draft_job *draft);

char **draft_text_in (struct draft_job *draft, enum job_text text);

void draft_add_reading (struct draft_job *draft, const struct reading_kind *kind);
void draft_remove_reading (struct draft_job *draft, int reading);
/* Appends the readings of another job. */
void draft_append (struct draft_job *draft, const struct job *more);
void draft_set_vehicle (struct draft_job *draft, const struct vehicle *vehicle);

/* The whole as one text that a later session can read: for recovery, not for exchange. path may be NULL. */
char *draft_recovery_text (const struct draft_job *draft, const char *path, gsize *length);
struct draft_job *draft_from_recovery (const char *text, gsize length, char **path);

#endif
