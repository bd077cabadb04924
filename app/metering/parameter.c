#include "parameter.h"
#include "text.h"

#include <math.h>
#include <string.h>

const struct parameter parameters[] = {
#define PARAMETER(key_, group_, member_, many_, quantity_, least_, most_, name_) \
  { #key_, #group_, offsetof (struct car, group_.member_), many_, QUANTITY_##quantity_, least_, most_, name_ },
#include "car-parameters.def"
#undef PARAMETER
};

const int parameter_count = (int) (sizeof parameters / sizeof parameters[0]);

const struct parameter *
parameter_find (const char *key)
{
  for (int i = 0; i < parameter_count; i++)
    if (strcmp (parameters[i].key, key) == 0)
      return &parameters[i];
  return NULL;
}

int
parameter_values (const struct car *car, const struct parameter *parameter)
{
  switch (parameter->many) {
  case EACH_CYLINDER:
    return car->cylinders;
  case EACH_POINT:
    return car->sensor.funnel_points;
  case ONE:
  default:
    return 1;
  }
}

double *
parameter_in (struct car *car, const struct parameter *parameter, int index)
{
  return (double *) (void *) ((char *) car + parameter->offset) + index;
}

double
parameter_get (const struct car *car, const struct parameter *parameter, int index)
{
  double value;
  memcpy (&value, (const char *) car + parameter->offset + (size_t) index * sizeof value, sizeof value);
  return value;
}

static bool
complain (struct car_complaint *complaint, enum car_complaint_kind kind, const char *key, int index)
{
  if (complaint)
    *complaint = (struct car_complaint) { kind, key ? parameter_find (key) : NULL, index };
  return false;
}

static bool
limits_kept (const struct car *car, struct car_complaint *complaint)
{
  for (int i = 0; i < parameter_count; i++)
    for (int j = 0; j < parameter_values (car, &parameters[i]); j++) {
      double value = parameter_get (car, &parameters[i], j);
      if (!(value >= parameters[i].least && value <= parameters[i].most)) /* a NaN fails too */
        return complain (complaint, CAR_OUT_OF_LIMITS, parameters[i].key, j);
    }
  return true;
}

/* Whether point i of the funnel's profile lies further down and out than the one before; in the land only further down. */
static bool
profile_rises (const struct air_sensor *sensor, int i)
{
  double before = sensor->funnel_clearance[i - 1], here = sensor->funnel_clearance[i];
  bool land = before == sensor->funnel_clearance[0];

  return sensor->funnel_depth[i] > sensor->funnel_depth[i - 1] && (land ? here >= before : here > before);
}

bool
car_check (const struct car *car, struct car_complaint *complaint)
{
  const struct air_sensor *sensor = &car->sensor;
  const struct control_circuit *control = &car->control;

  if (car->cylinders < 1 || car->cylinders > CYLINDERS_MAX)
    return complain (complaint, CAR_CYLINDERS, NULL, 0);
  if (sensor->funnel_points < 2 || sensor->funnel_points > FUNNEL_POINTS_MAX)
    return complain (complaint, CAR_FUNNEL_POINTS, NULL, 0);
  if (!limits_kept (car, complaint))
    return false;
  for (int i = 0; i < sensor->funnel_points; i++)
    if (i == 0 ? sensor->funnel_depth[0] != 0 : !profile_rises (sensor, i))
      return complain (complaint, CAR_FUNNEL_NOT_RISING, "funnel_depth", i);
  if (sensor->roller_arm >= sensor->plate_arm)
    return complain (complaint, CAR_ARMS, "roller_arm", 0);
  if (sensor->rest_height >= sensor->top_stop || sensor->play >= sensor->top_stop)
    return complain (complaint, CAR_WINDOW, "top_stop", 0);
  if (car->engine.idle_air >= car->engine.full_air)
    return complain (complaint, CAR_WINDOW, "full_air", 0);
  if (car->store.accumulator_empty >= car->store.accumulator_full)
    return complain (complaint, CAR_WINDOW, "accumulator_full", 0);
  if (car->supply.shutoff_closing >= car->supply.shutoff_opening)
    return complain (complaint, CAR_WINDOW, "shutoff_opening", 0);
  if (control->load_vacuum_low >= control->load_vacuum_high)
    return complain (complaint, CAR_VACUUM_ORDER, "load_vacuum_low", 0);
  if (control->diaphragm_area < control->seat_area)
    return complain (complaint, CAR_AREAS, "diaphragm_area", 0);
  return true;
}
