#include "state.h"
#include "text.h"

#include <string.h>

const struct state_value state_values[] = {
#define VALUE(key_, member_, quantity_, name_) { #key_, offsetof (struct state, member_), QUANTITY_##quantity_, name_ },
#define CYLINDER_VALUE(key_, member_, quantity_, name_)
#include "state-values.def"
#undef VALUE
#undef CYLINDER_VALUE
};

const int state_value_count = (int) (sizeof state_values / sizeof state_values[0]);

const struct state_value cylinder_values[] = {
#define VALUE(key_, member_, quantity_, name_)
#define CYLINDER_VALUE(key_, member_, quantity_, name_) \
  { #key_, offsetof (struct cylinder_state, member_), QUANTITY_##quantity_, name_ },
#include "state-values.def"
#undef VALUE
#undef CYLINDER_VALUE
};

const int cylinder_value_count = (int) (sizeof cylinder_values / sizeof cylinder_values[0]);

const struct state_value *
state_value_find (const char *key)
{
  for (int i = 0; i < state_value_count; i++)
    if (strcmp (state_values[i].key, key) == 0)
      return &state_values[i];
  return NULL;
}

static double
double_at (const void *base, size_t offset)
{
  double value;

  memcpy (&value, (const char *) base + offset, sizeof value);
  return value;
}

double
state_value_get (const struct state *state, const struct state_value *value)
{
  return double_at (state, value->offset);
}

double
cylinder_value_get (const struct cylinder_state *cylinder, const struct state_value *value)
{
  return double_at (cylinder, value->offset);
}

const char *
outcome_text (enum outcome outcome)
{
  switch (outcome) {
  case OUTCOME_SOLVED:
    return N_("solved");
  case OUTCOME_BAD_CAR:
    return N_("The vehicle data are not possible.");
  case OUTCOME_BAD_CONDITIONS:
    return N_("The conditions are not possible.");
  case OUTCOME_TOO_MUCH_AIR:
    return N_("More air than passes this plate even at its buffer.");
  case OUTCOME_NOT_FOUND:
  default:
    return N_("No state was found that meets every equation: this is a fault of the program.");
  }
}
