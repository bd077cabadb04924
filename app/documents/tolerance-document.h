/* Build tolerances as a document. Format: data/schemas/tolerances-1.schema.json. */
#ifndef DOCUMENTS_TOLERANCE_DOCUMENT_H
#define DOCUMENTS_TOLERANCE_DOCUMENT_H

#include "problems.h"
#include "tolerance.h"

#include <glib.h>

#define TOLERANCES_FORMAT "platelift-tolerances"
#define TOLERANCES_VERSION 1

/* Fills tolerances from this text; FALSE with every problem found (path, sentence). */
gboolean tolerances_parse (const char *text, gsize length, struct tolerances *tolerances, struct problems *problems);

/* The shipped tolerances, owned by the program; none and a problem where they are damaged. */
const struct tolerances *tolerances_shipped (struct problems *problems);

#endif
