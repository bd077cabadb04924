/* A strict reader of JSON text (RFC 8259) in front of the library's lenient one. Refused, each with its line and
 * column: more than JSON_SIZE_MAX bytes, an empty text, anything beside one root value, comments, nesting deeper than
 * JSON_DEPTH_MAX, a name twice in one object, numbers in another form than the standard's or too large for a double,
 * whole numbers of more than 18 digits, bad UTF-8, control characters and lone surrogates in texts. A byte order mark
 * at the very start is passed over. */
#ifndef DOCUMENTS_JSON_STRICT_H
#define DOCUMENTS_JSON_STRICT_H

#include "problems.h"

#include <json-glib/json-glib.h>

#define JSON_SIZE_MAX (4 * 1024 * 1024)
#define JSON_DEPTH_MAX 32

/* Whether the text is strict JSON; the first fault goes to problems. */
gboolean json_strict_check (const char *text, gsize length, struct problems *problems);

/* The root value, or NULL and a problem. Free with json_node_unref. */
JsonNode *json_strict_parse (const char *text, gsize length, struct problems *problems);

#endif
