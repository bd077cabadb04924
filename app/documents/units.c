/* Factors from definitions: psi, inHg, mmHg and kgf from NIST SP 811 (2008) appendix B.8 with the exact pound, inch and
 * standard gravity; the foot is exactly 0.3048 m. Every row is held against UDUNITS-2 in tests/documents. */
#include "units.h"
#include "text.h"

#include <glib.h>

#define PSI 6894.757293168361
#define LITRE_PER_HOUR (1e-3 / 3600)

const struct unit units[] = {
  { "bar", "Bar|bars", "bar", QUANTITY_PRESSURE, 1e5, 0, 2 },
  { "kPa", "kpa|KPa", "kpa", QUANTITY_PRESSURE, 1e3, 0, 0 },
  { "psi", "PSI|psig|lbf/in2|lb/in2", "psi", QUANTITY_PRESSURE, PSI, 0, 1 },
  { "kgf/cm²", "kg/cm2|kp/cm2|at", "kgf_per_cm2", QUANTITY_PRESSURE, 98066.5, 0, 2 },
  { "mbar", "hPa|mb", "mbar", QUANTITY_PRESSURE_DIFFERENCE, 1e2, 0, 1 },
  { "kPa", "kpa|KPa", "kpa", QUANTITY_PRESSURE_DIFFERENCE, 1e3, 0, 2 },
  { "psi", "PSI|psid|lbf/in2|lb/in2", "psi", QUANTITY_PRESSURE_DIFFERENCE, PSI, 0, 3 },
  { "inHg", "\"Hg|in.Hg", "inhg", QUANTITY_PRESSURE_DIFFERENCE, 3386.389, 0, 1 },
  { "mmHg", "Torr|torr", "mmhg", QUANTITY_PRESSURE_DIFFERENCE, 133.3224, 0, 0 },
  { "mbar", "hPa|mb", "mbar", QUANTITY_PRESSURE, 1e2, 0, 0 },
  { "Pa", "pa", "pa", QUANTITY_PRESSURE, 1, 0, 0 },
  { "°C", "degC|C|°c|deg_C|celsius|Celsius", "deg_c", QUANTITY_TEMPERATURE, 1, 0, 1 },
  { "°F", "degF|F|°f|deg_F|fahrenheit|Fahrenheit", "deg_f", QUANTITY_TEMPERATURE, 5.0 / 9, -160.0 / 9, 0 },
  { "K", "kelvin|Kelvin", "k", QUANTITY_TEMPERATURE_DIFFERENCE, 1, 0, 1 },
  { "Δ°F", "delta_degF|deltaF", "delta_deg_f", QUANTITY_TEMPERATURE_DIFFERENCE, 5.0 / 9, 0, 1 },
  { "mm", "", "mm", QUANTITY_LENGTH, 1e-3, 0, 2 },
  { "µm", "um|micron", "um", QUANTITY_LENGTH, 1e-6, 0, 1 },
  { "m", "metre|meter", "m", QUANTITY_LENGTH, 1, 0, 0 },
  { "ft", "feet|foot", "ft", QUANTITY_LENGTH, 0.3048, 0, 0 },
  { "mm²", "", "mm2", QUANTITY_AREA, 1e-6, 0, 2 },
  { "cm²", "", "cm2", QUANTITY_AREA, 1e-4, 0, 2 },
  { "cm³", "ccm|cc|ml|mL", "cm3", QUANTITY_VOLUME, 1e-6, 0, 0 },
  { "l", "L|dm3|litre|liter", "l", QUANTITY_VOLUME, 1e-3, 0, 2 },
  { "g", "", "g", QUANTITY_MASS, 1e-3, 0, 1 },
  { "kg", "", "kg", QUANTITY_MASS, 1, 0, 2 },
  { "kg/h", "kg/hr", "kg_per_h", QUANTITY_MASS_FLOW, 1.0 / 3600, 0, 2 },
  { "g/s", "g/sec", "g_per_s", QUANTITY_MASS_FLOW, 1e-3, 0, 2 },
  { "l/h", "L/h|l/hr|L/hr|lph", "l_per_h", QUANTITY_VOLUME_FLOW, LITRE_PER_HOUR, 0, 2 },
  { N_("cm³ in 30 s"), "cm3 in 30 s|cm3/30s|cm3/30 s|ccm in 30 s|cc in 30 s|ml in 30 s|ccm/30s|cc/30s|ml/30s",
    "cm3_in_30_s", QUANTITY_VOLUME_FLOW,
    1e-6 / 30, 0, 0 },
  { "cm³/min", "ccm/min|cc/min|ml/min|mL/min", "cm3_per_min", QUANTITY_VOLUME_FLOW, 1e-6 / 60, 0, 1 },
  { "l/min", "L/min|lpm", "l_per_min", QUANTITY_VOLUME_FLOW, 1e-3 / 60, 0, 2 },
  { "N", "", "n", QUANTITY_FORCE, 1, 0, 2 },
  { "N·m", "Nm|N*m", "n_m", QUANTITY_TORQUE, 1, 0, 3 },
  { "N/mm", "", "n_per_mm", QUANTITY_STIFFNESS, 1e3, 0, 2 },
  { "GPa", "", "gpa", QUANTITY_MODULUS, 1e9, 0, 1 },
  { "µm/(m·K)", "um/(m*K)|um/m/K|ppm/K", "um_per_m_k", QUANTITY_EXPANSION, 1e-6, 0, 1 },
  { "kg/m³", "g/l|g/L", "kg_per_m3", QUANTITY_DENSITY, 1, 0, 2 },
  { "mm²/s", "cSt", "mm2_per_s", QUANTITY_VISCOSITY, 1e-6, 0, 3 },
  { "V", "volt|Volt|volts", "v", QUANTITY_VOLTAGE, 1, 0, 2 },
  { "A", "amp|amps|ampere", "a", QUANTITY_CURRENT, 1, 0, 2 },
  { "Ω", "ohm|Ohm|ohms", "ohm", QUANTITY_RESISTANCE, 1, 0, 2 },
  { "kΩ", "kohm|kOhm", "kohm", QUANTITY_RESISTANCE, 1e3, 0, 3 },
  { "s", "sec|second|seconds", "s", QUANTITY_TIME, 1, 0, 0 },
  { "min", "minute|minutes", "min", QUANTITY_TIME, 60, 0, 1 },
  { "h", "hr|hour|hours", "h", QUANTITY_TIME, 3600, 0, 2 },
  { "J/K", "", "j_per_k", QUANTITY_HEAT_CAPACITY, 1, 0, 1 },
  { "W/K", "", "w_per_k", QUANTITY_HEAT_CONDUCTANCE, 1, 0, 3 },
  { "bar/(l/h)", "bar*h/l", "bar_per_l_per_h", QUANTITY_LINEAR_RESISTANCE, 1e5 / LITRE_PER_HOUR, 0, 4 },
  { "bar/(l/h)²", "bar*h2/l2", "bar_per_l2_per_h2", QUANTITY_SQUARE_RESISTANCE,
    1e5 / (LITRE_PER_HOUR * LITRE_PER_HOUR), 0, 6 },
  { "(l/h)/bar", "l/h/bar|l/(h*bar)", "l_per_h_per_bar", QUANTITY_CONDUCTANCE, LITRE_PER_HOUR / 1e5, 0, 3 },
  { "A/bar", "", "a_per_bar", QUANTITY_CURRENT_PER_PRESSURE, 1e-5, 0, 2 },
  { "%/K", "", "percent_per_k", QUANTITY_TEMPERATURE_COEFFICIENT, 1e-2, 0, 2 },
  { "N·s/m", "Ns/m|N*s/m", "n_s_per_m", QUANTITY_DAMPING, 1, 0, 2 },
  { "kg·m²", "kg*m2|kgm2", "kg_m2", QUANTITY_INERTIA, 1, 0, 3 },
  { "cm³/bar", "ccm/bar|cc/bar|ml/bar", "cm3_per_bar", QUANTITY_COMPLIANCE, 1e-11, 0, 3 },
  { "W", "watt|Watt", "w", QUANTITY_POWER, 1, 0, 1 },
  { "MJ/kg", "", "mj_per_kg", QUANTITY_HEATING_VALUE, 1e6, 0, 2 },
  { "rpm", "1/min|r/min|rev/min|RPM", "rpm", QUANTITY_ANGULAR_SPEED, 3.14159265358979323846 / 30, 0, 0 },
  { "%", "percent|pct", "percent", QUANTITY_FRACTION, 1e-2, 0, 1 },
  { "1", "", "fraction", QUANTITY_FRACTION, 1, 0, 3 },
  { "", "1", "", QUANTITY_NUMBER, 1, 0, 3 },
};

