#include "number-text.h"

#include <locale.h>
#include <math.h>
#include <string.h>

static const struct {
  const char *text;
  double value;
} numbers[] = {
  { "0", 0 },
  { "3.65", 3.65 },
  { "3,65", 3.65 },
  { ",5", 0.5 },
  { ".5", 0.5 },
  { "5.", 5 },
  { "5,", 5 },
  { "1,234", 1.234 },
  { "+7", 7 },
  { "-0", -0.0 },
  { "-4", -4 },
  { "\342\210\2224", -4 },                    /* U+2212, the minus of typeset text */
  { "1e3", 1000 },
  { "1E-3", 0.001 },
  { "2e\342\210\2223", 0.002 },
  { "  42\t", 42 },
  { "\302\24042\342\200\257", 42 },           /* no-break spaces as a screen has them */
  { "007", 7 },                               /* a person may write it; JSON may not */
  { "1e308", 1e308 },
  { "4.9e-324", 4.9406564584124654e-324 },
  { "0e-999", 0 },
  { "0.000e999", 0 },
  { "0.1000000000000000055511151231257827", 0.1 },
};

static const struct {
  const char *text;
  enum number_error code;
} refused[] = {
  { "", NUMBER_ERROR_EMPTY },
  { "   ", NUMBER_ERROR_EMPTY },
  { "\302\240", NUMBER_ERROR_EMPTY },
  { "1,234.5", NUMBER_ERROR_NOT_A_NUMBER },
  { "1.234,5", NUMBER_ERROR_NOT_A_NUMBER },
  { "1.2.3", NUMBER_ERROR_NOT_A_NUMBER },
  { "1 234", NUMBER_ERROR_NOT_A_NUMBER },
  { "1'234", NUMBER_ERROR_NOT_A_NUMBER },
  { "nan", NUMBER_ERROR_NOT_A_NUMBER },
  { "inf", NUMBER_ERROR_NOT_A_NUMBER },
  { "-infinity", NUMBER_ERROR_NOT_A_NUMBER },
  { "0x10", NUMBER_ERROR_NOT_A_NUMBER },
  { "--1", NUMBER_ERROR_NOT_A_NUMBER },
  { "+-1", NUMBER_ERROR_NOT_A_NUMBER },
  { "- 1", NUMBER_ERROR_NOT_A_NUMBER },
  { ".", NUMBER_ERROR_NOT_A_NUMBER },
  { ",", NUMBER_ERROR_NOT_A_NUMBER },
  { "-", NUMBER_ERROR_NOT_A_NUMBER },
  { "e5", NUMBER_ERROR_NOT_A_NUMBER },
  { "1e", NUMBER_ERROR_NOT_A_NUMBER },
  { "1e+", NUMBER_ERROR_NOT_A_NUMBER },
  { "3.65 bar", NUMBER_ERROR_NOT_A_NUMBER },
  { "12abc", NUMBER_ERROR_NOT_A_NUMBER },
  { "1/2", NUMBER_ERROR_NOT_A_NUMBER },
  { "\331\243", NUMBER_ERROR_NOT_A_NUMBER },  /* an Arabic digit: not guessed at */
  { "\377", NUMBER_ERROR_NOT_A_NUMBER },      /* not UTF-8 */
  { "1e999", NUMBER_ERROR_RANGE },
  { "-1e999", NUMBER_ERROR_RANGE },
  { "1e-999", NUMBER_ERROR_RANGE },
  { "00000000000000000000000000000000000000000000000000000000000000001", NUMBER_ERROR_NOT_A_NUMBER },
};

static void
test_read (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++) {
    g_autoptr (GError) error = NULL;
    double value = 12345;
    g_test_message ("row %zu", i);
    g_assert_true (number_parse (numbers[i].text, &value, &error));
    g_assert_no_error (error);
    g_assert_cmpfloat (value, ==, numbers[i].value);
    g_assert_cmpint (signbit (value) != 0, ==, signbit (numbers[i].value) != 0);
  }
}

static void
test_refuse (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++) {
    g_autoptr (GError) error = NULL;
    double value = 12345;
    g_test_message ("row %zu", i);
    g_assert_false (number_parse (refused[i].text, &value, &error));
    g_assert_error (error, NUMBER_ERROR, (int) refused[i].code);
    g_assert_cmpfloat (value, ==, 12345);
  }
}

