#include "mixture-report.h"

#include "command-line.h"
#include "fault-words.h"
#include "json-writer.h"
#include "number-text.h"
#include "parameter.h"
#include "state-words.h"
#include "text-table.h"
#include "units.h"

#include <glib/gi18n.h>
#include <math.h>

/* What a workshop reads of a state, in this order. */
struct report_value {
  const char *state_key;
  const char *unit_symbol;
  const char *json_key;
  int decimals;
};

static const struct report_value report_values[] = {
  { "lambda", "", "lambda", 3 },
  { "air_fuel_ratio", "", "air_fuel_ratio", 2 },
  { "plate_lift", "mm", "plate_lift_mm", 2 },
  { "plunger_lift", "mm", "plunger_lift_mm", 3 },
  { "control_pressure", "bar", "control_pressure_bar", 2 },
  { "system_pressure", "bar", "system_pressure_bar", 2 },
  { "fuel_flow", "kg/h", "fuel_kg_per_h", 3 },
  { "fuel_volume_flow", "l/h", "fuel_l_per_h", 3 },
};

struct residual_value {
  const char *key;
  gsize offset;
  const char *name;
};

static const struct residual_value residual_values[] = {
  { "plate_moment", G_STRUCT_OFFSET (struct residuals, plate_moment), N_("Moments about the pivot") },
  { "air", G_STRUCT_OFFSET (struct residuals, air), N_("Air past the plate") },
  { "control", G_STRUCT_OFFSET (struct residuals, control), N_("Control circuit") },
  { "cylinder", G_STRUCT_OFFSET (struct residuals, cylinder), N_("Slots and valves, the worst") },
  { "fuel", G_STRUCT_OFFSET (struct residuals, fuel), N_("Fuel in and out") },
};

static gboolean
has_mixture (const struct state *state)
{
  return state->outcome == OUTCOME_SOLVED && (state->regime & (REGIME_NO_FUEL | REGIME_NO_AIR)) == 0;
}

/* Ratios are not defined without a mixture; NaN then. */
static double
state_get (const struct state *state, const struct state_value *value)
{
  gboolean ratio = g_str_equal (value->key, "lambda") || g_str_equal (value->key, "air_fuel_ratio");

  return ratio && !has_mixture (state) ? NAN : state_value_get (state, value);
}

static double
cylinder_get (const struct cylinder_state *cylinder, const struct state_value *value)
{
  return g_str_equal (value->key, "lambda") && !(cylinder->lambda > 0) ? NAN : cylinder_value_get (cylinder, value);
}

/* NaN where the value is not defined. */
static double
report_value_get (const struct state *state, const struct report_value *row)
{
  const struct state_value *value = state_value_find (row->state_key);

  g_return_val_if_fail (value != NULL, NAN);
  if (state->outcome != OUTCOME_SOLVED)
    return NAN;
  return unit_from_si (unit_find (row->unit_symbol, value->quantity), state_get (state, value));
}

static double
residual_get (const struct state *state, const struct residual_value *row)
{
  return G_STRUCT_MEMBER (double, &state->residual, row->offset);
}

static double
condition_get (const struct conditions *conditions, const struct condition *condition)
{
  struct conditions copy = *conditions;

  return *condition_in (&copy, condition);
}

static void
text_conditions (GString *text, const struct conditions *conditions)
{
  for (int i = 0; i < condition_count; i++)
    {
      const struct condition *condition = &condition_table[i];
      g_autofree char *shown = condition_shown (condition, condition_get (conditions, condition));

      g_string_append_printf (text, "%s%s %s", i == 0 ? "" : i % 3 == 0 ? ",\n" : ", ", _(condition->name), shown);
    }
  g_string_append (text, "\n\n");
}

static void
text_values (GString *text, const struct state *state)
{
  struct text_table *table = text_table_new ("ldl");
  const struct unit *flow = unit_find ("l/h", QUANTITY_VOLUME_FLOW);

  for (gsize i = 0; i < G_N_ELEMENTS (report_values); i++)
    {
      const struct report_value *row = &report_values[i];
      g_autofree char *number = number_shown (report_value_get (state, row), row->decimals);

      text_table_row (table, _(state_value_find (row->state_key)->name), number, row->unit_symbol, NULL);
    }
  for (int i = 0; i < state->cylinders; i++)
    {
      g_autofree char *name = g_strdup_printf (_("Cylinder %d, fuel flow"), i + 1);
      g_autofree char *number = number_shown (unit_from_si (flow, state->cylinder[i].flow), 3);

      text_table_row (table, name, number, flow->symbol, NULL);
    }
  text_table_end (table, text);
}