const int unit_count = G_N_ELEMENTS (units);

/* Spelling that does not matter: white space, superscripts, the two micro signs, the two omegas, the multiplication
 * dot. out holds at least 64 bytes; a longer symbol is no unit. */
static bool
plain_spelling (const char *symbol, char out[64])
{
  gsize used = 0;

  for (const char *p = symbol; *p; p = g_utf8_next_char (p)) {
    gunichar c = g_utf8_get_char (p);
    if (g_unichar_isspace (c))
      continue;
    if (c == 0xb2 || c == 0xb3) /* superscript two, three */
      c = c == 0xb2 ? '2' : '3';
    else if (c == 0x3bc) /* Greek mu */
      c = 0xb5;
    else if (c == 0x2126) /* ohm sign */
      c = 0x3a9;
    else if (c == 0xb7 || c == 0x22c5) /* middle dot, dot operator */
      c = '*';
    else if (c == 0xba) /* ordinal sign typed for a degree sign */
      c = 0xb0;
    if (used + 7 > 64)
      return false;
    used += (gsize) g_unichar_to_utf8 (c, out + used);
  }
  out[used] = 0;
  return true;
}

static bool
spelled_alike (const char *plain, const char *symbol)
{
  char other[64];
  return plain_spelling (symbol, other) && g_str_equal (plain, other);
}

