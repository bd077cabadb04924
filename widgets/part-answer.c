#include "part-answer.h"

#include "value-text.h"

#include <glib/gi18n.h>

#define VALUES_MAX 5

/* Which values of the state a part answers with; values of a cylinder are told from the least to the greatest. */
static const struct {
  const char *values[VALUES_MAX];
  const char *cylinder_values[VALUES_MAX];
} answers[SCENE_PARTS] = {
  [PART_FUNNEL] = { { "flow_area", "air_density", "ambient_pressure" } },
  [PART_PLATE] = { { "plate_lift", "air_flow", "plate_drop", "plate_force" } },
  [PART_LEVER] = { { "plate_lift", "plunger_lift", "plate_force", "plunger_force" } },
  [PART_WEIGHT] = { { NULL } },
  [PART_ROLLER] = { { "plunger_force", "plunger_lift" } },
  [PART_PLUNGER] = { { "plunger_lift", "control_pressure", "plunger_force" } },
  [PART_BARREL] = { { "system_pressure", "fuel_flow" } },
  [PART_VALVE] = { { NULL }, { "valve_opening", "slot_drop", "upper_pressure" } },
  [PART_SYSTEM_REGULATOR] = { { "system_pressure", "relief_flow", "return_pressure" } },
  [PART_ORIFICE] = { { "control_flow", "system_pressure", "control_pressure" } },
  [PART_WARMUP_REGULATOR] = { { "control_pressure", "base_pressure", "control_flow" } },
  [PART_BIMETAL] = { { "bimetal_temperature", "bimetal_force", "bimetal_deflection" } },
  [PART_LOAD_DIAPHRAGM] = { { "load_position", "load_force" } },
  [PART_NOZZLE] = { { NULL }, { "line_pressure", "flow", "lambda" } },
  [PART_SLOTS] = { { "plunger_lift" }, { "slot_opening", "flow", "slot_drop" } },
};

static void
add_line (GString *text, const char *name, const char *value)
{
  if (text->len)
    g_string_append_c (text, '\n');
  g_string_append_printf (text, "%s\t%s", name, value);
}

static void
add_state_value (GString *text, const struct scene *scene, const char *key)
{
  const struct state_value *value = state_value_find (key);
  g_autofree char *shown = NULL;

  if (!value)
    return;
  shown = value_text (state_value_get (scene->state, value), value->quantity, scene->units);
  add_line (text, gettext (value->name), shown);
}

static const struct state_value *
cylinder_value_find (const char *key)
{
  for (int i = 0; i < cylinder_value_count; i++)
    if (g_str_equal (cylinder_values[i].key, key))
      return &cylinder_values[i];
  return NULL;
}

static void
add_cylinder_value (GString *text, const struct scene *scene, const char *key)
{
  const struct state_value *value = cylinder_value_find (key);
  double least = G_MAXDOUBLE, most = -G_MAXDOUBLE;
  g_autofree char *first = NULL, *second = NULL, *range = NULL;

  if (!value || scene->state->cylinders < 1)
    return;
  for (int i = 0; i < scene->state->cylinders; i++) {
    double one = cylinder_value_get (&scene->state->cylinder[i], value);
    least = MIN (least, one);
    most = MAX (most, one);
  }
  first = value_text (least, value->quantity, scene->units);
  second = value_text (most, value->quantity, scene->units);
  /* Translators: the least and the greatest value among the cylinders. */
  range = g_str_equal (first, second) ? g_strdup (first) : g_strdup_printf (_("%s to %s"), first, second);
  add_line (text, gettext (value->name), range);
}

static void
add_balance (GString *text, const struct scene *scene)
{
  double moment = scene->car->sensor.unbalance;
  g_autofree char *shown = moment == 0 ? g_strdup (_("balanced")) : value_text (moment, QUANTITY_TORQUE, scene->units);

  add_line (text, _("Moment left by the weight"), shown);
}

char *
part_answer_values (const struct scene *scene, enum scene_part_id part)
{
  GString *text = g_string_new (NULL);

  g_return_val_if_fail ((unsigned) part < SCENE_PARTS, g_string_free (text, FALSE));
  if (scene->state->outcome != OUTCOME_SOLVED)
    return g_string_free (text, FALSE);
  if (part == PART_WEIGHT)
    add_balance (text, scene);
  for (int i = 0; i < VALUES_MAX && answers[part].values[i]; i++)
    add_state_value (text, scene, answers[part].values[i]);
  for (int i = 0; i < VALUES_MAX && answers[part].cylinder_values[i]; i++)
    add_cylinder_value (text, scene, answers[part].cylinder_values[i]);
  return g_string_free (text, FALSE);
}

char *
part_answer_sentence (const struct scene *scene, enum scene_part_id part)
{
  g_autofree char *values = part_answer_values (scene, part);
  GString *text = g_string_new (gettext (scene_parts[part].purpose));
  g_auto (GStrv) lines = g_strsplit (values, "\n", -1);

  for (char **line = lines; *line; line++) {
    g_auto (GStrv) pair = g_strsplit (*line, "\t", 2);
    if (g_strv_length (pair) == 2)
      /* Translators: name of a value and the value, for a screen reader. */
      g_string_append_printf (text, _(" %s: %s."), pair[0], pair[1]);
  }
  return g_string_free (text, FALSE);
}
