/* JSON written member by member: two spaces a level, shortest numbers, decimal point in every locale. */
#ifndef APP_JSON_TEXT_H
#define APP_JSON_TEXT_H

#include <glib.h>

struct json_text;

struct json_text *json_text_new (void);

/* key is NULL inside an array and for the outermost value. */
void json_text_object (struct json_text *json, const char *key);
void json_text_array (struct json_text *json, const char *key);
/* Closes the innermost object or array. */
void json_text_close (struct json_text *json);

void json_text_string (struct json_text *json, const char *key, const char *value);
/* null where the value is not finite. */
void json_text_number (struct json_text *json, const char *key, double value);
void json_text_null (struct json_text *json, const char *key);

/* The text, with a final newline; frees json. Everything must be closed. Caller frees. */
char *json_text_end (struct json_text *json);

#endif
