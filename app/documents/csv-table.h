/* A table of text in a file (RFC 4180, with ; and tab as separators besides the comma). Fields may be quoted, with the
 * separator, line ends and doubled quotation marks inside. A byte order mark is passed over; empty lines are left
 * out. */
#ifndef DOCUMENTS_CSV_TABLE_H
#define DOCUMENTS_CSV_TABLE_H

#include "problems.h"

#define CSV_FIELD_MAX 4096 /* characters */
#define CSV_COLUMNS_MAX 64
#define CSV_ROWS_MAX 5000

struct csv_row {
  int line;          /* where it begins, from 1 */
  GPtrArray *fields; /* of char *, white space at either end taken off */
};

struct csv_table {
  char separator;
  GPtrArray *rows; /* of struct csv_row; the first is the header */
};

/* NULL and problems where the text as a whole cannot be read as a table. Free with csv_table_free. */
struct csv_table *csv_table_parse (const char *text, gsize length, struct problems *problems);
void csv_table_free (struct csv_table *table);

const struct csv_row *csv_table_row (const struct csv_table *table, unsigned index);
/* The field, or "" where the row is shorter. */
const char *csv_row_field (const struct csv_row *row, int column);

typedef struct csv_table csv_table_t;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (csv_table_t, csv_table_free)

#endif
