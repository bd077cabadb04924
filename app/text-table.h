/* A small table in plain text, columns aligned by what is seen (not by bytes). */
#ifndef APP_TEXT_TABLE_H
#define APP_TEXT_TABLE_H

#include <glib.h>

struct text_table;

/* One letter a column: l left, r right, d numbers with their decimal signs under one another. */
struct text_table *text_table_new (const char *columns);

/* One cell a column, as strings; copied. */
void text_table_row (struct text_table *table, ...) G_GNUC_NULL_TERMINATED;

/* Appends the aligned rows to text and frees the table. Columns that are empty in every row take no room. */
void text_table_end (struct text_table *table, GString *text);

#endif
