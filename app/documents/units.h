/* Units at the border: one closed table of our own. */
#ifndef DOCUMENTS_UNITS_H
#define DOCUMENTS_UNITS_H

#include "quantity.h"

#include <stdbool.h>

struct unit {
  const char *symbol;   /* as shown and written in documents: "bar", "°C", "cm³ in 30 s" */
  const char *aliases;  /* accepted besides, separated by |: "degC|C"; no case folding but as listed */
  const char *key;      /* suffix of JSON keys: "bar", "deg_c", "kg_per_h" */
  enum quantity quantity;
  double factor, offset; /* SI = typed * factor + offset */
  int decimals;          /* usual number of decimals on the screen */
};

extern const struct unit units[];
extern const int unit_count;

/* The unit of that symbol or alias that fits the quantity, or NULL. (A pressure unit fits a pressure difference too; a
 * temperature is never a temperature difference. Vacuum units fit a pressure difference only.) White space,
 * superscripts and look-alike signs do not matter: "cm3 in 30s" is "cm³ in 30 s". Every quantity has at least one unit;
 * a symbol may stand in two rows where gauge pressures and differences are shown with different decimals. */
const struct unit *unit_find (const char *symbol, enum quantity quantity);
/* Every spelling that a document may use for the unit: its symbol, the same in plain letters, its aliases.
 * NULL-terminated; free with g_strfreev. */
char **unit_spellings (const struct unit *unit);
/* Whether text is one of them. */
bool unit_is_spelled (const struct unit *unit, const char *text);
/* Whether any quantity knows that symbol: to tell "unknown unit" from "a unit of something else". */
const struct unit *unit_any (const char *symbol);

/* The unit a quantity is shown in under the person's choices. */
enum pressure_choice { PRESSURE_IN_BAR, PRESSURE_IN_KPA, PRESSURE_IN_PSI };
enum temperature_choice { TEMPERATURE_IN_CELSIUS, TEMPERATURE_IN_FAHRENHEIT };
struct unit_choices { enum pressure_choice pressure; enum temperature_choice temperature; };
const struct unit *unit_shown (enum quantity quantity, const struct unit_choices *choices);

double unit_to_si (const struct unit *unit, double value);
double unit_from_si (const struct unit *unit, double si);

#endif
