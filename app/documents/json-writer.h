/* JSON text in a stable order with numbers as short as they can be (the library's generator writes 3.65 as
 * 3.6499999999999999). Calls nest as the document does; a misuse is a programming error. */
#ifndef DOCUMENTS_JSON_WRITER_H
#define DOCUMENTS_JSON_WRITER_H

#include <glib.h>

struct json_writer;

struct json_writer *json_writer_new (void);
/* The text with its final newline; frees the writer. Caller frees the text. */
char *json_writer_finish (struct json_writer *writer);

/* key is NULL in an array and for the root. An inline array or object stays on one line. */
void json_writer_begin_object (struct json_writer *writer, const char *key);
void json_writer_begin_object_inline (struct json_writer *writer, const char *key);
void json_writer_begin_array (struct json_writer *writer, const char *key);
void json_writer_begin_array_inline (struct json_writer *writer, const char *key);
void json_writer_end (struct json_writer *writer);

void json_writer_text (struct json_writer *writer, const char *key, const char *text);
void json_writer_number (struct json_writer *writer, const char *key, double value); /* not finite: null */
void json_writer_truth (struct json_writer *writer, const char *key, gboolean value);

#endif
