#include "quantity.h"

static const char *const unit_texts[QUANTITIES] = {
  [QUANTITY_NUMBER] = "",
  [QUANTITY_FRACTION] = "",
  [QUANTITY_PRESSURE] = "Pa",
  [QUANTITY_PRESSURE_DIFFERENCE] = "Pa",
  [QUANTITY_TEMPERATURE] = "degC",
  [QUANTITY_TEMPERATURE_DIFFERENCE] = "K",
  [QUANTITY_LENGTH] = "m",
  [QUANTITY_AREA] = "m2",
  [QUANTITY_VOLUME] = "m3",
  [QUANTITY_MASS] = "kg",
  [QUANTITY_MASS_FLOW] = "kg/s",
  [QUANTITY_VOLUME_FLOW] = "m3/s",
  [QUANTITY_FORCE] = "N",
  [QUANTITY_TORQUE] = "N m",
  [QUANTITY_STIFFNESS] = "N/m",
  [QUANTITY_MODULUS] = "Pa",
  [QUANTITY_EXPANSION] = "1/K",
  [QUANTITY_DENSITY] = "kg/m3",
  [QUANTITY_VISCOSITY] = "m2/s",
  [QUANTITY_VOLTAGE] = "V",
  [QUANTITY_CURRENT] = "A",
  [QUANTITY_RESISTANCE] = "ohm",
  [QUANTITY_TIME] = "s",
  [QUANTITY_HEAT_CAPACITY] = "J/K",
  [QUANTITY_HEAT_CONDUCTANCE] = "W/K",
  [QUANTITY_LINEAR_RESISTANCE] = "Pa s/m3",
  [QUANTITY_SQUARE_RESISTANCE] = "Pa s2/m6",
  [QUANTITY_CONDUCTANCE] = "m3/(s Pa)",
  [QUANTITY_CURRENT_PER_PRESSURE] = "A/Pa",
  [QUANTITY_TEMPERATURE_COEFFICIENT] = "1/K",
  [QUANTITY_DAMPING] = "N s/m",
  [QUANTITY_INERTIA] = "kg m2",
  [QUANTITY_COMPLIANCE] = "m3/Pa",
  [QUANTITY_POWER] = "W",
  [QUANTITY_HEATING_VALUE] = "J/kg",
  [QUANTITY_ANGULAR_SPEED] = "rad/s",
};

const char *
quantity_unit (enum quantity quantity)
{
  return (unsigned) quantity < QUANTITIES ? unit_texts[quantity] : "";
}