static void
text_words (GString *text, const struct state *state)
{
  gboolean first = TRUE;

  for (int i = 0; i < regime_word_count; i++)
    if (state->regime & regime_words[i].regime)
      {
        g_string_append_printf (text, "%s%s\n", first ? "\n" : "", _(regime_words[i].sentence));
        first = FALSE;
      }
}

/* si is NaN where the value is not defined. */
static void
text_measure_row (struct text_table *table, const char *name, double si, enum quantity quantity)
{
  const struct unit *unit = unit_shown (quantity, NULL);
  g_autofree char *number = isfinite (si) ? g_strdup_printf ("%.6g", unit_from_si (unit, si)) : g_strdup ("–");

  text_table_row (table, name, number, unit->symbol, NULL);
}

static void
text_all (GString *text, const struct state *state)
{
  struct text_table *table = text_table_new ("ldl");

  g_string_append_printf (text, "\n%s\n", _("Every value of the model"));
  for (int i = 0; i < state_value_count; i++)
    text_measure_row (table, _(state_values[i].name), state_get (state, &state_values[i]), state_values[i].quantity);
  for (int cylinder = 0; cylinder < state->cylinders; cylinder++)
    for (int i = 0; i < cylinder_value_count; i++)
      {
        g_autofree char *name = g_strdup_printf (_("Cylinder %d: %s"), cylinder + 1, _(cylinder_values[i].name));

        text_measure_row (table, name, cylinder_get (&state->cylinder[cylinder], &cylinder_values[i]),
                          cylinder_values[i].quantity);
      }
  text_table_end (table, text);

  table = text_table_new ("lr");
  g_string_append_printf (text, "\n%s\n", _("How well each equation is met (relative defect)"));
  for (gsize i = 0; i < G_N_ELEMENTS (residual_values); i++)
    {
      g_autofree char *number = g_strdup_printf ("%.1e", residual_get (state, &residual_values[i]));

      text_table_row (table, _(residual_values[i].name), number, NULL);
    }
  text_table_end (table, text);
}

char *
mixture_report_text (const struct vehicle *vehicle, const struct conditions *conditions, const struct state *state,
                     const GArray *faults, gboolean all)
{
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, "%s\n", vehicle->name);
  if (faults->len > 0)
    {
      g_autofree char *shown = fault_words_shown (faults);

      g_string_append_printf (text, _("Faults: %s\n"), shown);
    }
  text_conditions (text, conditions);
  if (state->outcome != OUTCOME_SOLVED)
    {
      g_string_append_printf (text, "%s\n", _(outcome_text (state->outcome)));
      return g_string_free (text, FALSE);
    }
  text_values (text, state);
  text_words (text, state);
  if (all)
    text_all (text, state);
  return g_string_free (text, FALSE);
}

static char *
si_key (const char *key, enum quantity quantity)
{
  const char *suffix = quantity_key_suffix (quantity);

  return *suffix == '\0' ? g_strdup (key) : g_strconcat (key, "_", suffix, NULL);
}

static void
json_si (struct json_writer *json, const char *key, enum quantity quantity, double si)
{
  g_autofree char *full = si_key (key, quantity);

  json_writer_number (json, full, si);
}

static void
json_conditions (struct json_writer *json, const struct conditions *conditions)
{
  for (int i = 0; i < condition_count; i++)
    {
      const struct condition *condition = &condition_table[i];
      const struct condition_words *words = condition_words_find (condition->key);
      const struct unit *unit = unit_find (words->unit_symbol, condition->quantity);

      json_writer_number (json, words->json_key, unit_from_si (unit, condition_get (conditions, condition)));
    }
}

