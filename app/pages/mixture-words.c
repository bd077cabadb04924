#include "mixture-words.h"

#include "number-text.h"
#include "state-words.h"
#include "value-text.h"

#include <glib/gi18n.h>
#include <math.h>

#define NEAR_ONE 0.005 /* lambda this close to 1 is called neither rich nor lean */

/* The regimes in the order in which they are told. */
static const unsigned told_first[] = {
  REGIME_NO_AIR,          REGIME_NO_FUEL,     REGIME_PLATE_AT_REST, REGIME_PLATE_AT_BUFFER, REGIME_SLOT_FULL,
  REGIME_VALVE_FULLY_OPEN, REGIME_RELIEF_SHUT, REGIME_CONTROL_SHUT,  REGIME_PUMP_RELIEF,
};

#define WORDS_MOST 2

static const char *
window_words (const struct car *car, double lambda)
{
  if (lambda < car->engine.lambda_rich)
    return _("Too rich to run well");
  if (lambda > car->engine.lambda_lean)
    return _("Too lean to run well");
  if (fabs (lambda - 1) <= NEAR_ONE)
    return _("Just enough air, usable");
  return lambda < 1 ? _("Rich, in the usable window") : _("Lean, in the usable window");
}

static const char *
regime_sentence (unsigned regime)
{
  for (int i = 0; i < regime_word_count; i++)
    if (regime_words[i].regime == regime)
      return gettext (regime_words[i].sentence);
  g_return_val_if_reached ("");
}

gboolean
mixture_defined (const struct state *state)
{
  return state->outcome == OUTCOME_SOLVED && !(state->regime & (REGIME_NO_AIR | REGIME_NO_FUEL)) && state->lambda > 0;
}

char *
mixture_words (const struct car *car, const struct state *state)
{
  GString *text = g_string_new (NULL);
  int told = 0;

  if (state->outcome != OUTCOME_SOLVED) {
    g_string_append (text, gettext (outcome_text (state->outcome)));
    return g_string_free (text, FALSE);
  }
  if (mixture_defined (state))
    g_string_append (text, window_words (car, state->lambda));
  for (gsize i = 0; i < G_N_ELEMENTS (told_first) && told < WORDS_MOST; i++)
    if (state->regime & told_first[i]) {
      if (text->len)
        g_string_append (text, told == 0 ? ". " : " ");
      g_string_append (text, regime_sentence (told_first[i]));
      told++;
    }
  return g_string_free (text, FALSE);
}

static char *
condition_value (const struct conditions *conditions, const char *key, const struct unit_choices *choices)
{
  struct conditions copy = *conditions;
  const struct condition *condition = condition_find (key);

  return value_text_set (*condition_in (&copy, condition), unit_shown (condition->quantity, choices), true);
}

char *
state_sentence (const struct car *car, const struct conditions *conditions, const struct state *state,
                const struct unit_choices *choices)
{
  g_autofree char *air = condition_value (conditions, "air", choices);
  g_autofree char *coolant = condition_value (conditions, "coolant", choices);
  g_autofree char *vacuum = condition_value (conditions, "vacuum", choices);
  g_autofree char *words = mixture_words (car, state);
  g_autofree char *lambda = number_shown (state->lambda, 3);
  g_autofree char *pressure = value_text (state->control_pressure, QUANTITY_PRESSURE, choices);
  g_autofree char *lift = value_text (state->plate_lift, QUANTITY_LENGTH, choices);

  if (state->outcome != OUTCOME_SOLVED)
    return g_strdup_printf (_("Air %s, coolant %s, vacuum %s: %s"), air, coolant, vacuum, words);
  if (!mixture_defined (state))
    return g_strdup_printf (_("Air %s, coolant %s, vacuum %s: control pressure %s, plate lift %s. %s"), air, coolant,
                            vacuum, pressure, lift, words);
  return g_strdup_printf (_("Air %s, coolant %s, vacuum %s: control pressure %s, plate lift %s, lambda %s. %s"), air,
                          coolant, vacuum, pressure, lift, lambda, words);
}
