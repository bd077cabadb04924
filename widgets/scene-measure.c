#include "scene-text.h"

#include "number-text.h"

#include <glib.h>
#include <math.h>

#define NARROW_SPACE "\u202f"

void
text_number (double value, int decimals, char text[MEASURE_MAX])
{
  g_autofree char *number = number_shown (value, decimals);

  g_strlcpy (text, number, MEASURE_MAX);
}

/* Decimals for a drawing: what can be read off at a glance, not what a document keeps. */
static int
decimals (const struct unit *unit, double value)
{
  switch (unit->quantity) {
  case QUANTITY_TEMPERATURE:
    return 0;
  case QUANTITY_FORCE:
    return 1;
  case QUANTITY_PRESSURE_DIFFERENCE:
    return fabs (value) >= 100 ? 0 : unit->decimals;
  case QUANTITY_MASS_FLOW:
  case QUANTITY_VOLUME_FLOW:
    return fabs (value) >= 99.95 ? 0 : fabs (value) >= 9.995 ? 1 : unit->decimals;
  default:
    return unit->decimals;
  }
}

const struct unit *
text_unit (const struct scene *scene, enum quantity quantity)
{
  static const struct unit_choices usual = { PRESSURE_IN_BAR, TEMPERATURE_IN_CELSIUS };

  return unit_shown (quantity, scene->units != NULL ? scene->units : &usual);
}

static void
with_unit (double value, int places, const struct unit *unit, char text[MEASURE_MAX])
{
  g_autofree char *number = number_shown (value, places);

  g_snprintf (text, MEASURE_MAX, "%s%s%s", number, unit->symbol[0] != '\0' ? NARROW_SPACE : "", unit->symbol);
}

void
text_measure (const struct scene *scene, enum quantity quantity, double si, char text[MEASURE_MAX])
{
  const struct unit *unit = text_unit (scene, quantity);
  double value = unit_from_si (unit, si);

  with_unit (value, decimals (unit, value), unit, text);
}

void
text_whole (const struct scene *scene, enum quantity quantity, double si, char text[MEASURE_MAX])
{
  const struct unit *unit = text_unit (scene, quantity);

  with_unit (unit_from_si (unit, si), 0, unit, text);
}

void
text_micrometres (double si, char text[MEASURE_MAX])
{
  g_autofree char *number = number_shown (si * 1e6, fabs (si) < 9.95e-6 ? 1 : 0);

  g_snprintf (text, MEASURE_MAX, "%s" NARROW_SPACE "µm", number);
}

void
text_millimetres (double millimetres, char text[MEASURE_MAX])
{
  text_number (millimetres, fabs (millimetres - round (millimetres)) < 0.05 ? 0 : 1, text);
}

void
text_ratio (double factor, char text[MEASURE_MAX])
{
  g_autofree char *number = number_shown (factor, factor >= 10 || fabs (factor - round (factor)) < 0.01 ? 0 : 1);

  g_snprintf (text, MEASURE_MAX, "%s" NARROW_SPACE ":" NARROW_SPACE "1", number);
}
