/* What is wrong with an input: a list of places and sentences, collected to the end of the input, capped. */
#ifndef DOCUMENTS_PROBLEMS_H
#define DOCUMENTS_PROBLEMS_H

#include <glib.h>

#define PROBLEMS_MAX 50

struct problem {
  char *place;    /* "/readings/3/unit", "line 4", "line 7, column 3" */
  char *sentence; /* translated */
};

struct problems {
  GPtrArray *list;   /* of struct problem */
  unsigned omitted;  /* beyond PROBLEMS_MAX */
  unsigned beyond_schema; /* of all: those that a JSON Schema cannot express; see document-reader.h */
};

struct problems *problems_new (void);
void problems_free (struct problems *problems);
void problems_add (struct problems *problems, const char *place, const char *format, ...) G_GNUC_PRINTF (3, 4);
void problems_add_v (struct problems *problems, const char *place, const char *format, va_list arguments)
    G_GNUC_PRINTF (3, 0);
unsigned problems_count (const struct problems *problems);
const struct problem *problems_at (const struct problems *problems, unsigned index);
/* "file: place: sentence" a line each. Caller frees. */
char *problems_text (const struct problems *problems, const char *file);

typedef struct problems problems_t;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (problems_t, problems_free)

#endif
