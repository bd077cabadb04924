#include "conditions.h"
#include "text.h"

#include <string.h>

const struct condition condition_table[] = {
#define CONDITION(key_, member_, quantity_, least_, most_, usual_, name_) \
  { #key_, offsetof (struct conditions, member_), QUANTITY_##quantity_, least_, most_, usual_, name_ },
#include "conditions.def"
#undef CONDITION
};

const int condition_count = (int) (sizeof condition_table / sizeof condition_table[0]);

const struct condition *
condition_find (const char *key)
{
  for (int i = 0; i < condition_count; i++)
    if (strcmp (condition_table[i].key, key) == 0)
      return &condition_table[i];
  return NULL;
}

double *
condition_in (struct conditions *conditions, const struct condition *condition)
{
  return (double *) (void *) ((char *) conditions + condition->offset);
}

void
conditions_usual (struct conditions *conditions)
{
  memset (conditions, 0, sizeof *conditions);
  for (int i = 0; i < condition_count; i++)
    *condition_in (conditions, &condition_table[i]) = condition_table[i].usual;
}

/* Written so that a NaN fails */
static bool
within (double value, double least, double most)
{
  return value >= least && value <= most;
}

static bool
held_in_limits (const struct conditions *c)
{
  return within (c->approach, -1, 1)
         && (!(c->held & HOLD_PLATE) || within (c->held_lift, -0.01, 0.1))
         && (!(c->held & HOLD_CONTROL_PRESSURE) || within (c->held_control_pressure, 0, 1.5e6))
         && (!(c->held & HOLD_SYSTEM_PRESSURE) || within (c->held_system_pressure, 0, 1.5e6))
         && (!(c->held & HOLD_BIMETAL) || within (c->held_bimetal_temperature, -60, 300));
}

bool
conditions_check (const struct conditions *conditions, const struct condition **condition)
{
  struct conditions copy = *conditions;

  if (condition)
    *condition = NULL;
  for (int i = 0; i < condition_count; i++)
    if (!within (*condition_in (&copy, &condition_table[i]), condition_table[i].least, condition_table[i].most)) {
      if (condition)
        *condition = &condition_table[i];
      return false;
    }
  return held_in_limits (conditions);
}