static const struct {
  const char *text;
  enum quantity quantity;
  const char *fallback, *unit;
  double si;
} measures[] = {
  { "52 psi", QUANTITY_PRESSURE, "bar", "psi", 52 * 6894.757293168361 },
  { "3,75", QUANTITY_PRESSURE, "bar", "bar", 375000 },
  { "3.75bar", QUANTITY_PRESSURE, "psi", "bar", 375000 },
  { "-4 °C", QUANTITY_TEMPERATURE, "°F", "°C", -4 },
  { "\342\210\2224\342\200\257°C", QUANTITY_TEMPERATURE, NULL, "°C", -4 },
  { "68 F", QUANTITY_TEMPERATURE, "°C", "°F", 20 },
  { "900 cm3 in 30 s", QUANTITY_VOLUME_FLOW, NULL, "cm³ in 30 s", 3e-5 },
  { "900 cm3/30s", QUANTITY_VOLUME_FLOW, NULL, "cm³ in 30 s", 3e-5 },
  { "500 mbar", QUANTITY_PRESSURE_DIFFERENCE, "bar", "mbar", 50000 },
  { "0.5 bar", QUANTITY_PRESSURE_DIFFERENCE, NULL, "bar", 50000 },
  { "2 min", QUANTITY_TIME, "s", "min", 120 },
  { "3 %", QUANTITY_FRACTION, NULL, "%", 0.03 },
  { "21 Ohm", QUANTITY_RESISTANCE, NULL, "Ω", 21 },
  { "1.8 mm", QUANTITY_LENGTH, NULL, "mm", 0.0018 },
};

static void
test_measures (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (measures); i++) {
    const struct unit *fallback = measures[i].fallback ? unit_find (measures[i].fallback, measures[i].quantity) : NULL;
    const struct unit *unit = NULL;
    g_autoptr (GError) error = NULL;
    double si = 0;
    g_test_message ("“%s”", measures[i].text);
    g_assert_true (measure_parse (measures[i].text, measures[i].quantity, fallback, &si, &unit, &error));
    g_assert_cmpstr (unit->symbol, ==, measures[i].unit);
    g_assert_cmpfloat_with_epsilon (si, measures[i].si, 1e-12 * fabs (measures[i].si) + 1e-12);
  }
}

static void
test_measures_refused (void)
{
  static const struct {
    const char *text;
    enum quantity quantity;
    enum number_error code;
  } bad[] = {
    { "3.75 V", QUANTITY_PRESSURE, NUMBER_ERROR_WRONG_UNIT },
    { "20 °C", QUANTITY_TEMPERATURE_DIFFERENCE, NUMBER_ERROR_WRONG_UNIT },
    { "20 K", QUANTITY_TEMPERATURE, NUMBER_ERROR_WRONG_UNIT },
    { "15 inHg", QUANTITY_PRESSURE, NUMBER_ERROR_WRONG_UNIT },
    { "3.75 barrels", QUANTITY_PRESSURE, NUMBER_ERROR_UNKNOWN_UNIT },
    { "3.75 BAR", QUANTITY_PRESSURE, NUMBER_ERROR_UNKNOWN_UNIT },
    { "3.75", QUANTITY_PRESSURE, NUMBER_ERROR_UNKNOWN_UNIT }, /* no unit and none to fall back on */
    { "1,234.5 bar", QUANTITY_PRESSURE, NUMBER_ERROR_NOT_A_NUMBER },
    { "bar", QUANTITY_PRESSURE, NUMBER_ERROR_NOT_A_NUMBER },
    { "", QUANTITY_PRESSURE, NUMBER_ERROR_EMPTY },
    { "1e306 bar", QUANTITY_PRESSURE, NUMBER_ERROR_RANGE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autoptr (GError) error = NULL;
    double si = 7;
    g_test_message ("“%s”", bad[i].text);
    g_assert_false (measure_parse (bad[i].text, bad[i].quantity, NULL, &si, NULL, &error));
    g_assert_error (error, NUMBER_ERROR, (int) bad[i].code);
    g_assert_cmpfloat (si, ==, 7);
  }
}

static void
test_shortest (void)
{
  static const struct {
    double value;
    const char *text;
  } rows[] = {
    { 0, "0" },           { -0.0, "-0.0" },         { 3.65, "3.65" },       { 0.1, "0.1" },
    { 100000, "100000" }, { 485000, "485000" },     { 0.00005, "0.00005" }, { 1.667e-11, "1.667e-11" },
    { 1e22, "1e22" },     { -2.5, "-2.5" },         { 9e9, "9000000000" },  { 1.0 / 3, "0.3333333333333333" },
    { 120, "120" },       { 123456.789, "123456.789" },
  };
  GRand *random = g_rand_new_with_seed (20261125);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree char *text = number_shortest (rows[i].value);
    g_assert_cmpstr (text, ==, rows[i].text);
  }
  for (int i = 0; i < 20000; i++) {
    union {
      guint32 words[2];
      double value;
    } bits = { { g_rand_int (random), g_rand_int (random) } };
    if (!isfinite (bits.value))
      continue;
    g_autofree char *text = number_shortest (bits.value);
    g_assert_cmpfloat (g_ascii_strtod (text, NULL), ==, bits.value);
  }
  g_rand_free (random);
}

