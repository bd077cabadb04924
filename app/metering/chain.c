#include "chain.h"

#include <math.h>
#include <string.h>

/* One dependency of the model: the value named effect is computed from the one named cause. Inputs are conditions'
 * keys, the others keys of state values; a cylinder value stands for the mean of the cylinders. The order of the rows is
 * the order of computing. */
struct edge {
  const char *effect;
  const char *causes[4];
  double least; /* smallest relative change worth telling */
  bool main_line;
};

static const struct edge edges[] = {
  { "ambient_pressure", { "altitude" }, 1e-4, false },
  { "air_density", { "ambient_pressure", "ambient", "humidity" }, 1e-4, true },
  { "fuel_density", { "fuel" }, 1e-4, true },
  { "bimetal_temperature", { "coolant", "minutes", "voltage", "ambient" }, 1e-3, true },
  { "bimetal_deflection", { "bimetal_temperature" }, 1e-3, false },
  { "bimetal_force", { "bimetal_deflection" }, 1e-3, true },
  { "load_position", { "vacuum" }, 1e-3, true },
  { "load_force", { "load_position" }, 1e-3, false },
  { "base_pressure", { "bimetal_force", "load_force" }, 1e-3, false },
  { "pump_flow", { "voltage", "fuel_volume_flow" }, 1e-3, false },
  { "suction_pressure", { "pump_flow" }, 1e-3, false },
  { "relief_flow", { "pump_flow", "fuel_volume_flow", "control_flow" }, 1e-3, false },
  { "system_pressure", { "relief_flow", "pump_flow" }, 1e-3, false },
  { "control_pressure", { "base_pressure", "system_pressure" }, 1e-3, true },
  { "control_flow", { "control_pressure", "system_pressure" }, 1e-3, false },
  { "plunger_force", { "control_pressure" }, 1e-3, false },
  { "plate_drop", { "plunger_force" }, 1e-3, false },
  { "flow_area", { "air", "plate_drop", "air_density" }, 1e-3, false },
  { "plate_lift", { "flow_area" }, 1e-3, true },
  { "plunger_lift", { "plate_lift" }, 1e-3, true },
  { "slot_opening", { "plunger_lift" }, 1e-3, true },
  { "slot_drop", { "system_pressure" }, 1e-3, false },
  { "flow", { "slot_opening", "slot_drop", "fuel_density" }, 1e-3, false },
  { "fuel_volume_flow", { "flow" }, 1e-3, false },
  { "fuel_flow", { "fuel_volume_flow", "fuel_density" }, 1e-3, true },
  { "unmetered_air", { "vacuum", "ambient_pressure", "ambient" }, 1e-3, false },
  { "lambda", { "fuel_flow", "air", "unmetered_air" }, 5e-4, true },
};

#define EDGES ((int) (sizeof edges / sizeof edges[0]))
#define MOVED_MAX (EDGES + 16)

/* A value that moved, told or not. */
struct moved {
  const char *key;
  int link; /* its own link, or the nearest told one behind it; -1 none */
};

static double
mean_of_cylinders (const struct state *state, const struct state_value *value)
{
  double sum = 0;

  for (int i = 0; i < state->cylinders; i++)
    sum += cylinder_value_get (&state->cylinder[i], value);
  return state->cylinders > 0 ? sum / state->cylinders : 0;
}

static const struct state_value *
cylinder_value_find (const char *key)
{
  for (int i = 0; i < cylinder_value_count; i++)
    if (strcmp (cylinder_values[i].key, key) == 0)
      return &cylinder_values[i];
  return NULL;
}

static void
fill_state_link (const char *key, const struct state *before, const struct state *after, struct chain_link *link)
{
  memset (link, 0, sizeof *link);
  link->value = state_value_find (key);
  if (link->value) {
    link->kind = CHAIN_STATE;
    link->before = state_value_get (before, link->value);
    link->after = state_value_get (after, link->value);
  } else {
    link->kind = CHAIN_CYLINDER;
    link->value = cylinder_value_find (key);
    link->before = mean_of_cylinders (before, link->value);
    link->after = mean_of_cylinders (after, link->value);
  }
}

static bool
differs (double before, double after, double least)
{
  return fabs (after - before) > least * fmax (fabs (before), fabs (after));
}

static const struct moved *
find_moved (const struct moved *moved, int count, const char *key)
{
  for (int i = 0; i < count; i++)
    if (strcmp (moved[i].key, key) == 0)
      return &moved[i];
  return NULL;
}

/* The first of the edge's causes that moved, or NULL: then the effect is not told, whatever its numbers do. */
static const struct moved *
cause_of (const struct edge *edge, const struct moved *moved, int count)
{
  for (int i = 0; i < 4 && edge->causes[i]; i++) {
    const struct moved *cause = find_moved (moved, count, edge->causes[i]);
    if (cause)
      return cause;
  }
  return NULL;
}

static int
add_inputs (const struct conditions *before, const struct conditions *after, struct moved *moved,
            struct chain_link *links)
{
  struct conditions old = *before, new = *after;
  int count = 0;

  for (int i = 0; i < condition_count; i++) {
    double from = *condition_in (&old, &condition_table[i]), to = *condition_in (&new, &condition_table[i]);
    if (from == to)
      continue;
    links[count] = (struct chain_link) { CHAIN_CONDITION, &condition_table[i], NULL, from, to, -1 };
    moved[count] = (struct moved) { condition_table[i].key, count };
    count++;
  }
  return count;
}

int
chain_between (const struct conditions *conditions_before, const struct state *before,
               const struct conditions *conditions_after, const struct state *after, bool main_line,
               struct chain_link links[CHAIN_LINKS_MAX])
{
  struct moved moved[MOVED_MAX];
  int links_count, moved_count;

  if (before->outcome != OUTCOME_SOLVED || after->outcome != OUTCOME_SOLVED)
    return 0;
  links_count = moved_count = add_inputs (conditions_before, conditions_after, moved, links);
  for (int i = 0; i < EDGES && links_count < CHAIN_LINKS_MAX; i++) {
    const struct moved *cause = cause_of (&edges[i], moved, moved_count);
    struct chain_link link;
    int told = -1;

    if (!cause)
      continue;
    fill_state_link (edges[i].effect, before, after, &link);
    if (!differs (link.before, link.after, edges[i].least))
      continue;
    told = cause->link;
    if (edges[i].main_line || !main_line) {
      link.cause = told;
      told = links_count;
      links[links_count++] = link;
    }
    moved[moved_count++] = (struct moved) { edges[i].effect, told };
  }
  return links_count;
}
