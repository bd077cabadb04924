#include "units.h"

#include <glib.h>

#include <math.h>
#include <string.h>
#ifdef HAVE_UDUNITS
#include <udunits2.h>
#endif

/* Every row against UDUNITS-2 2.2.28 (Unidata), an independent table. Its own spelling of each of our units, and of the
 * SI unit of the quantity; "C" is coulomb and "PS" a peta unit there, so none of our aliases is handed to it. */
static const struct {
  const char *symbol, *theirs, *si;
} rows[] = {
  { "bar", "bar", "Pa" },
  { "kPa", "kPa", "Pa" },
  { "psi", "psi", "Pa" },
  { "kgf/cm²", "kgf/cm^2", "Pa" },
  { "mbar", "mbar", "Pa" },
  { "Pa", "Pa", "Pa" },
  { "inHg", "inHg", "Pa" },
  { "mmHg", "mmHg", "Pa" },
  { "°C", "degC", "degC" },
  { "°F", "degF", "degC" },
  { "K", "K", "K" },
  { "Δ°F", "0.555555555555555555 K", "K" },
  { "mm", "mm", "m" },
  { "µm", "um", "m" },
  { "m", "m", "m" },
  { "ft", "ft", "m" },
  { "mm²", "mm^2", "m^2" },
  { "cm²", "cm^2", "m^2" },
  { "cm³", "cm^3", "m^3" },
  { "l", "litre", "m^3" },
  { "g", "g", "kg" },
  { "kg", "kg", "kg" },
  { "kg/h", "kg/hour", "kg/s" },
  { "g/s", "g/s", "kg/s" },
  { "l/h", "litre/hour", "m^3/s" },
  { "cm³ in 30 s", "cm^3/(30 s)", "m^3/s" },
  { "cm³/min", "cm^3/min", "m^3/s" },
  { "l/min", "litre/min", "m^3/s" },
  { "N", "N", "kg m s^-2" },
  { "N·m", "N m", "kg m^2 s^-2" },
  { "N/mm", "N/mm", "N/m" },
  { "GPa", "GPa", "Pa" },
  { "µm/(m·K)", "um/m/K", "K^-1" },
  { "kg/m³", "kg/m^3", "kg/m^3" },
  { "mm²/s", "mm^2/s", "m^2/s" },
  { "V", "V", "V" },
  { "A", "A", "A" },
  { "Ω", "ohm", "ohm" },
  { "kΩ", "kohm", "ohm" },
  { "s", "s", "s" },
  { "min", "min", "s" },
  { "h", "hour", "s" },
  { "J/K", "J/K", "J/K" },
  { "W/K", "W/K", "W/K" },
  { "bar/(l/h)", "bar/(litre/hour)", "Pa s m^-3" },
  { "bar/(l/h)²", "bar/(litre/hour)^2", "Pa s^2 m^-6" },
  { "(l/h)/bar", "litre/hour/bar", "m^3 s^-1 Pa^-1" },
  { "A/bar", "A/bar", "A/Pa" },
  { "%/K", "0.01 K^-1", "K^-1" },
  { "N·s/m", "N s/m", "N s/m" },
  { "kg·m²", "kg m^2", "kg m^2" },
  { "cm³/bar", "cm^3/bar", "m^3/Pa" },
  { "W", "W", "W" },
  { "MJ/kg", "MJ/kg", "J/kg" },
  { "rpm", "rpm", "rad/s" },
  { "%", "percent", "1" },
  { "1", "1", "1" },
  { "", "1", "1" },
};

static gsize
row_of (const struct unit *unit)
{
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    if (g_str_equal (rows[i].symbol, unit->symbol))
      return i;
  g_error ("no row for “%s”", unit->symbol);
}

static void
test_factors (void)
{
#ifdef HAVE_UDUNITS
  ut_system *system;

  ut_set_error_message_handler (ut_ignore);
  system = ut_read_xml (NULL);
  g_assert_nonnull (system);
  for (int i = 0; i < unit_count; i++) {
    gsize row = row_of (&units[i]);
    ut_unit *theirs = ut_parse (system, rows[row].theirs, UT_UTF8);
    ut_unit *si = ut_parse (system, rows[row].si, UT_UTF8);
    cv_converter *converter;
    g_test_message ("“%s”", units[i].symbol);
    g_assert_nonnull (theirs);
    g_assert_nonnull (si);
    converter = ut_get_converter (theirs, si);
    g_assert_nonnull (converter);
    for (double value = -40; value < 1000; value += 37.25) {
      double expected = cv_convert_double (converter, value);
      double ours = unit_to_si (&units[i], value);
      /* The two mercury columns and psi are given to seven figures in either table. */
      g_assert_cmpfloat_with_epsilon (ours, expected, 2e-7 * fabs (expected) + 1e-12);
      if (!strstr (units[i].symbol, "Hg") && !g_str_equal (units[i].symbol, "psi"))
        g_assert_cmpfloat_with_epsilon (ours, expected, 1e-13 * fabs (expected) + 1e-13);
    }
    cv_free (converter);
    ut_free (theirs);
    ut_free (si);
  }
  ut_free_system (system);
#else
  g_test_skip ("built without UDUNITS-2");
#endif
}