static void
test_shown (void)
{
  static const struct {
    double value;
    int decimals;
    const char *text;
  } rows[] = {
    { 3.75, 2, "3.75" },  { -0.001, 2, "0.00" },   { -1.5, 1, "\342\210\2221.5" },
    { NAN, 2, "\342\200\223" }, { INFINITY, 2, "\342\200\223" }, { 0, 0, "0" }, { -0.0, 1, "0.0" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree char *text = number_shown (rows[i].value, rows[i].decimals);
    g_assert_cmpstr (text, ==, rows[i].text);
  }
}

static void
test_shown_with_unit (void)
{
  const struct unit *bar = unit_find ("bar", QUANTITY_PRESSURE);
  const struct unit *none = unit_find ("", QUANTITY_NUMBER);
  g_autofree char *shown = measure_shown (375000, bar, TRUE);
  g_autofree char *bare = measure_shown (375000, bar, FALSE);
  g_autofree char *lambda = measure_shown (0.985, none, TRUE);
  g_autofree char *absent = measure_shown (NAN, bar, TRUE);
  double si = 0;

  g_assert_cmpstr (shown, ==, "3.75\342\200\257bar");
  g_assert_cmpstr (bare, ==, "3.75");
  g_assert_cmpstr (lambda, ==, "0.985");
  g_assert_cmpstr (absent, ==, "\342\200\223");
  g_assert_true (measure_parse (shown, QUANTITY_PRESSURE, NULL, &si, NULL, NULL)); /* what is shown can be pasted */
  g_assert_cmpfloat (si, ==, 375000);
}

/* A person's text and unit are the truth: whatever unit is chosen for the screen, they come back as they were. */
static void
test_choices_leave_typed_text (void)
{
  GRand *random = g_rand_new_with_seed (7);
  static const char *const symbols[] = { "bar", "kPa", "psi" };

  for (int i = 0; i < 10000; i++) {
    g_autofree char *typed = g_strdup_printf ("%.2f", g_rand_int_range (random, 0, 8000) / 100.0);
    g_autofree char *before = g_strdup (typed);
    const struct unit *unit = unit_find (symbols[g_rand_int_range (random, 0, 3)], QUANTITY_PRESSURE);
    double si = 0, again = 0;
    g_assert_true (measure_parse (typed, QUANTITY_PRESSURE, unit, &si, NULL, NULL));
    for (int j = 0; j < 3; j++) {
      struct unit_choices choices = { (enum pressure_choice) g_rand_int_range (random, 0, 3), TEMPERATURE_IN_CELSIUS };
      g_autofree char *shown = measure_shown (si, unit_shown (QUANTITY_PRESSURE, &choices), TRUE);
      g_assert_nonnull (shown);
    }
    g_assert_cmpstr (typed, ==, before);
    g_assert_true (measure_parse (typed, QUANTITY_PRESSURE, unit, &again, NULL, NULL));
    g_assert_cmpfloat (si, ==, again);
    g_assert_cmpfloat_with_epsilon (unit_to_si (unit, unit_from_si (unit, si)), si, 1e-9);
  }
  g_rand_free (random);
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "C.UTF-8");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/documents/number-text/read", test_read);
  g_test_add_func ("/documents/number-text/refuse", test_refuse);
  g_test_add_func ("/documents/number-text/measures", test_measures);
  g_test_add_func ("/documents/number-text/measures-refused", test_measures_refused);
  g_test_add_func ("/documents/number-text/shortest", test_shortest);
  g_test_add_func ("/documents/number-text/shown", test_shown);
  g_test_add_func ("/documents/number-text/shown-with-unit", test_shown_with_unit);
  g_test_add_func ("/documents/number-text/choices-leave-typed-text", test_choices_leave_typed_text);
  return g_test_run ();
}
