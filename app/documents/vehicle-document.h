/* Vehicle data as a document: one car, its bands, and where each came from. Format: data/schemas/vehicle-1.schema.json.
 * Numbers are SI with a decimal point. A parameter that a document leaves out is taken from the generic car; so are the
 * bands where it has no "bands" at all. Where it has, a reading it does not list has no band. A band may leave out one
 * of its two limits (then -INFINITY or INFINITY here). Array entries beyond the car's cylinders or funnel points are
 * zeroes, so that equal documents give equal bytes. */
#ifndef DOCUMENTS_VEHICLE_DOCUMENT_H
#define DOCUMENTS_VEHICLE_DOCUMENT_H

#include "car.h"
#include "problems.h"
#include "reading.h"

#include <glib.h>

struct vehicle {
  char key[64];          /* file name without its ending; ASCII letters, digits and -; "" before it has one */
  char name[128];        /* "Marrow 2.8, six cylinders": invented, or the user's own words */
  char notes[512];
  struct car car;
  struct band bands[READINGS];
};

/* The vehicle in this text, or NULL with every problem found (path, sentence). Free with g_free. */
struct vehicle *vehicle_parse (const char *text, gsize length, struct problems *problems);

/* NAME of a shipped car (from the GResource) or a file's path: the text is loaded and parsed. */
struct vehicle *vehicle_load (const char *name_or_path, struct problems *problems);

/* A key made of a file's name or of any text. key holds 64 bytes. */
void vehicle_key_from (const char *name, char key[64]);

/* The shipped car on which the program opens. */
#define VEHICLE_FIRST "hollin-six"

/* VEHICLE_FIRST, then the names of the other shipped cars, NULL-terminated, static; the generic car, which serves as
 * source of usual values and can be loaded by its name "generic", is not among them. */
const char *const *vehicle_shipped (void);

/* The document's text, stable order, shortest numbers, final newline. Caller frees. */
char *vehicle_write (const struct vehicle *vehicle);

#endif
