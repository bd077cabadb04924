/* A cursor over a parsed document: a value, and the path by which it was reached ("/readings/3/unit", RFC 6901).
 * Cursors live on the stack, each pointing at its parent. Every function that finds something wrong adds a problem with
 * the path and goes on, so that one reading finds all of it. */
#ifndef DOCUMENTS_DOCUMENT_READER_H
#define DOCUMENTS_DOCUMENT_READER_H

#include "problems.h"

#include <json-glib/json-glib.h>

#define TEXT_CHARACTERS_MAX 4096

struct cursor {
  const struct cursor *parent; /* NULL at the root */
  const char *key;             /* in an object, else NULL */
  unsigned index;              /* in an array */
  JsonNode *node;              /* borrowed */
  struct problems *problems;   /* borrowed */
};

/* Parses strictly and checks "format" and "version"; the root to free with json_node_unref, or NULL and problems. */
JsonNode *document_open (const char *text, gsize length, const char *format, int version, struct problems *problems);
/* The same check of "format" and "version" for an object inside another document. */
gboolean cursor_is_document (const struct cursor *cursor, const char *format, int version);

struct cursor cursor_root (JsonNode *root, struct problems *problems);

/* What a schema can express, and what it cannot (limits of texts as typed, one value against another). */
void cursor_problem (const struct cursor *cursor, const char *format, ...) G_GNUC_PRINTF (2, 3);
void cursor_problem_beyond (const struct cursor *cursor, const char *format, ...) G_GNUC_PRINTF (2, 3);
char *cursor_path (const struct cursor *cursor); /* caller frees */

/* Whether it is an object without unknown names; the known ones end with NULL. */
gboolean cursor_is_object (const struct cursor *cursor, const char *const *known);
gboolean cursor_has_type_object (const struct cursor *cursor);
gboolean cursor_is_array (const struct cursor *cursor, unsigned least, unsigned most, unsigned *length);

/* The member of an object (FALSE, silently, where there is none), the item of an array. */
gboolean cursor_member (const struct cursor *cursor, const char *key, struct cursor *member);
/* The same; a missing member is a problem at its place. */
void cursor_missing (const struct cursor *cursor, const char *key);
gboolean cursor_needs (const struct cursor *cursor, const char *key, struct cursor *member);
struct cursor cursor_item (const struct cursor *cursor, unsigned index);

gboolean cursor_is_number (const struct cursor *cursor); /* silent */
gboolean cursor_is_text (const struct cursor *cursor);   /* silent */
gboolean cursor_number (const struct cursor *cursor, double least, double most, double *value);
gboolean cursor_whole (const struct cursor *cursor, int least, int most, int *value);
/* least..most in characters; the text belongs to the document. */
gboolean cursor_text (const struct cursor *cursor, unsigned least, unsigned most, const char **text);
/* A text into a buffer of size bytes; longer in bytes than that is a problem too. */
gboolean cursor_text_into (const struct cursor *cursor, unsigned least, char *buffer, gsize size);
/* One of the words, which end with NULL. */
gboolean cursor_word (const struct cursor *cursor, const char *const *words, int *index);

#endif
