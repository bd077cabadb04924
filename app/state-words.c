#include "state-words.h"

#include "text.h"

#include <glib.h>

const struct regime_word regime_words[] = {
  { REGIME_PLATE_AT_REST, "plate-at-rest", N_("The air does not lift the plate: it rests on its stop.") },
  { REGIME_PLATE_AT_BUFFER, "plate-at-buffer", N_("The plate stands against its buffer.") },
  { REGIME_NO_FUEL, "no-fuel", N_("No cylinder gets fuel: there is no mixture.") },
  { REGIME_NO_AIR, "no-air", N_("No air flows: there is no mixture.") },
  { REGIME_CONTROL_SHUT, "control-shut",
    N_("Nothing flows in the control circuit: the control pressure is the system pressure.") },
  { REGIME_RELIEF_SHUT, "relief-shut",
    N_("The system pressure regulator returns nothing: all that the pump delivers is used.") },
  { REGIME_VALVE_FULLY_OPEN, "valve-fully-open",
    N_("A pressure-difference valve is at the end of its travel and no longer holds its difference.") },
  { REGIME_PUMP_RELIEF, "pump-relief-open", N_("The pump's own relief valve is open.") },
  { REGIME_SLOT_FULL, "slot-full", N_("A slot is open over its whole height: more lift gives no more fuel.") },
  { REGIME_PLUNGER_DOWN, "plunger-down", N_("The plunger sits on its lower stop: the slots are shut.") },
};
const int regime_word_count = G_N_ELEMENTS (regime_words);

static const char *const quantity_suffixes[QUANTITIES] = {
  [QUANTITY_NUMBER] = "",
  [QUANTITY_FRACTION] = "fraction",
  [QUANTITY_PRESSURE] = "pa",
  [QUANTITY_PRESSURE_DIFFERENCE] = "pa",
  [QUANTITY_TEMPERATURE] = "deg_c",
  [QUANTITY_TEMPERATURE_DIFFERENCE] = "k",
  [QUANTITY_LENGTH] = "m",
  [QUANTITY_AREA] = "m2",
  [QUANTITY_VOLUME] = "m3",
  [QUANTITY_MASS] = "kg",
  [QUANTITY_MASS_FLOW] = "kg_per_s",
  [QUANTITY_VOLUME_FLOW] = "m3_per_s",
  [QUANTITY_FORCE] = "n",
  [QUANTITY_TORQUE] = "n_m",
  [QUANTITY_STIFFNESS] = "n_per_m",
  [QUANTITY_MODULUS] = "pa",
  [QUANTITY_EXPANSION] = "per_k",
  [QUANTITY_DENSITY] = "kg_per_m3",
  [QUANTITY_VISCOSITY] = "m2_per_s",
  [QUANTITY_VOLTAGE] = "v",
  [QUANTITY_CURRENT] = "a",
  [QUANTITY_RESISTANCE] = "ohm",
  [QUANTITY_TIME] = "s",
  [QUANTITY_HEAT_CAPACITY] = "j_per_k",
  [QUANTITY_HEAT_CONDUCTANCE] = "w_per_k",
  [QUANTITY_LINEAR_RESISTANCE] = "pa_s_per_m3",
  [QUANTITY_SQUARE_RESISTANCE] = "pa_s2_per_m6",
  [QUANTITY_CONDUCTANCE] = "m3_per_s_pa",
  [QUANTITY_CURRENT_PER_PRESSURE] = "a_per_pa",
  [QUANTITY_TEMPERATURE_COEFFICIENT] = "per_k",
  [QUANTITY_DAMPING] = "n_s_per_m",
  [QUANTITY_INERTIA] = "kg_m2",
  [QUANTITY_COMPLIANCE] = "m3_per_pa",
  [QUANTITY_POWER] = "w",
  [QUANTITY_HEATING_VALUE] = "j_per_kg",
  [QUANTITY_ANGULAR_SPEED] = "rad_per_s",
};

const char *
outcome_key (enum outcome outcome)
{
  switch (outcome)
    {
    case OUTCOME_SOLVED:
      return "solved";
    case OUTCOME_BAD_CAR:
      return "bad-car";
    case OUTCOME_BAD_CONDITIONS:
      return "bad-conditions";
    case OUTCOME_TOO_MUCH_AIR:
      return "too-much-air";
    case OUTCOME_NOT_FOUND:
      return "not-found";
    }
  g_return_val_if_reached ("not-found");
}

const char *
quantity_key_suffix (enum quantity quantity)
{
  const char *suffix = quantity < QUANTITIES ? quantity_suffixes[quantity] : NULL;

  g_return_val_if_fail (suffix != NULL, "");
  return suffix;
}