static bool
unit_is_called (const struct unit *unit, const char *plain)
{
  g_auto (GStrv) aliases = NULL;

  if (spelled_alike (plain, unit->symbol))
    return true;
  aliases = g_strsplit (unit->aliases, "|", -1);
  for (int i = 0; aliases[i]; i++)
    if (spelled_alike (plain, aliases[i]))
      return true;
  return false;
}

/* quantity QUANTITIES: any. */
static const struct unit *
search (const char *symbol, enum quantity quantity)
{
  char plain[64];

  if (symbol == NULL || !g_utf8_validate (symbol, -1, NULL) || !plain_spelling (symbol, plain))
    return NULL;
  for (int i = 0; i < unit_count; i++)
    if ((quantity == QUANTITIES || units[i].quantity == quantity) && unit_is_called (&units[i], plain))
      return &units[i];
  return NULL;
}

const struct unit *
unit_find (const char *symbol, enum quantity quantity)
{
  const struct unit *unit = search (symbol, quantity);

  if (unit == NULL && quantity == QUANTITY_PRESSURE_DIFFERENCE)
    unit = search (symbol, QUANTITY_PRESSURE);
  return unit;
}

char **
unit_spellings (const struct unit *unit)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) aliases = g_strsplit (unit->aliases, "|", -1);
  char plain[64];

  g_strv_builder_add (builder, unit->symbol);
  if (plain_spelling (unit->symbol, plain) && !g_str_equal (plain, unit->symbol))
    g_strv_builder_add (builder, plain);
  g_strv_builder_addv (builder, (const char **) aliases);
  return g_strv_builder_end (builder);
}

bool
unit_is_spelled (const struct unit *unit, const char *text)
{
  g_auto (GStrv) spellings = unit_spellings (unit);
  return g_strv_contains ((const char *const *) spellings, text);
}

const struct unit *
unit_any (const char *symbol)
{
  return search (symbol, QUANTITIES);
}

static const char *
shown_symbol (enum quantity quantity, const struct unit_choices *choices)
{
  static const char *const pressures[] = { "bar", "kPa", "psi" };
  static const char *const differences[] = { "mbar", "kPa", "psi" };

  switch (quantity) {
  case QUANTITY_PRESSURE:
    return pressures[choices->pressure];
  case QUANTITY_PRESSURE_DIFFERENCE:
    return differences[choices->pressure];
  case QUANTITY_TEMPERATURE:
    return choices->temperature == TEMPERATURE_IN_FAHRENHEIT ? "°F" : "°C";
  case QUANTITY_TEMPERATURE_DIFFERENCE:
    return choices->temperature == TEMPERATURE_IN_FAHRENHEIT ? "Δ°F" : "K";
  default:
    return NULL; /* the first row of the quantity */
  }
}

const struct unit *
unit_shown (enum quantity quantity, const struct unit_choices *choices)
{
  static const struct unit_choices usual = { PRESSURE_IN_BAR, TEMPERATURE_IN_CELSIUS };
  const char *symbol = shown_symbol (quantity, choices ? choices : &usual);

  for (int i = 0; i < unit_count; i++)
    if (units[i].quantity == quantity && (symbol == NULL || g_str_equal (symbol, units[i].symbol)))
      return &units[i];
  g_return_val_if_reached (&units[unit_count - 1]);
}

double
unit_to_si (const struct unit *unit, double value)
{
  return value * unit->factor + unit->offset;
}

double
unit_from_si (const struct unit *unit, double si)
{
  return (si - unit->offset) / unit->factor;
}