static void
test_psi_exactly (void)
{
  /* Pound 0.45359237 kg, inch 0.0254 m (international yard and pound agreement, 1959), g 9.80665 m/s2 (3rd CGPM). */
  double psi = 0.45359237 * 9.80665 / (0.0254 * 0.0254);
  g_assert_cmpfloat_with_epsilon (unit_find ("psi", QUANTITY_PRESSURE)->factor, psi, 1e-9);
}

static void
test_every_quantity_is_shown (void)
{
  static const struct unit_choices choices[] = {
    { PRESSURE_IN_BAR, TEMPERATURE_IN_CELSIUS },
    { PRESSURE_IN_KPA, TEMPERATURE_IN_FAHRENHEIT },
    { PRESSURE_IN_PSI, TEMPERATURE_IN_CELSIUS },
  };

  for (int quantity = 0; quantity < QUANTITIES; quantity++)
    for (gsize i = 0; i < G_N_ELEMENTS (choices); i++) {
      const struct unit *unit = unit_shown ((enum quantity) quantity, &choices[i]);
      g_assert_nonnull (unit);
      g_assert_cmpint (unit->quantity, ==, quantity);
    }
  g_assert_cmpstr (unit_shown (QUANTITY_PRESSURE, &choices[0])->symbol, ==, "bar");
  g_assert_cmpstr (unit_shown (QUANTITY_PRESSURE, &choices[1])->symbol, ==, "kPa");
  g_assert_cmpstr (unit_shown (QUANTITY_PRESSURE, &choices[2])->symbol, ==, "psi");
  g_assert_cmpstr (unit_shown (QUANTITY_TEMPERATURE, &choices[1])->symbol, ==, "°F");
  g_assert_cmpstr (unit_shown (QUANTITY_TEMPERATURE_DIFFERENCE, &choices[0])->symbol, ==, "K");
  g_assert_cmpstr (unit_shown (QUANTITY_VOLUME_FLOW, &choices[0])->key, ==, "l_per_h");
  g_assert_cmpstr (unit_shown (QUANTITY_MASS_FLOW, NULL)->key, ==, "kg_per_h");
}

static void
test_found_by_every_name (void)
{
  for (int i = 0; i < unit_count; i++) {
    g_auto (GStrv) names = g_strsplit (units[i].aliases, "|", -1);
    g_assert_true (unit_find (units[i].symbol, units[i].quantity) == &units[i]);
    for (int j = 0; names[j]; j++)
      g_assert_true (unit_find (names[j], units[i].quantity) == &units[i]);
  }
}

static void
test_spellings (void)
{
  static const struct {
    const char *text;
    enum quantity quantity;
    const char *symbol; /* NULL: none */
  } texts[] = {
    { "cm3 in 30s", QUANTITY_VOLUME_FLOW, "cm³ in 30 s" },
    { " cm³\342\200\257in\302\24030 s ", QUANTITY_VOLUME_FLOW, "cm³ in 30 s" },
    { "\316\274m", QUANTITY_LENGTH, "µm" },
    { "\342\204\246", QUANTITY_RESISTANCE, "Ω" },
    { "N⋅m", QUANTITY_TORQUE, "N·m" },
    { "Nm", QUANTITY_TORQUE, "N·m" },
    { "mm2/s", QUANTITY_VISCOSITY, "mm²/s" },
    { "C", QUANTITY_TEMPERATURE, "°C" },
    { "BAR", QUANTITY_PRESSURE, NULL },
    { "MM", QUANTITY_LENGTH, NULL },
    { "°C", QUANTITY_TEMPERATURE_DIFFERENCE, NULL },
    { "K", QUANTITY_TEMPERATURE, NULL },
    { "psi", QUANTITY_PRESSURE_DIFFERENCE, "psi" },
    { "kgf/cm2", QUANTITY_PRESSURE_DIFFERENCE, "kgf/cm²" },
    { "", QUANTITY_PRESSURE, NULL },
    { "\377", QUANTITY_PRESSURE, NULL },
    { "bar|kPa", QUANTITY_PRESSURE, NULL },
    { "a unit whose name is much longer than any unit of this closed table of units", QUANTITY_PRESSURE, NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++) {
    const struct unit *unit = unit_find (texts[i].text, texts[i].quantity);
    g_test_message ("row %zu", i);
    g_assert_cmpstr (unit ? unit->symbol : NULL, ==, texts[i].symbol);
  }
  g_assert_null (unit_any ("furlong"));
  g_assert_nonnull (unit_any ("V"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/documents/units/factors-against-udunits", test_factors);
  g_test_add_func ("/documents/units/psi-from-its-definition", test_psi_exactly);
  g_test_add_func ("/documents/units/every-quantity-is-shown", test_every_quantity_is_shown);
  g_test_add_func ("/documents/units/found-by-every-name", test_found_by_every_name);
  g_test_add_func ("/documents/units/spellings", test_spellings);
  return g_test_run ();
}