static void
json_values (struct json_writer *json, const struct state *state)
{
  const struct unit *flow = unit_find ("l/h", QUANTITY_VOLUME_FLOW);

  for (gsize i = 0; i < G_N_ELEMENTS (report_values); i++)
    json_writer_number (json, report_values[i].json_key, report_value_get (state, &report_values[i]));
  json_writer_begin_array_inline (json, "cylinder_flow_l_per_h");
  for (int i = 0; state->outcome == OUTCOME_SOLVED && i < state->cylinders; i++)
    json_writer_number (json, NULL, unit_from_si (flow, state->cylinder[i].flow));
  json_writer_end (json);
  json_writer_begin_array_inline (json, "regime");
  for (int i = 0; i < regime_word_count; i++)
    if (state->regime & regime_words[i].regime)
      json_writer_text (json, NULL, regime_words[i].key);
  json_writer_end (json);
}

static void
json_state (struct json_writer *json, const struct state *state)
{
  json_writer_begin_object (json, "state");
  for (int i = 0; i < state_value_count; i++)
    json_si (json, state_values[i].key, state_values[i].quantity, state_get (state, &state_values[i]));
  json_writer_end (json);

  json_writer_begin_array (json, "cylinders");
  for (int cylinder = 0; cylinder < state->cylinders; cylinder++)
    {
      json_writer_begin_object (json, NULL);
      for (int i = 0; i < cylinder_value_count; i++)
        json_si (json, cylinder_values[i].key, cylinder_values[i].quantity,
                 cylinder_get (&state->cylinder[cylinder], &cylinder_values[i]));
      json_writer_end (json);
    }
  json_writer_end (json);

  json_writer_begin_object (json, "residuals");
  for (gsize i = 0; i < G_N_ELEMENTS (residual_values); i++)
    json_writer_number (json, residual_values[i].key, residual_get (state, &residual_values[i]));
  json_writer_end (json);
}

static void
json_parameters (struct json_writer *json, const struct car *car)
{
  const char *group = NULL;

  json_writer_begin_object (json, "parameters");
  json_writer_number (json, "cylinders", car->cylinders);
  json_writer_text (json, "plate_direction", car->direction == PLATE_LIFTED ? "lifted" : "pressed-down");
  for (int i = 0; i < parameter_count; i++)
    {
      const struct parameter *parameter = &parameters[i];
      g_autofree char *key = si_key (parameter->key, parameter->quantity);

      if (group == NULL || !g_str_equal (group, parameter->group))
        {
          if (group != NULL)
            json_writer_end (json);
          group = parameter->group;
          json_writer_begin_object (json, group);
        }
      if (parameter->many == ONE)
        {
          json_writer_number (json, key, parameter_get (car, parameter, 0));
          continue;
        }
      json_writer_begin_array_inline (json, key);
      for (int index = 0; index < parameter_values (car, parameter); index++)
        json_writer_number (json, NULL, parameter_get (car, parameter, index));
      json_writer_end (json);
    }
  if (group != NULL)
    json_writer_end (json);
  json_writer_end (json);
}

static void
json_faults (struct json_writer *json, const GArray *faults)
{
  json_writer_begin_array (json, "faults");
  for (guint i = 0; i < faults->len; i++)
    {
      const struct fault_dose *dose = &g_array_index (faults, struct fault_dose, i);

      json_writer_begin_object_inline (json, NULL);
      json_writer_text (json, "fault", dose->fault->key);
      json_writer_number (json, "severity", dose->severity);
      if (dose->fault->one_cylinder)
        json_writer_number (json, "cylinder", dose->cylinder + 1);
      json_writer_end (json);
    }
  json_writer_end (json);
}

char *
mixture_report_json (const struct vehicle *vehicle, const struct conditions *conditions, const struct state *state,
                     const GArray *faults, gboolean all)
{
  struct json_writer *json = json_writer_new ();

  json_writer_begin_object (json, NULL);
  json_writer_text (json, "car", vehicle->key);
  json_writer_text (json, "car_name", vehicle->name);
  json_writer_text (json, "outcome", outcome_key (state->outcome));
  json_faults (json, faults);
  json_conditions (json, conditions);
  json_values (json, state);
  if (all)
    {
      json_writer_begin_object (json, "conditions");
      for (int i = 0; i < condition_count; i++)
        json_si (json, condition_table[i].key, condition_table[i].quantity,
                 condition_get (conditions, &condition_table[i]));
      json_writer_end (json);
      if (state->outcome == OUTCOME_SOLVED)
        json_state (json, state);
      json_parameters (json, &vehicle->car);
    }
  json_writer_end (json);
  return json_writer_finish (json);
}
