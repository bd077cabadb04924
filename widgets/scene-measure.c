#include "scene-text.h"

#include <glib.h>
#include <math.h>
#include <string.h>

#define NARROW_SPACE "\u202f"
#define MINUS "\u2212"

void
text_number (double value, int decimals, char text[MEASURE_MAX])
{
  char format[16], digits[MEASURE_MAX];
  double step = pow (10, -decimals);

  if (!isfinite (value)) {
    g_strlcpy (text, "\u2013", MEASURE_MAX);
    return;
  }
  if (fabs (value) < step / 2)
    value = 0;
  g_snprintf (format, sizeof format, "%%.%df", decimals);
  g_ascii_formatd (digits, sizeof digits, format, fabs (value));
  g_snprintf (text, MEASURE_MAX, "%s%s", value < 0 ? MINUS : "", digits);
}

static void
with_unit (double value, int decimals, const char *unit, char text[MEASURE_MAX])
{
  char number[MEASURE_MAX];

  text_number (value, decimals, number);
  g_snprintf (text, MEASURE_MAX, "%s" NARROW_SPACE "%s", number, unit);
}

static void
pressure (const struct scene *scene, double si, bool difference, char text[MEASURE_MAX])
{
  enum pressure_choice choice = scene->units != NULL ? scene->units->pressure : PRESSURE_IN_BAR;

  if (choice == PRESSURE_IN_KPA)
    with_unit (si / 1e3, difference && fabs (si) < 1e4 ? 2 : difference ? 1 : 0, "kPa", text);
  else if (choice == PRESSURE_IN_PSI)
    with_unit (si / 6894.757293168, difference && fabs (si) < 1e4 ? 3 : difference ? 2 : 1, "psi", text);
  else if (difference && fabs (si) < 1e4)
    with_unit (si / 1e2, 1, "mbar", text);
  else
    with_unit (si / 1e5, difference && fabs (si) < 2e4 ? 3 : 2, "bar", text);
}

void
text_measure (const struct scene *scene, enum quantity quantity, double si, char text[MEASURE_MAX])
{
  bool fahrenheit = scene->units != NULL && scene->units->temperature == TEMPERATURE_IN_FAHRENHEIT;

  switch (quantity) {
  case QUANTITY_PRESSURE:
  case QUANTITY_PRESSURE_DIFFERENCE:
    pressure (scene, si, quantity == QUANTITY_PRESSURE_DIFFERENCE, text);
    break;
  case QUANTITY_TEMPERATURE:
    with_unit (fahrenheit ? si * 1.8 + 32 : si, 0, fahrenheit ? "°F" : "°C", text);
    break;
  case QUANTITY_LENGTH:
    with_unit (si * 1e3, 2, "mm", text);
    break;
  case QUANTITY_MASS_FLOW:
    with_unit (si * 3600, fabs (si) * 3600 < 99.95 ? 1 : 0, "kg/h", text);
    break;
  case QUANTITY_VOLUME_FLOW:
    with_unit (si * 3.6e6, fabs (si) * 3.6e6 < 9.995 ? 2 : 1, "l/h", text);
    break;
  case QUANTITY_FORCE:
    with_unit (si, 1, "N", text);
    break;
  case QUANTITY_VOLTAGE:
    with_unit (si, 1, "V", text);
    break;
  default:
    with_unit (si, 3, quantity_unit (quantity), text);
  }
}

void
text_micrometres (double si, char text[MEASURE_MAX])
{
  with_unit (si * 1e6, fabs (si) < 9.95e-6 ? 1 : 0, "µm", text);
}

void
text_ratio (double factor, char text[MEASURE_MAX])
{
  char number[MEASURE_MAX];

  text_number (factor, factor >= 10 || fabs (factor - round (factor)) < 0.01 ? 0 : 1, number);
  g_snprintf (text, MEASURE_MAX, "%s" NARROW_SPACE ":" NARROW_SPACE "1", number);
}
