/* A job: one car on one visit, the conditions of the day and the readings as they were typed. Format:
 * data/schemas/job-1.schema.json. The car is embedded whole, so that the record can be reproduced; a shipped car's name
 * is accepted on reading. Numbers a person typed stay the text they typed, with their unit; SI is derived. */
#ifndef DOCUMENTS_JOB_DOCUMENT_H
#define DOCUMENTS_JOB_DOCUMENT_H

#include "conditions.h"
#include "problems.h"
#include "reading.h"
#include "units.h"
#include "vehicle-document.h"

#include <glib.h>

#define JOB_READINGS_MAX 500

/* A number as typed. text "" = not given. */
struct typed {
  char *text;               /* as typed, without the unit; owned */
  const struct unit *unit;  /* NULL only where text is "" */
  double si;                /* derived */
};

enum uncertainty_form { UNCERTAINTY_USUAL, UNCERTAINTY_STANDARD, UNCERTAINTY_95, UNCERTAINTY_LIMITS };
enum vacuum_source { VACUUM_NONE, VACUUM_HAND_PUMP, VACUUM_ENGINE };

/* The conditions of the whole visit; a reading may say its own. */
struct typed_conditions {
  struct typed ambient, altitude, temperature /* of block and regulator */, voltage, vacuum, minutes, fuel;
  enum vacuum_source vacuum_source;
  gboolean vacuum_source_given;
};

/* The members of struct typed_conditions that are numbers. */
struct typed_condition {
  const char *key;       /* in documents and CSV */
  gsize offset;          /* of the struct typed */
  const char *condition; /* key in condition_table */
};
#define TYPED_CONDITIONS 7
extern const struct typed_condition typed_condition_rows[TYPED_CONDITIONS];
struct typed *typed_condition_in (struct typed_conditions *conditions, const struct typed_condition *row);
const struct typed *typed_condition_get (const struct typed_conditions *conditions, const struct typed_condition *row);

struct job_reading {
  const struct reading_kind *kind;
  struct typed value[CYLINDERS_MAX]; /* one, or one for every cylinder */
  int values;
  enum uncertainty_form uncertainty_form;
  struct typed uncertainty;          /* half width in a unit of the quantity; for each-cylinder readings in % */
  struct typed_conditions conditions; /* empty members: those of the visit */
  char *note;
};

struct job {
  char *workshop, *technician, *vehicle_mark /* the owner's own words for the car */, *date, *complaint, *notes;
  struct vehicle *vehicle;
  struct typed_conditions conditions;
  GPtrArray *readings; /* of struct job_reading, owned */
};

struct job *job_new (const struct vehicle *vehicle);
struct job *job_copy (const struct job *job);
void job_free (struct job *job);
struct job_reading *job_reading_new (const struct reading_kind *kind);
struct job_reading *job_reading_copy (const struct job_reading *reading);
void job_reading_free (struct job_reading *reading);
typedef struct job job_t;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (job_t, job_free)
typedef struct job_reading job_reading_t;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (job_reading_t, job_reading_free)
void typed_set (struct typed *typed, const char *text, const struct unit *unit); /* text must parse, or be "" */
void typed_clear (struct typed *typed);

struct job *job_parse (const char *text, gsize length, struct problems *problems);
struct job *job_load (const char *path, struct problems *problems);
char *job_write (const struct job *job);

/* The demo jobs that the program carries: names, NULL-terminated, static; and one of them. */
const char *const *job_shipped (void);
struct job *job_load_shipped (const char *name, struct problems *problems);

/* CSV in: readings appended to a job; every line with a problem is told and left out; FALSE where any was. A header
 * line names the columns in any order: reading; value; unit, and as wanted cylinder, uncertainty, form, note,
 * vacuum_source and the conditions ambient, altitude, temperature, voltage, vacuum, minutes, fuel. Fields are separated
 * by ; or a tab or a comma. A unit stands in the unit column, behind the number, or in brackets in the header:
 * "temperature [°C]"; it is never guessed (an uncertainty without one has the unit of its line). The cylinders of one
 * reading may stand on several lines, each with its number in the cylinder column. */
gboolean csv_readings_parse (const char *text, gsize length, struct job *job, struct problems *problems);

/* Model conditions for one reading: visit's, overlaid by the reading's own, the rest usual. */
void job_conditions (const struct job *job, const struct job_reading *reading, struct conditions *conditions);

/* The quantity of a reading's typed uncertainty: a difference, or a fraction for each-cylinder readings. */
enum quantity job_uncertainty_quantity (const struct reading_kind *kind);

/* What no gauge of this trade shows: least and most for a value of that quantity, SI. */
void job_value_limits (enum quantity quantity, double *least, double *most);

/* Standard uncertainty in SI (for each-cylinder readings a fraction of the mean). JCGM 100 4.3.7: limits / sqrt 3. */
double job_reading_uncertainty (const struct job_reading *reading);

#endif
