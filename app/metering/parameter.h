/* The table of a car's parameters: one row for every double of struct car (arrays are one row). Serves documents, the
 * vehicle-data page, faults, fits, tolerances, the command line and the chain of effects alike. */
#ifndef METERING_PARAMETER_H
#define METERING_PARAMETER_H

#include "car.h"
#include "quantity.h"

#include <stdbool.h>
#include <stddef.h>

enum parameter_many { ONE, EACH_CYLINDER, EACH_POINT };

struct parameter {
  const char *key;    /* identity; also the member's name in documents */
  const char *group;  /* the member of struct car */
  size_t offset;      /* of the first double in struct car */
  enum parameter_many many;
  enum quantity quantity;
  double least, most; /* limits that a document must keep, SI */
  const char *name;   /* marked for translation, not translated */
};

extern const struct parameter parameters[];
extern const int parameter_count;

/* The row of that key, or NULL. */
const struct parameter *parameter_find (const char *key);

/* How many values the parameter has in this car: 1, the cylinders or the funnel points. */
int parameter_values (const struct car *car, const struct parameter *parameter);

/* Where its value number index lies (0 where there is one only); index < parameter_values. Points into car. */
double *parameter_in (struct car *car, const struct parameter *parameter, int index);
double parameter_get (const struct car *car, const struct parameter *parameter, int index);

enum car_complaint_kind {
  CAR_SOUND,
  CAR_OUT_OF_LIMITS,      /* parameter and index name the value */
  CAR_FUNNEL_NOT_RISING,  /* depths must rise strictly from 0, clearances too behind the land: in a second
                             cylinder the plate would have no place of its own */
  CAR_CYLINDERS,          /* 1..CYLINDERS_MAX */
  CAR_FUNNEL_POINTS,      /* 2..FUNNEL_POINTS_MAX */
  CAR_ARMS,               /* the roller's arm must be shorter than the plate's */
  CAR_VACUUM_ORDER,       /* load_vacuum_low must be under load_vacuum_high */
  CAR_AREAS,              /* diaphragm_area must be at least seat_area */
  CAR_WINDOW,             /* air flows or stops in the wrong order */
};

struct car_complaint {
  enum car_complaint_kind kind;
  const struct parameter *parameter; /* the value meant, or NULL */
  int index;
};

/* The one border check of a car. False, and the first thing wrong in complaint (may be NULL). */
bool car_check (const struct car *car, struct car_complaint *complaint);

#endif
