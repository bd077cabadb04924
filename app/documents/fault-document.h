/* A catalogue of faults as a document: each fault by the parameters it changes. Format: data/schemas/faults-1.schema.json.
 * Numbers are SI with a decimal point. The texts of the shipped catalogue are in English; who shows them translates them
 * (po/document-texts.h holds them for the translators). */
#ifndef DOCUMENTS_FAULT_DOCUMENT_H
#define DOCUMENTS_FAULT_DOCUMENT_H

#include "fault.h"
#include "problems.h"

#include <glib.h>

#define FAULTS_FORMAT "platelift-faults"
#define FAULTS_VERSION 1
#define FAULTS_MAX 512

struct fault_catalogue {
  unsigned count;
  struct fault *fault;
};

/* The catalogue in this text, or NULL with every problem found (path, sentence). */
struct fault_catalogue *fault_catalogue_parse (const char *text, gsize length, struct problems *problems);
void fault_catalogue_free (struct fault_catalogue *catalogue);

/* The shipped catalogue, owned by the program; an empty one and a problem where it is damaged. */
const struct fault_catalogue *fault_catalogue_shipped (struct problems *problems);

/* The fault of that key, or NULL. */
const struct fault *fault_catalogue_find (const struct fault_catalogue *catalogue, const char *key);

typedef struct fault_catalogue fault_catalogue_t;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (fault_catalogue_t, fault_catalogue_free)

#endif
