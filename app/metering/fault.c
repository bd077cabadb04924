#include "fault.h"
#include "text.h"

#include <math.h>
#include <string.h>

static const char *const system_names[FAULT_SYSTEMS] = {
  [FAULT_IN_SUPPLY] = N_("Fuel supply"),
  [FAULT_IN_CONTROL] = N_("Control pressure"),
  [FAULT_IN_METERING] = N_("Air sensor and fuel distributor"),
  [FAULT_IN_AIR] = N_("Air path"),
  [FAULT_IN_NOZZLES] = N_("Nozzles"),
  [FAULT_IN_STARTING] = N_("Starting and electrics"),
  [FAULT_IN_FUEL] = N_("Fuel"),
  [FAULT_OUTSIDE] = N_("Not the injection"),
};

/* What all faults together do to every double of a car; laid out as a car so that the parameter table finds it. */
struct change {
  struct car scale, add;
};

static void
clear_change (const struct car *car, struct change *change)
{
  change->scale.cylinders = car->cylinders;
  change->scale.sensor.funnel_points = car->sensor.funnel_points;
  for (int i = 0; i < parameter_count; i++)
    for (int j = 0; j < parameter_values (car, &parameters[i]); j++) {
      *parameter_in (&change->scale, &parameters[i], j) = 1;
      *parameter_in (&change->add, &parameters[i], j) = 0;
    }
}

static void
add_effect (const struct car *car, const struct fault_dose *dose, const struct fault_effect *effect,
            struct change *change)
{
  double amount = fault_effect_at (effect, dose->severity);
  bool one = dose->fault->one_cylinder && effect->parameter->many == EACH_CYLINDER;
  int first = one ? dose->cylinder : 0;
  int end = one ? first + 1 : parameter_values (car, effect->parameter);

  for (int i = first; i < end; i++)
    if (effect->form == FAULT_SCALE)
      *parameter_in (&change->scale, effect->parameter, i) *= amount;
    else
      *parameter_in (&change->add, effect->parameter, i) += amount;
}

/* A value that nothing touches keeps its bits, be it out of its limits. */
static void
make_change (const struct change *change, struct car *car)
{
  for (int i = 0; i < parameter_count; i++)
    for (int j = 0; j < parameter_values (car, &parameters[i]); j++) {
      double scale = parameter_get (&change->scale, &parameters[i], j);
      double add = parameter_get (&change->add, &parameters[i], j);
      double *value = parameter_in (car, &parameters[i], j);

      if (scale != 1 || add != 0)
        *value = fmin (fmax (*value * scale + add, parameters[i].least), parameters[i].most);
    }
}

/* One order for all: products and sums of three or more depend on it in the last bit. */
static int
compare_doses (const struct fault_dose *a, const struct fault_dose *b)
{
  int by_key = strcmp (a->fault->key, b->fault->key);

  if (by_key)
    return by_key;
  if (a->cylinder != b->cylinder)
    return a->cylinder < b->cylinder ? -1 : 1;
  return (a->severity > b->severity) - (a->severity < b->severity);
}

static bool
dose_fits (const struct car *car, const struct fault_dose *dose)
{
  return dose->severity >= 0 && dose->severity <= 1 /* a NaN fails */
         && (!dose->fault->one_cylinder || (dose->cylinder >= 0 && dose->cylinder < car->cylinders));
}

/* The doses sorted; false where one does not fit. */
static bool
sort_doses (const struct car *car, const struct fault_dose *doses, int count, struct fault_dose *sorted)
{
  for (int i = 0; i < count; i++) {
    int j = i;

    if (!dose_fits (car, &doses[i]))
      return false;
    for (; j > 0 && compare_doses (&doses[i], &sorted[j - 1]) < 0; j--)
      sorted[j] = sorted[j - 1];
    sorted[j] = doses[i];
  }
  return true;
}

const char *
fault_system_name (enum fault_system system)
{
  return (unsigned) system < FAULT_SYSTEMS ? system_names[system] : "";
}

double
fault_effect_at (const struct fault_effect *effect, double severity)
{
  double worst = effect->worst;

  if (effect->form == FAULT_ADD)
    return (effect->course == FAULT_SQUARE ? severity * severity : severity) * worst;
  switch (effect->course) {
  case FAULT_GEOMETRIC:
    return pow (worst, severity);
  case FAULT_RECIPROCAL:
    return 1 / (1 - severity * (1 - 1 / worst));
  case FAULT_LINEAR:
  case FAULT_SQUARE:
  default:
    return 1 + severity * (worst - 1);
  }
}

bool
faults_apply (const struct car *healthy, const struct fault_dose *doses, int count, struct car *faulty,
              struct car_complaint *complaint)
{
  struct fault_dose sorted[FAULTS_AT_ONCE_MAX];
  struct change change;

  *faulty = *healthy;
  if (complaint)
    *complaint = (struct car_complaint) { CAR_SOUND, NULL, 0 };
  if (count < 0 || count > FAULTS_AT_ONCE_MAX || !sort_doses (healthy, doses, count, sorted))
    return false;
  clear_change (healthy, &change);
  for (int i = 0; i < count; i++)
    for (int j = 0; j < sorted[i].fault->effects && sorted[i].severity > 0; j++)
      add_effect (healthy, &sorted[i], &sorted[i].fault->effect[j], &change);
  make_change (&change, faulty);
  if (car_check (faulty, complaint))
    return true;
  *faulty = *healthy;
  return false;
}

bool
fault_apply (struct car *car, const struct fault *fault, double severity, int cylinder)
{
  const struct car healthy = *car;
  const struct fault_dose dose = { fault, severity, cylinder };

  return faults_apply (&healthy, &dose, 1, car, NULL);
}
