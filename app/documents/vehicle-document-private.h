/* A vehicle inside another document. */
#ifndef DOCUMENTS_VEHICLE_DOCUMENT_PRIVATE_H
#define DOCUMENTS_VEHICLE_DOCUMENT_PRIVATE_H

#include "document-reader.h"
#include "json-writer.h"
#include "vehicle-document.h"

#define VEHICLE_FORMAT "platelift-vehicle"
#define VEHICLE_VERSION 1
#define BAND_VALUE_MAX 1e7 /* SI; above every pressure, flow and length of this trade */

extern const char *const plate_direction_words[]; /* by enum plate_direction, NULL at the end */
extern const char *const band_form_words[];       /* by enum band_form less one, NULL at the end */
extern const char *const vehicle_groups[];        /* in the order of the document, NULL at the end */

/* Fills vehicle from the object at the cursor. usual is the car whose values stand for what is left out; NULL: nothing
 * may be left out. FALSE with problems. */
gboolean vehicle_read (const struct cursor *cursor, const struct vehicle *usual, struct vehicle *vehicle);

/* The generic car, owned by the program, or NULL and a problem. */
const struct vehicle *vehicle_generic (struct problems *problems);

/* schema: the value of "$schema", or NULL for a vehicle inside a job. */
void vehicle_write_in (struct json_writer *writer, const char *key, const char *schema, const struct vehicle *vehicle);

#endif
