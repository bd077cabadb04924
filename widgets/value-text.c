#include "value-text.h"

#include "number-text.h"

#include <glib.h>
#include <math.h>

#define DIGITS 2         /* that a small value must show */
#define DECIMALS_MAX 5
#define MICRO_BELOW 1e-4 /* m: under a tenth of a millimetre lengths are said in micrometres */

static const struct unit *
unit_for (double si, enum quantity quantity, const struct unit_choices *choices)
{
  const struct unit *unit = unit_shown (quantity, choices);

  if (quantity == QUANTITY_LENGTH && si != 0 && fabs (si) < MICRO_BELOW) {
    const struct unit *micro = unit_find ("µm", quantity);
    if (micro)
      unit = micro;
  }
  return unit;
}

/* Decimals at which value shows DIGITS digits, at least the usual ones. */
static int
decimals_for (double value, int usual)
{
  int decimals = usual;

  if (value == 0 || !isfinite (value))
    return usual;
  while (decimals < DECIMALS_MAX && fabs (value) * pow (10, decimals) < pow (10, DIGITS - 1))
    decimals++;
  return decimals;
}

static char *
with_unit (double value, int decimals, const struct unit *unit)
{
  g_autofree char *number = number_shown (value, decimals);

  if (!unit || !unit->symbol[0])
    return g_steal_pointer (&number);
  return g_strconcat (number, "\u202f", unit->symbol, NULL);
}

char *
value_text (double si, enum quantity quantity, const struct unit_choices *choices)
{
  const struct unit *unit = unit_for (si, quantity, choices);
  double value = unit ? unit_from_si (unit, si) : si;

  return with_unit (value, decimals_for (value, unit ? unit->decimals : 3), unit);
}

void
value_text_pair (double before_si, double after_si, enum quantity quantity, const struct unit_choices *choices,
                 char **before, char **after)
{
  const struct unit *unit = unit_for (MAX (fabs (before_si), fabs (after_si)), quantity, choices);
  double first = unit ? unit_from_si (unit, before_si) : before_si;
  double second = unit ? unit_from_si (unit, after_si) : after_si;
  int decimals = decimals_for (MAX (fabs (first), fabs (second)), unit ? unit->decimals : 3);

  while (decimals < DECIMALS_MAX && first != second && fabs (first - second) * pow (10, decimals) < 1)
    decimals++;
  *before = number_shown (first, decimals);
  *after = with_unit (second, decimals, unit);
}

char *
value_text_set (double si, const struct unit *unit, bool with_symbol)
{
  double value = unit_from_si (unit, si);
  int decimals = 0;

  while (decimals < MIN (DECIMALS_MAX, unit->decimals + 1)
         && fabs (value * pow (10, decimals) - round (value * pow (10, decimals))) > 1e-6)
    decimals++;
  return with_symbol ? with_unit (value, decimals, unit) : number_shown (value, decimals);
}
